import { useState } from 'preact/hooks'
import { readMachine } from '../../engine/check.ts'
import type { Machine } from '../../engine/machine.ts'
import type { KeptMachine } from '../log/log.ts'
import { csvOf } from '../machines/csv.ts'
import { type Table, tableOf } from '../machines/table.ts'
import { first, problemWords, words } from '../words.ts'
import { More } from './more.tsx'
import { share } from './share.ts'
import { Title } from './title.tsx'

/** What a file held: a machine, a table that may be one, or why neither. */
export type Opened = { readonly machine: Machine } | { readonly table: Table; readonly name: string } | { readonly problem: string }

interface ListProps {
  readonly kept: readonly KeptMachine[]
  readonly problem: string | undefined
  readonly open: (id: string) => void
  readonly make: () => void
  readonly scan: () => void
  readonly opened: (file: Opened) => void
  readonly leave: () => void
}
/** Larger than any machine file or table has a right to be, in bytes. */
const TOO_LARGE = 10_000_000

const read = async (file: File): Promise<Opened> => {
  if (file.size > TOO_LARGE) return { problem: first().start.tooLarge(file.name) }
  const text = await file.text()
  if (!/^\uFEFF?\s*[{[]/.test(text)) return { table: tableOf(text), name: file.name.replace(/\.\w+$/, '') }
  try {
    const machine = readMachine(JSON.parse(text.replace(/^\uFEFF/, '')))
    return machine.ok ? { machine: machine.value } : { problem: problemWords(machine.message) }
  } catch {
    return { problem: first().start.notJson(file.name) }
  }
}
const EXAMPLES = [
  { id: 'filler-2', load: () => import('../../content/demo.ts').then(m => m.demo) },
  { id: 'oven-1', load: () => import('../../content/demoOven.ts').then(m => m.oven) },
  { id: 'sorter-3', load: () => import('../../content/demoSorter.ts').then(m => m.sorter) },
] as const

/** All machines of the phone, and the ways to get another. */
export const MachineList = ({ kept, problem, open, make, scan, opened, leave }: ListProps) => {
  const [status, setStatus] = useState('')
  const { machines: say } = words()
  const row = ({ id, name, place, branches }: KeptMachine) => (
    <button type="button" class="answer two" key={id} onClick={() => open(id)}>
      {name}
      <small>{[place, first().symptom.branches(branches.length)].filter(Boolean).join(' · ')}</small>
    </button>
  )
  const retired = kept.filter(machine => machine.retired)
  const example = async (load: () => Promise<unknown>) => {
    const machine = readMachine(await load())
    opened(machine.ok ? { machine: machine.value } : { problem: problemWords(machine.message) })
  }
  const table = async () => {
    const machine = readMachine(await EXAMPLES[0].load())
    if (machine.ok) setStatus(await share({ name: 'filler-2.csv', mime: 'text/csv', text: csvOf(machine.value) }))
  }
  const failed = () => opened({ problem: first().notStored })
  return (
    <main class="place">
      <Title text={say.title} step="machines" />
      {problem && (
        <p role="alert" class="problem">
          {problem}
        </p>
      )}
      {kept.length === retired.length && <p>{say.none}</p>}
      <div class="rows">{kept.filter(machine => !machine.retired).map(row)}</div>
      {retired.length > 0 && (
        <More title={say.retired(retired.length)}>
          <div class="rows">{retired.map(row)}</div>
        </More>
      )}
      <More title={say.tableHelp.title}>
        {say.tableHelp.points.map(text => (
          <p key={text}>{text}</p>
        ))}
        <button type="button" class="answer" onClick={() => void table().catch(failed)}>
          {say.tableHelp.example}
        </button>
      </More>
      <More title={say.examples}>
        <div class="rows">
          {EXAMPLES.map(({ id, load }) => (
            <button type="button" class="answer" key={id} onClick={() => void example(load).catch(failed)}>
              {say.exampleNames[id]}
            </button>
          ))}
        </div>
      </More>
      <p role="status">{status}</p>
      <div class="actions flow">
        <button type="button" class="primary" onClick={make}>
          {say.make}
        </button>
        <button type="button" class="answer" onClick={scan}>
          {say.scanLabel}
        </button>
        <label class="answer file">
          {say.fromFile}
          <input
            type="file"
            accept=".json,.csv,.tsv,.txt,application/json,text/csv,text/plain"
            onChange={e => {
              const file = e.currentTarget.files?.[0]
              if (file) void read(file).then(opened, () => opened({ problem: first().start.notJson(file.name) }))
              e.currentTarget.value = ''
            }}
          />
        </label>
        <button type="button" class="plain" onClick={leave}>
          {first().back}
        </button>
      </div>
    </main>
  )
}
