import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, onTestFinished, test } from 'vitest'
import { demo } from '../../content/demo.ts'
import { readMachine } from '../../engine/check.ts'
import { openApp } from './open.ts'
import { flaws, Thumb, violations } from './thumb.ts'

const open = async (dark: boolean) => {
  const { page, broken } = await openApp({ width: 360, height: 640, dark })
  const thumb = new Thumb(page)
  await thumb.tap('Demo machine')
  await thumb.tap('Check the protection')
  await page.getByRole('heading', { name: 'Why the device did not open' }).waitFor()
  return { page, thumb, broken }
}

test.each([false, true])('the page for the designer names every branch, fits a phone and can be read by all; dark: %s', async dark => {
  const { page, thumb, broken } = await open(dark)
  expect(await page.getByRole('row').count()).toBe(demo.branches.length + 1)
  expect(await page.getByRole('img', { name: /^Current of a short circuit along branch/ }).count()).toBe(demo.branches.length)
  expect(await page.getByRole('img', { name: /^Current from the supply/ }).count()).toBe(1)
  // C 4 A stays closed up to 20 A, and the supply gives 12 A; of the fuse nobody has said its kind.
  expect(await page.getByRole('row', { name: 'B1 C 4 A' }).textContent()).toContain('does not open')
  expect(await page.getByRole('row', { name: 'B12 fuse 2 A' }).textContent()).toContain('NOT KNOWN')
  expect(await flaws(page)).toEqual([])
  expect(await violations(page)).toEqual([])
  await thumb.tap('Back')
  await page.getByRole('heading', { name: 'Say what the machine does' }).waitFor()
  expect(broken).toEqual([])
})

test('a figure from a data sheet changes the answer, is refused by name where it cannot be, and stays with the machine', async () => {
  const { page, thumb, broken } = await open(false)
  await page.getByText('Figures from data sheets').tap()
  await page.getByText('Supply', { exact: true }).tap()
  await page.getByText('B12', { exact: false }).first().tap()
  expect(await flaws(page)).toEqual([])
  expect(await violations(page)).toEqual([])
  // 90 A for 0.1 s open C 4 A, which needs 60 A, close to the cabinet: 1.5 m to the controller.
  await page.getByLabel('Gives for a short time, A').fill('90')
  expect(await page.getByRole('row', { name: 'B1 C 4 A' }).textContent()).toContain('does not open')
  await page.getByLabel('… for, s').fill('0,1')
  await expect.poll(() => page.getByRole('row', { name: 'B1 C 4 A' }).textContent()).toContain('opens everywhere')
  await page.getByLabel('Gives for a short time, A').fill('9o')
  expect(await page.getByRole('alert').textContent()).toContain('supply.reserve.current is "9o"')
  await page.getByLabel('Gives for a short time, A').fill('90')
  expect(await page.getByRole('alert').count()).toBe(0)
  const [download] = await Promise.all([page.waitForEvent('download'), thumb.tap('Machine file with these')])
  const stream = await download.createReadStream()
  const file = JSON.parse((await stream.toArray()).map(String).join(''))
  expect(file.supply.reserve).toEqual({ current: 90, seconds: 0.1 })
  expect(readMachine(file).ok).toBe(true)
  // The same page again, in the same session's start: the figures stand.
  await thumb.tap('Back')
  await thumb.tap('Check the protection')
  expect(await page.getByRole('row', { name: 'B1 C 4 A' }).textContent()).toContain('opens everywhere')
  expect(broken).toEqual([])
})

test('it prints on A4, and the table beside it has a row for each branch', async () => {
  const { page, thumb, broken } = await open(true)
  const folder = await mkdtemp(join(tmpdir(), 'ohmward-'))
  onTestFinished(() => rm(folder, { recursive: true, force: true }))
  const pdf = await page.pdf({ format: 'A4', path: join(folder, 'page.pdf') })
  const pages = pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length ?? 0
  expect(pages).toBeGreaterThan(1)
  expect(pages).toBeLessThan(9)
  // Paper shows no buttons and is white in the dark too.
  await page.emulateMedia({ media: 'print' })
  expect(await page.getByRole('button').count()).toBe(0)
  expect(await page.locator('.designer').evaluate(e => getComputedStyle(e).backgroundColor)).toBe('rgb(255, 255, 255)')
  await page.emulateMedia({ media: 'screen' })
  const [download] = await Promise.all([page.waitForEvent('download'), thumb.tap('Table (CSV)')])
  const stream = await download.createReadStream()
  const text = (await stream.toArray()).map(String).join('')
  const lines = text.trim().split('\r\n')
  expect(lines).toHaveLength(demo.branches.length + 1)
  expect(lines[0]).toContain('branch,device,length m,opens at once')
  expect(lines[1]).toMatch(/^B1,C 4 A,1\.5,does not open,/)
  expect(broken).toEqual([])
})
