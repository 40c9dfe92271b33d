interface Takes {
  steps(...args: unknown[]): number;
}

/**
 * Steps that a function takes for its arguments, asked before it is worked out: it cannot be stopped later.
 * The arguments are what the function takes; whoever asks holds to that.
 */
export type Steps = Takes['steps'];

/** Cells as an engine hands them to a function. */
export interface Cells {
  /** Line by line. */
  readonly data: readonly (readonly unknown[])[];
  /** How many columns. */
  width(): number;
  /** How many lines. */
  height(): number;
}

const isCells = (value: unknown): value is Cells =>
  typeof value === 'object' && value !== null && 'data' in value && 'width' in value;

/** How many cells an argument is; a single value is one. */
export const cellsOf = (value: unknown): number =>
  isCells(value) ? value.width() * value.height() : 1;

const lengthOf = (text: unknown): number => (typeof text === 'string' ? text.length : 1);

export const times =
  (factor: number): Steps =>
  (_first: unknown, count: number) =>
    Math.abs(count) * factor;

/** Counted one by one: beyond these, a number and one more are the same, and it never ends. */
export const periods: Steps = (
  _rate: number,
  _periods: number,
  _value: number,
  from: number,
  to: number,
) => (to > Number.MAX_SAFE_INTEGER ? Number.POSITIVE_INFINITY : to - from);

export const drawn: Steps = (_hits: number, drawn: number, hits: number, all: number) =>
  5 * Math.min(drawn, hits, all - drawn, all - hits);

/** Dates are found by halving: beyond these, halves are no longer whole numbers and it never ends. */
export const days: Steps = (start: number, days: number) =>
  Math.max(Math.abs(start), Math.abs(days)) > 1e9 ? Number.POSITIVE_INFINITY : 100;

export const pools =
  (each: number): Steps =>
  (range: Cells, window: number, stride: number = window) =>
    each *
    window ** 2 *
    ((range.width() - window) / stride + 1) *
    ((range.height() - window) / stride + 1);

export const database: Steps = (data: unknown, _field: unknown, wanted: unknown) =>
  cellsOf(data) * cellsOf(wanted);

/** Each cell held against a criterion costs several steps. */
export const criteria: Steps = (...args: unknown[]) =>
  3 * args.reduce<number>((sum, one) => sum + (cellsOf(one) > 1 ? cellsOf(one) : 0), 0);

export const texts: Steps = (...args: unknown[]) =>
  args.reduce<number>((sum, one) => sum + lengthOf(one), 0) / 50;

/** Rows or columns compared each with those that differ so far: few where few differ. */
export const compared: Steps = (range: Cells, byColumn = false) => {
  const lines = byColumn ? range.width() : range.height();
  const seen = new Set<string>();
  for (let i = 0; i < lines; i += 1) {
    const line = byColumn ? range.data.map((row) => row[i]) : range.data[i];
    seen.add((line ?? []).map((cell) => `${typeof cell} ${String(cell)}`).join('\n'));
  }
  return (lines * seen.size) / 2;
};

export const poisson: Steps = (x: number, _mean: number, all: boolean) => (all ? 25 * x : 1);

export const negativeBinomial: Steps = (
  x: number,
  _successes: number,
  _chance: number,
  all: boolean,
) => (all ? 25 * x : 1);

export const binomial: Steps = (_x: number, trials: number) => 20 + 10 * Math.sqrt(trials);

export const binomialInverse: Steps = (trials: number) => 300 * Math.sqrt(trials);

export const depreciation: Steps = (
  _cost: number,
  _salvage: number,
  _life: number,
  period: number,
) => 10 * period;

export const combinations: Steps = (of: number, choose: number) =>
  10 * Math.min(choose, of - choose);

export const multinomial: Steps = (...counts: number[]) =>
  counts.reduce((sum, count) => sum + 10 * count, 0);

export const rates =
  (each: number): Steps =>
  (values: unknown) =>
    each * cellsOf(values);

export const multiplied: Steps = (a: Cells, b: Cells) => (a.height() * a.width() * b.width()) / 5;

export const sort: Steps = (range: unknown) => 3 * cellsOf(range) * Math.log2(2 + cellsOf(range));

export const substitute: Steps = (text: string, _old: string, by: string) =>
  ((text.length + 1) * (by.length + 1) * (by.includes('$') ? text.length + 1 : 1)) / 50;

export const trim: Steps = (text: string) => text.length ** 2 / 1000;

export const join: Steps = (by: unknown, _blank: boolean, ...all: unknown[]) =>
  (all.reduce<number>((sum, one) => sum + cellsOf(one), 0) * (lengthOf(by) + 50)) / 50;
