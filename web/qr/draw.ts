// QR codes as drawings. Reaches the code library: import it lazily.
import encodeQR from 'qr'

/** White around a code, in modules (ISO/IEC 18004: at least 4). */
const QUIET = 4

export interface Code {
  /** Modules along one edge, the white border included. */
  readonly size: number
  /** The dark modules as the outline of an SVG path in module units. */
  readonly path: string
}

const stripesOf = (row: readonly boolean[], y: number): string => {
  let path = ''
  for (let x = 0; x < row.length; x++) {
    if (!row[x]) continue
    const start = x
    while (row[x + 1]) x++
    path += `M${start} ${y}h${x + 1 - start}v1H${start}z`
  }
  return path
}

/** A text as a code at the medium level: readable with 15 in 100 of it lost (ISO/IEC 18004). Alphanumeric signs only. */
export const codeOf = (text: string): Code => {
  const modules = encodeQR(text, 'raw', { ecc: 'medium', encoding: 'alphanumeric', border: QUIET })
  return { size: modules.length, path: modules.map(stripesOf).join('') }
}
