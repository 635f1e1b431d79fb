import { useState } from 'preact/hooks'
import type { Log, SessionSummary } from '../log/log.ts'
import { localIso } from '../log/stamp.ts'
import { problemWords, words } from '../words.ts'
import { handOut, type Shared } from './share.ts'

/** Texts longer than this are no use in a clipboard, and freeze some phones. */
const MOST_COPIED = 1_000_000

/** Without putting a long one together. */
const lengthOf = (file: Shared): number => file.parts?.reduce((sum, part) => sum + part.length, 0) ?? file.text.length

interface Asked {
  readonly names: readonly string[]
  readonly sessions: readonly SessionSummary[]
  /** The text, if it is one file and short. */
  readonly copy?: string
}

/**
 * Files that leave the phone. Sessions count as exported only when the share sheet took all of their files, or the user says that they
 * are where they should be: a browser does not tell what became of a download.
 */
export const useLeaving = (
  log: Pick<Log, 'saveExported'>,
  say: (line: string) => void,
  marked: () => Promise<unknown> = async () => undefined,
) => {
  const [asked, setAsked] = useState<Asked | undefined>()
  const { left } = words().keeping
  const mark = (sessions: readonly SessionSummary[]) => log.saveExported(sessions, localIso(new Date()))
  const leave = async (files: AsyncIterable<Shared> | Iterable<Shared>, sessions: readonly SessionSummary[]): Promise<void> => {
    setAsked(undefined)
    const names: string[] = []
    let copy: string | undefined
    let taken = true
    for await (const file of files) {
      const { how, said } = await handOut(file)
      say(said)
      if (how === 'not') return
      taken &&= how === 'sheet'
      copy = names.length === 0 && lengthOf(file) <= MOST_COPIED ? file.text : undefined
      names.push(file.name)
    }
    if (names.length === 0) return
    if (taken) await mark(sessions)
    else setAsked({ names, sessions, ...(copy === undefined ? {} : { copy }) })
  }
  const answer = (isThere: boolean) => {
    const { sessions } = asked ?? { sessions: [] }
    setAsked(undefined)
    if (isThere)
      mark(sessions)
        .then(marked)
        .catch(reason => say(problemWords(reason)))
    else say(left.notGone)
  }
  const box = asked && (
    <section class="leaving">
      <p>{left.ask(asked.names.join(', '))}</p>
      <nav class="pair">
        <button type="button" class="answer" onClick={() => answer(true)}>
          {left.yes}
        </button>
        <button type="button" class="answer" onClick={() => answer(false)}>
          {left.no}
        </button>
      </nav>
      {asked.copy !== undefined && (
        <button
          type="button"
          class="plain"
          onClick={() =>
            navigator.clipboard.writeText(asked.copy ?? '').then(
              () => say(left.copied(asked.names.join(', '))),
              () => say(left.notCopied),
            )
          }
        >
          {left.copy}
        </button>
      )}
    </section>
  )
  return { leave, box }
}
