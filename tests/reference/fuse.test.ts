import { describe, expect, test } from 'vitest'
import { deviceOf } from '../../engine/device.ts'
import { type FuseKind, fuseGates } from '../../engine/fuse.ts'
import { bandWithin } from '../../engine/gate.ts'
import published from './fuse.json' with { type: 'json' }
import { named } from './named.ts'

const own = (kind: FuseKind, rating: number, confirmed: boolean) =>
  fuseGates(kind).filter(g => g.confirmed === confirmed && (g.ratings ?? [0, 0])[0] <= rating && rating <= (g.ratings ?? [0, 0])[1])

describe('time-current gates', () => {
  test.each(named(published.gates))('%s', (_, row) => {
    const { times, rating, notBefore, within } = row as { times: number; rating: number; notBefore?: number; within?: number }
    const gate = own(row.kind as FuseKind, rating, true).find(g => g.times === times)
    expect({ notBefore: gate?.notBefore, within: gate?.within }).toEqual({ notBefore, within })
    if (within !== undefined)
      expect(bandWithin(own(row.kind as FuseKind, rating, true), rating, within).opens).toBeLessThanOrEqual(times * rating)
  })
  test('no gate counts as confirmed that is not published, and each from memory says so', () => {
    const all = (['F', 'T', 'UL', 'blade'] as const).flatMap(kind => fuseGates(kind))
    expect(all.filter(g => g.confirmed)).toHaveLength(published.gates.length)
    for (const g of all) expect(g.source.includes('from memory')).toBe(!g.confirmed)
  })
  test.each(published.fromMemory)('$id, from memory: the answer is not known', ({ kind, rating, times, ...rest }) => {
    const { within } = rest as { within?: number }
    expect(own(kind as FuseKind, rating, false).some(g => g.times === times)).toBe(true)
    if (within === undefined) return
    const device = deviceOf({ kind: 'fuse', rating, fuse: kind as FuseKind }, within)
    // Unless a published gate opens it in that time, nothing does.
    const sure = own(kind as FuseKind, rating, true).some(g => (g.within ?? Infinity) <= within)
    expect(device.missing.includes('confirmed figure')).toBe(!sure)
    expect(device.fromMemory.opens).toBeLessThanOrEqual(times * rating)
  })
})

test('a quick 2 A fuse, by hand', () => {
  // Sheet 2, 125 mA to 6.3 A: at 2.75 × 2 A = 5.5 A within 2 s, at 4 × 2 A = 8 A within 0.3 s, at 1.5 × 2 A = 3 A for an hour.
  const within = (seconds: number) => deviceOf({ kind: 'fuse', rating: 2, fuse: 'F' }, seconds).band
  expect([within(5).opens, within(5).seconds, within(5).holds]).toEqual([5.5, 2, 3])
  expect([within(0.4).opens, within(0.4).seconds]).toEqual([8, 0.3])
  // No published gate is as short as 0.1 s for this rating.
  expect(within(0.1).opens).toBe(Infinity)
})
