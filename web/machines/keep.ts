// A machine that comes in from outside, beside those that the phone keeps.
import type { Machine } from '../../engine/machine.ts'
import { canonical } from '../log/canonical.ts'
import type { KeptMachine } from '../log/log.ts'

/** What is stored says that a machine is retired; a machine file does not. */
export const plain = ({ retired: _retired, ...machine }: KeptMachine): Machine => machine

/** Whether the phone keeps another machine under the same id: it is never replaced unasked. */
export const isOther = (kept: readonly KeptMachine[], machine: Machine): boolean => {
  const known = kept.find(({ id }) => id === machine.id)
  return known !== undefined && canonical(plain(known)) !== canonical(machine)
}
