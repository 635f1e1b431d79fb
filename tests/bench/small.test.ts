import { beforeAll, describe, expect, test } from 'vitest'
import type { Kit, Machine } from '../../engine/machine.ts'
import { inProcess } from './inprocess.ts'
import { invent } from './invent.ts'
import { countOnly, type Played, play } from './play.ts'
import { seedOf } from './random.ts'
import { oneByOne } from './rivals.ts'
import { mean } from './table.ts'

/** A part of the bench that is small enough for every day: counts and ratios only, never how long this computer took. */
const SEED = 24

interface Run {
  readonly seed: number
  readonly played: Played
  readonly oneByOne: number
}
const playAll = async (count: number, kit: Kit, shown: (machine: Machine) => Machine): Promise<Run[]> => {
  const runs: Run[] = []
  for (let i = 0; i < count; i++) {
    const seed = seedOf(SEED, i)
    const truth = invent(seed)
    const machine = shown(truth.machine)
    runs.push({ seed, played: await play(truth, inProcess(machine, kit), machine, kit), oneByOne: oneByOne(truth).seconds })
  }
  return runs
}

const INJECTOR: Kit = { injector: { ampere: 1, volts: 24 } }
const whole = (machine: Machine): Machine => machine

test('with conductors at 0.90 of the maximum, 25 K off and up to 2 Ω in the short circuit, no search ends without the right place (16 machines)', async () => {
  const ohms: number[] = []
  for (let i = 0; i < 16; i++) {
    const truth = invent(seedOf(SEED + 1, i), { outside: true })
    expect(Object.values(truth.scale).every(s => s === 0.9) && Math.abs(truth.celsius - 20) === 25).toBe(true)
    if ('ohm' in truth.fault) ohms.push(truth.fault.ohm)
    const played = await play(truth, inProcess(truth.machine, INJECTOR), truth.machine, INJECTOR)
    expect({ i, ...played, transcript: [] }).toMatchObject({ found: true, restored: true, unsafe: [] })
  }
  expect(Math.max(...ohms)).toBeGreaterThan(0.3)
}, 90_000)

// Measured when the bounds were set: 0.45, 0.46 and 0.71. A third or more of slack, since few machines vary by luck.
describe.each([
  ['with an injector', 24, INJECTOR, whole, 0.65],
  ['with a meter only', 12, {}, whole, 0.65],
  ['with branches counted only', 12, {}, countOnly, 0.95],
] as const)('%s, %i machines', (_, count, kit, shown, most) => {
  let runs: readonly Run[] = []
  beforeAll(async () => {
    runs = await playAll(count, kit, shown)
  }, 90_000)
  test('every fault is found, every machine is restored, and nothing is unsafe', () => {
    expect(runs.length).toBe(count)
    for (const { seed, played } of runs)
      expect({ seed, ...played, transcript: [] }).toMatchObject({ found: true, restored: true, result: 'restored', unsafe: [], errors: [] })
  })
  test('nobody is sent to look before it is worth it: of the first places named two in three are right', () => {
    expect(runs.filter(r => r.played.firstRight).length / count).toBeGreaterThan(2 / 3)
    expect(mean(runs.map(r => r.played.findings))).toBeLessThan(1.5)
  })
  test('each step is offered at what it costs', () => {
    for (const { seed, played } of runs) expect(played.misstated, `seed ${seed}`).toBe(0)
  })
  test('to the place it takes less than reading branch after branch', () => {
    const ratio = mean(runs.map(r => (r.played.secondsToPlace ?? r.played.seconds) / r.oneByOne))
    expect(ratio).toBeLessThan(most)
  })
  test('no machine is energised more than six times onto its short circuit', () => {
    for (const { seed, played } of runs) expect(played.energisings, `seed ${seed}`).toBeLessThanOrEqual(6)
  })
})

test('where the check of a good mend was misread twice, the machine is put back and tried before unlikely places are walked to', async () => {
  const { machine, ...truth } = invent(197325551)
  const played = await play({ ...truth, machine }, inProcess(machine, INJECTOR), machine, INJECTOR, { wrong: 0.05, slips: true })
  expect(played).toMatchObject({ found: true, restored: true, result: 'restored', unsafe: [] })
  expect(played.findings).toBeLessThan(5)
  const cautions = played.transcript.flatMap(({ out }) => (out.say === 'confirm' ? [out.caution] : []))
  expect(cautions.at(-1)).toBe('switch-on-again')
})
