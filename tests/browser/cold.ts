// `npm run cold`: how long a phone that was off takes, without a network, to a step that can be answered; and how long a key takes.
// Figures, no verdict: they are those of this computer at 4 times less speed, and not of a phone.
import { cp } from 'node:fs/promises'
import { resolve } from 'node:path'
import { filler } from './filler.ts'
import { firstPage, launch, newProfile, stored } from './launch.ts'
import { serve } from './server.ts'

const SLOWER = 4
const RUNS = 9
const UNTIL_OVER = 4000
/** More would pass the minute that a suspected short circuit may be live: the supply then goes off, whatever was taken back. */
const ANSWERS = 2
const median = (list: readonly number[]): number => list.toSorted((a, b) => a - b)[Math.floor(list.length / 2)] ?? Number.NaN

const { profile, remove } = await newProfile()
const server = await serve({ folder: resolve('dist') })
const { url } = server

const first = await launch(profile)
const page = await firstPage(first)
await page.goto(url)
await stored(page)
await page
  .locator('input[type=file]')
  .setInputFiles({ name: 'm.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(filler)) })
await page.getByRole('button', { name: 'Everything is dead' }).tap()
await page.getByText('No', { exact: true }).tap()
await page.getByRole('button', { name: 'Start the session' }).tap()
await page.getByRole('heading', { name: 'Check these before work' }).waitFor()
for (const box of await page.getByRole('checkbox').all()) await box.tap()
await page.locator('.primary').tap()
await page.getByRole('button', { name: 'Blinking' }).tap()
await page.waitForTimeout(500)
await first.close()
await server.stop()

const starts: number[] = []
const steps: number[] = []
const keys: number[] = []
/** From the tap that gives an answer to the step after it, which comes once the answer is on the disk. */
const answers: number[] = []
const [shifts, waits]: [number[], number[]] = [[], []]
for (let run = 0; run < RUNS; run += 1) {
  // Each start from the same session: what an answer took stays counted, also where it was taken back.
  const own = await newProfile()
  await cp(profile, own.profile, { recursive: true })
  const browser = await launch(own.profile)
  const phone = await firstPage(browser)
  const cdp = await browser.newCDPSession(phone)
  await cdp.send('Emulation.setCPUThrottlingRate', { rate: SLOWER })
  await phone.addInitScript(() => {
    const seen = { cls: 0, inp: 0 }
    // By the page's own clock, and the one tap given by the page at the first frame that shows the button: the driver takes longer to see
    // it and to tap than the app takes to answer.
    const frame = (done: (at: number) => void) =>
      requestAnimationFrame(() => setTimeout(() => done(performance.timeOrigin + performance.now()), 0))
    const marks = { start: 0, step: 0 }
    const watch = new MutationObserver(() => {
      const go = [...document.querySelectorAll<HTMLButtonElement>('.primary')].find(b => b.textContent?.startsWith('Go on'))
      if (go !== undefined && marks.start === 0) {
        marks.start = -1
        frame(at => {
          marks.start = at
          go.click()
        })
      }
      if (document.querySelector('h1')?.textContent === 'Ohmward' || document.querySelector('.primary, .keys') === null) return
      watch.disconnect()
      frame(at => {
        marks.step = at
      })
    })
    watch.observe(document, { subtree: true, childList: true })
    Object.assign(globalThis, { seen, marks })
    new PerformanceObserver(list => {
      for (const entry of list.getEntries()) {
        const shift = entry as PerformanceEntry & { value: number; hadRecentInput: boolean }
        if (!shift.hadRecentInput) seen.cls += shift.value
      }
    }).observe({ type: 'layout-shift', buffered: true })
    new PerformanceObserver(list => {
      for (const entry of list.getEntries()) seen.inp = Math.max(seen.inp, entry.duration)
    }).observe({ type: 'event', buffered: true, durationThreshold: 16 } as PerformanceObserverInit)
  })
  const began = performance.timeOrigin + performance.now()
  await phone.goto(url, { waitUntil: 'commit' })
  // Looked at once it is over: each look of the driver's is work for the same slow processor.
  await phone.waitForTimeout(UNTIL_OVER)
  const marks = await phone.evaluate(() => (globalThis as unknown as { marks: { start: number; step: number } }).marks)
  starts.push(marks.start - began)
  steps.push(marks.step - began)
  // The second run finds what the first one typed.
  await phone.locator('.keys, .picture').first().waitFor()
  if ((await phone.locator('.keys').count()) === 0) await phone.getByRole('button', { name: 'Enter the reading' }).tap()
  await phone.locator('.keys').waitFor()
  // From the tap in the page itself to the frame after it: what the driver adds is left out.
  for (const key of ['1', '2', '3'])
    keys.push(
      await phone.evaluate(
        name =>
          new Promise<number>(done => {
            const button = [...document.querySelectorAll<HTMLButtonElement>('.key')].find(b => b.textContent === name)
            const at = performance.now()
            button?.click()
            requestAnimationFrame(() => setTimeout(() => done(performance.now() - at), 0))
          }),
        key,
      ),
    )
  await phone.getByRole('button', { name: 'delete' }).tap()
  await phone.getByRole('button', { name: 'Back to the drawing' }).tap()
  for (let i = 0; i < ANSWERS; i += 1) {
    // Set aside and taken back in turn: two answers that are saved, and the session stands where it stood.
    const aside = i % 2 === 0
    await phone
      .locator('nav .link')
      .nth(aside ? 2 : 1)
      .waitFor()
    if (aside) await phone.locator('nav .link').nth(2).tap()
    answers.push(
      await phone.evaluate(
        set =>
          new Promise<number>(done => {
            const title = () => document.querySelector('h1')?.textContent
            const [before, at] = [title(), performance.now()]
            const watch = new MutationObserver(() => {
              if (title() === before) return
              watch.disconnect()
              done(performance.now() - at)
            })
            watch.observe(document.body, { subtree: true, childList: true, characterData: true })
            const button = set ? document.querySelector('dialog .answer') : document.querySelectorAll('nav .link')[1]
            if (button instanceof HTMLElement) button.click()
          }),
        aside,
      ),
    )
  }
  await phone.waitForTimeout(300)
  const { cls, inp } = await phone.evaluate(() => (globalThis as unknown as { seen: { cls: number; inp: number } }).seen)
  shifts.push(cls)
  waits.push(inp)
  await browser.close()
  await own.remove()
}
await remove()
const ms = (list: readonly number[]) => `${Math.round(median(list))} ms (most ${Math.round(Math.max(...list))})`
console.log(`median of ${RUNS} cold starts, no host, ${SLOWER} times slower:`)
console.log(`  start screen           ${ms(starts)}`)
console.log(`  step that can be answered ${ms(steps)}, 'Go on' tapped at its first frame`)
console.log(`  key to the next frame  ${ms(keys)}`)
const p95 = answers.toSorted((a, b) => a - b)[Math.ceil(answers.length * 0.95) - 1] ?? Number.NaN
console.log(`  answer to the step after it ${ms(answers)}, 95 of 100 within ${Math.round(p95)} ms`)
console.log(`  INP of keys and answers ${ms(waits)}   CLS ${median(shifts).toFixed(3)}`)
