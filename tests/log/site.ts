// A site's database with the sessions of years, and how long its views take: npm run site -- [--sessions 50000] [--answers 1]
// It runs on a database of the same protocol in this very process, in memory: figures of this computer, and no verdict on time. Each
// answer is compared with a count of the sessions themselves; a wrong one ends the command with an error.
import { couch } from '../../web/log/couch.ts'
import type { DeskLine } from '../../web/log/desk.ts'
import { type Couch, couchServer } from './couchServer.ts'
import { answeredBy, counted, QUESTIONS, type SiteSession, siteLines, siteSession } from './siteLoad.ts'

const option = (name: string, otherwise: number): number => {
  const at = process.argv.indexOf(`--${name}`)
  return at < 0 ? otherwise : Number(process.argv[at + 1])
}
const count = option('sessions', 50_000)
const answers = option('answers', 1)
/** Documents that are handed over at once. */
const BATCH = 1000

const say = (what: string, took: number, more = ''): void => {
  process.stdout.write(`${what.padEnd(52)} ${(took / 1000).toFixed(2).padStart(8)} s   ${more}\n`)
}
/** Made anew at each call, so that the sessions of years need not lie in memory. */
function* sessions(): Generator<SiteSession> {
  for (let i = 0; i < count; i++) yield siteSession(i, count, answers)
}

const filled = async (server: Couch): Promise<string> => {
  const address = await server.database('site')
  const desk = couch(address)
  const from = performance.now()
  let batch: DeskLine[] = []
  let documents = 0
  const push = async (): Promise<void> => {
    documents += batch.length
    await desk.push(batch)
    batch = []
  }
  for (const session of sessions()) {
    batch.push(...siteLines(session))
    if (batch.length >= BATCH) await push()
  }
  await push()
  say(`${count} sessions, ${documents} documents, put in`, performance.now() - from)
  return address
}

const server = await couchServer()
try {
  const address = await filled(server)
  const indexed = new Set<string>()
  for (const question of QUESTIONS) {
    const { what, view } = question
    if (!indexed.has(view)) {
      const from = performance.now()
      await answeredBy(address, { ...question, query: { limit: 0, reduce: false } })
      say(`view ${view}, index made for the first time`, performance.now() - from)
      indexed.add(view)
    }
    const from = performance.now()
    const answer = await answeredBy(address, question)
    const took = performance.now() - from
    const rows = Object.entries(answer)
    const right = counted(sessions(), question)
    const wrong = [...new Set([...rows.map(([key]) => key), ...Object.keys(right)])].filter(key => answer[key] !== right[key])
    if (wrong.length > 0) throw new Error(`${what}: ${wrong.length} of ${rows.length} rows are not as counted, ${wrong[0]} among them`)
    say(what, took, `${rows.length} rows, ${rows.reduce((all, [, n]) => all + n, 0)} sessions, as counted`)
  }
} finally {
  await server.stop()
}
