// A session goes from phone to phone through the air: the codes that one screen shows are what the other's camera films.
import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import sharp from 'sharp'
import { expect, onTestFinished, test } from 'vitest'
import { later } from '../../content/en/later.ts'
import { openApp } from './open.ts'
import { Thumb } from './thumb.ts'

const { cautions, machines, phone, session: say } = later
const LOOK = { width: 360, height: 640, dark: false }
/** The film's side in px, and how many frames each code stands. */
const [SIDE, FRAMES] = [720, 3]

/** What a camera sees of the codes, one after the other, over and over (YUV4MPEG2: planes of light and of two even colours). */
const film = async (codes: readonly Buffer[]): Promise<Buffer> => {
  const colours = Buffer.alloc((SIDE * SIDE) / 2, 128)
  const frames = await Promise.all(
    codes.map(async png => {
      const grey = await sharp(png).flatten().resize(SIDE, SIDE, { fit: 'contain', background: '#fff' }).greyscale().raw().toBuffer()
      return Buffer.concat([Buffer.from('FRAME\n'), grey, colours])
    }),
  )
  const head = Buffer.from(`YUV4MPEG2 W${SIDE} H${SIDE} F5:1 Ip A1:1 C420jpeg\n`)
  return Buffer.concat([head, ...frames.flatMap(frame => Array.from({ length: FRAMES }, () => frame))])
}
/** Each code as the screen shows it, white round it as the sheet's paper is. */
const shown = async (page: Page, thumb: Thumb): Promise<Buffer[]> => {
  const first = page.getByRole('img', { name: /^Code 1 of \d+/ })
  await first.waitFor()
  const count = Number(((await first.getAttribute('aria-label')) ?? '').split(' ').at(-1))
  const codes: Buffer[] = []
  for (let n = 1; n <= count; n += 1) {
    const code = page.getByRole('img', { name: phone.handOn.code(n, count), exact: true })
    const png = await code.screenshot()
    codes.push(await sharp(png).extend({ top: 24, bottom: 24, left: 24, right: 24, background: '#fff' }).png().toBuffer())
    if (n < count) await thumb.tap(phone.handOn.next)
  }
  return codes
}

test('the codes of one screen, filmed by another phone, go on with the session at the same step', { timeout: 180_000 }, async () => {
  const giver = await openApp(LOOK)
  const thumb = new Thumb(giver.page)
  const title = (page: Page) => page.locator('h1').textContent()
  await thumb.startDemo()
  await thumb.tickAll()
  await thumb.tap(cautions['before-work'].done)
  await thumb.tap('Blinking')
  await expect.poll(() => title(giver.page)).not.toContain('lamp')
  const step = await title(giver.page)
  const place = (await giver.page.locator('header > span').textContent())?.split(' · ')[0]
  await thumb.tap(say.actions.end)
  await thumb.tap(say.cannot.handOver)
  await thumb.tap(phone.handOn.codes)
  const codes = await shown(giver.page, thumb)
  expect(codes.length).toBeGreaterThan(1)

  const folder = await mkdtemp(join(tmpdir(), 'ohmward-'))
  onTestFinished(() => rm(folder, { recursive: true, force: true }))
  await writeFile(join(folder, 'codes.y4m'), await film(codes))
  const taker = await openApp({
    ...LOOK,
    flags: [
      '--use-fake-ui-for-media-stream',
      '--use-fake-device-for-media-stream',
      `--use-file-for-fake-video-capture=${join(folder, 'codes.y4m')}`,
    ],
  })
  const other = new Thumb(taker.page)
  await other.tap('Take over a session')
  await other.tap(machines.scan.camera)
  await taker.page.locator('.band').waitFor({ timeout: 90_000 })
  expect(await title(taker.page)).toBe(step)
  expect((await taker.page.locator('header > span').textContent())?.split(' · ')[0]).toBe(place)
  expect([...giver.broken, ...taker.broken]).toEqual([])
})
