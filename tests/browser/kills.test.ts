import { expect, test } from 'vitest'
import { killAgain } from './killing.ts'

/** `npm run kills` asks for more. */
const KILLS = Number(process.env['KILLS'] ?? 4)
const SEED = Number(process.env['KILLS_SEED'] ?? 3)
const EACH = 60_000

test(
  `the browser killed ${KILLS} times in the middle of a session: nothing that was called saved is lost, seed ${SEED}`,
  async () => {
    const tell = (line: string): void => {
      process.stdout.write(`${line}\n`)
    }
    const { kills, acknowledged, halfTyped, sessions, wrong } = await killAgain(KILLS, SEED, tell)
    tell(`${kills} kills, ${sessions} sessions: ${acknowledged} saved answers compared, ${halfTyped} half typed, ${wrong.length} wrong`)
    expect(wrong).toEqual([])
    expect(kills).toBe(KILLS)
    expect(halfTyped).toBeGreaterThan(0)
  },
  KILLS * EACH,
)
