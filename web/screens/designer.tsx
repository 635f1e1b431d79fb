import './designer.css'
import { useMemo, useState } from 'preact/hooks'
import type { Machine } from '../../engine/machine.ts'
import { voltsOf } from '../../engine/plant.ts'
import type { Finding } from '../../engine/step.ts'
import { InRush } from '../drawing/inrush.tsx'
import type { Entry } from '../flow/request.ts'
import { table } from '../log/csv.ts'
import type { Log } from '../log/log.ts'
import { first, problemWords, words } from '../words.ts'
import { DesignerBranch } from './designerBranch.tsx'
import { keepFigures, type Typed, typedFrom, withTyped } from './designerFigures.ts'
import { KnownForm } from './designerKnown.tsx'
import { csvRows, measuredVolts, type Reckoned, reckon } from './designerReckon.ts'
import { DesignerTable, DesignerTold } from './designerTable.tsx'
import { share } from './share.ts'
import { Title } from './title.tsx'

export interface DesignerProps {
  readonly machine: Machine
  /** The short circuit that this session found, if one was. */
  readonly finding?: Finding | undefined
  /** What the session measured; a supply's voltage that no file states is taken from it. */
  readonly entries?: readonly Entry[]
  /** Takes the machine with the figures that were typed, where it can still be changed. */
  readonly keep?: ((machine: Machine) => void) | undefined
  /** The log whose own copy of the machine takes the figures too. */
  readonly log?: (() => Promise<Log>) | undefined
  readonly back: () => void
}

/** Where the session's short circuit was, and what flowed there. */
const here = ({ rows }: Reckoned, finding: Finding | undefined): string | undefined => {
  const way = rows.find(r => r.branch.id === finding?.branch)?.way
  const metres = finding?.fromTerminals
  if (finding?.branch === undefined || metres === undefined || way === undefined) return undefined
  const near = way.points.findLast(p => p.metres <= metres.best) ?? way.points[0]
  return near && words().protection.hereWords(finding.branch, first().figures.metres(metres.best), near.low, near.high)
}

/** The page for whoever designs the machine: prints, and has a table beside it. */
export const Designer = ({ machine: told, finding, entries = [], keep, log, back }: DesignerProps) => {
  const [own, setOwn] = useState(told)
  const measured = own.supply.setVoltage === undefined ? measuredVolts(entries) : undefined
  const machine = useMemo(
    () => (measured === undefined ? own : { ...own, supply: { ...own.supply, setVoltage: measured } }),
    [own, measured],
  )
  const [typed, setTyped] = useState(() => typedFrom(told, first().figures.written))
  const [problem, setProblem] = useState('')
  const [status, setStatus] = useState('')
  const reckoned = useMemo(() => reckon(machine), [machine])
  const { rows, service, up } = reckoned
  const { supply } = machine
  const { assumptions, columns, page, sources, supplyWords, switchingWords, waitWords } = words().protection
  const found = here(reckoned, finding)
  const csv = () => share({ name: `${machine.id}-protection.csv`, mime: 'text/csv', text: table([columns, ...csvRows(reckoned)]) })
  const type = (now: Typed) => {
    setTyped(now)
    const read = withTyped(own, now)
    setProblem(read.ok ? '' : problemWords(read.message))
    if (!read.ok) return
    setOwn(read.value)
    keep?.(read.value)
    log?.()
      .then(own => keepFigures(own, read.value))
      .catch(e => setProblem(problemWords(e)))
  }
  const file = () => share({ name: `${own.id}.json`, mime: 'application/json', text: JSON.stringify(own, undefined, 2) })
  const say = (sharing: () => Promise<string>) => () => sharing().then(setStatus, e => setStatus(problemWords(e)))
  return (
    <main class="place designer">
      <Title text={page.title} step="designer" />
      <p>
        {machine.name}
        {machine.place && `, ${machine.place}`}. {page.lead}
      </p>
      {found && <p>{found}</p>}
      <p>{supplyWords(voltsOf(machine), supply.limit?.current, supply.limit?.mode, service.ampere, service.overloaded)}</p>
      <KnownForm machine={own} typed={typed} change={type} />
      {problem && (
        <p role="alert" class="problem">
          {problem}
        </p>
      )}
      <h2>{page.table}</h2>
      <DesignerTable rows={rows} />
      {rows.map(row => (
        <DesignerBranch key={row.branch.id} row={row} rated={supply.ratedVoltage ?? 24} />
      ))}
      <h2>{page.switching}</h2>
      <p>{switchingWords(up.fits, up.fitsAsUsual, up.atLimit, up.guessed.length)}</p>
      <figure>
        <InRush up={up} />
      </figure>
      <ol>
        {up.steps.map(s => (
          <li key={s.branch}>
            <strong>{s.branch}</strong> {waitWords(s)}
          </li>
        ))}
      </ol>
      <DesignerTold machine={own} typed={typed} />
      <h2>{page.assumptions}</h2>
      <ul class="points">
        {assumptions.map(text => (
          <li key={text}>{text}</li>
        ))}
      </ul>
      <h2>{page.sources}</h2>
      <ul class="points">
        {sources.map(text => (
          <li key={text}>{text}</li>
        ))}
      </ul>
      <p role="status">{status}</p>
      <div class="actions flow">
        <button type="button" class="answer" onClick={() => print()}>
          {page.print}
        </button>
        <button type="button" class="answer" onClick={say(csv)}>
          {page.csv}
        </button>
        <button type="button" class="answer" onClick={say(file)}>
          {page.file}
        </button>
        <button type="button" class="plain" onClick={back}>
          {page.back}
        </button>
      </div>
    </main>
  )
}
