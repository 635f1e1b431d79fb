import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { readKit, readMachine } from '../../engine/check.ts'
import { changed, type Key, kit, press } from './press.ts'

const SEED = 16
const wiring = ['branches', 2, 'wiring']

describe('whatever the JSON holds', () => {
  test('a __proto__ key is an unknown field and reaches no prototype', () => {
    const answer = readMachine(JSON.parse(JSON.stringify(press()).replace('{', '{"__proto__":{"polluted":true},')))
    expect(answer).toMatchObject({ ok: false, field: '__proto__' })
    expect('polluted' in {}).toBe(false)
  })
  test('a file cannot inherit its fields', () => {
    expect(readMachine(Object.create(press()))).toMatchObject({ ok: false, field: 'format' })
  })
  test('nesting deeper than any stack and lists longer than any machine are refused', () => {
    let deep: unknown = []
    for (let i = 0; i < 200_000; i++) deep = [deep]
    for (const path of [['name'], ['supply', 'limit'], [...wiring, 0], ['deep'], ['version']])
      expect(readMachine(changed(press(), path, deep))).toMatchObject({ ok: false, found: 'a list of 1' })
    expect(readMachine(changed(press(), wiring, new Array(5_000_000).fill(0)))).toMatchObject({ ok: false, found: 'a list of 5000000' })
  })
  test('a chain of as many runs as a branch may have is read', () => {
    const chain = Array.from({ length: 1000 }, (_, i) => ({
      id: `W${i}`,
      from: i === 0 ? 'terminals' : `J${i - 1}`,
      to: `J${i}`,
      length: 1,
    }))
    expect(readMachine(changed(press(), ['branches'], [{ id: 'B1', wiring: chain.reverse() }]))).toMatchObject({ ok: true })
  })

  const refusedOrSound = (read: (json: unknown) => { ok: boolean }, json: unknown): void => {
    const answer = read(json)
    if (answer.ok) return
    expect(answer).toMatchObject({
      field: expect.stringMatching(/./),
      found: expect.stringMatching(/^[\s\S]{1,40}$/),
      message: expect.stringMatching(/\.$/),
    })
  }
  test(`random JSON never throws (seed ${SEED})`, () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 6 }), json => void [refusedOrSound(readMachine, json), refusedOrSound(readKit, json)]),
      {
        seed: SEED,
        numRuns: 2000,
      },
    )
  })

  const pathsOf = (file: unknown, path: readonly Key[] = []): Key[][] =>
    typeof file !== 'object' || file === null
      ? [[...path]]
      : [[...path], ...Object.entries(file).flatMap(([key, inside]) => pathsOf(inside, [...path, Array.isArray(file) ? Number(key) : key]))]
  const odd = fc.oneof(
    fc.jsonValue(),
    fc.constantFrom<unknown>(
      'terminals',
      'J1',
      'X1',
      'W11',
      'B3',
      '__proto__',
      '',
      -1,
      0,
      Number.POSITIVE_INFINITY,
      Number.NaN,
      null,
      undefined,
      [],
      {},
      [[]],
    ),
  )
  const mutated = (file: () => unknown) =>
    fc.array(fc.tuple(fc.constantFrom(...pathsOf(file()).slice(1)), odd), { minLength: 1, maxLength: 4 }).map(changes =>
      changes.reduce<unknown>((now, [path, value]) => {
        const reachable = path
          .slice(0, -1)
          .reduce<unknown>((at, key) => (typeof at === 'object' && at !== null ? (at as Record<Key, unknown>)[key] : undefined), now)
        return typeof reachable === 'object' && reachable !== null ? changed(now, path, value) : now
      }, file()),
    )
  test(`a right file with a few values changed never throws, and what passes passes again unchanged (seed ${SEED})`, () => {
    fc.assert(
      fc.property(mutated(press), mutated(kit), (machine, own) => {
        refusedOrSound(readMachine, machine)
        refusedOrSound(readKit, own)
        const once = readMachine(machine)
        if (once.ok) expect(readMachine(once.value)).toEqual(once)
      }),
      { seed: SEED, numRuns: 3000 },
    )
  })
})
