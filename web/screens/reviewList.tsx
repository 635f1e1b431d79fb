import { useMemo, useState } from 'preact/hooks'
import { originOf, type SessionSummary } from '../log/log.ts'
import { first, language, words } from '../words.ts'
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
      <option value="">{words().review.list.all}</option>
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
  const { labels, record, review } = words()
  const { list: say } = review
  const of = useMemo(() => choices(all ?? []), [all, language()])
  const twice = useMemo(() => toldTwice(all ?? []), [all])
  const set = (part: Partial<Filter>) => {
    setPages(1)
    setFilter({ ...filter, ...part })
  }
  const outcomes = [...Object.entries(labels.results).map(([id, { title }]) => [id, title] as const), ['open', review.notFinished] as const]
  return (
    <main class="place review">
      <Title text={say.title} step="review" />
      {problem && (
        <p role="alert" class="problem">
          {problem}
        </p>
      )}
      <label class="field">
        {say.search}
        <input type="search" value={filter.words} onInput={e => set({ words: e.currentTarget.value })} />
      </label>
      <button type="button" class="plain" aria-expanded={wide} onClick={() => setWide(!wide)}>
        {filter.machine || filter.month || filter.result || filter.fault ? say.inUse : say.filters}
      </button>
      {wide && (
        <div class="filters">
          <Choice name={say.machine} value={filter.machine} of={of.machine} set={machine => set({ machine })} />
          <Choice name={say.month} value={filter.month} of={of.month} set={month => set({ month })} />
          <Choice name={say.result} value={filter.result} of={outcomes} set={result => set({ result })} />
          <Choice name={say.fault} value={filter.fault} of={of.fault} set={fault => set({ fault })} />
          <button type="button" class="plain" onClick={() => set(noFilter)}>
            {say.showAll}
          </button>
        </div>
      )}
      <p role="status">
        {all === undefined ? review.reading : say.count(shown.length, all.length)}
        {left > 0 ? `, ${say.stillRead(left)}` : ''}
      </p>
      <nav class="pair">
        <button type="button" class="answer" onClick={charts} disabled={shown.length === 0}>
          {say.charts(shown.length)}
        </button>
        <button type="button" class="answer" onClick={files}>
          {say.files}
        </button>
      </nav>
      <ul class="sessions">
        {shown.slice(0, pages * PAGE).map(s => (
          <li key={s.id}>
            <button type="button" class="answer two" onClick={() => open(s.id)}>
              {s.machineName}
              <small>
                {[
                  day(s.startedAt),
                  // How one from a file ended is known once it was read.
                  s.result ? labels.results[s.result].title : s.imported && !s.facts ? '' : review.notFinished,
                  s.imported ? say.fromFile : '',
                  s.facts?.times.diagnosis === undefined ? '' : say.foundIn(first().figures.duration(s.facts.times.diagnosis)),
                ]
                  .filter(Boolean)
                  .join(' · ')}
              </small>
              {foundWords(s) && <small>{foundWords(s)}</small>}
              {twice.has(originOf(s.id)) && <small>{say.twice}</small>}
            </button>
          </li>
        ))}
      </ul>
      {shown.some(({ facts }) => facts?.times.diagnosis !== undefined) && (
        <p class="why">
          {record.times.diagnosis.name}: {record.times.diagnosis.meaning}
        </p>
      )}
      {shown.length > pages * PAGE && (
        <button type="button" class="answer" onClick={() => setPages(pages + 1)}>
          {say.more}
        </button>
      )}
      <div class="actions flow">
        <button type="button" class="plain" onClick={leave}>
          {first().back}
        </button>
      </div>
    </main>
  )
}
