// npm run walk -- [--states 2000000]: every state of small machines, any plan and the planner's own; ends with 1 where a rule was broken.
// npm run walk -- --random 100000 [--seed 1]: that many steps of chance on machines of 12 to 40 branches.
import { walkAnyPlan } from './anyPlan.ts'
import { FAMILIES, LARGER, SETUPS } from './family.ts'
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
  const walked = wander(Number(random), seed, { low: 12, high: 40 })
  const { steps, sessions, undone, ends } = walked
  report(
    `seed ${seed}: ${steps} steps of chance in ${sessions} sessions, ${undone} taken back, ended ${JSON.stringify(ends)}`,
    walked.wrong,
  )
} else {
  const most = Number(option('states') ?? 2_000_000)
  for (const family of [...FAMILIES, ...LARGER]) {
    const { states, transitions, refused, whole, wrong: found } = walkAnyPlan(family, most)
    report(`any plan, ${family.name}: ${states} states, ${extent(whole)}, ${transitions} transitions, ${refused} requests refused`, found)
  }
  for (const setup of SETUPS) {
    const { states, transitions, resumed, whole, wrong: found } = follow({ ...setup, most })
    const bounds = `within ${setup.longest} answers, ${setup.odd} of them odd`
    report(
      `own plan, ${setup.name}: ${states} states ${bounds}, ${extent(whole)}, ${transitions} transitions, ${resumed} taken up again`,
      found,
    )
  }
}
process.exitCode = wrong.length > 0 ? 1 : 0
