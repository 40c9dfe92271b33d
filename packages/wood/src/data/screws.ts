import type { How } from './provenance.ts';

/** Shank and root of the thread, in; how the root was obtained. */
type GaugeRow = readonly [gauge: number, root: number, how: How];

/** Shank: 0.060 + 0.013 x gauge (ASME B18.6.1); the diameters of gauges 0 to 14 were read. */
export const SHANK_SOURCE =
  'ASME B18.6.1: 0.060 in + 0.013 in x gauge; gauges 0 to 14 read in size charts';

export const ROOT_SOURCE =
  'roots of the thread of gauges 2 to 14 read in a dealer’s size chart, 16 to 24 of NDS appendix L from memory';

/**
 * Roots of the thread. From No. 9 up the chart's are larger than those of NDS appendix L (0.142,
 * 0.152, 0.171 and 0.196 for No. 9, 10, 12 and 14, from memory). Gauges between two rows are worked out.
 */
export const GAUGE_ROOTS: readonly GaugeRow[] = [
  [0, 0.04, 'computed'],
  [2, 0.062, 'read'],
  [3, 0.073, 'read'],
  [4, 0.084, 'read'],
  [5, 0.095, 'read'],
  [6, 0.106, 'read'],
  [7, 0.12, 'read'],
  [8, 0.131, 'read'],
  [9, 0.145, 'read'],
  [10, 0.158, 'read'],
  [12, 0.182, 'read'],
  [14, 0.207, 'read'],
  [16, 0.209, 'memory'],
  [18, 0.232, 'memory'],
  [20, 0.255, 'memory'],
  [24, 0.298, 'memory'],
];

/** Outside and core of a metric thread, mm; how the core was obtained. */
type MetricRow = readonly [size: number, core: number, how: How];

export const METRIC_SOURCE =
  'DIN 7998: the size is the outside of the thread; cores of 1.6 and 2 mm read, the others from memory';

/** Sizes of wood screw threads; cores of sizes between two rows are worked out. */
export const METRIC_CORES: readonly MetricRow[] = [
  [1.6, 1.1, 'read'],
  [2, 1.4, 'read'],
  [2.5, 1.7, 'memory'],
  [3, 2.1, 'memory'],
  [3.5, 2.4, 'memory'],
  [4, 2.8, 'memory'],
  [4.5, 3.1, 'memory'],
  [5, 3.5, 'memory'],
  [6, 4.2, 'memory'],
  [8, 5.6, 'memory'],
];

/** Length of screw, in, and the gauges of that length that were tested for withdrawal. */
type TestedRow = readonly [length: number, thinnest: number, thickest: number];

export const TESTED_SOURCE =
  'Wood Handbook (FPL-GTR-190, 2010), chapter 8, lengths and gauges the equation holds for; values from memory';

export const TESTED_SCREWS: readonly TestedRow[] = [
  [0.5, 1, 6],
  [0.75, 2, 11],
  [1, 3, 12],
  [1.5, 5, 14],
  [2, 7, 16],
  [2.5, 9, 18],
  [3, 12, 20],
];

/**
 * Breaking strength of the steel of plain screws, psi: the least of low-carbon steel (SAE J429, grade
 * 1; value from memory). Hardened screws bear more.
 */
export const SCREW_STEEL = 60_000;

/** Steel of which it is the least strength. */
export const STEEL_SOURCE = 'SAE J429, low-carbon steel of grade 1';
