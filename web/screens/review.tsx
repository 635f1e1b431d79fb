// What maintenance reads on Monday: all sessions, own and from files, searched, counted, and each step by step. Loaded when asked for.
import { useEffect, useMemo, useState } from 'preact/hooks'
import { digest, digestOne } from '../log/digest.ts'
import type { Log, SessionSummary } from '../log/log.ts'
import { language, problemWords } from '../words.ts'
import { ReviewCharts } from './reviewCharts.tsx'
import { ReviewFiles } from './reviewFiles.tsx'
import { filtered, noFilter } from './reviewFilter.ts'
import { ReviewList } from './reviewList.tsx'
import { ReviewOverall } from './reviewOverall.tsx'
import { ReviewSession } from './reviewSession.tsx'
import './review.css'

type View = { at: 'list' } | { at: 'charts' } | { at: 'files' } | { at: 'report' } | { at: 'session'; id: string }

/** Newest first by the wall clock: sessions of several phones have no other order. */
const byStart = (sessions: readonly SessionSummary[]): SessionSummary[] =>
  sessions
    .map(session => ({ session, at: Date.parse(session.startedAt) }))
    .sort((a, b) => b.at - a.at)
    .map(({ session }) => session)

export const Review = ({ log, leave }: { log: Log; leave: () => void }) => {
  const [view, setView] = useState<View>({ at: 'list' })
  const [sessions, setSessions] = useState<readonly SessionSummary[] | undefined>()
  const [filter, setFilter] = useState(noFilter)
  const [left, setLeft] = useState(0)
  const [problem, setProblem] = useState('')
  const load = async (): Promise<readonly SessionSummary[]> => {
    const all = byStart(await log.sessions())
    setSessions(all)
    return all
  }
  const say = (reason: unknown) => setProblem(problemWords(reason))
  useEffect(() => {
    let here = true
    const work = async () => {
      const all = await load()
      if (all.every(({ facts }) => facts !== undefined)) return
      await digest(log, all, still => {
        if (here) setLeft(still)
        return here
      })
      if (here) await load()
    }
    work().catch(say)
    return () => {
      here = false
    }
  }, [log, view.at === 'files'])
  const shown = useMemo(() => filtered(sessions ?? [], filter), [sessions, filter, language()])
  const back = () => setView({ at: 'list' })
  const common = { log, sessions: shown, back, open: (id: string) => setView({ at: 'session', id }) }

  if (view.at === 'charts') return <ReviewCharts {...common} />
  if (view.at === 'files') return <ReviewFiles {...common} changed={load} report={() => setView({ at: 'report' })} />
  if (view.at === 'report') return <ReviewOverall sessions={shown} back={() => setView({ at: 'files' })} />
  if (view.at === 'session')
    return (
      <ReviewSession
        log={log}
        all={sessions ?? []}
        summary={sessions?.find(({ id }) => id === view.id)}
        changed={() => digestOne(log, view.id).then(load).catch(say)}
        back={back}
      />
    )
  return (
    <ReviewList
      all={sessions}
      shown={shown}
      filter={filter}
      setFilter={setFilter}
      left={left}
      problem={problem}
      open={common.open}
      charts={() => setView({ at: 'charts' })}
      files={() => setView({ at: 'files' })}
      leave={leave}
    />
  )
}
