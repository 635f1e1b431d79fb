import { describe, expect, test } from 'vitest'
import { readKit, readMachine } from '../../engine/check.ts'
import circuits from '../reference/circuits.json' with { type: 'json' }
import { changed, type Key, kit, press } from './press.ts'

const wiring = ['branches', 2, 'wiring']
const loads = ['branches', 2, 'loads']
const sheet = ['branches', 2, 'protection', 'dataSheet']

describe('a right file', () => {
  test('comes back equal, in fresh objects', () => {
    const file = press()
    const answer = readMachine(file)
    expect(answer).toEqual({ ok: true, value: file })
    if (!answer.ok) return
    expect(answer.value.branches[2]?.wiring?.[0]).not.toBe(file.branches[2]?.wiring?.[0])
  })
  test('may carry figures from data sheets', () => {
    const file = press()
    const told = {
      ...file,
      supply: { ...file.supply, reserve: { current: 17.5, seconds: 4 }, holds: 0.2 },
      branches: [
        { id: 'B1', protection: { kind: 'fuse', rating: 2, fuse: 'F' } },
        { id: 'B2', protection: { kind: 'electronic', rating: 4, dataSheet: { carries: 4.4, opens: 5, seconds: 0.05 } } },
        {
          id: 'B3',
          protection: { kind: 'breaker', rating: 4, standard: 'IEC 60947-2' },
          loads: [{ id: 'P1', at: 'terminals', kind: 'electronic', inRush: { peak: 20, seconds: 0.001 }, capacitance: 0.00068 }],
        },
      ],
    }
    expect(readMachine(told)).toEqual({ ok: true, value: told })
  })
  test('may know no more than how many branches there are', () => {
    const file = { format: 'ohmward.machine', version: 1, id: 'm', name: 'M', supply: {}, branches: [{ id: 'B1' }, { id: 'B2' }] }
    expect(readMachine(file)).toEqual({ ok: true, value: file })
  })
  test("may carry others' notes in fields that start with x-; they are not read", () => {
    const noted = changed(changed(press(), ['x-drawing'], 'E-17'), [...wiring, 0, 'x-colour'], 'blue')
    expect(readMachine(noted)).toEqual({ ok: true, value: press() })
  })
  test('may place the loads of a branch whose wiring is not known', () => {
    expect(readMachine(changed(press(), ['branches', 1, 'loads'], [{ id: 'Y1', at: 'X9', kind: 'coil' }]))).toMatchObject({ ok: true })
  })
  test.each(circuits.cases.map(({ machine }) => [machine.id, machine] as const))('bench machine %s', (_, machine) => {
    expect(readMachine(machine)).toEqual({ ok: true, value: machine })
  })
  test('of a kit, whole or empty', () => {
    expect(readKit(kit())).toEqual({ ok: true, value: kit() })
    expect(readKit({})).toEqual({ ok: true, value: {} })
  })
})

describe('a wrong machine file is refused in one sentence that names field and value', () => {
  test.each<[field: string, found: string, path: Key[], value: unknown]>([
    ['format', '"other.machine"', ['format'], 'other.machine'],
    ['format', 'nothing', ['format'], undefined],
    ['version', '2', ['version'], 2],
    ['version', '"1"', ['version'], '1'],
    ['id', '7', ['id'], 7],
    ['name', 'null', ['name'], null],
    ['supply', 'a list of 0', ['supply'], []],
    ['supply.setVoltage', '4.9', ['supply', 'setVoltage'], 4.9],
    ['supply.setVoltage', '61', ['supply', 'setVoltage'], 61],
    ['supply.ratedVoltage', '230', ['supply', 'ratedVoltage'], 230],
    ['supply.ratedCurrent', '-5', ['supply', 'ratedCurrent'], -5],
    ['supply.limit.mode', '"foldback"', ['supply', 'limit', 'mode'], 'foldback'],
    ['supply.zeroVoltBonded', '1', ['supply', 'zeroVoltBonded'], 1],
    ['branches', 'a list of 0', ['branches'], []],
    ['branches', 'a list of 201', ['branches'], Array.from({ length: 201 }, (_, i) => ({ id: `B${i}` }))],
    ['branches', 'an object', ['branches'], {}],
    ['branches[1]', '"B2"', ['branches', 1], 'B2'],
    ['branches[1].id', '"B1"', ['branches', 1, 'id'], 'B1'],
    ['branches[1].id', '"B/2"', ['branches', 1, 'id'], 'B/2'],
    ['branches[1].id', '"B.2"', ['branches', 1, 'id'], 'B.2'],
    ['branches[1].id', '" "', ['branches', 1, 'id'], ' '],
    ['branches[1].id', '"bus"', ['branches', 1, 'id'], 'bus'],
    ['branches[1].id', '"supply"', ['branches', 1, 'id'], 'supply'],
    ['branches[1].id', '"__proto__"', ['branches', 1, 'id'], '__proto__'],
    ['branches[1].id', '"constructor"', ['branches', 1, 'id'], 'constructor'],
    ['branches[1].id', `"${'B'.repeat(38)}…`, ['branches', 1, 'id'], 'B'.repeat(61)],
    ['branches[2].protection.kind', '"relay"', ['branches', 2, 'protection', 'kind'], 'relay'],
    ['branches[2].protection.curve', '"K"', ['branches', 2, 'protection', 'curve'], 'K'],
    ['branches[2].protection.rating', '0', ['branches', 2, 'protection', 'rating'], 0],
    ['branches[2].wiring[0].length', '-3', [...wiring, 0, 'length'], -3],
    ['branches[2].wiring[0].length', '0', [...wiring, 0, 'length'], 0],
    ['branches[2].wiring[0].length', 'Infinity', [...wiring, 0, 'length'], Number.POSITIVE_INFINITY],
    ['branches[2].wiring[0].length', '10001', [...wiring, 0, 'length'], 10_001],
    ['branches[2].wiring[0].length', '"12"', [...wiring, 0, 'length'], '12'],
    ['branches[2].wiring[0].length', 'nothing', [...wiring, 0, 'length'], undefined],
    ['branches[2].wiring[0].temperature', '-61', [...wiring, 0, 'temperature'], -61],
    ['branches[2].wiring[0].temperature', '201', [...wiring, 0, 'temperature'], 201],
    ['branches[2].wiring[0].moving', '"no"', [...wiring, 0, 'moving'], 'no'],
    ['branches[2].wiring[0].lenght', '3', [...wiring, 0, 'lenght'], 3],
    ['branches[2].wiring[0].conductor.class', '6', [...wiring, 0, 'conductor', 'class'], 6],
    ['branches[2].wiring[0].conductor.area', '0', [...wiring, 0, 'conductor', 'area'], 0],
    ['branches[2].wiring[0].conductor.area', '0.75', [...wiring, 0, 'conductor', 'awg'], 18],
    ['branches[2].wiring[0].conductor.area', 'nothing', [...wiring, 0, 'conductor'], {}],
    ['branches[2].wiring[1].conductor.awg', '17.5', [...wiring, 1, 'conductor', 'awg'], 17.5],
    ['branches[2].wiring[1].id', '"W11"', [...wiring, 1, 'id'], 'W11'],
    ['branches[2].wiring[1].id', '"X2"', [...wiring, 1, 'id'], 'X2'],
    ['branches[2].wiring[1].id', '"terminals"', [...wiring, 1, 'id'], 'terminals'],
    ['branches[1].wiring[0].id', '"J1"', ['branches', 1, 'wiring'], [{ id: 'J1', from: 'terminals', to: 'X1', length: 1 }]],
    ['branches[2].wiring[0].id', '"W11"', ['branches', 1, 'wiring'], [{ id: 'W11', from: 'terminals', to: 'X1', length: 1 }]],
    ['branches[2].wiring[1].from', '"J7"', [...wiring, 1, 'from'], 'J7'],
    ['branches[2].wiring[2].to', '"X1"', [...wiring, 2, 'to'], 'X1'],
    ['branches[2].wiring[2].to', '"terminals"', [...wiring, 2, 'to'], 'terminals'],
    ['branches[2].wiring[2].to', '"J1"', [...wiring, 2, 'to'], 'J1'],
    ['branches[2].wiring[2].to', '"X9"', [...wiring, 2], { id: 'W13', from: 'X9', to: 'X9', length: 4 }],
    ['branches[2].wiring[0].from', '"X1"', [...wiring, 0, 'from'], 'X1'],
    ['branches[2].loads[0].at', '"X9"', [...loads, 0, 'at'], 'X9'],
    ['branches[2].loads[0].at', 'nothing', [...loads, 0, 'at'], undefined],
    ['branches[2].loads[1].id', '"Y1"', [...loads, 1, 'id'], 'Y1'],
    ['branches[2].loads[0].kind', '"valve"', [...loads, 0, 'kind'], 'valve'],
    ['branches[2].loads[0].watts', '-4.8', [...loads, 0, 'watts'], -4.8],
    ['supply.reserve.seconds', 'nothing', ['supply', 'reserve'], { current: 20 }],
    ['supply.reserve.current', '11.5', ['supply', 'reserve'], { current: 11.5, seconds: 1 }],
    ['supply.reserve.seconds', '0', ['supply', 'reserve'], { current: 20, seconds: 0 }],
    ['supply.holds', '36001', ['supply', 'holds'], 36_001],
    ['branches[2].protection.standard', '"IEC 1"', ['branches', 2, 'protection', 'standard'], 'IEC 1'],
    ['branches[2].protection.fuse', '"F"', ['branches', 2, 'protection', 'fuse'], 'F'],
    ['branches[0].protection.fuse', '"M"', ['branches', 0, 'protection', 'fuse'], 'M'],
    ['branches[0].protection.standard', '"IEC 60898-1"', ['branches', 0, 'protection', 'standard'], 'IEC 60898-1'],
    ['branches[2].protection.dataSheet.opens', '4', [...sheet], { carries: 5, opens: 4, seconds: 0.1 }],
    ['branches[2].protection.dataSheet.seconds', 'nothing', [...sheet], { carries: 5, opens: 6 }],
    [
      'branches[0].protection.dataSheet',
      'an object',
      ['branches', 0, 'protection'],
      { kind: 'none', dataSheet: { carries: 5, opens: 6, seconds: 1 } },
    ],
    ['branches[2].loads[0].inRush.peak', '0', [...loads, 0, 'inRush'], { peak: 0, seconds: 0.1 }],
    ['branches[2].loads[0].capacitance', '0.001', [...loads, 0, 'capacitance'], 0.001],
    ['branches[2].loads[0].capacitance', '11', [...loads, 0], { id: 'K2', at: 'X1', kind: 'electronic', capacitance: 11 }],
    ['branches[2].loads[0].pluggable', 'null', [...loads, 0, 'pluggable'], null],
    ['owner', '"me"', ['owner'], 'me'],
  ])('%s: %s', (field, found, path, value) => {
    const answer = readMachine(changed(press(), path, value))
    expect(answer).toMatchObject({ ok: false, field, found })
    const message = answer.ok ? '' : answer.message
    expect(message).toContain(field)
    expect(message).toMatch(/^[^\n]+\.$/)
    expect(message).toContain(found === 'nothing' ? 'is missing' : `is ${found}`)
  })
  test('a file with nothing but the branches is enough to start with', () => {
    const answer = readMachine({ format: 'ohmward.machine', version: 1, branches: [{ id: 'B1' }, { id: 'B2' }] })
    expect(answer).toEqual({
      ok: true,
      value: {
        format: 'ohmward.machine',
        version: 1,
        id: 'unknown',
        name: 'Unknown machine',
        supply: {},
        branches: [{ id: 'B1' }, { id: 'B2' }],
      },
    })
  })
  test('an unknown format or version names both', () => {
    const answer = readMachine({ format: 'other.machine', version: { toString: 3 } })
    expect(answer.ok ? '' : answer.message).toBe(
      `format is "other.machine", but must be ohmward.machine (the file's version is an object).`,
    )
    const newer = readMachine(changed(press(), ['version'], 2))
    expect(newer.ok ? '' : newer.message).toBe("version is 2, but must be 1 (the file's format is ohmward.machine).")
  })
  test('what is no object at all is called the file', () => {
    for (const json of [null, 7, 'text', true, [], [press()], undefined])
      expect(readMachine(json)).toMatchObject({ ok: false, field: 'the file' })
  })
})

test.each<[field: string, path: Key[], value: unknown]>([
  ['meter.ohm.percent', ['meter', 'ohm', 'percent'], -1],
  ['meter.ohm.counts', ['meter', 'ohm', 'counts'], 2.5],
  ['meter.ohm.resolution', ['meter', 'ohm', 'resolution'], 0],
  ['meter.diode', ['meter', 'diode'], {}],
  ['clamp', ['clamp'], 'yes'],
  ['injector.volts', ['injector', 'volts'], 230],
  ['injector.ampere', ['injector', 'ampere'], undefined],
  ['qualifed', ['qualifed'], true],
])('a wrong kit file: %s', (field, path, value) => {
  expect(readKit(changed(kit(), path, value))).toMatchObject({ ok: false, field })
})
