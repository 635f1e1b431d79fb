import fc from 'fast-check'
import { decodeQR } from 'qr/decode.js'
import { expect, test } from 'vitest'
import { demo } from '../../content/demo.ts'
import { readMachine } from '../../engine/check.ts'
import type { Machine } from '../../engine/machine.ts'
import { codesOf, machineOf } from '../../web/machines/code.ts'
import { codeOf } from '../../web/qr/draw.ts'
import { pack } from '../../web/qr/pack.ts'
import { collect } from '../../web/qr/sequence.ts'
import { anyMachine } from './any.ts'
import { pictureOf } from './picture.ts'

const SEED = 24
const read = (json: unknown): Machine => {
  const checked = readMachine(json)
  if (!checked.ok) throw new Error(checked.message)
  return checked.value
}
const carried = (codes: readonly string[]): Uint8Array => collect(codes).bytes ?? new Uint8Array()

test(`every machine comes out of its codes as it went in; seed ${SEED}`, async () => {
  await fc.assert(
    fc.asyncProperty(anyMachine(false), async told => {
      const machine = read(told)
      const back = await machineOf(carried((await codesOf(machine)).toReversed()))
      expect(back).toEqual({ ok: true, value: machine })
    }),
    { seed: SEED, numRuns: 100 },
  )
})

test('the demo machine of twelve branches goes on one code, which a reader reads from its picture', async () => {
  const codes = await codesOf(read(demo))
  expect(codes).toHaveLength(1)
  const seen = codes.map(text => decodeQR(pictureOf(codeOf(text), 4)))
  expect(seen).toEqual(codes)
  expect(await machineOf(carried(seen))).toEqual({ ok: true, value: read(demo) })
})

test('bytes that hold something else are refused by name', async () => {
  for (const text of ['', '{', '[]', '{"format":"ohmward.session"}'])
    expect(await machineOf(await pack(text))).toMatchObject({ ok: false, message: expect.stringMatching(/^(the label|the file|format) /) })
  expect(await machineOf(new Uint8Array())).toMatchObject({ ok: false, field: 'the label' })
})
