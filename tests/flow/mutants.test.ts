// Each guard of the rules is switched off in turn, whole or for one kind of request, and the walk must find out.
import { afterEach, expect, test, vi } from 'vitest'
import { type Family, walkAnyPlan } from './anyPlan.ts'
import { FAMILIES, SMALL } from './family.ts'

type Safety = typeof import('../../web/flow/safety.ts')
type Guard = Safety['RULES']['onlyDead']
type Guarded = Parameters<Guard>[0]
type Asked = Parameters<Guard>[1]

/** What the flow calls instead of the real functions, where a test has put something there. */
const seam = vi.hoisted(() => ({ blind: false, uncounted: false, forgets: 'nothing' }))
vi.mock('../../web/flow/safety.ts', async original => {
  const real = await original<Safety>()
  const notExtraLow: Safety['notExtraLow'] = (step, answer) => !seam.blind && real.notExtraLow(step, answer)
  const energises: Safety['energises'] = (positions, act) => !seam.uncounted && real.energises(positions, act)
  return { ...real, notExtraLow, energises }
})
type FlowSession = typeof import('../../web/flow/session.ts')
vi.mock('../../web/flow/session.ts', async original => {
  const real = await original<FlowSession>()
  const keptOf: FlowSession['keptOf'] = (h, then) => {
    const kept = real.keptOf(h, then)
    const { bond: _bond, ...others } = kept.still
    return seam.forgets === 'nothing' ? kept : { ...kept, still: seam.forgets === 'bond' ? others : {} }
  }
  return { ...real, keptOf }
})
const { RULES } = await vi.importActual<Safety>('../../web/flow/safety.ts')
const { RULES: used } = await import('../../web/flow/safety.ts')

afterEach(() => {
  vi.restoreAllMocks()
  seam.blind = false
  seam.uncounted = false
  seam.forgets = 'nothing'
})

const STATES = 1500
/** Breaches that a family shows. */
const found = (family: number, states = STATES): readonly string[] => walkAnyPlan(FAMILIES[family] as Family, states).wrong

const isAct = (asked: Asked, name: string, to?: string): boolean =>
  asked.kind === 'act' && asked.act.act === name && (to === undefined || ('to' in asked.act && asked.act.to === to))
const read = (asked: Asked, meter: string): boolean => asked.kind === 'read' && asked.meter === meter
const fuse = (g: Guarded, asked: Asked): boolean =>
  asked.kind === 'act' &&
  asked.act.act === 'device' &&
  g.plant.machine.branches.some(b => 'branch' in asked.act && b.id === asked.act.branch && b.protection?.kind === 'fuse')

interface Mutant {
  readonly rule: keyof Safety['RULES']
  readonly off: string
  readonly when: (g: Guarded, asked: Asked) => boolean
  readonly breach: RegExp
  /** In which of the families it shows; the first where nothing is said. */
  readonly family?: number
  /** How far to walk where it shows late. */
  readonly states?: number
}
const always = (): boolean => true
const mutants: readonly Mutant[] = [
  { rule: 'onlyDead', off: 'always', when: always, breach: /^1:/ },
  { rule: 'onlyDead', off: 'for ohms', when: (_, asked) => read(asked, 'ohm'), breach: /^1: ohms/ },
  { rule: 'onlyDead', off: 'for a mend', when: (_, asked) => asked.kind === 'mend', breach: /^1: mending/ },
  { rule: 'onlyDead', off: 'for runs', when: (_, asked) => isAct(asked, 'run'), breach: /^1: run/, family: 2 },
  { rule: 'onlyDead', off: 'for the bus', when: (_, asked) => isAct(asked, 'bus'), breach: /^1: bus/, family: 2 },
  { rule: 'onlyDead', off: 'for the bond', when: (_, asked) => isAct(asked, 'bond'), breach: /^1: bond/, family: 2 },
  { rule: 'onlyDead', off: 'for the leads', when: (_, asked) => isAct(asked, 'zero-leads'), breach: /^1: zero-leads/, family: 2 },
  { rule: 'onlyDead', off: 'for proving dead', when: (_, asked) => isAct(asked, 'prove-dead'), breach: /^1: proving/ },
  { rule: 'onlyDead', off: 'for injection', when: (_, asked) => isAct(asked, 'inject', 'on'), breach: /^1: injection/ },
  {
    rule: 'onlyDead',
    off: 'for closing a device',
    when: (_, asked) => isAct(asked, 'device', 'closed'),
    breach: /^1: a device/,
    states: 12_000,
  },
  { rule: 'onlyDead', off: 'for the supply', when: (_, asked) => isAct(asked, 'supply', 'on'), breach: /^1: the supply/, states: 12_000 },
  { rule: 'confirmedFirst', off: 'always', when: always, breach: /^2:/ },
  { rule: 'confirmedFirst', off: 'for the supply', when: (_, asked) => isAct(asked, 'supply', 'on'), breach: /^2: .*supply/ },
  { rule: 'confirmedFirst', off: 'for injection', when: (_, asked) => isAct(asked, 'inject', 'on'), breach: /^2: .*inject/ },
  { rule: 'confirmedFirst', off: 'for a device opened live', when: (_, asked) => isAct(asked, 'device', 'open'), breach: /^2: .*"open"/ },
  {
    rule: 'confirmedFirst',
    off: 'for a device closed live',
    when: (_, asked) => isAct(asked, 'device', 'closed'),
    breach: /^2: .*"closed"/,
  },
  { rule: 'mainsOnlyLooked', off: 'always', when: always, breach: /^3:/ },
  { rule: 'seldomAndShort', off: 'always', when: always, breach: /^5:/ },
  {
    rule: 'seldomAndShort',
    off: 'past the last time',
    when: (g, asked) => g.energised >= 5 && g.positions.supply === 'off' && isAct(asked, 'supply', 'on'),
    breach: /^5: energised too often/,
    states: 8000,
  },
  { rule: 'seldomAndShort', off: 'with the bond lifted', when: g => g.positions.bond === 'opened', breach: /^5: .*bond/, family: 2 },
  { rule: 'seldomAndShort', off: 'past a minute', when: g => g.positions.supply === 'on', breach: /^5: .*too long/ },
  {
    rule: 'seldomAndShort',
    off: 'past the rating',
    when: (g, asked) => isAct(asked, 'inject', 'on') && g.energised < 5,
    breach: /^5: .*rated/,
  },
  { rule: 'withoutLoad', off: 'for fuses', when: fuse, breach: /^6: a fuse/, family: 3 },
  { rule: 'withinKit', off: 'for the clamp', when: (_, asked) => read(asked, 'amp'), breach: /^kit: amperes/ },
  { rule: 'withinKit', off: 'for the injector', when: (_, asked) => isAct(asked, 'inject', 'on'), breach: /^kit: injection/ },
  { rule: 'clearOfFed', off: 'always', when: always, breach: /^a walk along a fed cable/, family: 1 },
]

test.each(mutants)(
  'the walk finds out when $rule is off $off',
  ({ rule, when, breach, family = 0, states }) => {
    const real = RULES[rule]
    vi.spyOn(used, rule).mockImplementation((g, asked) => when(g, asked) || real(g, asked))
    const wrong = found(family, states)
    expect(wrong.some(what => breach.test(what)) || wrong).toBe(true)
  },
  120_000,
)
test('the walk finds out when a dangerous voltage is not seen as one', () => {
  seam.blind = true
  expect(found(0).some(what => what.startsWith('4:'))).toBe(true)
})
test('the walk finds out when energising is not counted', () => {
  seam.uncounted = true
  expect(found(0).some(what => what.startsWith('5: energised'))).toBe(true)
})
test.each([
  { name: 'the supply', forgets: 'all', breach: /^1: proving dead with the supply on/ },
  { name: 'injection', forgets: 'all', breach: /^left with something energised/ },
  { name: 'the link to earth', forgets: 'bond', breach: /^5: .*bond/ },
])(
  'the walk finds out when an act counts as undone because its answer was taken back: $name',
  ({ name, forgets, breach }) => {
    seam.forgets = forgets
    const family = SMALL.find(one => one.name === name)
    expect(family && walkAnyPlan(family, 12_000).wrong.some(what => breach.test(what))).toBe(true)
  },
  120_000,
)
test('with every guard in place it finds nothing', () => {
  expect(found(2)).toEqual([])
})
