type Order = readonly { readonly key: string; readonly quoted: string }[]
/** Objects of a log have few shapes. Each list of keys is sorted once and found again key by key, which is faster than by a name made of it. */
interface Shapes {
  readonly next: Map<string, Shapes>
  order?: Order
}
const fresh = (): Shapes => ({ next: new Map() })
/** Kept small, for a file may bring any keys. */
const MOST = 2000
let shapes = fresh()
let kept = 0
const orderOf = (keys: readonly string[]): Order => {
  let at = shapes
  for (const key of keys) {
    const known = at.next.get(key) ?? fresh()
    if (!at.next.has(key)) {
      at.next.set(key, known)
      kept += 1
    }
    at = known
  }
  at.order ??= [...keys].sort().map(key => ({ key, quoted: `${JSON.stringify(key)}:` }))
  const { order } = at
  if (kept > MOST) [shapes, kept] = [fresh(), 0]
  return order
}

/**
 * The one way to write a JSON value: keys sorted by UTF-16 code units, numbers as ECMAScript writes them, no spaces (RFC 8785).
 * Half a surrogate pair, which the RFC refuses, stays escaped: a slip in a note must not make a log unreadable.
 */
export const canonical = (value: unknown): string => {
  if (typeof value === 'string') return JSON.stringify(value)
  if (Array.isArray(value)) return `[${value.map(canonical).join(',')}]`
  if (typeof value === 'object' && value !== null) {
    const held = value as Readonly<Record<string, unknown>>
    let fields = ''
    for (const { key, quoted } of orderOf(Object.keys(held))) {
      const inside = held[key]
      if (inside !== undefined) fields += (fields === '' ? quoted : `,${quoted}`) + canonical(inside)
    }
    return `{${fields}}`
  }
  if (typeof value === 'number' && !Number.isFinite(value)) throw new RangeError(`no JSON number: ${value}`)
  const written = JSON.stringify(value)
  if (written === undefined) throw new TypeError(`no JSON value: ${typeof value}`)
  return written
}
