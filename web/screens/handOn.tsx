import { useState } from 'preact/hooks'
import { Icon } from '../drawing/icons.tsx'
import { sessionText } from '../log/handOn.ts'
import type { Log } from '../log/log.ts'
import type { Code } from '../qr/draw.ts'
import { problemWords, words } from '../words.ts'
import { share } from './share.ts'
import { Sheet } from './sheet.tsx'

/** The codes of a session, one after the other, round and round until the other phone has them all. */
const Codes = ({ codes, close }: { codes: readonly Code[]; close: () => void }) => {
  const [at, setAt] = useState(0)
  const { handOn: say } = words().phone
  const code = codes[at]
  const called = say.code(at + 1, codes.length)
  return (
    <Sheet title={called} close={close}>
      {code && (
        <svg class="code" viewBox={`0 0 ${code.size} ${code.size}`} role="img" aria-label={called} shape-rendering="crispEdges">
          <path d={code.path} fill="#000" />
        </svg>
      )}
      <p>{say.read}</p>
      {codes.length > 1 && (
        <button type="button" class="primary" onClick={() => setAt((at + 1) % codes.length)}>
          {say.next}
        </button>
      )}
    </Sheet>
  )
}

/** The buttons that give the session to another phone, as codes or as a file. */
export const HandOn = ({ log, id }: { log: Log; id: string }) => {
  const [codes, setCodes] = useState<readonly Code[] | undefined>()
  const [told, setTold] = useState('')
  const { handOn: say } = words().phone
  const orSay = (work: () => Promise<void>) => work().catch(problem => setTold(problemWords(problem)))
  const file = () =>
    orSay(async () => {
      setTold(await share({ ...(await sessionText(log, id)), mime: 'application/json' }))
    })
  const show = () =>
    orSay(async () => {
      const [{ pack }, { framesOf }, { codeOf }, { text }] = await Promise.all([
        import('../qr/pack.ts'),
        import('../qr/sequence.ts'),
        import('../qr/draw.ts'),
        sessionText(log, id),
      ])
      setCodes(framesOf(await pack(text), 'session').map(codeOf))
    })
  return (
    <>
      <p role="status">{told}</p>
      <div class="duo">
        <button type="button" class="primary" onClick={show}>
          <Icon name="codes" />
          {say.codes}
        </button>
        <button type="button" class="answer" onClick={file}>
          <Icon name="file" />
          {say.file}
        </button>
      </div>
      {codes && <Codes codes={codes} close={() => setCodes(undefined)} />}
    </>
  )
}
