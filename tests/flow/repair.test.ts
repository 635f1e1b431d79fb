// The way back: from a confirmed finding to a machine that is proved to run, with all that can go wrong late.
import { expect, test } from 'vitest'
import type { Answer, Step } from '../../engine/step.ts'
import type { Request, Session } from '../../web/flow/request.ts'
import { begin } from '../../web/flow/session.ts'
import { inProcess } from '../bench/inprocess.ts'
import { invent } from '../bench/invent.ts'
import { play } from '../bench/play.ts'
import { answer, smoothly } from './answers.ts'
import { INJECTOR, known, METER, unknown } from './machines.ts'

const CANNOT: Answer = { cannot: 'out of reach' }
const stepOf = ({ request }: Session): Step | undefined => (request.say === 'step' ? request.step : undefined)
const isAct = (request: Request, act: string, to: string): boolean =>
  request.say === 'step' &&
  request.step.kind === 'act' &&
  request.step.act.act === act &&
  'to' in request.step.act &&
  request.step.act.to === to
const isRead = (request: Request, meter: string): boolean =>
  request.say === 'step' && request.step.kind === 'read' && request.step.meter === meter
const isLamp = (request: Request): boolean => request.say === 'step' && request.step.kind === 'look' && request.step.look === 'supply-lamp'
const isEnd = (request: Request): boolean => request.say === 'end'

const start = (machine = known, kit = METER): Session => begin({ type: 'started', machine, kit, symptom: 'all-dead' })
const mending = (machine = known, kit = METER): Session => smoothly(start(machine, kit), r => r.say === 'mend')
const checking = (machine = known): Session => smoothly(answer(mending(machine), { done: true }), r => isRead(r, 'ohm'))
const on = (machine = known): Session =>
  answer(
    smoothly(mending(machine), r => isAct(r, 'supply', 'on')),
    { done: true },
  )
const asksOf = (session: Session): string[] =>
  session.entries.map(({ request: r }) =>
    r.say !== 'step' ? r.say : r.step.kind === 'act' ? `${r.step.act.act} ${'to' in r.step.act ? r.step.act.to : ''}`.trim() : r.step.kind,
  )
const place = (session: Session): string | undefined => {
  const step = stepOf(session)
  return step?.kind === 'read' && step.meter !== 'amp' ? step.red : undefined
}

test('without a hitch: mended dead, ohms, devices, confirmation, supply, lamp, voltage, the other device, restored', () => {
  const end = smoothly(start(), isEnd)
  expect(end.request).toMatchObject({ say: 'end', result: 'restored' })
  const asks = asksOf(end)
  const after = asks.slice(asks.indexOf('mend'))
  expect(after.filter(ask => !ask.startsWith('device'))).toEqual(['mend', 'read', 'confirm', 'supply on', 'look', 'read', 'look'])
  expect(after.filter(ask => ask === 'device closed').length).toBeGreaterThan(0)
  expect(end.positions).toEqual(start().positions)
})

test('low ohms after the mend are read once more; low again, and the hunt starts again', () => {
  const first = checking()
  const once = answer(first, { value: 0.2 })
  expect(stepOf(once)).toEqual(stepOf(first))
  expect(once.finding).toBeDefined()
  expect(answer(once, { value: 24 }).finding).toBeDefined()
  const twice = answer(once, { value: 0.2 })
  expect(twice.finding).toBeUndefined()
  expect(twice.request.say).not.toBe('end')
})

test('a voltage that is wrong: first the device, then the voltage again under a steady lamp; wrong three times, and the hunt starts again', () => {
  const volts = answer(on(), { seen: 'steady' })
  expect(isRead(volts.request, 'volt')).toBe(true)
  const doubted = answer(volts, { value: 2.4 })
  expect(stepOf(doubted)).toMatchObject({ kind: 'look', look: 'device' })
  const again = answer(doubted, { seen: 'closed' })
  expect(stepOf(again)).toEqual(stepOf(volts))
  expect(smoothly(answer(again, { value: 24 }), isEnd).request).toMatchObject({ say: 'end', result: 'restored' })
  const twice = answer(again, { value: 2.4 })
  expect(twice.finding).toBeDefined()
  // Longer than a suspected short circuit may be live: off and on again for the third.
  const third = smoothly(twice, r => isRead(r, 'volt'))
  expect(third.energised).toBe(2)
  expect(smoothly(answer(third, { value: 24 }), isEnd).request).toMatchObject({ say: 'end', result: 'restored' })
  expect(answer(third, { value: 2.4 }).finding).toBeUndefined()
  const tripped = answer(doubted, { seen: 'tripped' })
  expect(tripped.finding).toBeUndefined()
  expect(Object.values(tripped.positions.devices)).toContain('tripped')
})
test.each([
  { answer: { value: 24, unsteady: true }, why: 'it will not settle' },
  { answer: { value: 24, ac: true }, why: 'it alternates' },
  { answer: { value: 20.3 }, why: 'it is too low' },
  { answer: { value: 28.9 }, why: 'it is too high' },
  { answer: { value: -24 }, why: 'plus and 0 V are swapped' },
] as const)('$answer does not prove the 24 V: $why', ({ answer: given }) => {
  expect(answer(answer(on(), { seen: 'steady' }), given).request.say).toBe('step')
})
test.each(['blinking', 'off'] as const)(
  'a lamp that is %s after the mend starts the hunt again, and what blinks is switched off in time',
  seen => {
    const next = answer(on(), { seen })
    expect(next.finding).toBeUndefined()
    if (seen === 'off') return
    let at = next
    let live = 5
    for (let i = 0; i < 10 && at.positions.supply === 'on'; i++) {
      if (at.request.say === 'step') live += at.request.seconds
      at = smoothly(answer(at, isAct(at.request, 'supply', 'off') ? { done: true } : CANNOT), () => true)
    }
    expect(at.positions.supply).toBe('off')
    expect(live).toBeLessThanOrEqual(60)
  },
)

test('a lamp that cannot be seen is asked for again after the voltage; nothing else ends as restored', () => {
  let at = on()
  const asked: boolean[] = []
  for (let i = 0; i < 12 && at.request.say !== 'end'; i++) {
    asked.push(isLamp(at.request))
    at = isLamp(at.request) ? answer(at, CANNOT) : answer(at, stepOf(at)?.kind === 'look' ? { seen: 'closed' } : { value: 24 })
  }
  expect(asked).toEqual([true, false, false, true, true, true])
  expect(at.request).toMatchObject({ say: 'end', result: 'handed-over' })
})
test('a voltage that cannot be read is read at the junction, then at the bus, then all once more', () => {
  let at = answer(on(), { seen: 'steady' })
  const places: (string | undefined)[] = []
  for (let i = 0; i < 4; i++) {
    places.push(place(at))
    at = answer(at, CANNOT)
  }
  const branch = places[0]?.slice(0, 2)
  expect(places).toEqual([`${branch}.plus`, `${branch}/J${branch?.slice(1)}.plus`, 'bus.plus', `${branch}.plus`])
  expect(smoothly(answer(at, { value: 24 }), isEnd).request).toMatchObject({ say: 'end', result: 'restored' })
})
test('ohms that cannot be read at the terminals are read at the junction', () => {
  const next = answer(checking(), CANNOT)
  expect(place(next)).toMatch(/^B\d\/J\d\.plus$/)
})
test('where a device cannot be opened, the mend is checked at the bus', () => {
  const opening = (request: Request): boolean => isAct(request, 'device', 'open')
  let at = smoothly(start(unknown), opening)
  // No branch of this machine has a device that can be opened.
  for (let i = 0; i < 60 && at.request.say !== 'end' && !(at.finding !== undefined && isRead(at.request, 'ohm')); i++)
    at = opening(at.request) ? answer(at, CANNOT) : smoothly(at, (r, s) => opening(r) || (s.finding !== undefined && isRead(r, 'ohm')))
  expect(place(at)).toBe('bus.plus')
  expect(smoothly(at, isEnd).request).toMatchObject({ say: 'end', result: 'restored' })
})
test.each([
  { what: 'the supply', until: (r: Request) => isAct(r, 'supply', 'on') },
  { what: 'a device', until: (r: Request) => isAct(r, 'device', 'closed') },
  { what: 'the confirmation', until: (r: Request) => r.say === 'confirm' && r.caution === 'voltage-may-return' },
])('$what refused late is asked for again, at most four times in all', ({ until }) => {
  let at = smoothly(mending(), until)
  const { request } = at
  for (let i = 0; i < 3; i++) {
    // A confirmation that was given for it may have to be given again.
    at = smoothly(answer(at, CANNOT), until)
    expect({ ...at.request, n: 0 }).toEqual({ ...request, n: 0 })
  }
  expect(smoothly(at, isEnd).request).toMatchObject({ result: 'restored' })
  expect(answer(at, CANNOT).request).toMatchObject({ say: 'end', result: 'handed-over' })
})
test('a mend that cannot be done is handed over, the finding in the log', () => {
  const end = answer(mending(), CANNOT)
  expect(end.request).toMatchObject({ say: 'end', result: 'handed-over' })
  expect(end.finding).toBeDefined()
})

test.each([
  { fault: 'no mains', looks: { 'supply-lamp': 'off', 'mains-lamp': 'off' }, finding: 'no-mains' },
  { fault: 'a dead supply', looks: { 'supply-lamp': 'off', 'mains-lamp': 'on' }, finding: 'supply-dead' },
] as const)('$fault: looks, sound ohms, the finding, and the same way back', ({ looks, finding }) => {
  let at = start()
  for (let i = 0; i < 60 && at.request.say !== 'end' && at.finding === undefined; i++) {
    const step = stepOf(at)
    if (step?.kind === 'look') at = answer(at, { seen: step.look === 'device' ? 'closed' : looks[step.look] })
    else if (step?.kind === 'read') at = answer(at, { value: 20 })
    else if (step?.kind === 'finding') at = answer(at, { confirmed: step.finding.fault === finding })
    else at = smoothly(answer(at, { done: true }), () => true)
  }
  expect(at.finding?.fault).toBe(finding)
  const end = smoothly(at, isEnd)
  expect(end.request).toMatchObject({ say: 'end', result: 'restored' })
  expect(asksOf(end).slice(asksOf(end).indexOf('mend'))).toContain('read')
})

test('a device found tripped is closed in the end, on clean ohms of its branch', () => {
  let at = begin({ type: 'started', machine: known, kit: METER, symptom: 'trips-again' })
  for (let i = 0; i < 60 && at.request.say !== 'end'; i++) {
    const step = stepOf(at)
    at =
      step?.kind === 'look' && step.look === 'device' && step.branch === 'B1'
        ? answer(at, { seen: 'tripped' })
        : smoothly(at, r => r !== at.request)
  }
  expect(at.request).toMatchObject({ result: 'restored' })
  expect(at.positions.devices).toEqual({ B1: 'closed', B2: 'closed' })
  const checked = at.entries.findLastIndex(({ request: r }) => isRead(r, 'ohm'))
  const closed = at.entries.findLastIndex(({ request: r }) => isAct(r, 'device', 'closed'))
  expect(checked).toBeLessThan(closed)
})

const provesDead = (r: Request): boolean => r.say === 'step' && r.step.kind === 'act' && r.step.act.act === 'prove-dead'
test('a voltage that stays is followed to the branch that another supply feeds: voltages and devices only, until it is proved dead', () => {
  let at = answer(smoothly(start(), provesDead), { volts: 23.8 })
  expect(at.request).toMatchObject({ say: 'confirm', caution: 'voltage-stays' })
  expect(at.power).toBe('off')
  at = answer(at, { done: true })
  for (let i = 0; i < 12 && stepOf(at)?.kind !== 'finding'; i++) {
    const step = stepOf(at)
    if (step?.kind === 'act') {
      expect(step.act).toMatchObject({ act: 'device', to: 'open' })
      at = answer(at, { done: true })
      continue
    }
    expect(step).toMatchObject({ kind: 'read', meter: 'volt' })
    const isFed = place(at) === 'B1.plus' || (place(at) === 'bus.plus' && at.positions.devices['B1'] === 'closed')
    at = answer(at, { value: isFed ? 23.7 : 0 })
  }
  expect(stepOf(at)).toMatchObject({ kind: 'finding', finding: { fault: 'backfeed', branch: 'B1' } })
  at = answer(at, { confirmed: true })
  expect(provesDead(at.request)).toBe(true)
  at = answer(at, { done: true })
  expect(at.request.say).toBe('mend')
  at = smoothly(
    at,
    r => isRead(r, 'ohm') && r.say === 'step' && r.step.kind === 'read' && r.step.meter !== 'amp' && r.step.red === 'bus.plus',
  )
  // What was out of service was something else: the bus tells, and the hunt goes on.
  at = answer(answer(at, { value: 0.4 }), { value: 0.4 })
  expect(at.finding).toBeUndefined()
})
test('a place that was mended three times in vain hands the job over instead of asking for a fourth mend', () => {
  let at = start()
  let mends = 0
  for (let i = 0; i < 400 && at.request.say !== 'end'; i++) {
    if (at.request.say === 'mend') mends++
    const isLow = isRead(at.request, 'ohm') && (place(at)?.startsWith('B2') || place(at) === 'bus.plus')
    at = isLow ? answer(at, { value: 0.5 }) : smoothly(at, r => r !== at.request)
  }
  expect(at.request).toMatchObject({ say: 'end', result: 'handed-over' })
  expect(mends).toBe(3)
})
test('a voltage that stays three times hands the job over', () => {
  let at = smoothly(start(), provesDead)
  for (const volts of [23.8, 23.8]) {
    at = answer(answer(at, { volts }), { done: true })
    // Another way is not open: no device can be opened, no voltage read.
    for (let i = 0; i < 40 && !provesDead(at.request) && at.request.say !== 'end'; i++) at = answer(at, CANNOT)
  }
  expect(answer(at, { volts: 23.8 }).request).toMatchObject({ say: 'end', result: 'handed-over', caution: 'voltage-stays' })
  expect(answer(at, { volts: 0.3 }).power).toBe('provedDead')
  expect(answer(at, { volts: 70 }).request).toMatchObject({ say: 'end', result: 'stopped', caution: 'not-extra-low-voltage' })
})
test('after an injection it is proved dead again before ohms, mend or plugs', async () => {
  let injected = 0
  for (let seed = 1; seed <= 16; seed++) {
    const truth = invent(seed, { branches: 2 })
    const { transcript, result } = await play(truth, inProcess(truth.machine, INJECTOR), truth.machine, INJECTOR)
    expect(result).toBe('restored')
    let isDead = false
    for (const { out } of transcript) {
      const request = out as Request
      if (request.say === 'mend' || isRead(request, 'ohm') || isAct(request, 'run', 'opened')) expect(isDead).toBe(true)
      if (isAct(request, 'inject', 'on')) injected++
      if (isAct(request, 'inject', 'on') || isAct(request, 'inject', 'off')) isDead = false
      if (request.say === 'step' && request.step.kind === 'act' && request.step.act.act === 'prove-dead') isDead = true
    }
  }
  expect(injected).toBeGreaterThan(2)
})
test('before handing over, what was refused once is offered once more', () => {
  let at = start()
  const refused = new Map<string, number>()
  for (let i = 0; i < 100 && at.request.say !== 'end'; i++) {
    const { request } = at
    if (request.say === 'step' && request.step.kind === 'read') {
      const key = JSON.stringify(request.step)
      refused.set(key, (refused.get(key) ?? 0) + 1)
      at = answer(at, CANNOT)
    } else if (request.say === 'step' && request.step.kind === 'finding') at = answer(at, { confirmed: false })
    else at = smoothly(at, r => r !== request)
  }
  expect(at.request).toMatchObject({ say: 'end', result: 'handed-over' })
  expect(Math.max(...refused.values())).toBe(2)
})
