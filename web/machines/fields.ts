// What a form or a line of a table can say of a machine: its fields as typed, and the checked thing they make together.
// Limits stand once, in the reader of machine files: each value is tried in a machine that holds nothing else.
import { readMachine } from '../../engine/check.ts'
import type { Branch, Load, Machine, Protection, Run, Supply } from '../../engine/machine.ts'
import { TERMINALS } from '../../engine/wiring.ts'

export interface Field {
  readonly key: string
  readonly type: 'id' | 'text' | 'number' | 'flag' | 'choice'
  readonly choices?: readonly string[]
  readonly needed?: true
}
const id = { key: 'id', type: 'id', needed: true } as const
const name = { key: 'name', type: 'text' } as const
const number = (key: string): Field => ({ key, type: 'number' })
const flag = (key: string): Field => ({ key, type: 'flag' })
const choice = (key: string, ...choices: readonly string[]): Field => ({ key, type: 'choice', choices })

/** In the order in which they are asked. */
export const FIELDS = {
  machine: [
    { ...name, needed: true },
    { key: 'place', type: 'text' },
  ],
  supply: [
    number('ratedVoltage'),
    number('setVoltage'),
    number('ratedCurrent'),
    choice('limitMode', 'constant-current', 'hiccup', 'latch-off', 'unknown'),
    number('limitCurrent'),
    flag('zeroVoltBonded'),
  ],
  branch: [id, name, choice('device', 'breaker', 'fuse', 'electronic', 'none'), number('rating'), choice('curve', 'B', 'C', 'D', 'Z')],
  run: [
    { key: 'from', type: 'id', needed: true },
    { key: 'to', type: 'id', needed: true },
    { ...number('length'), needed: true },
    flag('moving'),
    number('area'),
    choice('class', '1', '2', '5'),
    number('awg'),
    flag('stranded'),
    number('temperature'),
    id,
  ],
  load: [
    { ...choice('load', 'coil', 'electronic', 'lamp', 'motor'), needed: true },
    name,
    { key: 'at', type: 'id', needed: true },
    number('watts'),
    flag('pluggable'),
    id,
  ],
} as const satisfies Record<string, readonly Field[]>
export type Item = keyof typeof FIELDS
export interface Things {
  readonly machine: Pick<Machine, 'name' | 'place'>
  readonly supply: Supply
  readonly branch: Omit<Branch, 'wiring' | 'loads'>
  readonly run: Run
  readonly load: Load
}
/** Values as typed, by key. Missing and empty are the same. */
export type Texts = Readonly<Record<string, string>>
/** `value`: it is not what the field takes. `both`: area and gauge at once. `alone`: it says nothing without another field. */
export type Why = 'missing' | 'value' | 'both' | 'alone'
export interface Wrong {
  readonly key: string
  readonly found: string
  readonly why: Why
}

const YES = ['yes', 'y', 'true', '1', 'x', 'ja', 'j', 'oui', 'o', 'sí', 'si', 's', 'tak', 't']
const NO = ['no', 'n', 'false', '0', '-', 'nein', 'non', 'nie']
const NUMBER = /^[+-]?(\d+([.,]\d*)?|[.,]\d+)(e[+-]?\d{1,3})?$/i
/** A number as people type it: comma or point, a true minus sign; no thousands, which comma and point would make doubtful. */
export const numberOf = (text: string): number | undefined => {
  const plain = text.trim().replace('−', '-')
  return NUMBER.test(plain) ? Number(plain.replace(',', '.')) : undefined
}
export const flagOf = (text: string): boolean | undefined => {
  const word = text.trim().toLowerCase()
  return YES.includes(word) ? true : NO.includes(word) ? false : undefined
}

type Value = string | number | boolean
const valueFrom = (field: Field, text: string): Value | undefined => {
  if (field.type === 'number') return numberOf(text)
  if (field.type === 'flag') return flagOf(text)
  if (field.type !== 'choice') return text.trim()
  const found = field.choices?.find(word => word.toLowerCase() === text.trim().toLowerCase())
  return field.key === 'class' && found !== undefined ? Number(found) : found
}

/** One value at its place in an otherwise empty thing. */
const placed = (item: Item, key: string, value: Value): object => {
  if (key === 'limitMode') return { limit: { mode: value } }
  if (key === 'limitCurrent') return { limit: { mode: 'unknown', current: value } }
  if (key === 'device') return { protection: { kind: value } }
  if (key === 'rating' || key === 'curve') return { protection: { kind: 'breaker', [key]: value } }
  if (key === 'area') return { conductor: { area: value } }
  if (key === 'class') return { conductor: { area: 1, class: value } }
  if (key === 'awg') return { conductor: { awg: value } }
  if (key === 'stranded') return { conductor: { awg: 18, stranded: value } }
  return { [item === 'load' && key === 'load' ? 'kind' : key]: value }
}
const EMPTY = { format: 'ohmward.machine', version: 1, branches: [{ id: 'B1' }] }
const RUN = { id: 'run', from: TERMINALS, to: 'end', length: 1 }
const LOAD = { id: 'load', at: TERMINALS, kind: 'coil' }
/** A junction's name is tried as a run's end: as a beginning it would have to hang on something. */
const tried = (item: Item, key: string, value: Value): unknown => {
  if (item === 'machine') return { ...EMPTY, [key]: value }
  if (item === 'supply') return { ...EMPTY, supply: placed(item, key, value) }
  if (item === 'branch') return { ...EMPTY, branches: [{ id: 'B1', ...placed(item, key, value) }] }
  if (item === 'load') return { ...EMPTY, branches: [{ id: 'B1', loads: [{ ...LOAD, ...placed(item, key, value) }] }] }
  if (key === 'from' && value === TERMINALS) return EMPTY
  return { ...EMPTY, branches: [{ id: 'B1', wiring: [{ ...RUN, ...placed(item, key === 'from' ? 'to' : key, value) }] }] }
}

interface Read {
  readonly values: ReadonlyMap<string, Value>
  readonly wrong: readonly Wrong[]
}
const readTexts = (item: Item, texts: Texts): Read => {
  const values = new Map<string, Value>()
  const wrong: Wrong[] = []
  for (const field of FIELDS[item] as readonly Field[]) {
    const { key } = field
    const found = (texts[key] ?? '').trim()
    if (found === '') {
      if (field.needed) wrong.push({ key, found, why: 'missing' })
      continue
    }
    const value = valueFrom(field, found)
    if (value === undefined || !readMachine(tried(item, key, value)).ok) wrong.push({ key, found, why: 'value' })
    else values.set(key, value)
  }
  const alone = (key: string, ...others: readonly string[]): void => {
    if (values.has(key) && !others.some(other => values.has(other))) wrong.push({ key, found: texts[key] ?? '', why: 'alone' })
  }
  if (values.has('area') && values.has('awg')) wrong.push({ key: 'awg', found: texts['awg'] ?? '', why: 'both' })
  if (!wrong.some(({ key }) => key === 'area' || key === 'awg')) {
    alone('class', 'area')
    alone('stranded', 'awg')
  }
  if (!wrong.some(({ key }) => key === 'device')) {
    alone('rating', 'device')
    alone('curve', 'device')
  }
  return { values, wrong }
}

type Old = Readonly<Record<string, unknown>>
/** What the fields cannot say stays as it was; but not what belonged to another kind of device or load. */
const merged = (item: Item, values: ReadonlyMap<string, Value>, old: Old): Old => {
  const take = (...keys: readonly string[]): Old =>
    Object.fromEntries(keys.flatMap(key => (values.has(key) ? [[key, values.get(key)]] : [])))
  const unless = (inside: Old): Old | undefined => (Object.keys(inside).length > 0 ? inside : undefined)
  const rest = (thing: Old, ...known: readonly string[]): Old =>
    Object.fromEntries(Object.entries(thing).filter(([key]) => !known.includes(key)))
  const whole = (thing: Old): Old => Object.fromEntries(Object.entries(thing).filter(([, value]) => value !== undefined))
  switch (item) {
    case 'machine':
      return { ...rest(old, 'name', 'place'), ...take('name', 'place') }
    case 'supply': {
      const known = ['ratedVoltage', 'setVoltage', 'ratedCurrent', 'zeroVoltBonded']
      const [mode, current] = [values.get('limitMode'), values.get('limitCurrent')]
      const limit = mode === undefined && current === undefined ? undefined : whole({ mode: mode ?? 'unknown', current })
      return whole({ ...rest(old, ...known), ...take(...known), limit })
    }
    case 'branch': {
      const kind = values.get('device')
      const before = (old['protection'] ?? {}) as Partial<Protection>
      const kept = before.kind === kind ? rest({ ...before }, 'kind', 'rating', 'curve') : {}
      const protection = kind === undefined ? undefined : { kind, ...take('rating', 'curve'), ...kept }
      return whole({ ...rest(old, 'id', 'name'), ...take('id', 'name'), protection })
    }
    case 'run': {
      const conductor = unless(take('area', 'class', 'awg', 'stranded'))
      const known = ['id', 'from', 'to', 'length', 'moving', 'temperature']
      return whole({ ...rest(old, ...known), ...take(...known), conductor })
    }
    case 'load': {
      const known = ['id', 'name', 'at', 'watts', 'pluggable']
      const kind = values.get('load')
      const kept = kind === old['kind'] ? old : rest(old, 'inRush', 'capacitance')
      return whole({ ...rest(kept, ...known), ...take(...known), kind })
    }
  }
}

export type Made<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly wrong: readonly Wrong[] }
/** The thing that the texts say, on what was known of it before; or each field that is wrong, with what was found in it. */
export const thingOf = <I extends Item>(item: I, texts: Texts, old: object = {}): Made<Things[I]> => {
  const { values, wrong } = readTexts(item, texts)
  // Each value has passed the reader of machine files, and the needed ones are there: that is what the type says.
  return wrong.length > 0 ? { ok: false, wrong } : { ok: true, value: merged(item, values, { ...old }) as unknown as Things[I] }
}

const shownFlag = (value: boolean | undefined): string => (value === undefined ? '' : value ? 'yes' : 'no')
/** The texts of a thing, numbers with a point. */
export const textsOf = <I extends Item>(item: I, thing: Things[I]): Texts => {
  const { protection, conductor, limit, kind, ...plain } = thing as Partial<Branch & Run & Load & Supply>
  const inside: Readonly<Record<string, unknown>> = {
    ...plain,
    ...conductor,
    device: protection?.kind,
    rating: protection?.rating,
    curve: protection?.curve,
    limitMode: limit?.mode,
    limitCurrent: limit?.current,
    load: kind,
  }
  return Object.fromEntries(
    FIELDS[item].map(({ key }) => {
      const value = inside[key]
      return [key, typeof value === 'boolean' ? shownFlag(value) : value === undefined ? '' : String(value)]
    }),
  )
}
