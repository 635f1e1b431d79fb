// A storage that fails where it is told to, between the log and the database library.
import type { Dexie } from 'dexie'

/** Counts the requests to the storage and fails some. `fails` gets the number of the request, from 1. */
export const failing = (fails: (request: number) => string | undefined) => {
  const count = { requests: 0 }
  const addon = (db: Dexie): void => {
    db.use({
      stack: 'dbcore',
      name: 'faults',
      create: core => ({
        ...core,
        table: name => {
          const table = core.table(name)
          const guard =
            <A, R>(work: (asked: A) => Promise<R>) =>
            (asked: A): Promise<R> => {
              const fault = fails(++count.requests)
              return fault ? Promise.reject(new DOMException('failed by the test', fault)) : work(asked)
            }
          return {
            ...table,
            mutate: guard(asked => table.mutate(asked)),
            get: guard(asked => table.get(asked)),
            getMany: guard(asked => table.getMany(asked)),
            query: guard(asked => table.query(asked)),
            openCursor: guard(asked => table.openCursor(asked)),
            count: guard(asked => table.count(asked)),
          }
        },
      }),
    })
  }
  return { count, addon }
}
