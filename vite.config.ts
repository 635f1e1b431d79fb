import { readFileSync } from 'node:fs'
import { defineConfig, type Plugin } from 'vite'
import { VitePWA } from 'vite-plugin-pwa'
import { keyless } from './.config/keyless.ts'

const PAPER = '#fbfaf6'

/**
 * The app talks to its own files alone: no foreign address, no inline script or style, no form. No text ever becomes markup or script
 * (Trusted Types); the one policy, in web/update.ts, lets through the address of the service worker and nothing else.
 */
const POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' blob: data:",
  "connect-src 'self'",
  "manifest-src 'self'",
  "worker-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "require-trusted-types-for 'script'",
  'trusted-types ohmward',
].join('; ')

/** In the built page only: the development server itself needs inline scripts and a socket. */
const policy: Plugin = {
  name: 'ohmward-policy',
  apply: 'build',
  transformIndexHtml: () => [
    { tag: 'meta', attrs: { 'http-equiv': 'Content-Security-Policy', content: POLICY }, injectTo: 'head-prepend' },
  ],
}

/**
 * What comes as one file: the modules named here with all that they need, but for what an earlier part has. A file is a request of the
 * first visit, and a large one packs better than several small ones; but no part brings what a screen before it does without. A language
 * is a part for itself, and so is what only one place asks for.
 */
const PARTS = [
  { name: 'index', from: /web[\\/]main\.tsx$/ },
  // The log and what everything that reads it shares.
  { name: 'store', from: /web[\\/](log[\\/](store|written|shape|row)\.ts|screens[\\/](pairs\.tsx|share\.ts))$/ },
  { name: 'words', from: /content[\\/]shared[\\/](build|keyed)\.ts$|virtual:keys$/ },
  { name: 'hunt', from: /web[\\/]screens[\\/]hunt\.tsx$/ },
  // Without the screens: it saves the log when one of them fails.
  { name: 'files', from: /web[\\/]log[\\/](export|takeIn)\.ts$/ },
  { name: 'phone', from: /web[\\/](screens[\\/](phone|settings|takeOver)\.tsx|qr[\\/](pack|sequence|read)\.ts)$/ },
  { name: 'beside', from: /web[\\/]screens[\\/](machines|designer|tool|past|review)\.tsx$/ },
  { name: 'codes', from: /web[\\/]qr[\\/]draw\.ts$/ },
  { name: 'demos', from: /content[\\/]demo\w*\.ts$/ },
]

export default defineConfig({
  root: 'web',
  // The version that an exported log names.
  define: { APP_VERSION: JSON.stringify(JSON.parse(readFileSync('package.json', 'utf8')).version) },
  // Every address is relative, so that the built folder works from any path of any host.
  base: './',
  // What its package gives a bundler else is written for older browsers, in one piece that cannot be cut down to what is used.
  resolve: { alias: [{ find: /^dexie$/, replacement: 'dexie/dist/modern/dexie.mjs' }] },
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  build: {
    outDir: '../dist',
    emptyOutDir: true,
    target: 'es2022',
    // The size test reads from it which files the first load takes.
    manifest: true,
    modulePreload: { polyfill: false },
    rolldownOptions: {
      output: { codeSplitting: { groups: PARTS.map(({ name, from }, i) => ({ name, test: from, priority: PARTS.length - i })) } },
    },
  },
  plugins: [
    policy,
    keyless,
    VitePWA({
      // An update waits until the technician takes it; web/update.ts registers the worker after the first paint.
      registerType: 'prompt',
      injectRegister: null,
      includeManifestIcons: false,
      workbox: {
        // By name, not 'everything but': what is stored for offline use is a decision.
        globPatterns: ['index.html', 'assets/*.{js,css}', 'icon.svg', 'icon-192.png', 'apple-touch-icon.png'],
        navigateFallback: 'index.html',
        // The page of the first visit too gets its later parts from the phone, if the host is gone before they are asked for.
        clientsClaim: true,
        cleanupOutdatedCaches: true,
        inlineWorkboxRuntime: true,
        sourcemap: false,
      },
      // Without an `id`: a relative one would resolve to the host's root, and two apps on one host would collide.
      manifest: {
        name: 'Ohmward',
        short_name: 'Ohmward',
        description: 'To the fault in a 24 V d.c. control circuit, with a multimeter, step by step.',
        start_url: './',
        scope: './',
        display: 'standalone',
        background_color: PAPER,
        theme_color: PAPER,
        icons: [
          { src: 'icon-192.png', sizes: '192x192', type: 'image/png', purpose: 'any' },
          { src: 'icon-512.png', sizes: '512x512', type: 'image/png', purpose: 'any' },
          { src: 'icon-maskable-512.png', sizes: '512x512', type: 'image/png', purpose: 'maskable' },
        ],
      },
    }),
  ],
  preview: { host: 'localhost', port: 4173 },
})
