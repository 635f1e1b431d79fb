// How the review does with the log of years: npm run scale -- [--sessions 5000] [--events 60] [--slow 4] [--times 5]
// Reported, not asserted: the figures are this computer's. The processor is slowed down by the browser; its storage is not.
// Each is taken several times: the least is what the program takes, the most is what else this computer was doing.
import type { CDPSession, Page } from 'playwright-core'
import type { Session } from '../../web/flow/request.ts'
import { factsOf } from '../../web/log/facts.ts'
import type { StoredEvent } from '../../web/log/log.ts'
import { write } from '../../web/log/written.ts'
import { played, stamped } from '../log/played.ts'
import { firstPage, launch, newProfile } from './launch.ts'
import { serve } from './server.ts'

const option = (name: string, otherwise: number): number => {
  const at = process.argv.indexOf(`--${name}`)
  return at < 0 ? otherwise : Number(process.argv[at + 1])
}
const count = option('sessions', 5000)
const length = option('events', 60)
const slow = option('slow', 4)
const times = option('times', 5)
const say = (line: string): void => {
  process.stdout.write(`${line}\n`)
}

const MACHINES = 40
/** Sessions that are really played; the others are like them, at other machines and times. */
const TEMPLATES = 12

/** The same session with answers given and taken back again, until it has so many events. */
const lengthened = (session: Session): Session['events'] => {
  const [start, first, ...rest] = session.events
  if (!start || !first) return session.events
  const pairs = Math.max(0, Math.floor((length - session.events.length) / 2))
  const taken = Array.from({ length: pairs }, () => [first, { type: 'undone' as const }]).flat()
  return [start, ...taken, first, ...rest]
}
const templates = Array.from({ length: TEMPLATES }, (_, i) => played(i + 1)).filter(session => session.events.length <= length)

const start = (i: number): string => new Date(Date.UTC(2024, 0, 1) + i * 3 * 3_600_000).toISOString()
const made = (i: number) => {
  const template = templates[i % templates.length]
  if (!template) throw new Error('no session is as short as that')
  const machine = { id: `m${i % MACHINES}`, name: `Machine ${i % MACHINES}` }
  const [first, ...rest] = lengthened(template)
  const events = first?.type === 'started' ? [{ ...first, machine: { ...first.machine, ...machine } }, ...rest] : rest
  const stored: StoredEvent[] = stamped({ ...template, events }, start(i))
  const id = `00000000-0000-4000-8000-${String(i).padStart(12, '0')}`
  const facts = factsOf(stored, template)
  const written = write(id, stored)
  const row = {
    id,
    order: i + 1,
    machineId: machine.id,
    machineName: machine.name,
    startedAt: stored[0]?.wall ?? '',
    ...(facts.result && facts.endedAt ? { result: facts.result, endedAt: facts.endedAt } : {}),
    facts,
    seal: { head: written.head, count: written.count },
  }
  return { row, text: { session: id, ...written }, events: stored.map(event => ({ session: id, ...event })) }
}

type Made = ReturnType<typeof made>
const put = (page: Page, sessions: readonly Made[]): Promise<void> =>
  page.evaluate(
    made =>
      new Promise<void>((done, failed) => {
        const open = indexedDB.open('ohmward')
        open.onerror = () => failed(open.error)
        open.onsuccess = () => {
          const tx = open.result.transaction(['sessions', 'events', 'texts'], 'readwrite')
          for (const { row, text, events } of made) {
            tx.objectStore('sessions').put(row)
            tx.objectStore('texts').put(text)
            for (const event of events) tx.objectStore('events').put(event)
          }
          tx.oncomplete = () => {
            open.result.close()
            done()
          }
          tx.onerror = () => failed(tx.error)
        }
      }),
    sessions as Made[],
  )

/** Milliseconds in the page from a tap on `name` until `text` stands there. */
const timed = (page: Page, name: string, text: string): Promise<number> =>
  page.evaluate(
    ([name, text]) =>
      new Promise<number>((done, failed) => {
        const button = [...document.querySelectorAll('button')].find(b => b.textContent?.startsWith(name ?? ''))
        if (!button) return failed(new Error(`no button ${name}`))
        const from = performance.now()
        const look = () => {
          if (!document.body.textContent?.includes(text ?? '')) return
          watch.disconnect()
          // Once it is painted, and not only put into the page.
          requestAnimationFrame(() => requestAnimationFrame(() => done(performance.now() - from)))
        }
        const watch = new MutationObserver(look)
        watch.observe(document.body, { childList: true, subtree: true, characterData: true })
        button.click()
        look()
      }),
    [name, text],
  )

const searched = (page: Page): Promise<number> =>
  page.evaluate(
    () =>
      new Promise<number>(done => {
        const field = document.querySelector<HTMLInputElement>('input[type=search]')
        if (!field) throw new Error('no search')
        field.value = 'machine 7'
        const from = performance.now()
        field.dispatchEvent(new Event('input', { bubbles: true }))
        requestAnimationFrame(() => requestAnimationFrame(() => done(performance.now() - from)))
      }),
  )
/** Milliseconds that the page's process has had of a processor, those among them that the slowing takes. */
const processor = async (cdp: CDPSession): Promise<number> => {
  const { metrics } = await cdp.send('Performance.getMetrics')
  return (metrics.find(({ name }) => name === 'ProcessTime')?.value ?? 0) * 1000
}
const exported = async (page: Page, button: string): Promise<number> => {
  const from = performance.now()
  await page.getByRole('button', { name: button, exact: true }).tap()
  await page.getByText('Working …').waitFor()
  await page.getByText('Working …').waitFor({ state: 'hidden', timeout: 300_000 })
  return performance.now() - from
}

const heap = async (cdp: CDPSession): Promise<number> => {
  await cdp.send('HeapProfiler.collectGarbage')
  const { metrics } = await cdp.send('Performance.getMetrics')
  return metrics.find(({ name }) => name === 'JSHeapUsedSize')?.value ?? 0
}
const mega = (bytes: number): string => `${(bytes / 1e6).toFixed(1)} MB`
const ms = (x: number): string => `${Math.round(x)} ms`
const spread = (all: readonly number[]): string => {
  const sorted = [...all].sort((a, b) => a - b)
  return `${ms(sorted[0] ?? 0)} (middle ${ms(sorted[sorted.length >> 1] ?? 0)}, most ${ms(sorted.at(-1) ?? 0)}, of ${all.length})`
}

const { profile, remove } = await newProfile()
// Bundled elsewhere, this file cannot tell the folder from where it lies; npm starts it at the top.
const server = await serve({ folder: 'dist' })
const browser = await launch(profile)
try {
  const page = await firstPage(browser)
  await page.goto(server.url)
  const tap = (name: string) => page.getByRole('button', { name, exact: true }).tap()
  await tap('Past sessions')
  await tap('Search, charts, files')
  await page.getByText('0 of 0 sessions').waitFor()
  let events = 0
  for (let i = 0; i < count; i += 100) {
    const batch = Array.from({ length: Math.min(100, count - i) }, (_, k) => made(i + k))
    events += batch.reduce((sum, one) => sum + one.events.length, 0)
    await put(page, batch)
  }
  say(`${count} sessions, ${events} events, ${MACHINES} machines; the processor ${slow} times slower`)
  await page.reload()
  const cdp = await page.context().newCDPSession(page)
  await cdp.send('Performance.enable')
  await cdp.send('Emulation.setCPUThrottlingRate', { rate: slow })
  await page.getByRole('button', { name: 'Past sessions' }).waitFor()
  const past: number[] = []
  const list: number[] = []
  const charts: number[] = []
  const search: number[] = []
  for (let i = 0; i < times; i++) {
    past.push(await timed(page, 'Past sessions', `Machine ${(count - 1) % MACHINES}`))
    list.push(await timed(page, 'Search, charts, files', `${count} of ${count} sessions`))
    charts.push(await timed(page, 'Charts of these', `${count} sessions,`))
    await tap('Back to the list')
    search.push(await searched(page))
    await page.getByLabel('Search').fill('')
    await tap('Back')
    await tap('Back')
  }
  say(`past sessions            ${spread(past)}`)
  say(`list                     ${spread(list)}`)
  say(`charts                   ${spread(charts)}`)
  say(`one search               ${spread(search)}`)
  await tap('Past sessions')
  await tap('Search, charts, files')
  await tap('Files')
  let files = 0
  // Live memory: what is left once all that nobody holds was collected, file by file.
  const live: number[] = []
  let looks = false
  page.on('download', () => {
    files += 1
    if (looks) void heap(cdp).then(size => live.push(size))
  })
  for (const button of ['One file (JSON)', 'One event a line (NDJSON)']) {
    const took: number[] = []
    const worked: number[] = []
    for (let i = 0; i < Math.min(times, 3); i++) {
      files = 0
      const before = await processor(cdp)
      took.push(await exported(page, button))
      worked.push((await processor(cdp)) - before)
    }
    say(`export of all            ${spread(took)}, ${files} files: ${button}`)
    say(`  of it on a processor   ${spread(worked)}`)
  }
  const before = await heap(cdp)
  looks = true
  await exported(page, 'One file (JSON)')
  looks = false
  const after = await heap(cdp)
  say(`live memory of an export ${mega(before)} before; at each file ${live.map(mega).join(', ')}; ${mega(after)} after`)
  await tap('Back to the list')
  await page.locator('.sessions button').first().tap()
  await page.getByRole('button', { name: 'Whole log (JSON)' }).waitFor()
  say(`export of one (JSON)     ${ms(await timed(page, 'Whole log (JSON)', 'handed to the downloads'))}`)
} finally {
  await browser.close()
  await server.stop()
  await remove()
}
