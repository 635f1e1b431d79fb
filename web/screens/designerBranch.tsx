import { FaultCurrent } from '../drawing/fault-current.tsx'
import { words } from '../words.ts'
import { changesOf, type Row } from './designerReckon.ts'

/** One branch: what decides, drawn and in figures, and what would open. */
export const DesignerBranch = ({ row, rated }: { row: Row; rated: number }) => {
  const { branch, found, served, guarded, way } = row
  const { atOnce, inTime, later, length } = found
  const { deviceWords, drawn, dropWords, figureWords, guardWords, laterWords, missingWords, page, verdictWords } = words().protection
  const verdict = verdictWords(atOnce, length)
  const missing = [missingWords(atOnce), missingWords(inTime)].filter((text, i, all) => text !== '' && all.indexOf(text) === i)
  return (
    <section>
      <h3>
        {branch.id} {branch.name} · {deviceWords(branch.protection)}
      </h3>
      <p>
        <strong>
          {page.atOnce}: {verdict}.
        </strong>{' '}
        {page.inTime}: {verdictWords(inTime, length)}.{branch.protection?.kind === 'breaker' && ` ${laterWords[later]}`}
      </p>
      {missing.map(text => (
        <p key={text} class="problem">
          {text}
        </p>
      ))}
      {way && (
        <figure>
          <FaultCurrent branch={branch.id} verdict={verdict} way={way} band={atOnce.band} />
          <figcaption>{drawn.legend}</figcaption>
        </figure>
      )}
      <p>{figureWords(atOnce.figures, { holds: atOnce.band.holds, opens: inTime.band.opens })}</p>
      <p>{guardWords(guarded)}</p>
      {served.told && served.last && <p>{dropWords(served.last.load, served.last.volts, served.last.drop, rated)}</p>}
      {changesOf(row).length > 0 && (
        <div class="screen">
          <h4>{page.change}</h4>
          <ul class="points">
            {changesOf(row).map(text => (
              <li key={text}>{text}</li>
            ))}
          </ul>
        </div>
      )}
    </section>
  )
}
