// What a machine or kit file may say, word for word, and the sentence that a wrong one comes back with.
import { expect, test } from 'vitest'
import { readKit, readMachine } from '../../engine/check.ts'
import type { Checked } from '../../engine/machine.ts'
import { changed, type Key, kit, press } from './press.ts'

const messageOf = (read: Checked<unknown>): string => (read.ok ? 'it was taken' : read.message)
const branch = (more: object): unknown => changed(press(), ['branches', 1], { id: 'B2', ...more })
const wired = (...ends: readonly [string, string][]): unknown =>
  branch({ wiring: ends.map(([from, to], i) => ({ id: `V${i}`, from, to, length: 1 })) })
const B2 = 'branches[1]'

test.each<[says: string, file: unknown]>([
  [`${B2}.id is "earth", but must be another word: this one names a point of the cabinet.`, branch({ id: 'earth' })],
  [`${B2}.id is "B1", but must be unlike the id of every other branch.`, branch({ id: 'B1' })],
  [
    'branches[2].wiring[0].id is "W11", but must be unlike the id of every other run in the machine.',
    branch({ wiring: [{ id: 'W11', from: 'terminals', to: 'X1', length: 1 }] }),
  ],
  [
    `${B2}.wiring[0].id is "J1", but must be unlike the id of every junction.`,
    branch({ wiring: [{ id: 'J1', from: 'terminals', to: 'X1', length: 1 }] }),
  ],
  [
    `${B2}.loads[1].id is "K1", but must be unlike the id of the branch's every other load.`,
    branch({ loads: Array(2).fill({ id: 'K1', at: 'X1', kind: 'coil' }) }),
  ],
  [
    `${B2}.loads[0].capacitance is 0.001, but must be left out: only an electronic load has one at its input.`,
    branch({ loads: [{ id: 'K1', at: 'X1', kind: 'lamp', capacitance: 0.001 }] }),
  ],
  [
    `${B2}.loads[0].at is "X9", but must be 'terminals' or a junction of the branch's wiring.`,
    branch({ wiring: [{ id: 'V1', from: 'terminals', to: 'X1', length: 1 }], loads: [{ id: 'K1', at: 'X9', kind: 'coil' }] }),
  ],
  [
    `${B2}.protection.standard is "IEC 60898-1", but must be left out: it is for a breaker.`,
    branch({ protection: { kind: 'fuse', standard: 'IEC 60898-1' } }),
  ],
  [`${B2}.protection.fuse is "F", but must be left out: it is for a fuse.`, branch({ protection: { kind: 'breaker', fuse: 'F' } })],
  [
    `${B2}.protection.dataSheet is an object, but must be left out: there is no device.`,
    branch({ protection: { kind: 'none', dataSheet: { carries: 1, opens: 2, seconds: 1 } } }),
  ],
  [
    `${B2}.protection.dataSheet.opens is 5, but must be above the 5 A that it carries.`,
    branch({ protection: { kind: 'electronic', dataSheet: { carries: 5, opens: 5, seconds: 1 } } }),
  ],
  [
    'supply.reserve.current is 11.5, but must be above the limit of 11.5 A.',
    changed(press(), ['supply', 'reserve'], { current: 11.5, seconds: 1 }),
  ],
  [
    `${B2}.wiring[0].to is "terminals", but must be a junction farther out: wiring must not form a loop.`,
    wired(['terminals', 'terminals']),
  ],
  [
    `${B2}.wiring[1].to is "V", but must be a junction that no other run leads to: wiring must not form a loop.`,
    wired(['terminals', 'V'], ['terminals', 'V']),
  ],
  // A ring with a run that hangs on nothing after it: the loose end is the slip, so that is what is named.
  [
    `${B2}.wiring[2].from is "Q", but must be 'terminals' or a junction that a run leads to.`,
    wired(['M', 'N'], ['N', 'M'], ['Q', 'R'], ['terminals', 'S']),
  ],
  [
    `${B2}.wiring[0].from is "M", but must be a junction that can be reached from the terminals: here runs form a loop.`,
    wired(['M', 'N'], ['N', 'M'], ['terminals', 'S']),
  ],
  ['supply.setVoltage is 61, but must be a number from 5 to 60 V.', changed(press(), ['supply', 'setVoltage'], 61)],
  ['supply.ratedCurrent is 1001, but must be a number above 0 and at most 1000 A.', changed(press(), ['supply', 'ratedCurrent'], 1001)],
  ['supply.holds is 36001, but must be a number from 0.00001 to 36000 s.', changed(press(), ['supply', 'holds'], 36_001)],
  ...(
    [
      ['length', 10_001, 'a number above 0 and at most 10000 m'],
      ['temperature', 201, 'a number from -60 to 200 °C'],
      ['conductor', { area: 401 }, 'a number from 0.05 to 400 mm²'],
      ['conductor', { awg: 41 }, 'a whole number from -3 to 40'],
    ] as const
  ).map(([field, value, must]): [string, unknown] => {
    const [inside, found] = typeof value === 'object' ? (Object.entries(value)[0] ?? []) : ['', value]
    return [
      `branches[2].wiring[0].${[field, inside].filter(Boolean).join('.')} is ${found}, but must be ${must}.`,
      changed(press(), ['branches', 2, 'wiring', 0, field], value),
    ]
  }),
  [
    `${B2}.loads[0].watts is 10001, but must be a number above 0 and at most 10000 W.`,
    branch({ loads: [{ id: 'K1', at: 'X1', kind: 'coil', watts: 10_001 }] }),
  ],
  [
    `${B2}.loads[0].capacitance is 11, but must be a number above 0 and at most 10 F.`,
    branch({ loads: [{ id: 'K1', at: 'X1', kind: 'electronic', capacitance: 11 }] }),
  ],
])('%s', (says, file) => {
  expect(messageOf(readMachine(file))).toBe(says)
})

test.each<[says: string, path: Key[], value: unknown]>([
  ['meter.ohm.percent is 101, but must be a number from 0 to 100 %.', ['meter', 'ohm', 'percent'], 101],
  ['injector.ampere is 5.1, but must be a number above 0 and at most 5 A.', ['injector', 'ampere'], 5.1],
  // IEC 61131-2 lets electronics see 30 V at most.
  ['injector.volts is 30.1, but must be a number above 0 and at most 30 V.', ['injector', 'volts'], 30.1],
])('%s', (says, path, value) => {
  expect(messageOf(readKit(changed(kit(), path, value)))).toBe(says)
})

const taken = (file: unknown): void => expect(readMachine(file)).toEqual({ ok: true, value: file })
test.each(['constant-current', 'hiccup', 'latch-off', 'unknown'])('a supply may answer an overload with %s', mode => {
  taken(changed(press(), ['supply', 'limit', 'mode'], mode))
})
test.each([
  ...['B', 'C', 'D', 'Z'].map(curve => ({ kind: 'breaker', curve })),
  ...['IEC 60898-1', 'IEC 60898-2', 'IEC 60947-2'].map(standard => ({ kind: 'breaker', standard })),
  ...['F', 'T', 'UL', 'blade'].map(fuse => ({ kind: 'fuse', fuse })),
  { kind: 'electronic' },
  { kind: 'none' },
])('a device may be %o', protection => taken(branch({ protection })))
test.each(['coil', 'electronic', 'lamp', 'motor'])('a load may be of the kind %s', kind =>
  taken(branch({ loads: [{ id: 'K1', at: 'X1', kind }] })),
)
test.each([{ awg: -3 }, { awg: 40 }, { area: 0.05 }, { area: 400 }, { area: 1, class: 1 }, { area: 1, class: 2 }])(
  'a conductor may be %o',
  conductor => taken(changed(press(), ['branches', 2, 'wiring', 0, 'conductor'], conductor)),
)

test('a reserve may stand beside a limit of unknown size, and beside no limit at all', () => {
  const reserve = { current: 1, seconds: 1 }
  taken(changed(changed(press(), ['supply', 'limit'], { mode: 'hiccup' }), ['supply', 'reserve'], reserve))
  taken(changed(changed(press(), ['supply', 'limit'], undefined), ['supply', 'reserve'], reserve))
})
