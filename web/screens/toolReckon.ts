// The measuring tool's arithmetic: from what was typed to a cable, what each method will give, and a place.
import { type Cable, cableOf } from '../../engine/cable.ts'
import { COST } from '../../engine/cost.ts'
import { type Foretold, feeds, foretell, type Setting, type Stretch, secondsOf } from '../../engine/foretell.ts'
import { type Instrument, instrumentOf } from '../../engine/instrument.ts'
import type { Conductor } from '../../engine/machine.ts'
import { type Estimate, estimate, type Method, type Readings } from '../../engine/method.ts'
import { type SourceRefusal, supplyRefused } from '../../engine/source.ts'

export const SIZES = ['0.25', '0.34', '0.5', '0.75', '1', '1.5', '2.5', '4', '6'] as const
export const GAUGES = [24, 22, 20, 18, 16, 14, 12] as const
export const MODES = ['constant-current', 'hiccup', 'latch-off', 'unknown'] as const

/** What stands in the form, as it was typed or picked. */
export interface Typed {
  readonly length: string
  readonly percent: '0' | '5' | '10'
  /** mm², or `awg` and the gauge. */
  readonly size: string
  readonly kind: 'flexible' | 'stiff'
  readonly celsius: string
  readonly back: 'core' | 'chassis'
  readonly step: '0.1' | '0.01'
  readonly source: 'none' | 'injector' | 'supply'
  readonly ampere: string
  readonly mode: (typeof MODES)[number]
  readonly rating: string
  readonly taps: string
}
export const UNTYPED: Typed = {
  length: '',
  percent: '5',
  size: '0.75',
  kind: 'flexible',
  celsius: '',
  back: 'core',
  step: '0.1',
  source: 'none',
  ampere: '1',
  mode: 'unknown',
  rating: '',
  taps: '',
}

/** A cable ready to be measured. */
export interface Job {
  readonly cable: Cable
  readonly tools: Instrument
  readonly setting: Setting
  readonly source: Typed['source']
  readonly refused?: SourceRefusal
}
/** The first field that is wrong, and between what it must lie. */
export interface Wrong {
  readonly field: 'length' | 'celsius' | 'ampere' | 'rating' | 'taps'
  readonly found: string
  readonly low: number
  readonly high: number
}
export const LIMITS = {
  length: { low: 0.5, high: 2000 },
  celsius: { low: -40, high: 120 },
  ampere: { low: 0.05, high: 40 },
  rating: { low: 0.05, high: 125 },
} as const

/** A number typed with comma or point; undefined for anything else. */
export const numberOf = (text: string): number | undefined => {
  const plain = text.trim().replace(',', '.').replace('−', '-')
  return /^-?\d+(\.\d*)?$|^-?\.\d+$/.test(plain) ? Number(plain) : undefined
}

/** Junctions as typed: a semicolon or space between, since a comma is a decimal sign. Undefined where one of them is no place on the cable. */
const tapsOf = (text: string, length: number): readonly number[] | undefined => {
  if (text.trim() === '') return [0, 0.25, 0.5, 0.75, 1].map(part => part * length)
  const found = text
    .split(/[;\s]+/)
    .filter(word => word !== '')
    .map(numberOf)
  const right = found.filter((at): at is number => at !== undefined && at >= 0 && at <= length)
  const apart = [...new Set(right)].sort((a, b) => a - b)
  return right.length === found.length && apart.length >= 2 ? apart : undefined
}

const conductorOf = ({ size, kind }: Typed): Conductor => {
  if (size.startsWith('awg')) return { awg: Number(size.slice(3)), stranded: kind === 'flexible' }
  return { area: Number(size), class: kind === 'flexible' ? 5 : 2 }
}

export const jobOf = (typed: Typed): { readonly ok: true; readonly job: Job } | { readonly ok: false; readonly wrong: Wrong } => {
  let wrong: Wrong | undefined
  const field = (name: keyof typeof LIMITS, text: string): number => {
    const { low, high } = LIMITS[name]
    const value = numberOf(text)
    if (value === undefined || value < low || value > high) wrong ??= { field: name, found: text, low, high }
    return value ?? low
  }
  const length = field('length', typed.length)
  const celsius = typed.celsius.trim() === '' ? undefined : field('celsius', typed.celsius)
  const ampere = typed.source === 'none' ? LIMITS.ampere.low : field('ampere', typed.ampere)
  const rating = typed.source !== 'supply' || typed.rating.trim() === '' ? undefined : field('rating', typed.rating)
  const taps = tapsOf(typed.taps, length)
  if (taps === undefined) wrong ??= { field: 'taps', found: typed.taps, low: 0, high: length }
  if (wrong !== undefined || taps === undefined) return { ok: false, wrong: wrong as Wrong }
  const conductor = conductorOf(typed)
  const refused = typed.source === 'supply' ? supplyRefused({ mode: typed.mode, current: ampere }, conductor, rating) : undefined
  return {
    ok: true,
    job: {
      cable: cableOf({
        conductor,
        length,
        lengthPercent: Number(typed.percent),
        ...(celsius === undefined ? {} : { temperature: celsius }),
        // Earth and chassis have next to nothing against a core; what they have counts as the fault's own (common practice, no source).
        ...(typed.back === 'chassis' ? { back: 0 } : {}),
      }),
      tools: instrumentOf({ meter: { ohm: { resolution: Number(typed.step) } } }, typed.source === 'supply' ? 'amp' : 'series'),
      setting: { ampere, taps },
      source: typed.source,
      ...(refused === undefined ? {} : { refused }),
    },
  }
}

const METHODS: readonly Method[] = [
  'one-end',
  'two-ends',
  'one-end-healthy',
  'two-ends-healthy',
  'far-jumper',
  'injected-near',
  'injected-far',
  'core-drop',
  'loop-drop',
  'taps',
]
export interface Offer {
  readonly method: Method
  readonly foretold: Foretold
  /** Seconds of its readings, and with the walk along what they leave. */
  readonly seconds: number
  readonly toPlace: number
  readonly boundOnly: boolean
  readonly refused?: NonNullable<Foretold['refusedBecause']> | SourceRefusal
}
/** What each method that the kit allows will leave of the stretch: first what leads to the place soonest, those worth nothing last. */
export const offersOf = ({ cable, tools, setting, source, refused }: Job, stretch: Stretch): readonly Offer[] => {
  const offers = METHODS.filter(method => source !== 'none' || !feeds(method)).map((method): Offer => {
    const foretold = foretell(method, cable, tools, setting, undefined, stretch)
    const no = (feeds(method) ? refused : undefined) ?? foretold.refusedBecause
    const seconds = secondsOf(method, setting, source === 'supply' ? 'supply' : 'injector')
    return {
      method,
      foretold,
      seconds,
      toPlace: seconds + COST.metre * foretold.leaves,
      boundOnly: method === 'one-end' || method === 'one-end-healthy',
      ...(no === undefined ? {} : { refused: no }),
    }
  })
  const last = (offer: Offer): number => (offer.refused === undefined ? 0 : 1)
  return offers.sort((a, b) => last(a) - last(b) || a.toPlace - b.toPlace)
}

/** The words of a reading, and where a junction's lies. */
export type FieldWord =
  | 'ohm near'
  | 'ohm far'
  | 'ohm healthy'
  | 'ohm around'
  | 'ohm sound'
  | 'ohm faulty'
  | 'volt near'
  | 'volt far'
  | 'volt drop'
  | 'volt healthy'
  | 'volt pair'
  | 'ampere'
export interface Field {
  readonly key: string
  readonly quantity: 'Ω' | 'V' | 'A'
  readonly word?: FieldWord
  readonly at?: number
}
const FIELDS: Readonly<Record<Exclude<Method, 'taps'>, readonly (readonly [key: string, word: FieldWord])[]>> = {
  'one-end': [['near', 'ohm near']],
  'two-ends': [
    ['near', 'ohm near'],
    ['far', 'ohm far'],
  ],
  'one-end-healthy': [
    ['near', 'ohm near'],
    ['healthy', 'ohm healthy'],
  ],
  'two-ends-healthy': [
    ['near', 'ohm near'],
    ['far', 'ohm far'],
    ['healthy', 'ohm healthy'],
  ],
  'far-jumper': [
    ['around', 'ohm around'],
    ['healthy', 'ohm sound'],
    ['faulty', 'ohm faulty'],
  ],
  'injected-near': [
    ['near', 'volt near'],
    ['ampere', 'ampere'],
  ],
  'injected-far': [
    ['near', 'volt near'],
    ['ampere', 'ampere'],
    ['far', 'volt far'],
  ],
  'core-drop': [
    ['drop', 'volt drop'],
    ['healthy', 'volt healthy'],
  ],
  'loop-drop': [
    ['near', 'volt near'],
    ['far', 'volt far'],
    ['healthy', 'volt pair'],
  ],
}
/** What is to be read, in the order in which a hand meets it. */
export const fieldsOf = (method: Method, { taps }: Setting): readonly Field[] => {
  if (method === 'taps')
    return [{ key: 'ampere', quantity: 'A', word: 'ampere' }, ...taps.map((at, i): Field => ({ key: `tap ${i}`, quantity: 'V', at }))]
  return FIELDS[method].map(([key, word]) => ({ key, word, quantity: word === 'ampere' ? 'A' : word.startsWith('ohm') ? 'Ω' : 'V' }))
}

/** Amperes below which nothing was fed: the finest clamp reads to a hundredth (common practice, no source). */
const NO_CURRENT = 0.01
export type Outcome = { readonly estimate: Estimate } | { readonly refused: 'no-current' | 'loop-too-small' }

/** The place from readings in V, A and Ω, one for each field. */
export const outcomeOf = ({ cable, tools, setting }: Job, method: Method, values: ReadonlyMap<string, number>): Outcome => {
  const of = (key: string): number => {
    const value = values.get(key)
    if (value === undefined) throw new RangeError(`no reading ${key} for ${method}`)
    return value
  }
  if (values.has('ampere') && of('ampere') < NO_CURRENT) return { refused: 'no-current' }
  // Every ratio divides by one of these.
  if (method !== 'far-jumper' && values.has('healthy') && of('healthy') <= 0) return { refused: 'loop-too-small' }
  if (values.has('around') && of('around') <= 0) return { refused: 'loop-too-small' }
  const readings =
    method === 'taps'
      ? { method, ampere: of('ampere'), taps: setting.taps.map((at, i) => ({ at, volts: of(`tap ${i}`) })) }
      : { method, ...Object.fromEntries(FIELDS[method].map(([key]) => [key, of(key)])) }
  return { estimate: estimate(readings as Readings, cable, tools) }
}

/** Where the place may still be after an estimate; nothing where it gave none. */
export const stretchOf = ({ refusedBecause, upperBoundOnly, upperBound, interval }: Estimate): Stretch | undefined => {
  if (refusedBecause !== undefined) return undefined
  return upperBoundOnly && upperBound !== undefined ? { low: 0, high: upperBound } : { low: interval.low, high: interval.high }
}
