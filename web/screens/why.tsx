import { glossary } from '../../content/en-glossary.ts'
import { whySentence } from '../../content/en-whys.ts'
import type { Session } from '../flow/request.ts'
import { branchOf, loadName } from './names.ts'
import { Sheet } from './sheet.tsx'

const of100 = (p: number) => (p < 0.005 ? 'under 1' : String(Math.round(p * 100)))

/** Why this step: the reason, what it costs, and what is suspected now. */
export const Why = ({ session, close }: { session: Session; close: () => void }) => {
  const { request } = session
  const rest = Math.max(0, 1 - session.belief.reduce((sum, b) => sum + b.p, 0))
  const likely = session.suspects.filter(s => s.p >= 0.01).slice(0, 5)
  const others = Math.max(0, 1 - rest - likely.reduce((sum, s) => sum + s.p, 0))
  return (
    <Sheet title="Why this?" close={close}>
      {request.say === 'step' && (
        <>
          <p>{whySentence(request.why)}</p>
          <p>It takes about {request.seconds} s.</p>
        </>
      )}
      {request.say === 'confirm' && <p>The next acts can bring voltage back, and control power can start a machine.</p>}
      <h3>Suspected now, of 100</h3>
      <dl>
        {likely.map(s => (
          <div key={`${s.branch}/${s.run}/${s.load}`}>
            <dt>
              Branch {s.branch}
              {s.run ? `, run ${s.run}` : ''}
              {s.load ? `, ${loadName(branchOf(session, s.branch)?.loads?.find(l => l.id === s.load))}` : ''}
            </dt>
            <dd>{of100(s.p)}</dd>
          </div>
        ))}
        {others >= 0.005 && (
          <div>
            <dt>All other places</dt>
            <dd>{of100(others)}</dd>
          </div>
        )}
        <div>
          <dt>Supply and bus</dt>
          <dd>{of100(rest)}</dd>
        </div>
      </dl>
      <details>
        <summary>Words used here</summary>
        <dl class="words">
          {glossary.map(([word, meaning]) => (
            <div key={word}>
              <dt>{word}</dt>
              <dd>{meaning}</dd>
            </div>
          ))}
        </dl>
      </details>
    </Sheet>
  )
}
