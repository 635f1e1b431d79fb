import type { Stamp } from './log.ts'

const boot = crypto.randomUUID()
const two = (n: number): string => String(n).padStart(2, '0')

/** ISO 8601 in local time with the offset of that moment, so that a summer-time night stays readable. */
export const localIso = (at: Date): string => {
  const east = -at.getTimezoneOffset()
  const minutes = Math.abs(east)
  const local = new Date(at.getTime() + east * 60_000).toISOString().slice(0, -1)
  return `${local}${east < 0 ? '-' : '+'}${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`
}

export const stamp = (): Stamp => ({
  wall: localIso(new Date()),
  zone: Intl.DateTimeFormat().resolvedOptions().timeZone,
  mono: Math.round(performance.now()),
  boot,
})
