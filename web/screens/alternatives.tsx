import type { Why } from '../flow/request.ts'
import { first, words } from '../words.ts'

const metres = (fact: string | number | undefined): string | undefined =>
  typeof fact === 'number' && Number.isFinite(fact) ? first().figures.about(fact) : undefined

/** What the best reading of either sort would leave of the place: by ohms, and by a current and volts where the kit has a source. */
export const Alternatives = ({ why: { facts } }: { why: Why }) => {
  const [now, ohm, fed] = [metres(facts['before']), metres(facts['ohm']), metres(facts['fed'])]
  if (now === undefined || (ohm === undefined && fed === undefined)) return null
  return <p>{words().session.why.alternatives(now, ohm, fed)}</p>
}
