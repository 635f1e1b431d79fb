// What is promised of a device, band by band, with where it is from: by hand from the test points of the standards.
import { describe, expect, test } from 'vitest'
import { AT_ONCE, breakerGates, thermal } from '../../engine/breaker.ts'
import { ADIABATIC, AREAS, areaOf, bears, capacityOf } from '../../engine/capacity.ts'
import { deviceOf } from '../../engine/device.ts'
import { fuseGates } from '../../engine/fuse.ts'
import { bandWithin, type Gate } from '../../engine/gate.ts'
import type { Protection } from '../../engine/machine.ts'

const gate = (times: number, more: Partial<Gate>): Gate => ({ times, source: `at ${times}`, confirmed: true, ...more })

describe('the band within a time', () => {
  const gates = [
    gate(1, { notBefore: Infinity }),
    gate(1.13, { notBefore: 3600 }),
    gate(1.45, { within: 3600 }),
    gate(2.55, { notBefore: 1, within: 60 }),
    gate(5, { within: 0.1 }),
  ]
  test.each([
    // Of all that stays closed that long the highest, of all that has opened by then the lowest.
    { seconds: 7200, holds: 1, opens: 1.45, takes: 3600 },
    { seconds: 3600, holds: 1.13, opens: 1.45, takes: 3600 },
    { seconds: 60, holds: 1.13, opens: 2.55, takes: 60 },
    { seconds: 59, holds: 1.13, opens: 5, takes: 0.1 },
    { seconds: 1, holds: 2.55, opens: 5, takes: 0.1 },
    { seconds: 0.1, holds: 2.55, opens: 5, takes: 0.1 },
  ])('$seconds s: holds $holds, opens from $opens times the rating on', ({ seconds, holds, opens, takes }) => {
    expect(bandWithin(gates, 10, seconds)).toEqual({
      holds: expect.closeTo(10 * holds, 9),
      opens: expect.closeTo(10 * opens, 9),
      seconds: takes,
      sources: [`at ${holds}`, `at ${opens}`],
    })
    expect(bandWithin([...gates].reverse(), 10, seconds)).toEqual(bandWithin(gates, 10, seconds))
  })
  test('nothing promised: it may open at any current, and may stay closed at any', () => {
    expect(bandWithin([], 10, 1)).toEqual({ holds: 0, opens: Infinity, seconds: Infinity, sources: [] })
    expect(bandWithin(gates, 10, 0.01)).toMatchObject({ opens: Infinity, sources: ['at 2.55'] })
  })
  test('a promise is for its ratings, both ends included', () => {
    const some = [gate(2, { within: 1, ratings: [4, 6] })]
    expect([3.9, 4, 6, 6.1].map(rating => bandWithin(some, rating, 1).opens)).toEqual([Infinity, 8, 12, Infinity])
  })
})

describe('breakers', () => {
  const named = (curve: Parameters<typeof breakerGates>[0], standard?: Parameters<typeof breakerGates>[1]) =>
    breakerGates(curve, standard).map(g => [g.times, g.notBefore, g.within, g.confirmed])
  const carries = [1, Infinity, undefined, true]
  const points = [
    [1.13, 3600, undefined, true],
    [1.45, undefined, 3600, true],
    [2.55, 1, 60, true],
  ]
  test.each([
    { curve: 'B', low: 3, high: 5 },
    { curve: 'C', low: 5, high: 10 },
    { curve: 'D', low: 10, high: 20 },
  ] as const)('IEC 60898-1 type $curve, its upper edge 1.5 times higher for d.c.', ({ curve, low, high }) => {
    const all = [carries, ...points, [low, 0.1, undefined, true], [1.5 * high, undefined, 0.1, true]]
    expect(named(curve)).toEqual(all)
    expect(named(curve, 'IEC 60898-1')).toEqual(all)
  })
  test('type Z stands in no standard: it keeps its rating, and 2 to 3 times it are from memory', () => {
    expect(named('Z')).toEqual([carries, [2, 0.1, undefined, false], [4.5, undefined, 0.1, false]])
  })
  test('IEC 60898-2 is made for d.c., so that no factor is added; from memory: B 4 to 7, C 7 to 15, no others', () => {
    expect(named('B', 'IEC 60898-2').slice(4)).toEqual([
      [4, 0.1, undefined, false],
      [7, undefined, 0.1, false],
    ])
    expect(named('C', 'IEC 60898-2').slice(4)).toEqual([
      [7, 0.1, undefined, false],
      [15, undefined, 0.1, false],
    ])
    expect(named('D', 'IEC 60898-2')).toEqual([carries, ...points])
  })
  test('IEC 60947-2 promises 1.3 times in an hour, above 63 A in two; without a characteristic the rating is all', () => {
    expect(named('C', 'IEC 60947-2')).toEqual([carries, [1.3, undefined, 3600, true], [1.3, undefined, 7200, true]])
    expect([63, 63.5].map(rating => bandWithin(breakerGates('C', 'IEC 60947-2'), rating, 3600).opens)).toEqual([
      expect.closeTo(81.9, 9),
      Infinity,
    ])
    expect(named(undefined)).toEqual([carries])
  })
  test('each figure says where it is from; the factor for d.c. that it is common practice', () => {
    for (const standard of ['IEC 60898-1', 'IEC 60898-2', 'IEC 60947-2'] as const)
      for (const curve of ['B', 'C', 'D'] as const)
        for (const { times, source, confirmed } of breakerGates(curve, standard)) {
          expect(source).toMatch(times === 1 ? /meaning of a breaker’s rating/ : /^IEC 60(898-[12]|947-2)/)
          if (!confirmed) expect(source).toContain('from memory')
          expect(source.includes('common practice')).toBe(standard === 'IEC 60898-1' && [7.5, 15, 30].includes(times))
        }
    expect(breakerGates('Z').map(g => g.source)[1]).toContain('no standard has type Z')
  })
  test('the thermal part at the edges of what is promised', () => {
    expect([thermal(2.55, 32), thermal(2.55, 32.1), thermal(1.45, 63), thermal(1.45, 63.1), thermal(1.13, 63)]).toEqual([
      'within a minute',
      'within an hour',
      'within an hour',
      'not known',
      'not in an hour',
    ])
  })
})

describe('fuses', () => {
  test('each is for its ratings and says where it is from', () => {
    const from = { F: 'IEC 60127-2 standard sheet 2', T: 'IEC 60127-2 standard sheet 3', UL: 'UL/CSA 248-14', blade: 'ISO 8820-3' }
    for (const kind of ['F', 'T', 'UL', 'blade'] as const)
      for (const { source, confirmed, ratings } of fuseGates(kind)) {
        expect(source).toBe(confirmed ? from[kind] : `${from[kind]} (from memory)`)
        expect(ratings).toBeDefined()
      }
  })
  test('20 ms tell small cartridges from large ones: 50 mA opens at 10 times in 20 ms, 1 A is promised nothing so short', () => {
    expect(bandWithin(fuseGates('F'), 0.05, 0.02).opens).toBeCloseTo(0.5, 12)
    expect(bandWithin(fuseGates('F'), 1, 0.02).opens).toBe(Infinity)
    expect(bandWithin(fuseGates('F'), 0.05, 1800).opens).toBeCloseTo(0.2, 12)
    expect(bandWithin(fuseGates('F'), 1, 1800).opens).toBeCloseTo(2.1, 12)
  })
})

describe('one branch’s device', () => {
  const at = (protection: Protection | undefined, seconds = AT_ONCE) => deviceOf(protection, seconds)
  test('no device never opens; of an unknown one nothing is promised', () => {
    expect(at({ kind: 'none', rating: 4 })).toMatchObject({ band: { holds: Infinity, opens: Infinity, sources: [] }, missing: [] })
    expect(at(undefined)).toMatchObject({ band: { holds: 0, opens: Infinity, seconds: Infinity, sources: [] }, missing: ['device'] })
    expect(at({ kind: 'breaker', curve: 'B' })).toMatchObject({ band: { holds: 0, opens: Infinity }, missing: ['rating'] })
  })
  test('its own data sheet goes before any standard, for as long as it takes', () => {
    const dataSheet = { carries: 5, opens: 6, seconds: 0.1 }
    const own = at({ kind: 'breaker', rating: 4, curve: 'B', dataSheet })
    expect(own).toEqual({
      band: { holds: 5, opens: 6, seconds: 0.1, sources: ['the device’s data sheet'] },
      fromMemory: own.band,
      missing: [],
    })
    // A current that opens it only later says nothing of a shorter time.
    expect(at({ kind: 'electronic', dataSheet }, 0.09)).toMatchObject({ band: { holds: 5, opens: Infinity }, missing: ['data sheet'] })
  })
  test('what is missing is named', () => {
    const missing = (protection: Protection, seconds?: number) => at(protection, seconds).missing
    expect(missing({ kind: 'breaker', rating: 4 })).toEqual(['characteristic'])
    expect(missing({ kind: 'electronic', rating: 4 })).toEqual(['data sheet'])
    expect(missing({ kind: 'fuse', rating: 4 })).toEqual(['kind of fuse'])
    expect(missing({ kind: 'breaker', rating: 4, curve: 'B' })).toEqual([])
    expect(missing({ kind: 'breaker', rating: 4, curve: 'B', standard: 'IEC 60947-2' }, 3600)).toEqual(['declared magnetic value'])
    expect(missing({ kind: 'fuse', rating: 1, fuse: 'F' }, 0.02)).toEqual(['confirmed figure'])
  })
  test('any fuse carries its rating for good, the North American series alone by no such word', () => {
    const holds = (fuse: 'F' | 'UL' | 'blade' | undefined) => at({ kind: 'fuse', rating: 4, ...(fuse && { fuse }) }, 1e6).band.holds
    expect([holds('F'), holds('blade'), holds(undefined), holds('UL')]).toEqual([4, 4, 4, 0])
    expect(at({ kind: 'fuse', rating: 4 }, 1e6).band.sources).toEqual(['meaning of a fuse’s rating'])
    // A quick 4 A fuse: 1.5 × 4 A for an hour.
    expect(at({ kind: 'fuse', rating: 4, fuse: 'F' }, 3600).band.holds).toBeCloseTo(6, 12)
  })
  test('what is from memory is kept apart: a slow fuse opens by it, and by nothing that is published', () => {
    const slow = at({ kind: 'fuse', rating: 2, fuse: 'T' }, 0.3)
    expect([slow.band.opens, slow.fromMemory.opens]).toEqual([Infinity, 20])
  })
})

describe('conductors', () => {
  // DIN VDE 0298-4 Table 11, 30 °C.
  test.each([
    [0.5, 9],
    [0.75, 12],
    [1, 15],
    [1.5, 18],
    [2.5, 26],
    [4, 34],
    [6, 44],
    [10, 61],
    [16, 82],
    [25, 108],
  ])('%s mm² carries %s A', (area, ampere) => expect(capacityOf(area, 30)).toBe(ampere))
  test('the areas stand smallest first', () => expect(AREAS).toEqual([0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25]))
  test('in air as hot as PVC bears, nothing; in hotter air nothing as well', () => {
    expect([capacityOf(1, 70), capacityOf(1, 80)]).toEqual([0, 0])
    expect(capacityOf(1, 60)).toBeCloseTo(15 * Math.sqrt(10 / 40), 12)
  })
  test('a gauge counts by its area: 14 AWG has 2.08 mm² (ASTM B258), between 1.5 and 2.5', () => {
    expect(areaOf({ awg: 14 })).toBeCloseTo(2.08, 2)
    expect(capacityOf(areaOf({ awg: 14 }) ?? 0, 30)).toBe(18)
    expect([areaOf({ area: 0.75 }), areaOf(undefined)]).toEqual([0.75, undefined])
  })
  test('the time that a conductor bears falls with the square of the current', () => {
    // k = 226 √ln(394.5/304.5) = 114.99 A·√s/mm².
    const k = 226 * Math.sqrt(Math.log(394.5 / 304.5))
    expect(bears(1, k)).toBeCloseTo(1, 9)
    expect([bears(2, k), bears(1, 2 * k)]).toEqual([expect.closeTo(4, 9), expect.closeTo(0.25, 9)])
    expect(ADIABATIC).toBe(5)
  })
})
