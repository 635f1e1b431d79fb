// Cautions in own words, each with where the practice comes from. National rules come first. English.

export const cautions = {
  'before-work': {
    title: 'Check these before work',
    points: [
      'The site’s rules and local law come first. There is permission for this work.',
      'The machine is stopped. Nothing hangs or is held up by pressure.',
      'People near the machine know of the work.',
      'Someone authorised can switch the supply off and lock it, at its own switch or breaker. A push-button is not enough.',
      'Covers of the mains side stay shut, unless electrically qualified. Mains can be right beside the 24 V.',
      '24 V is not harmless: it starts machines, a short circuit burns, and conductors can be hot.',
      'The meter, its leads and a battery to test it on are at hand. Never an insulation tester: it breaks electronics.',
      'What was worked on or washed down last is known.',
      'A photo of the device settings is taken. Spare fuses and cable are at hand.',
    ],
    done: 'All of it is so',
    source: 'EN 50110-1, the five rules; 29 CFR 1910.147(d)(1) to (d)(6); 29 CFR 1910.333(b)(2)',
  },
  'voltage-may-return': {
    title: 'Voltage may come back: make sure first',
    points: [
      'All people are clear of moving parts.',
      'Control power can start a machine. Motion is secured: nothing can start, fall or close.',
      'Suspended loads rest. Stored pressure is let out or shut off.',
      'No loose conductor can touch anything.',
    ],
    done: 'People are clear',
    source: '29 CFR 1910.147(e), release from lockout; 29 CFR 1910.333(b)(2)(v), re-energising (clauses from memory)',
  },
  injection: {
    title: 'The current source can start loads: make sure first',
    points: [
      'All people are clear of moving parts. Motion is secured.',
      'Suspended loads rest. Stored pressure is let out or shut off.',
      'The device of this branch is open and stays open.',
      'The source is isolated, limited to 24 V, its current below what conductor and device are rated for.',
      'It stays on only while readings are taken.',
    ],
    done: 'People are clear',
    source: 'Common practice, no source; energising as in 29 CFR 1910.147(e) (clause from memory)',
  },
  'switch-on-again': {
    title: 'A short circuit may still be there: make sure first',
    points: [
      'All people are clear of moving parts. Motion is secured.',
      'Suspended loads rest. Stored pressure is let out or shut off.',
      'It is switched on once, for at most 60 seconds.',
      'If the supply goes down again, it is switched off at once. With these devices closed it stays off.',
      'No one stands in front of an open cabinet.',
    ],
    done: 'People are clear',
    source: '29 CFR 1910.334(b)(2), no repeated reclosing before the cause is known (from memory)',
  },
  'opening-live-device': {
    title: 'Opening this device can bring the rest back',
    points: [
      'All people are clear of moving parts. Motion is secured.',
      'Suspended loads rest. Stored pressure is let out or shut off.',
      'A fuse is never pulled under load: the supply is off for that.',
    ],
    done: 'People are clear',
    source: 'EN 50110-1, fuses and plugs without load (from memory); common practice, no source',
  },
  'not-extra-low-voltage': {
    title: 'Stop. This is not 24 V',
    points: [
      'Take the probes away. Touch nothing in the cabinet.',
      'Isolate the machine upstream and lock it.',
      'Keep others away from the machine.',
      'Call a licensed electrician.',
    ],
    done: 'Session is closed',
    source: '60 V d.c., 25 V a.c.: limits without basic protection, dry, IEC 60364-4-41:2005, 414.4.5 (60 V from memory)',
  },
  'voltage-stays': {
    title: 'Voltage is still there: find where it comes from',
    points: [
      'A voltage that stays or climbs comes from another supply, a buffer module or a capacitor.',
      'The switch that was locked may be the wrong one.',
      'No ohms and no loosened conductor until it is dead.',
      'After the source is found and off, it is proved dead again.',
    ],
    done: 'Source found and off',
    source: '29 CFR 1910.333(b)(2)(ii)(C), stored energy; (b)(2)(iv), backfeed',
  },
  'mains-side': {
    title: 'Work on the mains side: who does it',
    points: [
      'An electrically qualified person is here and does the work on the mains side.',
      'That person isolates the mains, locks it and proves it dead before a cover is opened.',
      'Local codes decide who is qualified or licensed for it.',
      'Without such a person the job is handed over: tap ‘Can’t do it’.',
    ],
    done: 'Qualified person is here',
    source: '29 CFR 1910.333(c)(2), qualified persons; EN 50110-1 and NFPA 70E (both from memory)',
  },
}
