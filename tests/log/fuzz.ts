// Files spoilt at random, put to every reader of files that the app has: none may throw, none may change the store, each must say where.
import { readKit, readMachine } from '../../engine/check.ts'
import { checked } from '../../engine/fields.ts'
import { exportJson, exportLines } from '../../web/log/export.ts'
import { parsed } from '../../web/log/files.ts'
import { readSessions } from '../../web/log/import.ts'
import { openLog } from '../../web/log/store.ts'
import { takeIn } from '../../web/log/takeIn.ts'
import { codesOf, machineOf } from '../../web/machines/code.ts'
import { csvOf, machineFrom } from '../../web/machines/csv.ts'
import { tableOf } from '../../web/machines/table.ts'
import { collect } from '../../web/qr/sequence.ts'
import { type Chance, chance, seedOf } from '../bench/random.ts'
import { MACHINE, SESSION, stored } from './samples.ts'

export interface Fuzzed {
  readonly reader: string
  readonly files: number
  readonly refused: number
  readonly read: number
  readonly wrong: readonly string[]
}
/** What a reader made of a text: taken, or refused with the place and a sentence. */
type Verdict = 'read' | { readonly place: string; readonly message: string }
interface Target {
  readonly reader: string
  readonly sound: readonly string[]
  readonly judge: (text: string) => Verdict | Promise<Verdict>
}

const NASTY = [
  '__proto__',
  '{"__proto__":{"polluted":1}}',
  'constructor',
  '1e999',
  '-0',
  '9007199254740993',
  '\u0000',
  '\uD800',
  '\uFEFF',
  '"',
  "'",
  '\\',
  ';',
  '\r\n',
  '=1+1',
  '<script>polluted=1</script>',
  '[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[',
  'null',
  '{}',
  'NaN',
  '💥',
] as const

const cut = (text: string, luck: Chance): string => {
  const from = luck.whole(0, text.length)
  return text.slice(0, from) + text.slice(from + luck.whole(1, 40))
}
const put = (text: string, what: string, luck: Chance): string => {
  const at = luck.whole(0, text.length)
  return text.slice(0, at) + what + text.slice(at)
}
const WAYS: readonly ((text: string, luck: Chance) => string)[] = [
  cut,
  (text, luck) => put(text, luck.pick(NASTY), luck),
  (text, luck) => text.slice(0, luck.whole(0, text.length)),
  // One sign for another.
  (text, luck) => {
    const at = luck.whole(0, Math.max(text.length - 1, 0))
    return text.slice(0, at) + String.fromCharCode(luck.whole(0, 0x17f)) + text.slice(at + 1)
  },
  // A piece twice, or somewhere else.
  (text, luck) => {
    const from = luck.whole(0, text.length)
    return put(text, text.slice(from, from + luck.whole(1, 200)), luck)
  },
  // A value for another: numbers, words and lists change places.
  (text, luck) => {
    const values = [...text.matchAll(/(?<=[:[,;])[^:[\]{},;]+(?=[\]},;])/g)]
    if (values.length === 0) return cut(text, luck)
    const { index, 0: old } = luck.pick(values)
    return (
      text.slice(0, index) +
      luck.pick([...NASTY, '-1', '0', '1e308', 'true', '""', '[]', luck.pick(values)[0]]) +
      text.slice(index + old.length)
    )
  },
]
const spoil = (text: string, luck: Chance): string => {
  let spoilt = text
  for (let times = luck.whole(1, 3); times > 0; times--) spoilt = luck.pick(WAYS)(spoilt, luck)
  return spoilt
}

const ofChecked = (answer: { ok: true } | { ok: false; field: string; message: string }): Verdict =>
  answer.ok ? 'read' : { place: answer.field, message: answer.message }

const targets = async (): Promise<readonly Target[]> => {
  const log = { events: async () => stored(SESSION) }
  const session = (await exportJson(log, 'session-1')).text
  const lines = (await exportLines(log, 'session-1')).text
  const kit = {
    meter: { ohm: { percent: 0.8, counts: 3, resolution: 0.1 } },
    clamp: true,
    injector: { ampere: 1, volts: 24 },
    qualified: true,
  }
  const csv = csvOf(MACHINE)
  const codes = await codesOf(MACHINE)
  const json =
    (read: (found: unknown) => { ok: true } | { ok: false; field: string; message: string }) =>
    (text: string): Verdict => {
      const value = checked((_, field) => parsed(text, field), text)
      return ofChecked(value.ok ? read(value.value) : value)
    }
  return [
    { reader: 'machine file', sound: [JSON.stringify(MACHINE)], judge: json(readMachine) },
    { reader: 'kit file', sound: [JSON.stringify(kit)], judge: json(readKit) },
    { reader: 'session files', sound: [session, lines], judge: text => ofChecked(readSessions(text)) },
    {
      reader: 'terminal list',
      sound: [csv, csv.replaceAll(';', ',')],
      judge: text => {
        const { machine, problems } = machineFrom(tableOf(text), 'Spoilt')
        const [first] = problems
        return machine !== undefined || first === undefined ? 'read' : { place: `line ${first.line}`, message: first.why }
      },
    },
    {
      reader: 'label codes',
      sound: [codes.join('\n')],
      judge: async text => {
        const { bytes, refused, missing } = collect(text.split('\n'))
        if (bytes !== undefined) return ofChecked(await machineOf(bytes))
        const [first] = refused
        return first === undefined
          ? { place: 'the sequence', message: `missing ${missing.join()}` }
          : { place: `code ${first.at}`, message: first.why }
      },
    },
  ]
}

const judged = async ({ reader, sound, judge }: Target, files: number, seed: number): Promise<Fuzzed> => {
  const wrong: string[] = []
  const count = { refused: 0, read: 0 }
  for (const text of sound) if ((await judge(text)) !== 'read') wrong.push(`${reader}: the sound file is refused`)
  for (let i = 0; i < files; i++) {
    const own = seedOf(seed, i)
    const luck = chance(own)
    const text = spoil(luck.pick(sound), luck)
    try {
      const verdict = await judge(text)
      if (verdict === 'read') count.read++
      else {
        count.refused++
        if (verdict.place === '' || verdict.message === '') wrong.push(`${reader}, seed ${own}: it does not say where or why`)
      }
    } catch (error) {
      wrong.push(`${reader}, seed ${own}: ${String(error)}`)
    }
    if (Reflect.get({}, 'polluted') !== undefined) wrong.push(`${reader}, seed ${own}: a prototype was changed`)
  }
  return { reader, files, ...count, wrong }
}

/** The store before and after: a refused file leaves it as it was. Needs an IndexedDB. */
const stays = async (files: number, seed: number): Promise<Fuzzed> => {
  const log = await openLog()
  const wrong: string[] = []
  const count = { refused: 0, read: 0 }
  const [first] = SESSION
  if (first?.type !== 'started') throw new Error('no start')
  const id = await log.create(first)
  const held = async (): Promise<string> => JSON.stringify([await log.sessions(), await log.events(id), await log.people()])
  const before = await held()
  const sound = (await exportJson({ events: async () => stored(SESSION) }, 'session-2')).text
  for (let i = 0; i < files; i++) {
    const own = seedOf(seed, i)
    // What is still sound would be taken in rightly: it is no test of the refusal.
    const text = spoil(sound, chance(own))
    if (readSessions(text).ok) {
      count.read++
      continue
    }
    const taken = await takeIn(log, text)
    count.refused++
    if (taken.ok) wrong.push(`store, seed ${own}: what cannot be read was taken in`)
    if ((await held()) !== before) wrong.push(`store, seed ${own}: it was changed by a refused file`)
  }
  log.close()
  return { reader: 'the store', files, ...count, wrong }
}

/** `files` spoilt files for each reader, a twentieth of them put to the store. */
export const fuzz = async (files: number, seed: number): Promise<readonly Fuzzed[]> => {
  const all: Fuzzed[] = []
  for (const target of await targets()) all.push(await judged(target, files, seed))
  return [...all, await stays(Math.ceil(files / 20), seed)]
}
