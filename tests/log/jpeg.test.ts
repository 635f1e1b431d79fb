import fc from 'fast-check'
import sharp from 'sharp'
import { expect, test } from 'vitest'
import { bare, jpegOf } from '../../web/log/jpeg.ts'
import { buffer, COMMENT, jpeg, SECOND_PICTURE, spliced } from './pictures.ts'

test('a picture is told by its own head: sizes, and whether a camera left notes in it', async () => {
  expect(jpegOf(await jpeg(1, { width: 640, height: 480 }))).toMatchObject({ width: 640, height: 480 })
  expect(jpegOf(await jpeg(1))?.notes).toEqual([])
  expect(jpegOf(await jpeg(1, { exif: true }))?.notes).toEqual([0xe1])
  const profiled = await sharp({ create: { width: 9, height: 9, channels: 3, background: 'red' } })
    .withIccProfile('p3')
    .jpeg()
    .toBuffer()
  expect(profiled.includes('ICC_PROFILE')).toBe(true)
  expect(jpegOf(buffer(profiled))?.notes).toEqual([])
  const other = Buffer.from(profiled.toString('latin1').replace('ICC_PROFILE', 'MPF_PREVIEW'), 'latin1')
  expect(jpegOf(buffer(other))?.notes).toEqual([0xe2])
  expect(
    jpegOf(
      buffer(
        await sharp({ create: { width: 9, height: 9, channels: 3, background: 'red' } })
          .png()
          .toBuffer(),
      ),
    ),
  ).toBeUndefined()
})
test('what cameras and others hide in a picture is found: in a note, in the small second picture, behind its end', async () => {
  const plain = await jpeg(1)
  const end = plain.byteLength
  expect(jpegOf(plain)).toEqual({ width: 41, height: 30, notes: [], rest: 0 })
  expect(jpegOf(spliced(plain, 2, COMMENT))?.notes).toEqual([0xfe])
  expect(jpegOf(spliced(plain, end - 2, COMMENT))?.notes).toEqual([0xfe]) // behind the scan, before the end
  expect(jpegOf(spliced(plain, 2, SECOND_PICTURE))?.notes).toEqual([0xe0])
  expect(jpegOf(spliced(plain, 2, [0xff, 0xee, 0, 6, 65, 66, 67, 68]))?.notes).toEqual([0xee])
  expect(jpegOf(spliced(plain, 2, [0xff, 0xf3, 0, 2]))?.notes).toEqual([0xf3])
  expect(jpegOf(spliced(plain, end, [1, 2, 3]))?.rest).toBe(3)
  expect(jpegOf(spliced(plain, end, [...new Uint8Array(plain)]))?.rest).toBe(end) // another picture
  const several = buffer(await sharp(Buffer.from(plain)).jpeg({ progressive: true }).toBuffer())
  expect(jpegOf(several)).toEqual({ width: 41, height: 30, notes: [], rest: 0 })
})
test('a picture whose lengths are wrong, or without an end, is none', async () => {
  const plain = await jpeg(1)
  for (const cut of [1, 2, 3, 10, 100]) expect(jpegOf(plain.slice(0, -cut))).toBeUndefined()
  expect(jpegOf(spliced(plain, 4, [0, 1], 2))).toBeUndefined() // shorter than its own length field
  expect(jpegOf(spliced(plain, 4, [0xff, 0xff], 2))).toBeUndefined() // runs over the end
  expect(jpegOf(spliced(plain, 4, [0, 15], 2))).toBeUndefined() // no marker where the next one should be
  const frame = [...new Uint8Array(plain)].findIndex((byte, i, all) => byte === 0xff && all[i + 1] === 0xc0)
  const head = [...new Uint8Array(plain.slice(frame, frame + 19))]
  expect(jpegOf(spliced(plain, frame, head))).toBeUndefined() // two frames: which size is meant?
  expect(jpegOf(spliced(plain, frame, [], 19))).toBeUndefined()
})
test('laid bare, a picture keeps every pixel and loses all else', async () => {
  const exif = await jpeg(7, { exif: true })
  const padded = spliced(spliced(exif, 2, [...COMMENT, ...SECOND_PICTURE]), exif.byteLength + 17, [9, 9])
  const pixels = (of: ArrayBuffer) => sharp(Buffer.from(of)).raw().toBuffer()
  expect(jpegOf(padded)).toMatchObject({ notes: [0xfe, 0xe0, 0xe1], rest: 2 })
  expect(jpegOf(bare(padded))).toEqual({ width: 47, height: 30, notes: [], rest: 0 })
  expect((await pixels(bare(padded))).equals(await pixels(exif))).toBe(true)
  expect(bare(await jpeg(1))).toEqual(await jpeg(1))
  const none = Uint8Array.from([1, 2, 3]).buffer
  expect(bare(none)).toBe(none)
})
test('[seed 36] whatever the bytes, telling a picture never throws and ends', async () => {
  const sound = new Uint8Array(await jpeg(5))
  const broken = fc.tuple(fc.nat(sound.length), fc.uint8Array({ maxLength: 40 })).map(([at, put]) => {
    const bytes = sound.slice()
    bytes.set(put.slice(0, bytes.length - at), at)
    return bytes
  })
  fc.assert(
    fc.property(fc.oneof(broken, fc.uint8Array({ maxLength: 300 })), bytes => {
      jpegOf(Uint8Array.from(bytes).buffer)
      bare(Uint8Array.from(bytes).buffer)
    }),
    { seed: 36, numRuns: 1000 },
  )
})
