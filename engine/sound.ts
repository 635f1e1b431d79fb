// What an ohmmeter shows of wiring that has no short circuit: its loads side by side, known no better than their watts.
import { branchAlone } from './circuit.ts'
import { gather } from './ladder.ts'
import type { PlantBranch, PlantLoad } from './plant.ts'
import type { Positions } from './positions.ts'

/** The loads of sound wiring as conductance: S, its standard deviation, and the chance that nothing conducts at all (OL). */
export interface Sound {
  readonly siemens: number
  readonly sd: number
  readonly openChance: number
  /** How many branches in it have loads that nobody has told. */
  readonly untold: number
}

/** A branch whose loads nobody has told: a few tens of ohm to kilohms (common practice, no source). */
const UNTOLD: Sound = { siemens: 0.04, sd: 0.06, openChance: 0.2, untold: 1 }
/** Chance that an electronic load shows no current at all to an ohmmeter, alone (common practice, no source). */
const SILENT = 0.4

/** The run that cuts off what hangs at the far end of `run`: the nearest opened or `broken` one on the way to the terminals; −1 if none does. */
const cutAt = (b: PlantBranch, p: Positions, run: number, broken: number | undefined): number => {
  let k = run
  while (k >= 0 && k !== broken && !p.openedRuns.includes(`${b.id}/${b.wiring.runs[k]?.run.id}`)) k = b.wiring.runs[k]?.parent ?? -1
  return k
}

/** The loads that are joined to the far end of run `at` (−1: to the terminals), with one run `broken`. */
const joinedTo = (b: PlantBranch, p: Positions, at: number, broken?: number): readonly PlantLoad[] => {
  const cut = cutAt(b, p, at, broken)
  return b.loads.filter(({ load, run }) => !p.unplugged.includes(`${b.id}/${load.id}`) && cutAt(b, p, run, broken) === cut)
}

/** The loads joined to the far end of run `at`, of which `siemens` are seen there. Those unplugged or cut off take their spread with them. */
export const soundFrom = (b: PlantBranch, p: Positions, siemens: number, at: number, broken?: number): Sound => {
  if (b.wiring.unknown) return { ...UNTOLD, siemens, sd: (UNTOLD.sd / UNTOLD.siemens) * siemens }
  const joined = joinedTo(b, p, at, broken)
  const all = joined.reduce((sum, l) => sum + l.siemens, 0)
  const wound = joined.some(({ load }) => load.kind !== 'electronic')
  return {
    siemens,
    // Behind a poor joint less of them is seen, and of their spread.
    sd: all === 0 ? 1e-9 : Math.sqrt(joined.reduce((sum, l) => sum + l.siemensSd ** 2, 0)) * Math.min(1, siemens / all) + 1e-9,
    openChance: joined.length === 0 ? 0.95 : wound ? 0.005 : SILENT ** joined.length,
    untold: 0,
  }
}
export const soundOf = (b: PlantBranch, p: Positions): Sound =>
  b.wiring.unknown ? UNTOLD : soundFrom(b, p, gather(branchAlone(b, p)).across, -1)

/** How well it is known what loads draw at half their voltage, relative (common practice, no source). */
const HALF_FED = 0.3
/** The loads of a sound branch as they draw from a supply that is held down, S: converters stop, lamps and motors are no longer cold. */
export const inService = (b: PlantBranch, p: Positions): Sound => {
  const siemens = b.loads.reduce((sum, l) => sum + (p.unplugged.includes(`${b.id}/${l.load.id}`) ? 0 : l.liveSiemens), 0)
  return { siemens, sd: HALF_FED * siemens + 1e-9, openChance: 0, untold: b.wiring.unknown ? 1 : 0 }
}

/** The normal distribution, near enough (logistic, within 0.01). */
export const below = (z: number): number => 1 / (1 + Math.exp(-1.702 * z))

export const together = (sounds: readonly Sound[]): Sound => ({
  siemens: sounds.reduce((sum, s) => sum + s.siemens, 0),
  sd: Math.sqrt(sounds.reduce((sum, s) => sum + s.sd ** 2, 0)),
  openChance: sounds.reduce((product, s) => product * s.openChance, 1),
  untold: sounds.reduce((sum, s) => sum + s.untold, 0),
})

/** Spread of an ohm reading by leads and meter, Ω: for telling sound from short it need not be finer. */
export const OHM_SPREAD = 0.16

const FEW_OHM = 2
const sdOhm = (s: Sound): number => Math.hypot(OHM_SPREAD, s.sd / s.siemens ** 2)

/** Share of sound wiring that shows less than `ohm`, of what shows a number at all. */
export const soundBelow = (s: Sound, ohm: number): number => {
  if (s.siemens <= 0) return 0
  if (s.untold > 0) {
    const one = ohm * s.untold
    return Math.min(one < 2.5 ? (0.004 * one) / 2.5 : 0.004 + Math.log(one / 2.5) / Math.log(80_000), 1)
  }
  return ohm < FEW_OHM ? below((ohm - 1 / s.siemens) / sdOhm(s)) : below((s.siemens - 1 / ohm) / Math.hypot(s.sd, OHM_SPREAD / ohm ** 2))
}

/** Chance of OL, or density per Ω of a shown value, for sound wiring. `leads` is what the leads are expected to add. */
export const soundDensity = (s: Sound, shown: number | 'OL', leads: number): number => {
  if (shown === 'OL') return s.openChance
  // Nothing is joined that could conduct.
  if (s.siemens <= 0) return 0
  const ohm = Math.max(shown - leads, 0.05)
  const g = 1 / ohm
  // Loads that nobody has told: any size from 2.5 Ω to 200 kΩ a branch is as likely as any other; a little falls below.
  if (s.untold > 0) return ohm * s.untold < 2.5 ? (0.004 * s.untold) / 2.5 : (1 - s.openChance) / (ohm * Math.log(80_000))
  // Normal in conductance, as loads add; at a few ohm and less the meter's own spread rules, and that is normal in ohms.
  if (ohm < FEW_OHM) {
    const sd = sdOhm(s)
    return ((1 - s.openChance) * Math.exp(-((shown - leads - 1 / s.siemens) ** 2) / (2 * sd * sd))) / (Math.sqrt(2 * Math.PI) * sd)
  }
  const sd = Math.hypot(s.sd, g * g * OHM_SPREAD, 0.01 * g)
  const density = (Math.exp(-((g - s.siemens) ** 2) / (2 * sd * sd)) / (Math.sqrt(2 * Math.PI) * sd)) * g * g
  return (1 - s.openChance) * density
}
