// Faults that are hard to tell: the hunt ends at the place, and is not given up as something else.
import { expect, test } from 'vitest'
import { inProcess } from '../bench/inprocess.ts'
import { invent } from '../bench/invent.ts'
import { play } from '../bench/play.ts'
import { METER } from './machines.ts'

test.each([
  // Handed over, or walked for hours in vain, while one load that draws too much was taken to hold the supply down whatever else was on.
  ['overload live', 2740736558],
  ['overload live', 1535219710],
  ['overload of all', 3805615842],
  // Handed over while a motor beyond an opened run was taken to be known as well as the coils on its other side.
  ['diode', 3291950836],
  // Handed over though the branch was known, after every likely metre of it had been looked at in vain.
  ['screen', 599494071],
] as const)('%s, seed %i: found and restored', async (fault, seed) => {
  const truth = invent(seed, { fault })
  const played = await play(truth, inProcess(truth.machine, METER), truth.machine, METER, { tells: true })
  expect(played).toMatchObject({ result: 'restored', found: true, restored: true, unsafe: [] })
})

// Handed over while a joint of 30 Ω had only 15 and 60 Ω to be like.
test('a poor joint, seed 370932020: found and restored', async () => {
  const truth = invent(370932020, { fault: 'open' })
  const played = await play(truth, inProcess(truth.machine, METER), truth.machine, METER)
  expect(truth.fault).toMatchObject({ kind: 'poor-joint', ohm: expect.closeTo(30, 0) })
  expect(played).toMatchObject({ result: 'restored', found: true, restored: true, unsafe: [] })
})

/** The supply's lamp and volts under voltage, each with the devices closed then, up to the mend. */
const liveLooks = (branches: readonly string[], played: Awaited<ReturnType<typeof play>>): string[] => {
  const devices = new Map(branches.map(b => [b, 'closed']))
  let supply = 'on'
  const until = played.transcript.findIndex(({ out }) => out.say === 'mend')
  return played.transcript.slice(0, until).flatMap(({ out }) => {
    if (out.say !== 'step') return []
    const { step } = out
    if (step.kind === 'act' && step.act.act === 'supply') supply = step.act.to
    if (step.kind === 'act' && step.act.act === 'device') devices.set(step.act.branch, step.act.to)
    const tells = (step.kind === 'look' && step.look === 'supply-lamp') || (step.kind === 'read' && step.meter === 'volt')
    return tells && supply === 'on' ? [JSON.stringify([step, [...devices]])] : []
  })
}
test('nothing is switched on again only to see what was seen with the same devices closed', async () => {
  const truth = invent(2134175, { fault: 'overload live' })
  const played = await play(truth, inProcess(truth.machine, METER), truth.machine, METER, { tells: true })
  const looks = liveLooks(
    truth.machine.branches.map(b => b.id),
    played,
  )
  expect(looks.length).toBeGreaterThan(2)
  expect(new Set(looks).size).toBe(looks.length)
})
