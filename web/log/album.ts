// Photos in the store, beside the session that they belong to, whichever of its tellings names them.
import { Dexie } from 'dexie'
import type { Database } from './database.ts'
import { LogError, originOf, type TakenPhotos } from './log.ts'
import { MOST_PHOTOS, type Photo } from './photo.ts'
import type { HeldPhoto } from './photoFile.ts'

const of = (db: Database, session: string) => db.photos.where('[session+hash]').between([session, Dexie.minKey], [session, Dexie.maxKey])

/** The same photo a second time is one photo. */
export const savePhoto = (db: Database, id: string, photo: Photo): PromiseLike<void> =>
  db.transaction('rw', db.photos, async () => {
    const session = originOf(id)
    const isNew = (await db.photos.get([session, photo.hash])) === undefined
    if (isNew && (await of(db, session).count()) >= MOST_PHOTOS)
      throw new LogError('unknown', `A session holds at most ${MOST_PHOTOS} photos.`)
    await db.photos.put({ session, ...photo })
  })

export const photosOf = async (db: Database, id: string): Promise<Photo[]> =>
  (await of(db, originOf(id)).toArray()).map(({ hash, type, bytes }) => ({ hash, type, bytes }))

/** Takes in those that some record of their session names; a photo that none names is not kept. All of them or, if it fails, none. */
export const takePhotos = (db: Database, photos: readonly HeldPhoto[]): PromiseLike<TakenPhotos> =>
  db.transaction('rw', db.events, db.photos, async () => {
    let [added, known, strangers] = [0, 0, 0]
    const named = new Map<string, ReadonlySet<string>>()
    const namedIn = async (session: string): Promise<ReadonlySet<string>> => {
      const kept = named.get(session)
      if (kept) return kept
      // Other tellings are kept as `id~2`, so on: no other id begins so.
      const events = await db.events
        .where('[session+seq]')
        .between([session, Dexie.minKey], [`${session}~\uffff`, Dexie.maxKey])
        .toArray()
      const hashes = events
        .filter(row => originOf(row.session) === session)
        .flatMap(({ event }) => (event.type === 'closed' ? (event.record?.photos ?? []) : []))
        .map(({ hash }) => hash)
      named.set(session, new Set(hashes))
      return new Set(hashes)
    }
    for (const photo of photos) {
      if (!(await namedIn(photo.session)).has(photo.hash)) strangers += 1
      else if (await db.photos.get([photo.session, photo.hash])) known += 1
      else {
        await db.photos.put(photo)
        added += 1
      }
    }
    return { added, known, strangers }
  })
