import 'fake-indexeddb/auto'
import { Ajv2020 } from 'ajv/dist/2020.js'
import { Dexie } from 'dexie'
import { afterEach, beforeEach, expect, test } from 'vitest'
import schema from '../../web/log/export.schema.json'
import { exportJson } from '../../web/log/export.ts'
import type { Log } from '../../web/log/log.ts'
import { MOST_PHOTO_BYTES, MOST_PHOTOS, noteOf, type Photo, photoOf } from '../../web/log/photo.ts'
import { base64, exportPhotos } from '../../web/log/photoFile.ts'
import { fitted } from '../../web/log/shrink.ts'
import { openLog } from '../../web/log/store.ts'
import { takeIn } from '../../web/log/takeIn.ts'
import { COMMENT, jpeg, spliced } from './pictures.ts'
import { answered, MACHINE, outcome, record, started } from './samples.ts'

let log: Log
beforeEach(async () => {
  await Dexie.delete('ohmward')
  log = await openLog()
})
afterEach(() => log.close())

const photo = async (n: number): Promise<Photo> => photoOf(await jpeg(n))

test('a picture is fitted by its longer side, never made larger, never lost', () => {
  expect(fitted({ width: 8000, height: 6000 }, 1600)).toEqual({ width: 1600, height: 1200 })
  expect(fitted({ width: 3000, height: 4000 }, 1600)).toEqual({ width: 1200, height: 1600 })
  expect(fitted({ width: 800, height: 600 }, 1600)).toEqual({ width: 800, height: 600 })
  expect(fitted({ width: 20_000, height: 1 }, 1600)).toEqual({ width: 1600, height: 1 })
})

test('photos are kept as bytes beside their session, each once, no more than a session may have, and dropped by hand alone', async () => {
  const id = await record(log)
  const one = await photo(1)
  await log.savePhoto(id, one)
  await log.savePhoto(id, one)
  await log.savePhoto(`${id}~2`, await photo(2)) // another telling of the same session
  const other = await log.create(started())
  expect(await log.photos(other)).toEqual([])
  expect((await log.photos(id)).map(({ hash }) => hash).sort()).toEqual([one.hash, (await photo(2)).hash].sort())
  expect((await log.photos(id)).every(({ bytes }) => bytes instanceof ArrayBuffer)).toBe(true)
  for (let n = 3; n <= MOST_PHOTOS; n++) await log.savePhoto(id, await photo(n))
  expect(await outcome(log.savePhoto(id, await photo(99)))).toBe('unknown')
  await log.savePhoto(id, one) // known, so it takes no more room
  await log.dropPhoto(id, one.hash)
  expect(await log.photos(id)).toHaveLength(MOST_PHOTOS - 1)
})

test('a photo that cannot be kept takes no answer with it', async () => {
  const id = await log.create(started())
  const unkept = { ...(await photo(1)), bytes: (() => 1) as unknown as ArrayBuffer }
  const [reading, failed, next] = await Promise.all([
    outcome(log.append(id, answered(1))),
    outcome(log.savePhoto(id, unkept)),
    outcome(log.append(id, answered(2))),
  ])
  expect([reading, failed, next]).toEqual(['saved', 'unknown', 'saved'])
  expect((await log.events(id)).map(({ seq }) => seq)).toEqual([1, 2, 3])
  expect(await log.photos(id)).toEqual([])
})

/** A session whose record names its photos, and what a phone exports of it. */
const named = async (count: number) => {
  const id = await log.create(started())
  for (let n = 1; n <= count; n++) await log.savePhoto(id, await photo(n))
  const photos = (await log.photos(id)).map(noteOf)
  await log.append(id, { type: 'closed', branch: 'B1', wrong: '', note: '', record: { photos } })
  const session = (await exportJson(log, id)).text
  const files: string[] = []
  for await (const { text } of exportPhotos(log, [id], MACHINE.name)) files.push(text)
  return { id, session, files, hashes: photos.map(({ hash }) => hash) }
}
const emptied = async (): Promise<void> => {
  log.close()
  await Dexie.delete('ohmward')
  log = await openLog()
}

test('photos come in after their session, any number of times, and not before it', async () => {
  const { id, session, files, hashes } = await named(3)
  const [file = ''] = files
  const valid = new Ajv2020({ strict: true, strictRequired: false, allowMatchingProperties: true }).compile(schema)
  expect([valid(JSON.parse(file)), valid(JSON.parse(session))]).toEqual([true, true])
  expect(session).not.toContain('data')
  await emptied()
  expect(await takeIn(log, file)).toEqual({ ok: true, photos: { added: 0, known: 0, strangers: 3 } })
  expect(await takeIn(log, session)).toMatchObject({ ok: true, added: 1 })
  expect(await takeIn(log, file)).toEqual({ ok: true, photos: { added: 3, known: 0, strangers: 0 } })
  expect(await takeIn(log, file)).toEqual({ ok: true, photos: { added: 0, known: 3, strangers: 0 } })
  expect((await log.photos(id)).map(({ hash }) => hash)).toEqual(hashes)
})

test('the seal holds for the photos: another one in the record breaks it', async () => {
  const { session, hashes } = await named(1)
  await emptied()
  const swapped = session.replace(hashes[0] ?? '', 'a'.repeat(64))
  expect(await takeIn(log, swapped)).toMatchObject({ ok: false, message: expect.stringContaining('Nothing was taken in') })
})

test('a photo file that is not as this app writes it is refused whole, and the log stays as it was', async () => {
  const { id, session, files } = await named(2)
  const json = JSON.parse(files[0] ?? '')
  const put = (part: object) => JSON.stringify({ ...json, photos: [json.photos[1], { ...json.photos[0], ...part }] })
  const data = async (given: Promise<ArrayBuffer>) => ({ data: base64(await given) })
  await emptied()
  await takeIn(log, session)
  const hostile: readonly [string, RegExp][] = [
    [put({ hash: 'b'.repeat(64) }), /^photos\[1\]\.hash is /],
    [put(await data(jpeg(8))), /^photos\[1\]\.hash is /],
    [put(await data(jpeg(8, { exif: true }))), /^photos\[1\]\.data is .*without Exif/],
    [put(await data(jpeg(8).then(bytes => spliced(bytes, 2, COMMENT)))), /^photos\[1\]\.data is .*without Exif and comments/],
    [put(await data(jpeg(8).then(bytes => spliced(bytes, bytes.byteLength, [0])))), /^photos\[1\]\.data is \d+, .* where its picture ends/],
    [put(await data(jpeg(8).then(bytes => bytes.slice(0, -2)))), /^photos\[1\]\.data is .*JPEG/],
    [put(await data(jpeg(8, { width: 1601 }))), /^photos\[1\]\.data is .*1600 pixels/],
    [put({ data: base64(new ArrayBuffer(MOST_PHOTO_BYTES)) }), /^photos\[1\]\.data is .*JPEG/],
    [put({ data: 'A'.repeat(600_000) }), /^photos\[1\]\.data is .*characters of base64/],
    [put({ data: 'not base64!!' }), /^photos\[1\]\.data is /],
    [put({ type: 'image/svg+xml' }), /^photos\[1\]\.type is /],
    [put({ session: '../x' }), /^photos\[1\]\.session is /],
    [put({ extra: 1 }), /^photos\[1\]\.extra is /],
    [JSON.stringify({ ...json, version: 2, more: 1 }), /^version is 2, but must be 1/],
    [JSON.stringify({ ...json, photos: [] }), /^photos is a list of 0/],
    [`${JSON.stringify(json)}${' '.repeat(11_000_000)}`, /bytes long/],
    [`{"format":"ohmward.photos",`, /JSON/],
  ]
  for (const [text, says] of hostile) {
    const taken = await takeIn(log, text)
    expect(taken).toMatchObject({ ok: false, message: expect.stringMatching(says) })
    expect(await log.photos(id)).toEqual([])
  }
})

test('more photos than fit one file leave in several, each small enough to come in again', async () => {
  // A restart within the scan may be repeated: so one is as large as it may be without being drawn.
  const padded = async (n: number): Promise<ArrayBuffer> => {
    const plain = await jpeg(n)
    const more = Uint8Array.from({ length: (MOST_PHOTO_BYTES - plain.byteLength) & ~1 }, (_, i) => (i % 2 === 0 ? 0xff : 0xd0))
    return spliced(plain, plain.byteLength - 2, more)
  }
  const id = await log.create(started())
  for (let n = 0; n < MOST_PHOTOS; n++) await log.savePhoto(id, photoOf(await padded(n)))
  const photos = (await log.photos(id)).map(noteOf)
  await log.append(id, { type: 'closed', branch: '', wrong: '', note: '', record: { photos } })
  const session = (await exportJson(log, id)).text
  const files: string[] = []
  for await (const { text } of exportPhotos(log, [id], 'all')) files.push(text)
  expect(files.length).toBeGreaterThan(1)
  await emptied()
  await takeIn(log, session)
  let added = 0
  for (const text of files) {
    expect(text.length).toBeLessThanOrEqual(10_000_000)
    const taken = await takeIn(log, text)
    if (taken.ok && 'photos' in taken) added += taken.photos.added
  }
  expect(added).toBe(MOST_PHOTOS)
})
