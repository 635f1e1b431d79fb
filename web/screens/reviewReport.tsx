import { useEffect, useRef, useState } from 'preact/hooks'
import drawingStyle from '../drawing/drawing.css?inline'
import { fileName } from '../log/export.ts'
import { type Log, originOf } from '../log/log.ts'
import type { Photo } from '../log/photo.ts'
import { type Seal, sealOf } from '../log/seal.ts'
import { language, problemWords, words } from '../words.ts'
import { Report } from './report.tsx'
import './report.css'
import reportStyle from './report.css?inline'
import type { Opened } from './reviewSession.tsx'
import { share } from './share.ts'

const escaped = (text: string): string => text.replace(/[&<>"]/g, sign => `&#${sign.charCodeAt(0)};`)
/** The report as a file of its own: what stands on the screen, and its style. It runs nothing and fetches nothing. */
const asFile = (report: Element, title: string): string =>
  [
    '<!doctype html>',
    `<html lang="${language()}"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width">`,
    `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:">`,
    `<title>${escaped(title)}</title><style>${drawingStyle}\n${reportStyle}</style></head>`,
    `<body>${report.outerHTML}</body></html>`,
    '',
  ].join('\n')

/** The report before it leaves: what is seen here is what is printed and saved. */
export const ReviewReport = ({ log, opened, back }: { log: Log; opened: Opened; back: () => void }) => {
  const { summary, events, people, facts } = opened
  const [seal, setSeal] = useState<Seal | undefined>()
  const [withName, setWithName] = useState(false)
  const [photos, setPhotos] = useState<readonly Photo[]>([])
  const [withPhotos, setWithPhotos] = useState(false)
  const [status, setStatus] = useState('')
  const paper = useRef<HTMLDivElement>(null)
  const fail = (reason: unknown) => setStatus(problemWords(reason))
  useEffect(() => {
    // Reckoned anew, not taken from the list: the report vouches for what it shows.
    sealOf(originOf(summary.id), events).then(setSeal, fail)
    // A report does without photos that cannot be read.
    log.photos(summary.id).then(setPhotos, () => setPhotos([]))
    scrollTo(0, 0)
  }, [summary.id, events])
  const save = () => {
    const report = paper.current?.firstElementChild
    if (!report) return
    const name = fileName([summary.machineName, summary.startedAt.slice(0, 16)], 'html')
    share({ name, mime: 'text/html', text: asFile(report, `${summary.machineName} ${summary.startedAt.slice(0, 10)}`) }).then(
      setStatus,
      fail,
    )
  }
  const { keeping, report: say, review } = words()
  const hasName = people.some(({ code }) => code === facts.who)
  return (
    <main class="place review paper-view">
      <div ref={paper}>{seal && <Report opened={opened} seal={seal} withName={withName} photos={withPhotos ? photos : []} />}</div>
      <p role="status" class="noprint">
        {status}
      </p>
      <div class="actions flow">
        {hasName && (
          <label class="choice">
            <input type="checkbox" checked={withName} onChange={e => setWithName(e.currentTarget.checked)} />
            <span>{say.withName}</span>
          </label>
        )}
        {photos.length > 0 && (
          <label class="choice">
            <input type="checkbox" checked={withPhotos} onChange={e => setWithPhotos(e.currentTarget.checked)} />
            <span>{keeping.photos.title}</span>
          </label>
        )}
        <button type="button" class="primary" onClick={() => print()}>
          {review.print}
        </button>
        <button type="button" class="answer" onClick={save}>
          {say.save}
        </button>
        <button type="button" class="plain" onClick={back}>
          {review.toSession}
        </button>
      </div>
    </main>
  )
}
