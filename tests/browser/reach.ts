import type { Page } from 'playwright-core'

/** The share of the screen's height, from its foot, that a thumb reaches; and the corners that it does not, px. */
const [LOWER, CORNER] = [0.6, 24]

/** Primary actions that a thumb does not reach at 360 × 740 with either hand, neither as the screen stands at first nor scrolled to its end. */
export const outOfReach = async (page: Page): Promise<string[]> => {
  const before = page.viewportSize()
  await page.setViewportSize({ width: 360, height: 740 })
  const found: string[] = []
  for (const hand of ['right', 'left'] as const)
    found.push(
      ...(await page.evaluate(
        ([hand, lower, corner]) => {
          const root = document.documentElement
          const { hand: usual = 'right' } = root.dataset
          root.dataset['hand'] = hand
          const scope = document.querySelector('dialog[open]') ?? document.body
          const wrong = [...scope.querySelectorAll<HTMLElement>('.primary')].flatMap(action => {
            const places = [0, root.scrollHeight].map(at => {
              scrollTo(0, at)
              const { left, right, top, bottom } = action.getBoundingClientRect()
              return { x: Math.round((left + right) / 2), y: Math.round((top + bottom) / 2) }
            })
            const reached = places.some(({ x, y }) => {
              const cornered = (x < corner || x > innerWidth - corner) && y > innerHeight - corner
              return y >= innerHeight * (1 - lower) && y <= innerHeight && !cornered
            })
            return reached ? [] : [`"${action.textContent}" is at ${JSON.stringify(places)} for the ${hand} hand`]
          })
          scrollTo(0, 0)
          root.dataset['hand'] = usual
          return wrong
        },
        [hand, LOWER, CORNER] as const,
      )),
    )
  if (before) await page.setViewportSize(before)
  return found
}
