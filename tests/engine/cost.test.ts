import { expect, test } from 'vitest'
import { costOf, metresOf, outside } from '../../engine/cost.ts'
import { plantOf } from '../../engine/plant.ts'
import type { Act, Finding, Read, Step } from '../../engine/step.ts'
import { stepSeconds } from '../bench/costs.ts'
import { smallMachine } from '../bench/small.ts'

const plant = plantOf(smallMachine)
const act = (a: Act): Step => ({ kind: 'act', act: a })
const read = (meter: 'volt' | 'ohm', red: string, black: string): Read => ({ kind: 'read', meter, red, black })
const finding = (more: Partial<Finding>): Step => ({
  kind: 'finding',
  finding: { fault: 'short-to-zero', branch: 'B1', probability: 0.5, ...more },
})

const table: readonly (readonly [string, number, Step])[] = [
  ['a look', 5, { kind: 'look', look: 'supply-lamp' }],
  ['a look at a device', 5, { kind: 'look', look: 'device', branch: 'B1' }],
  ['a device', 6, act({ act: 'device', branch: 'B1', to: 'open' })],
  ['the supply', 15, act({ act: 'supply', to: 'off' })],
  ['proving dead', 40, act({ act: 'prove-dead' })],
  ['zeroing the leads', 20, act({ act: 'zero-leads' })],
  ['the injector', 45, act({ act: 'inject', branch: 'B1', to: 'on', into: 'zero' })],
  ['a plug', 60, act({ act: 'load', branch: 'B1', load: 'K1', to: 'unplugged' })],
  ['a run', 90, act({ act: 'run', branch: 'B1', run: 'W1', to: 'opened' })],
  ['the bus', 60, act({ act: 'bus', to: 'opened' })],
  ['the bond', 60, act({ act: 'bond', to: 'joined' })],
  ['a reading at terminals', 15, read('ohm', 'B1.plus', 'B1.zero')],
  ['a reading at the bus', 15, read('ohm', 'bus.plus', 'bus.zero')],
  ['a reading at the supply', 15, read('volt', 'supply.plus', 'supply.zero')],
  ['a reading to earth', 15, read('volt', 'earth', 'B1.zero')],
  ['a current', 15, { kind: 'read', meter: 'amp', branch: 'B1' }],
  ['a reading at a junction', 60, read('volt', 'B1/J1.plus', 'B1/J1.zero')],
  ['a reading at a run, from the cabinet', 60, read('ohm', 'B1.plus', 'B1/W2.plus')],
  ['going to look along 3 m', 75, finding({ run: 'W1', alongRun: { best: 4, low: 2, high: 5 } })],
  ['going to look along 3 m from the terminals', 75, finding({ fromTerminals: { best: 4, low: 2, high: 5 } })],
  ['going to look along all 20 m of branch 1', 160, finding({ fault: 'short' })],
  ['an open device, by the letter of the table with all wiring behind it', 160, finding({ fault: 'device-open' })],
  ['a load, which is one place', 60, finding({ fault: 'load-short', load: 'K1', fromTerminals: { best: 14, low: 14, high: 14 } })],
]
test.each(table)('%s takes %s s', (_, seconds, step) => {
  expect(costOf(plant, step)).toBeCloseTo(seconds, 9)
  // The simulated technician counts by a table of its own.
  expect(stepSeconds(smallMachine, step)).toBeCloseTo(seconds, 9)
})

test.each(['supply-dead', 'no-mains'] as const)('%s has no wiring to walk along', fault => {
  expect(metresOf(plant, { fault, probability: 0.5 })).toBe(0)
  expect(costOf(plant, { kind: 'finding', finding: { fault, probability: 0.5 } })).toBe(60)
})
test('what lies outside the cabinet is a junction or a run', () => {
  expect(['B1.plus', 'bus.zero', 'supply.plus', 'earth', 'B1/J1.plus', 'B1/W3.zero'].map(outside)).toEqual([
    false,
    false,
    false,
    false,
    true,
    true,
  ])
})
