import { type HyperFormula, SimpleRangeValue } from 'hyperformula';
import { BUDGET, spend } from './meter.ts';

type Steps = (...args: never[]) => number;

const cellsOf = (range: unknown): number =>
  range instanceof SimpleRangeValue ? range.width() * range.height() : 1;
const lengthOf = (text: unknown): number => (typeof text === 'string' ? text.length : 1);
const times = (factor: number) => (_first: unknown, count: number) => Math.abs(count) * factor;
const periods: Steps = (
  _rate: number,
  _periods: number,
  _value: number,
  from: number,
  to: number,
) => to - from;
const drawn: Steps = (_hits: number, drawn: number, hits: number, all: number) =>
  5 * Math.min(drawn, hits, all - drawn, all - hits);
/** Dates are found by halving: beyond these, halves are no longer whole numbers and it never ends. */
const days: Steps = (start: number, days: number) =>
  Math.max(Math.abs(start), Math.abs(days)) > 1e9 ? Number.POSITIVE_INFINITY : 100;
const pools =
  (each: number): Steps =>
  (range: SimpleRangeValue, window: number, stride = window) =>
    each *
    window ** 2 *
    ((range.width() - window) / stride + 1) *
    ((range.height() - window) / stride + 1);
const database: Steps = (data: unknown, _field: unknown, wanted: unknown) =>
  cellsOf(data) * cellsOf(wanted);
/** Each cell held against a criterion costs several steps. */
const criteria: Steps = (...args: unknown[]) =>
  3 * args.reduce<number>((sum, one) => sum + (cellsOf(one) > 1 ? cellsOf(one) : 0), 0);
const texts: Steps = (...args: unknown[]) =>
  args.reduce<number>((sum, one) => sum + lengthOf(one), 0) / 50;

/** Rows or columns compared each with those that differ so far: few where few differ. */
function compared(range: SimpleRangeValue, byColumn = false): number {
  const lines = byColumn ? range.width() : range.height();
  const seen = new Set<string>();
  for (let i = 0; i < lines; i += 1) {
    const line = byColumn ? range.data.map((row) => row[i]) : range.data[i];
    seen.add((line ?? []).map((cell) => `${typeof cell} ${String(cell)}`).join('\n'));
  }
  return (lines * seen.size) / 2;
}

const each = (names: string, steps: Steps): Record<string, Steps> =>
  Object.fromEntries(names.split(' ').map((name) => [name, steps]));

/**
 * Steps that standard functions take for their arguments, where these are more than reading them.
 * Asked before the function is worked out: it cannot be stopped later.
 */
const STEPS: Readonly<Record<string, Steps>> = {
  'POISSON.DIST': (x: number, _mean: number, all: boolean) => (all ? 25 * x : 1),
  'NEGBINOM.DIST': (x: number, _successes: number, _chance: number, all: boolean) =>
    all ? 25 * x : 1,
  'HYPGEOM.DIST': drawn,
  'BINOM.DIST': (_x: number, trials: number) => 20 + 10 * Math.sqrt(trials),
  'BINOM.INV': (trials: number) => 300 * Math.sqrt(trials),
  ...each('BESSELI BESSELJ BESSELK BESSELY', times(10)),
  'GAMMA.DIST': times(1),
  'GAMMA.INV': times(5),
  'CHISQ.DIST': times(1),
  'CHISQ.DIST.RT': times(1),
  'CHISQ.INV': times(3),
  'CHISQ.INV.RT': times(3),
  CUMIPMT: periods,
  CUMPRINC: periods,
  DB: (_cost: number, _salvage: number, _life: number, period: number) => 10 * period,
  COMBIN: (of: number, choose: number) => 10 * Math.min(choose, of - choose),
  MULTINOMIAL: (...counts: number[]) => counts.reduce((sum, count) => sum + 10 * count, 0),
  WORKDAY: days,
  'WORKDAY.INTL': days,
  ...each('SUMIF SUMIFS COUNTIF COUNTIFS AVERAGEIF MAXIFS MINIFS', criteria),
  IRR: (values: unknown) => 100 * cellsOf(values),
  XIRR: (values: unknown) => 200 * cellsOf(values),
  MMULT: (a: SimpleRangeValue, b: SimpleRangeValue) => (a.height() * a.width() * b.width()) / 5,
  MAXPOOL: pools(1 / 5),
  MEDIANPOOL: pools(7),
  SORT: (range: unknown) => 3 * cellsOf(range) * Math.log2(2 + cellsOf(range)),
  UNIQUE: compared,
  RATE: () => 40,
  ...each('BETA.DIST F.DIST F.DIST.RT T.DIST T.DIST.2T T.DIST.RT TDIST', () => 20),
  ...each('BETA.INV F.INV F.INV.RT T.INV T.INV.2T CONFIDENCE.T', () => 200),
  DCOUNT: database,
  SUBSTITUTE: (text: string, _old: string, by: string) =>
    ((text.length + 1) * (by.length + 1) * (by.includes('$') ? text.length + 1 : 1)) / 50,
  TRIM: (text: string) => text.length ** 2 / 1000,
  ...each('REPLACE FIND SEARCH UPPER LOWER PROPER CLEAN', texts),
  TEXTJOIN: (by: unknown, _blank: boolean, ...all: unknown[]) =>
    (all.reduce<number>((sum, one) => sum + cellsOf(one), 0) * (lengthOf(by) + 50)) / 50,
};

const STEPS_OF = Symbol('steps');

type Marked = { [STEPS_OF]?: (...args: unknown[]) => number };

/**
 * Lays what each function costs beside the description of its first argument, which HyperFormula hands
 * along wherever it has made arguments what the function takes.
 *
 * @throws an Error where a function is not there any more
 */
export function markSteps(engine: typeof HyperFormula): void {
  for (const [name, steps] of Object.entries(STEPS)) {
    const first = engine.getFunctionPlugin(name)?.implementedFunctions[name]?.parameters?.[0];
    if (first === undefined) {
      throw new Error(`this version of HyperFormula has no ${name}: see steps.ts`);
    }
    (first as Marked)[STEPS_OF] = steps as (...args: unknown[]) => number;
  }
}

/**
 * Counts what a function costs for arguments that were made what it takes. Ranges count each time: a
 * function asked for every cell of another range goes through them as often.
 */
export function spendSteps(parameters: readonly object[], args: readonly unknown[]): void {
  if (args.length > BUDGET.values) spend(Number.POSITIVE_INFINITY);
  for (const arg of args) if (arg instanceof SimpleRangeValue) spend(cellsOf(arg));
  const steps = (parameters[0] as Marked | undefined)?.[STEPS_OF];
  if (steps !== undefined) spend(steps(...args) || 0);
}
