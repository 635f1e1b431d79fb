import { mkdir } from 'node:fs/promises'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { demo } from '../../content/demo.ts'
import { actDone, stepTitle } from '../../content/en.ts'
import { cautions } from '../../content/en-cautions.ts'
import { findingTitle, mend } from '../../content/en-findings.ts'
import { seen } from '../../content/en-labels.ts'
import { readMachine } from '../../engine/check.ts'
import type { Kit, Machine } from '../../engine/machine.ts'
import type { Answer } from '../../engine/step.ts'
import type { Session } from '../../web/flow/request.ts'
import { advance, begin, readAnswer } from '../../web/flow/session.ts'
import { placeOf } from '../../web/screens/finding.tsx'
import { namesFor } from '../../web/screens/names.ts'
import { inventDevice } from '../bench/protection.ts'
import { chance } from '../bench/random.ts'
import { smallTruth } from '../bench/small.ts'
import { Technician } from '../bench/technician.ts'
import type { Fault, Truth } from '../bench/truth.ts'
import { openApp } from './open.ts'
import { flaws, Thumb, typed, violations } from './thumb.ts'

const read = readMachine(demo)
if (!read.ok) throw new Error(read.message)
const machine: Machine = read.value

/** The demo machine with a cable worn through, its conductors and meter without error. */
const truthOf = (fault: Fault): Truth =>
  smallTruth(fault, {
    machine,
    scale: Object.fromEntries(machine.branches.flatMap(b => (b.wiring ?? []).map(r => [r.id, 1]))),
    devices: Object.fromEntries(machine.branches.map(b => [b.id, inventDevice(b, chance(3))])),
    supply: { volts: 24.2, limit: 12, mode: 'hiccup' },
    earthOhm: 0.1,
  })
const shortInMovingRun: Fault = { kind: 'short-to-zero', branch: 'B3', run: '3-W2', at: 1.7, ohm: 0.05 }
/** More requests than this and the session is going round in circles. */
const MOST = 120
/** Pictures of every screen go to this folder if it is named. */
const SHOTS = process.env['SHOTS']

/** The title that the screen must have now. */
const titleOf = (session: Session): string => {
  const { request } = session
  if (request.say === 'confirm') return cautions[request.caution]?.title ?? ''
  if (request.say === 'mend') return mend(request.finding, placeOf(session, request.finding)).title
  if (request.say === 'end') return request.result === 'restored' ? 'Control voltage is back' : 'another end'
  const { step } = request
  return step.kind === 'finding' ? findingTitle(step.finding, placeOf(session, step.finding)) : stepTitle(step, namesFor(session, step))
}
/** What the keypad makes of a display's value. */
const rounded = (raw: object): object => {
  if ('value' in raw && typeof raw.value === 'number') {
    const { text, prefix } = typed(raw.value)
    return { ...raw, value: Number((Number(text) * { '': 1, k: 1e3, M: 1e6 }[prefix]).toPrecision(12)) }
  }
  return raw
}

/** Gives an answer by tapping alone. `pause` runs between typing a value and sending it. */
const give = async (page: Page, session: Session, answer: Answer, pause: () => Promise<void>): Promise<void> => {
  const thumb = new Thumb(page)
  const { request } = session
  if (request.say === 'confirm' || request.say === 'mend') {
    await thumb.tickAll()
    return thumb.tap(
      request.say === 'mend' ? mend(request.finding, placeOf(session, request.finding)).done : (cautions[request.caution]?.done ?? ''),
    )
  }
  if (request.say === 'end') throw new Error('the session has ended')
  const { step } = request
  if ('cannot' in answer) {
    await thumb.tap('Can’t do it')
    return thumb.tap('It is not there')
  }
  if ('confirmed' in answer) return thumb.tap(answer.confirmed ? 'Found it here' : 'Looked, not there')
  if ('seen' in answer) return thumb.tap(seen[step.kind === 'look' ? step.look : '']?.[answer.seen] ?? '')
  if ('done' in answer) return thumb.tap(step.kind === 'act' ? actDone(step.act, namesFor(session, step)) : '')
  await thumb.tap(step.kind === 'read' ? 'Enter the reading' : 'volts' in answer ? 'It shows volts' : 'It shows another value')
  await thumb.type('volts' in answer ? answer.volts : answer.value, 'value' in answer && answer.unsteady ? { unsteady: true } : {})
  await pause()
  return thumb.tap(/^It shows/)
}

test.each([
  { width: 360, height: 640, dark: false, kit: { qualified: false } as Kit },
  { width: 320, height: 640, dark: true, kit: { qualified: true, clamp: true, injector: { ampere: 1, volts: 24 } } as Kit },
])('a whole session is played by tapping alone at $width × $height, dark $dark', async look => {
  const { page, broken } = await openApp(look)
  const thumb = new Thumb(page)
  let shot = 0
  const check = async (name: string) => {
    expect(await flaws(page), name).toEqual([])
    expect(await violations(page), name).toEqual([])
    if (!SHOTS) return
    await mkdir(SHOTS, { recursive: true })
    const words = name.replace(/[^A-Za-z0-9]+/g, '-').slice(0, 40)
    await page.screenshot({ path: join(SHOTS, `${look.dark ? 'd' : 'l'}${look.width}-${String(shot++).padStart(2, '0')}-${words}.png`) })
  }
  const heading = (name: string) => page.getByRole('heading', { name, level: 1 }).waitFor()
  await heading('Ohmward')
  await check('start')
  await thumb.tap('Demo machine')
  await heading('Say what the machine does')
  await check('symptom')
  await thumb.tap('Everything is dead')
  await heading('Tick what is at hand')
  if (look.kit.clamp) await page.getByText('Clamp meter').tap()
  if (look.kit.injector) await page.getByText('Isolated current source').tap()
  await page.getByText(look.kit.qualified ? 'Yes' : 'No', { exact: true }).tap()
  await check('kit')
  await thumb.tap('Start the session')

  const truth = truthOf(shortInMovingRun)
  const technician = new Technician(truth, machine, look.kit)
  let session = begin({ type: 'started', machine, kit: look.kit, symptom: 'all-dead' })
  let reloaded = false
  for (let i = 0; i < MOST && session.request.say !== 'end'; i += 1) {
    const { request } = session
    const title = titleOf(session)
    await page.locator('h1', { hasText: title.slice(0, 12) }).waitFor()
    await expect.poll(async () => ((await page.locator('h1').textContent()) ?? '').replace(/\s+/g, ' ')).toBe(title)
    expect(await page.evaluate(() => document.activeElement?.tagName)).toBe('H1')
    await check(title)
    const raw =
      request.say === 'step' ? technician.step(request) : request.say === 'mend' ? technician.mend(request) : technician.confirm(request)
    const answer = readAnswer(request, rounded(raw as object), session.kit, session.positions)
    if (!answer.ok) throw new Error(answer.message)
    const before = session
    await give(page, session, answer.value, async () => {
      await check(`enter ${title}`)
      if (reloaded) return
      // The phone was put away in the middle of typing.
      reloaded = true
      const value = await page.getByRole('status', { name: 'value' }).textContent()
      await page.reload()
      await thumb.tap(/^Go on/)
      expect(await page.getByRole('status', { name: 'value' }).textContent()).toBe(value)
    })
    session = advance(before, { type: 'answered', n: request.n, answer: answer.value })
    await page.getByText('Saved', { exact: true }).waitFor()
  }
  expect(session.request).toMatchObject({ say: 'end', result: 'restored' })
  expect(technician.restored).toBe(true)
  expect(reloaded).toBe(true)
  await heading('Control voltage is back')
  await check('end')
  await thumb.tap('Say what was wrong')
  await heading('Say what was wrong')
  await check('closing')
  await page.getByText('Cable worn through').tap()
  await thumb.tap('Save and close')
  await page.getByText('The closing form is saved.').waitFor()
  await thumb.tap('Back to the start')
  await thumb.tap('Past sessions')
  await thumb.tap(/Filler 2.*Control voltage is back.*Cable worn through/)
  await heading('Filler 2')
  await page.locator('.timeline').waitFor()
  await check('timeline')
  expect(await page.locator('.timeline li').count()).toBe(session.entries.length)
  const [file] = await Promise.all([page.waitForEvent('download'), thumb.tap('Whole log (JSON)')])
  expect(file.suggestedFilename()).toMatch(/^ohmward-Filler-2-.*\.json$/)
  expect(broken).toEqual([])
})
