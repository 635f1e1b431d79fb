// What a meter would show for a fault at a place, and how far off it may be: by nuisance, so that readings share their errors.
import { BUS, type Circuit, circuitOf, farEnd, feed, inject, type Probe, probeAt, voltageAt, within } from './circuit.ts'
import { type Ladder, solve } from './ladder.ts'
import type { Kit } from './machine.ts'
import { type Meter, meterOf, split } from './meter.ts'
import { IN_LOAD, type Places, TO_EARTH, TO_ZERO } from './place.ts'
import { CABINET, earthPath, isBonded, type Plant, type PlantBranch } from './plant.ts'
import type { Positions } from './positions.ts'
import { soundOf } from './sound.ts'
import type { Read } from './step.ts'

/** What is not known exactly and is common to several readings; each with mean 0. The runs' own tolerances follow. */
export const AT = 0,
  FAULT_OHM = 1,
  EARTH = 2,
  TEMPERATURE = 3,
  CURRENT = 4,
  VOLT_GAIN = 5,
  LEADS = 6,
  OHM_OFFSET = 7,
  OHM_GAIN = 8,
  ZEROING = 9,
  FIRST_RUN = 10

/** Standard deviations of the nuisances; `AT` and `FAULT_OHM` are the place's own. */
const SPREAD = {
  /** The earth path's resistance, relative (common practice, no source). */
  earth: 0.6,
  /** ± 10 K about 20 °C, rectangular, times copper's 0.00393 per kelvin (IEC 60028); a stated temperature: a fifth of that. */
  temperature: (10 / Math.sqrt(3)) * 0.00393,
  /** Conductors 0 to 8 % under the table's maximum, rectangular; a conductor nobody has named may be half or twice that. */
  tolerance: 0.08 / Math.sqrt(12) / 0.96,
  unnamed: 0.3,
  /** A lamp or bench source of 1 A gives 0.85 to 1.15 A (common practice, no source). */
  current: 0.15 / Math.sqrt(3),
  /** Leads of 0.1 to 0.4 Ω, zeroed to within 0.06 Ω (common practice, no source). */
  leads: 0.3 / Math.sqrt(12),
  zeroed: 0.06 / Math.sqrt(3),
} as const
/** Mean that leads add before they are zeroed, Ω (common practice, no source). */
export const LEADS_MEAN = 0.25

/** What was asked and in which state of the machine. */
export interface Asked {
  readonly read: Read
  readonly positions: Positions
  readonly zeroed: boolean
}

/** A reading predicted for every place of one branch: mean, how it moves with each nuisance, and its own fresh error (variance). */
export interface Row {
  readonly mean: Float64Array
  readonly slope: Float64Array
  readonly fresh: Float64Array
  /** 1 where the reading does not see the fault: it went with an unplugged load, or lies past an opened run. The branch then shows what a sound one shows. */
  readonly hidden: Uint8Array
  /** The display's value once it was read. */
  readonly shown: number | 'OL'
}

/** A branch in a state of the machine, ready to have one fault after another put into it. */
export interface Stand {
  readonly circuit: Circuit
  readonly branch: PlantBranch
  readonly base: number
  readonly kit: Kit
  readonly meter: Meter
  readonly dims: number
  readonly spread: Float64Array
}

export const standOf = (plant: Plant, b: PlantBranch, p: Positions, kit: Kit): Stand => {
  const circuit = circuitOf(plant, p, b.index)
  const dims = FIRST_RUN + b.wiring.runs.length
  const spread = new Float64Array(dims)
  const temperatureKnown = b.wiring.runs.every(({ run }) => run.temperature !== undefined)
  spread[EARTH] = SPREAD.earth
  spread[TEMPERATURE] = SPREAD.temperature * (temperatureKnown ? 0.2 : 1)
  spread[CURRENT] = SPREAD.current
  spread[LEADS] = SPREAD.leads
  spread[ZEROING] = SPREAD.zeroed
  const meter = meterOf(kit)
  spread[VOLT_GAIN] = split(meter, 'volt', 0).gain
  spread[OHM_OFFSET] = split(meter, 'ohm', 0).offset
  spread[OHM_GAIN] = split(meter, 'ohm', 0).gain
  b.wiring.runs.forEach(({ run }, k) => {
    spread[FIRST_RUN + k] = run.conductor === undefined || b.wiring.unknown ? SPREAD.unnamed : SPREAD.tolerance
  })
  return { circuit, branch: b, base: circuit.base[b.index] as number, kit, meter, dims, spread }
}

/** Work space: node voltages with the source that feeds the place, kept while the circuit is solved again with 1 A between the probes. */
const main = { plus: new Float64Array(0), zero: new Float64Array(0) }
const keep = (l: Ladder): typeof main => {
  if (main.plus.length < l.size) {
    main.plus = new Float64Array(2 * l.size)
    main.zero = new Float64Array(2 * l.size)
  }
  main.plus.set(l.plus)
  main.zero.set(l.zero)
  return main
}

const faultNode = (s: Stand, places: Places, i: number): number =>
  places.kind[i] === IN_LOAD
    ? farEnd(s.base, s.branch.loads[places.item[i] as number]?.run ?? -1)
    : within(s.base, places.item[i] as number)

/** Unplugged, a load takes its short circuit with it. */
const isUnplugged = (s: Stand, places: Places, i: number): boolean =>
  places.kind[i] === IN_LOAD &&
  s.circuit.positions.unplugged.includes(`${s.branch.id}/${s.branch.loads[places.item[i] as number]?.load.id}`)

/** Runs `use` with place `i` put into the ladder, and takes it out again. */
const withPlace = (s: Stand, places: Places, i: number, use: () => void): void => {
  const l = s.circuit.ladder
  const node = faultNode(s, places, i)
  const ohm = places.ohm[i] as number
  if (places.kind[i] === IN_LOAD) {
    if (isUnplugged(s, places, i)) {
      use()
      return
    }
    const before = l.across[node] as number
    const own = s.branch.loads[places.item[i] as number]?.siemens ?? 0
    l.across[node] = before - own + 1 / ohm
    use()
    l.across[node] = before
    return
  }
  const whole = s.branch.runOhm[places.item[i] as number] as number
  const length = s.branch.wiring.runs[places.item[i] as number]?.run.length ?? 1
  const near = Math.min(Math.max((whole * (places.at[i] as number)) / length, 1e-9), whole)
  l.plusOhm[node] = l.zeroOhm[node] = near
  l.plusOhm[node + 1] = l.zeroOhm[node + 1] = Math.max(whole - near, 1e-9)
  if (places.kind[i] === TO_ZERO) l.across[node] = 1 / ohm
  else l.plusEarth[node] = 1 / (ohm + earthPath(s.circuit.plant))
  const zeroEarth = l.zeroEarth[BUS] as number
  // It draws only where 0 V is earthed, whatever the file says; the path between is in `earthPath`.
  if (places.kind[i] === TO_EARTH && !isBonded(s.circuit.plant)) l.zeroEarth[BUS] = 1 / CABINET.bond
  use()
  l.zeroEarth[BUS] = zeroEarth
  l.across[node] = l.plusEarth[node] = 0
  l.plusOhm[node] = l.zeroOhm[node] = l.plusOhm[node + 1] = l.zeroOhm[node + 1] = whole / 2
}

/**
 * How the voltage between the probes moves with each resistance, from two solutions of one circuit: with the source (main)
 * and with 1 A into red and out of black. By reciprocity d(V)/dR of a resistor is the product of its two currents.
 */
const slopes = (
  s: Stand,
  places: Places,
  i: number,
  fed: { plus: Float64Array; zero: Float64Array },
  at: Ladder,
  out: Float64Array,
  o: number,
): void => {
  const runs = s.branch.wiring.runs
  const product = (child: number): number => {
    const up = at.parent[child] as number
    const rp = at.plusOhm[child] as number,
      rz = at.zeroOhm[child] as number
    const plus = (((fed.plus[up] as number) - (fed.plus[child] as number)) * ((at.plus[up] as number) - (at.plus[child] as number))) / rp
    const zero = (((fed.zero[up] as number) - (fed.zero[child] as number)) * ((at.zero[up] as number) - (at.zero[child] as number))) / rz
    return plus + zero
  }
  let all = 0
  for (let k = 0; k < runs.length; k++) {
    const node = within(s.base, k)
    const near = product(node),
      far = product(node + 1)
    const scale = near + far
    out[o + FIRST_RUN + k] = scale
    all += scale
    if (places.kind[i] !== IN_LOAD && places.item[i] === k) {
      const whole = s.branch.runOhm[k] as number
      const perMetre = whole / (runs[k]?.run.length ?? 1)
      out[o + AT] = (near / (at.plusOhm[node] as number) - far / (at.plusOhm[node + 1] as number)) * perMetre
    }
  }
  out[o + TEMPERATURE] = all
  const node = faultNode(s, places, i)
  const ohm = places.ohm[i] as number
  if (places.kind[i] === TO_EARTH) {
    const earth = earthPath(s.circuit.plant)
    const path = ohm + earth
    const through = ((fed.plus[node] as number) * (at.plus[node] as number)) / path ** 2
    out[o + FAULT_OHM] = through
    out[o + EARTH] = through * earth
  } else if (!isUnplugged(s, places, i)) {
    const across = ((fed.plus[node] as number) - (fed.zero[node] as number)) * ((at.plus[node] as number) - (at.zero[node] as number))
    out[o + FAULT_OHM] = across / ohm ** 2
  }
}

/** Current that the kit's injector is expected to give, A, and its open-circuit voltage, V. */
export const injectorOf = (kit: Kit): { ampere: number; volts: number } => kit.injector ?? { ampere: 1, volts: 24 }

/** Whether a reading says something about places inside the branch, node by node. */
export const predictedFor = (
  s: Stand,
  places: Places,
  asked: Asked,
  which: ArrayLike<number>,
  shown: number | 'OL',
  unsteady = false,
): Row => {
  const n = which.length
  const mean = new Float64Array(n),
    fresh = new Float64Array(n),
    slope = new Float64Array(n * s.dims)
  const hidden = new Uint8Array(n)
  const l = s.circuit.ladder
  const { read, positions } = asked
  const { ampere, volts } = injectorOf(s.kit)
  const fed = positions.injector?.branch === s.branch.id ? positions.injector : undefined
  const loose = unsteady ? 25 : 1
  if (read.meter === 'amp') {
    const own = split(s.meter, 'series', ampere)
    for (let j = 0; j < n; j++) {
      mean[j] = ampere
      slope[j * s.dims + CURRENT] = ampere
      fresh[j] = loose * ((own.gain * ampere) ** 2 + own.offset ** 2 + own.fresh ** 2)
    }
    return { mean, slope, fresh, hidden, shown }
  }
  // What the loads beside the fault conduct is known no better than their watts: it is all there is where a fault is cut off.
  const loads = soundOf(s.branch, positions).sd
  const red = probeAt(s.circuit, positions, read.red),
    black = probeAt(s.circuit, positions, read.black)
  const ohms = read.meter === 'ohm' || fed === undefined
  if (!ohms) inject(s.circuit, s.base, fed.into, ampere, volts)
  const sound = ohms ? across(l, red, black) : voltageAt(l, red) - voltageAt(l, black)
  for (let j = 0; j < n; j++) {
    const i = which[j] as number
    const o = j * s.dims
    withPlace(s, places, i, () => {
      if (ohms) {
        const r = across(l, red, black)
        slopes(s, places, i, l, l, slope, o)
        const own = split(s.meter, 'ohm', r)
        hidden[j] = r > UNSEEN * sound ? 1 : 0
        mean[j] = r + (asked.zeroed ? 0 : LEADS_MEAN)
        slope[o + (asked.zeroed ? ZEROING : LEADS)] = 1
        slope[o + OHM_OFFSET] = 1
        slope[o + OHM_GAIN] = mean[j] as number
        fresh[j] = loose * (own.fresh ** 2 + (0.002 * r) ** 2) + (r * r * loads) ** 2
      } else {
        inject(s.circuit, s.base, fed.into, ampere, volts)
        const source = keep(l)
        const v = voltageAt(l, red) - voltageAt(l, black)
        hidden[j] = v > UNSEEN * sound && sound > WHOLE ? 1 : 0
        unit(l, red, black)
        slopes(s, places, i, source, l, slope, o)
        const own = split(s.meter, 'volt', v)
        mean[j] = v
        slope[o + CURRENT] = v
        slope[o + VOLT_GAIN] = v
        fresh[j] = loose * (own.fresh ** 2 + own.offset ** 2) + ((v * v * loads) / ampere) ** 2
      }
    })
  }
  return { mean, slope, fresh, hidden, shown }
}

/** With the fault this much of the Ω, or of the source's V, that there are without it: then the reading does not see it. */
const UNSEEN = 0.5
/** A source's voltage that no short circuit would leave, V. */
const WHOLE = 4

/** Ω between the probes. */
const across = (l: Ladder, red: Probe, black: Probe): number => {
  unit(l, red, black)
  return voltageAt(l, red) - voltageAt(l, black)
}
const unit = (l: Ladder, red: Probe, black: Probe): void => {
  feed(l, red, black, 1)
  solve(l)
  feed(l, red, black, -1)
}
