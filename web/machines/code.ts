// A machine as the codes of its label, and back. What is in them: the machine file in its canonical form (RFC 8785), packed.
import { readMachine } from '../../engine/check.ts'
import type { Checked, Machine } from '../../engine/machine.ts'
import { canonical } from '../log/canonical.ts'
import { pack, unpack } from '../qr/pack.ts'
import { framesOf } from '../qr/sequence.ts'

/** Far above the longest machine file that `readMachine` takes in practice; a label never holds more. */
const MOST_BYTES = 2_000_000

/** The texts of the label's codes, in order. */
export const codesOf = async (machine: Machine): Promise<readonly string[]> => framesOf(await pack(canonical(machine)), 'machine')

const unreadable = { ok: false, field: 'the label', found: 'other bytes', message: 'the label holds no machine file.' } as const

/** The machine that the codes carried together. Never throws. */
export const machineOf = async (bytes: Uint8Array): Promise<Checked<Machine>> => {
  const text = await unpack(bytes, MOST_BYTES)
  if (text === undefined) return unreadable
  try {
    return readMachine(JSON.parse(text))
  } catch {
    return unreadable
  }
}
