// Views for the tests' database. Its own package makes a fresh world for every document and every view, some milliseconds each, and
// what that leaves behind slows the rest: 50 000 sessions were not done in 25 minutes. Here a view's function is read once and then
// given the documents, as CouchDB's own query server does it. Which rows are kept and how they are found is the package's still.
import { createRequire } from 'node:module'
import { createContext, runInContext } from 'node:vm'

type Emit = (key: unknown, value: unknown) => void
type Map = (doc: object) => void
type Reduce = (keys: readonly unknown[], values: readonly unknown[]) => unknown
interface Design {
  readonly views?: Readonly<Record<string, { readonly map?: unknown }>>
}
type Indexing = (
  localName: string,
  mapper: (code: string, emit: Emit) => Map,
  reducer: (code: string) => Reduce,
  validate: (design: Design, view: string) => void,
) => object

// The version that the package itself rests on; another lies at the top.
const load = createRequire(createRequire(import.meta.url).resolve('pouchdb-mapreduce'))
const indexing = load('pouchdb-abstract-mapreduce') as Indexing

const mapper = (code: string, emit: Emit): Map => runInContext(`(${code})`, createContext({ emit }))
/** Counting is all that the design asks for; a function of its own would be another matter. */
const reducer = (code: string): Reduce => {
  if (code !== '_count') throw new Error(`This database can only count, not ${code}.`)
  return (_, values) => values.length
}
const validate = ({ views }: Design, view: string): void => {
  if (typeof views?.[view]?.map !== 'string') throw new Error(`The design has no view ${view}.`)
}

/** The part of the database that answers questions by views. */
export const views: object = indexing('mrviews', mapper, reducer, validate)
