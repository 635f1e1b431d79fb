import { Dexie } from 'dexie'
import type { Machine } from '../../engine/machine.ts'
import type { Answer } from '../../engine/step.ts'
import type { Asked, FaultRecord, SessionEvent } from '../../web/flow/request.ts'
import type { Log, LogError, Started, StoredEvent } from '../../web/log/log.ts'

/** An invented plant. */
export const MACHINE: Machine = {
  format: 'ohmward.machine',
  version: 1,
  id: 'packer-4',
  name: 'Packer 4 / Süd',
  supply: { ratedVoltage: 24, ratedCurrent: 10, zeroVoltBonded: true },
  branches: [
    {
      id: 'B1',
      protection: { kind: 'breaker', rating: 4, curve: 'C' },
      wiring: [{ id: 'W1', from: 'terminals', to: 'J1', length: 12.5, conductor: { area: 1.5, class: 5 }, moving: true }],
      loads: [{ id: 'Y1', at: 'J1', kind: 'coil', watts: 8 }],
    },
    { id: 'B2' },
  ],
}
export const started = (name = MACHINE.name): Started => ({
  type: 'started',
  machine: { ...MACHINE, name },
  kit: { meter: { ohm: { percent: 0.8, counts: 3, resolution: 0.1 } }, clamp: true },
  symptom: 'all-dead',
})
export const answered = (n: number, answer: Answer = { value: n / 8 }, asked?: Asked): SessionEvent => ({
  type: 'answered',
  n,
  answer,
  ...(asked === undefined ? {} : { asked }),
})
export const ANSWERS: readonly Answer[] = [
  { done: true },
  { cannot: 'the cover is riveted' },
  { volts: 23.8 },
  { value: -1.05, unsteady: true },
  { value: 'OL', ac: false },
  { seen: 'blinking' },
  { confirmed: false },
]
export const RECORD: FaultRecord = {
  mode: 'no-output',
  mechanism: 'short-circuit',
  cause: 'wear-in-use',
  mended: 'piece cut out, joined in a box',
  material: 'cable 2 × 1.5 mm², 2 m',
  who: 'M17',
  downSince: '2026-11-25T13:50:00.000+01:00',
  found: { fault: 'short-to-zero', branch: 'B1', run: 'W1', alongRun: { best: 3, low: 2.5, high: 3.6 } },
  located: 3,
  corrected: 4,
  restored: 10,
  believed: [{ seq: 3, branches: [{ branch: 'B1', before: 0.12, after: 0.487 }] }],
}
/** A session with every kind of event and of answer. */
export const SESSION: readonly SessionEvent[] = [
  started(),
  ...ANSWERS.map((answer, i) => answered(i + 1, answer)),
  { type: 'undone' },
  answered(7, { confirmed: true }),
  { type: 'resumed' },
  { type: 'handedOver' },
  { type: 'stopped' },
  { type: 'closed', branch: 'B1', wrong: 'W1 crushed at the drag chain, "again"', note: 'first line\nsecond line; Ω, µ, 断線' },
  { type: 'closed', branch: 'B1', wrong: '', note: '', record: RECORD },
]

export const stored = (events: readonly SessionEvent[]): StoredEvent[] =>
  events.map((event, i) => ({ seq: i + 1, wall: '2026-11-25T14:05:00.000+01:00', zone: 'Europe/Berlin', mono: i * 7, boot: 'b', event }))

export const record = async (log: Log, [first, ...rest]: readonly SessionEvent[] = SESSION): Promise<string> => {
  if (first?.type !== 'started') throw new Error('a session starts with its first event')
  const id = await log.create(first)
  for (const event of rest) await log.append(id, event)
  return id
}

/** The error's kind, or 'saved' when there was none. */
export const outcome = (saving: Promise<unknown>): Promise<LogError['kind'] | 'saved'> =>
  saving.then(
    () => 'saved' as const,
    (error: LogError) => error.kind,
  )

/** Runs `work` while every database made meanwhile gets `addon`, as a faulty browser would. */
export const withAddon = async <T>(addon: (db: Dexie) => void, work: () => Promise<T>): Promise<T> => {
  Dexie.addons.push(addon)
  try {
    return await work()
  } finally {
    Dexie.addons.splice(Dexie.addons.indexOf(addon), 1)
  }
}
