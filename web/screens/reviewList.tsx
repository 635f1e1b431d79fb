import { useMemo, useState } from 'preact/hooks'
import { results } from '../../content/en-labels.ts'
import { duration } from '../../content/en-record.ts'
import { originOf, type SessionSummary } from '../log/log.ts'
import { choices, day, type Filter, foundWords, noFilter } from './reviewFilter.ts'
import { Title } from './title.tsx'

/** A phone draws so many lines without a pause; the rest comes when asked for. */
const PAGE = 25

interface ListProps {
  readonly all: readonly SessionSummary[] | undefined
  readonly shown: readonly SessionSummary[]
  readonly filter: Filter
  readonly setFilter: (filter: Filter) => void
  /** Sessions whose facts are still to be taken. */
  readonly left: number
  readonly problem: string
  readonly open: (id: string) => void
  readonly charts: () => void
  readonly files: () => void
  readonly leave: () => void
}

const Choice = (p: { name: string; value: string; of: readonly (readonly [string, string])[]; set: (value: string) => void }) => (
  <label>
    {p.name}
    <select value={p.value} onChange={e => p.set(e.currentTarget.value)}>
      <option value="">all</option>
      {p.of.map(([value, word]) => (
        <option key={value} value={value}>
          {word}
        </option>
      ))}
    </select>
  </label>
)

/** Sessions that the log holds in more than one telling, by their common id. */
const toldTwice = (sessions: readonly SessionSummary[]): ReadonlySet<string> =>
  new Set(sessions.filter(({ id }) => id !== originOf(id)).map(({ id }) => originOf(id)))

export const ReviewList = ({ all, shown, filter, setFilter, left, problem, open, charts, files, leave }: ListProps) => {
  const [pages, setPages] = useState(1)
  const [wide, setWide] = useState(false)
  const of = useMemo(() => choices(all ?? []), [all])
  const twice = useMemo(() => toldTwice(all ?? []), [all])
  const set = (part: Partial<Filter>) => {
    setPages(1)
    setFilter({ ...filter, ...part })
  }
  const outcomes = [...Object.entries(results).map(([id, { title }]) => [id, title] as const), ['open', 'not finished'] as const]
  return (
    <main class="place review">
      <Title text="Review the log" step="review" />
      {problem && (
        <p role="alert" class="problem">
          {problem}
        </p>
      )}
      <label class="field">
        Search
        <input type="search" value={filter.words} onInput={e => set({ words: e.currentTarget.value })} />
      </label>
      <button type="button" class="plain" aria-expanded={wide} onClick={() => setWide(!wide)}>
        Filters{filter.machine || filter.month || filter.result || filter.fault ? ', in use' : ''}
      </button>
      {wide && (
        <div class="filters">
          <Choice name="Machine" value={filter.machine} of={of.machine} set={machine => set({ machine })} />
          <Choice name="Month" value={filter.month} of={of.month} set={month => set({ month })} />
          <Choice name="Result" value={filter.result} of={outcomes} set={result => set({ result })} />
          <Choice name="Fault" value={filter.fault} of={of.fault} set={fault => set({ fault })} />
          <button type="button" class="plain" onClick={() => set(noFilter)}>
            Show all again
          </button>
        </div>
      )}
      <p role="status">
        {all === undefined ? 'Reading the log …' : `${shown.length} of ${all.length} sessions`}
        {left > 0 ? `, ${left} still being read` : ''}
      </p>
      <nav class="pair">
        <button type="button" class="answer" onClick={charts} disabled={shown.length === 0}>
          Charts of these {shown.length}
        </button>
        <button type="button" class="answer" onClick={files}>
          Files
        </button>
      </nav>
      <ul class="sessions">
        {shown.slice(0, pages * PAGE).map(s => (
          <li key={s.id}>
            <button type="button" class="answer two" onClick={() => open(s.id)}>
              {s.machineName}
              <small>
                {day(s.startedAt)} · {s.result ? results[s.result]?.title : 'not finished'}
                {s.imported ? ' · from a file' : ''}
                {s.facts?.times.diagnosis === undefined ? '' : ` · found in ${duration(s.facts.times.diagnosis)}`}
              </small>
              {foundWords(s) && <small>{foundWords(s)}</small>}
              {twice.has(originOf(s.id)) && <small>Told in two ways: both are kept. Compare them.</small>}
            </button>
          </li>
        ))}
      </ul>
      {shown.length > pages * PAGE && (
        <button type="button" class="answer" onClick={() => setPages(pages + 1)}>
          Show more
        </button>
      )}
      <div class="actions flow">
        <button type="button" class="plain" onClick={leave}>
          Back
        </button>
      </div>
    </main>
  )
}
