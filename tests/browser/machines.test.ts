import { execFileSync } from 'node:child_process'
import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import sharp from 'sharp'
import { expect, onTestFinished, test } from 'vitest'
import { demo } from '../../content/demo.ts'
import { sorter } from '../../content/demoSorter.ts'
import { later } from '../../content/en/later.ts'
import { readMachine } from '../../engine/check.ts'
import type { Machine } from '../../engine/machine.ts'
import { codesOf } from '../../web/machines/code.ts'
import { type Code, codeOf } from '../../web/qr/draw.ts'
import { pictureOf } from '../machines/picture.ts'
import { openApp } from './open.ts'
import { flaws, Thumb, violations } from './thumb.ts'

const { cautions } = later
const PHONE = { width: 360, height: 640, dark: false }
const seen = async (page: Page, heading: string): Promise<void> => {
  await page.getByRole('heading', { name: heading, exact: true }).waitFor()
  expect(await flaws(page)).toEqual([])
  expect(await violations(page)).toEqual([])
}
const start = async (dark = false, flags: readonly string[] = []) => {
  const { page, broken } = await openApp({ ...PHONE, dark, flags })
  const thumb = new Thumb(page)
  await thumb.tap('Machines')
  await seen(page, 'Choose the machine')
  return { page, thumb, broken }
}
const hand = (page: Page, label: string, file: { name: string; mimeType: string; buffer: Buffer }) =>
  page.getByLabel(label).setInputFiles(file)
/** What the phone holds, read from its store as another program would. */
const stored = (page: Page): Promise<Machine[]> =>
  page.evaluate(
    () =>
      new Promise<Machine[]>((resolve, reject) => {
        const opening = indexedDB.open('ohmward')
        opening.onerror = () => reject(opening.error)
        opening.onsuccess = () => {
          const all = opening.result.transaction('machines').objectStore('machines').getAll()
          all.onsuccess = () => {
            opening.result.close()
            resolve(all.result)
          }
        }
      }),
  )
const told = (json: unknown): Machine => {
  const read = readMachine(json)
  if (!read.ok) throw new Error(read.message)
  return read.value
}

test('a machine is described by one thumb, what was half-typed outlives a reload, and a session starts at it', async () => {
  const { page, thumb, broken } = await start()
  await thumb.tap('Name it, count branches')
  await page.getByLabel('Name').fill('Press 4')
  await seen(page, 'Count the branches')
  await thumb.tap('It has 8 branches')
  await seen(page, 'Press 4')
  await thumb.tap('Describe or change it')
  await seen(page, 'Describe Press 4')
  await thumb.tap(/^B1/)
  await seen(page, 'Describe branch B1')
  await thumb.tap('Change name and device')
  await page.getByLabel('Device').selectOption('breaker')
  await page.getByLabel('Its rating, A').fill('4')
  await seen(page, 'Change name and device')
  await thumb.tap('Save it')
  await thumb.tap('Add a run')
  await page.getByLabel('Length, m').fill('12,5x')
  await seen(page, 'Add a run')
  await thumb.tap('Save it')
  await page.getByRole('alert').filter({ hasText: 'Length, m cannot be “12,5x”.' }).waitFor()
  await seen(page, 'Add a run')
  await page.reload()
  await thumb.tap('Machines')
  await page.getByRole('heading', { name: 'Add a run' }).waitFor()
  expect(await page.getByLabel('Length, m').inputValue()).toBe('12,5x')
  await page.getByLabel('Length, m').fill('12,5')
  await thumb.tap('Save it')
  await thumb.tap('Add a load')
  await page.getByLabel('Kind of load').selectOption('coil')
  await page.getByLabel('Power, W').fill('8')
  await seen(page, 'Add a load')
  await thumb.tap('Save it')
  await seen(page, 'Describe branch B1')
  expect((await stored(page))[0]?.branches[0]).toEqual({
    id: 'B1',
    protection: { kind: 'breaker', rating: 4 },
    wiring: [{ id: '1-W1', from: 'terminals', to: '1-J1', length: 12.5 }],
    loads: [{ id: '1-L1', at: '1-J1', kind: 'coil', watts: 8 }],
  })
  await thumb.tap('To all branches')
  await thumb.tap('All is described')
  await page.getByText('8 branches; 1 run, 12.5 m in all.').waitFor()
  await thumb.tap('Start a session here')
  await page.getByRole('heading', { name: 'Say what the machine does' }).waitFor()
  expect(broken).toEqual([])
})

test('a table with slips shows each by line and column, stores nothing until they are mended on the spot, and then all', async () => {
  const { page, thumb, broken } = await start(true)
  const text = 'branch;from;to;length (m);colour;load;at;watts\r\nB1;;J1;12,5;red;;;\r\nB1;J9;J2;far;;;;\r\nB1;;;;;coil;J1;8\r\n'
  await hand(page, 'Open file or table', { name: 'Press 4.csv', mimeType: 'text/csv', buffer: Buffer.from(text) })
  await seen(page, 'Mend 1 place in the table')
  await page.getByText('These columns mean nothing here and are left out: colour.').waitFor()
  await page.getByLabel(/^Line 3, column length: “far” does not fit/).fill('3,5')
  await thumb.tap('Read it again')
  await page.getByLabel(/^Line 3, column from: “J9” hangs loose/).fill('J1')
  expect(await stored(page)).toEqual([])
  await thumb.tap('Read it again')
  await seen(page, 'Look the machine over')
  await thumb.tap('Store this machine')
  await seen(page, 'Press 4')
  expect((await stored(page))[0]?.branches[0]?.wiring?.map(({ from, to, length }) => [from, to, length])).toEqual([
    ['terminals', 'J1', 12.5],
    ['J1', 'J2', 3.5],
  ])
  expect(broken).toEqual([])
})

test('a file of the machine goes out, comes in again, and never replaces another unasked; a retired one keeps its place', async () => {
  const { page, thumb, broken } = await start()
  await page.getByText('Examples of invented plants').tap()
  await thumb.tap('Filler, 12 branches')
  await seen(page, 'Filler 2')
  const [file] = await Promise.all([page.waitForEvent('download'), thumb.tap('Share it as a file')])
  const parts = await (await file.createReadStream()).toArray()
  expect(told(JSON.parse(Buffer.concat(parts).toString('utf8')))).toEqual(told(demo))
  await thumb.tap('Retire it')
  await seen(page, 'Choose the machine')
  const other = { ...demo, name: 'Filler two' }
  await hand(page, 'Open file or table', { name: 'f.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(other)) })
  await seen(page, 'Say which Filler two to keep')
  await thumb.tap('Keep both')
  await seen(page, 'Copy of Filler two')
  expect((await stored(page)).map(({ id, name }) => [id, name])).toEqual([
    ['filler-2', 'Filler 2'],
    ['filler-2-2', 'Copy of Filler two'],
  ])
  await thumb.tap('Back')
  await page.getByText('1 retired machine').tap()
  await thumb.tap(/^Filler 2/)
  await thumb.tap('Take it back in use')
  await page.getByRole('button', { name: 'Retire it' }).waitFor()
  expect(broken).toEqual([])
})

test('a machine file of the start screen is there the next time, and one that differs under the same id is asked about', async () => {
  const { page, broken } = await openApp(PHONE)
  const thumb = new Thumb(page)
  const open = (machine: object) =>
    page
      .locator('input[type=file]')
      .first()
      .setInputFiles({ name: 'm.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(machine)) })
  const asked = () => page.getByRole('heading', { name: 'Say what the machine does' }).waitFor()
  for (let time = 0; time < 2; time += 1) {
    await page.reload()
    await open({ ...demo, id: 'press-4', name: 'Press 4' })
    await asked()
    expect((await stored(page)).map(({ id, name }) => [id, name])).toEqual([['press-4', 'Press 4']])
  }
  await page.reload()
  await open({ ...demo, id: 'press-4', name: 'Press four' })
  await seen(page, 'Say which Press four to keep')
  expect((await stored(page)).map(({ name }) => name)).toEqual(['Press 4'])
  await thumb.tap('Replace the old one')
  await thumb.tap('Start a session here')
  await asked()
  expect((await stored(page)).map(({ name }) => name)).toEqual(['Press four'])
  // An example is looked at, not kept.
  await page.reload()
  await thumb.tap('Demo machine')
  await asked()
  expect(await stored(page)).toHaveLength(1)
  expect(broken).toEqual([])
})

const pictures = async (page: Page): Promise<Buffer[]> => {
  const codes = await page.locator('.label svg').all()
  return Promise.all(codes.map(code => code.screenshot({ scale: 'device' })))
}
/** As a phone's photo of a label on a door is: askew, not sharp, grey light, something round it. */
const photo = (png: Buffer): Promise<Buffer> =>
  sharp(png)
    .resize(700)
    .rotate(7, { background: '#9a9a94' })
    .extend({ top: 120, bottom: 200, left: 90, right: 150, background: '#77716a' })
    .blur(1.2)
    .modulate({ brightness: 0.8 })
    .jpeg({ quality: 70 })
    .toBuffer()

test('the label prints a code a page, and another phone has the machine from photos of the codes, in any order', async () => {
  const { page, thumb, broken } = await start(true)
  await page.getByText('Examples of invented plants').tap()
  await thumb.tap('Sorter, 24 branches')
  await thumb.tap('Label for the cabinet')
  await page.getByRole('img', { name: /^Code 1 of / }).waitFor()
  await seen(page, 'Print the cabinet label')
  const codes = await pictures(page)
  const folder = await mkdtemp(join(tmpdir(), 'ohmward-'))
  onTestFinished(() => rm(folder, { recursive: true, force: true }))
  const pdf = await page.pdf({ preferCSSPageSize: true, path: join(folder, 'label.pdf') })
  expect(pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)).toHaveLength(codes.length)
  // 105 × 148 mm in points, as rounded by the browser.
  expect(pdf.toString('latin1')).toMatch(/\/MediaBox\s*\[0 0 29[78][\d.]* (419|420)[\d.]*\]/)
  const keep = process.env['SHOTS']
  if (keep) execFileSync('pdftoppm', ['-png', '-r', '100', join(folder, 'label.pdf'), join(keep, 'label')])

  const other = await start()
  await other.thumb.tap('Scan its label')
  await seen(other.page, 'Scan the cabinet label')
  const shots = await Promise.all(codes.map(photo))
  for (const [i, buffer] of shots.toReversed().entries()) {
    await hand(other.page, 'Photo of the code', { name: `${i}.jpg`, mimeType: 'image/jpeg', buffer })
    if (i < shots.length - 1)
      await other.page
        .getByRole('status')
        .filter({ hasText: `${i + 1} of ${shots.length} codes read.` })
        .waitFor()
  }
  await seen(other.page, 'Parcel sorter 3')
  expect(await stored(other.page)).toEqual([told(sorter)])
  expect([...broken, ...other.broken]).toEqual([])
})

/** A film of one picture, as the browser's make-believe camera plays it: planes of light and of two even colours (YUV4MPEG2). */
const film = async (code: Code): Promise<Buffer> => {
  const { data, width, height } = pictureOf(code, 4)
  const grey = await sharp(Buffer.from(data.buffer), { raw: { width, height, channels: 4 } })
    .flatten()
    .resize(640, 640)
    .greyscale()
    .raw()
    .toBuffer()
  return Buffer.concat([Buffer.from('YUV4MPEG2 W640 H640 F5:1 Ip A1:1 C420jpeg\nFRAME\n'), grey, Buffer.alloc((640 * 640) / 2, 128)])
}

test('the camera reads a label by itself, and is off again afterwards', async () => {
  const folder = await mkdtemp(join(tmpdir(), 'ohmward-'))
  onTestFinished(() => rm(folder, { recursive: true, force: true }))
  const [text = ''] = await codesOf(told(demo))
  await writeFile(join(folder, 'label.y4m'), await film(codeOf(text)))
  const { page, thumb, broken } = await start(false, [
    '--use-fake-ui-for-media-stream',
    '--use-fake-device-for-media-stream',
    `--use-file-for-fake-video-capture=${join(folder, 'label.y4m')}`,
  ])
  await page.evaluate(() => {
    const devices = navigator.mediaDevices
    const real = devices.getUserMedia.bind(devices)
    devices.getUserMedia = async wanted => {
      const stream = await real(wanted)
      Object.assign(globalThis, { stream })
      return stream
    }
  })
  await thumb.tap('Scan its label')
  await thumb.tap('Use the camera')
  await seen(page, 'Filler 2')
  expect(await stored(page)).toEqual([told(demo)])
  const tracks = await page.evaluate(() => (globalThis as unknown as { stream: MediaStream }).stream.getTracks().map(t => t.readyState))
  expect(tracks).toEqual(['ended'])
  expect(broken).toEqual([])
})

test('a photo without a code, a foreign code and a file that is no picture are each told in words; the name typed finds a machine', async () => {
  const { page, thumb, broken } = await start()
  await page.getByText('Examples of invented plants').tap()
  await thumb.tap('Oven, 12 branches')
  await thumb.tap('Back')
  await thumb.tap('Scan its label')
  const blank = await sharp({ create: { width: 400, height: 400, channels: 3, background: '#ccc' } })
    .png()
    .toBuffer()
  await hand(page, 'Photo of the code', { name: 'a.png', mimeType: 'image/png', buffer: blank })
  await page.getByRole('alert').filter({ hasText: 'No code was found in this photo.' }).waitFor()
  await hand(page, 'Photo of the code', { name: 'b.png', mimeType: 'image/png', buffer: Buffer.from('no picture') })
  await page.getByRole('alert').filter({ hasText: 'b.png is no picture' }).waitFor()
  await seen(page, 'Scan the cabinet label')
  await page.getByLabel('Or type the machine’s name or id').fill('tunnel OVEN 1')
  await thumb.tap('Find it on this phone')
  await seen(page, 'Tunnel oven 1')
  expect(broken).toEqual([])
})

test('a machine keeps what happened at it, and a copy of it begins with nothing', async () => {
  const { page, thumb, broken } = await start()
  await page.getByText('Examples of invented plants').tap()
  await thumb.tap('Filler, 12 branches')
  await page.getByText('No session of this machine is on this phone.').waitFor()
  await thumb.tap('Start a session here')
  await thumb.tap('Everything is dead')
  await page.getByText('No', { exact: true }).tap()
  await thumb.tap('Start the session')
  await page.getByRole('heading', { name: cautions['before-work'].title }).waitFor()
  await thumb.tickAll()
  await thumb.tap(cautions['before-work'].done)
  await page.getByRole('heading', { name: 'Look at the supply’s lamp' }).waitFor()
  await thumb.tap('End')
  await thumb.tap('Stop the session')
  await thumb.tap('Back to the start')
  await thumb.tap('Machines')
  await thumb.tap(/^Filler 2/)
  await thumb.tap(/^Session is stopped/)
  await page.locator('.timeline').waitFor()
  await thumb.tap('Back')
  await thumb.tap('Copy it')
  await seen(page, 'Copy of Filler 2')
  await page.getByText('No session of this machine is on this phone.').waitFor()
  const [one, other] = await stored(page)
  expect([one?.id, other?.id]).toEqual(['filler-2', 'filler-2-2'])
  expect(other?.branches).toEqual(one?.branches)
  expect(broken).toEqual([])
})
