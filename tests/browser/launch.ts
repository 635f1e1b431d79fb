import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { type BrowserContext, chromium, type Page } from 'playwright-core'
import { findChromium } from './chromium.ts'

/** A phone of the narrow kind, in CSS pixels. */
export const PHONE = { width: 360, height: 640 } as const

const FLAGS = [
  '--headless=new',
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
]

export interface Look {
  readonly viewport?: { readonly width: number; readonly height: number }
  readonly dark?: boolean
  readonly locale?: string
  /** More of the browser's own switches. */
  readonly flags?: readonly string[]
}

/**
 * Starts a browser that keeps its profile in `profile`: opened again with the same folder, it still has the app, its store and
 * its service worker. An ordinary context of the test driver would count as a private window, where no app can be installed.
 */
export const launch = async (
  profile: string,
  { viewport = PHONE, dark = false, locale = 'en-GB', flags = [] }: Look = {},
): Promise<BrowserContext> => {
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: findChromium(),
    args: [...FLAGS, ...flags],
    viewport: { ...viewport },
    hasTouch: true,
    colorScheme: dark ? 'dark' : 'light',
    locale,
  })
  // Dark is a choice of the technician's, not the phone's.
  if (dark) await context.addInitScript(() => localStorage.setItem('ohmward.settings', JSON.stringify({ theme: 'dark' })))
  return context
}

/** An empty profile folder, and how to remove it. */
export const newProfile = async (): Promise<{ profile: string; remove: () => Promise<void> }> => {
  const profile = await mkdtemp(join(tmpdir(), 'ohmward-'))
  // A browser that is just closing may still write into its profile.
  return { profile, remove: () => rm(profile, { recursive: true, force: true, maxRetries: 10, retryDelay: 200 }) }
}

/** The page of a freshly started browser. */
export const firstPage = async (context: BrowserContext): Promise<Page> => context.pages()[0] ?? (await context.newPage())

/** Waits until the app is stored for use without a network: the service worker has installed and is at work. */
export const stored = (page: Page): Promise<string> =>
  page.evaluate(async () => {
    const { active } = await navigator.serviceWorker.ready
    while (active && active.state !== 'activated') await new Promise(next => active.addEventListener('statechange', next, { once: true }))
    return active?.state ?? 'none'
  })
