// The lines of the list. A browser takes its time for each row that it gives, however small: so the older ones are kept besides in
// blocks, as one text each. A block falls in the same transaction in which one of its rows changes, and is made again when read.
import type { Database, SessionRow } from './database.ts'

/** Rows in a block. The newest block changes all the time and is read row by row. */
export const BLOCK = 250
const blockOf = (order: number): number => Math.floor(order / BLOCK)

/** Every change of a row goes through here, within a transaction over `sessions` and `blocks`. */
export const putRow = async (db: Database, row: SessionRow): Promise<void> => {
  await db.sessions.put(row)
  await db.blocks.delete(blockOf(row.order))
}

const rowsOf = (db: Database, block: number) =>
  db.sessions
    .where('order')
    .between(block * BLOCK, (block + 1) * BLOCK)
    .toArray()

/** Kept for the next time. It may fail: then the rows are read again, and nobody misses anything. */
const keep = (db: Database, blocks: readonly number[]): PromiseLike<void> =>
  db
    .transaction('rw', db.sessions, db.blocks, async () => {
      for (const block of blocks) await db.blocks.put({ block, text: JSON.stringify(await rowsOf(db, block)) })
    })
    .catch(() => undefined)

/** All rows in the order in which their sessions were opened. */
export const readRows = async (db: Database): Promise<SessionRow[]> => {
  const missing: number[] = []
  const read = await db.transaction('r', db.sessions, db.blocks, async () => {
    const last = await db.sessions.orderBy('order').last()
    if (!last) return []
    const texts = new Map((await db.blocks.toArray()).map(({ block, text }) => [block, text]))
    const newest = blockOf(last.order)
    const rows: SessionRow[][] = []
    for (let block = 0; block <= newest; block++) {
      const text = block === newest ? undefined : texts.get(block)
      rows.push(text === undefined ? await rowsOf(db, block) : JSON.parse(text))
      if (text === undefined && block !== newest) missing.push(block)
    }
    return rows.flat()
  })
  if (missing.length > 0) await keep(db, missing)
  return read
}
