import { defineConfig } from 'vitest/config';

export default defineConfig({
  resolve: { conditions: ['kerfbook-source'] },
  ssr: { resolve: { conditions: ['kerfbook-source'] } },
  test: {
    include: ['src/**/*.test.ts'],
    reporters: ['default', ['json', { outputFile: '.results/vitest.json' }]],
  },
});
