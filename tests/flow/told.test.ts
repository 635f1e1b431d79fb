// Which branch or load is out of service: asked for where the symptom has one, read strictly, and in the belief from the start.
import { expect, test } from 'vitest'
import { branchShares } from '../../engine/belief.ts'
import { again, startOf } from '../../web/flow/hunt.ts'
import { begin } from '../../web/flow/session.ts'
import { asksWhich, readTold } from '../../web/flow/told.ts'
import { known, METER, trees } from './machines.ts'

test.each([
  { symptom: 'one-branch-dead', start: { branch: 'B2' }, told: { branch: 'B2' } },
  { symptom: 'trips-again', start: { branch: 'B1' }, told: { branch: 'B1' } },
  { symptom: 'one-load-dead', start: { branch: 'B1' }, told: { branch: 'B1' } },
  { symptom: 'one-load-dead', start: { load: 'K2' }, told: { branch: 'B2', load: 'K2' } },
  { symptom: 'one-load-dead', start: { branch: 'B2', load: 'K2' }, told: { branch: 'B2', load: 'K2' } },
  { symptom: 'all-dead', start: {}, told: {} },
  { symptom: 'one-branch-dead', start: 'nonsense', told: {} },
] as const)('$symptom with $start is read', ({ symptom, start, told }) => {
  expect(readTold(known, symptom, start)).toEqual({ ok: true, value: told })
})

test.each([
  { symptom: 'one-branch-dead', start: { branch: 'B9' }, says: 'start.branch is "B9", but must be one of B1, B2.' },
  { symptom: 'one-branch-dead', start: { branch: 3 }, says: 'start.branch is 3, but must be one of B1, B2.' },
  { symptom: 'all-dead', start: { branch: 'B1' }, says: 'start.branch is "B1", but must be left out where the symptom is all-dead.' },
  {
    symptom: 'one-branch-dead',
    start: { load: 'K1' },
    says: 'start.load is "K1", but must be left out where the symptom is one-branch-dead.',
  },
  { symptom: 'one-load-dead', start: { load: 'K9' }, says: 'start.load is "K9", but must be one of K1, K2.' },
  { symptom: 'one-load-dead', start: { branch: 'B1', load: 'K2' }, says: 'start.load is "K2", but must be one of K1.' },
  { symptom: 'one-load-dead', start: { load: null }, says: 'start.load is null, but must be one of K1, K2.' },
] as const)('$symptom with $start is refused by field and value', ({ symptom, start, says }) => {
  expect(readTold(known, symptom, start)).toMatchObject({ ok: false, message: says })
})

test('where two branches have a load of the same id, the branch must be named too', () => {
  const both = { ...known, branches: known.branches.map(b => ({ ...b, loads: [{ id: 'Y', at: 'terminals', kind: 'coil' as const }] })) }
  expect(readTold(both, 'one-load-dead', { load: 'Y' })).toMatchObject({
    ok: false,
    field: 'start.branch',
    message: expect.stringContaining('one of B1, B2: each has a load Y'),
  })
  expect(readTold(both, 'one-load-dead', { branch: 'B2', load: 'Y' })).toEqual({ ok: true, value: { branch: 'B2', load: 'Y' } })
  const bare = { ...known, branches: [{ id: 'B1' }] }
  expect(readTold(bare, 'one-load-dead', { load: 'Y' })).toMatchObject({ ok: false, message: expect.stringContaining('no load is known') })
})

test('a load is found among others of its branch, beside branches of which no load is known', () => {
  const loads = ['K5', 'K6', 'K7'].map(id => ({ id, at: 'terminals', kind: 'coil' as const }))
  const machine = { ...known, branches: [{ id: 'B1' }, { id: 'B2', loads }, { id: 'B3' }] }
  expect(readTold(machine, 'one-load-dead', { load: 'K6' })).toEqual({ ok: true, value: { branch: 'B2', load: 'K6' } })
})

test('a symptom of one branch asks for the branch, one of a load for the load', () => {
  expect((['one-branch-dead', 'trips-again', 'one-load-dead'] as const).map(asksWhich)).toEqual(['branch', 'branch', 'load'])
})

test('symptoms of the whole machine ask for neither', () => {
  expect(['all-dead', 'all-low', 'dead-at-start', 'comes-and-goes'].map(s => asksWhich(s as 'all-dead'))).toEqual(Array(4).fill(undefined))
})

test('what was named stands in the session and in its belief', () => {
  const at = (more: object) => begin({ type: 'started', machine: trees, kit: METER, symptom: 'one-branch-dead', ...more })
  const told = at({ branch: 'B2' })
  expect(told.known).toEqual({ branch: 'B2' })
  const p = (s: typeof told) => s.belief.find(b => b.branch === 'B2')?.p ?? 0
  expect(p(told)).toBeGreaterThan(0.85)
  expect(p(at({}))).toBeLessThan(0.55)
})

test('a hunt that starts again after a mend keeps what the log taught, and not the name of what was out at first', () => {
  const learned = [{ fault: 'short-to-zero', branch: 'B1', run: 'W1', times: 5 }] as const
  const read = { kind: 'read', meter: 'volt', red: 'bus.plus', black: 'bus.zero' } as const
  const anew = (more: object) => {
    const h = startOf(known, METER, 'one-branch-dead', more)
    return branchShares(again(h, { of: 'read', read, positions: h.positions, zeroed: false, shown: 24, unsteady: false }, read).belief)
  }
  expect(anew({ branch: 'B2', learned })).toEqual(anew({ learned }))
  expect(anew({ learned })).not.toEqual(anew({}))
})
