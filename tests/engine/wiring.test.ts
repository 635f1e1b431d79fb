import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Branch, Run } from '../../engine/machine.ts'
import { metre, type Volt } from '../../engine/quantities.ts'
import { junctions, outwards, pathTo, wiringOf } from '../../engine/wiring.ts'

const SEED = 24
const run = (id: string, from: string, to: string, length: number): Run => ({ id, from, to, length })
/** Cabinet to J1, from there to X1, X2 and on to J2, X3; written down from the far end. */
const press: Branch = {
  id: 'B3',
  wiring: [
    run('W5', 'J2', 'X3', 3),
    run('W4', 'J1', 'J2', 10),
    run('W2', 'J1', 'X1', 4),
    run('W3', 'J1', 'X2', 5.5),
    run('W1', 'terminals', 'J1', 12),
  ],
  loads: [
    { id: 'Y1', at: 'X1', kind: 'coil' },
    { id: 'Y3', at: 'X3', kind: 'coil' },
    { id: 'B1', at: 'X3', kind: 'electronic' },
    { id: 'K1', at: 'terminals', kind: 'coil' },
  ],
}

describe('a branch with known wiring', () => {
  const wiring = wiringOf(press)
  test('its runs stand parent before child, however they were written down', () => {
    expect(wiring.unknown).toBe(false)
    expect(wiring.runs.map(({ run }) => run.id).slice(0, 1)).toEqual(['W1'])
    expect(wiring.runs.map(({ run }) => run.id).sort()).toEqual(['W1', 'W2', 'W3', 'W4', 'W5'])
    for (const [i, { parent, near }] of wiring.runs.entries()) {
      expect(parent).toBeLessThan(i)
      expect(wiring.runs[parent]?.far ?? 'terminals').toBe(near)
    }
  })
  test('metres count from the terminals along the wiring', () => {
    const span = Object.fromEntries(wiring.runs.map(({ run, startsAt, endsAt }) => [run.id, [startsAt, endsAt]]))
    expect(span).toEqual({ W1: [0, 12], W2: [12, 16], W3: [12, 17.5], W4: [12, 22], W5: [22, 25] })
    expect(wiring.length).toBe(34.5)
  })
  test('the way to a junction, and all junctions', () => {
    expect(pathTo(wiring, 'X3').map(({ run }) => run.id)).toEqual(['W1', 'W4', 'W5'])
    expect(pathTo(wiring, 'terminals')).toEqual([])
    expect([...junctions(wiring)].sort()).toEqual(['J1', 'J2', 'X1', 'X2', 'X3', 'terminals'])
    expect(junctions(wiring)[0]).toBe('terminals')
    expect(() => pathTo(wiring, 'X9')).toThrow(/X9/)
  })
  test('loads stand at their junctions', () => {
    expect(Object.fromEntries([...wiring.loads].map(([at, loads]) => [at, loads.map(({ id }) => id)]))).toEqual({
      X1: ['Y1'],
      X3: ['Y3', 'B1'],
      terminals: ['K1'],
    })
  })
})

describe('a branch of which nothing is known', () => {
  test.each<[string, Branch]>([
    ['no wiring', { id: 'B1' }],
    ['an empty list of runs', { id: 'B1', wiring: [], loads: [] }],
  ])('%s: 40 m to one load', (_, branch) => {
    const { unknown, runs, length, loads } = wiringOf(branch)
    expect({ unknown, length, ids: runs.map(({ run }) => run.id) }).toEqual({ unknown: true, length: 40, ids: ['?'] })
    expect([...loads.keys()]).toEqual(['END'])
  })
  test('its known loads stand at the end, those of the cabinet at the terminals', () => {
    const { loads } = wiringOf({
      id: 'B1',
      loads: [
        { id: 'Y1', at: 'X1', kind: 'coil' },
        { id: 'K1', at: 'terminals', kind: 'coil' },
      ],
    })
    expect([...loads].map(([at, here]) => [at, here.map(({ id }) => id)])).toEqual([
      ['END', ['Y1']],
      ['terminals', ['K1']],
    ])
  })
})

test('a run that hangs on nothing throws and is named, a ring likewise', () => {
  expect(() => wiringOf({ id: 'B1', wiring: [run('W1', 'terminals', 'J1', 1), run('W2', 'J7', 'X1', 1)] })).toThrow(/W2/)
  expect(() => wiringOf({ id: 'B1', wiring: [run('W1', 'J2', 'J1', 1), run('W2', 'J1', 'J2', 1)] })).toThrow(/W1/)
  expect(outwards([run('W1', 'J2', 'J1', 1), run('W2', 'J1', 'J2', 1)])).toEqual([])
})

test.each<[string, Run]>([
  ['back to a junction on its way', run('W3', 'J2', 'J1', 1)],
  ['back to the terminals', run('W3', 'J2', 'terminals', 1)],
])('a loop throws: %s', (_, last) => {
  const wiring = [run('W1', 'terminals', 'J1', 1), run('W2', 'J1', 'J2', 1), last]
  expect(outwards(wiring)).toHaveLength(3)
  expect(() => wiringOf({ id: 'B1', wiring })).toThrow(/B1 form a loop/)
})

test(`in any tree, the path's lengths add up to where its end lies (seed ${SEED})`, () => {
  const trees = fc.array(fc.tuple(fc.nat(), fc.integer({ min: 1, max: 100 })), { minLength: 1, maxLength: 60 }).chain(links => {
    const runs = links.map(([pick, length], i) =>
      run(`W${i}`, pick % (i + 1) === 0 ? 'terminals' : `J${(pick % (i + 1)) - 1}`, `J${i}`, length),
    )
    return fc.shuffledSubarray(runs, { minLength: runs.length })
  })
  fc.assert(
    fc.property(trees, runs => {
      const wiring = wiringOf({ id: 'B1', wiring: runs })
      expect(wiring.runs).toHaveLength(runs.length)
      for (const junction of junctions(wiring)) {
        const path = pathTo(wiring, junction)
        expect(path.reduce((sum, { run }) => sum + run.length, 0)).toBeCloseTo(path.at(-1)?.endsAt ?? 0, 9)
        expect(path[0]?.near ?? 'terminals').toBe('terminals')
      }
    }),
    { seed: SEED },
  )
})

test('metres are no volts to the compiler', () => {
  // @ts-expect-error a place on the wiring is no voltage
  const place: Volt = wiringOf(press).length
  // @ts-expect-error a bare number has no unit
  const length: typeof place = 34.5
  expect([place, length]).toEqual([metre(34.5), 34.5])
})
