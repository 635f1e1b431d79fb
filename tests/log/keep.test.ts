import { afterEach, expect, test, vi } from 'vitest'
import { keep } from '../../web/log/keep.ts'
import { localIso, stamp } from '../../web/log/stamp.ts'

afterEach(() => {
  vi.unstubAllGlobals()
  vi.unstubAllEnvs()
})
const yes = async (): Promise<boolean> => true
const no = async (): Promise<boolean> => false
const fails = (): Promise<boolean> => Promise.reject(new TypeError('not here'))

test.each([
  { why: 'granted before', storage: { persisted: yes, persist: fails }, kept: true },
  { why: 'granted now', storage: { persisted: no, persist: yes }, kept: true },
  { why: 'refused', storage: { persisted: no, persist: no }, kept: false },
  { why: 'the question fails', storage: { persisted: no, persist: fails }, kept: false },
  { why: 'an old browser without the question', storage: {}, kept: false },
  { why: 'a page without storage', storage: undefined, kept: false },
])('keeping the log is told as it is: $why', async ({ storage, kept }) => {
  vi.stubGlobal('navigator', { storage })
  expect(await keep()).toBe(kept)
})

test.each([
  { zone: 'America/Los_Angeles', at: '2026-11-25T03:30:00Z', local: '2026-11-24T19:30:00.000-08:00', why: 'the day before in UTC−8' },
  { zone: 'Asia/Kathmandu', at: '2026-11-25T20:00:00Z', local: '2026-11-26T01:45:00.000+05:45', why: 'a quarter-hour zone, the day after' },
  {
    zone: 'Europe/Berlin',
    at: '2026-10-25T00:30:00Z',
    local: '2026-10-25T02:30:00.000+02:00',
    why: 'half past two, the first time that night',
  },
  { zone: 'Europe/Berlin', at: '2026-10-25T01:30:00Z', local: '2026-10-25T02:30:00.000+01:00', why: 'half past two, the second time' },
])('the time carries its offset: $why', ({ zone, at, local }) => {
  vi.stubEnv('TZ', zone)
  expect(localIso(new Date(at))).toBe(local)
  expect(Date.parse(local)).toBe(Date.parse(at))
  // Older zone tables spell it without the h.
  expect(stamp().zone.replace('Katmandu', 'Kathmandu')).toBe(zone)
})
