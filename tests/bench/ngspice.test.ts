import { expect, test } from 'vitest'
import type { Point } from '../../engine/step.ts'
import { build, live, ohmsBetween, voltsBetween } from './circuit.ts'
import { invent } from './invent.ts'
import { spiceReading, spiceVolts } from './ngspice.ts'
import { type Chance, chance } from './random.ts'
import { DRAW_FROM, DRAW_FULL, solve } from './solver.ts'
import { foundState, type State, type Truth } from './truth.ts'

/** The machine as found, or off with some devices open, a plug out, a run opened, the injector on. */
const someState = (truth: Truth, own: Chance): State => {
  const state = foundState(truth)
  if (own.yes(0.4)) return state
  state.supply = 'off'
  for (const branch of truth.machine.branches) {
    if (own.yes(0.7)) state.devices.set(branch.id, 'open')
    for (const load of branch.loads ?? []) if (own.yes(0.1)) state.unplugged.add(`${branch.id}/${load.id}`)
    for (const run of branch.wiring ?? []) if (own.yes(0.05)) state.opened.add(run.id)
  }
  const fed = truth.machine.branches.find(b => state.devices.get(b.id) === 'open')
  if (fed !== undefined && own.yes(0.5)) state.injector = { branch: fed.id, into: own.yes(0.5) ? 'zero' : 'earth' }
  return state
}
const somePoint = (truth: Truth, own: Chance): string => {
  const branch = own.pick(truth.machine.branches)
  const places = ['bus', branch.id, ...(branch.wiring ?? []).flatMap(r => [`${branch.id}/${r.to}`, `${branch.id}/${r.id}`])]
  return own.pick(places)
}

test('the slow twin agrees with ngspice on 50 random faulty circuits (seeds 1 to 50) within 1e-6', async () => {
  let worst = 0
  for (let seed = 1; seed <= 50; seed++) {
    const truth = invent(seed, { branches: 3 + (seed % 6), fault: seed % 5 === 0 ? 'other' : 'short' })
    const own = chance(seed)
    const state = someState(truth, own)
    const meter = state.supply === 'off' && state.injector === undefined ? 'ohm' : 'volt'
    for (let i = 0; i < 4; i++) {
      const place = somePoint(truth, own)
      const [red, black]: [Point, Point] = [`${place}.plus`, own.yes(0.3) ? 'earth' : `${place}.zero`]
      const shown = meter === 'ohm' ? ohmsBetween(truth, state, red, black) : voltsBetween(truth, state, live(truth, state), red, black)
      const theirs = await spiceReading(truth, state, meter, red, black)
      if (!Number.isFinite(theirs)) {
        expect(shown).toBe(theirs)
        continue
      }
      // Near nothing it is the difference that counts: doubles at 24 V and 2000 S leave some 10 nV across a supply that is off.
      const off = Math.abs(shown - theirs) / Math.max(Math.abs(theirs), 0.1)
      worst = Math.max(worst, off)
      expect(off, `seed ${seed}: ${meter} ${red} to ${black}: ${shown} for ${theirs}`).toBeLessThan(1e-6)
    }
  }
  expect(worst).toBeGreaterThan(0)
})

test('ngspice finds every source and load in the face that the slow twin gave it (seeds 1 to 20)', async () => {
  for (let seed = 1; seed <= 20; seed++) {
    const truth = invent(seed, { branches: 4 })
    const { net } = build(truth, foundState(truth))
    const solved = solve(net)
    const volts = await spiceVolts(net, solved)
    const across = (plus: string, minus: string): number => (volts.get(plus) ?? Number.NaN) - (volts.get(minus) ?? Number.NaN)
    for (const [k, s] of net.sources.entries()) {
      const u = across(s.plus, s.minus)
      expect(solved.sources[k]?.limited ? u <= s.volts - s.limit * s.inside : (s.volts - u) / s.inside <= s.limit * (1 + 1e-6)).toBe(true)
    }
    for (const [k, d] of net.draws.entries()) {
      const u = across(d.plus, d.minus)
      expect(u < DRAW_FROM ? 'off' : u > DRAW_FULL ? 'full' : 'ramp').toBe(solved.draws[k])
    }
  }
})
