import { treeAlt } from '../../content/en-drawings.ts'
import { findingHow, findingSentence, findingTitle, type Place } from '../../content/en-findings.ts'
import type { Finding, Interval } from '../../engine/step.ts'
import { CABINET, Cabinet } from '../drawing/cabinet.tsx'
import { Tree } from '../drawing/tree.tsx'
import type { Request, Session } from '../flow/request.ts'
import { Actions } from './actions.tsx'
import { Frame } from './frame.tsx'
import { branchOf, loadName } from './names.ts'
import { Notice } from './notice.tsx'
import { Pairs } from './pairs.tsx'
import { Title } from './title.tsx'
import type { Hunt } from './useSession.ts'
import { whole } from './whole.ts'

/** What the machine file knows about the place a finding names. */
export const placeOf = (session: Session, finding: Finding): Place => {
  const branch = branchOf(session, finding.branch)
  const run = branch?.wiring?.find(r => r.id === finding.run)
  const load = branch?.loads?.find(l => l.id === finding.load)
  const near = run?.from ?? load?.at
  const name = loadName(load)
  return {
    ...(name === undefined ? {} : { load: name }),
    ...(near === undefined ? {} : { near }),
    ...(run?.moving ? { moving: true } : {}),
  }
}

/** Ohm, to the last digit that the interval justifies. */
const ohms = ({ best, low, high }: Interval) => {
  const half = Math.max((high - low) / 2, 0.001)
  const digits = Math.max(0, Math.min(3, -Math.floor(Math.log10(half))))
  return `${best.toFixed(digits)} ± ${half.toFixed(digits)} Ω`
}
const metres = ({ best, low, high }: Interval) =>
  high - low < 0.1 ? `${best.toFixed(1)} m` : `${best.toFixed(1)} m · ${low.toFixed(1)} to ${high.toFixed(1)}`

/** The place of the fault on its branch, to scale; or the branch in the cabinet where its wiring is not known. */
export const FindingDrawing = ({ session, finding }: { session: Session; finding: Finding }) => {
  const branch = branchOf(session, finding.branch)
  const title = findingTitle(finding, placeOf(session, finding))
  if (branch?.wiring?.length && (finding.run || finding.load))
    return (
      <Tree
        alt={treeAlt(branch.id, branch.wiring, title)}
        branch={branch}
        mark={{ run: finding.run, along: finding.alongRun, load: finding.load }}
      />
    )
  return (
    <Cabinet
      alt={title}
      height={CABINET.most - 30}
      branches={session.machine.branches.map(b => b.id)}
      working={finding.branch}
      devices={session.positions.devices}
      fuses={session.machine.branches.filter(b => b.protection?.kind === 'fuse').map(b => b.id)}
      bus={session.positions.bus}
      bond={session.positions.bond}
      ring={finding.fault === 'device-open' ? 'device' : finding.branch ? 'branch' : 'supply'}
    />
  )
}

/** Where to go and look, with how far and how sure. */
export const FindingScreen = ({ hunt, request, finding }: { hunt: Hunt; request: Extract<Request, { say: 'step' }>; finding: Finding }) => {
  const { session, since, answer } = hunt
  const place = placeOf(session, finding)
  const rows: readonly (readonly [string, string | undefined])[] = [
    ['How sure', `${Math.min(99, Math.round(finding.probability * 100))} in 100`],
    ['From cabinet', finding.fromTerminals && finding.fromTerminals.high > 0 ? metres(finding.fromTerminals) : undefined],
    ['Fault loop', finding.loopOhm && ohms(finding.loopOhm)],
    ['Of it, the fault', finding.faultOhm && ohms(finding.faultOhm)],
  ]
  return (
    <Frame session={session} since={since} head="Finding">
      <Title text={findingTitle(finding, place)} step={request.n} />
      <Notice hunt={hunt} />
      <p>{findingSentence(finding, place)}</p>
      <FindingDrawing session={session} finding={finding} />
      <p>{whole(findingHow(finding, session.power === 'provedDead'))}</p>
      <Pairs rows={rows} />
      <Actions hunt={hunt} flow>
        <button type="button" class="primary" onClick={() => answer({ confirmed: true })}>
          Found it here
        </button>
        <button type="button" class="answer" onClick={() => answer({ confirmed: false })}>
          Looked, not there
        </button>
      </Actions>
    </Frame>
  )
}
