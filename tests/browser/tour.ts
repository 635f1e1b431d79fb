// Every screen, listed once: what is checked of all screens, and what is pictured, comes from this walk.
import type { Page } from 'playwright-core'
import type { Kit } from '../../engine/machine.ts'
import { begin } from '../../web/flow/session.ts'
import { Technician } from '../bench/technician.ts'
import { filler, truthOf, wornThrough } from './filler.ts'
import { kindOf } from './kind.ts'
import { playOn } from './play.ts'
import { Thumb } from './thumb.ts'

const KIT: Kit = { qualified: true, injector: { ampere: 1, volts: 24 } }

/** The screens that every session meets; a walk that misses one has gone wrong. */
export const ALWAYS = [
  'start',
  'start-settings',
  'count',
  'symptom',
  'which',
  'kit',
  'confirm-before-work',
  'look-supply-lamp',
  'act-supply-off',
  'act-prove-dead',
  'enter-V',
  'enter-Ω',
  'read-ohm-terminals-terminals',
  'sheet-why',
  'sheet-cannot',
  'sheet-end',
  'sheet-drawing',
  'finding-short-to-zero-run',
  'mend-short-to-zero-run',
  'act-supply-on',
  'end-restored',
  'closing',
  'past',
  'timeline',
  'review',
  'tool',
] as const

/** Walks through all screens by tapping and calls `at` on each sort of screen, once. It must leave the screen as it found it. */
export const tour = async (page: Page, at: (name: string) => Promise<void>): Promise<readonly string[]> => {
  const thumb = new Thumb(page)
  const met: string[] = []
  const stop = async (name: string) => {
    const plain = name.replace(/[^\p{L}\d]+/gu, '-')
    if (met.includes(plain)) return
    met.push(plain)
    await at(plain)
  }
  const heading = (name: string | RegExp) => page.getByRole('heading', { name }).first().waitFor()
  const start = () => page.getByRole('heading', { name: 'Ohmward', level: 1 }).waitFor()
  await start()
  await stop('start')
  await thumb.tap('Settings')
  await heading('Settings')
  await stop('start settings')
  await thumb.tap('Back')
  await thumb.tap(/^Find the fault now/)
  await heading('Count the branches')
  await stop('count')
  await thumb.tap('Back')
  await thumb.tap('Demo machine')
  await heading('Say what the machine does')
  await stop('symptom')
  await thumb.tap('One load is dead')
  await stop('which')
  await thumb.tap('Back')
  await thumb.tap('Everything is dead')
  await heading('Tick what is at hand')
  await page.getByText('Isolated current source').tap()
  await page.getByText('Yes', { exact: true }).tap()
  await stop('kit')
  await thumb.tap('Start the session')

  const technician = new Technician(truthOf(wornThrough), filler, KIT)
  await playOn(page, begin({ type: 'started', machine: filler, kit: KIT, symptom: 'all-dead' }), technician, {
    shown: async session => {
      await stop(kindOf(session))
      // With something measured, the reasons say what spoke for and against each branch.
      if (met.includes('sheet-why') || session.request.say !== 'step' || session.request.step.kind !== 'read') return
      for (const [button, name] of [
        ['Why this?', 'why'],
        ['Can’t do it', 'cannot'],
        ['End', 'end'],
        ['Larger drawing', 'drawing'],
      ] as const) {
        await thumb.tap(button)
        await page.locator('dialog[open]').waitFor()
        await stop(`sheet ${name}`)
        await thumb.tap('Back to the step')
      }
    },
    typing: async ({ request }) => {
      const meter = request.say === 'step' && request.step.kind === 'read' ? request.step.meter : undefined
      const act = request.say === 'step' && request.step.kind === 'act' ? request.step.act.act : undefined
      await stop(`enter ${meter === 'volt' || act === 'prove-dead' ? 'V' : meter === 'amp' ? 'A' : 'Ω'}`)
      return true
    },
  })
  await stop('end restored')
  await thumb.tap('Say what was wrong')
  await heading('Say what was wrong')
  await stop('closing')
  await page.getByText('Cable worn through').tap()
  await thumb.tap('Save and close')
  await page.getByText('The closing form is saved.').waitFor()
  await thumb.tap('Back to the start')
  await thumb.tap('Past sessions')
  await heading('Past sessions')
  await stop('past')
  await thumb.tap(/Filler 2.*Control voltage is back/)
  await page.locator('.timeline').waitFor()
  await stop('timeline')
  await thumb.tap('Back')
  await thumb.tap('Search, charts, files')
  await page.locator('h1').waitFor()
  await stop('review')
  await page.reload()
  await start()
  await thumb.tap('Place on one cable')
  await page.locator('h1').waitFor()
  await stop('tool')
  return met
}
