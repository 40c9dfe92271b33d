import { defineConfig } from 'vitest/config';

export default defineConfig({
  resolve: { conditions: ['kerfbook-source'] },
  ssr: { resolve: { conditions: ['kerfbook-source'] } },
  test: {
    // Property tests run hundreds of workbooks each.
    testTimeout: 300_000,
    setupFiles: ['./vitest.seed.ts'],
    include: ['src/**/*.test.ts'],
    reporters: ['default', ['json', { outputFile: '.results/vitest.json' }]],
  },
});
