import { useMemo } from 'preact/hooks'
import type { Session } from '../flow/request.ts'
import { words } from '../words.ts'
import { spokeOf } from './spoke.ts'
import { answered, asked } from './told.ts'

/** For the branches that are still suspect, and those cleared: what spoke for and against, in the order in which it was told. */
export const SpokeList = ({ session }: { session: Session }) => {
  const spoke = useMemo(() => spokeOf(session), [session])
  const { spoke: say } = words().phone
  const branches = session.belief.toSorted((a, b) => b.p - a.p)
  return (
    <>
      {branches.map(({ branch }) => {
        const told = spoke.get(branch) ?? []
        if (told.length === 0) return null
        return (
          <details key={branch}>
            <summary>{say.branch(branch)}</summary>
            <ul>
              {told.map(({ entry, before, after }) => (
                <li key={entry}>
                  <strong>{after > before ? say.for : say.against}</strong>{' '}
                  {session.entries.slice(entry, entry + 1).map(e => `${asked(session, e.request)}: ${answered(e)}`)}{' '}
                  {say.share(Math.round(before * 100), Math.round(after * 100))}
                </li>
              ))}
            </ul>
          </details>
        )
      })}
      {![...spoke.values()].some(told => told.length > 0) && <p>{say.nothing}</p>}
    </>
  )
}
