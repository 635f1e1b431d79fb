// The wizard without a screen: one JSON object a line, in and out, so that any bench can play the machine.
// npm run --silent drive -- --machine FILE [--kit FILE]

import { randomUUID } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { isAbsolute, join } from 'node:path'
import { createInterface } from 'node:readline'
import { later } from '../content/en/later.ts'
import { whySentence } from '../content/shared/facts.ts'
import { readKit, readMachine } from '../engine/check.ts'
import { shown } from '../engine/fields.ts'
import type { Checked, Kit, Machine } from '../engine/machine.ts'
import type { Symptom } from '../engine/step.ts'
import type { Session, SessionEvent } from '../web/flow/request.ts'
import { advance, answerTo, begin, readAnswer } from '../web/flow/session.ts'
import { readTold } from '../web/flow/told.ts'
import { exportJson } from '../web/log/export.ts'
import type { StoredEvent } from '../web/log/log.ts'
import { stamp } from '../web/log/stamp.ts'

const { whys } = later
const { fitsNothing } = later.labels

const SYMPTOMS: readonly Symptom[] = [
  'all-dead',
  'all-low',
  'one-branch-dead',
  'one-load-dead',
  'trips-again',
  'dead-at-start',
  'comes-and-goes',
]

const say = (line: unknown): void => {
  process.stdout.write(`${JSON.stringify(line)}\n`)
}
const refuse = (message: string): void => say({ say: 'error', message })

const parsed = (text: string): Checked<unknown> => {
  try {
    return { ok: true, value: JSON.parse(text) }
  } catch {
    const found = shown(text)
    return { ok: false, field: 'line', found, message: `line is ${found}, but JSON is wanted.` }
  }
}

/** Reads a file named on the command line, from where the command was typed. */
const load = <T>(option: string, check: (json: unknown) => Checked<T>): T | undefined => {
  const at = process.argv.indexOf(option)
  const name = process.argv[at + 1]
  if (at < 0) return undefined
  if (name === undefined) return fail(`${option} wants a file.`)
  const path = isAbsolute(name) ? name : join(process.env['INIT_CWD'] ?? process.cwd(), name)
  let text: string
  try {
    text = readFileSync(path, 'utf8')
  } catch {
    return fail(`${option}: cannot read ${name}.`)
  }
  const json = parsed(text.replace(/^\uFEFF/, ''))
  const checked = json.ok ? check(json.value) : json
  return checked.ok ? checked.value : fail(`${option} ${name}: ${checked.message}`)
}

const fail = (message: string): undefined => {
  refuse(message)
  process.exitCode = 2
  return undefined
}

/** The same file as a phone exports, sealed. */
const exported = async (stored: readonly StoredEvent[]): Promise<unknown> =>
  JSON.parse((await exportJson({ events: async () => [...stored] }, randomUUID())).text)

/** What the session asks for now, as a line. */
const asked = async (session: Session, stored: readonly StoredEvent[]): Promise<unknown> => {
  const { request } = session
  switch (request.say) {
    case 'step':
      return {
        ...request,
        why: session.fitsNothing ? `${fitsNothing} ${whySentence(whys, request.why)}` : whySentence(whys, request.why),
        belief: session.belief.map(({ branch, p }) => ({ branch, p: Number(p.toFixed(4)) })),
      }
    case 'confirm':
    case 'mend':
      return request
    case 'end':
      return {
        say: 'end',
        result: request.result,
        seconds: request.seconds,
        log: await exported(stored),
      }
  }
}

const start = (machine: Machine, kit: Kit, raw: unknown): Session | undefined => {
  const given = (raw as { start?: { symptom?: unknown } } | null)?.start
  const symptom = SYMPTOMS.find(id => id === given?.symptom)
  if (symptom !== undefined) {
    const told = readTold(machine, symptom, given)
    if (told.ok) return begin({ type: 'started', machine, kit, symptom, ...told.value })
    refuse(told.message)
    return undefined
  }
  refuse(
    `start.symptom is ${given?.symptom === undefined ? 'missing' : shown(given.symptom)}, but one of ${SYMPTOMS.join(', ')} is wanted.`,
  )
  return undefined
}

const serve = async (machine: Machine, kit: Kit): Promise<void> => {
  let session: Session | undefined
  const stored: StoredEvent[] = []
  const keep = (event: SessionEvent): void => {
    stored.push({ seq: stored.length + 1, ...stamp(), event })
  }
  for await (const line of createInterface({ input: process.stdin, crlfDelay: Infinity })) {
    if (line.trim() === '') continue
    const json = parsed(line)
    if (!json.ok) refuse(json.message)
    else if (session === undefined) {
      session = start(machine, kit, json.value)
      for (const event of session?.events ?? []) keep(event)
    } else {
      const answer = readAnswer(session.request, json.value, kit)
      if (!answer.ok) refuse(answer.message)
      else {
        const event = answerTo(session, answer.value)
        session = advance(session, event)
        keep(event)
      }
    }
    // After an error the same step stands again; nothing is lost.
    if (session === undefined) continue
    say(await asked(session, stored))
    if (session.request.say === 'end') return
  }
}

const machine = load('--machine', readMachine)
const kit = process.argv.includes('--kit') ? load('--kit', readKit) : {}
if (machine !== undefined && kit !== undefined) await serve(machine, kit)
else if (process.exitCode === undefined) fail('usage: npm run --silent drive -- --machine FILE [--kit FILE]')
