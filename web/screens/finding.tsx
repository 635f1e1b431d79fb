import type { Place } from '../../content/shared/types.ts'
import type { Finding, Interval } from '../../engine/step.ts'
import { CABINET, Cabinet } from '../drawing/cabinet.tsx'
import { TREE, Tree } from '../drawing/tree.tsx'
import type { Request, Session } from '../flow/request.ts'
import { first, words } from '../words.ts'
import { Actions } from './actions.tsx'
import { careOf } from './care.ts'
import { Frame } from './frame.tsx'
import { branchOf, loadName } from './names.ts'
import { Notice } from './notice.tsx'
import { Pairs } from './pairs.tsx'
import { Picture } from './picture.tsx'
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
  const { fixed } = first().figures
  return `${fixed(best, digits)} ± ${fixed(half, digits)} Ω`
}
const stretch = ({ best, low, high }: Interval) => {
  const { fixed, metres } = first().figures
  return high - low < 0.1 ? metres(best) : words().session.finding.stretch(metres(best), fixed(low, 1), fixed(high, 1))
}

/** The place of the fault on its branch, to scale; or the branch in the cabinet where its wiring is not known. */
export const FindingDrawing = ({ session, finding }: { session: Session; finding: Finding }) => {
  const branch = branchOf(session, finding.branch)
  const { drawings, findings } = words()
  const title = findings.findingTitle(finding, placeOf(session, finding))
  if (branch?.wiring?.length && (finding.run || finding.load))
    return (
      <Picture least={TREE.least} most={TREE.most}>
        {height => (
          <Tree
            alt={drawings.treeAlt(branch.id, branch.wiring ?? [], title)}
            branch={branch}
            height={height}
            mark={{ run: finding.run, along: finding.alongRun, load: finding.load }}
          />
        )}
      </Picture>
    )
  return (
    <Picture least={CABINET.least} most={CABINET.most}>
      {height => (
        <Cabinet
          alt={title}
          height={height}
          branches={session.machine.branches.map(b => b.id)}
          working={finding.branch}
          devices={session.positions.devices}
          fuses={session.machine.branches.filter(b => b.protection?.kind === 'fuse').map(b => b.id)}
          bus={session.positions.bus}
          bond={session.positions.bond}
          ring={finding.fault === 'device-open' ? 'device' : finding.branch ? 'branch' : 'supply'}
        />
      )}
    </Picture>
  )
}

/** Where to go and look, with how far and how sure. */
export const FindingScreen = ({ hunt, request, finding }: { hunt: Hunt; request: Extract<Request, { say: 'step' }>; finding: Finding }) => {
  const { session, since, answer } = hunt
  const { findings, session: say } = words()
  const place = placeOf(session, finding)
  const care = careOf({ kind: 'finding', finding }, session.power)
  const rows: readonly (readonly [string, string | undefined])[] = [
    [say.finding.sure, say.finding.of100(Math.min(99, Math.round(finding.probability * 100)))],
    [say.finding.fromCabinet, finding.fromTerminals && finding.fromTerminals.high > 0 ? stretch(finding.fromTerminals) : undefined],
    [say.finding.loop, finding.loopOhm && ohms(finding.loopOhm)],
    [say.finding.ofIt, finding.faultOhm && ohms(finding.faultOhm)],
  ]
  return (
    <Frame session={session} since={since} head={say.heads.finding}>
      <Title text={findings.findingTitle(finding, place)} step={request.n} />
      <Notice hunt={hunt} />
      {/* The place, the care and both answers are in sight at once; what there is to look for follows below. */}
      <FindingDrawing session={session} finding={finding} />
      {care && <p class="care first">{whole(words().care.atStep[care])}</p>}
      <p>{findings.findingSentence(finding, place)}</p>
      <p>{whole(findings.findingHow(finding, session.power === 'provedDead'))}</p>
      <Pairs rows={rows} />
      <Actions hunt={hunt}>
        <div class="duo">
          <button type="button" class="answer" onClick={() => answer({ confirmed: false })}>
            {say.finding.notThere}
          </button>
          <button type="button" class="primary" onClick={() => answer({ confirmed: true })}>
            {say.finding.here}
          </button>
        </div>
      </Actions>
    </Frame>
  )
}
