type Order = readonly { readonly key: string; readonly quoted: string }[]
/** Objects of a log have few shapes: each list of keys is sorted once. Kept small, for a file may bring any keys. */
const orders = new Map<string, Order>()
const MOST = 500
const orderOf = (keys: readonly string[]): Order => {
  const name = JSON.stringify(keys)
  const known = orders.get(name)
  if (known) return known
  const order = [...keys].sort().map(key => ({ key, quoted: `${JSON.stringify(key)}:` }))
  if (orders.size >= MOST) orders.clear()
  orders.set(name, order)
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
