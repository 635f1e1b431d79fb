import { Dexie } from 'dexie'
import { beforeEach, expect, test } from 'vitest'
import { fuzz } from './fuzz.ts'

beforeEach(() => Dexie.delete('ohmward'))

const SEED = 7
test(`spoilt files: none throws, none changes the store, each refusal names its place, seed ${SEED}`, async () => {
  const all = await fuzz(300, SEED)
  expect(all.flatMap(({ wrong }) => wrong)).toEqual([])
  expect(all).toHaveLength(6)
  for (const { reader, refused } of all) expect({ reader, some: refused > 0 }).toEqual({ reader, some: true })
})
