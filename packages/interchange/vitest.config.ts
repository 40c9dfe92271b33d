import { defineConfig } from 'vitest/config';

export default defineConfig({
  resolve: { conditions: ['kerfbook-source'] },
  ssr: { resolve: { conditions: ['kerfbook-source'] } },
  test: {
    // A small machine that does other things meanwhile.
    testTimeout: 300_000,
    // Nothing here keeps or replaces what another test file could meet: modules are read once for all.
    isolate: false,
    include: ['src/**/*.test.ts'],
    reporters: ['default', ['json', { outputFile: '.results/vitest.json' }]],
  },
});
