import type { How } from './data/provenance.ts';
import {
  GAUGE_ROOTS,
  METRIC_CORES,
  METRIC_SOURCE,
  ROOT_SOURCE,
  SHANK_SOURCE,
} from './data/screws.ts';
import type { ArgumentDescription } from './describe.ts';
import { settle } from './exact.ts';
import { Fault } from './fault.ts';
import { someNumber, whole, words } from './guards.ts';
import { ownFigure } from './own.ts';
import { MM_PER_INCH } from './quantity.ts';
import { rests } from './rests.ts';

/** A wood screw, in inches. */
export interface ScrewSize {
  /** Shank of a screw by gauge, outside of the thread of a metric one. */
  readonly diameter: number;
  /** Root of the thread. */
  readonly root: number;
  /** `No. 8` or `4 mm`. */
  readonly name: string;
  /** How the root was obtained. */
  readonly how: How;
}

const THICKEST_GAUGE = 24;
const [THINNEST_METRIC, THICKEST_METRIC] = [1.6, 8];

/** The argument of every function that asks for a screw. */
export const SCREW_ARGUMENT: ArgumentDescription = {
  name: 'gauge',
  means: 'the screw: its gauge number, 0 to 24, or its size in quotes: "No. 8", "4 mm", "4.5 x 40"',
  takes: 'either',
  quantity: 'count',
  notInMetric: 'a size in quotes: "4 mm" for a metric screw, "No. 8" for one by gauge',
};

const TAKES = 'a gauge such as "No. 8", or a metric size such as "4 mm" or "4.5 x 40"';
const BY_GAUGE = /^(?:no\.?|nr\.?|#|gauge)\s*(\d+)$/i;
const METRIC = /^(\d+(?:[.,]\d+)?)\s*(?:mm)?(?:\s*[x×*]\s*\d+(?:[.,]\d+)?\s*(?:mm)?)?$/i;

type RootRow = readonly [size: number, root: number, how: How];

/** The root of a size, between the rows next to it in proportion. */
function rootOf(rows: readonly RootRow[], at: number): Pick<ScrewSize, 'root' | 'how'> {
  const upper = rows.find(([size]) => size >= at) ?? rows.at(-1);
  const lower = rows.findLast(([size]) => size <= at) ?? rows[0];
  if (upper === undefined || lower === undefined) return { root: 0, how: 'computed' };
  const share = upper[0] === lower[0] ? 0 : (at - lower[0]) / (upper[0] - lower[0]);
  return {
    root: settle(lower[1] + share * (upper[1] - lower[1])),
    how: upper === lower ? upper[2] : 'computed',
  };
}

function ofGauge(given: number): ScrewSize {
  const gauge = whole(SCREW_ARGUMENT, given, 0, THICKEST_GAUGE);
  const own = ownFigure('screws', (row) => row.gauge === gauge, 'diameter');
  const diameter = (60 + 13 * gauge) / 1000;
  const { root, how } = rootOf(GAUGE_ROOTS, gauge);
  const name = `No. ${gauge}`;
  if (own === undefined) return { diameter, root, name, how };
  return { diameter: own, root: (root * own) / diameter, name, how: 'own' };
}

function ofMetric(millimetres: number, typed: string): ScrewSize {
  if (millimetres < THINNEST_METRIC || millimetres > THICKEST_METRIC) {
    throw new Fault({
      class: 'range',
      argument: SCREW_ARGUMENT.name,
      got: typed,
      quantity: 'text',
      takes: `a metric size from ${THINNEST_METRIC} to ${THICKEST_METRIC} mm`,
    });
  }
  const { root, how } = rootOf(METRIC_CORES, millimetres);
  const name = `${millimetres} mm`;
  return { diameter: millimetres / MM_PER_INCH, root: root / MM_PER_INCH, name, how };
}

/** Diameters of the gauges up to this were read in size charts. */
const READ_TO = 0.06 + 14 * 0.013;

/** The diameter of a screw, noted as what the result rests on. */
export function diameterTaken({ name, diameter, how }: ScrewSize): number {
  const byGauge = name.startsWith('No.');
  const obtained = byGauge && diameter > READ_TO + 1e-9 ? 'computed' : 'read';
  rests({
    of: `${name} screw: diameter`,
    value: diameter,
    quantity: 'length',
    how: how === 'own' ? 'own' : obtained,
    source: byGauge ? SHANK_SOURCE : METRIC_SOURCE,
  });
  return diameter;
}

/** The root of a screw's thread, noted as what the result rests on. */
export function rootTaken({ name, root, how }: ScrewSize): number {
  const source = name.startsWith('No.') ? ROOT_SOURCE : METRIC_SOURCE;
  rests({ of: `${name} screw: root of the thread`, value: root, quantity: 'length', how, source });
  return root;
}

/**
 * A wood screw by its gauge number, or by words: `No. 8`, `4 mm`, `4.5 x 40`.
 * @throws Fault `kind`, `range`, `unknown`
 * Source: {@link GAUGE_ROOTS}, {@link METRIC_CORES}; what the workbook's own table of screws says of a
 * gauge goes first, its root in the same proportion.
 */
export function screwSize(given: number | string): ScrewSize {
  if (typeof given !== 'string') return ofGauge(someNumber(SCREW_ARGUMENT, given));
  const asked = words(SCREW_ARGUMENT, given, TAKES);
  const gauge = BY_GAUGE.exec(asked)?.[1];
  if (gauge !== undefined) return ofGauge(Number(gauge));
  const metric = METRIC.exec(asked)?.[1];
  if (metric !== undefined) return ofMetric(Number(metric.replace(',', '.')), asked);
  throw new Fault({
    class: 'unknown',
    argument: SCREW_ARGUMENT.name,
    got: asked,
    quantity: 'text',
    takes: TAKES,
  });
}
