import { useEffect, useRef, useState } from 'preact/hooks'
import { collect, type Kind } from '../qr/sequence.ts'
import { first, problemWords, words } from '../words.ts'
import { Title } from './title.tsx'

interface ScanProps {
  /** What the codes should carry. */
  readonly kind: Kind
  /** All codes of a sequence were read. */
  readonly done: (bytes: Uint8Array) => void
  readonly back: () => void
  /** Another way to name what is looked for. */
  readonly byHand?: (text: string) => void
}
/** Between two looks at the camera's stream, ms: often enough for the hand, seldom enough for the battery. */
const PAUSE = 150

/** Reads codes, one or several, by the camera's stream or from photos; in any order. */
export const Scan = ({ kind, done, back, byHand }: ScanProps) => {
  const video = useRef<HTMLVideoElement>(null)
  const read = useRef<readonly string[]>([])
  const [stream, setStream] = useState<MediaStream | undefined>()
  const [told, setTold] = useState('')
  const [problem, setProblem] = useState('')
  const [typed, setTyped] = useState('')
  const { scan: say } = words().machines

  const take = (texts: readonly string[]) => {
    const fresh = texts.filter(text => !read.current.includes(text))
    if (fresh.length === 0) return
    const all = [...read.current, ...fresh]
    const found = collect(all)
    const refused = found.refused.find(({ at }) => at >= read.current.length)
    setProblem(refused ? say.refused[refused.why] : '')
    if (found.kind !== undefined && found.kind !== kind) {
      setProblem(say.otherKind)
      return
    }
    if (found.bytes) {
      setStream(undefined)
      done(found.bytes)
      return
    }
    // Nothing but what belongs together is kept, and after a wrong whole all is read anew.
    const whole = found.missing.length === found.count
    read.current = whole ? [] : all.filter((_, i) => !found.refused.some(({ at }) => at === i))
    if (found.count > 0) setTold(say.soFar(found.count - found.missing.length, found.count, found.missing.slice(0, 12).join(', ')))
  }
  const latest = useRef(take)
  latest.current = take

  useEffect(() => {
    const player = video.current
    if (!stream || !player) return
    let over = false
    player.srcObject = stream
    const look = async () => {
      const [{ reader }] = await Promise.all([import('../qr/read.ts'), player.play()])
      const texts = await reader(false)
      while (!over) {
        if (player.videoWidth > 0) latest.current(await texts(player))
        await new Promise(after => setTimeout(after, PAUSE))
      }
    }
    look().catch(e => !over && setProblem(problemWords(e)))
    return () => {
      over = true
      for (const track of stream.getTracks()) track.stop()
    }
  }, [stream])

  const start = () =>
    (navigator.mediaDevices?.getUserMedia({ video: { facingMode: 'environment', width: { ideal: 1280 } } }) ?? Promise.reject()).then(
      setStream,
      () => setProblem(say.noCamera),
    )
  const photo = async (file: File) => {
    setProblem('')
    try {
      const { readPhoto } = await import('../qr/read.ts')
      const texts = await readPhoto(file)
      if (texts.length === 0) setProblem(say.noCode)
      take(texts)
    } catch {
      setProblem(say.noPicture(file.name))
    }
  }
  return (
    <main class="place">
      <Title text={say.title[kind]} step="scan" />
      <p>{say.lead}</p>
      {problem && (
        <p role="alert" class="problem">
          {problem}
        </p>
      )}
      <p role="status">{told}</p>
      {stream && <video class="finder" ref={video} muted playsInline aria-label={say.finder} />}
      {byHand && (
        <form
          class="form"
          onSubmit={e => {
            e.preventDefault()
            byHand(typed)
          }}
        >
          <label>
            {say.byHand}
            <input type="text" autocomplete="off" value={typed} onInput={e => setTyped(e.currentTarget.value)} />
          </label>
          <button type="submit" class="answer" disabled={typed.trim() === ''}>
            {say.find}
          </button>
        </form>
      )}
      <div class="actions">
        {!stream && (
          <button type="button" class="primary" onClick={start}>
            {say.camera}
          </button>
        )}
        <label class="answer file">
          {say.photo}
          <input
            type="file"
            accept="image/*"
            capture="environment"
            onChange={e => {
              const file = e.currentTarget.files?.[0]
              if (file) void photo(file)
              e.currentTarget.value = ''
            }}
          />
        </label>
        <button type="button" class="plain" onClick={back}>
          {first().back}
        </button>
      </div>
    </main>
  )
}
