// npm run bench -- [--n 300] [--seed 1] [--only injector|meter|count|otherCount|open|other|faults|steps|sizes|methods|optimum]
//   [--one SEED] [--kind 'in-rush'] [--cannot 0.05] [--wrong 0.02] [--slips] [--second 0.05] [--intermittent 0.05] [--outside] [--drive] [--foretold]
import { begin } from '../../engine/belief.ts'
import type { Kit, Machine } from '../../engine/machine.ts'
import { plantOf } from '../../engine/plant.ts'
import { foretellings, foretoldLine } from './foretold.ts'
import { inProcess } from './inprocess.ts'
import { type InventOptions, invent } from './invent.ts'
import { KINDS } from './kinds.ts'
import { methodTable } from './methods.ts'
import { againstOptimum } from './optimum.ts'
import { countOnly, type Played, play } from './play.ts'
import { seedOf } from './random.ts'
import { liveHabit, oneByOne } from './rivals.ts'
import { spawned } from './spawned.ts'
import { heading, type Outcome, quantile, row, troubles } from './table.ts'
import { shortOf, type Truth } from './truth.ts'
import type { Wizard } from './wizard.ts'

const INJECTOR: Kit = { injector: { ampere: 1, volts: 24 } }
interface Setup {
  readonly name: string
  readonly kit: Kit
  readonly shown: (machine: Machine) => Machine
  readonly options: InventOptions
  readonly tells?: boolean
  /** A log that has found a short circuit in the branch at fault and nowhere else a million times. */
  readonly foreknown?: boolean
}
const SETUPS: Readonly<Record<string, Setup>> = {
  injector: { name: 'with injector', kit: INJECTOR, shown: m => m, options: {} },
  meter: { name: 'meter only', kit: {}, shown: m => m, options: {} },
  count: { name: 'branch count only', kit: {}, shown: countOnly, options: {} },
  otherCount: { name: 'the same, count only', kit: {}, shown: countOnly, options: { fault: 'other' } },
  foreknown: { name: 'branch known before', kit: INJECTOR, shown: m => m, options: {}, foreknown: true },
  open: { name: 'conductor open', kit: {}, shown: m => m, options: { fault: 'open' } },
  openTold: { name: 'the same, named', kit: {}, shown: m => m, options: { fault: 'open' }, tells: true },
  other: { name: 'no short holds it down', kit: {}, shown: m => m, options: { fault: 'other' } },
}
/** So many machines of 24 branches are enough for the time of a step. */
const STEP_MACHINES = 20
const SIZE_MACHINES = 6

const option = (name: string): string | undefined => {
  const at = process.argv.indexOf(`--${name}`)
  return at < 0 ? undefined : (process.argv[at + 1] ?? '')
}
const count = Number(option('n') ?? 300)
const seed = Number(option('seed') ?? 1)
/** Shares of answers that are 'cannot', and of readings misread. */
const habits = { cannot: Number(option('cannot') ?? 0), wrong: Number(option('wrong') ?? 0), slips: process.argv.includes('--slips') }
/** Shares of machines with a second fault, and of short circuits that come and go. */
const more = {
  second: Number(option('second') ?? 0),
  intermittent: Number(option('intermittent') ?? 0),
  outside: process.argv.includes('--outside'),
}
const kind = option('kind')
const only = option('only')
const one = option('one')
const lead = (machine: Machine, kit: Kit): Wizard => (process.argv.includes('--drive') ? spawned(machine, kit) : inProcess(machine, kit))

const playOne = (truth: Truth, setup: Setup): Promise<Played> => {
  const shown = setup.shown(truth.machine)
  const wizard = lead(shown, setup.kit)
  const { branch } = shortOf(truth.fault) ?? {}
  const learned = setup.foreknown && branch !== undefined ? { learned: [{ fault: 'short', branch, times: 1e6 }] } : {}
  const start: Wizard['start'] = (symptom, told) => wizard.start(symptom, { ...told, ...learned })
  return play(truth, { ...wizard, start }, shown, setup.kit, { ...habits, tells: setup.tells ?? false })
}
const print = (text: string): void => {
  process.stdout.write(`${text}\n`)
}

const playSetup = async (setup: Setup): Promise<Outcome[]> => {
  const outcomes: Outcome[] = []
  for (let i = 0; i < count; i++) {
    const own = seedOf(seed, i)
    const truth = invent(own, { ...setup.options, ...more })
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

/** Up to 40 branches of about 12 runs each: time to prepare a session, and of its steps. Time over size to which power? */
const growth = async (): Promise<string[]> => {
  const lines: string[] = []
  const steps: number[] = []
  const sizes = [5, 10, 20, 40]
  for (const branches of sizes) {
    const prepared: number[] = []
    const millis: number[] = []
    let runs = 0
    for (let i = 0; i < SIZE_MACHINES; i++) {
      const truth = invent(seedOf(seed, i), { branches, trunks: 5 })
      runs += truth.machine.branches.reduce((sum, b) => sum + (b.wiring?.length ?? 0), 0) / branches / SIZE_MACHINES
      const from = performance.now()
      begin(plantOf(truth.machine), INJECTOR, 'all-dead')
      prepared.push(performance.now() - from)
      millis.push(...(await playOne(truth, SETUPS['injector'] as Setup)).millis)
    }
    steps.push(millis.reduce((a, b) => a + b, 0) / millis.length)
    lines.push(
      `${branches} branches × ${runs.toFixed(1)} runs: prepare ${quantile(prepared, 0.5).toFixed(0)} ms, next step mean ${steps.at(-1)?.toFixed(1)} ms, p95 ${quantile(millis, 0.95).toFixed(0)} ms`,
    )
  }
  const [first = 1, last = 1] = [steps[0], steps.at(-1)]
  lines.push(`mean time of a step grows with the number of branches to the power ${(Math.log(last / first) / Math.log(8)).toFixed(2)}`)
  return lines
}

/** The rarer faults, a row each; by the meter alone. */
const FAULTS: readonly Setup[] = KINDS.filter(k => kind === undefined || kind === k).map(k => ({
  name: k,
  kit: {},
  shown: m => m,
  options: { fault: k },
  tells: true,
}))
const wanted: readonly Setup[] =
  only === 'faults'
    ? FAULTS
    : Object.entries(SETUPS).flatMap(([key, setup]) =>
        only === undefined || only === key || (only === 'open' && key === 'openTold') ? [setup] : [],
      )
if (one !== undefined) {
  for (const setup of wanted) {
    const truth = invent(Number(one), { ...setup.options, ...more })
    const { transcript, ...score } = await playOne(truth, setup)
    print(
      `${setup.name}: ${JSON.stringify({ fault: truth.fault, second: truth.second, symptom: truth.symptom, supply: truth.supply, lamp: truth.lampUnderLimit, branches: truth.machine.branches.length })}`,
    )
    for (const { out, answer } of transcript) print(`${JSON.stringify(out)}\n    -> ${JSON.stringify(answer)}`)
    print(JSON.stringify({ ...score, millis: undefined }))
  }
} else if (only === 'methods') print(methodTable())
else if (only === 'optimum') {
  const { engine, exact } = againstOptimum(count, seed)
  print(
    `to the branch, ${count} machines of 3 to 6 branches: ${engine.toFixed(1)} s, exact optimum ${exact.toFixed(1)} s, ${(engine / exact).toFixed(3)} of it`,
  )
} else if (only === 'sizes') for (const line of await growth()) print(line)
else {
  print(`seed ${seed}; seconds by the table of costs; the habits' seconds are to the same place`)
  print(heading())
  for (const setup of wanted) {
    const outcomes = await playSetup(setup)
    print(row(setup.name, outcomes))
    for (const line of troubles(outcomes)) print(line)
    if (process.argv.includes('--foretold'))
      print(
        foretoldLine(
          '  metres',
          outcomes.flatMap(o => foretellings(o.played)),
        ),
      )
  }
  if (only === undefined || only === 'steps') print(await stepTimes())
}
