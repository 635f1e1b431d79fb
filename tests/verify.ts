// Verifies a file of sessions: npm run --silent verify -- FILE [--head HEX]
// One line a session: its head, its count of events, and whether they fit its seal, or the head noted on a printed report.
// Exit code 0: all fit. 1: at least one was changed. 2: the file cannot be read.
import { readFileSync } from 'node:fs'
import { isAbsolute, join } from 'node:path'
import { readSessions } from '../web/log/import.ts'
import { grouped, verify } from '../web/log/seal.ts'

const say = (line: string): void => {
  process.stdout.write(`${line}\n`)
}
const refuse = (message: string): void => {
  process.stderr.write(`${message}\n`)
  process.exitCode = 2
}

const read = (name: string): string | undefined => {
  try {
    return readFileSync(isAbsolute(name) ? name : join(process.env['INIT_CWD'] ?? process.cwd(), name), 'utf8')
  } catch {
    return undefined
  }
}

const judge = async (name: string, noted: string | undefined): Promise<void> => {
  const text = read(name)
  if (text === undefined) return refuse(`Cannot read ${name}.`)
  const file = readSessions(text)
  if (!file.ok) return refuse(`${name}: ${file.message}`)
  if (noted !== undefined && file.value.sessions.length > 1) return refuse(`${name} holds several sessions: a noted head is that of one.`)
  for (const claim of file.value.sessions) {
    const verdict = await verify(claim, noted)
    const word = verdict.ok ? (verdict.sealed ? 'FITS    ' : 'UNSEALED') : 'CHANGED '
    say(`${word} ${claim.id}  ${verdict.seal.count} events  head ${grouped(verdict.seal.head)}`)
    if (!verdict.ok) say(`         ${verdict.message}`)
    if (!verdict.ok) process.exitCode = 1
  }
  say('Tamper-evident, no more: a log that was sealed anew, or cut at its end, shows only against a head noted elsewhere.')
}

const args = process.argv.slice(2)
const at = args.indexOf('--head')
const head = at < 0 ? undefined : args.slice(at + 1).join('')
const [name] = at < 0 ? args : args.slice(0, at)
if (name === undefined || head === '') refuse('usage: npm run --silent verify -- FILE [--head HEX]')
else await judge(name, head)
