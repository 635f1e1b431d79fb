import { createHash } from 'node:crypto'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { hex, sha256 } from '../../web/log/sha256.ts'

const bytes = (text: string) => new TextEncoder().encode(text)

// FIPS 180-2, appendix B: the worked examples of SHA-256.
test.each([
  { text: 'abc', hash: 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad' },
  {
    text: 'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
    hash: '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
  },
  { text: 'a'.repeat(1_000_000), hash: 'cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0' },
])('the hash of $text.length bytes is that of the standard', ({ text, hash }) => {
  expect(hex(sha256(bytes(text)))).toBe(hash)
})

const other = (data: Uint8Array): string => createHash('sha256').update(data).digest('hex')
test('any length about the size of a block is hashed as another implementation does', () => {
  for (let length = 0; length <= 200; length++) {
    const data = Uint8Array.from({ length }, (_, i) => i * 7)
    expect(hex(sha256(data))).toBe(other(data))
  }
})
test('[seed 6] so are any bytes, and a part of them, which stay as they were', () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 600 }), fc.nat(600), fc.nat(600), (given, from, to) => {
      const part = given.subarray(Math.min(from, to), Math.max(from, to))
      const before = [...given]
      expect(hex(sha256(part))).toBe(other(part))
      expect([...given]).toEqual(before)
    }),
    { seed: 6, numRuns: 500 },
  )
})
