import { useEffect, useState } from 'preact/hooks'
import { first } from '../words.ts'

/** Chromium's offer to install, which its types do not know. */
interface Offer extends Event {
  readonly prompt: () => Promise<unknown>
}
let offered: Offer | undefined
const watchers = new Set<() => void>()

/** From the first moment on: the offer comes once, maybe before the first screen stands. */
export const keepOffer = (): void => {
  addEventListener('beforeinstallprompt', event => {
    event.preventDefault()
    offered = event as Offer
    for (const again of watchers) again()
  })
  addEventListener('appinstalled', () => {
    offered = undefined
    for (const again of watchers) again()
  })
}
/**
 * The words for a browser that makes no offer of its own, by what it has: on iOS `standalone` is false until the page stands on the
 * home screen; `safari` is known to the desktop's alone, which keeps pages in the Dock; any other with fingers on it has a menu.
 * A browser that makes offers but has made none holds the app already, or cannot. (From memory of these browsers, no source.)
 */
const byHand = (): 'byShare' | 'byMenu' | 'byDock' | undefined => {
  if ('onbeforeinstallprompt' in window || matchMedia('(display-mode: standalone)').matches) return undefined
  if ('standalone' in navigator && navigator.maxTouchPoints > 0) return navigator.standalone === false ? 'byShare' : undefined
  if ('safari' in window) return 'byDock'
  return matchMedia('(pointer: coarse)').matches ? 'byMenu' : undefined
}

/** How to get the app on the home screen of this phone, where that is possible and not done. */
export const Install = () => {
  const [, again] = useState(0)
  useEffect(() => {
    const draw = () => again(n => n + 1)
    watchers.add(draw)
    return () => {
      watchers.delete(draw)
    }
  }, [])
  const { start: say } = first()
  if (offered)
    return (
      <button
        type="button"
        class="plain"
        onClick={() => {
          offered?.prompt().catch(() => undefined)
          offered = undefined
          again(n => n + 1)
        }}
      >
        {say.install}
      </button>
    )
  const way = byHand()
  return way ? <p class="card">{say[way]}</p> : null
}
