/**
 * The one way to write a JSON value: keys sorted by UTF-16 code units, numbers as ECMAScript writes them, no spaces (RFC 8785).
 * Half a surrogate pair, which the RFC refuses, stays escaped: a slip in a note must not make a log unreadable.
 */
export const canonical = (value: unknown): string => {
  if (Array.isArray(value)) return `[${value.map(canonical).join(',')}]`
  if (typeof value === 'object' && value !== null) {
    const fields = Object.entries(value)
      .filter(([, inside]) => inside !== undefined)
      .sort(([a], [b]) => (a < b ? -1 : 1))
    return `{${fields.map(([key, inside]) => `${JSON.stringify(key)}:${canonical(inside)}`).join(',')}}`
  }
  if (typeof value === 'number' && !Number.isFinite(value)) throw new RangeError(`no JSON number: ${value}`)
  const written = JSON.stringify(value)
  if (written === undefined) throw new TypeError(`no JSON value: ${typeof value}`)
  return written
}
