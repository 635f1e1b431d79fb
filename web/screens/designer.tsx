import './designer.css'
import { useMemo, useState } from 'preact/hooks'
import {
  assumptions,
  columns,
  deviceWords,
  hereWords,
  page,
  sources,
  supplyWords,
  switchingWords,
  verdictWords,
  waitWords,
} from '../../content/en-protection.ts'
import type { Machine } from '../../engine/machine.ts'
import { voltsOf } from '../../engine/prospect.ts'
import type { Finding } from '../../engine/step.ts'
import { InRush } from '../drawing/inrush.tsx'
import type { Entry } from '../flow/request.ts'
import { table } from '../log/csv.ts'
import { DesignerBranch } from './designerBranch.tsx'
import { KnownForm, knownFrom, NOTHING_TYPED } from './designerKnown.tsx'
import { csvRows, measuredVolts, type Reckoned, reckon } from './designerReckon.ts'
import { share } from './share.ts'
import { Title } from './title.tsx'

export interface DesignerProps {
  readonly machine: Machine
  /** The short circuit that this session found, if one was. */
  readonly finding?: Finding | undefined
  /** What the session measured; a supply's voltage that no file states is taken from it. */
  readonly entries?: readonly Entry[]
  readonly back: () => void
}

/** Where the session's short circuit was, and what flowed there. */
const here = ({ rows }: Reckoned, finding: Finding | undefined): string | undefined => {
  const way = rows.find(r => r.branch.id === finding?.branch)?.way
  const metres = finding?.fromTerminals
  if (finding?.branch === undefined || metres === undefined || way === undefined) return undefined
  const near = way.points.findLast(p => p.metres <= metres.best) ?? way.points[0]
  return near && hereWords(finding.branch, `${metres.best.toFixed(1)} m`, near.low, near.high)
}

/** The page for whoever designs the machine: prints, and has a table beside it. */
export const Designer = ({ machine: told, finding, entries = [], back }: DesignerProps) => {
  const measured = told.supply.setVoltage === undefined ? measuredVolts(entries) : undefined
  const machine = useMemo(
    () => (measured === undefined ? told : { ...told, supply: { ...told.supply, setVoltage: measured } }),
    [told, measured],
  )
  const [typed, setTyped] = useState(NOTHING_TYPED)
  const [status, setStatus] = useState('')
  const reckoned = useMemo(() => reckon(machine, knownFrom(typed)), [machine, typed])
  const { rows, service, up } = reckoned
  const { supply } = machine
  const found = here(reckoned, finding)
  const csv = () => share({ name: `${machine.id}-protection.csv`, mime: 'text/csv', text: table([columns, ...csvRows(reckoned)]) })
  return (
    <main class="place designer">
      <Title text={page.title} step="designer" />
      <p>
        {machine.name}
        {machine.place && `, ${machine.place}`}. {page.lead}
      </p>
      {found && <p>{found}</p>}
      <p>{supplyWords(voltsOf(machine), supply.limit?.current, supply.limit?.mode, service.ampere, service.overloaded)}</p>
      <KnownForm typed={typed} change={setTyped} />
      <h2>{page.table}</h2>
      <table>
        <thead>
          <tr>
            <th>{page.branch}</th>
            <th>{page.device}</th>
            <th>{page.atOnce}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ branch, found }) => (
            <tr key={branch.id}>
              <th scope="row">{branch.id}</th>
              <td>{deviceWords(branch.protection)}</td>
              <td>{verdictWords(found.atOnce, found.length)}</td>
            </tr>
          ))}
        </tbody>
      </table>
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
            <strong>{s.branch}</strong> {waitWords(s.wait, s.past)}
          </li>
        ))}
      </ol>
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
        <button type="button" class="answer" onClick={() => csv().then(setStatus, e => setStatus(String(e?.message ?? e)))}>
          {page.csv}
        </button>
        <button type="button" class="plain" onClick={back}>
          {page.back}
        </button>
      </div>
    </main>
  )
}
