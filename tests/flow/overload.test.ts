// Loads that draw too much: the hunt ends at the place, and is not given up as something else.
import { expect, test } from 'vitest'
import { inProcess } from '../bench/inprocess.ts'
import { invent } from '../bench/invent.ts'
import { play } from '../bench/play.ts'
import { METER } from './machines.ts'

// Each was handed over, or walked for hours in vain, while one load too many was taken to hold the supply down whatever else was on.
test.each([
  ['overload live', 2740736558],
  ['overload live', 1535219710],
  ['overload of all', 3805615842],
] as const)('%s, seed %i: found and restored', async (fault, seed) => {
  const truth = invent(seed, { fault })
  const played = await play(truth, inProcess(truth.machine, METER), truth.machine, METER, { tells: true })
  expect(played).toMatchObject({ result: 'restored', found: true, restored: true, unsafe: [] })
})
