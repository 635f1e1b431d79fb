import { expect, test } from 'vitest'
import type { StoredEvent } from '../../web/log/log.ts'
import { jumpsIn } from '../../web/screens/phoneLook.ts'

const at = (second: number, mono: number, boot = 'a'): StoredEvent => ({
  seq: 1,
  wall: new Date(Date.parse('2026-11-25T10:00:00Z') + 1000 * second).toISOString(),
  zone: 'Etc/UTC',
  mono: 1000 * mono,
  boot,
  event: { type: 'undone' },
})

test.each([
  { events: [at(0, 0), at(60, 60), at(120, 120)], jumps: 0, why: 'both clocks go alike' },
  { events: [at(0, 0), at(-3600, 60)], jumps: 1, why: 'the wall clock went back' },
  { events: [at(0, 0), at(3600, 10)], jumps: 0, why: 'the phone slept, and its page clock with it' },
  { events: [at(0, 0), at(-3600, 10, 'b')], jumps: 0, why: 'another start of the page: nothing to compare with' },
  { events: [at(0, 0), at(57, 60)], jumps: 0, why: 'three seconds are a clock that is being set right' },
  { events: [at(0, 0), at(50, 60), at(40, 120)], jumps: 2, why: 'twice' },
])('$why: $jumps jumps', ({ events, jumps }) => expect(jumpsIn(events)).toBe(jumps))
