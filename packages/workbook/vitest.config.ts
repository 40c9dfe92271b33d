import { defineConfig } from 'vitest/config';

const fromSource = {
  resolve: { conditions: ['kerfbook-source'] },
  ssr: { resolve: { conditions: ['kerfbook-source'] } },
};

/**
 * What puts another module in the place of one or reads modules anew, which others must not meet, and what
 * looks at HyperFormula as it came, before ours is put into it.
 */
const ALONE = [
  'src/engine/catalogue.test.ts',
  'src/engine/every-function.test.ts',
  'src/engine/inside.test.ts',
  'src/late.test.ts',
  'src/engine/late.test.ts',
  'src/sweep/late-sweep.test.ts',
  'src/edit/read-once.test.ts',
];

const common = {
  // Property tests run hundreds of workbooks each.
  testTimeout: 300_000,
  setupFiles: ['./vitest.seed.ts'],
};

export default defineConfig({
  test: {
    reporters: ['default', ['json', { outputFile: '.results/vitest.json' }]],
    projects: [
      {
        ...fromSource,
        // What a test replaces here it puts back before it ends: modules are read once for all.
        test: {
          ...common,
          name: 'shared',
          include: ['src/**/*.test.ts'],
          exclude: ALONE,
          isolate: false,
        },
      },
      { ...fromSource, test: { ...common, name: 'alone', include: ALONE } },
    ],
  },
});
