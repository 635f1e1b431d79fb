// The page for whoever designs the machine: what opens, what does not, what would. English. Figures in SI, unit beside each.

const round = (x: number, digits: number): string => String(Number(x.toFixed(digits)))
export const ampere = (x: number): string => `${x >= 100 ? Math.round(x) : x >= 10 ? round(x, 1) : round(x, 2)} A`
export const metre = (x: number): string => `${round(Math.floor(x * 10) / 10, 1)} m`
export const volt = (x: number): string => `${round(x, 1)} V`
export const second = (x: number): string => (x < 1 ? `${round(x * 1000, 1)} ms` : `${round(x, 2)} s`)

interface Verdict {
  readonly opens: 'always' | 'up to' | 'never' | 'perhaps' | 'not known'
  readonly upTo: number
  readonly endsIn?: string
  readonly neverPast: number
  readonly missing: readonly string[]
  readonly fromMemory?: string
}
export const verdictWord: Readonly<Record<Verdict['opens'], string>> = {
  always: 'opens everywhere',
  'up to': 'opens up to',
  never: 'does not open',
  perhaps: 'not certain',
  'not known': 'NOT KNOWN',
}
/** `length`: metres to the branch's farthest end. */
export const verdictWords = (v: Verdict, length: number): string => {
  if (v.opens === 'up to') return `opens up to ${metre(v.upTo)}`
  if (v.opens === 'perhaps')
    return v.neverPast < length - 0.1 ? `may open up to ${metre(v.neverPast)}, not certain` : 'may open, not certain'
  return verdictWord[v.opens]
}
const lacking: Readonly<Record<string, string>> = {
  device: 'what device there is',
  rating: 'the device’s rating',
  characteristic: 'the breaker’s characteristic (B, C, D)',
  'declared magnetic value': 'the magnetic value declared on the breaker',
  'kind of fuse': 'the kind of fuse (quick, slow)',
  'data sheet': 'set current and time from the device’s data sheet',
  'confirmed figure': 'a published figure for this device and time',
  wiring: 'the branch’s wiring',
  conductor: 'the area of its conductors',
  'supply limit': 'the current that the supply gives at most',
  'supply behaviour': 'for how long the supply gives its limit before it pulses or shuts off',
  'load of other branches': 'what the other branches draw',
}
/** What is missing, loud; nothing where the answer is known. */
export const missingWords = (v: Verdict): string =>
  v.missing.length === 0
    ? ''
    : `Not known: ${v.missing.map(m => lacking[m] ?? m).join('; ')}.${v.fromMemory ? ` By figures from memory: ${v.fromMemory}.` : ''}`

export const laterWords: Readonly<Record<string, string>> = {
  'within a minute': 'Thermally: within 60 s at the far end, from 2.55 times the rating.',
  'within an hour': 'Thermally: within 1 h at the far end, from 1.45 times the rating.',
  'not in an hour': 'Thermally: not within 1 h, up to 1.13 times the rating.',
  'not known': 'Thermally: not known.',
  'supply does not last': 'Thermally: not to be counted on. The supply is not known to hold its current.',
}
interface Figures {
  readonly lowNear: number
  readonly lowFar: number
  readonly highNear: number
}
export const figureWords = (f: Figures, band: { readonly holds: number; readonly opens: number }): string => {
  const closed = band.holds === Infinity ? 'There is no device.' : `Stays closed up to ${ampere(band.holds)}`
  const open =
    band.holds === Infinity
      ? ''
      : band.opens === Infinity
        ? '; opening current not known.'
        : `; opens for certain from ${ampere(band.opens)}.`
  return `Short circuit: ${ampere(f.highNear)} at most at the terminals, ${ampere(f.lowFar)} at least at the far end. ${closed}${open}`
}
interface Protection {
  readonly kind: string
  readonly rating?: number
  readonly curve?: string
}
export const deviceWords = (p: Protection | undefined): string => {
  if (p === undefined) return 'not known'
  if (p.kind === 'none') return 'no device'
  const kind = p.kind === 'breaker' ? '' : `${p.kind} `
  return `${kind}${p.curve ?? (p.kind === 'breaker' ? 'breaker ' : '')}${p.curve ? ' ' : ''}${p.rating === undefined ? '? A' : `${p.rating} A`}`.trim()
}

interface Advice {
  readonly breaker?: { readonly rating: number; readonly curve: string }
  readonly area?: number
  readonly supply?: number
  readonly electronic?: { readonly above: number; readonly most: number }
  readonly halves?: {
    readonly first: readonly string[]
    readonly second: readonly string[]
    readonly rating: number
    readonly curve: string
  }
}
/** One sentence for each way, its source at the end. */
export const adviceWords = (a: Advice): readonly string[] => [
  ...(a.breaker
    ? [`A breaker ${a.breaker.curve} ${a.breaker.rating} A at most would open at the far end (IEC 60898-1; d.c. factor: common practice).`]
    : []),
  ...(a.area ? [`Conductors of ${a.area} mm² would let the present device open at the far end (IEC 60228).`] : []),
  ...(a.supply ? [`A supply that gives ${a.supply} A for 0.1 s would let the present device open at the far end.`] : []),
  ...(a.electronic
    ? [
        `An electronic device set above ${ampere(a.electronic.above)} and to at most ${ampere(Math.floor(a.electronic.most * 10) / 10)} would open (common practice, no source; its data sheet decides).`,
      ]
    : []),
  ...(a.halves
    ? [
        `Two branches, ${a.halves.first.join(', ')} and ${a.halves.second.join(', ')}, each on ${a.halves.curve} ${a.halves.rating} A, would open at both far ends (common practice).`,
      ]
    : []),
]
export const noAdvice = 'Nothing certain can be named with the figures that are known.'

interface Guarded {
  readonly is: string
  readonly run?: string
  readonly area?: number
  readonly carries?: number
  readonly short?: { readonly ampere: number; readonly bears: number; readonly opensIn: number }
}
const guards: Readonly<Record<string, string>> = {
  'by the device': 'protected by the device',
  'by the supply': 'protected by the supply’s limit alone',
  no: 'NOT protected',
  'not known': 'protection NOT KNOWN',
}
export const guardWords = (g: Guarded): string => {
  const head = `Conductor ${guards[g.is] ?? g.is}`
  if (g.carries === undefined || g.area === undefined || g.short === undefined) return `${head}.`
  const bears = g.short.bears >= 5 ? '5 s or more' : second(g.short.bears)
  const opens = g.short.opensIn === Infinity ? 'not certain to open by then' : `opens in ${second(g.short.opensIn)}`
  return `${head}: run ${g.run}, ${round(g.area, 2)} mm², carries ${ampere(g.carries)}; bears ${ampere(g.short.ampere)} for ${bears}, device ${opens}.`
}
export const dropWords = (load: string, volts: number, drop: number, rated: number): string => {
  const percent = (100 * drop) / rated
  const least = volts >= 20.4 ? 'within' : 'BELOW'
  const most = percent <= 5 ? 'within' : 'MORE THAN'
  return `Full load: ${volt(volts)} left at ${load}, ${least} the 20.4 V of IEC 61131-2; drop ${round(percent, 1)} %, ${most} 5 % (IEC 60364-5-52).`
}

export const page = {
  title: 'Why the device did not open',
  lead: 'For whoever designs or changes the machine. Advice, never an instruction to refit now.',
  known: 'Figures that somebody may know',
  reserve: 'Supply gives for a short time, A',
  reserveSeconds: '… for, s',
  holds: 'Supply holds its limit for, s',
  breakers: 'Breakers are built to',
  fuses: 'Fuses are',
  unknown: 'not known',
  table: 'What opens',
  branch: 'Branch',
  device: 'Device',
  atOnce: 'At once (0.1 s)',
  inTime: 'Within 5 s',
  change: 'What would open',
  switching: 'Switching on again',
  assumptions: 'Taken for granted',
  sources: 'Sources',
  print: 'Print, or save as PDF',
  csv: 'Table (CSV)',
  back: 'Back',
  service: 'All loads on',
} as const

export const fuseNames: Readonly<Record<string, string>> = {
  F: 'quick (F), IEC 60127-2',
  T: 'slow (T), IEC 60127-2',
  UL: 'UL 248-14',
  blade: 'blade, ISO 8820-3',
}

export const supplyWords = (
  volts: number,
  limit: number | undefined,
  mode: string | undefined,
  draws: number,
  overloaded: boolean,
): string => {
  const gives = limit === undefined ? 'its limit is NOT KNOWN' : `gives at most ${ampere(limit)}`
  const how: Readonly<Record<string, string>> = {
    'constant-current': 'as a steady current',
    hiccup: 'then pulses',
    'latch-off': 'then shuts off',
  }
  return `The supply has ${volt(volts)} and ${gives}${limit !== undefined && mode !== undefined ? `, ${how[mode] ?? 'then does what is NOT KNOWN'}` : ''}. All loads on draw ${ampere(draws)}${overloaded ? ': MORE than the supply gives' : ''}.`
}

export const switchingWords = (fits: string, asUsual: boolean | undefined, atLimit: number, guessed: number): string => {
  if (asUsual === undefined)
    return 'The supply’s limit is NOT KNOWN: whether in-rush stays within it is not known either. Wait 1 s after each.'
  const by = guessed > 0 ? `By usual in-rush figures for ${guessed} loads without a data sheet: ` : ''
  const word =
    fits === 'not known'
      ? asUsual
        ? 'within the limit, not certain'
        : 'past the limit'
      : fits === 'yes'
        ? 'within the limit'
        : 'past the limit'
  const shown = by === '' ? `${word.charAt(0).toUpperCase()}${word.slice(1)}` : `${by}${word}`
  return `${shown}${atLimit > 0 ? `, for ${second(atLimit)} in all` : ''}.`
}
export const waitWords = (wait: number, past: boolean): string =>
  `${wait === 0 ? 'at once' : `after ${second(wait)}`}${past ? '; alone it takes the supply to its limit' : ''}`

export const assumptions: readonly string[] = [
  'A short circuit of no resistance between plus and 0 V, as “prospective” means. A real one has up to 0.3 Ω (common practice): then fewer metres.',
  'A short circuit to earth returns through machine parts whose resistance is not known: not reckoned here.',
  'Lowest current: conductors at 70 °C and at the table’s maximum, all other branches drawing their full load, this one none.',
  'Highest current: conductors at 5 °C and 8 % under the maximum, all other branches off.',
  'Devices about 0.25 Ω over their rating, joints 0.5 mΩ, supply and leads 14 mΩ (common practice, no source).',
  'Between “stays closed” and “opens for certain” a breaker may do either: no standard says which.',
  'On direct current the magnetic part needs up to 1.5 times the current (common practice, no standard).',
  '0.1 s: the time of the magnetic test points. 5 s: up to there a conductor’s heating counts as without loss. Extra-low voltage has no disconnecting time against shock.',
  'Cables on a surface in air of 40 °C, two or three loaded cores, not bundled.',
  'In-rush where no data sheet is known: lamp 10 times, motor 6 times, electronic input 20 times for 1 ms (usual figures).',
]
export const sources: readonly string[] = [
  'IEC 60898-1:2015 Tables 2 and 7: test points and magnetic bands (clause numbers from memory).',
  'IEC 60947-2 Table 6: 1.3 times in 1 h. IEC 60127-2 sheets 2 and 3, UL/CSA 248-14: fuse gates, published ones only.',
  'IEC 60228, IEC 60028: conductor resistance. DIN VDE 0298-4 Table 11: current-carrying capacity.',
  'IEC 60364-4-43: overload 433.1, heat 434.5.2, k = 115 for PVC (numbers from memory; k follows from IEC 60949).',
  'IEC 61131-2:2007: 24 V less 15 %. IEC 60364-5-52 Table G.52.1: 5 % drop; IEC 60204-1 12.5 has the same (from memory).',
  'IEC 60204-1 4.4.3: air from 5 °C to 40 °C (from memory).',
]
export const columns = [
  'branch',
  'device',
  'length m',
  'opens at once',
  'certain up to m',
  'never past m',
  'opens within 5 s',
  'stays closed up to A',
  'opens for certain from A',
  'short at far end at least A',
  'short at terminals at most A',
  'not known',
  'load A',
  'last load',
  'volts at last load V',
  'drop V',
  'conductor',
  'carries A',
  'what would open',
  'close as number',
  'wait s',
  'peak A',
] as const

export const hereWords = (branch: string, metres: string, low: number, high: number): string =>
  `This session’s short circuit was in branch ${branch}, ${metres} from the cabinet. There it drew ${ampere(low)} to ${ampere(high)} while the supply gave it.`
export const currentAlt = (branch: string, verdict: string): string =>
  `Current of a short circuit along branch ${branch} beside its device: ${verdict}.`
export const inrushAlt = (peak: number, seconds: number): string =>
  `Current from the supply while switching on: ${ampere(peak)} at most, over ${second(seconds)}.`
export const drawn = {
  amps: 'A',
  metres: 'm',
  seconds: 's',
  opens: 'opens',
  closed: 'stays closed',
  between: 'may open',
  limit: 'limit',
  legend: 'Thick: lowest. Dashed: highest. Grey: may open or not.',
} as const
