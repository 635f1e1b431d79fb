// Voltages with the supply on, weighed by Bayes' rule: what leaves the supply up shows the circuit's own, what holds it down any low one.
import { describe, expect, test } from 'vitest'
import { type AtBus, voltsAtLimit } from '../../engine/atBus.ts'
import { type Belief, shares } from '../../engine/belief.ts'
import { extend } from '../../engine/chain.ts'
import { dropDensity, type Pair } from '../../engine/drop.ts'
import type { Supply } from '../../engine/machine.ts'
import { type Evidence, observe } from '../../engine/observe.ts'
import { heldFor } from '../../engine/opening.ts'
import { branchOf } from '../../engine/plant.ts'
import type { Positions } from '../../engine/positions.ts'
import { inService } from '../../engine/sound.ts'
import type { Read } from '../../engine/step.ts'
import { holdsDown, isTraced, type Suspicion } from '../../engine/suspicion.ts'
import { smallMachine } from '../bench/small.ts'
import { found } from './machines.ts'
import { expectWeighed, normal, now, orWrong, startOf, withSupply } from './weighed.ts'

const all = found(smallMachine)
const opened: Positions = { ...all, devices: { B1: 'open', B2: 'closed' } }
const volt = (red: string, black: string): Read => ({ kind: 'read', meter: 'volt', red, black })
const at = (place: string): Read => volt(`${place}.plus`, `${place}.zero`)
const read = (of: Read, shown: number | 'OL', positions = all, unsteady = false): Evidence => ({
  of: 'read',
  read: of,
  positions,
  zeroed: false,
  shown,
  unsteady,
})
const pulsing = startOf(withSupply({ limit: { mode: 'hiccup' } }))
const untold = startOf(withSupply({ limit: { mode: 'unknown' } }))

/** 24 V of the supply give or take half a volt, and 2 % of the meter. */
const whole = (v: number): number => orWrong(normal(v, 24, Math.hypot(0.5, 0.48)), v)
const nothing = (v: number): number => orWrong(normal(v, 0, 0.5), v)
/** Anything from −1 V to so many is as likely, the end known to half a volt (logistic); a thousandth a volt elsewhere. */
const upTo = (most: number, v: number): number =>
  orWrong(v > -1 ? Math.max(0.001, 1 / (1 + Math.exp((1.702 * (v - most)) / 0.5)) / (most + 1)) : 0.001, v)
const down = (v: number): number => upTo(20, v)
/** Loads that draw a little too much pull it down from 24 V by a little, where the current is constant; one that pulses is down at once. */
const drawnDown = (of: Belief, v: number): number => upTo(of.plant.machine.supply.limit?.mode === 'hiccup' ? 20 : 24, v)

/**
 * A reading that will not settle, or stands still, speaks for or against a supply that is held down: one chance for all that holds it
 * down and one for all that does not, taken from a short circuit behind B2's closed device and from missing mains.
 */
const settling = (before: Belief, after: Belief, v: number): { held: number; up: number } => {
  const held = Math.exp((after.branches[1]?.outside[0] ?? Number.NaN) - (before.branches[1]?.outside[0] ?? Number.NaN)) / down(v)
  const up = Math.exp(after.noMains - before.noMains) / nothing(v)
  for (const p of [held, up]) {
    expect(p).toBeGreaterThan(0)
    expect(p).toBeLessThan(1 + 1e-9)
  }
  return { held, up }
}

for (const v of [24, 23.5, 0, 3, 19.9, 20.1, -0.9, -1.1])
  describe(`${v} V`, () => {
    test.each([
      ['at the bus', 'bus', undefined],
      ['at the terminals of B1', 'B1', 0],
    ] as const)('%s', (_, place, here) => {
      // Past an open device and a broken conductor 24 mV float: at a slope of the density that would be a tenth of it.
      for (const before of [pulsing, untold])
        for (const positions of v < 0 ? [all] : [all, opened]) {
          const after = observe(before, read(at(place), v, positions))
          const { held, up } = settling(before, after, v)
          const isClosed = (b: number): boolean => positions === all || b === 1
          const open = (b: number): number => (b === here ? up * nothing(v) : carries)
          // B1's terminals are dead once its device is open; the bus is not.
          const carries = up * (here === 0 && positions === opened ? nothing(v) : whole(v))
          const low = held * down(v)
          const expected = (x: Suspicion): number => {
            if (x.fault === 'supply-low') {
              const volts = here === 0 && positions === opened ? 0 : (x.volts ?? 0)
              return up * orWrong(normal(v, volts, Math.hypot(0.5, 0.02 * volts)), v)
            }
            if (['open-plus', 'open-zero', 'poor-joint'].includes(x.fault)) return carries
            const p = holdsDown(pulsing.plant, positions, x)
            return p * held * drawnDown(before, v) + (1 - p) * carries
          }
          // The supply's own 10 mΩ and the loads' 0.8 A make 15 mV of difference, which is 3 % of a density at most.
          expectWeighed(
            before,
            after,
            {
              short: b => (isClosed(b) ? low : open(b)),
              // While it is not there, its device may be closed or have opened: at its own terminals that is another matter.
              flicker: b => (b === here ? undefined : isClosed(b) ? now(low, open(b)) : open(b)),
              tripped: open,
              deviceOpen: open,
              supplyDead: up * nothing(v),
              noMains: up * nothing(v),
              // What fits no fault here may settle or not.
              other: (held + up) / 2 / 30,
              suspicion: expected,
            },
            1,
          )
        }
    })
  })

test.each([
  // Odds of 'held down' against 'not held down' that an unsteady display adds over a steady one: (0.95/0.05) / (0.05/0.95) and so on.
  ['hiccup', 361],
  ['unknown', 0.35 / 0.05 / (0.65 / 0.95)],
  ['constant-current', 1],
  ['latch-off', 1],
] as const)(
  'an unsteady display, the supply of kind %s: it speaks for one that pulses, and says nothing of one that does not',
  (mode, odds) => {
    const before = startOf(withSupply({ limit: { mode } }))
    const said = (unsteady: boolean) => {
      const { branches, noMains, other } = observe(before, read(at('bus'), 3, all, unsteady))
      return { held: branches[1]?.outside[0] ?? Number.NaN, up: noMains, other }
    }
    const [moves, still] = [said(true), said(false)]
    expect(Math.exp(moves.held - moves.up - (still.held - still.up))).toBeCloseTo(odds, 6)
    // And nothing is the likelier 'something else' for it, where it says nothing.
    if (odds === 1) expect(moves.other - moves.up).toBeCloseTo(still.other - still.up, 9)
  },
)

test('past the range counts as no voltage', () => {
  expect(shares(observe(pulsing, read(at('bus'), 'OL')))).toEqual(shares(observe(pulsing, read(at('bus'), 0))))
})

test('a conductor open in plus: full voltage before it, none behind it, and other branches keep theirs', () => {
  const open = pulsing.suspicions.findIndex(x => x.fault === 'open-plus' && x.branch === 0 && x.run === 1)
  const by = (place: string, v: number): number =>
    Math.exp((observe(pulsing, read(at(place), v)).suspected[open] ?? 0) - (pulsing.suspected[open] ?? 0))
  for (const [place, volts] of [
    ['B1', 24],
    ['B1/J1', 24],
    ['B1/X1', 0],
    ['B1/X2', 24],
    ['B2/J9', 24],
  ] as const) {
    expect(by(place, volts), place).toBeGreaterThan(0.5)
    expect(by(place, 24 - volts), place).toBeLessThan(0.05)
  }
})

describe('a current read under voltage', () => {
  const amp: Read = { kind: 'read', meter: 'amp', branch: 'B1' }
  test('tells nothing of what leaves the supply up', () => {
    const after = observe(pulsing, read(amp, 0.4))
    const alike = (after.branches[1]?.tripped ?? 0) - (pulsing.branches[1]?.tripped ?? 0)
    expect(alike).toBeCloseTo(Math.log(0.3 * settling(pulsing, after, 0.4).up), 9)
    pulsing.suspicions.forEach((x, i) => {
      if (x.fault === 'poor-joint' || x.fault === 'supply-low')
        expect((after.suspected[i] ?? 0) - (pulsing.suspected[i] ?? 0)).toBeCloseTo(alike, 9)
    })
  })
})

describe('a supply of constant current is a source of known current', () => {
  const before = startOf(withSupply({ limit: { mode: 'constant-current', current: 5 } }))
  const p = all
  const having = (evidence: Evidence): Belief => observe(before, evidence)
  const start = heldFor(before, p, 15)
  const outside = (b: Belief, j: number): number => b.branches[0]?.outside[j] ?? Number.NaN
  test('volts at the bus over 5 A are the ohms behind the device: each place is weighed by its own', () => {
    const v = 1.4
    const next = having(read(at('bus'), v))
    const [b, other] = before.plant.branches
    const own = before.branches[0]
    if (b === undefined || other === undefined || own === undefined) throw new Error('two branches')
    const seen: AtBus = { plant: before.plant, kit: {}, branch: b, places: own.places, positions: p, others: inService(other, p) }
    const row = voltsAtLimit(seen, v, 5)
    const { log } = extend(own.chain, row, 0)
    const carries = Math.log(orWrong(normal(v, 24, Math.hypot(0.5, 0.48)), v))
    for (let j = 0; j < own.places.count; j += 5) {
      expect(outside(next, j) - outside(start, j)).toBeCloseTo(log[j] ?? Number.NaN, 6)
      if (own.flicker[j] !== -Infinity)
        expect((next.branches[0]?.flicker[j] ?? 0) - (start.branches[0]?.flicker[j] ?? 0)).toBeCloseTo(
          Math.log(now(Math.exp(log[j] ?? 0), Math.exp(carries))),
          1,
        )
    }
    // 1.4 V of 5 A are 0.28 Ω: of all places the one of 0.28 Ω gains most.
    const gain = Array.from(own.places.prior, (_, j) => outside(next, j) - outside(start, j))
    const best = gain.indexOf(Math.max(...gain))
    expect(Math.abs((row.mean[best] ?? 0) - v)).toBeLessThan(0.1)
  })
  test('a branch whose device is open is no part of it', () => {
    const next = observe(before, read(at('bus'), 1.4, opened))
    const first = heldFor(before, opened, 15)
    const shift = outside(next, 0) - outside(first, 0)
    for (let j = 0; j < (before.branches[0]?.places.count ?? 0); j += 9) expect(outside(next, j) - outside(first, j)).toBeCloseTo(shift, 9)
    const up = next.supplyDead - first.supplyDead - Math.log(nothing(1.4))
    expect(shift).toBeCloseTo(Math.log(whole(1.4)) + up, 2)
  })
  test.each([
    ['unsteady', read(at('bus'), 1.4, all, true)],
    ['read at a branch', read(at('B1'), 1.4)],
  ] as const)('%s, it is one low voltage as another', (_, evidence) => {
    const next = having(evidence)
    for (let j = 0; j < (before.branches[0]?.places.count ?? 0); j += 9)
      expect(outside(next, j) - outside(start, j)).toBeCloseTo(outside(next, 0) - outside(start, 0), 9)
  })
  test('a limit that nobody has told is no source', () => {
    const limit = { mode: 'constant-current' } as Supply['limit']
    const blind = startOf(withSupply({ limit } as Supply))
    const next = observe(blind, read(at('bus'), 1.4))
    for (const j of [3, 40, 90]) expect(outside(next, j) - outside(blind, j)).toBeCloseTo(outside(next, 0) - outside(blind, 0), 9)
  })
})

describe('an answer that fits nothing', () => {
  test('is the share of what a wrong answer explains: 0.02 × 1/(14 × 0.05 + 14 v) of all that explains v', () => {
    const v = 60
    const next = observe(untold, read(at('bus'), v))
    const wrong = 0.02 / (14 * (v + 0.05))
    expect(next.fitsNothing).toBeCloseTo(Math.min(1, wrong / Math.exp(shares(next).evidence - shares(untold).evidence)), 9)
  })
})

describe('volts between two outgoing plus terminals', () => {
  const across: Read = volt('B1.plus', 'B2.plus')
  test.each([
    ['hiccup', false],
    ['hiccup', true],
    ['latch-off', false],
    ['constant-current', true],
  ] as const)('%s, unsteady: %s', (mode, unsteady) => {
    // No amperes told, so that no heat opens a device meanwhile.
    for (const [volts, limit] of [
      [undefined, { mode }],
      [26, { mode }],
    ] as const) {
      const before = startOf(withSupply({ setVoltage: volts, ratedVoltage: 24, limit } as Supply))
      const { plant } = before
      const pair: Pair = { red: branchOf(plant, 'B1'), black: branchOf(plant, 'B2') }
      for (const positions of [all, { ...all, devices: { B1: 'closed', B2: 'open' } } as const])
        for (const v of [0.06, -0.06, 0, 24, -24]) {
          const after = observe(before, read(across, v, positions, unsteady))
          const settled = Math.exp(after.noMains - before.noMains) / orWrong(normal(v, 0, 1e-3), v)
          const held =
            Math.exp((after.branches[0]?.outside[0] ?? 0) - (before.branches[0]?.outside[0] ?? 0)) /
            orWrong(dropDensity(plant, pair, pair.red, v), v)
          // A supply that pulses lets no display settle while it is held down, and does while it is whole.
          if (mode === 'hiccup')
            expect([held, settled]).toEqual(
              unsteady ? [expect.closeTo(0.95, 9), expect.closeTo(0.05, 9)] : [expect.closeTo(0.05, 9), expect.closeTo(0.95, 9)],
            )
          const at = (b: number): number => {
            const own = plant.branches[b]
            if (own === undefined) throw new Error('no such branch')
            return positions.devices[own.id as 'B1' | 'B2'] === 'closed' ? held * orWrong(dropDensity(plant, pair, own, v), v) : open(b)
          }
          const back = (mean: number): number => settled * orWrong(normal(v, mean, mean === 0 ? 0.1 : 1), v)
          const open = (b: number): number => back(b === 0 ? -(volts ?? 24) : (volts ?? 24))
          expectWeighed(before, after, {
            short: at,
            flicker: () => undefined,
            tripped: open,
            deviceOpen: open,
            supplyDead: settled * orWrong(normal(v, 0, 1e-3), v),
            noMains: settled * orWrong(normal(v, 0, 1e-3), v),
            other: (held + settled) / 2 / 30,
            suspicion: x => {
              if (isTraced(x)) return back(0)
              return x.branch === undefined || x.fault === 'backfeed' ? (at(0) + at(1)) / 2 : at(x.branch)
            },
          })
        }
    }
  })
})
