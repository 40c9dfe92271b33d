import { QUANTITIES, type Quantity } from '@kerfbook/wood';
import { QUANTITY_WORDS } from '../quantities/words.ts';

/** What numbers are made of here; a percentage carries its hundred until it is divided by it. */
export type Base =
  | 'length'
  | 'mass'
  | 'force'
  | 'liquid'
  | 'boardfeet'
  | 'money'
  | 'time'
  | 'heat'
  | 'percent';

/** Bare numbers that mean something all the same: two of these are not added to each other. */
export type Tag = 'ratio' | 'moisture' | 'humidity' | 'angle' | 'movement_rate';

/** What a value is, as far as the formula tells. */
export type Meaning =
  /** Nothing is known of it, or it may be taken for anything: a plain number typed in a formula. */
  | {
      readonly kind: 'any';
      readonly literal?: number;
      /** The number was written with a percent sign. */
      readonly percent?: true;
      /** A percentage went into it as it is, 15 for 15 %. */
      readonly hundredfold?: true;
    }
  | { readonly kind: 'words' | 'logical' | 'date' }
  | Measure;

export interface Measure {
  readonly kind: 'measure';
  readonly dims: Dims;
  readonly tag?: Tag;
  /** A plain number took part in a product: it may have been a change of unit. */
  readonly scaled?: true;
  /** It was multiplied by a plain number, which may have been what one of it costs. */
  readonly priced?: true;
  /** Of a bare number: the days from one date to another. */
  readonly days?: true;
}

export type Dims = Readonly<Partial<Record<Base, number>>>;

export const ANY: Meaning = { kind: 'any' };
export const LOGICAL: Meaning = { kind: 'logical' };
export const WORDS: Meaning = { kind: 'words' };
export const DATE: Meaning = { kind: 'date' };
export const DAYS: Meaning = { kind: 'measure', dims: {}, days: true };

const DIMS: Readonly<Record<Quantity, Dims | 'words' | 'logical' | 'date'>> = {
  number: {},
  count: {},
  ratio: {},
  percent: { percent: 1 },
  moisture: {},
  humidity: {},
  angle: {},
  movement_rate: {},
  length: { length: 1 },
  area: { length: 2 },
  volume: { length: 3 },
  liquid: { liquid: 1 },
  boardfeet: { boardfeet: 1 },
  mass: { mass: 1 },
  temperature: { heat: 1 },
  force: { force: 1 },
  pressure: { force: 1, length: -2 },
  load_per_length: { force: 1, length: -1 },
  coverage: { length: 2, liquid: -1 },
  money: { money: 1 },
  money_per_boardfoot: { money: 1, boardfeet: -1 },
  money_per_hour: { money: 1, time: -1 },
  duration: { time: 1 },
  date: 'date',
  text: 'words',
  logical: 'logical',
};

const TAGS: ReadonlySet<string> = new Set<Tag>([
  'ratio',
  'moisture',
  'humidity',
  'angle',
  'movement_rate',
]);

const isTag = (quantity: string): quantity is Tag => TAGS.has(quantity);

/** What a number of a quantity is. */
export function meaningOf(quantity: Quantity): Meaning {
  const dims = DIMS[quantity];
  if (typeof dims === 'string') return { kind: dims };
  return { kind: 'measure', dims, ...(isTag(quantity) ? { tag: quantity } : {}) };
}

const BASES: readonly Base[] = [
  'length',
  'mass',
  'force',
  'liquid',
  'boardfeet',
  'money',
  'time',
  'heat',
  'percent',
];

const exponent = (dims: Dims, base: Base): number => dims[base] ?? 0;

export const sameDims = (a: Dims, b: Dims): boolean =>
  BASES.every((base) => Math.abs(exponent(a, base) - exponent(b, base)) < 1e-9);

export const isBare = ({ dims }: Measure): boolean => sameDims(dims, {});

/** The dimensions of one value times another to a power. */
export function combine(a: Dims, b: Dims, power: number): Dims {
  const parts = BASES.map(
    (base) => [base, exponent(a, base) + power * exponent(b, base)] as const,
  ).filter(([, n]) => Math.abs(n) > 1e-9);
  return Object.fromEntries(parts);
}

/** The same without its percent, which is a number to every unit. */
export const measureOf = ({ percent: _percent, ...dims }: Dims): Dims => dims;

/** Room in wood, in a can and in board feet: a number in a product turns one into another. */
const ROOM: readonly Dims[] = [{ length: 3 }, { liquid: 1 }, { boardfeet: 1 }];
/** Weight and the force it makes are told by the same number in pounds. */
const WEIGHT: readonly Dims[] = [{ mass: 1 }, { force: 1 }];

const within = (group: readonly Dims[], dims: Dims): boolean =>
  group.some((one) => sameDims(one, dims));

const bothWithin = (group: readonly Dims[], a: Dims, b: Dims): boolean =>
  within(group, a) && within(group, b);

/** What is paid for by the piece, the foot, the pound or the hour. */
const PAID_BY: readonly Dims[] = [...ROOM, { length: 1 }, { length: 2 }, { mass: 1 }, { time: 1 }];

/** Whether one may be money for the other: 84 board feet times 12.50 are. */
const isPriceOf = (a: Measure, b: Measure): boolean =>
  a.priced === true && within(PAID_BY, a.dims) && sameDims(b.dims, { money: 1 });

/** A percentage of moisture may be called a percentage. */
const isPercentage = ({ dims, tag }: Measure): boolean =>
  sameDims(dims, { percent: 1 }) || tag === 'moisture' || tag === 'humidity';

/** Whether two measures may be added, compared, or stand in one place. */
export function fits(a: Measure, b: Measure): boolean {
  if (sameDims(a.dims, b.dims)) {
    return a.tag === undefined || b.tag === undefined || a.tag === b.tag;
  }
  if (bothWithin(WEIGHT, a.dims, b.dims)) return true;
  if (isPriceOf(a, b) || isPriceOf(b, a)) return true;
  const scaled = a.scaled === true || b.scaled === true;
  if (scaled && bothWithin(ROOM, a.dims, b.dims)) return true;
  const [bare, other] = isBare(a) ? [a, b] : [b, a];
  if (!isBare(bare)) return false;
  if (bare.tag === 'ratio' || !isPercentage(other)) return false;
  return bare.tag === undefined || isPercentage(bare);
}

const BASE_WORDS: Readonly<Record<Base, string>> = {
  length: 'length',
  mass: 'weight',
  force: 'force',
  liquid: 'liquid',
  boardfeet: 'board feet',
  money: 'money',
  time: 'time',
  heat: 'temperature',
  percent: 'percent',
};

/** A meaning in a maker's words: `a length`, `a price per board foot`, `length² × money`. */
export function wordsFor(meaning: Meaning): string {
  switch (meaning.kind) {
    case 'any':
      return 'a number';
    case 'words':
      return 'words';
    case 'logical':
      return 'yes or no';
    case 'date':
      return 'a date';
    case 'measure':
      return measureWords(meaning);
  }
}

function measureWords({ dims, tag }: Measure): string {
  if (tag !== undefined) return QUANTITY_WORDS[tag];
  if (sameDims(dims, {})) return 'a bare number';
  for (const quantity of QUANTITIES) {
    const own = DIMS[quantity];
    if (typeof own !== 'string' && sameDims(own, dims)) return QUANTITY_WORDS[quantity];
  }
  const part = (sign: 1 | -1): string =>
    BASES.filter((base) => sign * exponent(dims, base) > 0)
      .map((base) => powerWord(BASE_WORDS[base], Math.abs(exponent(dims, base))))
      .join(' × ');
  const [over, under] = [part(1), part(-1)];
  return under === '' ? over : `${over === '' ? '1' : over} / (${under})`;
}

function powerWord(word: string, power: number): string {
  if (power === 1) return word;
  if (power === 2) return `${word}²`;
  return power === 3 ? `${word}³` : `${word}^${Number(power.toFixed(2))}`;
}

/**
 * What a cell of which nothing is said becomes by a formula: one for dates, for days or for money (rule N9). Nothing
 * where the number is of another kind, which a cell shows as it is.
 */
export function quantityBy(meaning: Meaning): Quantity | undefined {
  if (meaning.kind === 'date') return 'date';
  if (meaning.kind !== 'measure') return undefined;
  if (meaning.days === true) return 'count';
  return sameDims(meaning.dims, { money: 1 }) ? 'money' : undefined;
}
