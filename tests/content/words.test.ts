import { expect, test } from 'vitest'
import { demo } from '../../content/demo.ts'
import { first } from '../../content/en/first.ts'
import { later } from '../../content/en/later.ts'
import { word } from '../../content/shared/ids.ts'
import type { Step } from '../../content/shared/types.ts'
import { readMachine } from '../../engine/check.ts'
import type * as engine from '../../engine/step.ts'
import type { CautionId, Power, Result } from '../../web/flow/request.ts'
import { ACTS, NAMES, POINTS, STEPS } from './samples.ts'

const { cautions, glossary } = later

const { actDone, pointShort, pointWords, stepHow, stepTitle, stepUnder } = later.steps
const { closedWords, groupAlt, stripAlt } = later.drawings
const { faults, findingHow, findingSentence, findingTitle, mend } = later.findings
const { quantity } = first.figures
const { symptoms } = first
const { cannots, powers, results, seen, wrongs } = later.labels

// Each list is keyed by the product's own type: a kind that is added there does not compile here until it is listed.
const SYMPTOMS: Record<engine.Symptom, true> = {
  'all-dead': true,
  'all-low': true,
  'one-branch-dead': true,
  'one-load-dead': true,
  'trips-again': true,
  'dead-at-start': true,
  'comes-and-goes': true,
}
const FAULTS: Record<engine.FaultKind, true> = {
  'short-to-zero': true,
  'short-to-earth': true,
  'load-short': true,
  short: true,
  overload: true,
  'in-rush': true,
  'open-plus': true,
  'open-zero': true,
  'poor-joint': true,
  swapped: true,
  diode: true,
  intermittent: true,
  backfeed: true,
  'device-open': true,
  'supply-low': true,
  'supply-dead': true,
  'no-mains': true,
}
const CAUTIONS: Record<CautionId, true> = {
  'before-work': true,
  'voltage-may-return': true,
  injection: true,
  'switch-on-again': true,
  'opening-live-device': true,
  'not-extra-low-voltage': true,
  'voltage-stays': true,
  'mains-side': true,
}
const POWERS: Record<Power, true> = { live: true, off: true, provedDead: true }
const RESULTS: Record<Result, true> = { restored: true, 'handed-over': true, stopped: true }
/** The verbs a title may begin with: one action, told to whoever stands there. */
const VERBS = /^(Switch|Prove|Hold|Open|Close|Fit|Pull|Unplug|Plug|Join|Connect|Disconnect|Look|Read|Go|Find|Mend|Change|Put) /
const words = (text: string) => text.split(/\s+/).length

test.each(STEPS.map(step => ({ step, title: stepTitle(step, NAMES) })))(
  '"$title" begins with a verb and has at most 20 words',
  ({ step, title }) => {
    expect(title).toMatch(VERBS)
    expect(words(title)).toBeLessThanOrEqual(20)
    expect(stepHow(step, NAMES)).not.toBe('')
  },
)
test('a fuse is pulled and fitted, a breaker opened and closed', () => {
  const open: Step = { kind: 'act', act: { act: 'device', branch: 'B12', to: 'open' } }
  expect(stepTitle(open, { device: 'fuse' })).toBe('Pull the fuse of branch B12')
  expect(stepTitle(open, { device: 'breaker' })).toBe('Open the breaker of branch B12')
})
test.each(Object.values(ACTS).flat())('what is true after $act fits on its button', act => {
  expect(actDone(act).length).toBeGreaterThan(0)
  expect(actDone(act).length).toBeLessThanOrEqual(26)
})
test('no sentence of an instruction has more than 20 words', () => {
  const sentences = STEPS.flatMap(step => stepHow(step, NAMES).split(/(?<=\.) /))
  expect(sentences.filter(sentence => words(sentence) > 20)).toEqual([])
})
test('the sentences of instructions have at most 12 words on average', () => {
  const sentences = STEPS.flatMap(step => stepHow(step, NAMES).split(/(?<=\.) /))
  expect(sentences.length).toBeGreaterThan(20)
  expect(sentences.reduce((sum, sentence) => sum + words(sentence), 0) / sentences.length).toBeLessThanOrEqual(12)
})
test.each(POINTS)('the place %s has words, and no two places have the same', point => {
  const others = POINTS.filter(p => p !== point)
  expect(others.map(p => pointWords(p, NAMES.runs))).not.toContain(pointWords(point, NAMES.runs))
  expect(others.map(pointShort)).not.toContain(pointShort(point))
})
test('a point is told in the words of the field', () => {
  expect(pointWords('B3.plus')).toBe('branch B3, outgoing + terminal')
  expect(pointWords('B3/3-J1.zero')).toBe('junction 3-J1, 0 V')
  expect(pointWords('B3/3-W2.plus', NAMES.runs)).toBe('run 3-W2, near end, 24 V core')
})

test.each(Object.keys(SYMPTOMS))('the symptom %s has words', id => expect(word(symptoms, id)).not.toBe(id))
test('no symptom has words that is none', () => expect(Object.keys(symptoms).sort()).toEqual(Object.keys(SYMPTOMS).sort()))
test('a finding that is the likeliest of several places says so, a sure one does not', () => {
  const finding = { fault: 'load-short', branch: 'B3', load: 'Y32' }
  expect(findingSentence({ ...finding, probability: 0.44 })).toMatch(/^Likeliest, not proved\. /)
  expect(findingSentence({ ...finding, probability: 0.96 })).toBe('Short circuit inside the load.')
})
test('past a broken core the ends are looked at, and pulled at only where it is proved dead', () => {
  const finding = { fault: 'open-zero', branch: 'B3', run: '3-W2' }
  expect(findingHow(finding, true)).toContain('Pull at each core')
  expect(findingHow(finding, false)).toContain('Look only')
})
test('who mends the mains side is told that the proof does not reach there', () =>
  expect(['no-mains', 'supply-dead', 'overload'].filter(fault => !mend({ fault }).points.some(p => p.includes('not proved dead')))).toEqual(
    [],
  ))
test.each(Object.keys(FAULTS))('the fault %s has a name, a place to go to and a mend', fault => {
  expect(word(faults, fault)).not.toBe(fault)
  for (const finding of [{ fault }, { fault, branch: 'B3' }, { fault, branch: 'B3', load: 'Y32' }, { fault, branch: 'B3', run: '3-W2' }]) {
    expect(findingTitle(finding, NAMES)).toMatch(VERBS)
    expect(words(findingTitle(finding, NAMES))).toBeLessThanOrEqual(20)
    expect(findingSentence(finding)).toContain(word(faults, fault))
    for (const dead of [true, false]) {
      const how = findingHow(finding, dead)
      expect(how).toMatch(/^[A-Z].*\.$/)
      expect(how.split(/(?<=\.) /).filter(sentence => words(sentence) > 20)).toEqual([])
      if (!dead) expect(how).not.toMatch(/unplug|aside/i)
    }
    expect(mend(finding, NAMES).title).toMatch(VERBS)
    expect(mend(finding, NAMES).points.filter(point => words(point) > 20)).toEqual([])
    expect(mend(finding, NAMES).done.length).toBeLessThanOrEqual(24)
  }
})
test('a finding speaks in places', () => {
  const finding = { fault: 'short-to-zero', branch: 'B3', run: '3-W2', alongRun: { best: 1.7, low: 1.1, high: 2.4 } }
  expect(findingTitle(finding, NAMES)).toBe('Go and look at run 3-W2, from 1.1 m to 2.4 m past junction 3-J1')
  expect(findingTitle(finding, { near: 'terminals' })).toContain('past the cabinet’s terminals')
})
test.each(Object.keys(CAUTIONS) as CautionId[])('the caution %s has points, a button and a source', id => {
  const caution = cautions[id]
  expect(caution?.points.length).toBeGreaterThan(0)
  expect(caution?.points.filter(point => point.split(/(?<=\.) /).some(sentence => words(sentence) > 20))).toEqual([])
  expect(caution?.done.length).toBeLessThanOrEqual(24)
  expect(caution?.source).toMatch(/EN \d|CFR|IEC \d|NFPA|Common practice, no source/i)
})
test('every power state, result and look has words', () => {
  expect(Object.keys(POWERS).filter(power => !(power in powers))).toEqual([])
  expect(Object.keys(RESULTS).filter(result => !(result in results))).toEqual([])
  expect(Object.keys(seen['supply-lamp'])).toEqual(['steady', 'blinking', 'off'])
  expect(Object.keys(seen['mains-lamp'])).toEqual(['on', 'off'])
  expect(Object.keys(seen.device)).toEqual(['closed', 'tripped', 'open'])
  expect([...Object.values(cannots), ...Object.values(wrongs)].filter(text => text.length > 26)).toEqual([])
})
test.each([
  { value: 0.7, unit: 'Ω', shown: '0.7 Ω' },
  { value: 0.0312, unit: 'V', shown: '31.2 mV' },
  { value: -1234, unit: 'Ω', shown: '-1.234 kΩ' },
  { value: 0, unit: 'A', shown: '0 A' },
])('$value $unit is shown as $shown', ({ value, unit, shown }) => expect(quantity(value, unit)).toBe(shown))

test('what stands under a drawing leaves out what the drawing shows', () => {
  const read: Step = { kind: 'read', meter: 'ohm', red: 'B3.plus', black: 'B3.zero' }
  expect(stepUnder(read)).toBe('Wait until the display stands.')
  expect(stepHow(read)).toContain('Red on branch B3, outgoing + terminal.')
  // Leads the other way round are told in words too.
  const turned: Step = { ...read, red: 'B3.zero', black: 'B3.plus' }
  expect(stepUnder(turned)).toBe(stepHow(turned))
  expect(stepUnder({ kind: 'act', act: { act: 'prove-dead' } })).toBe(stepHow({ kind: 'act', act: { act: 'prove-dead' } }))
})
test.each(glossary)('the word %s is told in one short sentence', (_, meaning) => {
  expect(meaning).toMatch(/^[A-Z].*\.$/)
  expect(words(meaning)).toBeLessThanOrEqual(20)
})
test('the strip says what is unlikely, and never that a reading cleared it', () => {
  const cells = [
    { id: 'B1', p: 0.9, unlikely: false, device: 'open' },
    { id: 'B2', p: 0.001, unlikely: true, device: 'closed' },
  ]
  const said = stripAlt(cells, 'B1')
  expect(said).toContain('Likeliest: B1 with 90 of 100.')
  expect(said).toContain('Unlikely by now: B2.')
  expect(said).not.toMatch(/clear/i)
})
test.each([
  { names: '1–4, 7', closed: 5, said: 'closed: 1–4, 7' },
  { names: undefined, closed: 9, said: '9 of 24 devices closed' },
  { names: '4', closed: 1, said: 'closed: 4' },
  { names: '1–24', closed: 24, said: 'all devices closed' },
  { names: '', closed: 0, said: 'all devices open' },
])('of 24 devices, $closed closed are "$said"', ({ names, closed, said }) => expect(closedWords(24)(names, closed)).toBe(said))
test('who cannot see the buses is told which devices are closed', () =>
  expect(groupAlt('Red on the 24 V bus.', ['B1', 'B4'], 6)).toBe(
    'Drawing of the buses with all 6 devices. Closed: B1, B4. Red on the 24 V bus.',
  ))

test('the demo machine is a machine file without a fault in it', () => {
  const read = readMachine(demo)
  expect(read).toMatchObject({ ok: true })
  expect(read.ok && read.value.branches.length).toBe(12)
})
