// A session with a photo, its end and its export, while the storage fails at each request in turn, once or from then on: nothing that was
// acknowledged is lost, nothing is called saved that is not, and the export is whole or refused.
import 'fake-indexeddb/auto'
import { Dexie } from 'dexie'
import { beforeEach, expect, test } from 'vitest'
import { exportJson } from '../../web/log/export.ts'
import { readExport } from '../../web/log/import.ts'
import type { Log } from '../../web/log/log.ts'
import { noteOf, photoOf } from '../../web/log/photo.ts'
import { exportPhotos, readPhotos } from '../../web/log/photoFile.ts'
import { openLog } from '../../web/log/store.ts'
import { failing } from './failing.ts'
import { jpeg } from './pictures.ts'
import { answered, outcome, started, withAddon } from './samples.ts'

beforeEach(() => Dexie.delete('ohmward'))

const PHOTO = photoOf(await jpeg(1))
const READINGS = Array.from({ length: 10 }, (_, i) => answered(i + 1))
const END = { type: 'stopped' } as const
const FORM = { type: 'closed', branch: 'B1', wrong: '', note: '', record: { photos: [noteOf(PHOTO)] } } as const

interface Told {
  /** Events that were called saved, in order; whether the photo was; what the export gave, if it gave anything. */
  readonly events: unknown[]
  readonly photo: boolean
  readonly exported: string | undefined
  readonly outcomes: ReadonlySet<string>
}
/** Start, ten readings, photo, finish, export; what fails is tried once more, as whoever presses again would. */
const play = async (log: Log): Promise<(Told & { id: string }) | undefined> => {
  const outcomes = new Set<string>()
  const tried = async (work: () => Promise<unknown>): Promise<boolean> => {
    for (let time = 0; time < 2; time++) {
      const came = await outcome(work())
      outcomes.add(came)
      if (came === 'saved') return true
    }
    return false
  }
  const id = await log.create(started()).catch(() => undefined)
  if (id === undefined) return undefined
  const events: unknown[] = [started()]
  for (const event of READINGS) if (await tried(() => log.append(id, event))) events.push(event)
  const photo = await tried(() => log.savePhoto(id, PHOTO))
  for (const event of [END, FORM]) if (await tried(() => log.append(id, event))) events.push(event)
  const exported = await exportJson(log, id).then(
    ({ text }) => text,
    () => undefined,
  )
  return { id, events, photo, exported, outcomes }
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
  { fault: 'UnknownError', lasting: false, isSeen: false },
  { fault: 'UnknownError', lasting: true, isSeen: true },
  { fault: 'QuotaExceededError', lasting: false, isSeen: true },
  { fault: 'QuotaExceededError', lasting: true, isSeen: true },
])(
  'start, ten readings, photo, finish, export with $fault at every request in turn (lasting: $lasting)',
  async ({ fault, lasting, isSeen }) => {
    const requests = await cleanRun()
    expect(requests).toBeGreaterThan(60)
    let refused = 0
    for (let nth = 1; nth <= requests; nth++) {
      const { addon } = failing(request => (request === nth || (lasting && request > nth) ? fault : undefined))
      const log = await withAddon(addon, openLog)
      const told = await play(log)
      log.close()
      const sound = await openLog()
      const at = `request ${nth}`
      const id = told?.id ?? (await sound.sessions())[0]?.id
      const events = id === undefined ? [] : (await sound.events(id)).map(({ event }) => event)
      expect(events, at).toEqual(told?.events ?? [])
      const photos = id === undefined ? [] : await sound.photos(id)
      expect(
        photos.map(({ hash }) => hash),
        at,
      ).toEqual(told?.photo ? [PHOTO.hash] : [])
      if (told?.exported !== undefined) {
        const read = readExport(told.exported)
        expect(read.ok && read.value.events, at).toEqual(told.events)
      } else refused++
      // What the storage holds leaves it whole, once it answers again.
      if (told?.photo && told.events.length === 13) {
        const files: string[] = []
        for await (const { text } of exportPhotos(sound, [told.id], 'log')) files.push(text)
        expect(
          files.flatMap(text => readPhotos(text).map(({ hash }) => hash)),
          at,
        ).toEqual([PHOTO.hash])
      }
      sound.close()
      await Dexie.delete('ohmward')
    }
    // A connection that is dropped once is opened again and nobody notices; of the others some stopped the export.
    expect(refused > 0).toBe(isSeen)
  },
  60_000,
)
