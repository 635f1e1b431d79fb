import { useEffect, useState } from 'preact/hooks'
import { first } from '../words.ts'

/** A newer version that waits: offered on the start screen alone, and taken only when it is asked for. */
export const Newer = () => {
  const [waiting, setWaiting] = useState<ServiceWorker | undefined>()
  useEffect(() => {
    navigator.serviceWorker?.getRegistration().then(
      found => {
        setWaiting(found?.waiting ?? undefined)
        found?.addEventListener('updatefound', () =>
          found.installing?.addEventListener('statechange', () => setWaiting(found.waiting && found.active ? found.waiting : undefined)),
        )
      },
      () => undefined,
    )
  }, [])
  if (!waiting) return null
  const take = () => {
    navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), { once: true })
    waiting.postMessage({ type: 'SKIP_WAITING' })
  }
  return (
    <button type="button" class="plain" onClick={take}>
      {first().start.newer}
    </button>
  )
}
