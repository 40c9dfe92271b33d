import {
  alike,
  type Computing,
  type Family,
  least,
  logical,
  number,
  numbers,
  type Taken,
} from './takes.ts';

/** Of a series by which the area under the bell is found, from the first to the last. */
const SERIES = [
  -1.3026537197817094, 0.6419697923564902, 1.9476473204185836e-2, -9.561514786808631e-3,
  -9.46595344482036e-4, 3.66839497852761e-4, 4.2523324806907e-5, -2.0278578112534e-5,
  -1.624290004647e-6, 1.30365583558e-6, 1.5626441722e-8, -8.5238095915e-8, 6.529054439e-9,
  5.059343495e-9, -9.91364156e-10, -2.27365122e-10, 9.6467911e-11, 2.394038e-12, -6.886027e-12,
  8.94487e-13, 3.13092e-13, -1.12708e-13, 3.81e-16, 7.106e-15, -1.523e-15, -9.4e-17, 1.21e-16,
  -2.8e-17,
] as const;

function errorArea(value: number): number {
  if (value === 0) return 0;
  const size = Math.abs(value);
  const near = 2 / (2 + size);
  const twice = 4 * near - 2;
  let [sum, before] = [0, 0];
  for (let i = SERIES.length - 1; i > 0; i -= 1) {
    [sum, before] = [twice * sum - before + (SERIES[i] as number), sum];
  }
  const rest = near * Math.exp(-size * size + 0.5 * (SERIES[0] + twice * sum) - before);
  return value < 0 ? rest - 1 : 1 - rest;
}

const restOfArea = (value: number): number => 1 - errorArea(value);

/** A first guess needs no more places. */
const NEARLY = -70_711 / 100_000;

/** Where so much of the area is beyond. */
function placeOfRest(part: number): number {
  if (part >= 2) return -100;
  if (part <= 0) return 100;
  const half = part < 1 ? part : 2 - part;
  const t = Math.sqrt(-2 * Math.log(half / 2));
  let x = NEARLY * ((2.30753 + t * 0.27061) / (1 + t * (0.99229 + t * 0.04481)) - t);
  for (let i = 0; i < 2; i += 1) {
    const off = restOfArea(x) - half;
    x += off / (1.1283791670955126 * Math.exp(-x * x) - x * off);
  }
  return part < 1 ? x : -x;
}

const ROOT = Math.SQRT2;

const density = (x: number, mean: number, spread: number): number =>
  Math.exp(
    -0.5 * Math.log(2 * Math.PI) - Math.log(spread) - (x - mean) ** 2 / (2 * spread * spread),
  );
const below = (x: number, mean: number, spread: number): number =>
  0.5 * (1 + errorArea((x - mean) / Math.sqrt(2 * spread * spread)));
const placeOf = (part: number, mean: number, spread: number): number =>
  -ROOT * spread * placeOfRest(2 * part) + mean;

const logDensity = (x: number, mean: number, spread: number): number =>
  Math.exp(
    -Math.log(x) -
      0.5 * Math.log(2 * Math.PI) -
      Math.log(spread) -
      (Math.log(x) - mean) ** 2 / (2 * spread * spread),
  );
const logBelow = (x: number, mean: number, spread: number): number =>
  0.5 + 0.5 * errorArea((Math.log(x) - mean) / Math.sqrt(2 * spread * spread));

const above0: Taken = { ...number, above: 0 };
const part: Taken = { ...number, above: 0, below: 1 };

type Of = (x: number, mean: number, spread: number) => number;
const either = (takes: readonly Taken[], all: Of, at: Of): Computing => ({
  takes: [...takes, logical],
  run: (x: number, mean: number, spread: number, isAll: boolean) =>
    (isAll ? all : at)(x, mean, spread),
});

const family: Family = {
  ERF: {
    takes: [number, { ...number, optional: true }],
    run: (from: number, to: number | undefined) =>
      to === undefined ? errorArea(from) : errorArea(to) - errorArea(from),
  },
  ERFC: numbers(1, (value = 0) => restOfArea(value)),
  GAUSS: numbers(1, (value = 0) => below(value, 0, 1) - 0.5),
  PHI: numbers(1, (value = 0) => density(value, 0, 1)),
  FISHER: {
    takes: [{ ...number, above: -1, below: 1 }],
    run: (value: number) => Math.log((1 + value) / (1 - value)) / 2,
  },
  FISHERINV: numbers(1, (value = 0) => 1 - 2 / (Math.exp(2 * value) + 1)),
  STANDARDIZE: {
    takes: [number, number, above0],
    run: (x: number, mean: number, spread: number) => (x - mean) / spread,
  },
  'NORM.DIST': either([number, number, above0], below, density),
  'NORM.INV': { takes: [part, number, above0], run: placeOf },
  'NORM.S.DIST': {
    takes: [number, logical],
    run: (x: number, isAll: boolean) => (isAll ? below : density)(x, 0, 1),
  },
  'NORM.S.INV': { takes: [part], run: (value: number) => placeOf(value, 0, 1) },
  'LOGNORM.DIST': either([above0, number, above0], logBelow, logDensity),
  'LOGNORM.INV': {
    takes: [part, number, above0],
    run: (value: number, mean: number, spread: number) =>
      Math.exp(-ROOT * spread * placeOfRest(2 * value) + mean),
  },
  'EXPON.DIST': {
    takes: [least(0), above0, logical],
    run: (x: number, rate: number, isAll: boolean) =>
      isAll ? 1 - Math.exp(-rate * x) : rate * Math.exp(-rate * x),
  },
  'WEIBULL.DIST': either(
    [least(0), above0, above0],
    (x, shape, scale) => 1 - Math.exp(-((x / scale) ** shape)),
    (x, shape, scale) =>
      (shape / scale) * (x / scale) ** (shape - 1) * Math.exp(-((x / scale) ** shape)),
  ),
  'CONFIDENCE.NORM': {
    takes: [part, above0, least(1)],
    run: (alpha: number, spread: number, size: number) => {
      const apart = Math.abs((placeOf(alpha / 2, 0, 1) * spread) / Math.sqrt(Math.trunc(size)));
      return 1 + apart - 1;
    },
  },
};

/** The bell curve and its kin. */
export const NORMAL: Family = {
  ...family,
  ...alike(family, {
    NORMDIST: 'NORM.DIST',
    NORMINV: 'NORM.INV',
    NORMSDIST: 'NORM.S.DIST',
    NORMSINV: 'NORM.S.INV',
    LOGNORMDIST: 'LOGNORM.DIST',
    LOGINV: 'LOGNORM.INV',
    LOGNORMINV: 'LOGNORM.INV',
    EXPONDIST: 'EXPON.DIST',
    WEIBULL: 'WEIBULL.DIST',
    WEIBULLDIST: 'WEIBULL.DIST',
    CONFIDENCE: 'CONFIDENCE.NORM',
  }),
};
