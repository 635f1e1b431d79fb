import { defineConfig } from 'vitest/config'

const here = (...folders: string[]) => folders.map(folder => `tests/${folder}/**/*.test.{ts,tsx}`)
// Restarting a browser and waiting for its service worker takes seconds, and longer on a busy machine.
const SLOW = 90_000

export default defineConfig({
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  test: {
    projects: [
      // The frame itself: the lock file, the walls between the folders.
      { extends: true, test: { name: 'frame', include: ['tests/*.test.ts'], testTimeout: SLOW } },
      { extends: true, test: { name: 'engine', include: here('engine', 'reference', 'bench'), testTimeout: 30_000 } },
      { extends: true, test: { name: 'content', include: here('content') } },
      { extends: true, test: { name: 'flow', include: here('flow'), testTimeout: 30_000 } },
      { extends: true, test: { name: 'machines', include: here('machines'), testTimeout: 30_000 } },
      { extends: true, test: { name: 'log', include: here('log'), setupFiles: ['fake-indexeddb/auto'], testTimeout: 30_000 } },
      {
        extends: true,
        test: {
          name: 'browser',
          include: here('browser'),
          globalSetup: 'tests/browser/setup.ts',
          testTimeout: SLOW,
          hookTimeout: SLOW,
          // A browser on a machine that does other work beside it may miss a moment. The sum names each test that needed its second try.
          retry: 1,
          // Two pages side by side: more would wait for each other on a small machine.
          maxWorkers: 2,
        },
      },
    ],
  },
})
