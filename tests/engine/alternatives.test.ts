// What a reading in a branch is said to leave, beside what the best of the other sort would.
import { expect, test } from 'vitest'
import { begin } from '../../engine/belief.ts'
import type { Kit } from '../../engine/machine.ts'
import { observe } from '../../engine/observe.ts'
import { pinpointing } from '../../engine/pinpoint.ts'
import { branchOf, plantOf } from '../../engine/plant.ts'
import { dead, INJECTOR, rowOfBranches } from './machines.ts'

const plans = (kit: Kit) => {
  const machine = rowOfBranches(2)
  const plant = plantOf(machine)
  const positions = dead(machine)
  const read = { kind: 'read', meter: 'ohm', red: 'B1.plus', black: 'B1.zero' } as const
  const belief = observe(begin(plant, kit, 'all-dead'), { of: 'read', read, positions, zeroed: false, shown: 0.6, unsteady: false })
  const s = { positions, power: 'provedDead', zeroed: false, setAside: new Set<string>(), taken: new Set<string>() } as const
  return pinpointing(belief, branchOf(plant, 'B1'), s).plans
}
const isFed = (plan: ReturnType<typeof plans>[number]): boolean =>
  plan.steps.some(step => step.kind === 'act' && step.act.act === 'inject' && step.act.to === 'on')
const least = (of: ReturnType<typeof plans>): number => Math.min(...of.map(({ why }) => Number(why.facts['after'])))

test('with a source every plan says what ohms and what a current and volts would leave at best', () => {
  const all = plans(INJECTOR)
  const [ohm, fed] = [least(all.filter(plan => !isFed(plan))), least(all.filter(isFed))]
  expect(all.length).toBeGreaterThan(3)
  for (const { why } of all) expect(why.facts).toMatchObject({ ohm, fed })
  expect(fed).toBeLessThan(ohm)
})
test('without a source there is no word of one', () => {
  const all = plans({})
  expect(all.length).toBeGreaterThan(0)
  for (const { why } of all) {
    expect(why.facts['ohm']).toBe(least(all))
    expect(why.facts).not.toHaveProperty('fed')
  }
})
