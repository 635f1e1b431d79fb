import { expect, test } from 'vitest'
import { later } from '../../content/en/later.ts'
import { PHONE } from './launch.ts'
import { openApp } from './open.ts'
import { Thumb } from './thumb.ts'

const { cautions } = later

const { powers } = later.labels

test('230 V at the proof: every line of the stop is in sight, the band says voltage, and a slip of the thumb can be taken back', async () => {
  const { page, broken } = await openApp({ ...PHONE, dark: false })
  const thumb = new Thumb(page)
  const stands = (title: string) => page.getByRole('heading', { name: title, level: 1, exact: true }).waitFor()
  const band = (word: string) => expect.poll(() => page.locator('.band').textContent()).toContain(word)
  await thumb.tap(/^Find the fault now/)
  await thumb.tap('It has 8 branches')
  await thumb.tap('Everything is dead')
  await page.getByText('Yes', { exact: true }).tap()
  await thumb.tap('Start the session')
  await stands(cautions['before-work']?.title ?? '')
  await thumb.tickAll()
  await thumb.tap(cautions['before-work']?.done ?? '')
  await thumb.tap('Blinking')
  await thumb.tap('Supply is off and locked')
  await thumb.tap('It shows volts')
  await thumb.type(230)
  await thumb.tap('It shows 230 V')
  const stop = cautions['not-extra-low-voltage']
  await stands(stop?.title ?? '')
  await band(powers.danger.word)
  // Nothing lies over what must be read first.
  for (const point of stop?.points ?? []) {
    const onTop = await page.getByText(point, { exact: true }).evaluate(e => {
      const { left, right, bottom } = e.getBoundingClientRect()
      return bottom <= innerHeight && e.contains(document.elementFromPoint((left + right) / 2, bottom - 4))
    })
    expect({ point, onTop }).toEqual({ point, onTop: true })
  }
  await thumb.tap('Undo')
  await stands('Prove the circuit dead')
  await thumb.tap('Dead on all three')
  await band(powers.provedDead.word)
  expect(broken).toEqual([])
})
