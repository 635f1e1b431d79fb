import type { Machine } from '../../engine/machine.ts'
import { words } from '../words.ts'
import { type Field, fieldsOf, SUPPLY, type Typed } from './designerFigures.ts'
import { changesOf, type Row } from './designerReckon.ts'
import { whole } from './whole.ts'

/** What opens and what does not, a line a branch; paper has room for what to change as well. */
export const DesignerTable = ({ rows }: { rows: readonly Row[] }) => {
  const { deviceWords, page, verdictWords } = words().protection
  return (
    <table>
      <thead>
        <tr>
          <th>{page.branch}</th>
          <th>{page.device}</th>
          <th>{page.atOnce}</th>
          <th class="paper">{page.inTime}</th>
          <th class="paper">{page.change}</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(row => (
          <tr key={row.branch.id}>
            <th scope="row">{row.branch.id}</th>
            <td>{whole(deviceWords(row.branch.protection))}</td>
            <td>{whole(verdictWords(row.found.atOnce, row.found.length))}</td>
            <td class="paper">{whole(verdictWords(row.found.inTime, row.found.length))}</td>
            <td class="paper">{whole(changesOf(row).join(' '))}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

/** The figures from data sheets that stand in the fields, one a line: paper does not show the fields themselves. */
export const DesignerTold = ({ machine, typed }: { machine: Machine; typed: Typed }) => {
  const { page, fuseNames } = words().protection
  const lines = (title: string, fields: readonly Field[]) =>
    fields.flatMap(({ path, label, load }) => {
      const value = typed[path]?.trim() ?? ''
      const shown = fuseNames[value as keyof typeof fuseNames] ?? value
      return value === '' ? [] : [`${title}${load === undefined ? '' : ` ${load}`} · ${page[label]}: ${shown}`]
    })
  const told = [...lines(page.supply, SUPPLY), ...machine.branches.flatMap((b, i) => lines(b.id, fieldsOf(b, i)))]
  if (told.length === 0) return null
  return (
    <>
      <h2>{page.known}</h2>
      <ul class="points">
        {told.map(text => (
          <li key={text}>{text}</li>
        ))}
      </ul>
    </>
  )
}
