// npm run walk -- [--small] [--only NAME] [--states 40000]: every state of the smallest machines, under any plan; of larger ones so many, and
// the planner's own. `--small`: those that are exhausted, and no others. Ends with 1 where a rule was broken.
// npm run walk -- --random 100000 [--seed 1] [--every 50]: that many steps of chance on machines of 12 to 40 branches.
import { walkAnyPlan } from './anyPlan.ts'
import { FAMILIES, LARGER, SETUPS, SMALL } from './family.ts'
import { follow } from './follow.ts'
import { wander } from './wander.ts'

const option = (name: string): string | undefined => {
  const at = process.argv.indexOf(`--${name}`)
  return at < 0 ? undefined : process.argv[at + 1]
}
const print = (text: string): void => {
  process.stdout.write(`${text}\n`)
}
const extent = (whole: boolean): string => (whole ? 'all of them' : 'as far as was asked for')

let wrong: string[] = []
const report = (line: string, found: readonly string[]): void => {
  print(`${line}; ${found.length} breaches`)
  for (const what of found.slice(0, 3)) print(`  ${what}`)
  wrong = [...wrong, ...found]
}

const random = option('random')
if (random !== undefined) {
  const seed = Number(option('seed') ?? 1)
  let next = 0
  const tell = (steps: number): void => {
    if (steps < next) return
    process.stderr.write(`${steps} steps\n`)
    next = steps + 5000
  }
  const walked = wander(Number(random), seed, { low: 12, high: 40, every: Number(option('every') ?? 50) }, tell)
  const { steps, sessions, planned, states, requests, refused, undone, ends } = walked
  print(
    `seed ${seed}: ${steps} steps of chance in ${sessions} sessions, of them ${planned.steps} steps in ${planned.sessions} by the planner`,
  )
  report(
    `${states} states, ${requests} requests judged, ${refused} refused by the rules, ${undone} taken back, ended ${JSON.stringify(ends)}`,
    walked.wrong,
  )
} else {
  const most = Number(option('states') ?? 40_000)
  const [only, isSmall] = [option('only'), process.argv.includes('--small')]
  const families = [...SMALL, ...(isSmall ? [] : [...FAMILIES, ...LARGER])].filter(({ name }) => name.includes(only ?? ''))
  const sum = { states: 0, transitions: 0, whole: 0 }
  for (const family of families) {
    const { states, transitions, refused, whole, wrong: found } = walkAnyPlan(family, SMALL.includes(family) ? Infinity : most)
    report(
      `any plan, ${family.name}: ${states} states, ${transitions} transitions, exhausted: ${whole ? 'yes' : 'no'}, ${refused} refused`,
      found,
    )
    sum.states += states
    sum.transitions += transitions
    sum.whole += whole ? 1 : 0
  }
  print(`${families.length} families, ${sum.whole} of them exhausted: ${sum.states} states, ${sum.transitions} transitions`)
  for (const setup of isSmall || only !== undefined ? [] : SETUPS) {
    const { states, transitions, resumed, whole, wrong: found } = follow({ ...setup, most })
    const bounds = `within ${setup.longest} answers, ${setup.odd} of them odd`
    report(
      `own plan, ${setup.name}: ${states} states ${bounds}, ${extent(whole)}, ${transitions} transitions, ${resumed} taken up again`,
      found,
    )
  }
}
process.exitCode = wrong.length > 0 ? 1 : 0
