// The measuring tool from typed text to a place: what is read, what each method is said to give, and what the readings then give.
import { beforeAll, describe, expect, test } from 'vitest'
import { later } from '../../content/en/later.ts'
import { ideal } from '../../engine/foretell.ts'
import type { Method } from '../../engine/method.ts'
import { fieldsOf, type Job, jobOf, numberOf, offersOf, outcomeOf, stretchOf, type Typed, UNTYPED } from '../../web/screens/toolReckon.ts'
import { needWords } from '../../web/words.ts'

beforeAll(needWords)
const job = (more: Partial<Typed> = {}): Job => {
  const read = jobOf({ ...UNTYPED, length: '30', percent: '0', ...more })
  if (!read.ok) throw new Error(read.wrong.field)
  return read.job
}
const whole = ({ cable }: Job) => ({ low: 0, high: cable.length })
const FED: Partial<Typed> = { source: 'injector', size: '1.5' }

test.each([
  ['12,5', 12.5],
  ['12.5', 12.5],
  [' −3 ', -3],
  ['0,5', 0.5],
  ['.5', 0.5],
  ['', undefined],
  ['12m', undefined],
  ['1,2,3', undefined],
  ['1e3', undefined],
])('%j is read as %s', (text, value) => {
  expect(numberOf(text)).toBe(value)
})
test.each<{ typed: Partial<Typed>; field: string; found: string }>([
  { typed: { length: '' }, field: 'length', found: '' },
  { typed: { length: 'far' }, field: 'length', found: 'far' },
  { typed: { length: '0' }, field: 'length', found: '0' },
  { typed: { celsius: '300' }, field: 'celsius', found: '300' },
  { typed: { source: 'injector', ampere: '0' }, field: 'ampere', found: '0' },
  { typed: { source: 'supply', rating: '1e9' }, field: 'rating', found: '1e9' },
  { typed: { taps: '0; 40' }, field: 'taps', found: '0; 40' },
  { typed: { taps: '5; 5' }, field: 'taps', found: '5; 5' },
])('$typed is refused by field and value', ({ typed, field, found }) => {
  const read = jobOf({ ...UNTYPED, length: '30', ...typed })
  expect(read.ok ? read : read.wrong).toMatchObject({ field, found })
})
test('junctions stand apart by semicolons or spaces, since a comma is a decimal sign', () => {
  expect(job({ taps: '15; 0 7,5' }).setting.taps).toEqual([0, 7.5, 15])
  expect(job().setting.taps).toEqual([0, 7.5, 15, 22.5, 30])
})
test('the conductor, its class, its temperature and the way back all count', () => {
  const loop = (more: Partial<Typed>) => job(more).cable.loop
  expect(loop({ size: '0.75' })).toBeCloseTo(2 * 0.96 * 0.026, 9)
  expect(loop({ size: '0.75', kind: 'stiff' })).toBeCloseTo(2 * 0.96 * 0.0245, 9)
  expect(loop({ size: 'awg18', kind: 'stiff' })).toBeLessThan(loop({ size: 'awg18' }))
  expect(loop({ celsius: '45' })).toBeCloseTo(loop({}) * (1 + 0.00393 * 25), 9)
  expect(loop({ back: 'chassis' })).toBeCloseTo(loop({}) / 2, 9)
  expect(job({ percent: '10' }).cable.lengthSd).toBeCloseTo(3 / Math.sqrt(3), 9)
})

describe('what each method will give', () => {
  test('what leads to the place soonest comes first, refusals last, and without a source no current is asked for', () => {
    const bare = offersOf(job({ size: '1.5' }), { low: 0, high: 30 })
    expect(bare.map(({ method }) => method)).not.toContain('injected-far')
    const fed = offersOf(job(FED), { low: 0, high: 30 })
    expect(fed).toHaveLength(10)
    const useful = fed.filter(offer => offer.refused === undefined)
    expect(useful.map(({ toPlace }) => toPlace)).toEqual(useful.map(({ toPlace }) => toPlace).sort((a, b) => a - b))
    expect(fed.slice(useful.length).every(offer => offer.refused !== undefined)).toBe(true)
  })
  test('31 m of 1.5 mm²: ohms from both ends leave more than 5 m, a current and millivolts at both ends less than 2.5 m', () => {
    const offers = new Map(offersOf(job({ ...FED, length: '31' }), { low: 0, high: 31 }).map(offer => [offer.method, offer.foretold]))
    const leaves = (method: Method): number => offers.get(method)?.leaves ?? 0
    expect(leaves('two-ends')).toBeGreaterThan(5)
    expect(leaves('injected-far')).toBeLessThan(2.5)
    expect(offers.get('injected-far')?.standardUncertainty).toBeLessThan(0.65)
  })
  test('a stretch that is known already is what a further method has to beat', () => {
    const on = job(FED)
    const before = new Map(offersOf(on, whole(on)).map(offer => [offer.method, offer]))
    const after = new Map(offersOf(on, { low: 10, high: 14 }).map(offer => [offer.method, offer]))
    expect(before.get('two-ends')?.refused).toBeUndefined()
    expect(after.get('two-ends')?.refused).toBe('tells-nothing')
    expect(after.get('injected-far')?.refused).toBeUndefined()
  })
  test.each<{ typed: Partial<Typed>; why: string }>([
    { typed: { mode: 'hiccup', rating: '6' }, why: 'not-constant-current' },
    { typed: { mode: 'constant-current', rating: '' }, why: 'rating-not-known' },
    { typed: { mode: 'constant-current', rating: '6', ampere: '7' }, why: 'over-device' },
    { typed: { mode: 'constant-current', rating: '25', ampere: '20' }, why: 'over-conductor' },
  ])('the supply as source: $typed is refused ($why), and ohms are not', ({ typed, why }) => {
    const on = job({ source: 'supply', size: '1.5', ampere: '5', ...typed })
    const offers = new Map(offersOf(on, whole(on)).map(offer => [offer.method, offer.refused]))
    expect(offers.get('injected-far')).toBe(why)
    expect(offers.get('two-ends')).toBeUndefined()
  })
  test('the supply at its own limit may serve where it is within both ratings, and beats one ampere from outside', () => {
    const on = job({ source: 'supply', size: '1.5', ampere: '5', mode: 'constant-current', rating: '6' })
    const [supply, injector] = [on, job(FED)].map(j => offersOf(j, whole(j)).find(({ method }) => method === 'injected-near'))
    expect(supply?.refused).toBeUndefined()
    expect(supply?.seconds).toBeLessThan(injector?.seconds ?? 0)
  })
  test('every refusal and every method has words', () => {
    const { refused, names, how } = later.tool
    const on = job({ ...FED, back: 'chassis', length: '2' })
    for (const offer of offersOf(on, whole(on))) {
      expect(names[offer.method]).toBeTruthy()
      expect(how[offer.method]).toBeTruthy()
      if (offer.refused !== undefined) expect(refused[offer.refused]).toBeTruthy()
    }
  })
})

describe('from readings to the place', () => {
  const METHODS = offersOf(job(FED), { low: 0, high: 30 }).map(({ method }) => method)
  test.each(METHODS)('%s: the fields ask for what the method needs, and readings without error give the place', method => {
    const on = job(FED)
    const exact = ideal(method, 12, 0.1, on.cable, on.setting) as unknown as Record<string, number>
    const taps = 'taps' in exact ? (exact['taps'] as unknown as { volts: number }[]) : []
    const values = new Map(
      fieldsOf(method, on.setting).map(({ key }) => [
        key,
        key.startsWith('tap') ? (taps[Number(key.slice(4))]?.volts ?? 0) : (exact[key] ?? 0),
      ]),
    )
    const outcome = outcomeOf(on, method, values)
    if (!('estimate' in outcome)) throw new Error(outcome.refused)
    const stretch = stretchOf(outcome.estimate)
    // What is worth nothing on 1.5 mm² gives no stretch; all others hold the place.
    if (outcome.estimate.refusedBecause !== undefined) expect(stretch).toBeUndefined()
    else {
      expect(stretch?.low).toBeLessThanOrEqual(12)
      expect(stretch?.high).toBeGreaterThanOrEqual(12)
    }
  })
  test('ohms from one end bound the place and name none', () => {
    const on = job({ size: '0.5' })
    const outcome = outcomeOf(on, 'one-end', new Map([['near', 0.6]]))
    if (!('estimate' in outcome)) throw new Error(outcome.refused)
    expect(outcome.estimate.upperBoundOnly).toBe(true)
    expect(stretchOf(outcome.estimate)).toEqual({ low: 0, high: outcome.estimate.upperBound })
  })
  test('readings that fit no place give none', () => {
    const outcome = outcomeOf(
      job(),
      'two-ends',
      new Map([
        ['near', 4],
        ['far', 0.2],
      ]),
    )
    if (!('estimate' in outcome)) throw new Error(outcome.refused)
    expect(outcome.estimate.refusedBecause).toBe('does-not-fit')
    expect(stretchOf(outcome.estimate)).toBeUndefined()
  })
  test('no current and no sound loop are said, and never divided by', () => {
    expect(
      outcomeOf(
        job(FED),
        'injected-near',
        new Map([
          ['near', 0.3],
          ['ampere', 0],
        ]),
      ),
    ).toEqual({ refused: 'no-current' })
    expect(
      outcomeOf(
        job(FED),
        'core-drop',
        new Map([
          ['drop', 0.3],
          ['healthy', 0],
        ]),
      ),
    ).toEqual({ refused: 'loop-too-small' })
    expect(
      outcomeOf(
        job(),
        'far-jumper',
        new Map([
          ['around', 0],
          ['healthy', 1],
          ['faulty', 1],
        ]),
      ),
    ).toEqual({ refused: 'loop-too-small' })
  })
})
