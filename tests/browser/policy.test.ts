// What the page is allowed, and that it never asks for more: its policy, Trusted Types, and every address asked for.
import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { BrowserContext, Page } from 'playwright-core'
import { expect, onTestFinished, test } from 'vitest'
import { firstPage, launch, newProfile, stored } from './launch.ts'
import { DIST, type Server, serve } from './server.ts'
import { tour } from './tour.ts'

/** Notes each breach of the policy from the page's first moment on. */
const noting = (): void => {
  const seen: string[] = []
  Object.defineProperty(globalThis, 'breaches', { value: seen })
  document.addEventListener('securitypolicyviolation', e => seen.push(`${e.effectiveDirective} ${e.blockedURI} ${e.sample}`))
}
const breaches = (page: Page): Promise<string[]> => page.evaluate(() => (globalThis as unknown as { breaches: string[] }).breaches)

interface Opened {
  readonly browser: BrowserContext
  readonly page: Page
  readonly server: Server
  readonly asked: string[]
  readonly broken: string[]
}
const open = async (): Promise<Opened> => {
  const { profile, remove } = await newProfile()
  const server = await serve()
  const browser = await launch(profile)
  onTestFinished(async () => {
    await browser.close()
    await server.stop()
    await remove()
  })
  await browser.addInitScript(noting)
  const asked: string[] = []
  const broken: string[] = []
  // The context sees the requests of the page and of its service worker.
  browser.on('request', request => asked.push(request.url()))
  const page = await firstPage(browser)
  page.on('pageerror', error => broken.push(String(error)))
  page.on('console', message => message.type() === 'error' && broken.push(message.text()))
  await page.goto(server.url)
  return { browser, page, server, asked, broken }
}

test('the page forbids everything but its own files, says nothing of unsafe, and wants Trusted Types', async () => {
  const html = await readFile(join(DIST, 'index.html'), 'utf8')
  const policy = (/http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(html)?.[1] ?? '').replaceAll('&#39;', "'")
  const rules = new Map(policy.split('; ').map(rule => [rule.split(' ')[0], rule.split(' ').slice(1).join(' ')]))
  expect(policy).not.toMatch(/unsafe|\*|https?:/)
  expect(rules.get('default-src')).toBe("'none'")
  expect(rules.get('script-src')).toBe("'self'")
  expect(rules.get('connect-src')).toBe("'self'")
  expect(rules.get('require-trusted-types-for')).toBe("'script'")
  expect(rules.get('trusted-types')).toBe('ohmward')
  // It stands before anything that it has to hold for.
  expect(html.indexOf('Content-Security-Policy')).toBeLessThan(html.search(/<(script|link|style)/))
})

test('every screen, from the first to the review: no breach of the policy, no foreign address, and after install nothing but the update check', async () => {
  const { page, server, asked, broken } = await open()
  expect(await stored(page)).toBe('activated')
  await page.waitForLoadState('networkidle')
  const before = server.asked.length
  const met = await tour(page, async () => {
    expect(await breaches(page)).toEqual([])
  })
  expect(met.length).toBeGreaterThan(20)
  expect(await breaches(page)).toEqual([])
  expect(broken).toEqual([])
  const home = new URL(server.url).origin
  const foreign = asked.filter(url => /^(https?|wss?):/.test(url) && new URL(url).origin !== home)
  expect(foreign).toEqual([])
  expect(server.asked.slice(before).filter(path => !path.endsWith('/sw.js'))).toEqual([])
}, 240_000)

test('the negative control: what the policy forbids is stopped, and the listener sees it', async () => {
  const { page } = await open()
  await page.getByRole('heading', { name: 'Ohmward', level: 1 }).waitFor()
  const stopped = await page.evaluate(async () => {
    const of = (work: () => unknown): string => {
      try {
        work()
        return 'done'
      } catch (error) {
        return error instanceof Error ? error.name : 'thrown'
      }
    }
    const script = document.createElement('script')
    const results = {
      html: of(() => {
        document.body.innerHTML += '<p>x</p>'
      }),
      policy: of(() =>
        (globalThis as unknown as { trustedTypes: { createPolicy: (name: string, rules: object) => unknown } }).trustedTypes.createPolicy(
          'another',
          {},
        ),
      ),
      worker: of(() => new Worker('./another.js')),
      text: of(() => {
        script.textContent = 'globalThis.ran = 1'
      }),
    }
    const style = document.createElement('style')
    style.textContent = 'body { color: red }'
    document.head.append(style)
    const away = await fetch('https://example.invalid/').then(
      () => 'done',
      error => (error as Error).name,
    )
    return { ...results, away, ran: 'ran' in globalThis }
  })
  expect(stopped).toEqual({ html: 'TypeError', policy: 'TypeError', worker: 'TypeError', text: 'TypeError', away: 'TypeError', ran: false })
  const seen = (await breaches(page)).join('\n')
  for (const directive of ['require-trusted-types-for', 'trusted-types', 'style-src-elem', 'connect-src']) expect(seen).toContain(directive)
})
