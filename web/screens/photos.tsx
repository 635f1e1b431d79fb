import { useEffect, useState } from 'preact/hooks'
import type { PhotoNote } from '../flow/request.ts'
import type { Log } from '../log/log.ts'
import { noteOf, type Photo } from '../log/photo.ts'
import { shrink } from '../log/shrink.ts'
import { problemWords, words } from '../words.ts'

/** The album of a session: what its record will name. A store that cannot be read has none, and stops nothing else. */
export const notesOf = (log: Pick<Log, 'photos'>, id: string): Promise<readonly PhotoNote[]> =>
  log.photos(id).then(
    photos => photos.map(noteOf),
    () => [],
  )

const Picture = ({ photo, alt }: { photo: Photo; alt: string }) => {
  const [address, setAddress] = useState('')
  useEffect(() => {
    const made = URL.createObjectURL(new Blob([photo.bytes], { type: photo.type }))
    setAddress(made)
    return () => URL.revokeObjectURL(made)
  }, [photo.hash])
  return address === '' ? null : <img src={address} alt={alt} class="photo" />
}

interface PhotosProps {
  readonly log: Log
  readonly id: string
  /** What the record names already: some of it may have been taken off this phone. */
  readonly named?: readonly PhotoNote[] | undefined
  /** Without it photos are shown only. */
  readonly take?: boolean
}

/** Photos of a session. Each is kept as soon as it is taken; whatever goes wrong with one, nothing else is touched. */
export const Photos = ({ log, id, named = [], take = false }: PhotosProps) => {
  const [photos, setPhotos] = useState<readonly Photo[]>([])
  const [status, setStatus] = useState('')
  const [busy, setBusy] = useState(false)
  const [doomed, setDoomed] = useState('')
  const { photos: say } = words().keeping
  const load = () => log.photos(id).then(setPhotos, () => setPhotos([]))
  useEffect(() => {
    void load()
  }, [id])
  const failed = (reason: unknown) => setStatus(reason instanceof Error && reason.name === 'LogError' ? problemWords(reason) : say.failed)
  const taken = async (files: readonly File[]) => {
    setBusy(true)
    setStatus('')
    // One after the other: each takes its share of memory while it is drawn anew.
    for (const file of files)
      await shrink(file)
        .then(photo => log.savePhoto(id, photo))
        .catch(failed)
    await load()
    setBusy(false)
  }
  const drop = (hash: string) => {
    setDoomed('')
    log.dropPhoto(id, hash).then(load).catch(failed)
  }
  const gone = named.filter(({ hash }) => !photos.some(photo => photo.hash === hash)).length
  return (
    <section class="photos">
      <h2>{say.title}</h2>
      {photos.length === 0 && <p>{say.none}</p>}
      {photos.map((photo, i) => (
        <figure key={photo.hash}>
          {/* The second tap is the picture's height away from the first. */}
          {doomed === photo.hash && (
            <button type="button" class="answer" onClick={() => drop(photo.hash)}>
              {say.sure}
            </button>
          )}
          <Picture photo={photo} alt={say.alt(i + 1)} />
          {take && (
            <button type="button" class="plain" onClick={() => setDoomed(doomed === photo.hash ? '' : photo.hash)}>
              {doomed === photo.hash ? say.keep : say.drop}
            </button>
          )}
        </figure>
      ))}
      {gone > 0 && <p>{say.gone(gone)}</p>}
      {take && (
        <>
          <label class="answer file">
            {say.take}
            <input
              type="file"
              accept="image/*"
              capture="environment"
              multiple
              disabled={busy}
              onChange={e => {
                void taken([...(e.currentTarget.files ?? [])])
                e.currentTarget.value = ''
              }}
            />
          </label>
          <p class="why">{say.note}</p>
        </>
      )}
      <p role="status">{busy ? say.busy : status}</p>
    </section>
  )
}
