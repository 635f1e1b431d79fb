// Every state that any plan whatever can lead to: a planner that knows nothing asks for each step of the vocabulary in each state, with
// a confirmation before it or without. What the rules let through is answered in every way, taken back, handed over and stopped.
// What is left out of a state, so that there are finitely many:
// - what is believed: at each request a short circuit may be suspected or not, whatever was read before;
// - the list of what was answered, refused and set aside, which only narrows what is asked, and here everything is asked;
// - how often a voltage was found that stays: that only puts a confirmation in between;
// - seconds under voltage go up in steps of `quantum` to sixty, and one to four times energised count as never or as five, both.
// So more states are walked than a session can reach, never fewer, as far as the rules can tell. Kits change from request to request.
import { begin as believe } from '../../engine/belief.ts'
import type { Machine } from '../../engine/machine.ts'
import type { Act, Answer, Finding } from '../../engine/step.ts'
import { keyOf as keyOfStep } from '../../engine/way.ts'
import { answered } from '../../web/flow/answered.ts'
import { breach, decide, leaveAs } from '../../web/flow/decide.ts'
import { atWorst, equipped, type Hunt, leftAlone, NOTHING, startOf } from '../../web/flow/hunt.ts'
import type { Tools } from '../../web/flow/request.ts'
import { cautionFor } from '../../web/flow/safety.ts'
import { keptOf } from '../../web/flow/session.ts'
import { chance } from '../bench/random.ts'
import { answersTo } from './answers.ts'
import { act, bare, byItself, isOfKit, isOnMains, KITS, MEND, settled, stepsOf, told } from './anyStep.ts'
import { atStart, away, keyOf as keyOfAct, leaves, takenBack, type Watched, watch, wrongWith } from './watch.ts'

export interface Family {
  readonly name: string
  readonly machine: Machine
  /** Which acts the planner thinks of; looks, readings, findings and the mend it always does. */
  readonly acts: readonly Act['act'][]
  readonly findings: readonly Finding[]
  readonly quantum: number
}
export interface Walked {
  readonly states: number
  readonly transitions: number
  readonly refused: number
  readonly wrong: readonly string[]
  /** Nothing was left to walk. */
  readonly whole: boolean
}

/** Energised from one up to less than this counts as never and as this often, both: the rules ask for five and six. */
const FEW = 5
const LONGEST = 60
const OTHER_TOOLS: Tools = { injector: { ampere: 2, volts: 24 } }
/** A walk that finds this much is broken enough. */
const MOST_WRONG = 5

/** What is asked for: the hunt with its request, and whether what comes of it is followed. */
interface Asked {
  readonly hunt: Hunt
  readonly follow: boolean
}
interface Place {
  readonly hunt: Hunt
  readonly watched: Watched
  /** Numbers of the states that lie one answer back. */
  readonly before: Set<number>
  /** States that this one was taken back to by an undo: whatever lies before this one lies before them too. */
  readonly heirs: Set<number>
}

const sorted = (set: Iterable<string>): string[] => [...set].sort()
/** All that the rules, the way back and the onlooker can tell states apart by. */
const keyOf = (h: Hunt, w: Watched): string =>
  JSON.stringify([
    { ...h.positions, unplugged: sorted(h.positions.unplugged), openedRuns: sorted(h.positions.openedRuns) },
    h.found.devices,
    [h.provedDead, h.energised, h.liveSeconds, h.pulses, h.briefed, h.leaving, h.insists, h.still],
    sorted(h.unsure),
    sorted(h.covered),
    h.ahead,
    [...h.refusals],
    h.repair === undefined ? 0 : [h.repair, sorted(h.repair.checked), sorted(h.taken)],
    w,
  ])

/** A state without what does not count; several, where it stands for several. */
const plain = (h: Hunt, w: Watched, start: Hunt, quantum: number): [Hunt, Watched][] => {
  const inSearch = h.repair === undefined
  const up = (seconds: number): number => Math.min(Math.ceil(seconds / quantum) * quantum, LONGEST)
  const hunt: Hunt = {
    ...h,
    kit: start.kit,
    belief: start.belief,
    entries: [],
    seconds: 0,
    why: NOTHING,
    zeroed: false,
    setAside: new Set(),
    refusals: h.leaving === undefined ? new Map() : h.refusals,
    taken: inSearch ? new Set() : h.taken,
    ahead: h.ahead.filter(step => h.covered.has(keyOfStep(step))),
    stays: 0,
    warned: false,
    liveSeconds: up(h.liveSeconds),
    request: start.request,
    stage: start.stage,
  }
  // Credit for proofs only counts on the way back; without it the onlooker is stricter.
  const proofs = inSearch ? { mended: false, ohmAfterMend: false, lamp: false, volts: false } : {}
  // Of what the onlooker would still let through, only what the flow counts on can be asked for: an undo takes from it, never adds.
  const counted = new Set([...h.covered].map(key => keyOfAct(JSON.parse(key).act)))
  const relied = { covered: w.covered.filter(key => counted.has(key)), proved: w.proved && h.provedDead }
  const watched: Watched = {
    ...w,
    ...proofs,
    ...relied,
    live: up(w.live),
    offRefused: h.leaving === undefined ? 0 : Math.min(w.offRefused, 2),
  }
  // The flow may have counted one that was none: a device closed after switching off was taken back in the log.
  const counts = h.energised > 0 && h.energised < FEW ? [0, FEW] : [h.energised]
  return counts.map(energised => [
    { ...hunt, energised },
    { ...watched, energised },
  ])
}

/** Answers that can make a difference: in the search a harmless voltage is as good as another. */
const answersIn = (h: Hunt): readonly Answer[] => {
  const { request } = h
  const all = answersTo(h)
  if (h.repair !== undefined || request.say !== 'step' || request.step.kind !== 'read') return all
  const { meter } = request.step
  return all.filter((a, i) => i === 0 || 'cannot' in a || (meter === 'volt' && ('ac' in a || ('value' in a && a.value === 70))))
}

/** Takes any of a list, the same one each time: what is walked of a set too large for the walk is no one corner of it. */
const anyOf = (): ((list: number[]) => number | undefined) => {
  const luck = chance(1)
  return list => {
    const at = luck.whole(0, Math.max(list.length - 1, 0))
    const last = list.pop()
    if (last === undefined || at === list.length) return last
    const taken = list[at]
    list[at] = last
    return taken
  }
}

export const walkAnyPlan = (family: Family, mostStates = Number.POSITIVE_INFINITY): Walked => {
  const { machine, quantum, acts, findings } = family
  const start = startOf(machine, {}, 'all-dead')
  const beliefs = [believe(start.plant, {}, 'all-dead'), { ...believe(start.plant, {}, 'all-dead'), other: 1000 }]
  const vocabulary = stepsOf(machine, ({ act: name }) => acts.includes(name), findings)
  const places: Place[] = []
  const numbers = new Map<string, number>()
  const wrong: string[] = []
  let transitions = 0
  let refused = 0
  const queue: number[] = []
  const oneOf = anyOf()
  /** Pairs of a state and one that lies before it, whose undo is still to be walked. */
  const pairs: [number, number][] = []

  const link = (at: number, before: number): void => {
    const todo: [number, number][] = [[at, before]]
    for (let pair = todo.pop(); pair !== undefined; pair = todo.pop()) {
      const place = places[pair[0]] as Place
      if (place.before.has(pair[1])) continue
      place.before.add(pair[1])
      pairs.push(pair)
      for (const heir of place.heirs) todo.push([heir, pair[1]])
    }
  }
  const enter = (h: Hunt, w: Watched): number[] => {
    if (h.energised < w.energised) wrong.push(`5: energised ${w.energised} times, counted ${h.energised}`)
    return plain(h, w, start, quantum).map(([hunt, watched]) => {
      const key = keyOf(hunt, watched)
      const known = numbers.get(key)
      if (known !== undefined) return known
      const number = places.length
      numbers.set(key, number)
      places.push({ hunt, watched, before: new Set(), heirs: new Set() })
      queue.push(number)
      return number
    })
  }

  /** Everything that may be asked for in a state. */
  const asks = (h: Hunt): Asked[] => {
    const own = settled(byItself(h) ?? h)
    const asked: Asked[] = own === undefined || own === 'stuck' || own.request === h.request ? [] : [{ hunt: own, follow: true }]
    if (!h.briefed || h.leaving !== undefined) return asked
    const inSearch = h.repair === undefined
    const add = (next: Hunt, follow = h.repair === undefined): void => {
      if (breach(next) !== undefined) refused++
      const hunt = settled(next)
      if (hunt === 'stuck') wrong.push(`no way out of ${told(next.request)} in ${keyOf(next, atStart)}`)
      else if (hunt !== undefined) asked.push({ hunt, follow })
    }
    for (const step of vocabulary) {
      for (const kit of isOfKit(step) ? KITS : [h.kit]) {
        const at = { ...h, kit }
        add(bare(at, step), inSearch && !isOnMains(step))
        if (inSearch && cautionFor({ positions: atWorst(h), suspected: false }, step) !== undefined) add(decide({ ...at, ahead: [step] }))
      }
    }
    add({ ...h, request: MEND }, false)
    if (inSearch) add(decide({ ...h, ahead: machine.branches.map(b => act({ act: 'device', branch: b.id, to: 'closed' })) }))
    return asked
  }
  const judge = (watched: Watched, h: Hunt): void => {
    for (const what of wrongWith(watched, h.request, machine, h.kit)) wrong.push(`${what} at ${told(h.request)} in ${keyOf(h, watched)}`)
  }
  /** The end is judged there and then: what is taken back from it is what it came from. */
  const follow = (number: number, h: Hunt, w: Watched): void => {
    if (h.result === undefined) for (const next of enter(h, w)) link(next, number)
    else judge(w, decide(h))
  }
  const answerAll = (number: number, h: Hunt): void => {
    const { watched } = places[number] as Place
    for (const given of answersIn(h)) {
      transitions++
      follow(number, answered(h, given), watch(watched, h.request, given))
    }
  }
  const visit = (number: number): void => {
    const { hunt, watched } = places[number] as Place
    const seen = new Set<string>()
    for (const belief of hunt.pulses ? beliefs.slice(0, 1) : beliefs) {
      for (const asked of asks({ ...hunt, belief })) {
        const key = told(asked.hunt.request) + JSON.stringify([asked.hunt.kit, asked.follow, asked.hunt.ahead])
        if (seen.has(key)) continue
        seen.add(key)
        judge(watched, asked.hunt)
        if (asked.follow) answerAll(number, asked.hunt)
      }
      transitions++
      follow(number, leaveAs({ ...hunt, belief }, 'handed-over'), leaves(watched))
    }
    transitions += 2
    follow(number, equipped(hunt, OTHER_TOOLS), watched)
    // To be taken up again is nothing that can be taken back: what lies before the state lies before this one.
    for (const next of enter(leftAlone(hunt), away(watched))) inherit(number, next)
  }
  const inherit = (number: number, next: number): void => {
    const place = places[number] as Place
    place.heirs.add(next)
    for (const earlier of place.before) link(next, earlier)
  }
  const takeBack = ([at, before]: [number, number]): void => {
    const now = places[at] as Place,
      then = places[before] as Place
    transitions++
    const hunt = { ...then.hunt, ...keptOf(now.hunt, then.hunt) }
    for (const next of enter(hunt, takenBack(now.watched, then.watched))) inherit(before, next)
  }

  enter(start, atStart)
  while (wrong.length < MOST_WRONG && places.length < mostStates) {
    const number = oneOf(queue)
    const pair = number === undefined ? pairs.pop() : undefined
    if (number !== undefined) visit(number)
    else if (pair !== undefined) takeBack(pair)
    else break
  }
  return { states: places.length, transitions, refused, wrong, whole: queue.length + pairs.length === 0 }
}
