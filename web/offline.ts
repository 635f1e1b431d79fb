// Is the whole app on this phone? The worker is at work only after every file was stored; and the browser may have emptied its store since.

/** True once the app opens without a network. Rechecks what the browser holds, and claims nothing it cannot see. */
export const readyOffline = async (): Promise<boolean> => {
  if (!('serviceWorker' in navigator) || !('caches' in globalThis)) return false
  const { active } = await navigator.serviceWorker.ready
  if (!active) return false
  while (active.state === 'activating') await new Promise(next => active.addEventListener('statechange', next, { once: true }))
  return active.state === 'activated' && (await caches.match('index.html', { ignoreSearch: true })) !== undefined
}
