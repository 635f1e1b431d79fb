// The check of codes and of what they carry together.

const REVERSED = 0xedb88320
const step = (value: number): number => (value & 1 ? (value >>> 1) ^ REVERSED : value >>> 1)
const TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let value = byte
  for (let bit = 0; bit < 8; bit++) value = step(value)
  return value
})

/** CRC-32 as in ISO/IEC/IEEE 8802-3: an unsigned 32 bit number. It finds slips and mixed-up codes; it proves nothing about who made them. */
export const crc32 = (bytes: Uint8Array): number => {
  let value = 0xffffffff
  for (const byte of bytes) value = (value >>> 8) ^ (TABLE[(value ^ byte) & 0xff] ?? 0)
  return (value ^ 0xffffffff) >>> 0
}
