import { expect, test } from 'vitest'
import { asksWhich } from '../../web/flow/told.ts'
import { invent } from './invent.ts'
import { seedOf } from './random.ts'
import { toldOf } from './told.ts'

test('[seed 8] who names what is out names the faulty branch, and of its loads one that hangs on the faulty run', () => {
  const named = { branch: 0, load: 0 }
  for (let i = 0; i < 60; i++) {
    const truth = invent(seedOf(8, i), { fault: 'open', branches: 4 })
    const told = toldOf(truth)
    if (!('run' in truth.fault)) throw new Error(`no open conductor: ${truth.fault.kind}`)
    const { branch: id, run } = truth.fault
    expect(told.branch).toBe(id)
    named.branch += 1
    if (told.load === undefined) continue
    named.load += 1
    expect(asksWhich(truth.symptom)).toBe('load')
    // From the load back to the cabinet, the faulty run must lie on the way.
    const branch = truth.machine.branches.find(b => b.id === id)
    let at = branch?.loads?.find(l => l.id === told.load)?.at
    const way: string[] = []
    while (at !== undefined && at !== 'terminals') {
      const arriving = branch?.wiring?.find(({ to }) => to === at)
      way.push(arriving?.id ?? '')
      at = arriving?.from
    }
    expect(way).toContain(run)
  }
  expect(named.branch).toBe(60)
  expect(named.load).toBeGreaterThan(20)
})
test('a machine that is dead as a whole has nothing to name', () => {
  expect(toldOf(invent(seedOf(8, 1), { branches: 4 }))).toEqual({})
})
