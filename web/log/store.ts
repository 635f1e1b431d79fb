// The log on the phone. Reaches the database library: import it lazily.
import { Dexie } from 'dexie'
import { photosOf, savePhoto, takePhotos } from './album.ts'
import { closing } from './closing.ts'
import { asLogError, database, isDropped, SCHEMA, withoutSession } from './database.ts'
import { keep } from './keep.ts'
import { type Log, LogError, originOf } from './log.ts'
import { eventsOfMany, textsOf } from './many.ts'
import { mergeInto } from './merge.ts'
import { putRow, readRows } from './rows.ts'
import { stamp } from './stamp.ts'

export const openLog = async (): Promise<Log> => {
  const db = database()
  const listeners = new Set<() => void>()
  let shut = false
  let askedToKeep = false

  const shutDown = (): void => {
    shut = true
    db.close({ disableAutoOpen: true })
    for (const tell of listeners) tell()
    listeners.clear()
  }
  db.on('versionchange', () => {
    shutDown()
    return false // or the library's own handler would leave reopening on
  })
  // At every opening: the library would open a newer schema than ours without a word, and write to it.
  db.on(
    'ready',
    () => {
      if (db.backendDB().version < (SCHEMA + 1) * 10) return
      shutDown()
      throw new LogError('closed', 'The log was made by a newer version of this app. Reload the app.')
    },
    true,
  )

  // One queue for all: two quick taps keep their order, and no reopening pulls the connection from under another request.
  let tail: Promise<unknown> = Promise.resolve()
  const attempt = async <T>(work: () => PromiseLike<T>): Promise<T> => {
    try {
      return await work()
    } catch (first) {
      if (shut || !isDropped(first)) throw asLogError(first, shut)
    }
    try {
      db.close()
      await db.open()
      return await work()
    } catch (second) {
      throw asLogError(second, shut)
    }
  }
  const queued = <T>(work: () => PromiseLike<T>): Promise<T> => {
    const result = tail.then(() => attempt(work))
    tail = result.catch(() => undefined)
    return result
  }

  await queued(() => db.open())
  const eventsOf = (id: string) => db.events.where('[session+seq]').between([id, Dexie.minKey], [id, Dexie.maxKey])

  return {
    create(started) {
      const id = crypto.randomUUID()
      const at = stamp()
      return queued(() =>
        db.transaction('rw', db.sessions, db.blocks, db.events, async () => {
          if (await db.sessions.get(id)) return id // the first try had committed before the connection went
          const order = ((await db.sessions.orderBy('order').last())?.order ?? 0) + 1
          const { id: machineId, name: machineName } = started.machine
          await putRow(db, { id, order, machineId, machineName, startedAt: at.wall })
          await db.events.add({ session: id, seq: 1, ...at, event: started })
          return id
        }),
      )
    },
    async append(id, event, ending, after) {
      const at = stamp()
      let tried = 0
      const seq = await queued(() =>
        db.transaction('rw', [db.sessions, db.blocks, db.events, db.texts, db.drafts], async () => {
          // A second try: was the first one committed after all? Only this append could have used that number from this page.
          if (tried > 0 && (await db.events.get([id, tried]))?.boot === at.boot) return tried
          const row = await db.sessions.get(id)
          if (!row) throw new LogError('unknown', 'Not saved: this session is not in the log.')
          const last = (await eventsOf(id).last())?.seq ?? 0
          if (after !== undefined && last !== after)
            throw new LogError('closed', 'Not saved: this session went on in another window. Reload the app.')
          tried = last + 1
          await db.events.add({ session: id, seq: tried, ...at, event })
          // What was taken from the events before this one is not true any more.
          const { facts: _facts, seal: _seal, sent: _sent, exported: _exported, imported, ...own } = row
          // Whoever goes on with a session from elsewhere makes it this phone's own.
          const current = imported && event.type !== 'resumed' ? { ...own, imported } : own
          const { result: _result, endedAt: _endedAt, branch: _branch, wrong: _wrong, ...bare } = current
          const told =
            event.type === 'undone' ? { ...bare, ...closing(await eventsOf(id).toArray()) } : { ...current, ...closing([{ event }]) }
          await putRow(db, { ...told, ...ending })
          await db.texts.delete(id)
          await db.drafts.delete(id)
          return tried
        }),
      )
      if (!askedToKeep) void keep()
      askedToKeep = true
      return seq
    },
    async sessions() {
      const rows = await queued(() => readRows(db))
      return rows.reverse().map(({ order: _order, ...summary }) => summary)
    },
    async events(id) {
      const rows = await queued(() => eventsOf(id).toArray())
      return rows.map(withoutSession)
    },
    eventsOfMany: ids => queued(() => eventsOfMany(db, ids)),
    textsOf: ids => queued(() => textsOf(db, ids)),
    async open() {
      const rows = await queued(() => readRows(db))
      return rows.findLast(({ result, imported }) => result === undefined && imported !== true)?.id
    },
    async draft(id) {
      return (await queued(() => db.drafts.get(id)))?.text ?? ''
    },
    async saveDraft(id, text) {
      await queued(() => db.drafts.put({ session: id, text }))
    },
    async saveMachine(machine) {
      await queued(() => db.machines.put(machine))
    },
    machines: () => queued(() => db.machines.toArray()),
    merge: sessions => queued(() => mergeInto(db, sessions)),
    async seal(id) {
      return (await queued(() => db.sessions.get(id)))?.seal
    },
    async saveFacts(id, facts, written) {
      await queued(() =>
        db.transaction('rw', [db.sessions, db.blocks, db.events, db.texts], async () => {
          const row = await db.sessions.get(id)
          // An answer came in meanwhile: what was taken from the events before it is not true any more.
          if (!row || (await eventsOf(id).count()) !== facts.events) return
          const { result, endedAt } = facts
          const ending = row.result === undefined && result !== undefined && endedAt !== undefined ? { result, endedAt } : {}
          const { head, count } = written
          await putRow(db, { ...row, ...ending, facts, seal: { head, count } })
          await db.texts.put({ session: id, ...written })
        }),
      )
    },
    async saveSent(id, sent) {
      await queued(() =>
        db.transaction('rw', db.sessions, db.blocks, db.events, async () => {
          const row = await db.sessions.get(id)
          if (row && (await eventsOf(id).count()) === sent.count) await putRow(db, { ...row, sent })
        }),
      )
    },
    async saveExported(sessions, at) {
      await queued(() =>
        db.transaction('rw', db.sessions, db.blocks, async () => {
          for (const { id, seal } of sessions) {
            const row = await db.sessions.get(id)
            if (row && row.seal?.head === seal?.head) await putRow(db, { ...row, exported: at })
          }
        }),
      )
    },
    people: () => queued(() => db.people.toArray()),
    async savePerson(person) {
      await queued(() => db.people.put(person))
    },
    savePhoto: (id, photo) => queued(() => savePhoto(db, id, photo)),
    photos: id => queued(() => photosOf(db, id)),
    async dropPhoto(id, hash) {
      await queued(() => db.photos.delete([originOf(id), hash]))
    },
    takePhotos: photos => queued(() => takePhotos(db, photos)),
    onClosed(tell) {
      if (shut) tell()
      else listeners.add(tell)
      return () => listeners.delete(tell)
    },
    close: () => db.close(),
  }
}
