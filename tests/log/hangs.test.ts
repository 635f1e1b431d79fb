// A storage that does not answer: nothing is called saved that it did not acknowledge, and the next page finds all that it did.
import { Dexie } from 'dexie'
import { beforeEach, expect, test } from 'vitest'
import { exportJson } from '../../web/log/export.ts'
import { readExport } from '../../web/log/import.ts'
import type { Log } from '../../web/log/log.ts'
import { openLog } from '../../web/log/store.ts'
import { answered, SESSION, started, withAddon } from './samples.ts'

beforeEach(() => Dexie.delete('ohmward'))

const TEN = [started(), ...Array.from({ length: 10 }, (_, i) => answered(i + 1)), ...SESSION.slice(-2)] as const

/** The nth transaction, and with `lasting` each after it, gives no news: it was never begun, or it was committed. */
const hanging = (nth: number, lasting: boolean, committed: boolean) => {
  let tell: (news: 'hangs') => void = () => {}
  const hung = new Promise<'hangs'>(done => {
    tell = done
  })
  const addon = (db: Dexie): void => {
    let count = 0
    const plain = db.transaction.bind(db) as (...given: unknown[]) => PromiseLike<unknown>
    const holding = (...given: unknown[]): PromiseLike<unknown> => {
      count++
      if (count !== nth && !(lasting && count > nth)) return plain(...given)
      if (committed) void plain(...given).then(() => tell('hangs'))
      else tell('hangs')
      return new Promise(() => {})
    }
    Object.defineProperty(db, 'transaction', { value: holding })
  }
  return { addon, hung }
}

/** A session as far as the storage goes along; what it acknowledged. */
const play = async (log: Log, hung: Promise<'hangs'>): Promise<{ id: string; saved: number } | undefined> => {
  const [first, ...rest] = TEN
  const id = await Promise.race([log.create(first), hung])
  if (id === 'hangs') return undefined
  let saved = 1
  for (const event of rest) {
    if ((await Promise.race([log.append(id, event), hung])) === 'hangs') break
    saved++
  }
  return { id, saved }
}

test.each([
  { lasting: false, committed: false },
  { lasting: true, committed: false },
  { lasting: false, committed: true },
  { lasting: true, committed: true },
])(
  'each write in turn hangs (lasting $lasting, committed $committed): no false saved, nothing lost, and the export is whole',
  async ({ lasting, committed }) => {
    for (let nth = 1; nth <= TEN.length; nth++) {
      const { addon, hung } = hanging(nth, lasting, committed)
      const log = await withAddon(addon, openLog)
      const kept = await play(log, hung)
      expect(kept?.saved ?? 0, `write ${nth}`).toBe(nth - 1)
      log.close()
      // The app opened again: the page that hangs is gone.
      const next = await openLog()
      const sessions = await next.sessions()
      expect(sessions.length, `write ${nth}`).toBe(nth > 1 || committed ? 1 : 0)
      const id = sessions[0]?.id
      if (id !== undefined) {
        const events = (await next.events(id)).map(({ event }) => event)
        expect(events, `write ${nth}`).toEqual(TEN.slice(0, committed ? nth : nth - 1))
        const read = readExport((await exportJson(next, id)).text)
        expect(read.ok && read.value.events, `write ${nth}`).toEqual(events)
        expect(await next.append(id, answered(99))).toBe(events.length + 1)
      }
      next.close()
      await Dexie.delete('ohmward')
    }
  },
)
