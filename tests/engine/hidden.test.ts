// What no resting ohms can show: belief and next step where every branch reads clean.
import { expect, test } from 'vitest'
import { type Belief, begin, shares } from '../../engine/belief.ts'
import { choose } from '../../engine/choose.ts'
import { findingOf, spots } from '../../engine/locate.ts'
import { type Evidence, observe } from '../../engine/observe.ts'
import type { Situation } from '../../engine/plan.ts'
import { plantOf } from '../../engine/plant.ts'
import type { Positions } from '../../engine/positions.ts'
import type { Finding, Read, Symptom } from '../../engine/step.ts'
import { holdsDown } from '../../engine/suspicion.ts'
import { dead, found, rowOfBranches } from './machines.ts'
import { situationOf } from './shared.ts'

const machine = rowOfBranches(6)
const plant = plantOf(machine)
const start = (symptom: Symptom): Belief => begin(plant, {}, symptom)
const read = (of: Read, shown: number | 'OL', positions: Positions): Evidence => ({
  of: 'read',
  read: of,
  positions,
  zeroed: true,
  shown,
  unsteady: false,
})
const ohm = (place: string, shown: number): Evidence =>
  read({ kind: 'read', meter: 'ohm', red: `${place}.plus`, black: `${place}.zero` }, shown, dead(machine))
const having = (belief: Belief, ...evidence: readonly Evidence[]): Belief => evidence.reduce(observe, belief)
const clean = machine.branches.map(({ id }) => ohm(id, 62))
const flicker = (b: Belief): number => shares(b).flicker.reduce((sum, x) => sum + x, 0)
const suspected = (b: Belief, is: (f: Belief['suspicions'][number]) => boolean): number =>
  b.suspicions.reduce((sum, x, i) => sum + (is(x) ? (shares(b).suspected[i] ?? 0) : 0), 0)
const situation = (positions: Positions, more: Partial<Situation> = {}): Situation => situationOf(machine, positions, more)

test('clean ohms everywhere leave a short circuit that comes and goes, never a steady one', () => {
  const after = having(start('comes-and-goes'), ...clean)
  const steady = shares(after).short.reduce((sum, x) => sum + x, 0) - flicker(after)
  expect(flicker(after)).toBeGreaterThan(0.3)
  expect(steady).toBeLessThan(0.05)
})
test('low once and clean once is what comes and goes, in that branch', () => {
  const after = having(start('comes-and-goes'), ohm('B3', 0.6), ohm('B3', 62), ohm('B3', 0.6), ohm('B3', 62))
  expect(shares(after).flicker[2]).toBeGreaterThan(0.9)
  const [likeliest] = spots(after, 'B3')
  if (likeliest === undefined) throw new Error('a branch has places')
  expect(findingOf(likeliest, true).fault).toBe('intermittent')
})
test('a blinking lamp over clean ohms is what shows under voltage only; next come a trial or a look, never more ohms', () => {
  const lamp: Evidence = { of: 'look', look: { kind: 'look', look: 'supply-lamp' }, positions: found(machine), seen: 'blinking' }
  const after = having(start('all-dead'), lamp, ...clean)
  const live = suspected(after, x => x.holds === true || (x.branch === undefined && x.fault !== 'supply-low'))
  expect(live).toBeGreaterThan(0.3)
  const plan = choose(after, situation(dead(machine)))
  const last = plan?.steps.find(step => step.kind !== 'act')
  expect(last?.kind === 'finding' || last?.kind === 'look' || (last?.kind === 'read' && last.meter === 'volt')).toBe(true)
})
test('what lies in a load holds the supply down only while its device is closed and it is plugged; what is too much at once, only together', () => {
  const { suspicions } = start('all-low')
  const inLoad = suspicions.find(x => x.fault === 'overload' && x.branch === 0)
  const all = suspicions.find(x => x.fault === 'overload' && x.branch === undefined)
  if (inLoad === undefined || all === undefined) throw new Error('both are suspected')
  const load = plant.branches[0]?.loads[inLoad.load ?? 0]?.load.id
  const p = found(machine)
  expect(holdsDown(plant, p, inLoad)).toBe(1)
  expect(holdsDown(plant, { ...p, unplugged: [`B1/${load}`] }, inLoad)).toBe(0)
  expect(holdsDown(plant, { ...p, devices: { ...p.devices, B1: 'open' } }, inLoad)).toBe(0)
  const half = Object.fromEntries(machine.branches.map(({ id }, i) => [id, i < 3 ? ('open' as const) : ('closed' as const)]))
  expect(holdsDown(plant, p, all)).toBeGreaterThan(0.8)
  expect(holdsDown(plant, { ...p, devices: half }, all)).toBeLessThan(0.1)
})
test('a load that was looked at for one of its faults is passed for the others', () => {
  const before = start('all-low')
  const load = plant.branches[0]?.loads[0]?.load.id ?? ''
  const finding: Finding = { fault: 'overload', branch: 'B1', load, probability: 0.1 }
  const after = observe(before, { of: 'looked', finding })
  const there = (b: Belief): number => suspected(b, x => x.branch === 0 && x.load === 0)
  expect(there(after)).toBeLessThan(0.05 * there(before))
})
test('a voltage that stays is searched by voltages and open devices with the supply off, and its branch is named', () => {
  const p: Positions = { ...found(machine), supply: 'off' }
  let belief = observe(start('all-dead'), { of: 'proved', positions: p, volts: 23.5 })
  let at = p
  for (let i = 0; i < 12; i++) {
    const plan = choose(belief, situation(at, { power: 'off' }))
    const [first] = plan?.steps ?? []
    if (first?.kind === 'finding') {
      expect(first.finding).toMatchObject({ fault: 'backfeed', branch: 'B4' })
      return
    }
    for (const step of plan?.steps ?? []) {
      if (step.kind === 'act' && step.act.act === 'device' && step.act.to === 'open')
        at = { ...at, devices: { ...at.devices, [step.act.branch]: 'open' } }
      else if (step.kind === 'read' && step.meter === 'volt')
        belief = observe(
          belief,
          read(step, step.red === 'B4.plus' || (step.red === 'bus.plus' && at.devices['B4'] === 'closed') ? 23.5 : 0, at),
        )
      else throw new Error(`asked for ${JSON.stringify(step)}`)
    }
  }
  throw new Error('not found in twelve plans')
})
