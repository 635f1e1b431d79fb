import { defineConfig } from 'vitest/config'

// For `npm run mutate`: the quick tests of engine and flow alone. Left out is what starts programs of its own, or walks for seconds.
// MUTATE_TESTS='tests/flow/safety.test.ts' names the ones that are to find out, for a file that nearly every test passes through.
export default defineConfig({
  test: {
    include: (process.env['MUTATE_TESTS'] ?? 'tests/{engine,flow,reference}/**/*.test.ts').split(' '),
    exclude: ['**/ngspice.test.ts', '**/drive.test.ts', '**/walk.test.ts', '**/mutants.test.ts', '**/replay.test.ts', '**/node_modules/**'],
    // Every mutant's tests may have to share the processor.
    testTimeout: 120_000,
  },
})
