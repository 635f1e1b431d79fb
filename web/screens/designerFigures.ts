// Figures from data sheets, as they are typed on the designer's page, and the machine that they make.
import { readMachine } from '../../engine/check.ts'
import type { Branch, Checked, Machine } from '../../engine/machine.ts'
import { canonical } from '../log/canonical.ts'
import type { Log } from '../log/log.ts'

/** One field: where it stands in the machine file, and in which unit it is typed there. */
export interface Field {
  readonly path: string
  readonly label:
    | 'reserve'
    | 'reserveSeconds'
    | 'holds'
    | 'standard'
    | 'fuse'
    | 'carries'
    | 'opensFrom'
    | 'opensWithin'
    | 'peak'
    | 'dies'
    | 'capacitance'
  /** What one of the typed unit is in SI: 0.001 for ms. */
  readonly unit?: number
  readonly choices?: readonly string[]
  /** The load that it is of. */
  readonly load?: string
}
/** What stands in the fields, by path. */
export type Typed = Readonly<Record<string, string>>

const STANDARDS = ['IEC 60898-1', 'IEC 60898-2', 'IEC 60947-2'] as const
const FUSES = ['F', 'T', 'UL', 'blade'] as const
const MILLI = 1e-3
const MICRO = 1e-6

export const SUPPLY: readonly Field[] = [
  { path: 'supply.reserve.current', label: 'reserve' },
  { path: 'supply.reserve.seconds', label: 'reserveSeconds' },
  { path: 'supply.holds', label: 'holds' },
]
const ofDevice = ({ protection }: Branch, at: string): readonly Field[] => {
  if (protection === undefined || protection.kind === 'none') return []
  return [
    ...(protection.kind === 'breaker' ? [{ path: `${at}.standard`, label: 'standard', choices: STANDARDS } as const] : []),
    ...(protection.kind === 'fuse' ? [{ path: `${at}.fuse`, label: 'fuse', choices: FUSES } as const] : []),
    { path: `${at}.dataSheet.carries`, label: 'carries' },
    { path: `${at}.dataSheet.opens`, label: 'opensFrom' },
    { path: `${at}.dataSheet.seconds`, label: 'opensWithin' },
  ]
}
/** What may be told of a branch. A direct-current coil has no in-rush. */
export const fieldsOf = (branch: Branch, index: number): readonly Field[] => [
  ...ofDevice(branch, `branches.${index}.protection`),
  ...(branch.loads ?? []).flatMap((load, i): Field[] => {
    const [at, of] = [`branches.${index}.loads.${i}`, { load: load.name ?? load.id }]
    if (load.kind === 'coil') return []
    return [
      { path: `${at}.inRush.peak`, label: 'peak', ...of },
      { path: `${at}.inRush.seconds`, label: 'dies', unit: MILLI, ...of },
      ...(load.kind === 'electronic' ? [{ path: `${at}.capacitance`, label: 'capacitance', unit: MICRO, ...of } as const] : []),
    ]
  }),
]
const allOf = (machine: Machine): readonly Field[] => [...SUPPLY, ...machine.branches.flatMap(fieldsOf)]

const inside = (found: unknown, path: readonly string[]): unknown =>
  path.reduce<unknown>((at, key) => (typeof at === 'object' && at !== null ? Reflect.get(at, key) : undefined), found)
/** A copy with one value put in; objects on the way are made. */
const put = (found: unknown, [key, ...rest]: readonly string[], value: unknown): unknown => {
  if (key === undefined) return value
  if (Array.isArray(found)) return found.map((item, i) => (String(i) === key ? put(item, rest, value) : item))
  const others = Object.entries(found ?? {}).filter(([name]) => name !== key)
  const now = put(inside(found, [key]), rest, value)
  return Object.fromEntries(now === undefined ? others : [...others, [key, now]])
}

/** Tidied, for 0.00068 F are 680 µF and not 680.0000000000001. */
const inUnit = (value: number, unit: number): number => Number((value / unit).toPrecision(12))
/** The fields as the machine has them. `written`: a number as the language writes it. */
export const typedFrom = (machine: Machine, written: (value: string) => string = x => x): Typed =>
  Object.fromEntries(
    allOf(machine).flatMap(({ path, unit = 1 }) => {
      const found = inside(machine, path.split('.'))
      if (typeof found === 'number') return [[path, written(String(inUnit(found, unit)))]]
      return typeof found === 'string' ? [[path, found]] : []
    }),
  )

/** What is no number stays as it is, so that the check names it. */
const figureOf = (text: string, { unit = 1, choices }: Field): unknown => {
  const value = Number(text.replace(',', '.'))
  return choices !== undefined || !Number.isFinite(value) ? text : Number((value * unit).toPrecision(12))
}
/** Puts the figures into the phone's own copy of the machine, if it has one that is else the same: another wiring is not overwritten. */
export const keepFigures = async (log: Pick<Log, 'machines' | 'saveMachine'>, machine: Machine): Promise<boolean> => {
  const bare = (m: Machine): string => {
    const read = withTyped(m, {})
    return read.ok ? canonical(read.value) : ''
  }
  const own = (await log.machines()).find(m => m.id === machine.id)
  if (own === undefined) return false
  const { retired, ...plain } = own
  if (bare(plain) !== bare(machine)) return false
  await log.saveMachine({ ...machine, ...(retired === true && { retired }) })
  return true
}

const GROUPS = ['reserve', 'dataSheet', 'inRush'] as const
const groupOf = (path: readonly string[]) => GROUPS.find(g => path.includes(g))
const SIZE = { reserve: 2, dataSheet: 3, inRush: 2 } as const

/**
 * The machine with what is typed, or the field that is wrong with the value found there. A figure that is told in parts,
 * such as a reserve and its seconds, counts as not known until all its parts stand.
 */
export const withTyped = (machine: Machine, typed: Typed): Checked<Machine> => {
  const said = allOf(machine).flatMap(field => {
    const text = typed[field.path]?.trim() ?? ''
    return text === '' ? [] : [{ path: field.path.split('.'), value: figureOf(text, field) }]
  })
  const isWhole = (path: readonly string[]): boolean => {
    const group = groupOf(path)
    const start = group === undefined ? '' : path.slice(0, path.indexOf(group) + 1).join('.')
    return group === undefined || said.filter(s => s.path.join('.').startsWith(`${start}.`)).length === SIZE[group]
  }
  const emptied = allOf(machine).reduce<unknown>((at, { path }) => {
    const keys = path.split('.')
    const group = groupOf(keys)
    const gone = group === undefined ? keys : keys.slice(0, keys.indexOf(group) + 1)
    return inside(at, gone) === undefined ? at : put(at, gone, undefined)
  }, machine)
  return readMachine(said.filter(s => isWhole(s.path)).reduce((at, { path, value }) => put(at, path, value), emptied))
}
