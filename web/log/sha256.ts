// SHA-256 after FIPS 180-4, section 6.2. The browser's own answers by a promise for each call: thousands of events of some 200 bytes
// then wait far longer than they are hashed, and a transaction of the store would end meanwhile. Checked against its test vectors.

/** FIPS 180-4, 4.2.2 and 5.3.3: the first 32 bits of the fraction of the primes' cube roots, and of their square roots. */
const primes = (count: number): number[] => {
  const found: number[] = []
  for (let n = 2; found.length < count; n++) if (found.every(prime => n % prime !== 0)) found.push(n)
  return found
}
/** The root is needed to 32 bits past the point, and a double has 53 in all: enough for roots below 8, which these are. */
const fraction = (root: number): number => ((root - Math.floor(root)) * 2 ** 32) | 0
const ROUND = Int32Array.from(primes(64), prime => fraction(Math.cbrt(prime)))
const START = Int32Array.from(primes(8), prime => fraction(Math.sqrt(prime)))

const BLOCK = 64
// Used again by each call: the hash of a short event would else cost less than the memory that it takes.
const words = new Int32Array(64)
const state = new Int32Array(8)

/** One block of 64 bytes into the state. */
const compress = (view: DataView, from: number): void => {
  for (let i = 0; i < 16; i++) words[i] = view.getInt32(from + i * 4)
  for (let i = 16; i < 64; i++) {
    const x = words[i - 15] as number
    const y = words[i - 2] as number
    const small0 = ((x >>> 7) | (x << 25)) ^ ((x >>> 18) | (x << 14)) ^ (x >>> 3)
    const small1 = ((y >>> 17) | (y << 15)) ^ ((y >>> 19) | (y << 13)) ^ (y >>> 10)
    words[i] = ((words[i - 16] as number) + small0 + (words[i - 7] as number) + small1) | 0
  }
  let a = state[0] as number
  let b = state[1] as number
  let c = state[2] as number
  let d = state[3] as number
  let e = state[4] as number
  let f = state[5] as number
  let g = state[6] as number
  let h = state[7] as number
  for (let i = 0; i < 64; i++) {
    const big1 = ((e >>> 6) | (e << 26)) ^ ((e >>> 11) | (e << 21)) ^ ((e >>> 25) | (e << 7))
    const first = (h + big1 + ((e & f) ^ (~e & g)) + (ROUND[i] as number) + (words[i] as number)) | 0
    const big0 = ((a >>> 2) | (a << 30)) ^ ((a >>> 13) | (a << 19)) ^ ((a >>> 22) | (a << 10))
    const second = (big0 + ((a & b) ^ (a & c) ^ (b & c))) | 0
    h = g
    g = f
    f = e
    e = (d + first) | 0
    d = c
    c = b
    b = a
    a = (first + second) | 0
  }
  add(0, a)
  add(1, b)
  add(2, c)
  add(3, d)
  add(4, e)
  add(5, f)
  add(6, g)
  add(7, h)
}
const add = (i: number, x: number): void => {
  state[i] = ((state[i] as number) + x) | 0
}

/** Bytes that `hashInPlace` may need behind the data: a bit that is set, zeros, and the length in bits at the end of a block. */
export const PADDING = BLOCK + 8

/** Hashes the first `length` bytes, writes over up to `PADDING` bytes behind them, and leaves the hash's 32 bytes where the data began. */
export const hashInPlace = (view: DataView, length: number): void => {
  const end = Math.ceil((length + 9) / BLOCK) * BLOCK
  view.setUint8(length, 0x80)
  for (let i = length + 1; i < end - 8; i++) view.setUint8(i, 0)
  view.setUint32(end - 8, Math.floor(length / 2 ** 29))
  view.setUint32(end - 4, (length << 3) >>> 0)
  state.set(START)
  for (let from = 0; from < end; from += BLOCK) compress(view, from)
  for (let i = 0; i < state.length; i++) view.setInt32(i * 4, state[i] as number)
}

/** The 32 bytes of the hash. */
export const sha256 = (data: Uint8Array): Uint8Array<ArrayBuffer> => {
  const room = new Uint8Array(data.length + PADDING)
  room.set(data)
  hashInPlace(new DataView(room.buffer), data.length)
  return room.slice(0, state.length * 4)
}

const DIGITS = new TextEncoder().encode('0123456789abcdef')
/** As hexadecimal digits. */
export const hex = (bytes: Uint8Array): string => {
  const codes: number[] = []
  for (const byte of bytes) codes.push(DIGITS[byte >> 4] as number, DIGITS[byte & 15] as number)
  return String.fromCharCode(...codes)
}
