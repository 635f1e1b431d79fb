import { expect, test } from 'vitest'
import type { Step } from '../../engine/step.ts'
import { display, VOLT } from './meter.ts'
import { play } from './play.ts'
import { chance } from './random.ts'
import { device, inject, type Line, lamp, load, ohm, proveDead, run, scripted, supply, volt, zeroLeads } from './scripted.ts'
import { shortInW3, smallMachine, smallTruth } from './small.ts'
import type { Truth } from './truth.ts'

const at = (low: number, high: number): Step => ({
  kind: 'finding',
  finding: { fault: 'short-to-zero', branch: 'B1', run: 'W3', alongRun: { best: (low + high) / 2, low, high }, probability: 0.9 },
})
const plays = async (lines: readonly Line[], truth: Truth = smallTruth(shortInW3)) => {
  const answers: unknown[] = []
  return { played: await play(truth, scripted(lines, answers), smallMachine, { injector: { ampere: 1, volts: 24 } }), answers }
}

const WHOLE: readonly Line[] = [
  lamp,
  volt('bus.plus', 'bus.zero'),
  supply('off'),
  proveDead,
  zeroLeads,
  ohm('B1.plus', 'B1.zero'),
  ohm('B1/J1.plus', 'B1/J1.zero'),
  load('B1', 'K2', 'unplugged'),
  run('B1', 'W2', 'opened'),
  at(1, 3),
  run('B1', 'W2', 'joined'),
  load('B1', 'K2', 'plugged'),
  'mend',
  ohm('B1.plus', 'B1.zero'),
  { confirm: [supply('on')] },
  supply('on'),
  lamp,
  volt('bus.plus', 'bus.zero'),
  'end',
]

test('a whole session costs what the table says, added up by hand', async () => {
  const { played } = await plays(WHOLE)
  expect(played.secondsToPlace).toBe(5 + 15 + 15 + 40 + 20 + 15 + 60 + 60 + 90 + (60 + 2 * 5))
  expect(played.seconds).toBe(390 + 90 + 60 + 15 + 15 + 5 + 15)
  expect(played).toMatchObject({
    found: true,
    firstRight: true,
    covered: true,
    restored: true,
    unsafe: [],
    energisings: 0,
    secondsAtStart: 35,
  })
})

test('the meter shows what the circuit and its own error make', async () => {
  const { answers } = await plays(WHOLE)
  // 5 A through 0.645 Ω of loop, and devices and rails: a few volt. By hand: W1 0.39, W3 0.156, fault 0.1, joints 0.002 Ω.
  const [seen, bus, , , leads, zeroed] = answers as [unknown, { value: number }, unknown, unknown, { value: number }, { value: number }]
  expect(seen).toEqual({ seen: 'off' })
  expect(bus.value).toBeCloseTo(5 * (0.645 + 0.03 + 0.003), 1)
  expect(Math.abs(leads.value - 0.4)).toBeLessThan(0.11)
  expect(Math.abs(zeroed.value - 0.645)).toBeLessThan(0.16)
})

test.each([
  { why: 'a plug left out', left: 11 },
  { why: 'a run left open', left: 10 },
  { why: 'the voltage not proved', left: 17 },
  { why: 'no ohm reading after mending', left: 13 },
  { why: 'nothing mended', left: 12 },
  { why: 'mended without having found anything', left: 9 },
])('not restored: $why', async ({ left }) => {
  const { played } = await plays(WHOLE.filter((_, i) => i !== left))
  expect(played).toMatchObject({ result: 'restored', restored: false })
})

test('a finding past the half metre is not confirmed, and costs its walk', async () => {
  const wrong = await plays([at(2.6, 3.6), 'end'])
  expect(wrong.answers).toEqual([{ confirmed: false }])
  expect(wrong.played).toMatchObject({ found: false, seconds: 65, secondsToPlace: undefined })
  expect((await plays([at(2.4, 3.4), 'end'])).played).toMatchObject({ firstRight: true, covered: false })
})

test('the lamp, the voltage and the limit of each kind of supply', async () => {
  const script: Line[] = [lamp, volt('bus.plus', 'bus.zero'), supply('off'), { confirm: [supply('on')] }, supply('on'), lamp, 'end']
  const of = (mode: Truth['supply']['mode']) => plays(script, smallTruth(shortInW3, { supply: { volts: 24, limit: 5, mode } }))
  const pulsing = await of('hiccup')
  expect(pulsing.answers[0]).toEqual({ seen: 'blinking' })
  expect(pulsing.answers[1]).toMatchObject({ unsteady: true })
  expect((pulsing.answers[1] as { value: number }).value).toBeLessThan(0.5)
  const latched = await of('latch-off')
  expect(latched.answers[0]).toEqual({ seen: 'off' })
  expect((latched.answers[1] as { value: number }).value).toBeLessThan(0.01)
  expect(latched.answers[5]).toEqual({ seen: 'off' })
  // It latches at once, so it counts as energised but does not stay so.
  expect(latched.played).toMatchObject({ energisings: 1, secondsAtStart: 0 })
})

test('a supply that latched comes back only by switching its mains off and on', async () => {
  const latching = smallTruth(shortInW3, { supply: { volts: 24, limit: 5, mode: 'latch-off' } })
  const { answers } = await plays([device('B1', 'open'), supply('on'), lamp, supply('off'), supply('on'), lamp, 'end'], latching)
  expect([answers[2], answers[5]]).toEqual([{ seen: 'off' }, { seen: 'steady' }])
})

test('a supply that is still on is found by proving dead, and the injector by its branch', async () => {
  const { answers } = await plays([proveDead, supply('off'), inject('B1', 'on'), proveDead, inject('B1', 'off'), proveDead, 'end'])
  expect(answers[0]).toHaveProperty('volts')
  expect(answers[3]).toEqual({ done: true })
  expect(answers[5]).toEqual({ done: true })
})

test('a device well above its rating opens after a while, and the rest comes back', async () => {
  const base = smallTruth(shortInW3)
  const devices = { ...base.devices, B1: { ohm: 0.03, instant: 10, hold: 0.4, heat: 1, warm: 0 } }
  const { answers } = await plays([lamp, { kind: 'look', look: 'device', branch: 'B1' }, lamp, 'end'], { ...base, devices })
  // 5 A in a 10 A device: 0.25 - 0.16 = 0.09 of its heat in a second, so it opens after 11 s.
  expect(answers).toEqual([{ seen: 'off' }, { seen: 'closed' }, { seen: 'steady' }])
})

test('the display rounds to the step of the lowest range that holds the value', () => {
  const exact = VOLT.ranges.map(() => ({ gain: 0, offset: 0 }))
  for (const [value, step] of [
    [0.5, 0.0001],
    [5, 0.001],
    [24, 0.01],
    [100, 0.1],
  ] as const) {
    const shown = display(VOLT, exact, value, chance(3))
    expect(Math.abs(Number(shown) - value)).toBeLessThan(1.5 * step)
    expect(Math.abs(Number(shown) / step - Math.round(Number(shown) / step))).toBeLessThan(1e-6)
  }
  expect(display(VOLT, exact, 1000, chance(3))).toBe('OL')
})
