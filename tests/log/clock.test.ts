// Clocks that jump, zones that change, a summer-time night, a phone asleep: the order of the events stands, and no time is negative.
import { afterEach, expect, test, vi } from 'vitest'
import { localIso } from '../../web/log/stamp.ts'
import { elapsed } from '../../web/log/times.ts'
import { chance } from '../bench/random.ts'

const zone = process.env['TZ']
afterEach(() => {
  vi.restoreAllMocks()
  if (zone === undefined) delete process.env['TZ']
  else process.env['TZ'] = zone
})

const at = (wall: string, mono: number, boot = 'b') => ({ wall, zone: '', mono, boot })
const DAY = 86_400_000

/** What happened between two events: their walls, how far the second clock counted, and what is told of it. */
test.each([
  ['steady', '2026-06-01T10:00:00.000+02:00', '2026-06-01T10:01:00.000+02:00', 60_000, 60, 'sure'],
  ['set a day on', '2026-06-01T10:00:00.000+02:00', '2026-06-02T10:01:00.000+02:00', 60_000, 86_460, 'doubtful'],
  ['set a day back', '2026-06-01T10:00:00.000+02:00', '2026-05-31T10:01:00.000+02:00', 60_000, 60, 'doubtful'],
  ['another zone, the same moment', '2026-06-01T10:00:00.000+02:00', '2026-06-01T13:46:00.000+05:45', 60_000, 60, 'sure'],
  ['summer time ends', '2026-10-25T02:59:30.000+02:00', '2026-10-25T02:00:30.000+01:00', 60_000, 60, 'sure'],
  ['summer time begins', '2026-03-29T01:59:30.000+01:00', '2026-03-29T03:00:30.000+02:00', 60_000, 60, 'sure'],
  ['asleep for an hour', '2026-06-01T10:00:00.000+02:00', '2026-06-01T11:00:00.000+02:00', 500, 3600, 'doubtful'],
  // Started again: the second clock begins anew, and says nothing of what was before.
  ['started again', '2026-06-01T10:00:00.000+02:00', '2026-06-01T10:05:00.000+02:00', undefined, 300, 'sure'],
] as const)('%s', (_, from, to, counted, seconds, told) => {
  const second = counted === undefined ? at(to, 10, 'c') : at(to, 9e6 + counted)
  expect(elapsed([at(from, 9e6), second])).toEqual({ seconds: [0, seconds], doubtful: told === 'doubtful' })
})

const SEED = 34
test(`whatever the clocks do, seconds never go down, seed ${SEED}`, () => {
  const luck = chance(SEED)
  for (let n = 0; n < 2000; n++) {
    let wall = Date.UTC(2026, 9, 25),
      mono = 0,
      boot = 0
    const stamps = Array.from({ length: 12 }, () => {
      wall += luck.pick([1000, 60_000, DAY, -DAY, -1000, 3_600_000])
      mono += luck.pick([0, 1000, 60_000])
      if (luck.yes(0.1)) {
        boot++
        mono = 0
      }
      return at(new Date(wall).toISOString(), mono, String(boot))
    })
    const { seconds } = elapsed(stamps)
    expect(seconds.every((s, i) => s >= (seconds[i - 1] ?? 0))).toBe(true)
  }
})

test.each([
  ['America/Los_Angeles', '2026-01-01T00:30:00.000Z', '2025-12-31T16:30:00.000-08:00'],
  ['Asia/Kathmandu', '2026-01-01T00:30:00.000Z', '2026-01-01T06:15:00.000+05:45'],
  ['Europe/Berlin', '2026-10-25T00:30:00.000Z', '2026-10-25T02:30:00.000+02:00'],
  ['Europe/Berlin', '2026-10-25T01:30:00.000Z', '2026-10-25T02:30:00.000+01:00'],
  ['America/St_Johns', '2026-07-01T00:00:00.000Z', '2026-06-30T21:30:00.000-02:30'],
])('in %s, %s is written %s', (name, moment, written) => {
  process.env['TZ'] = name
  expect(localIso(new Date(moment))).toBe(written)
  expect(Date.parse(written)).toBe(Date.parse(moment))
})
