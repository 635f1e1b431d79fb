import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { fromBase45, toBase45 } from '../../web/qr/base45.ts'
import { crc32 } from '../../web/qr/crc.ts'
import { codeOf } from '../../web/qr/draw.ts'
import { pack, unpack } from '../../web/qr/pack.ts'
import { collect, framesOf } from '../../web/qr/sequence.ts'

const SEED = 45
const bytesOf = (length: number) => Uint8Array.from({ length }, (_, i) => (i * 37 + (i >> 8)) & 255)
const seeded = { seed: SEED }

describe('base 45', () => {
  test.each([
    ['AB', 'BB8'],
    ['Hello!!', '%69 VD92EX0'],
    ['base-45', 'UJCLQE7W581'],
  ])('%s is written as RFC 9285, 4.3 does', (plain, text) => {
    expect(toBase45(new TextEncoder().encode(plain))).toBe(text)
    expect(fromBase45(text)).toEqual(new TextEncoder().encode(plain))
  })
  test.each(['A', 'GGW', ':::', '::', 'bb8', 'BB8a'])('%j comes from no bytes', text => expect(fromBase45(text)).toBeUndefined())
})

test('the check is the one of the published test value', () => {
  // CRC-32/ISO-HDLC of '123456789', as every catalogue of such checks gives it (from memory).
  expect(crc32(new TextEncoder().encode('123456789'))).toBe(0xcbf43926)
})

describe('a sequence of codes', () => {
  test(`comes together in any order, with repeats and foreign codes between; seed ${SEED}`, () => {
    const wild = fc.record({
      bytes: fc.uint8Array({ maxLength: 6000 }),
      order: fc.array(fc.nat(), { maxLength: 30 }),
      strange: fc.array(fc.string()),
    })
    fc.assert(
      fc.property(wild, ({ bytes, order, strange }) => {
        const frames = framesOf(bytes, 'session')
        const repeats = order.map(n => frames[n % frames.length] ?? '')
        const read = [...strange, ...repeats, ...frames.toReversed()]
        const whole = collect(read)
        expect(whole.bytes).toEqual(bytes)
        expect(whole).toMatchObject({ kind: 'session', count: frames.length, missing: [] })
        expect(whole.refused.length).toBe(strange.length)
      }),
      { ...seeded, numRuns: 200 },
    )
  })

  test('what is missing is told by number', () => {
    const frames = framesOf(bytesOf(3000), 'session')
    expect(frames.length).toBe(6)
    const { bytes, missing, count } = collect([4, 1, 4].map(i => frames[i] ?? ''))
    expect({ bytes, missing, count }).toEqual({ bytes: undefined, missing: [1, 3, 4, 6], count: 6 })
  })

  test('a code of another sequence is set aside, and said where it stood', () => {
    const [ours, others] = [framesOf(bytesOf(1200), 'session'), framesOf(bytesOf(1300), 'session')]
    const read = [ours[0], others[1], ours[1], ours[2]].map(text => text ?? '')
    expect(collect(read).refused).toEqual([{ at: 1, why: 'other' }])
    expect(collect(read).bytes).toEqual(bytesOf(1200))
  })

  test.each([
    ['session', 89 + 8],
    ['machine', 121 + 8],
  ] as const)('a full code of a %s has %i modules along its edge with the white border, and plain signs only', (kind, edge) => {
    for (const text of framesOf(bytesOf(4 * (kind === 'machine' ? 1000 : 518)), kind)) {
      expect(text).toMatch(/^OHMWARD:[0-9A-Z $%*+\-./:]+$/)
      expect(codeOf(text).size).toBe(edge)
    }
  })

  test(`2000 altered codes never pass for right ones and never throw; seed ${SEED}`, () => {
    const frames = framesOf(bytesOf(1400), 'session')
    const change = fc.record({ frame: fc.nat(2), at: fc.nat(900), to: fc.string({ minLength: 0, maxLength: 3 }), cut: fc.nat(3) })
    let refused = 0
    fc.assert(
      fc.property(change, ({ frame, at, to, cut }) => {
        const right = frames[frame] ?? ''
        const wrong = right.slice(0, at) + to + right.slice(at + cut)
        fc.pre(wrong !== right)
        refused++
        const read = collect([wrong])
        expect(read.kind).toBeUndefined()
        expect(read.refused).toHaveLength(1)
      }),
      { ...seeded, numRuns: 2000 },
    )
    expect(refused).toBe(2000)
  })

  test('more than anybody reads is refused', () => expect(() => framesOf(new Uint8Array(2_000_000), 'session')).toThrow(RangeError))
})

describe('packing', () => {
  test(`every text comes back; seed ${SEED}`, async () => {
    await fc.assert(
      fc.asyncProperty(fc.string({ unit: 'grapheme', maxLength: 2000 }), async text => {
        expect(await unpack(await pack(text))).toBe(text)
      }),
      { ...seeded, numRuns: 100 },
    )
  })
  test('what repeats itself gets much shorter', async () => expect((await pack('valve '.repeat(1000))).length).toBeLessThan(100))
  test('bytes that swell past the limit are given up, and so are cut and strange ones', async () => {
    const bomb = await pack('0'.repeat(200_000))
    expect(bomb.length).toBeLessThan(1000)
    expect(await unpack(bomb, 100_000)).toBeUndefined()
    expect(await unpack(bomb, 200_000)).toHaveLength(200_000)
    expect(await unpack(bomb.slice(0, 50))).toBeUndefined()
    expect(await unpack(Uint8Array.of(7, 1, 2))).toBeUndefined()
    expect(await unpack(Uint8Array.of(0, 0xff))).toBeUndefined()
    expect(await unpack(new Uint8Array())).toBeUndefined()
  })
})
