// Reading a file's fields strictly: each reader takes what stands there and gives back a fresh, checked value, or refuses.
import type { Checked } from './machine.ts'

/** Leaves the reading at the first wrong field. Only `checked` sees it. */
class Refusal extends Error {
  readonly field: string
  readonly found: string
  constructor(field: string, found: unknown, must: string) {
    const seen = shown(found)
    const name = field === '' ? 'the file' : field
    super(found === undefined ? `${name} is missing: it must be ${must}.` : `${name} is ${seen}, but must be ${must}.`)
    this.field = name
    this.found = seen
  }
}

const LONGEST_SHOWN = 40
const shortened = (text: string): string => (text.length <= LONGEST_SHOWN ? text : `${text.slice(0, LONGEST_SHOWN - 1)}…`)
/** The value in at most 40 characters. Never looks inside a list or an object, which may be deep beyond any stack. */
export const shown = (found: unknown): string => {
  if (found === undefined) return 'nothing'
  if (typeof found === 'string') return shortened(`"${found}"`)
  if (Array.isArray(found)) return `a list of ${found.length}`
  if (typeof found === 'function') return 'a function'
  return typeof found === 'object' && found !== null ? 'an object' : shortened(String(found))
}

export type Reader<T> = (found: unknown, field: string) => T
/** `must` completes the sentence '… is …, but must be …'. */
export const refuse = (field: string, found: unknown, must: string): never => {
  throw new Refusal(field, found, must)
}

/** Reads a whole file: the value, or the first wrong field. To the caller a refusal is a value, not an exception. */
export const checked = <T>(read: Reader<T>, json: unknown): Checked<T> => {
  try {
    return { ok: true, value: read(json, '') }
  } catch (reason) {
    if (!(reason instanceof Refusal)) throw reason
    return { ok: false, field: reason.field, found: reason.found, message: reason.message }
  }
}

const numberWhere =
  (right: (x: number) => boolean, must: string): Reader<number> =>
  (found, field) =>
    typeof found === 'number' && right(found) ? found : refuse(field, found, must)
const withUnit = (limit: number, unit: string): string => (unit === '' ? String(limit) : `${limit} ${unit}`)
export const number = (low: number, high: number, unit = ''): Reader<number> =>
  numberWhere(x => x >= low && x <= high, `a number from ${low} to ${withUnit(high, unit)}`)
export const positive = (high: number, unit = ''): Reader<number> =>
  numberWhere(x => x > 0 && x <= high, `a number above 0 and at most ${withUnit(high, unit)}`)
export const whole = (low: number, high: number): Reader<number> =>
  numberWhere(x => Number.isInteger(x) && x >= low && x <= high, `a whole number from ${low} to ${high}`)

export const flag: Reader<boolean> = (found, field) => (typeof found === 'boolean' ? found : refuse(field, found, 'true or false'))

export const oneOf =
  <const T extends string | number>(...words: readonly T[]): Reader<T> =>
  (found, field) =>
    words.find(word => word === found) ?? refuse(field, found, `one of ${words.join(', ')}`)

const LONGEST_TEXT = 500
export const text: Reader<string> = (found, field) =>
  typeof found === 'string' && found.length <= LONGEST_TEXT ? found : refuse(field, found, `a text of at most ${LONGEST_TEXT} characters`)

const LONGEST_ID = 60
/** Ids stand in points such as `B3/J1.plus`, and as keys: what every object already has (`constructor`) would be found unasked. */
export const id: Reader<string> = (found, field) => {
  if (typeof found !== 'string' || found.trim() === '' || found.length > LONGEST_ID)
    return refuse(field, found, `a text of 1 to ${LONGEST_ID} characters`)
  if (/[/.]/.test(found)) return refuse(field, found, "without '/' and '.', which part the names of points")
  return found in {} ? refuse(field, found, 'another word: this one is reserved') : found
}

export const list =
  <T>(read: Reader<T>, most: number, least = 0): Reader<T[]> =>
  (found, field) =>
    Array.isArray(found) && found.length >= least && found.length <= most
      ? Array.from(found, (item, i) => read(item, `${field}[${i}]`))
      : refuse(field, found, `a list of ${least} to ${most}`)

interface Optional<T> {
  readonly optional: Reader<T>
}
/** A field that may be missing; where it stands it must be right. */
export const optional = <T>(read: Reader<T>): Optional<T> => ({ optional: read })
type Shape<T> = { readonly [K in keyof T]-?: Record<never, never> extends Pick<T, K> ? Optional<Exclude<T[K], undefined>> : Reader<T[K]> }

const isObject = (found: unknown): found is Readonly<Record<string, unknown>> =>
  typeof found === 'object' && found !== null && !Array.isArray(found)
/** Own fields only: what an object inherits was never in the file. */
export const fieldOf = (found: unknown, key: string): unknown => (isObject(found) && Object.hasOwn(found, key) ? found[key] : undefined)

/** A fresh object of the known fields. An unknown field is refused, or a slip of the pen would pass unseen; `x-…` are notes of others. */
export const object = <T>(shape: Shape<T>): Reader<T> => {
  // Once a shape, not once an object: a log of years holds very many.
  const known = Object.entries<Reader<unknown> | Optional<unknown>>(shape)
  return (found, field) => {
    if (!isObject(found)) return refuse(field, found, 'an object')
    const path = (key: string): string => (field === '' ? key : `${field}.${key}`)
    for (const stray of Object.keys(found))
      if (!Object.hasOwn(shape, stray) && !stray.startsWith('x-'))
        return refuse(path(shortened(stray)), found[stray], `left out: the known fields here are ${Object.keys(shape).join(', ')}`)
    // The keys are those of our own shapes, never the file's.
    const read: Record<string, unknown> = {}
    for (const [key, reader] of known) {
      const inside = fieldOf(found, key)
      if (typeof reader === 'function') read[key] = reader(inside, path(key))
      else if (inside !== undefined) read[key] = reader.optional(inside, path(key))
    }
    return read as T
  }
}
