// Why a step is asked for: one sentence of facts each. English.

type Facts = Readonly<Record<string, string | number>>
const of = (facts: Facts, key: string) => String(facts[key] ?? '?')
const yes = (fact: string | number | undefined) => fact !== undefined && !['', '0', 'no', 'false'].includes(String(fact))
/** 'Branches B1, B2 and 4 more', where the list is shorter than the count. */
const branches = (f: Facts): string => {
  const list = of(f, 'branches').split(', ')
  const more = Number(f['count'] ?? 0) - list.length
  return `${list.length + Math.max(0, more) > 1 ? 'Branches' : 'Branch'} ${list.join(', ')}${more > 0 ? ` and ${more} more` : ''}`
}

/** A number of metres for a sentence: '0.8 m', '12 m'. */
const metres = (fact: string | number | undefined) => {
  const value = Number(fact)
  return Number.isFinite(value) ? `${value < 10 ? Math.round(value * 10) / 10 : Math.round(value)} m` : `${fact ?? '?'} m`
}

const sentences: Readonly<Record<string, (facts: Facts) => string>> = {
  'mains-first': () => 'Without mains no 24 V supply works. The lamp tells it without a tool.',
  'lamp-tells': () => 'The supply’s lamp tells overload, no output and healthy apart, in five seconds.',
  'supply-off-first': () => 'Ohms and loosened conductors need a circuit without voltage.',
  'prove-dead-first': () => 'Only three readings prove it dead. A lamp that is off proves nothing.',
  'prove-dead-again': () => 'Voltage may have come back since it was last proved dead.',
  'device-past': f => `With its device open, a reading at branch ${of(f, 'branch')} sees its own wiring alone.`,
  group: f =>
    `${branches(f)} hold${Number(f['count']) === 1 ? 's' : ''} ${of(f, 'p')} of 100. One reading clears or names ${Number(f['count']) === 1 ? 'it' : 'them'}.`,
  likeliest: f =>
    `Branch ${of(f, 'branch')} holds ${of(f, 'p')} of 100${f['metres'] === undefined ? '' : `: ${metres(f['metres'])} of wiring${yes(f['moving']) ? ', part of it moving' : ''}`}.`,
  narrow: f => `This narrows the place in branch ${of(f, 'branch')} from ${metres(f['before'])} to about ${metres(f['after'])}.`,
  kind: f => `This tells which kind of fault branch ${of(f, 'branch')} has: to 0 V, to earth or in a load.`,
  current: f => `The current in branch ${of(f, 'branch')} turns volts into ohms: it must be known.`,
  inject: f =>
    `Millivolts at a known current place the fault in branch ${of(f, 'branch')} within ${metres(f['after'])}, ohms only within ${metres(f['before'])}.`,
  'trace-volts': f => `An open conductor in branch ${of(f, 'branch')} leaves no voltage past it. This branch holds ${of(f, 'p')} of 100.`,
  'trace-ohms': f => `Loads past an open conductor are missing from the ohms. Branch ${of(f, 'branch')} holds ${of(f, 'p')} of 100.`,
  'zero-leads': f => `Zeroed leads narrow the place from ${metres(f['before'])} to about ${metres(f['after'])}.`,
  'go-look': f => `This place holds ${of(f, 'p')} of 100. Looking takes about ${of(f, 'seconds')} s, less than measuring on.`,
  'put-back': () => 'What was opened or unplugged for measuring goes back as it was found.',
  'check-mend': f => `Clean ohms in branch ${of(f, 'branch')} show that the mend holds, before voltage is on it.`,
  'prove-restored': () => 'Only a steady lamp and the right voltage prove that the control voltage is back.',
  'device-look': f => `A device may have opened by itself. Branch ${of(f, 'branch')} is read wrongly if so.`,
  'after-energising': f => `Voltage was on since the last look. The device of branch ${of(f, 'branch')} may have opened.`,
  'load-aside': f => `Load ${of(f, 'load')} sits across the conductors of branch ${of(f, 'branch')} and bends the reading.`,
  'switch-on': () => 'The next look or reading needs the supply on.',
  repeat: () => 'The last reading fits badly with those before it. A second one settles it.',
}

export const whyKeys: readonly string[] = Object.keys(sentences)

/** The reason in a sentence; empty for a key that has no words. */
export const whySentence = (why: { readonly key: string; readonly facts: Facts }): string => sentences[why.key]?.(why.facts) ?? ''
