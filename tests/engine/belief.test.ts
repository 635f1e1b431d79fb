import { describe, expect, test } from 'vitest'
import { type Belief, begin, placeLogs, type Shared, shares } from '../../engine/belief.ts'
import { SHARES } from '../../engine/fault.ts'
import { spots } from '../../engine/locate.ts'
import type { Machine } from '../../engine/machine.ts'
import { type Evidence, observe } from '../../engine/observe.ts'
import { plantOf } from '../../engine/plant.ts'
import type { Positions } from '../../engine/positions.ts'
import type { Finding, Read, Symptom } from '../../engine/step.ts'
import { chance } from '../bench/random.ts'
import { dead, found, INJECTOR, rowOfBranches } from './machines.ts'

const coils = rowOfBranches(12)
const start = (machine: Machine = coils, symptom: Symptom = 'all-dead'): Belief => begin(plantOf(machine), INJECTOR, symptom)
const read = (of: Read, shown: number | 'OL', positions: Positions): Evidence => ({
  of: 'read',
  read: of,
  positions,
  zeroed: true,
  shown,
  unsteady: false,
})
const ohm = (place: string, shown: number | 'OL', positions: Positions = dead(coils)): Evidence =>
  read({ kind: 'read', meter: 'ohm', red: `${place}.plus`, black: `${place}.zero` }, shown, positions)
const having = (belief: Belief, ...evidence: readonly Evidence[]): Belief => evidence.reduce(observe, belief)
const sum = (s: Shared): number =>
  [...s.short, ...s.deviceOpen, ...s.suspected, s.supplyDead, s.noMains, s.other].reduce((a, b) => a + b, 0)
const short = (belief: Belief, n: number): number => shares(belief).short[n - 1] ?? Number.NaN

describe('before anything is read', () => {
  test.each(Object.keys(SHARES) as Symptom[])('%s: all weights together are 1, and the causes share as listed', symptom => {
    const s = shares(start(coils, symptom))
    const share = SHARES[symptom]
    expect(sum(s)).toBeCloseTo(1, 12)
    expect(s.short.reduce((a, b) => a + b, 0)).toBeCloseTo(share.short + share.shortTripped + share.flicker, 9)
    expect(s.flicker.reduce((a, b) => a + b, 0)).toBeCloseTo(share.flicker, 9)
    expect(s.tripped.reduce((a, b) => a + b, 0)).toBeCloseTo(share.shortTripped, 9)
    expect(s.deviceOpen.reduce((a, b) => a + b, 0)).toBeCloseTo(share.deviceOpen, 9)
    expect([s.supplyDead, s.noMains, s.other]).toEqual([share.supplyDead, share.noMains, share.other].map(x => expect.closeTo(x, 9)))
    // Twelve branches alike.
    for (const p of s.short) expect(p).toBeCloseTo((share.short + share.shortTripped + share.flicker) / 12, 9)
  })
})

describe('ohm past one open device', () => {
  test('0.4 Ω at branch 3 of 12 makes it likelier than 0.9', () => {
    const s = shares(having(start(), ohm('B3', 0.4)))
    expect(s.short[2]).toBeGreaterThan(0.9)
    expect(sum(s)).toBeCloseTo(1, 12)
  })
  test('62 Ω, the coil and nothing else, clears branch 3; the others take its share', () => {
    const before = start()
    const cleared = having(before, ohm('B3', 62))
    expect(short(cleared, 3)).toBeLessThan(0.02 * short(before, 3))
    expect(short(cleared, 4)).toBeGreaterThan(short(before, 4))
  })
  test('OL clears a branch whose only load is electronic', () => {
    const machine = rowOfBranches(12, 'electronic')
    const before = start(machine)
    expect(short(having(before, ohm('B3', 'OL', dead(machine))), 3)).toBeLessThan(0.02 * short(before, 3))
  })
  test('where nobody has told the wiring, 0.4 Ω says nearly as much, and OL clears', () => {
    const machine: Machine = { ...coils, supply: {}, branches: coils.branches.map(({ id }) => ({ id })) }
    const before = start(machine)
    expect(short(having(before, ohm('B3', 0.4, dead(machine))), 3)).toBeGreaterThan(0.85)
    expect(short(having(before, ohm('B3', 'OL', dead(machine))), 3)).toBeLessThan(0.1 * short(before, 3))
  })
  test('of two readings it does not matter which came first', () => {
    const bus = ohm('bus', 0.5, dead(coils, ['B3']))
    for (const [one, other] of [
      [ohm('B3', 62), ohm('B5', 0.7)],
      [ohm('B4', 62), bus],
    ] as const) {
      const [a, b] = [having(start(), one, other), having(start(), other, one)].map(shares)
      for (let n = 0; n < 12; n++) expect(a?.short[n], `B${n + 1}`).toBeCloseTo(b?.short[n] ?? Number.NaN, 9)
      expect(a?.supplyDead).toBeCloseTo(b?.supplyDead ?? Number.NaN, 9)
      expect((a?.evidence ?? 0) - (b?.evidence ?? 1)).toBeCloseTo(0, 9)
    }
  })
  test('of two readings in one branch hardly: each may be wrong, and that is weighed one reading at a time', () => {
    const [one, other] = [ohm('B3', 0.6), ohm('B3/J1', 0.3)]
    const [a, b] = [having(start(), one, other), having(start(), other, one)]
    const at = (belief: Belief) => spots(belief, 'B3').find(x => x.run === 'W3')?.alongRun?.best ?? Number.NaN
    expect(short(a, 3)).toBeCloseTo(short(b, 3), 3)
    expect(Math.abs(at(a) - at(b))).toBeLessThan(0.05)
    // A bus reading sees each closed branch too, and shares the meter's errors with that branch's own.
    const bus = ohm('bus', 0.5, dead(coils, ['B3']))
    const [c, d] = [having(start(), bus, ohm('B5', 0.7)), having(start(), ohm('B5', 0.7), bus)]
    expect(short(c, 5)).toBeCloseTo(short(d, 5), 3)
  })
})

describe('ohm at the bus', () => {
  test('low with half of the devices open: the fault is behind one of the closed ones', () => {
    const open = ['B1', 'B2', 'B3', 'B4', 'B5', 'B6']
    const s = shares(having(start(), ohm('bus', 0.5, dead(coils, open))))
    expect(s.short.slice(6).reduce((a, b) => a + b, 0)).toBeGreaterThan(0.95)
    // 62 Ω / 6 of sound coils: it is behind one of the open ones.
    const t = shares(having(start(), ohm('bus', 10.3, dead(coils, open))))
    expect(t.short.slice(0, 6).reduce((a, b) => a + b, 0)).toBeGreaterThan(0.7)
    expect(t.short.slice(6).reduce((a, b) => a + b, 0)).toBeLessThan(0.02)
    expect(sum(s)).toBeCloseTo(1, 12)
    expect(sum(t)).toBeCloseTo(1, 12)
  })
})

describe('an answer that fits no single fault', () => {
  test('8 Ω at a branch with a coil of 62 Ω is neither sound nor a short circuit', () => {
    expect(having(start(), ohm('B3', 8)).fitsNothing).toBeGreaterThan(0.9)
  })
  test('the same place read at 0.4 Ω and then at 3 Ω', () => {
    const once = having(start(), ohm('B3', 0.4))
    expect(once.fitsNothing).toBeLessThan(0.2)
    expect(having(once, ohm('B3', 3)).fitsNothing).toBeGreaterThan(0.9)
  })
  test('a second branch with 0.6 Ω: one of the two readings is wrong, whichever fault is taken', () => {
    const one = having(start(), ohm('B3', 0.6))
    const two = having(one, ohm('B7', 0.6))
    expect(one.fitsNothing).toBeLessThan(0.1)
    // Two explanations alike: this reading wrong, or the one before.
    expect(two.fitsNothing).toBeGreaterThan(0.4)
    expect(short(two, 3)).toBeCloseTo(short(two, 7), 6)
    // A third says that it is not one odd reading.
    expect(having(two, ohm('B9', 0.6)).fitsNothing).toBeGreaterThan(0.6)
  })
  test('readings that fit one fault are not doubted', () => {
    expect(having(start(), ohm('B3', 62)).fitsNothing).toBeLessThan(0.05)
    expect(having(start(), ohm('B3', 62), ohm('B4', 0.5)).fitsNothing).toBeLessThan(0.1)
  })
})

describe('looks', () => {
  const lamp = (seen: 'steady' | 'blinking' | 'off', positions = found(coils)): Evidence => ({
    of: 'look',
    look: { kind: 'look', look: 'supply-lamp' },
    positions,
    seen,
  })
  const mains = (seen: 'on' | 'off'): Evidence => ({
    of: 'look',
    look: { kind: 'look', look: 'mains-lamp' },
    positions: found(coils),
    seen,
  })
  test('a dark supply lamp makes a dead supply and missing mains likelier, a blinking one nearly excludes both', () => {
    const before = shares(start())
    const dark = shares(having(start(), lamp('off')))
    expect(dark.supplyDead).toBeGreaterThan(before.supplyDead)
    expect(dark.noMains).toBeGreaterThan(before.noMains)
    const blinking = shares(having(start(), lamp('blinking')))
    expect(blinking.supplyDead + blinking.noMains).toBeLessThan(0.15 * (before.supplyDead + before.noMains))
    expect(sum(dark)).toBeCloseTo(1, 12)
  })
  test('the mains lamp parts missing mains from all else', () => {
    const off = shares(having(start(), lamp('off'), mains('off')))
    expect(off.noMains).toBeGreaterThan(0.8)
    const on = shares(having(start(), lamp('off'), mains('on')))
    expect(on.noMains).toBeLessThan(0.01)
    expect(on.supplyDead).toBeGreaterThan(shares(start()).supplyDead)
  })
  test('a steady lamp with a branch closed speaks for a device that has opened, and with it open for that branch', () => {
    const before = shares(start())
    const steady = shares(having(start(), lamp('steady')))
    const share = (s: Shared) => s.tripped.reduce((a, b) => a + b, 0) + s.deviceOpen.reduce((a, b) => a + b, 0)
    expect(share(steady)).toBeGreaterThan(share(before))
  })
  test('a device seen tripped names its branch', () => {
    const seen = having(start(coils, 'trips-again'), {
      of: 'look',
      look: { kind: 'look', look: 'device', branch: 'B3' },
      positions: found(coils),
      seen: 'tripped',
    })
    const s = shares(seen)
    expect((s.tripped[2] ?? 0) + (s.deviceOpen[2] ?? 0)).toBeGreaterThan(0.75)
  })
})

describe('having gone and looked', () => {
  const walked = (finding: Finding): Evidence => ({ of: 'looked', finding })
  test('a stretch that held nothing loses its share, and its neighbours gain', () => {
    const before = having(start(), ohm('B3', 0.5))
    const span = { best: 9, low: 6, high: 12 }
    const then = having(before, walked({ fault: 'short-to-zero', branch: 'B3', run: 'W3', alongRun: span, probability: 0.6 }))
    const at = (b: Belief) => spots(b, 'B3').find(x => x.run === 'W3')?.alongRun ?? span
    expect(short(then, 3)).toBeLessThan(short(before, 3))
    expect(at(before).best).toBeGreaterThan(6)
    expect(at(then).best).toBeLessThan(6)
    expect(sum(shares(then))).toBeCloseTo(1, 12)
  })
  test.each([
    [{ fault: 'load-short', branch: 'B3', load: 'K3', probability: 0.5 }, (b: Belief) => spots(b, 'B3').find(x => x.load === 'K3')?.p ?? 0],
    [{ fault: 'short', branch: 'B3', probability: 0.5 }, (b: Belief) => short(b, 3)],
    [{ fault: 'supply-dead', probability: 0.5 }, (b: Belief) => shares(b).supplyDead],
    [{ fault: 'no-mains', probability: 0.5 }, (b: Belief) => shares(b).noMains],
    [{ fault: 'device-open', branch: 'B3', probability: 0.5 }, (b: Belief) => shares(b).deviceOpen[2] ?? Number.NaN],
  ] as [Finding, (b: Belief) => number][])('%o refuted is less likely, but not excluded', (finding, p) => {
    const before = start()
    const then = having(before, walked(finding))
    // A branch's whole cable is easier missed than a named stretch of it.
    expect(p(then)).toBeLessThan((finding.fault === 'short' ? 0.2 : 0.1) * p(before))
    expect(p(then)).toBeGreaterThan(0)
  })
})

test('nothing is ever excluded: after 40 answers that contradict each other no weight is 0, and all together are 1', () => {
  const own = chance(4)
  let belief = start()
  for (let n = 0; n < 40; n++) {
    const id = `B${own.whole(1, 12)}`
    const shown = own.pick([0.1, 0.4, 3, 62, 5000, 'OL'] as const)
    belief = observe(belief, own.yes(0.3) ? ohm('bus', shown, dead(coils, [id])) : ohm(id, shown))
    if (own.yes(0.3)) belief = observe(belief, { of: 'looked', finding: { fault: 'short', branch: id, probability: 0.5 } })
    if (own.yes(0.2))
      belief = observe(belief, {
        of: 'look',
        look: { kind: 'look', look: 'supply-lamp' },
        positions: found(coils),
        seen: own.pick(['steady', 'off'] as const),
      })
    const s = shares(belief)
    expect(sum(s), `after ${n + 1}`).toBeCloseTo(1, 9)
    expect(Math.min(...s.short, ...s.deviceOpen, s.supplyDead, s.noMains, s.other), `after ${n + 1}`).toBeGreaterThan(0)
    expect(placeLogs(belief, 0).every(Number.isFinite)).toBe(true)
    expect(belief.fitsNothing).toBeGreaterThanOrEqual(0)
    expect(belief.fitsNothing).toBeLessThanOrEqual(1)
  }
  // And a wrong path is left again: plain readings of one fault bring it back.
  const back = having(belief, ...[1, 2, 3].flatMap(() => coils.branches.map(b => ohm(b.id, b.id === 'B5' ? 0.5 : 62))))
  expect(short(belief, 5)).toBeLessThan(0.01)
  // Answers that contradict each other are also what a short circuit shows that comes and goes, anywhere.
  expect(short(back, 5)).toBeGreaterThan(0.9)
})

test('an answer leaves the belief it came to as it was', () => {
  const before = start()
  const s = JSON.stringify(shares(before))
  having(before, ohm('B3', 0.4), ohm('bus', 0.5, dead(coils, ['B1'])))
  expect(JSON.stringify(shares(before))).toBe(s)
})

test('a short circuit read at the bus with every other branch open leaves a belief, whatever is read', () => {
  const unknown = plantOf({ ...coils, branches: coils.branches.map(({ id }) => ({ id })) })
  const shut: Positions = {
    ...dead(coils),
    devices: Object.fromEntries(coils.branches.map(({ id }, i) => [id, i === 3 ? 'closed' : 'open'] as const)),
  }
  for (const shown of [0.1, 0.8, 2, 3, 900, 'OL'] as const) {
    const s = shares(observe(begin(unknown, {}, 'all-dead'), ohm('bus', shown, shut)))
    expect(s.short.every(Number.isFinite)).toBe(true)
    if (shown === 0.8) expect(s.short[3]).toBeGreaterThan(0.9)
  }
})
