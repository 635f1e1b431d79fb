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
/** iOS makes no offer; its Safari alone says whether a page stands on the home screen. */
const onlyByHand = (): boolean => 'standalone' in navigator && navigator.standalone === false

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
  return onlyByHand() ? <p class="card">{say.byHand}</p> : null
}
