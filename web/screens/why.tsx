import type { Session } from '../flow/request.ts'
import { whyWords, words } from '../words.ts'
import { Alternatives } from './alternatives.tsx'
import { LanguageChoice } from './language.tsx'
import { branchOf, loadName } from './names.ts'
import { Sheet } from './sheet.tsx'
import { SpokeList } from './spokeList.tsx'

const of100 = (p: number) => (p < 0.005 ? words().session.why.under1 : String(Math.round(p * 100)))

/** Why this step: the reason, what it costs, and what is suspected now. */
export const Why = ({ session, close }: { session: Session; close: () => void }) => {
  const { request } = session
  const { actions, why: say } = words().session
  const rest = Math.max(0, 1 - session.belief.reduce((sum, b) => sum + b.p, 0))
  const likely = session.suspects.filter(s => s.p >= 0.01).slice(0, 5)
  const others = Math.max(0, 1 - rest - likely.reduce((sum, s) => sum + s.p, 0))
  return (
    <Sheet title={actions.why} close={close}>
      {request.say === 'step' && (
        <>
          <p>{whyWords(request.why)}</p>
          <Alternatives why={request.why} />
          <p>{say.takes(Math.round(request.seconds))}</p>
        </>
      )}
      {request.say === 'confirm' && <p>{say.confirm}</p>}
      <h3>{say.suspected}</h3>
      <dl>
        {likely.map(s => (
          <div key={`${s.branch}/${s.run}/${s.load}`}>
            <dt>{say.place(s.branch, s.run, loadName(branchOf(session, s.branch)?.loads?.find(l => l.id === s.load)))}</dt>
            <dd>{of100(s.p)}</dd>
          </div>
        ))}
        {others >= 0.005 && (
          <div>
            <dt>{say.others}</dt>
            <dd>{of100(others)}</dd>
          </div>
        )}
        <div>
          <dt>{say.supply}</dt>
          <dd>{of100(rest)}</dd>
        </div>
      </dl>
      {session.fromLog.findings > 0 && <p>{say.learned(session.fromLog.findings, of100(session.fromLog.share))}</p>}
      {session.known.branch !== undefined && (
        <p>
          {say.named(
            session.known.branch,
            loadName(branchOf(session, session.known.branch)?.loads?.find(l => l.id === session.known.load)),
          )}
        </p>
      )}
      <h3>{words().phone.spoke.title}</h3>
      <SpokeList session={session} />
      <details>
        <summary>{say.words}</summary>
        <dl class="words">
          {words().glossary.map(([word, meaning]) => (
            <div key={word}>
              <dt>{word}</dt>
              <dd>{meaning}</dd>
            </div>
          ))}
        </dl>
      </details>
      <LanguageChoice />
    </Sheet>
  )
}
