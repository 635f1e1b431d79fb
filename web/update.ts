import { Workbox } from 'workbox-window'

/** Stores the app for use without a network. A new version waits until it is asked for. */
export const keepOffline = async (): Promise<void> => {
  if (!('serviceWorker' in navigator)) return
  await new Workbox(new URL('sw.js', document.baseURI).href).register()
}
