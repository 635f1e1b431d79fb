// Switching on in groups after a mend, where the known in-rush of all branches together is more than the supply gives.
import { expect, test } from 'vitest'
import type { Branch, Machine } from '../../engine/machine.ts'
import type { Answer } from '../../engine/step.ts'
import type { Request, Session } from '../../web/flow/request.ts'
import { advance, begin } from '../../web/flow/session.ts'
import { inProcess } from '../bench/inprocess.ts'
import { invent } from '../bench/invent.ts'
import { play } from '../bench/play.ts'
import { answer, smoothly } from './answers.ts'
import { METER } from './machines.ts'
import { atStart, type Watched, watch, wrongWith } from './watch.ts'

const CANNOT: Answer = { cannot: 'out of reach' }
/** In the end a look at each device that may have opened unseen: of all branches but the mended one. */
const others = (m: Machine): string[] => m.branches.slice(1).map(() => 'glance')
/** 24 W on 10 m of 1.5 mm²: 1 A, and by its data sheet 10 A at first, dying away with 0.1 s. */
const branch = (id: string, kind: 'breaker' | 'fuse' = 'breaker'): Branch => ({
  id,
  protection: { kind, rating: 6, ...(kind === 'breaker' ? { curve: 'C' as const } : { fuse: 'F' as const }) },
  wiring: [{ id: `W${id}`, from: 'terminals', to: `J${id}`, length: 10, conductor: { area: 1.5, class: 5 } }],
  loads: [{ id: `H${id}`, at: `J${id}`, kind: 'lamp', watts: 24, inRush: { peak: 10, seconds: 0.1 } }],
})
const machine = (
  limit: number,
  branches: readonly Branch[] = [branch('B1'), branch('B2'), branch('B3'), branch('B4', 'fuse')],
): Machine => ({
  format: 'ohmward.machine',
  version: 1,
  id: 'lamps',
  name: 'Lamps',
  supply: { ratedVoltage: 24, ratedCurrent: 10, limit: { mode: 'constant-current', current: limit }, zeroVoltBonded: true },
  branches,
})
const start = (m: Machine): Session => begin({ type: 'started', machine: m, kit: METER, symptom: 'all-dead' })
const toMend = (m: Machine): Session => smoothly(start(m), r => r.say === 'mend')
const isEnd = (request: Request): boolean => request.say === 'end'
const worded = (r: Request): string => {
  if (r.say !== 'step') return r.say
  if (r.step.kind === 'look') return r.step.look === 'device' ? 'glance' : r.step.look
  if (r.step.kind !== 'act') return r.step.kind
  const { act } = r.step
  return [act.act, 'branch' in act ? act.branch : '', 'to' in act ? act.to : ''].filter(Boolean).join(' ')
}
const asksFrom = (session: Session, from: string): string[] => {
  const asks = session.entries.map(e => worded(e.request))
  return asks.slice(asks.indexOf(from))
}
const closes = (r: Request): boolean =>
  r.say === 'step' && r.step.kind === 'act' && r.step.act.act === 'device' && r.step.act.to === 'closed'

// Cold 24/10 = 2.4 Ω, cable 2 × 10 m × 0.0133 Ω/m × 0.96 = 0.2554 Ω, device 0.0467 Ω, link and joints 0.004 Ω: 2.706 Ω, 8.8 A at first.
// All four: 24 / (2.706 / 4 + 0.014 of the supply) = 34.8 A. Of 20 A two at once, so that two of four come later, each alone.
test('two come with the supply, the fuse among them; the others one after the other, the lamp between, people clear for all', () => {
  const end = smoothly(toMend(machine(20)), isEnd)
  expect(end.request).toMatchObject({ result: 'restored' })
  expect(end.positions).toEqual(start(machine(20)).positions)
  const asks = asksFrom(end, 'mend')
  const on = asks.indexOf('supply on')
  const later = asks.slice(on + 1)
  expect(later).toEqual([
    'supply-lamp',
    expect.stringMatching(/^device B\d closed$/),
    'supply-lamp',
    expect.stringMatching(/^device B\d closed$/),
    'supply-lamp',
    'read',
    ...others(machine(20)),
  ])
  expect(later).not.toContain('device B4 closed')
  // One confirmation, for the supply and for each device that is closed after it.
  const confirmed = end.entries.filter(e => e.request.say === 'confirm' && e.request.caution === 'voltage-may-return')
  expect(confirmed).toHaveLength(1)
  const [first] = confirmed
  expect(
    first?.request.say === 'confirm' &&
      first.request.acts.map(s => worded({ say: 'step', n: 0, seconds: 0, step: s, why: { key: '', facts: {} } })),
  ).toEqual(['supply on', later[1], later[3]])
})

test('the pause is told with the step, and what is opened for it says why', () => {
  const end = smoothly(toMend(machine(20)), isEnd)
  const on = end.entries.findLastIndex(e => worded(e.request) === 'supply on')
  const why = (r: Request) => (r.say === 'step' ? r.why : undefined)
  const pauses = end.entries
    .slice(on)
    .filter(e => closes(e.request))
    .map(e => why(e.request))
  expect(pauses).toEqual([
    { key: 'pause', facts: { seconds: 1 } },
    { key: 'pause', facts: { seconds: 1 } },
  ])
})

test('where all fit at once, all devices are closed before the supply comes on', () => {
  const end = smoothly(toMend(machine(60)), isEnd)
  const asks = asksFrom(end, 'mend')
  expect(asks.slice(asks.indexOf('supply on'))).toEqual(['supply on', 'supply-lamp', 'read', ...others(machine(60))])
})

test('where too few energisings are left, all come with the supply', () => {
  // Seven breakers, of which one or two fit at once: more closings than the six that a session may have.
  const many = machine(
    9,
    ['B1', 'B2', 'B3', 'B4', 'B5', 'B6', 'B7'].map(id => branch(id)),
  )
  const end = smoothly(toMend(many), isEnd)
  expect(end.request).toMatchObject({ result: 'restored' })
  const asks = asksFrom(end, 'mend')
  expect(asks.slice(asks.indexOf('supply on'))).toEqual(['supply on', 'supply-lamp', 'read', ...others(many)])
})

test('a lamp that blinks after one was closed starts the hunt again, the supply off within its time', () => {
  let at = smoothly(toMend(machine(20)), closes)
  while (at.positions.supply === 'off') at = smoothly(answer(at, { done: true }), closes)
  const next = answer(answer(at, { done: true }), { seen: 'blinking' })
  expect(next.finding).toBeUndefined()
  expect(next.request.say).not.toBe('end')
})

/** Nothing was opened for measuring, for it could not be: the supply had no mains. */
const noMains = (): Session => {
  let at = start(machine(20))
  for (let i = 0; i < 60 && at.finding === undefined; i++) {
    const step = at.request.say === 'step' ? at.request.step : undefined
    if (step?.kind === 'look') at = answer(at, { seen: step.look === 'device' ? 'closed' : 'off' })
    else if (step?.kind === 'finding') at = answer(at, { confirmed: step.finding.fault === 'no-mains' })
    else if (step?.kind === 'act' && step.act.act === 'device') at = answer(at, CANNOT)
    else at = answer(at, step?.kind === 'read' ? { value: 20 } : { done: true })
  }
  return at
}
const opensFirst = (r: Request): boolean => r.say === 'step' && r.why.key === 'in-rush'

test('what stands closed and comes later is opened first, and the step says why', () => {
  const end = smoothly(noMains(), isEnd)
  expect(end.request).toMatchObject({ result: 'restored' })
  const opened = end.entries.filter(e => opensFirst(e.request))
  expect(opened.map(e => e.power)).toEqual(['provedDead', 'provedDead'])
  for (const { request } of opened) expect(request.say === 'step' && request.why.facts).toEqual({ ampere: 35, limit: 20 })
  const asks = asksFrom(end, 'mend')
  const closed = asks.slice(asks.indexOf('supply on')).filter(ask => ask.startsWith('device'))
  expect(closed).toEqual(opened.map(e => worded(e.request).replace('open', 'closed')))
})

test('a device that cannot be opened for it comes with the supply', () => {
  const at = smoothly(noMains(), opensFirst)
  const refused = worded(at.request)
  const end = smoothly(answer(at, CANNOT), isEnd)
  expect(end.request).toMatchObject({ result: 'restored' })
  const later = asksFrom(end, 'supply on').filter(ask => ask.startsWith('device'))
  expect(later).toHaveLength(1)
  expect(later).not.toContain(refused.replace('open', 'closed'))
})

test('an onlooker finds nothing wrong on the way back, with every late step refused once or taken back once', () => {
  const mend = toMend(machine(20))
  let steps = 0
  const follow = (odd: 'none' | 'cannot' | 'undone', when: number): void => {
    // From the start, so that the onlooker has seen all of it.
    let session = start(machine(20))
    let watched: Watched = atStart
    for (let i = 0; session.request.say !== 'end' && i < 150; i++) {
      expect(wrongWith(watched, session.request, session.machine, session.kit), `${odd} at ${when}`).toEqual([])
      const usual = smoothly(session, (_, s) => s !== session).entries.at(-1)?.answer
      const given = i === when && odd === 'cannot' ? CANNOT : (usual ?? { done: true })
      watched = watch(watched, session.request, given)
      session = answer(session, given)
      steps++
      if (i === when && odd === 'undone') session = advance(session, { type: 'undone' })
    }
    expect(session.request).toMatchObject({ say: 'end' })
  }
  follow('none', 0)
  for (let when = mend.entries.length; when < mend.entries.length + 12; when++) {
    follow('cannot', when)
    follow('undone', when)
  }
  expect(steps).toBeGreaterThan(400)
})

test('on the bench: invented machines whose data sheets tell ten times the rated current, seeds 1 to 8, none of it unsafe', async () => {
  let groups = 0
  for (let seed = 1; seed <= 8; seed++) {
    const truth = invent(seed)
    const shown: Machine = {
      ...truth.machine,
      branches: truth.machine.branches.map(b => ({
        ...b,
        loads: (b.loads ?? []).map(l =>
          l.kind === 'coil' || l.watts === undefined ? l : { ...l, inRush: { peak: (10 * l.watts) / 24, seconds: 0.1 } },
        ),
      })),
    }
    const { result, restored, unsafe, misstated, transcript } = await play(truth, inProcess(shown, METER), shown, METER)
    expect({ seed, result, restored, unsafe, misstated }).toEqual({ seed, result: 'restored', restored: true, unsafe: [], misstated: 0 })
    if (transcript.some(({ out }) => out.say === 'step' && 'why' in out && JSON.stringify(out.why).includes('pause'))) groups++
  }
  console.info(`${groups} of 8 are switched on in groups`)
  expect(groups).toBeGreaterThan(0)
}, 60_000)
