// Reads a machine file and a kit file: a checked value, or one sentence that names the field and what was found there.
import {
  checked,
  fieldOf,
  flag,
  id,
  list,
  number,
  object,
  oneOf,
  optional,
  positive,
  type Reader,
  refuse,
  shown,
  text,
  whole,
} from './fields.ts'
import type { Accuracy, Branch, Checked, Conductor, DataSheet, Kit, Load, Machine, Protection, Run, Supply } from './machine.ts'
import { outwards, TERMINALS } from './wiring.ts'

// Limits that no 24 V control circuit comes near: past them the file has a slip in it (common practice, no source).
const MOST_BRANCHES = 200
const MOST_RUNS = 1000
/** A source of 24 V, with what its own tolerance may add: more would go into electronics that are made for 24 V (IEC 61131-2: 30 V at most). */
const MOST_INJECTED = 30
const current = positive(1000, 'A')
const voltage = number(5, 60, 'V')

/** Times that a device or an in-rush may take: from 10 µs to the hours of a fuse's slowest promise. */
const time = number(1e-5, 36_000, 's')
const supply = object<Supply>({
  ratedVoltage: optional(voltage),
  setVoltage: optional(voltage),
  ratedCurrent: optional(current),
  limit: optional(
    object<NonNullable<Supply['limit']>>({
      mode: oneOf('constant-current', 'hiccup', 'latch-off', 'unknown'),
      current: optional(current),
    }),
  ),
  zeroVoltBonded: optional(flag),
  reserve: optional(object<NonNullable<Supply['reserve']>>({ current, seconds: time })),
  holds: optional(time),
})
const protection = object<Protection>({
  kind: oneOf('breaker', 'fuse', 'electronic', 'none'),
  rating: optional(current),
  curve: optional(oneOf('B', 'C', 'D', 'Z')),
  standard: optional(oneOf('IEC 60898-1', 'IEC 60898-2', 'IEC 60947-2')),
  fuse: optional(oneOf('F', 'T', 'UL', 'blade')),
  dataSheet: optional(object<DataSheet>({ carries: current, opens: current, seconds: time })),
})
const byArea = object<Extract<Conductor, { area: number }>>({ area: number(0.05, 400, 'mm²'), class: optional(oneOf(1, 2, 5)) })
/** 4/0 to 1/0 are −3 to 0. */
const byGauge = object<Extract<Conductor, { awg: number }>>({ awg: whole(-3, 40), stranded: optional(flag) })
const conductor: Reader<Conductor> = (found, field) => (fieldOf(found, 'awg') === undefined ? byArea : byGauge)(found, field)
const run = object<Run>({
  id,
  from: id,
  to: id,
  length: positive(10_000, 'm'),
  conductor: optional(conductor),
  moving: optional(flag),
  temperature: optional(number(-60, 200, '°C')),
})
const load = object<Load>({
  id,
  name: optional(text),
  at: id,
  kind: oneOf('coil', 'electronic', 'lamp', 'motor'),
  watts: optional(positive(10_000, 'W')),
  pluggable: optional(flag),
  inRush: optional(object<NonNullable<Load['inRush']>>({ peak: current, seconds: time })),
  capacitance: optional(positive(10, 'F')),
})
const branch = object<Branch>({
  id,
  name: optional(text),
  protection: optional(protection),
  wiring: optional(list(run, MOST_RUNS)),
  loads: optional(list(load, MOST_RUNS)),
})
const FORMAT = 'ohmward.machine'
const VERSION = 1
/** A technician at an unknown machine knows how many branches it has, and nothing else. */
const orElse =
  <T>(read: Reader<T>, otherwise: T): Reader<T> =>
  (found, field) =>
    found === undefined ? otherwise : read(found, field)
const machine = object<Machine>({
  format: oneOf(FORMAT),
  version: oneOf(VERSION),
  id: orElse(id, 'unknown'),
  name: orElse(text, 'Unknown machine'),
  place: optional(text),
  supply: orElse(supply, {}),
  branches: list(branch, MOST_BRANCHES, 1),
})

/** A point `supply.plus` or `bus.zero` must not be a branch's. */
const NOT_A_BRANCH: ReadonlySet<string> = new Set(['supply', 'bus', 'earth'])

const checkIds = (branches: readonly Branch[]): void => {
  const seen = new Set<string>()
  for (const [i, { id }] of branches.entries()) {
    const field = `branches[${i}].id`
    if (NOT_A_BRANCH.has(id)) refuse(field, id, 'another word: this one names a point of the cabinet')
    if (seen.has(id)) refuse(field, id, 'unlike the id of every other branch')
    seen.add(id)
  }
}

/** Run ids are unique in the machine and none is a junction's: both stand after the slash in a point's name. */
const checkRunIds = (branches: readonly Branch[]): void => {
  const junctions = new Set(branches.flatMap(({ wiring = [] }) => wiring.flatMap(({ from, to }) => [from, to])))
  const seen = new Set<string>()
  for (const [i, { wiring = [] }] of branches.entries()) {
    for (const [j, { id }] of wiring.entries()) {
      const field = `branches[${i}].wiring[${j}].id`
      if (seen.has(id)) refuse(field, id, 'unlike the id of every other run in the machine')
      if (junctions.has(id)) refuse(field, id, 'unlike the id of every junction')
      seen.add(id)
    }
  }
}

const checkLoads = ({ wiring = [], loads = [] }: Branch, field: string): void => {
  const junctions = new Set([TERMINALS, ...wiring.map(({ to }) => to)])
  const seen = new Set<string>()
  for (const [j, { id, at, kind, capacitance }] of loads.entries()) {
    if (seen.has(id)) refuse(`${field}.loads[${j}].id`, id, "unlike the id of the branch's every other load")
    seen.add(id)
    if (capacitance !== undefined && kind !== 'electronic')
      refuse(`${field}.loads[${j}].capacitance`, capacitance, 'left out: only an electronic load has one at its input')
    if (wiring.length > 0 && !junctions.has(at)) refuse(`${field}.loads[${j}].at`, at, "'terminals' or a junction of the branch's wiring")
  }
}

/** What a device's kind cannot have, or what contradicts itself, would be reckoned with unseen. */
const checkDevice = ({ kind, standard, fuse, dataSheet }: Protection, field: string): void => {
  if (standard !== undefined && kind !== 'breaker') refuse(`${field}.standard`, standard, 'left out: it is for a breaker')
  if (fuse !== undefined && kind !== 'fuse') refuse(`${field}.fuse`, fuse, 'left out: it is for a fuse')
  if (dataSheet === undefined) return
  if (kind === 'none') refuse(`${field}.dataSheet`, dataSheet, 'left out: there is no device')
  if (dataSheet.opens <= dataSheet.carries)
    refuse(`${field}.dataSheet.opens`, dataSheet.opens, `above the ${dataSheet.carries} A that it carries`)
}

const checkReserve = ({ reserve, limit }: Supply): void => {
  if (reserve !== undefined && limit?.current !== undefined && reserve.current <= limit.current)
    refuse('supply.reserve.current', reserve.current, `above the limit of ${limit.current} A`)
}

/** Wiring is a tree from the terminals: one way to each junction, no way back, nothing left hanging. */
const checkTree = (wiring: readonly Run[], field: string): void => {
  const reached = new Set<string>()
  for (const [j, { from, to }] of wiring.entries()) {
    const end = `${field}[${j}].to`
    if (to === TERMINALS || to === from) refuse(end, to, 'a junction farther out: wiring must not form a loop')
    if (reached.has(to)) refuse(end, to, 'a junction that no other run leads to: wiring must not form a loop')
    reached.add(to)
  }
  const hanging = new Set(outwards(wiring))
  const lost = [...wiring.entries()].filter(([, run]) => !hanging.has(run))
  const [j, run] = lost.find(([, { from }]) => !reached.has(from)) ?? lost[0] ?? []
  if (run === undefined) return
  const must = reached.has(run.from)
    ? 'a junction that can be reached from the terminals: here runs form a loop'
    : "'terminals' or a junction that a run leads to"
  refuse(`${field}[${j}].from`, run.from, must)
}

/** Before anything else, so that a file of another kind is told apart from a slip in a machine file. */
const checkKind = (found: unknown): void => {
  const format = fieldOf(found, 'format')
  const version = fieldOf(found, 'version')
  if (format !== FORMAT) refuse('format', format, `${FORMAT} (the file's version is ${shown(version)})`)
  if (version !== VERSION) refuse('version', version, `${VERSION} (the file's format is ${FORMAT})`)
}

const wholeMachine: Reader<Machine> = (found, field) => {
  if (typeof found === 'object' && found !== null && !Array.isArray(found)) checkKind(found)
  const read = machine(found, field)
  checkIds(read.branches)
  checkRunIds(read.branches)
  checkReserve(read.supply)
  for (const [i, one] of read.branches.entries()) {
    checkTree(one.wiring ?? [], `branches[${i}].wiring`)
    checkLoads(one, `branches[${i}]`)
    if (one.protection !== undefined) checkDevice(one.protection, `branches[${i}].protection`)
  }
  return read
}

const accuracy = object<Accuracy>({
  percent: optional(number(0, 100, '%')),
  counts: optional(whole(0, 1000)),
  resolution: optional(positive(1000)),
})
const kit = object<Kit>({
  meter: optional(
    object<NonNullable<Kit['meter']>>({
      ohm: optional(accuracy),
      volt: optional(accuracy),
      amp: optional(accuracy),
      series: optional(accuracy),
    }),
  ),
  clamp: optional(flag),
  injector: optional(object<NonNullable<Kit['injector']>>({ ampere: positive(5, 'A'), volts: positive(MOST_INJECTED, 'V') })),
  qualified: optional(flag),
})

/** Reads a machine file's JSON into a fresh `Machine`, whatever the JSON holds. */
export const readMachine = (json: unknown): Checked<Machine> => checked(wholeMachine, json)
/** Reads a kit file's JSON into a fresh `Kit`, whatever the JSON holds. */
export const readKit = (json: unknown): Checked<Kit> => checked(kit, json)
