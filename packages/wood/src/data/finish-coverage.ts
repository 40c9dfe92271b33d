import type { How } from './provenance.ts';

/** Surface that one coat covers, ft² for a US gallon, from the low to the high end. */
interface CoverageRow {
  readonly name: string;
  readonly low: number;
  readonly high: number;
  readonly how: How;
  readonly note?: string;
}

export const COVERAGE_SOURCE =
  'common practice; the gel varnish read in a maker’s sheet, the others from memory';

export const COVERAGE_ROWS: readonly CoverageRow[] = [
  { name: 'drying oil', low: 300, high: 500, how: 'memory' },
  { name: 'oil-varnish blend', low: 400, high: 600, how: 'memory' },
  {
    name: 'varnish',
    low: 400,
    high: 500,
    how: 'memory',
    note: 'An article that quotes labels has 300 to 350 ft² for a gallon, brushed (read, a weak source).',
  },
  { name: 'gel varnish', low: 700, high: 750, how: 'read' },
  { name: 'water-based varnish', low: 300, high: 400, how: 'memory' },
  { name: 'shellac', low: 300, high: 400, how: 'memory' },
  { name: 'lacquer', low: 150, high: 250, how: 'memory' },
  {
    name: 'hard-wax oil',
    low: 1000,
    high: 1400,
    how: 'memory',
    note: 'Remembered with low confidence.',
  },
  { name: 'stain', low: 250, high: 400, how: 'memory' },
  { name: 'paint', low: 350, high: 450, how: 'memory' },
];
