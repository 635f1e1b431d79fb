// npm run kills -- [--n 200] [--seed 1]: kills the browser that often in the middle of sessions; ends with 1 where anything was lost.
// It runs the test of the same name, only longer: what plays the screens waits as a test does.
import { spawnSync } from 'node:child_process'

const option = (name: string, otherwise: string): string => {
  const at = process.argv.indexOf(`--${name}`)
  return at < 0 ? otherwise : (process.argv[at + 1] ?? otherwise)
}
const env = { ...process.env, KILLS: option('n', '200'), KILLS_SEED: option('seed', '1') }
const run = spawnSync('node_modules/.bin/vitest', ['run', '--project', 'browser', 'tests/browser/kills.test.ts'], { stdio: 'inherit', env })
process.exitCode = run.status ?? 1
