// What the parts below the screens say of a file, an answer or the store. Their sentences are English and fixed: the drive and the
// desk speak them too. Here each stands once, with {1}, {2} … for its facts; a language gives the same in its words. A fact may be
// one of these phrases itself. What fits none is shown as it came.

/** The first that fits counts: what says more stands before what says less. */
export const PROBLEMS = {
  // A whole sentence on one field.
  ohmPast: 'value is {1}, but a resistance read here lies from {2} to {3} Ω; past that the display says OL.',
  ohm: 'value is {1}, but a resistance read here lies from {2} to {3} Ω.',
  volt: 'value is {1}, but a voltage read here lies from {2} to {3} V.',
  amp: 'value is {1}, but a current read here lies from {2} to {3} A.',
  missing: '{1} is missing: it must be {2}.',
  missingWanted: '{1} is missing: {2}.',
  wrong: '{1} is {2}, but must be {3}.',
  wrongWanted: '{1} is {2}, but {3}.',
  // The store, the seal, the desk.
  quota: 'Not saved: this phone has no space left. Free some space, then try again.',
  takenOver: 'The log was taken over by a newer version of this app, or cleared. Reload the app.',
  newer: 'The log was made by a newer version of this app. Reload the app.',
  elsewhere: 'Not saved: this session went on in another window. Reload the app.',
  closed: 'The browser closed the log. Try again, or reload the app.',
  storage: 'The browser’s storage failed ({1}).',
  notInLog: 'This session is not in the log.',
  gone: 'A session is not in the log any more.',
  notSaved: 'Not saved: this session is not in the log.',
  noStart: 'A session begins with its start.',
  tellings: 'Nothing was taken in: session {1} is told in more than {2} ways.',
  photos: 'A session holds at most {1} photos.',
  notTaken: 'Session {1}: {2} Nothing was taken in.',
  eventChanged: 'Event {1} or one before it was changed, moved, added or removed after it was sealed.',
  sealedWith: 'It was sealed with {1} events, but holds {2}.',
  changed: 'Its events were changed, moved, added or removed after it was sealed.',
  older: 'The noted head is that of event {1}: {2} events came after it was noted.',
  otherHead: 'Its head is not the noted one: events are missing at its end, or it was changed and sealed anew.',
  desk: 'The desk answered {1} to {2}.',
  deskUnknown: 'The desk answered in a way that is not known.',
  noMachine: 'the label holds no machine file.',
  // What stands there.
  file: 'the file',
  label: 'the label',
  value: 'value',
  volts: 'volts',
  nothing: 'nothing',
  // What is wanted.
  wantedNumber: 'a number from {1} to {2} is wanted',
  anyNumber: 'a number is wanted',
  numberOrOl: 'a number, or OL, is wanted',
  wantedFlag: 'true or false is wanted',
  onlyVolt: 'only a voltage can be a.c. here',
  noOl: 'OL is no word for a current here; the number that the display shows is wanted',
  wantedDone: 'true is wanted once it is done, or cannot with the reason',
  look: 'this look is answered with one of {1}',
  ended: 'the session has ended',
  wantedObject: 'an object is wanted',
  reason: 'the reason in at most {1} characters is wanted',
  // What it must be.
  number: 'a number from {1} to {2}',
  positive: 'a number above 0 and at most {1}',
  whole: 'a whole number from {1} to {2}',
  finite: 'a finite number',
  flag: 'true or false',
  oneOfEach: 'one of {1}: each has a load {2}',
  objectWith: 'an object with one of {1}',
  oneOf: 'one of {1}',
  textMost: 'a text of at most {1} characters',
  textFrom: 'a text of 1 to {1} characters',
  listFrom: 'a list of {1} to {2}',
  listOf: 'a list of {1}',
  object: 'an object',
  lines: 'of at most {1} lines',
  time: 'a time with its offset, as {1}',
  hex: '64 hexadecimal digits',
  bytesLong: 'at most {1} bytes long',
  levels: 'at most {1} levels deep',
  bytes: 'at most {1} bytes',
  jpeg: 'a JPEG of at most {1} pixels a side',
  noExif: 'without Exif and comments',
  noMeter: 'no meter: a session is read with one',
  noRest: '{1} bytes long, where its picture ends',
  base64: 'at most {1} characters of base64',
  ofData: '{1}, that of its data',
  sessionId: '1 to 100 letters, digits and hyphens',
  onlyVersion: '1, the only one that this app reads',
  noGap: '{1}: no event may be missing or out of order',
  together: 'of at most {1} events together',
  readable: 'a {1} that can be read: {2}',
  signs: 'without ‘/’ and ‘.’, which part the names of points',
  reserved: 'another word: this one is reserved',
  cabinet: 'another word: this one names a point of the cabinet',
  knownFields: 'left out: the known fields here are {1}',
  forElectronic: 'left out: only an electronic load has one at its input',
  forBreaker: 'left out: it is for a breaker',
  forFuse: 'left out: it is for a fuse',
  noDevice: 'left out: there is no device',
  noLoad: 'left out: no load is known',
  symptom: 'left out where the symptom is {1}',
  carries: 'above the {1} A that it carries',
  limit: 'above the limit of {1} A',
  otherBranch: 'unlike the id of every other branch',
  otherRun: 'unlike the id of every other run in the machine',
  otherJunction: 'unlike the id of every junction',
  otherLoad: 'unlike the id of the branch’s every other load',
  ownJunction: '‘terminals’ or a junction of the branch’s wiring',
  ledTo: '‘terminals’ or a junction that a run leads to',
  farther: 'a junction farther out: wiring must not form a loop',
  onlyOne: 'a junction that no other run leads to: wiring must not form a loop',
  reachable: 'a junction that can be reached from the terminals: here runs form a loop',
  fileVersion: '{1} (the file’s version is {2})',
  fileFormat: '{1} (the file’s format is {2})',
}
export type ProblemWords = Readonly<Record<keyof typeof PROBLEMS, string>>

const escaped = (text: string): string => text.replace(/[.*+?^$()|[\]\\]/g, '\\$&')
const PATTERNS = Object.entries(PROBLEMS).map(([key, text]) => ({
  key: key as keyof ProblemWords,
  // The layers below write straight marks.
  pattern: new RegExp(
    `^${escaped(text)
      .replace(/\{\d\}/g, '(.+?)')
      .replace(/[‘’]/g, "['‘’]")}$`,
    's',
  ),
}))
/** A sentence of the layers below in a language; `written` gives numbers its decimal sign. */
export const problemsFrom = (own: ProblemWords, written: (text: string) => string) => {
  const told = (text: string): string => {
    for (const { key, pattern } of PATTERNS) {
      const facts = pattern.exec(text)
      if (facts) return own[key].replace(/\{(\d)\}/g, (_, n: string) => told(facts[Number(n)] ?? ''))
    }
    return /^-?\d+\.\d+( \S+)?$/.test(text) ? written(text) : text
  }
  return told
}
