import { expect, test } from 'vitest'
import type { Machine } from '../../engine/machine.ts'
import type { Step } from '../../engine/step.ts'
import { invent } from './invent.ts'
import { countOnly, play } from './play.ts'
import { device, lamp, ohm, proveDead, supply, volt, zeroLeads } from './scripted.ts'
import { shortInW3, smallMachine, smallTruth } from './small.ts'
import { spawned } from './spawned.ts'
import { mean, quantile, row } from './table.ts'
import type { Out, Wizard } from './wizard.ts'

type Told = { readonly value?: number | 'OL'; readonly confirmed?: boolean }
type Part = Step | { readonly confirm: readonly Step[] } | 'mend'

/** A plain search by ohmmeter, branch by branch, lowest first: slow, safe, and knows no wiring. */
function* plainSearch(machine: Machine): Generator<Part, void, Told> {
  const ids = machine.branches.map(b => b.id)
  yield supply('off')
  yield proveDead
  yield zeroLeads
  for (const id of ids) yield device(id, 'open')
  const shown: { id: string; ohm: number }[] = []
  for (const id of ids) {
    const { value } = yield ohm(`${id}.plus`, `${id}.zero`)
    shown.push({ id, ohm: typeof value === 'number' ? value : Infinity })
  }
  for (const { id } of shown.sort((a, b) => a.ohm - b.ohm)) {
    const { confirmed } = yield { kind: 'finding', finding: { fault: 'short', branch: id, probability: 0.9 } }
    if (!confirmed) continue
    yield 'mend'
    yield ohm(`${id}.plus`, `${id}.zero`)
    break
  }
  for (const id of ids) yield device(id, 'closed')
  yield { confirm: [supply('on')] }
  yield supply('on')
  yield lamp
  yield volt('bus.plus', 'bus.zero')
}
const plain = (machine: Machine): Wizard => {
  const search = plainSearch(machine)
  let n = 0
  const say = ({ done, value: part }: IteratorResult<Part, void>): Out => {
    n++
    if (done || part === undefined) return { say: 'end', n, result: 'restored', seconds: 0 }
    if (part === 'mend') return { say: 'mend', n, finding: { fault: 'short', probability: 1 } }
    return 'confirm' in part
      ? { say: 'confirm', n, caution: 'voltage-may-return', acts: part.confirm }
      : { say: 'step', n, seconds: 0, step: part }
  }
  return { start: () => say(search.next()), answer: answer => say(search.next(answer as Told)) }
}

test('a plain search finds, mends and restores 40 invented machines (seeds 1 to 40), and nothing in it is unsafe', async () => {
  for (let seed = 1; seed <= 40; seed++) {
    const truth = invent(seed)
    const shown = countOnly(truth.machine)
    const played = await play(truth, plain(shown), shown, {})
    expect(played, `seed ${seed}`).toMatchObject({ found: true, restored: true, result: 'restored', unsafe: [], energisings: 0 })
    const informed = await play(truth, plain(truth.machine), truth.machine, {})
    expect(informed, `seed ${seed}`).toMatchObject({ found: true, firstRight: false, restored: true })
    expect(informed.secondsToPlace).toBe(played.secondsToPlace)
  }
})

test('the same machine plays the same way twice, and with misread digits another way', async () => {
  const truth = invent(11)
  const once = async (wrong: number) => (await play(truth, plain(truth.machine), truth.machine, {}, { wrong })).transcript
  expect(await once(0)).toEqual(await once(0))
  expect(await once(0.5)).not.toEqual(await once(0))
})

test('a wizard that never ends is stuck, and one that errs is told', async () => {
  const endless: Wizard = {
    start: () => ({ say: 'step', n: 1, seconds: 5, step: lamp }),
    answer: () => ({ say: 'step', n: 2, seconds: 5, step: lamp }),
  }
  expect(await play(smallTruth(shortInW3), endless, smallMachine, {})).toMatchObject({ result: 'stuck', steps: 500, found: false })
  const erring: Wizard = { ...endless, answer: () => ({ say: 'error', message: 'not understood' }) }
  expect(await play(smallTruth(shortInW3), erring, smallMachine, {})).toMatchObject({ result: 'stuck', errors: ['not understood'] })
  const crashing: Wizard = {
    ...endless,
    answer: () => {
      throw new RangeError('no such branch')
    },
  }
  expect(await play(smallTruth(shortInW3), crashing, smallMachine, {})).toMatchObject({ errors: ['RangeError: no such branch'] })
})

test('a drive in another process is spoken to a line at a time', async () => {
  const drive = `
    const { machine } = { machine: JSON.parse(require('fs').readFileSync(process.argv[process.argv.indexOf('--machine') + 1], 'utf8')) }
    let n = 0
    require('readline').createInterface({ input: process.stdin }).on('line', line => {
      const said = JSON.parse(line)
      if (n > 0 && said.seen !== 'off') throw new Error(line)
      const next = [{ say: 'step', seconds: 5, step: { kind: 'look', look: 'supply-lamp' } }, { say: 'end', result: said.start ? 'stopped' : 'handed-over', seconds: machine.branches.length }][n++]
      console.log(JSON.stringify({ n, ...next }))
    })`
  const played = await play(
    smallTruth(shortInW3),
    spawned(smallMachine, {}, 'seen', [process.execPath, '-e', drive, '--']),
    smallMachine,
    {},
  )
  expect(played).toMatchObject({ result: 'handed-over', seconds: 5, steps: 2, misstated: 0 })
  expect(played.transcript[1]?.out).toMatchObject({ say: 'end', seconds: 2 })
})

test('the table counts a search that finds nothing with all its seconds', async () => {
  const truth = smallTruth(shortInW3)
  const good = await play(truth, plain(smallMachine), smallMachine, {})
  const bad = { ...good, found: false, firstRight: undefined, secondsToPlace: undefined, restored: false, seconds: 1000 }
  const rival = { found: true, seconds: 500, restored: 700 }
  const cells = row('two', [
    { seed: 1, fault: 'short-to-zero', played: good, oneByOne: rival },
    { seed: 2, fault: 'short-to-zero', played: bad, oneByOne: rival },
  ])
    .trim()
    .split(/\s+/)
  const place = (good.secondsToPlace ?? 0) / 2 + 500
  expect(cells).toEqual([
    'two',
    '2',
    '50.0%',
    '0.0%',
    '90.0%',
    '-',
    '-',
    '0',
    '50.0%',
    '0',
    place.toFixed(0),
    '1000',
    ((good.seconds + 1000) / 2).toFixed(0),
    '1000',
    (place / 500).toFixed(2),
    '-',
    '-',
  ])
  expect(mean([1, 2, 6])).toBe(3)
  expect(quantile([5, 1, 4, 2, 3], 0.95)).toBe(5)
  expect(quantile([5, 1, 4, 2, 3], 0.5)).toBe(3)
})
