import { Workbox } from 'workbox-window'

/** What the page may say about Trusted Types, where the browser has them; the compiler's own list of the page's world has not. */
interface TrustedTypes {
  createPolicy(name: string, rules: { createScriptURL: (url: string) => string }): { createScriptURL(url: string): string }
}

/** Under the page's policy a worker's address must come from a named policy, and this one knows a single address. */
const trusted = (url: string): string => {
  const types = (globalThis as { trustedTypes?: TrustedTypes }).trustedTypes
  if (types === undefined) return url
  const policy = types.createPolicy('ohmward', {
    createScriptURL: asked => {
      if (asked !== url) throw new TypeError(`not the app's own worker: ${asked}`)
      return asked
    },
  })
  return policy.createScriptURL(url)
}

/**
 * Stores the app for use without a network. A new version waits until it is asked for. Where the browser refuses, the app runs as
 * before, only not without a network: the start screen and the self-check say so.
 */
export const keepOffline = async (): Promise<void> => {
  if (!('serviceWorker' in navigator)) return
  await new Workbox(trusted(new URL('sw.js', document.baseURI).href)).register().catch(() => undefined)
}
