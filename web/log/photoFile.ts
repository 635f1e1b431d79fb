// Photos leave in files of their own, after those of their sessions: so the session files stay small, and the photos are asked for apart.
import { list, object, oneOf, optional, type Reader, refuse } from '../../engine/fields.ts'
import { type ExportFile, type Extras, fileName } from './export.ts'
import { MOST_BYTES, parsed } from './files.ts'
import { type Log, originOf } from './log.ts'
import { MOST_PHOTO_BYTES, type Photo, photoOf, plainJpeg } from './photo.ts'
import { hash, text, wall } from './shape.ts'
import { checkVersion, sessionId } from './sheet.ts'
import { localIso } from './stamp.ts'

export type HeldPhoto = Photo & { readonly session: string }
interface PhotoLine {
  readonly session: string
  readonly hash: string
  readonly type: 'image/jpeg'
  /** The bytes in base64. */
  readonly data: string
}
interface PhotosFile {
  readonly format: 'ohmward.photos'
  readonly version: 1
  readonly exportedAt: string
  readonly appVersion?: string
  readonly photos: readonly PhotoLine[]
}

const CHUNK = 0x8000
export const base64 = (bytes: ArrayBuffer): string => {
  const all = new Uint8Array(bytes)
  let text = ''
  for (let i = 0; i < all.length; i += CHUNK) text += String.fromCharCode(...all.subarray(i, i + CHUNK))
  return btoa(text)
}
const bytesOf = (data: string): ArrayBuffer => {
  const text = atob(data)
  const bytes = new Uint8Array(text.length)
  for (let i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i)
  return bytes.buffer
}
/** A third more than the bytes. */
const LONGEST = Math.ceil(MOST_PHOTO_BYTES / 3) * 4
const data: Reader<string> = (found, field) =>
  typeof found === 'string' && found.length <= LONGEST && found.length % 4 === 0 && /^[A-Za-z0-9+/]+={0,2}$/.test(found)
    ? found
    : refuse(field, typeof found === 'string' ? 'no such text' : found, `at most ${LONGEST} characters of base64`)
/** No file within the limit of its bytes holds more of the least of pictures. */
const MOST = 5000
const photosFile = object<PhotosFile>({
  format: oneOf('ohmward.photos'),
  version: oneOf(1),
  exportedAt: wall,
  appVersion: optional(text),
  photos: list(object<PhotoLine>({ session: sessionId, hash, type: oneOf('image/jpeg'), data }), MOST, 1),
})

export const isPhotos = (text: string): boolean => /"format":\s*"ohmward\.photos"/.test(text.slice(0, 200))

/** The photos of a file, each compared with its hash. Refuses as the readers of `engine/fields.ts` do. */
export const readPhotos = (text: string): readonly HeldPhoto[] => {
  const json = parsed(text)
  checkVersion(json)
  const { photos } = photosFile(json, '')
  return photos.map(({ session, hash: named, data }, i) => {
    const photo = photoOf(plainJpeg(bytesOf(data), `photos[${i}].data`))
    return photo.hash === named ? { session, ...photo } : refuse(`photos[${i}].hash`, named, `${photo.hash}, that of its data`)
  })
}

/** Room for the file's own fields, and around each photo. */
const ROOM = 1000
const AROUND = 400
/** The photos of sessions, in as many files as their size asks for, one after the other. */
export async function* exportPhotos(
  log: Pick<Log, 'photos'>,
  ids: readonly string[],
  what: string,
  { appVersion }: Pick<Extras, 'appVersion'> = {},
): AsyncGenerator<ExportFile> {
  let lines: string[] = []
  let bytes = 0
  let part = 0
  const file = (last: boolean): ExportFile => {
    part += 1
    const head = { format: 'ohmward.photos', version: 1, exportedAt: localIso(new Date()), ...(appVersion && { appVersion }) }
    const text = `${JSON.stringify(head).slice(0, -1)},"photos":[\n${lines.join(',\n')}\n]}\n`
    const name = fileName([what, 'photos', ...(part > 1 || !last ? [`part-${part}`] : [])], 'json')
    lines = []
    bytes = 0
    return { name, mime: 'application/json', text }
  }
  for (const id of [...ids].sort()) {
    for (const photo of await log.photos(id)) {
      const line: PhotoLine = { session: originOf(id), hash: photo.hash, type: photo.type, data: base64(photo.bytes) }
      const text = JSON.stringify(line)
      if (lines.length > 0 && bytes + text.length + AROUND > MOST_BYTES - ROOM) yield file(false)
      lines.push(text)
      bytes += text.length + AROUND
    }
  }
  if (lines.length > 0) yield file(true)
}
