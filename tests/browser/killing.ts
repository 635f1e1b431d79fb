// The browser killed again and again in the middle of a session: what was called saved is there, at the same step, with what was half typed.
import type { Page } from 'playwright-core'
import type { Kit } from '../../engine/machine.ts'
import type { Answer } from '../../engine/step.ts'
import type { Session, SessionEvent } from '../../web/flow/request.ts'
import { replay } from '../../web/flow/session.ts'
import { type Chance, chance } from '../bench/random.ts'
import { Technician } from '../bench/technician.ts'
import { filler, truthOf, wornThrough } from './filler.ts'
import { groupOf, killGroup } from './kill.ts'
import { firstPage, launch, newProfile, stored } from './launch.ts'
import { playOn, stands, titleOf } from './play.ts'
import { serve } from './server.ts'
import { Thumb } from './thumb.ts'

const KIT: Kit = { qualified: false }
/** How long a typed key may take to be on the disk, ms: no sign on the screen says so. */
const KEPT = 500
/** So long after the page stands the browser may be killed, ms. */
const LONGEST = 6000
/** Every so many rounds the browser is killed with a value half typed. */
const TYPED_EVERY = 3

export interface Killed {
  readonly kills: number
  readonly acknowledged: number
  readonly halfTyped: number
  readonly sessions: number
  readonly wrong: readonly string[]
}

/** The log as the browser's own storage holds it: no code of the app lies in between. */
const onDisk = (page: Page): Promise<SessionEvent[]> =>
  page.evaluate(
    () =>
      new Promise<SessionEvent[]>((done, failed) => {
        const opening = indexedDB.open('ohmward')
        opening.onerror = () => failed(opening.error)
        opening.onsuccess = () => {
          const db = opening.result
          const asked = db.transaction(['events', 'sessions']).objectStore('events').getAll()
          const lists = db.transaction('sessions').objectStore('sessions').getAll()
          lists.onsuccess = () => {
            const last = (lists.result as { id: string; order: number }[]).sort((a, b) => b.order - a.order)[0]?.id
            const rows = asked.result as { session: string; seq: number; event: SessionEvent }[]
            db.close()
            done(
              rows
                .filter(row => row.session === last)
                .sort((a, b) => a.seq - b.seq)
                .map(row => row.event),
            )
          }
        }
      }),
  )

const answersOf = (events: readonly SessionEvent[]): { n: number; answer: Answer }[] =>
  events.flatMap(e => (e.type === 'answered' ? [{ n: e.n, answer: e.answer }] : []))

const startSession = async (page: Page): Promise<Session> => {
  await new Thumb(page).startDemo()
  // From the disk: what the log knows of the machine by then stands in the session's start.
  return replay(await onDisk(page))
}

interface Round {
  readonly page: Page
  readonly profile: string
  readonly session: Session
  readonly technician: Technician
  readonly acknowledged: { n: number; answer: Answer }[]
  readonly luck: Chance
}
const valueShown = (page: Page): Promise<readonly unknown[]> => page.getByRole('status', { name: 'value' }).all()
const valueOn = (page: Page): Promise<string | null> => page.getByRole('status', { name: 'value' }).textContent()

/** Plays until the browser is killed: at a random moment, or with a value half typed, which is then given back. */
const playAndKill = async (
  { page, profile, session, technician, acknowledged, luck }: Round,
  typed: boolean,
): Promise<string | undefined> => {
  const group = await groupOf(profile)
  let half: string | undefined
  const dead = typed
    ? undefined
    : new Promise<void>((done, failed) => setTimeout(() => killGroup(group).then(done, failed), luck.between(0, LONGEST)))
  await playOn(page, session, technician, {
    saved: answered => acknowledged.push(answered),
    typing: async () => {
      if (!typed) return true
      half = (await valueOn(page)) ?? ''
      await new Promise(kept => setTimeout(kept, KEPT))
      return false
    },
  }).catch(async (error: unknown) => {
    // Whatever was being tapped when the browser went.
    if (typed) throw new Error(`with these events on the disk: ${JSON.stringify(await onDisk(page))}`, { cause: error })
  })
  await (dead ?? killGroup(group))
  return half
}

/** Kills the browser `kills` times; the seed decides when. */
export const killAgain = async (kills: number, seed: number, tell: (line: string) => void = () => {}): Promise<Killed> => {
  const luck = chance(seed)
  const { profile, remove } = await newProfile()
  const server = await serve()
  const wrong: string[] = []
  let count = 0,
    total = 0,
    halfTyped = 0,
    sessions = 0
  try {
    let technician = new Technician(truthOf(wornThrough), filler, KIT)
    let browser = await launch(profile)
    let page = await firstPage(browser)
    await page.goto(server.url)
    await stored(page)
    let session = await startSession(page)
    sessions++
    while (count < kills) {
      const acknowledged = answersOf(session.events)
      const typed = count % TYPED_EVERY === TYPED_EVERY - 1
      const half = await playAndKill({ page, profile, session, technician, acknowledged, luck }, typed)
      await browser.close().catch(() => undefined)
      count++
      browser = await launch(profile)
      page = await firstPage(browser)
      await page.goto(server.url)
      const goOn = page.getByRole('button', { name: /^Go on/ })
      await page.getByRole('button', { name: 'Demo machine' }).waitFor()
      const events = await onDisk(page)
      const held = answersOf(events)
      const known = JSON.stringify(held.slice(0, acknowledged.length)) === JSON.stringify(acknowledged)
      // One more may have been stored whose news did not come.
      if (!known || held.length > acknowledged.length + 1)
        wrong.push(`kill ${count}: saved ${acknowledged.length}, on the disk ${held.length}${known ? '' : ', and not the same'}`)
      total += acknowledged.length
      session = replay(events)
      if (session.request.say === 'end') {
        technician = new Technician(truthOf(wornThrough), filler, KIT)
        session = await startSession(page)
        sessions++
      } else {
        await goOn.tap()
        await goOn.waitFor({ state: 'detached' })
        if (half !== undefined) {
          halfTyped++
          await page.getByRole('status', { name: 'value' }).waitFor()
          const back = await valueOn(page)
          if (back !== half) wrong.push(`kill ${count}: ${half} was half typed, ${back} is there`)
        }
        // Whatever was typed when the browser went is there again, on the keypad.
        await page.getByRole('heading', { level: 1 }).waitFor()
        if ((await valueShown(page)).length > 0) await new Thumb(page).tap('Back to the drawing')
        await stands(page, session).catch(() => wrong.push(`kill ${count}: not at ${titleOf(session)}`))
      }
      tell(`kill ${count}: ${acknowledged.length} saved answers, all there: ${known}${half === undefined ? '' : `, half typed ${half}`}`)
    }
    await browser.close()
  } finally {
    await server.stop()
    await remove()
  }
  return { kills: count, acknowledged: total, halfTyped, sessions, wrong }
}
