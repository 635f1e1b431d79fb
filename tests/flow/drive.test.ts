// The wizard without a screen, in a process of its own, as any bench would speak to it.
import { spawn, spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { afterAll, beforeAll, expect, onTestFinished, test } from 'vitest'
import type { SessionEvent } from '../../web/flow/request.ts'
import { replay } from '../../web/flow/session.ts'
import { readExport } from '../../web/log/export.ts'
import { invent } from '../bench/invent.ts'
import { play } from '../bench/play.ts'
import { spawned } from '../bench/spawned.ts'
import { INJECTOR, known, METER } from './machines.ts'

const DRIVE = [process.execPath, 'tests/run-ts.mjs', 'tests/drive.ts'] as const
let folder = ''
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'ohmward-drive-'))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))
const file = (name: string, text: string): string => {
  const path = join(folder, name)
  writeFileSync(path, text)
  return path
}
const machineFile = (): string => file('machine.json', JSON.stringify(known))

type Line = Readonly<Record<string, unknown>>
/** Runs the drive with all its input at once. */
const run = (args: readonly string[], input = ''): { code: number | null; lines: Line[]; stderr: string } => {
  const [program, ...first] = DRIVE
  const { status, stdout, stderr } = spawnSync(program, [...first, ...args], { input, encoding: 'utf8' })
  const lines = stdout.split('\n').filter(line => line !== '')
  return { code: status, lines: lines.map(line => JSON.parse(line) as Line), stderr }
}

test.each([
  { what: 'no JSON', text: '{"format":', says: 'JSON' },
  { what: 'no machine', text: '{"format":"other"}', says: 'format' },
  {
    what: 'a length that is none',
    text: JSON.stringify({ ...known, branches: [{ id: 'B1', wiring: [{ id: 'W1', from: 'terminals', to: 'J1', length: 'far' }] }] }),
    says: 'branches[0].wiring[0].length',
  },
])('a machine file with $what is refused in one line that names it', ({ text, says }) => {
  const { code, lines } = run(['--machine', file('bad.json', text)])
  expect(code).toBe(2)
  expect(lines).toHaveLength(1)
  expect(lines[0]).toMatchObject({ say: 'error' })
  expect(lines[0]?.['message']).toContain(says)
})
test.each([
  { args: [], says: 'usage' },
  { args: ['--machine'], says: 'wants a file' },
  { args: ['--machine', 'no-such-file.json'], says: 'no-such-file.json' },
])('arguments $args are refused', ({ args, says }) => {
  const { code, lines } = run(args)
  expect(code).toBe(2)
  expect(lines.map(line => line['message']).join()).toContain(says)
})
test('a kit file that is wrong is refused by its field', () => {
  const { code, lines } = run(['--machine', machineFile(), '--kit', file('kit.json', '{"clamp":"yes"}')])
  expect(code).toBe(2)
  expect(lines[0]?.['message']).toContain('clamp')
})

test('a start may name the branch that is out; one that the machine does not have is refused by field and value', () => {
  const start = (branch: string): string => `${JSON.stringify({ start: { symptom: 'one-branch-dead', branch } })}\n`
  const { lines } = run(['--machine', machineFile()], [start('B7'), start('B2'), '{"done":true}\n'].join(''))
  expect(lines[0]).toEqual({ say: 'error', message: 'start.branch is "B7", but must be one of B1, B2.' })
  expect(lines[1]).toMatchObject({ say: 'confirm', n: 1 })
  const [first] = (lines[2]?.['belief'] ?? []) as { branch: string; p: number }[]
  expect(first?.branch).toBe('B1')
  expect(first?.p).toBeLessThan(0.05)
})

test('a bad first line and bad lines later give an error, then the same again, and nothing is lost', () => {
  const start = '{"start":{"symptom":"all-dead"}}'
  const input = ['{"start":{"symptom":"tired"}}', 'hello', '[]', start, '{"done":', '{"done":"yes"}', '42', '{"done":true}', '']
  const { code, lines, stderr } = run(['--machine', machineFile()], input.join('\n'))
  expect(stderr).toBe('')
  expect(code).toBe(0)
  expect(lines.map(line => line['say'])).toEqual([
    ...['error', 'error', 'error', 'confirm'],
    ...['error', 'confirm', 'error', 'confirm', 'error', 'confirm'],
    'step',
  ])
  expect(lines[0]?.['message']).toContain('tired')
  expect(lines[6]?.['message']).toContain('done')
  expect(lines[5]).toEqual(lines[3])
  expect(lines.at(-1)).toMatchObject({ n: 2, seconds: 5, step: { kind: 'look' } })
  const { why, belief } = lines.at(-1) as { why: string; belief: { branch: string; p: number }[] }
  expect(why).toMatch(/\.$/)
  expect(belief.map(b => b.branch)).toEqual(['B1', 'B2'])
})
test('a second start is no answer', () => {
  const start = '{"start":{"symptom":"all-dead"}}'
  const { lines } = run(['--machine', machineFile()], `${start}\n${start}\n`)
  expect(lines.map(line => line['say'])).toEqual(['confirm', 'error', 'confirm'])
})

test.each([
  { lookAs: 'seen', seed: 11, kit: METER },
  { lookAs: 'value', seed: 12, kit: INJECTOR },
  { lookAs: 'bare', seed: 13, kit: METER },
] as const)('a whole session to restored, looks answered as $lookAs, and its log replays to the same', async ({ lookAs, seed, kit }) => {
  const truth = invent(seed, { branches: 4 })
  const played = await play(truth, spawned(truth.machine, kit, lookAs, DRIVE), truth.machine, kit, { cannot: 0.05 })
  expect(played.errors).toEqual([])
  expect(played.unsafe).toEqual([])
  expect(played).toMatchObject({ result: 'restored', restored: true })
  const end = played.transcript.at(-1)?.out as unknown as {
    seconds: number
    log: { format: string; version: number; events: { event: SessionEvent }[] }
  }
  // The same file as a phone exports: its reader takes it, seal and all.
  expect(await readExport(JSON.stringify(end.log))).toMatchObject({ ok: true })
  const session = replay(end.log.events.map(({ event }) => event))
  const finding = played.transcript.flatMap(({ out, answer }) =>
    out.say === 'step' && out.step.kind === 'finding' && (answer as { confirmed?: boolean }).confirmed ? [out.step.finding] : [],
  )
  expect(session.finding).toEqual(finding.at(-1))
  expect(session.request).toMatchObject({ say: 'end', result: 'restored', seconds: end.seconds })
})

test('one object a line, each as soon as its answer is in', async () => {
  const [program, ...first] = DRIVE
  const drive = spawn(program, [...first, '--machine', machineFile()], { stdio: ['pipe', 'pipe', 'inherit'] })
  onTestFinished(() => {
    drive.kill()
  })
  const lines = createInterface({ input: drive.stdout })[Symbol.asyncIterator]()
  const say = async (line: string): Promise<Line> => {
    drive.stdin.write(line)
    return JSON.parse((await lines.next()).value as string) as Line
  }
  expect(await say('{"start":{"symptom":"all-low"}}\r\n')).toMatchObject({ say: 'confirm', n: 1 })
  expect(await say('\n\n{"done":true}\n')).toMatchObject({ say: 'step', n: 2 })
  expect(await say('"blinking"\n')).toMatchObject({ say: 'step', n: 3 })
  drive.stdin.end()
})
