// Markup and script in every field of text that a file can bring: shown as text, on the screens and on paper, and never run.
import { readFile } from 'node:fs/promises'
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import type { SessionEvent } from '../../web/flow/request.ts'
import { MACHINE, RECORD, started, stored } from '../log/samples.ts'
import { openApp } from './open.ts'
import { Thumb } from './thumb.ts'

const TAGS = ['img', 'svg', 'script', 'iframe', 'object', 'embed', 'video', 'details', 'input', 'body'] as const
const AROUND = [
  (tag: string, js: string) => `<${tag} data-bad src=x onerror="${js}">`,
  (tag: string, js: string) => `<${tag} data-bad onload="${js}" autofocus onfocus="${js}">`,
  (tag: string, js: string) => `"><${tag} data-bad onerror=${js}>`,
  (tag: string, js: string) => `'><${tag} data-bad ontoggle='${js}' open>`,
  (tag: string, js: string) => `</title></textarea></style></script><${tag} data-bad src=javascript:${js}>`,
  (tag: string, js: string) => `<!--><${tag} data-bad onload=${js}>-->`,
  (tag: string, js: string) => `<a data-bad href="javascript:${js}"><${tag} data-bad>`,
  (tag: string, js: string) => `\${${js}}{{constructor.constructor('${js}')()}}<${tag} data-bad>`,
  (tag: string, js: string) => `<math><mtext><${tag} data-bad><mglyph><style><img data-bad src onerror="${js}">`,
  (tag: string, js: string) => `&lt;${tag} data-bad onerror=${js}&gt;<${tag.toUpperCase()}/data-bad/onload=${js}//`,
  (tag: string, js: string) => `\u202E<${tag} data-bad onpointerenter=${js}>\u0000`,
  (tag: string, js: string) => `<style data-bad>*{background:url(javascript:${js})}</style><${tag} data-bad style="x:expression(${js})">`,
  (tag: string, js: string) => `];${js};//<${tag} data-bad>`,
  (tag: string, js: string) => `<form data-bad action=javascript:${js}><button formaction=javascript:${js}><${tag} data-bad>`,
  (tag: string, js: string) => `<base data-bad href=//example.invalid/><${tag} data-bad src=//example.invalid/${js}>`,
  (tag: string, js: string) => `<template data-bad><${tag} data-bad onerror=${js}></template>`,
  (tag: string, js: string) => `<meta data-bad http-equiv=refresh content="0;url=data:text/html,${js}"><${tag}>`,
  (tag: string, js: string) => `<use data-bad href="data:image/svg+xml,<svg onload='${js}'>"><${tag} data-bad>`,
  (tag: string, js: string) => `<animate data-bad onbegin=${js} attributeName=x><${tag} data-bad>`,
  (tag: string, js: string) => `=HYPERLINK("javascript:${js}")<${tag} data-bad>`,
] as const
const payloads = TAGS.flatMap(tag => AROUND.map(around => around(tag, 'window.ran=1')))

/** A session with the payload in every text that a file may bring. */
const eventsOf = (bad: string, next: string): SessionEvent[] => [
  {
    ...started(bad),
    machine: {
      ...MACHINE,
      name: bad,
      place: next,
      branches: MACHINE.branches.map(b => ({
        ...b,
        name: bad,
        ...(b.loads === undefined ? {} : { loads: b.loads.map(l => ({ ...l, name: next })) }),
      })),
    },
  },
  { type: 'answered', n: 1, answer: { done: true } },
  { type: 'answered', n: 2, answer: { cannot: bad } },
  { type: 'handedOver' },
  {
    type: 'closed',
    branch: 'B1',
    wrong: bad,
    note: `${bad}\n${next}`,
    record: {
      ...RECORD,
      mode: bad,
      mechanism: next,
      cause: bad,
      mended: bad,
      material: next,
      who: bad.slice(0, 20),
      believed: [{ seq: 2, branches: [{ branch: bad, before: 0.25, after: 0.5 }] }],
    },
  },
]
const file = JSON.stringify({
  format: 'ohmward.sessions',
  version: 1,
  exportedAt: '2026-11-25T14:05:00.000+01:00',
  sessions: payloads.map((bad, i) => ({
    id: `bad-${i}`,
    events: stored(eventsOf(bad, payloads[(i + 7) % payloads.length] ?? bad)),
  })),
})

/** Elements that only a payload could have made, and whether any of its script ran. */
const harm = (page: Page): Promise<{ made: number; ran: boolean }> =>
  page.evaluate(() => ({ made: document.querySelectorAll('[data-bad], base, iframe, object, embed').length, ran: 'ran' in globalThis }))

test(`${payloads.length} payloads in every field of text: on list, session, report and in print they stay text`, async () => {
  expect(payloads.length).toBe(200)
  const { page, broken } = await openApp({ width: 360, height: 740, dark: false })
  const thumb = new Thumb(page)
  await thumb.tap('Past sessions')
  await thumb.tap('Search, charts, files')
  await thumb.tap('Files')
  await page
    .locator('input[type=file]')
    .first()
    .setInputFiles({ name: 'log.json', mimeType: 'application/json', buffer: Buffer.from(file) })
  await page.getByRole('status').filter({ hasText: '200 new' }).waitFor()
  expect(await harm(page)).toEqual({ made: 0, ran: false })
  await thumb.tap('Back to the list')
  await page.getByText('200 of 200 sessions', { exact: true }).waitFor()
  for (let down = 0; down < 12; down++) {
    await page.mouse.wheel(0, 3000)
    await page.evaluate(() => new Promise(drawn => requestAnimationFrame(() => requestAnimationFrame(drawn))))
    expect(await harm(page)).toEqual({ made: 0, ran: false })
  }
  await page.locator('main button').filter({ hasText: 'data-bad' }).first().tap()
  await page.getByText('data-bad').first().waitFor()
  expect(await harm(page)).toEqual({ made: 0, ran: false })
  await thumb.tap('Report to print and sign')
  await page.getByText('data-bad').first().waitFor()
  expect(await harm(page)).toEqual({ made: 0, ran: false })
  const [saved] = await Promise.all([page.waitForEvent('download'), thumb.tap('Save as a page (HTML)')])
  const html = await readFile(await saved.path(), 'utf8')
  expect(html).toContain('data-bad')
  // In the file itself, as any browser would open it, with nothing to hold it back.
  const paper = await page.context().newPage()
  await paper.setContent(html)
  expect(await harm(paper)).toEqual({ made: 0, ran: false })
  // The control: as markup the first of them does make an element, and the search finds it.
  const control = await page.context().newPage()
  await control.setContent(`<p>${payloads[0]}</p>`)
  expect((await harm(control)).made).toBe(1)
  // And its script runs there: that it did not run before is seen by the same look.
  await expect.poll(async () => (await harm(control)).ran, { timeout: 10_000 }).toBe(true)
  expect(saved.suggestedFilename()).toMatch(/^[\w.-]+$/)
  expect(broken).toEqual([])
}, 180_000)
