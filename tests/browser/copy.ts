import { cp, mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { DIST } from './server.ts'

/** A copy of the built app to spoil or to change: what a check must notice, or the next version of the app. */
export const copyOfDist = async (): Promise<{ folder: string; remove: () => Promise<void> }> => {
  const folder = await mkdtemp(join(tmpdir(), 'ohmward-dist-'))
  await cp(DIST, folder, { recursive: true })
  return { folder, remove: () => rm(folder, { recursive: true, force: true }) }
}
