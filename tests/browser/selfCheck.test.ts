import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { readSessions } from '../../web/log/import.ts'
import { openApp } from './open.ts'
import { flaws, Thumb, violations } from './thumb.ts'

const LOOK = { width: 360, height: 640, dark: false }
const value = async (page: Page, name: string): Promise<string> =>
  (await page
    .locator('dl div', { has: page.locator('dt', { hasText: name }) })
    .locator('dd')
    .first()
    .textContent()) ?? ''

test('the check of the phone says what maintenance asks for, and gives it away as text', async () => {
  const { page, broken } = await openApp(LOOK)
  const thumb = new Thumb(page)
  await page.getByText('Works without a network.').waitFor()
  await thumb.tap('Check this phone')
  await page.getByRole('heading', { name: 'Check this phone' }).waitFor()
  await expect.poll(() => page.locator('dt').count()).toBeGreaterThan(10)
  expect(await value(page, 'App version')).toMatch(/^\d+\.\d+\.\d+/)
  expect(await value(page, 'Works without network')).toBe('yes')
  expect(await value(page, 'Storage is kept')).toMatch(/^(yes|NO)$/)
  expect(await value(page, 'Sessions')).toBe('0')
  expect(await value(page, 'Photos')).toBe('0, 0 MB')
  expect(await value(page, 'Last export')).toBe('never')
  expect(await value(page, 'Clock jumps')).toContain('0')
  expect(await flaws(page)).toEqual([])
  expect(await violations(page)).toEqual([])
  const [download] = await Promise.all([page.waitForEvent('download'), thumb.tap('Share as text')])
  const text = (await (await download.createReadStream()).toArray()).map(String).join('')
  expect(text).toMatch(/^Ohmward\nApp version: \d/)
  expect(text).toContain('Last export: never')
  await thumb.tap('Back')
  await page.getByRole('heading', { name: 'Ohmward', level: 1 }).waitFor()
  expect(broken).toEqual([])
})

test.each([
  { how: 'thrown', waitedFor: true },
  { how: 'rejected where nobody waited', waitedFor: false },
])(
  'when a screen fails in mid-session ($how) it says so, gives the log away, and a reload goes on at the same step',
  async ({ waitedFor }) => {
    const { page } = await openApp(LOOK)
    const thumb = new Thumb(page)
    await thumb.startDemo()
    await page.evaluate(thrown => {
      if (!thrown) void Promise.reject(new TypeError('no such branch'))
      else
        setTimeout(() => {
          throw new TypeError('no such branch')
        })
    }, waitedFor)
    await page.getByRole('heading', { name: 'This screen failed' }).waitFor()
    expect(await page.getByRole('alert').textContent()).toContain('Every saved answer is kept')
    expect(await page.getByText('TypeError: no such branch').count()).toBe(1)
    expect(await flaws(page)).toEqual([])
    expect(await violations(page)).toEqual([])
    const [download] = await Promise.all([page.waitForEvent('download'), thumb.tap('Save the log as a file')])
    const lines = (await (await download.createReadStream()).toArray()).map(String).join('')
    const read = readSessions(lines)
    expect(read.ok && read.value.sessions[0]?.events[0]?.event.type).toBe('started')
    await thumb.tap('Reload the app')
    await thumb.tap(/^Go on/)
    await page.getByRole('heading', { name: 'Check these before work' }).waitFor()
  },
)
