// Bytes as the 45 characters that a QR code packs most tightly as text (RFC 9285; ISO/IEC 18004, alphanumeric mode).
// Text, since not every phone's own reader gives a code's bytes unchanged.

const LETTERS = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:'

/** Two bytes make three characters, a last odd one makes two. */
export const toBase45 = (bytes: Uint8Array): string => {
  let text = ''
  for (let i = 0; i < bytes.length; i += 2) {
    const second = bytes[i + 1]
    let rest = second === undefined ? (bytes[i] ?? 0) : (bytes[i] ?? 0) * 256 + second
    for (let n = second === undefined ? 2 : 3; n > 0; n--) {
      text += LETTERS.charAt(rest % 45)
      rest = Math.floor(rest / 45)
    }
  }
  return text
}

/** The bytes, or nothing where the text cannot come from `toBase45`: a foreign character, a group too large, one character over. */
export const fromBase45 = (text: string): Uint8Array | undefined => {
  if (text.length % 3 === 1) return undefined
  const bytes: number[] = []
  for (let i = 0; i < text.length; i += 3) {
    const group = [...text.slice(i, i + 3)].map(letter => LETTERS.indexOf(letter))
    if (group.includes(-1)) return undefined
    const value = group.reduceRight((sum, digit) => sum * 45 + digit, 0)
    if (value > (group.length === 3 ? 0xffff : 0xff)) return undefined
    if (group.length === 3) bytes.push(value >> 8)
    bytes.push(value & 0xff)
  }
  return Uint8Array.from(bytes)
}
