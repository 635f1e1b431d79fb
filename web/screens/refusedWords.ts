// A step that could not be done, out of the log's own words: ids and points, as its table holds them.
import { faultWord, words } from '../words.ts'

type Step = Parameters<ReturnType<typeof words>['steps']['stepTitle']>[0]
const TO = { device: ['open', 'closed'], load: ['unplugged', 'plugged'], run: ['opened', 'joined'] } as const

const one = <T extends string>(list: readonly T[], word: string | undefined): T | undefined => list.find(w => w === word)

/** The step behind these words; nothing where names with spaces in them leave it open. */
const stepFrom = ([kind, a, b, c]: readonly (string | undefined)[], count: number): Step | undefined => {
  const act = (found: Extract<Step, { kind: 'act' }>['act']): Step => ({ kind: 'act', act: found })
  if (kind === 'prove-dead' || kind === 'zero-leads') return count === 1 ? act({ act: kind }) : undefined
  if (kind === 'supply-lamp' || kind === 'mains-lamp') return count === 1 ? { kind: 'look', look: kind } : undefined
  if (a === undefined) return undefined
  const toOn = one(['on', 'off'], a)
  if (kind === 'supply' && count === 2 && toOn) return act({ act: kind, to: toOn })
  const toJoined = one(TO.run, a)
  if ((kind === 'bus' || kind === 'bond') && count === 2 && toJoined) return act({ act: kind, to: toJoined })
  if (kind === 'device' && count === 2) return { kind: 'look', look: 'device', branch: a }
  if (kind === 'amp' && count === 2) return { kind: 'read', meter: 'amp', branch: a }
  if (b === undefined) return undefined
  if ((kind === 'volt' || kind === 'ohm') && count === 3) return { kind: 'read', meter: kind, red: a, black: b }
  const toDevice = one(TO.device, b)
  if (kind === 'device' && count === 3 && toDevice) return act({ act: kind, branch: a, to: toDevice })
  const injected = one(['on', 'off'], b)
  if (kind === 'inject' && injected && count <= 4) {
    const into = c === 'into-earth' ? 'earth' : c === 'into-zero' ? 'zero' : undefined
    return act({ act: kind, branch: a, to: injected, ...(into ? { into } : {}) })
  }
  const toLoad = one(TO.load, c)
  if (kind === 'load' && count === 4 && toLoad) return act({ act: kind, branch: a, load: b, to: toLoad })
  const toRun = one(TO.run, c)
  return kind === 'run' && count === 4 && toRun ? act({ act: kind, branch: a, run: b, to: toRun }) : undefined
}

/** The same in the language of the day; what is told otherwise stays as it is. */
export const refusedWords = (what: string): string => {
  const { cautions, steps } = words()
  const parts = what.split(' ')
  const step = stepFrom(parts, parts.length)
  if (step) return steps.stepTitle(step)
  const [head = '', ...rest] = parts
  const caution = Object.entries(cautions).find(([id]) => id === what)?.[1]
  return caution ? caution.title : [faultWord(head), ...rest].join(' ')
}
