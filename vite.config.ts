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

export default defineConfig({
  root: 'web',
  // The version that an exported log names.
  define: { APP_VERSION: JSON.stringify(JSON.parse(readFileSync('package.json', 'utf8')).version) },
  // Every address is relative, so that the built folder works from any path of any host.
  base: './',
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  build: {
    outDir: '../dist',
    emptyOutDir: true,
    target: 'es2022',
    // The size test reads from it which files the first load takes.
    manifest: true,
    modulePreload: { polyfill: false },
    // Small files that are fetched together come as one: each is a request of the first visit.
    rolldownOptions: {
      output: {
        codeSplitting: {
          groups: [
            { name: 'demos', test: /content[\\/]demo/ },
            { name: 'codes', test: /web[\\/]qr[\\/](?!read|draw)/ },
          ],
        },
      },
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
