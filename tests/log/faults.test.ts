import 'fake-indexeddb/auto'
import { Dexie } from 'dexie'
import { beforeEach, expect, test } from 'vitest'
import type { SessionEvent } from '../../web/flow/request.ts'
import type { Log } from '../../web/log/log.ts'
import { openLog } from '../../web/log/store.ts'
import { failing } from './failing.ts'
import { answered, outcome, SESSION, started, withAddon } from './samples.ts'

beforeEach(() => Dexie.delete('ohmward'))

interface Kept {
  readonly id: string
  readonly acknowledged: { readonly seq: number; readonly event: SessionEvent }[]
  readonly outcomes: string[]
}
/** A whole session; a failed answer is given once more, as a technician would press again. */
const play = async (log: Log): Promise<Kept | undefined> => {
  const id = await log.create(started()).catch(() => undefined)
  if (id === undefined) return undefined
  const kept: Kept = { id, acknowledged: [{ seq: 1, event: started() }], outcomes: [] }
  const save = async (event: SessionEvent): Promise<boolean> => {
    kept.outcomes.push(await outcome(log.append(id, event).then(seq => kept.acknowledged.push({ seq, event }))))
    return kept.outcomes.at(-1) === 'saved'
  }
  for (const event of SESSION.slice(1)) {
    await log.saveDraft(id, '2').catch(() => undefined)
    if (!(await save(event))) await save(event)
  }
  return kept
}

const cleanRun = async (): Promise<number> => {
  const { count, addon } = failing(() => undefined)
  const log = await withAddon(addon, openLog)
  await play(log)
  log.close()
  await Dexie.delete('ohmward')
  return count.requests
}

test.each([
  { fault: 'UnknownError', lasting: false, kinds: [], why: 'a dropped connection is opened again and nobody notices' },
  { fault: 'UnknownError', lasting: true, kinds: ['closed'], why: 'a connection that stays away is told' },
  { fault: 'QuotaExceededError', lasting: false, kinds: ['quota'], why: 'a full phone is told, and the next press works' },
  { fault: 'QuotaExceededError', lasting: true, kinds: ['quota'], why: 'a phone that stays full is told each time' },
  { fault: 'DataError', lasting: false, kinds: ['unknown'], why: 'any other failure is told' },
])(
  'at every request in turn, $fault (lasting: $lasting): $why',
  async ({ fault, lasting, kinds }) => {
    const requests = await cleanRun()
    expect(requests).toBeGreaterThan(50)
    const told = new Set<string>()
    for (let nth = 1; nth <= requests; nth++) {
      const { addon } = failing(request => (request === nth || (lasting && request > nth) ? fault : undefined))
      const log = await withAddon(addon, openLog)
      const kept = await play(log)
      log.close()
      const sound = await openLog()
      const stored = kept ? await sound.events(kept.id) : []
      expect(
        stored.map(({ seq, event }) => ({ seq, event })),
        `request ${nth}`,
      ).toEqual(kept?.acknowledged ?? [])
      expect((await sound.sessions()).length, `request ${nth}: no session without its first event`).toBe(kept ? 1 : 0)
      for (const kind of kept?.outcomes ?? []) told.add(kind)
      sound.close()
      await Dexie.delete('ohmward')
    }
    told.delete('saved')
    expect([...told]).toEqual(kinds)
  },
  60_000,
)

test('a commit whose news was lost with the connection is stored once', async () => {
  let lost = 0
  const losingNews = (db: Dexie): void => {
    const plain = db.transaction.bind(db) as (...given: unknown[]) => PromiseLike<unknown>
    const losing = async (...given: unknown[]): Promise<unknown> => {
      const result = await plain(...given)
      if (++lost % 2 === 1) throw new DOMException('connection lost', 'UnknownError')
      return result
    }
    Object.defineProperty(db, 'transaction', { value: losing })
  }
  const log = await withAddon(losingNews, openLog)
  const id = await log.create(started())
  expect(await log.append(id, answered(1))).toBe(2)
  expect(await log.append(id, answered(2))).toBe(3)
  expect(lost).toBe(6) // each of the three was tried twice
  expect((await log.events(id)).map(({ event }) => event)).toEqual([started(), answered(1), answered(2)])
  expect(await log.sessions()).toHaveLength(1)
  log.close()
})

test.each([
  { how: 'without a word', event: false },
  { how: 'with an event', event: true },
])('a connection that the browser closed $how is opened again by the next write and the next read', async ({ event }) => {
  const made: Dexie[] = []
  const log = await withAddon(db => made.push(db), openLog)
  const drop = (): void => {
    const raw = made[0]?.backendDB()
    raw?.close()
    if (event) raw?.onclose?.(new Event('close'))
  }
  const id = await log.create(started())
  drop()
  expect(await log.append(id, answered(1))).toBe(2)
  drop()
  expect(await log.events(id)).toHaveLength(2)
  log.close()
})

test('quick taps keep their order when the connection drops under the first', async () => {
  let fails = false
  const { addon } = failing(() => {
    const fault = fails ? 'UnknownError' : undefined
    fails = false
    return fault
  })
  const log = await withAddon(addon, openLog)
  const id = await log.create(started())
  fails = true
  const taps = [1, 2, 3, 4, 5]
  expect(await Promise.all(taps.map(n => log.append(id, answered(n))))).toEqual([2, 3, 4, 5, 6])
  expect((await log.events(id)).map(({ event }) => event)).toEqual([started(), ...taps.map(n => answered(n))])
  log.close()
})

test('a full phone is told at once in a sentence, also when it is the commit that fails', async () => {
  let tried = 0
  const full = (db: Dexie): void => {
    const commit = async (): Promise<never> => {
      tried++
      throw Object.assign(new Dexie.AbortError('aborted'), { inner: new DOMException('full', 'QuotaExceededError') })
    }
    Object.defineProperty(db, 'transaction', { value: commit })
  }
  const log = await withAddon(full, openLog)
  const said = { name: 'LogError', kind: 'quota', message: expect.stringMatching(/no space left.*\.$/) }
  await expect(log.create(started())).rejects.toMatchObject(said)
  expect(tried).toBe(1)
  log.close()
})
