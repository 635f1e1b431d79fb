import { spawn } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import type { Kit, Machine } from '../../engine/machine.ts'
import type { Out, Wizard } from './wizard.ts'

/** A look or a finding may be answered plainly or with its name before it; the drive must take both. */
export type LookAs = 'seen' | 'value' | 'bare'

const DRIVE = ['npm', 'run', '--silent', 'drive', '--']

/** The drive in a process of its own, spoken to one JSON object a line. Runs from the project's top folder. */
export const spawned = (machine: Machine, kit: Kit, lookAs: LookAs = 'seen', command: readonly string[] = DRIVE): Wizard => {
  const folder = mkdtempSync(join(tmpdir(), 'bench-'))
  const [machineFile, kitFile] = [join(folder, 'machine.json'), join(folder, 'kit.json')]
  writeFileSync(machineFile, JSON.stringify(machine))
  writeFileSync(kitFile, JSON.stringify(kit))
  const [program = 'npm', ...first] = command
  const drive = spawn(program, [...first, '--machine', machineFile, '--kit', kitFile], { stdio: ['pipe', 'pipe', 'inherit'] })
  const lines = createInterface({ input: drive.stdout })[Symbol.asyncIterator]()
  const say = async (line: unknown): Promise<Out> => {
    drive.stdin.write(`${JSON.stringify(line)}\n`)
    const next = await lines.next()
    if (next.done) throw new Error('the drive ended without a last line')
    return JSON.parse(next.value) as Out
  }
  return {
    start: (symptom, told) => say({ start: { symptom, ...told } }),
    answer: answer => {
      const seen = typeof answer === 'object' && answer !== null && 'seen' in answer ? answer.seen : undefined
      if (seen === undefined || lookAs === 'seen') return say(answer)
      return say(lookAs === 'bare' ? seen : { value: seen })
    },
    close: () => {
      drive.stdin.end()
      rmSync(folder, { recursive: true, force: true })
    },
  }
}
