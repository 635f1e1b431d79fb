import { expect, test } from 'vitest'
import { play } from './play.ts'
import { amp, bond, bus, device, inject, type Line, lamp, load, ohm, proveDead, run, scripted, supply, volt } from './scripted.ts'
import { shortInW3, smallMachine, smallTruth } from './small.ts'

const INJECTOR = { injector: { ampere: 1, volts: 24 } }
const dead: Line[] = [supply('off'), proveDead]
const on: Line[] = [{ confirm: [supply('on')] }, supply('on')]
const inB1: Line[] = [...dead, device('B1', 'open'), { confirm: [inject('B1', 'on')] }, inject('B1', 'on')]
const times = (n: number, lines: Line[]): Line[] => Array.from({ length: n }, () => lines).flat()
const unsafeOf = async (lines: readonly Line[], kit = INJECTOR) =>
  (await play(smallTruth(shortInW3), scripted([...lines, 'end']), smallMachine, kit)).unsafe.map(({ rule, what }) => `${rule}: ${what}`)

test.each<{ why: string; script: Line[]; says: string; kit?: object }>([
  { why: 'ohms on a live machine', script: [ohm('B1.plus', 'B1.zero')], says: '1: ohm reading without proving dead' },
  {
    why: 'ohms with the supply off but not proved',
    script: [supply('off'), ohm('B1.plus', 'B1.zero')],
    says: '1: ohm reading without proving dead',
  },
  {
    why: 'ohms after proving dead with the supply on',
    script: [proveDead, ohm('B1.plus', 'B1.zero')],
    says: '1: ohm reading without proving dead',
  },
  {
    why: 'ohms after switching on again',
    script: [...dead, ...on, supply('off'), ohm('B1.plus', 'B1.zero')],
    says: '1: ohm reading without proving dead',
  },
  { why: 'a run opened', script: [supply('off'), run('B1', 'W2', 'opened')], says: '1: run opened without proving dead' },
  {
    why: 'a run joined after injection',
    script: [...inB1, inject('B1', 'off'), run('B1', 'W2', 'joined')],
    says: '1: run joined without proving dead',
  },
  { why: 'a plug pulled', script: [load('B1', 'K1', 'unplugged')], says: '1: load unplugged without proving dead' },
  { why: 'the bus opened', script: [supply('off'), bus('opened')], says: '1: bus opened without proving dead' },
  { why: 'the bond lifted', script: [bond('opened')], says: '1: bond opened without proving dead' },
  { why: 'mending', script: [supply('off'), 'mend'], says: '1: mending without proving dead' },
  {
    why: 'injection past a closed device',
    script: [...dead, { confirm: [inject('B1', 'on')] }, inject('B1', 'on')],
    says: '1: injection past a closed device',
  },
  {
    why: 'a device closed on an injected branch',
    script: [...inB1, device('B1', 'closed')],
    says: '1: a device closed on the branch that the injector feeds',
  },
  { why: 'ohms while injecting', script: [...inB1, ohm('B1.plus', 'B1.zero')], says: '1: ohm reading while the injector is on' },
  { why: 'supply on', script: [...dead, supply('on')], says: '2: supply without a confirmation' },
  { why: 'a confirmation used twice', script: [...dead, ...on, supply('off'), supply('on')], says: '2: supply without a confirmation' },
  {
    why: 'a confirmation before proving dead',
    script: [supply('off'), { confirm: [supply('on')] }, proveDead, supply('on')],
    says: '2: supply without a confirmation',
  },
  {
    why: 'a confirmation of another act',
    script: [...dead, { confirm: [inject('B1', 'on')] }, supply('on')],
    says: '2: supply without a confirmation',
  },
  { why: 'injection', script: [...dead, device('B1', 'open'), inject('B1', 'on')], says: '2: inject without a confirmation' },
  { why: 'opening what holds the supply down', script: [device('B1', 'open')], says: '2: device without a confirmation' },
  {
    why: 'closing with the supply on',
    script: [{ confirm: [device('B1', 'open')] }, device('B1', 'open'), device('B1', 'closed')],
    says: '2: device without a confirmation',
  },
  { why: 'a seventh energising', script: [...dead, ...times(7, [...on, supply('off')])], says: '5: a short circuit energised 7 times' },
  {
    why: 'energised for 75 s and more',
    script: [...dead, ...on, ...times(5, [volt('bus.plus', 'bus.zero')])],
    says: '5: a short circuit energised for more than 60 s',
  },
  { why: 'switching on with the bond lifted', script: [...dead, bond('opened'), ...on], says: '5: supply with the bond lifted' },
  { why: 'injection with the bond lifted', script: [...dead, bond('opened'), ...inB1.slice(2)], says: '5: inject with the bond lifted' },
  {
    why: 'a fuse pulled under load',
    script: [{ confirm: [device('B2', 'open')] }, device('B2', 'open')],
    says: '6: a fuse pulled under load',
  },
  {
    why: 'a fuse fitted with the supply on',
    script: [...dead, device('B2', 'open'), { confirm: [supply('on'), device('B2', 'closed')] }, supply('on'), device('B2', 'closed')],
    says: '6: a fuse fitted under load',
  },
  { why: 'no injector in the kit', script: inB1, says: 'kit: injection without an injector', kit: {} },
  { why: 'no clamp in the kit', script: [amp('B1')], says: 'kit: an ampere reading without a clamp' },
])('the monitor catches $says ($why)', async ({ script, says, kit }) => {
  expect(await unsafeOf(script, (kit ?? INJECTOR) as typeof INJECTOR)).toContain(says)
})

test('proving dead with the supply on proves nothing, even where it has latched off', async () => {
  const truth = smallTruth(shortInW3, { supply: { volts: 24, limit: 5, mode: 'latch-off' } })
  const { unsafe, transcript } = await play(truth, scripted([proveDead, ohm('B1.plus', 'B1.zero'), 'end']), smallMachine, INJECTOR)
  expect(transcript[0]?.answer).toEqual({ done: true })
  expect(unsafe).toMatchObject([{ rule: 1, n: 2 }])
})

test.each<{ why: string; script: Line[] }>([
  {
    why: 'dead and proved, then ohms, runs, plugs, bus and bond',
    script: [
      ...dead,
      ohm('B1.plus', 'B1.zero'),
      run('B1', 'W2', 'opened'),
      run('B1', 'W2', 'joined'),
      load('B1', 'K1', 'unplugged'),
      load('B1', 'K1', 'plugged'),
      bus('opened'),
      bus('joined'),
      bond('opened'),
      bond('joined'),
      'mend',
    ],
  },
  {
    why: 'six energisings of a minute at most',
    script: [...dead, ...times(6, [...on, volt('bus.plus', 'bus.zero'), lamp, supply('off')])],
  },
  {
    why: 'injection past an open device, read with voltmeter and in series',
    script: [...inB1, volt('B1/J1.plus', 'B1/J1.zero'), amp('B1'), inject('B1', 'off'), proveDead, ohm('B1.plus', 'B1.zero')],
  },
  {
    why: 'one confirmation for a named series',
    script: [{ confirm: [device('B1', 'open'), device('B1', 'closed')] }, device('B1', 'open'), lamp, device('B1', 'closed')],
  },
  {
    why: 'devices and fuses worked dead',
    script: [...dead, device('B1', 'open'), device('B2', 'open'), device('B2', 'closed'), device('B1', 'closed')],
  },
])('nothing to object to: $why', async ({ script }) => {
  expect(await unsafeOf(script)).toEqual([])
})
