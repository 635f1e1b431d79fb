// Ends a real browser as a flat battery would: every process at once, with no chance to write anything.
import { readlink } from 'node:fs/promises'
import { join } from 'node:path'

/** The process group of the browser that holds this profile. It notes itself there as `host-pid`, and it leads its own group. */
export const groupOf = async (profile: string): Promise<number> => Number((await readlink(join(profile, 'SingletonLock'))).split('-').pop())

/** Ends every process of the group at once, and waits until none is left. */
export const killGroup = async (group: number): Promise<void> => {
  process.kill(-group, 'SIGKILL')
  const alive = () => {
    try {
      return process.kill(-group, 0)
    } catch {
      return false
    }
  }
  for (const end = Date.now() + 10_000; alive(); await new Promise(next => setTimeout(next, 20)))
    if (Date.now() > end) throw new Error('the browser outlived its end')
}
