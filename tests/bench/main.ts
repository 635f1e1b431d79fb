// npm run bench -- [--n 300] [--seed 1] [--only injector|meter|count|otherCount|open|other|steps|methods]
//   [--one SEED] [--cannot 0.05] [--wrong 0.02] [--drive]
import type { Kit, Machine } from '../../engine/machine.ts'
import { inProcess } from './inprocess.ts'
import { type InventOptions, invent } from './invent.ts'
import { methodTable } from './methods.ts'
import { countOnly, type Played, play } from './play.ts'
import { seedOf } from './random.ts'
import { liveHabit, oneByOne } from './rivals.ts'
import { spawned } from './spawned.ts'
import { heading, type Outcome, quantile, row, troubles } from './table.ts'
import type { Truth } from './truth.ts'
import type { Wizard } from './wizard.ts'

const INJECTOR: Kit = { injector: { ampere: 1, volts: 24 } }
interface Setup {
  readonly name: string
  readonly kit: Kit
  readonly shown: (machine: Machine) => Machine
  readonly options: InventOptions
}
const SETUPS: Readonly<Record<string, Setup>> = {
  injector: { name: 'with injector', kit: INJECTOR, shown: m => m, options: {} },
  meter: { name: 'meter only', kit: {}, shown: m => m, options: {} },
  count: { name: 'branch count only', kit: {}, shown: countOnly, options: {} },
  otherCount: { name: 'the same, count only', kit: {}, shown: countOnly, options: { fault: 'other' } },
  open: { name: 'conductor open', kit: {}, shown: m => m, options: { fault: 'open' } },
  other: { name: 'no short holds it down', kit: {}, shown: m => m, options: { fault: 'other' } },
}
/** So many machines of 24 branches are enough for the time of a step. */
const STEP_MACHINES = 20

const option = (name: string): string | undefined => {
  const at = process.argv.indexOf(`--${name}`)
  return at < 0 ? undefined : (process.argv[at + 1] ?? '')
}
const count = Number(option('n') ?? 300)
const seed = Number(option('seed') ?? 1)
/** Shares of answers that are 'cannot', and of readings misread. */
const habits = { cannot: Number(option('cannot') ?? 0), wrong: Number(option('wrong') ?? 0) }
const only = option('only')
const one = option('one')
const lead = (machine: Machine, kit: Kit): Wizard => (process.argv.includes('--drive') ? spawned(machine, kit) : inProcess(machine, kit))

const playOne = (truth: Truth, setup: Setup): Promise<Played> => {
  const shown = setup.shown(truth.machine)
  return play(truth, lead(shown, setup.kit), shown, setup.kit, habits)
}
const print = (text: string): void => {
  process.stdout.write(`${text}\n`)
}

const playSetup = async (setup: Setup): Promise<Outcome[]> => {
  const outcomes: Outcome[] = []
  for (let i = 0; i < count; i++) {
    const own = seedOf(seed, i)
    const truth = invent(own, setup.options)
    const rivals =
      setup.options.fault !== undefined ? {} : { oneByOne: oneByOne(truth), kindest: oneByOne(truth, true), live: liveHabit(truth) }
    outcomes.push({ seed: own, fault: truth.fault.kind, played: await playOne(truth, setup), ...rivals })
  }
  return outcomes
}

const stepTimes = async (): Promise<string> => {
  const setup = SETUPS['injector'] as Setup
  const millis: number[] = []
  for (let i = 0; i < STEP_MACHINES; i++) millis.push(...(await playOne(invent(seedOf(seed, i), { branches: 24 }), setup)).millis)
  const [half, most, all] = [0.5, 0.95, 1].map(share => quantile(millis, share).toFixed(1))
  return `next step, ${STEP_MACHINES} machines of 24 branches, ${millis.length} steps: p50 ${half} ms, p95 ${most} ms, longest ${all} ms`
}

const wanted = Object.entries(SETUPS).filter(([key]) => only === undefined || only === key)
if (one !== undefined) {
  for (const [, setup] of wanted) {
    const truth = invent(Number(one), setup.options)
    const { transcript, ...score } = await playOne(truth, setup)
    print(
      `${setup.name}: ${JSON.stringify({ fault: truth.fault, supply: truth.supply, lamp: truth.lampUnderLimit, branches: truth.machine.branches.length })}`,
    )
    for (const { out, answer } of transcript) print(`${JSON.stringify(out)}\n    -> ${JSON.stringify(answer)}`)
    print(JSON.stringify({ ...score, millis: undefined }))
  }
} else if (only === 'methods') print(methodTable())
else {
  print(`seed ${seed}; seconds by the table of costs; the habits' seconds are to the same place`)
  print(heading())
  for (const [, setup] of wanted) {
    const outcomes = await playSetup(setup)
    print(row(setup.name, outcomes))
    for (const line of troubles(outcomes)) print(line)
  }
  if (only === undefined || only === 'steps') print(await stepTimes())
}
