// How a finding becomes words: which sentence, with which place and figures. The sentences themselves stand in each language.
import type { Figures } from './figures.ts'
import { word } from './ids.ts'
import type { Finding, Mend, Place } from './types.ts'

/** What a mend's sentences can name; `branch` is empty where it is not known. */
interface MendFacts {
  readonly branch: string
  readonly run: string
  readonly load: string
}
interface MendSentences {
  readonly title: string | ((m: MendFacts) => string)
  readonly points: readonly string[]
  /** The button: at most 24 signs. */
  readonly done: string
}
export type MendKey = 'run' | 'load' | 'other-supply' | 'wrong-way' | 'no-mains' | 'supply-dead' | 'supply' | 'device-open' | 'branch'
export interface FindingSentences {
  readonly faults: Readonly<Record<string, string>>
  /** Where to go and look; verb first, at most 20 words. */
  readonly title: {
    readonly noMains: string
    /** `branch` is empty where it is not known. */
    readonly deviceOpen: (branch: string) => string
    /** `past` is one of the two below. */
    readonly at: (run: string, metres: string, past: string) => string
    readonly stretch: (run: string, from: string, to: string, past: string) => string
    readonly pastCabinet: string
    readonly pastJunction: (junction: string) => string
    readonly run: (run: string, branch: string) => string
    /** `junction` is empty where the load hangs in the cabinet. */
    readonly load: (load: string, junction: string) => string
    readonly branch: (branch: string) => string
    readonly supply: string
  }
  /** Before the fault's name. */
  readonly doubt: string
  readonly inMoving: string
  readonly inFixed: string
  /** What to look for; `look` is for eyes, `hands` is added where it is proved dead, `handsOff` where it is not. */
  readonly how: {
    readonly handsOff: string
    readonly noMains: string
    readonly deviceOpen: string
    readonly supplyDead: string
    readonly supply: string
    /** A short circuit that comes and goes as the cable moves. */
    readonly comesAndGoes: { readonly look: string; readonly hands: string }
    /** Plus and 0 V swapped at a load, or its diode the wrong way round. */
    readonly wrongWay: { readonly look: string; readonly hands: string }
    /** One load that draws too much. */
    readonly tooMuch: { readonly look: string; readonly hands: string }
    readonly otherSupply: string
    readonly openRun: { readonly look: string; readonly hands: string }
    readonly run: { readonly look: string; readonly hands: string }
    readonly load: { readonly look: string; readonly hands: string }
    readonly branch: { readonly look: string; readonly hands: string }
  }
  readonly mends: Readonly<Record<MendKey, MendSentences>>
  /** For a moving cable, in place of the strain relief alone. */
  readonly strainRelief: { readonly fixed: string; readonly moving: string }
}

/** Under this a place is the likeliest of several, and the words must not sound surer than the figure. */
const LIKELY = 0.7
const SUPPLY_FAULTS: readonly string[] = ['overload', 'in-rush', 'supply-low']

const WRONG_WAY: readonly string[] = ['swapped', 'diode']

const mendKey = (f: Finding): MendKey => {
  if (f.fault === 'backfeed') return 'other-supply'
  if (WRONG_WAY.includes(f.fault)) return 'wrong-way'
  if (f.run) return 'run'
  if (f.load) return 'load'
  if (f.fault === 'no-mains' || f.fault === 'supply-dead' || f.fault === 'device-open') return f.fault
  return SUPPLY_FAULTS.includes(f.fault) ? 'supply' : 'branch'
}

/** The sentences of a language as functions of a finding. */
export const findingsFrom = (s: FindingSentences, { metres }: Figures) => ({
  faults: s.faults,
  findingTitle: (f: Finding, place: Place = {}): string => {
    const { title } = s
    if (f.fault === 'no-mains') return title.noMains
    if (f.fault === 'device-open') return title.deviceOpen(f.branch ?? '')
    const inField = place.near !== undefined && place.near !== 'terminals' ? place.near : ''
    const past = inField === '' ? title.pastCabinet : title.pastJunction(inField)
    if (f.run && f.alongRun) {
      const [low, high] = [metres(f.alongRun.low), metres(f.alongRun.high)]
      return low === high ? title.at(f.run, low, past) : title.stretch(f.run, low, high, past)
    }
    if (f.run) return title.run(f.run, f.branch ?? '')
    if (f.load) return title.load(place.load ?? f.load, inField)
    return f.branch ? title.branch(f.branch) : title.supply
  },
  findingSentence: (f: Finding, place: Place = {}): string => {
    const where = f.load ? '' : place.moving ? s.inMoving : f.run ? s.inFixed : ''
    return [(f.probability ?? 1) < LIKELY ? s.doubt : '', where, `${word(s.faults, f.fault)}.`].filter(Boolean).join(' ')
  },
  /** What to look for at the place, in the field or at the cabinet. Hands stay off what is not proved dead. */
  findingHow: (f: Finding, dead: boolean): string => {
    const { how } = s
    const told = (part: { readonly look: string; readonly hands: string }) => `${part.look} ${dead ? part.hands : how.handsOff}`
    if (f.fault === 'no-mains') return how.noMains
    if (f.fault === 'device-open') return how.deviceOpen
    if (f.fault === 'backfeed') return how.otherSupply
    if (f.fault === 'intermittent') return told(how.comesAndGoes)
    if (WRONG_WAY.includes(f.fault)) return told(how.wrongWay)
    if (f.fault === 'overload' && f.load) return told(how.tooMuch)
    if (!f.branch) return f.fault === 'supply-dead' ? how.supplyDead : how.supply
    if (f.run) return told(f.fault.startsWith('open') ? how.openRun : how.run)
    return told(f.load ? how.load : how.branch)
  },
  mend: (f: Finding, place: Place = {}): Mend => {
    const { title, points, done } = s.mends[mendKey(f)]
    const facts = { branch: f.branch ?? '', run: f.run ?? '', load: place.load ?? f.load ?? '' }
    return {
      title: typeof title === 'string' ? title : title(facts),
      points: points.map(point => (point === s.strainRelief.fixed && place.moving && f.run ? s.strainRelief.moving : point)),
      done,
    }
  },
})
