import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** Packages are read from their sources, so that a test sees what was just written. */
const fromSource = {
  resolve: { conditions: ['kerfbook-source'] },
  ssr: { resolve: { conditions: ['kerfbook-source'] } },
};

/** What puts another module in the place of one, which others must not meet. */
const ALONE = ['house/leave-out.test.ts'];

/** Files that take long, the longest first: one begun last would leave a processor with nothing to do. */
const LONG = [
  'hostile/random-formulas.test.ts',
  'hostile/cost.test.ts',
  'hostile/random-edits.test.ts',
  'browser/fit.test.ts',
  'browser/shelf.test.ts',
  'browser/keeping.test.ts',
  'browser/club-people.test.ts',
  'browser/readers.test.ts',
  'browser/guide.test.ts',
  'browser/clipboard.test.ts',
  'browser/rescue.test.ts',
  'browser/notices.test.ts',
  'browser/structure.test.ts',
  'browser/paper.test.ts',
  'browser/in-sight.test.ts',
  'browser/shop.test.ts',
  'browser/first-load.test.ts',
  'browser/hands.test.ts',
  'browser/looks.test.ts',
  'browser/focus.test.ts',
  'browser/clipboard-tabs.test.ts',
  'browser/tablet.test.ts',
  'browser/another-program.test.ts',
  'browser/large.test.ts',
];

class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const place = ({ moduleId }: TestSpecification): number => {
      const at = LONG.findIndex((name) => moduleId.endsWith(name));
      return at === -1 ? LONG.length : at;
    };
    return (await super.sort(files)).toSorted((one, other) => place(one) - place(other));
  }
}

export default defineConfig({
  test: {
    sequence: { sequencer: LongestFirst },
    reporters: ['default', ['json', { outputFile: '.results/vitest.json' }]],
    projects: [
      {
        ...fromSource,
        test: {
          name: 'node',
          include: ['{reference,house,hostile,interchange}/**/*.test.ts'],
          exclude: ALONE,
          // Sources are read once for all files.
          isolate: false,
          testTimeout: 300_000,
        },
      },
      {
        ...fromSource,
        test: { name: 'node-alone', include: ALONE, testTimeout: 300_000 },
      },
      {
        ...fromSource,
        test: {
          name: 'browser',
          include: ['browser/**/*.test.ts'],
          // Sources are read, the app is served and its browser started once for all files of a process; each
          // page has a profile of its own.
          isolate: false,
          // Browsers on a small machine: two at a time, after everything else, with patience. While one
          // waits for its page the other goes on.
          maxWorkers: 2,
          sequence: { groupOrder: 1 },
          // A browser beside other work is slow at times; which tests needed it is told at the end of `npm test`.
          retry: 1,
          testTimeout: 180_000,
          hookTimeout: 180_000,
          expect: { poll: { timeout: 40_000 } },
        },
      },
    ],
  },
});
