import { afterAll, beforeAll, expect, test } from 'vitest'
import { couch } from '../../web/log/couch.ts'
import { type Couch, couchServer } from './couchServer.ts'
import { answeredBy, counted, QUESTIONS, siteLines, siteSession } from './siteLoad.ts'

const COUNT = 500
const SESSIONS = Array.from({ length: COUNT }, (_, i) => siteSession(i, COUNT, 1))

let server: Couch
let address: string
beforeAll(async () => {
  server = await couchServer()
  address = await server.database('site')
  await couch(address).push(SESSIONS.flatMap(siteLines))
})
afterAll(() => server.stop())

test.each(QUESTIONS)('[seed 78] asked of $view, the desk tells $what: as counted from 500 sessions', async question => {
  const right = counted(SESSIONS, question)
  expect(Object.keys(right).length).toBeGreaterThan(0)
  expect(await answeredBy(address, question)).toEqual(right)
})
