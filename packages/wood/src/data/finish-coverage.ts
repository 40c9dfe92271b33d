/** Surface that one coat covers, ft² for a US gallon, from the low to the high end. */
interface CoverageRow {
  readonly name: string;
  readonly low: number;
  readonly high: number;
}

export const COVERAGE_SOURCE =
  'common practice; values from memory, the hard-wax oil with low confidence';

export const COVERAGE_ROWS: readonly CoverageRow[] = [
  { name: 'drying oil', low: 300, high: 500 },
  { name: 'oil-varnish blend', low: 400, high: 600 },
  { name: 'varnish', low: 400, high: 500 },
  { name: 'water-based varnish', low: 300, high: 400 },
  { name: 'shellac', low: 300, high: 400 },
  { name: 'lacquer', low: 150, high: 250 },
  { name: 'hard-wax oil', low: 1000, high: 1400 },
  { name: 'stain', low: 250, high: 400 },
  { name: 'paint', low: 350, high: 450 },
];
