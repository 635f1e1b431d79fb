// The way back from a confirmed finding, step by step: what comes next in a given state, and what each answer on it means.
import { describe, expect, test } from 'vitest'
import type { Answer, Finding, Look, Read, Step } from '../../engine/step.ts'
import { keyOf } from '../../engine/way.ts'
import { type Hunt, type Repair, startOf } from '../../web/flow/hunt.ts'
import { readInRepair, seenInRepair, type Way, wayOn } from '../../web/flow/repair.ts'
import { device, lamp, load, ohm, proveDead, run, supply, volt } from '../bench/scripted.ts'
import { known, METER } from './machines.ts'

// One branch was out and the other ran, so that nothing else is in doubt; B1 has a coil of 12 W, 48 Ω.
const live: Hunt = { ...startOf(known, METER, 'one-branch-dead'), briefed: true }
const both = (B1: 'open' | 'closed' | 'tripped', B2: 'open' | 'closed' | 'tripped' = 'closed') => ({ B1, B2 })
const dead: Hunt = { ...live, provedDead: true, positions: { ...live.positions, supply: 'off', devices: both('open') } }
const at = (h: Hunt, positions: Partial<Hunt['positions']>): Hunt => ({ ...h, positions: { ...h.positions, ...positions } })
const short: Finding = { fault: 'short-to-zero', branch: 'B1', run: 'W1', probability: 0.9 }
const mended: Repair = {
  finding: short,
  mended: true,
  checked: new Set(),
  lampSeen: false,
  voltSeen: false,
  doubted: false,
  failures: 0,
}
const checked: Repair = { ...mended, checked: new Set(['B1', 'bus']) }
const refused = (h: Hunt, ...steps: readonly (readonly [Step, number])[]): Hunt => ({
  ...h,
  refusals: new Map(steps.map(([step, times]) => [keyOf(step), times])),
})
const next = (h: Hunt, repair: Repair): Way | 'mend' | undefined => wayOn({ ...h, repair }, repair)
const at1 = ohm('B1.plus', 'B1.zero')
const atJ1 = ohm('B1/J1.plus', 'B1/J1.zero')
const atBus = ohm('bus.plus', 'bus.zero')
const volts = (place: string) => volt(`${place}.plus`, `${place}.zero`)
const lookAt = (branch: string): Look => ({ kind: 'look', look: 'device', branch })

describe('before it is switched on', () => {
  test('dead, then the mend; what is refused too often ends the way', () => {
    const unmended = { ...mended, mended: false }
    expect(next(live, unmended)).toEqual({ steps: [supply('off'), proveDead], why: { key: 'put-back', facts: {} } })
    expect(next(dead, unmended)).toBe('mend')
    expect(next(refused(live, [supply('off'), 3]), unmended)).toMatchObject({ steps: [supply('off'), proveDead] })
    expect(next(refused(live, [supply('off'), 4]), unmended)).toBeUndefined()
  })
  test('ohms past the open device, at the terminals or the first junction, whichever was refused less', () => {
    const why = { key: 'check-mend', facts: { branch: 'B1' } }
    expect(next(dead, mended)).toEqual({ steps: [at1], why })
    expect(next(dead, { ...mended, doubted: true })).toEqual({ steps: [at1], why: { key: 'repeat', facts: {} } })
    expect(next(refused(dead, [at1, 1]), mended)).toEqual({ steps: [atJ1], why })
    expect(next(refused(dead, [at1, 1], [atJ1, 1]), mended)).toEqual({ steps: [at1], why })
    expect(next(refused(dead, [at1, 4], [atJ1, 3]), mended)).toEqual({ steps: [atJ1], why })
    expect(next(refused(dead, [at1, 4], [atJ1, 4]), mended)).toBeUndefined()
  })
  test('its device is opened for that; where it cannot be, the bus tells with all others', () => {
    const closed = at(dead, { devices: both('closed') })
    expect(next(closed, mended)).toMatchObject({ steps: [device('B1', 'open'), at1] })
    expect(next(refused(closed, [device('B1', 'open'), 1]), mended)).toMatchObject({ steps: [atBus], why: { key: 'check-mend' } })
    // An open device lets the bus see nothing of its branch.
    expect(next(refused(dead, [at1, 1], [atJ1, 1]), mended)).toMatchObject({ steps: [at1] })
  })
  test('runs and plugs go back before the ohms, so that these see the whole branch; devices after them', () => {
    const opened = at(dead, { openedRuns: ['B1/W1'], unplugged: ['B2/K2'], devices: both('open', 'open') })
    expect(next(opened, mended)).toEqual({
      steps: [run('B1', 'W1', 'joined'), load('B2', 'K2', 'plugged')],
      why: { key: 'put-back', facts: {} },
    })
    expect(next(at(dead, { devices: both('open', 'open') }), mended)).toMatchObject({ steps: [at1] })
    // What lies at the supply is checked at the bus, with everything closed.
    const supplyDead: Repair = { ...mended, finding: { fault: 'supply-dead', probability: 1 } }
    expect(next(dead, supplyDead)).toMatchObject({ steps: [device('B1', 'closed')] })
    expect(next(at(dead, { devices: both('closed') }), supplyDead)).toMatchObject({ steps: [atBus], why: { facts: { branch: 'bus' } } })
  })
  test('a device that has opened by itself has its branch checked as well, one that was opened here has not', () => {
    const own = { ...mended, checked: new Set(['B1']) }
    expect(next(at(dead, { devices: both('open', 'tripped') }), own)).toMatchObject({ steps: [ohm('B2.plus', 'B2.zero')] })
    expect(next(at(dead, { devices: both('open', 'open') }), own)).toMatchObject({
      steps: [device('B1', 'closed'), device('B2', 'closed'), supply('on')],
    })
    // Found open, it stays open, and is nobody's business.
    const found = { ...dead, found: { ...dead.found, devices: both('closed', 'open') } }
    expect(next(at(found, { devices: both('open', 'tripped') }), own)).toMatchObject({ steps: [device('B1', 'closed'), supply('on')] })
  })
  test('another supply was not what put the machine out of service: the bus is checked too', () => {
    const backfeed: Repair = { ...mended, finding: { fault: 'backfeed', branch: 'B1', probability: 1 }, checked: new Set(['B1']) }
    expect(next(at(dead, { devices: both('closed') }), backfeed)).toMatchObject({ steps: [atBus] })
    expect(next(at(dead, { devices: both('closed') }), { ...backfeed, checked: new Set(['B1', 'bus']) })).toMatchObject({
      steps: [supply('on')],
    })
  })
})

describe('under voltage again', () => {
  test('the lamp, then the voltage at the branch, its first junction, the bus', () => {
    expect(next(live, checked)).toEqual({ steps: [lamp], why: { key: 'prove-restored', facts: {} } })
    const seen = { ...checked, lampSeen: true }
    const points = ['B1', 'B1/J1', 'bus'].map(volts)
    for (const [i, point] of points.entries())
      expect(next(refused(live, ...points.slice(0, i).map(p => [p, 1] as const)), seen)).toEqual({
        steps: [point],
        why: { key: 'prove-restored', facts: {} },
      })
    // With the voltage proved the lamp alone is left.
    expect(next(live, { ...checked, voltSeen: true })).toMatchObject({ steps: [lamp] })
    expect(next(refused(live, [lamp, 4]), { ...checked, voltSeen: true })).toBeUndefined()
  })
  test.each<{ finding: Finding; places: readonly string[] }>([
    // There was voltage at the terminals all the time: only past the conductor it proves something.
    { finding: { fault: 'open-plus', branch: 'B1', run: 'W1', probability: 1 }, places: ['B1/J1'] },
    { finding: { fault: 'open-zero', branch: 'B1', run: 'W1', probability: 1 }, places: ['B1/J1'] },
    { finding: { fault: 'poor-joint', branch: 'B1', run: 'W1', probability: 1 }, places: ['B1/J1'] },
    { finding: { fault: 'open-plus', branch: 'B1', probability: 1 }, places: ['B1', 'B1/J1', 'bus'] },
    // The bus says nothing of a branch whose device was open.
    { finding: { fault: 'device-open', branch: 'B1', probability: 1 }, places: ['B1', 'B1/J1'] },
    { finding: { fault: 'no-mains', probability: 1 }, places: ['bus'] },
    { finding: short, places: ['B1', 'B1/J1', 'bus'] },
  ])('after $finding.fault in $finding.run the voltage is proved at $places', ({ finding, places }) => {
    const seen: Repair = { ...checked, finding, lampSeen: true }
    const reads = places.map(volts)
    const found = reads.map((_, i) => next(refused(live, ...reads.slice(0, i).map(p => [p, 1] as const)), seen))
    expect(found.map(way => (way === 'mend' ? way : way?.steps[0]))).toEqual(reads)
    // No other: all refused four times, nothing is left.
    expect(next(refused(live, ...reads.map(p => [p, 4] as const)), seen)).toBeUndefined()
  })
  test('a voltage that was wrong: first whether the device has opened again, once, then the voltage once more', () => {
    const doubted = { ...checked, lampSeen: true, doubted: true }
    expect(next(live, doubted)).toEqual({ steps: [lookAt('B1')], why: { key: 'after-energising', facts: { branch: 'B1' } } })
    const repeat = { steps: [volts('B1')], why: { key: 'repeat', facts: {} } }
    expect(next({ ...live, taken: new Set([keyOf(lookAt('B1'))]) }, doubted)).toEqual(repeat)
    expect(next(refused(live, [lookAt('B1'), 1]), doubted)).toEqual(repeat)
    const nowhere = { ...doubted, finding: { fault: 'no-mains', probability: 1 } as const }
    expect(next(live, nowhere)).toMatchObject({ steps: [volts('bus')], why: { key: 'repeat' } })
  })
  test('after another supply every device is looked at, each once, the lamp first', () => {
    const backfeed: Repair = { ...checked, finding: { fault: 'backfeed', branch: 'B1', probability: 1 } }
    expect(next(live, backfeed)).toMatchObject({ steps: [lamp] })
    const seen = { ...backfeed, lampSeen: true }
    expect(next(live, seen)).toEqual({ steps: [lookAt('B1')], why: { key: 'after-energising', facts: { branch: 'B1' } } })
    const one = { ...live, taken: new Set([keyOf(lookAt('B1'))]) }
    expect(next(one, seen)).toMatchObject({ steps: [lookAt('B2')], why: { facts: { branch: 'B2' } } })
    expect(next(refused(one, [lookAt('B2'), 1]), seen)).toMatchObject({ steps: [volts('B1')] })
  })
})

const read = (h: Hunt, repair: Repair, step: Step, answer: Answer & { readonly value: number | 'OL' }): Hunt =>
  readInRepair({ ...h, repair }, repair, step as Read, answer)

describe('ohms after the mend', () => {
  test('a sound coil clears the place; a short circuit is read once more, and believed the second time', () => {
    const sound = read(dead, { ...mended, doubted: true, failures: 1 }, at1, { value: 48 })
    expect(sound.repair).toEqual({ ...mended, checked: new Set(['B1']) })
    const once = read(dead, mended, at1, { value: 0.2 })
    expect(once.repair).toEqual({ ...mended, doubted: true, failures: 1 })
    expect(read(dead, { ...mended, doubted: true, failures: 1 }, at1, { value: 0.2 }).repair).toBeUndefined()
    // A lamp that was seen before has no say in it.
    expect(read(dead, { ...mended, lampSeen: true, failures: 1 }, at1, { value: 0.2 }).repair).toBeUndefined()
    expect(read(dead, mended, at1, { value: 'OL' }).repair?.checked.has('B1')).toBe(true)
  })
  test('each place is cleared by its own ohms, the bus by those of all branches together', () => {
    const tripped = at(dead, { devices: both('open', 'tripped') })
    const own = { ...mended, checked: new Set(['B1']) }
    expect([...(read(tripped, own, ohm('B2.plus', 'B2.zero'), { value: 48 }).repair?.checked ?? [])]).toEqual(['B1', 'B2'])
    const nowhere: Repair = { ...mended, finding: { fault: 'supply-dead', probability: 1 } }
    const closed = at(dead, { devices: both('closed') })
    expect([...(read(closed, nowhere, atBus, { value: 24 }).repair?.checked ?? [])]).toEqual(['bus'])
    expect(read(closed, nowhere, atBus, { value: 0.3 }).repair).toMatchObject({ doubted: true, failures: 1 })
  })
  test('where nothing is left to check they change nothing', () => {
    const h = { ...dead, repair: checked }
    expect(readInRepair(h, checked, at1 as Read, { value: 0.2 })).toBe(h)
  })
})

describe('the voltage after switching on', () => {
  const lit = { ...checked, lampSeen: true }
  // 24 V −15 % +20 % (IEC 61131-2): 20.4 to 28.8 V.
  test.each([
    { answer: { value: 20.4 }, proves: true },
    { answer: { value: 28.79 }, proves: true },
    { answer: { value: 24, ac: false, unsteady: false }, proves: true },
    { answer: { value: 20.39 }, proves: false },
    { answer: { value: 28.81 }, proves: false },
    { answer: { value: -24 }, proves: false },
    { answer: { value: 24, unsteady: true }, proves: false },
    { answer: { value: 24, ac: true }, proves: false },
    { answer: { value: 'OL' as const }, proves: false },
  ])('$answer proves it: $proves', ({ answer, proves }) => {
    expect(read(live, lit, volts('B1'), answer).result).toBe(proves ? 'restored' : undefined)
    expect(read(live, checked, volts('B1'), answer)).toMatchObject({
      result: undefined,
      repair: proves ? { voltSeen: true, doubted: false, failures: 0 } : { voltSeen: false, doubted: true, failures: 1 },
    })
  })
  test('of a supply that is rated otherwise, of its own rating', () => {
    const of = (supply: object) => ({ ...live, machine: { ...live.machine, supply } })
    expect(read(of({ ratedVoltage: 48 }), lit, volts('B1'), { value: 41 }).result).toBe('restored')
    expect(read(of({ ratedVoltage: 48 }), lit, volts('B1'), { value: 24 }).result).toBeUndefined()
    expect(read(of({}), lit, volts('B1'), { value: 24 }).result).toBe('restored')
  })
  test('wrong twice the hunt starts again; under a steady lamp it is read a third time', () => {
    const wrong = { value: 2 }
    expect(read(live, { ...checked, failures: 1 }, volts('B1'), wrong).repair).toBeUndefined()
    expect(read(live, { ...lit, failures: 1 }, volts('B1'), wrong).repair).toMatchObject({ doubted: true, failures: 2 })
    expect(read(live, { ...lit, failures: 2 }, volts('B1'), wrong).repair).toBeUndefined()
    expect(read(live, { ...lit, doubted: true, failures: 2 }, volts('B1'), { value: 24 }).result).toBe('restored')
  })
})

describe('looks after switching on', () => {
  const seen = (repair: Repair, look: Step, as: string, h = live): Hunt => seenInRepair({ ...h, repair }, look as Look, as)
  test('a steady lamp is one of two proofs, and takes no doubt away; any other starts the hunt again', () => {
    expect(seen(checked, lamp, 'steady')).toMatchObject({ result: undefined, repair: { lampSeen: true, doubted: false, failures: 0 } })
    expect(seen({ ...checked, doubted: true, failures: 1 }, lamp, 'steady').repair).toMatchObject({
      lampSeen: true,
      doubted: true,
      failures: 1,
    })
    expect(seen({ ...checked, voltSeen: true }, lamp, 'steady').result).toBe('restored')
    for (const as of ['blinking', 'off'])
      expect(seen({ ...checked, voltSeen: true }, lamp, as)).toMatchObject({ repair: undefined, result: undefined })
  })
  test('a closed device is as it should be; one that has opened starts the hunt again, and stands as it was seen', () => {
    const closed = seen(checked, lookAt('B1'), 'closed')
    expect([closed.repair, [...closed.taken], closed.result]).toEqual([checked, [keyOf(lookAt('B1'))], undefined])
    const tripped = seen(checked, lookAt('B1'), 'tripped')
    expect([tripped.repair, tripped.positions.devices]).toEqual([undefined, both('tripped')])
    expect(seen(checked, lookAt('B2'), 'open').positions.devices).toEqual(both('closed', 'open'))
    const mains = seen(checked, { kind: 'look', look: 'mains-lamp' }, 'off')
    expect([mains.repair, mains.positions]).toEqual([checked, live.positions])
  })
})
