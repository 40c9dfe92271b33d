import { lengthOf, numberOf, optional } from './arguments.ts';
import type { ArgumentDescription, FunctionDescription } from './describe.ts';
import { Fault } from './fault.ts';
import { SPECIES_ARGUMENT } from './find-species.ts';
import { between, type Guarded, notNegative, words } from './guards.ts';
import { cautions, type RestsOn, rests } from './rests.ts';
import { moveAtAngle } from './species.ts';

const temperature = (name: string, means: string): ArgumentDescription =>
  numberOf('temperature', name, means);
const humidity = (name: string, means: string): ArgumentDescription =>
  numberOf('humidity', name, `${means}, percent, 0 to 100`);
const moisture = (name: string, means: string): ArgumentDescription =>
  numberOf('moisture', name, `${means}, percent, 0 to 30`);

const TEMPERATURE = temperature('temperature', 'temperature of the air around the wood');
const HUMIDITY = humidity('humidity', 'relative humidity of the air');
const FIRST_TEMPERATURE = temperature('temperature_1', 'temperature in the first state');
const FIRST_HUMIDITY = humidity('humidity_1', 'relative humidity in the first state');
const SECOND_TEMPERATURE = temperature('temperature_2', 'temperature in the second state');
const SECOND_HUMIDITY = humidity('humidity_2', 'relative humidity in the second state');
const WIDTH = lengthOf('width', 'width across the grain');
const FROM = moisture('moisture_from', 'moisture content at the start');
const TO = moisture('moisture_to', 'moisture content at the end');
const DRY = moisture('moisture_dry', 'moisture content in the dry season');
const WET = moisture('moisture_wet', 'moisture content in the humid season');
export const CUT_ARGUMENT: ArgumentDescription = optional(
  {
    name: 'cut',
    means: 'how the boards were sawn: "flat", "rift", "quarter", or a ring angle from 0 to 90',
    takes: 'either',
    quantity: 'angle',
  },
  '"flat", which moves the most',
);

/** Range of the published table, °F. */
const COLDEST = 30;
const HOTTEST = 270;

type Quadratic = readonly [number, number, number];
const at = ([c0, c1, c2]: Quadratic, t: number): number => c0 + c1 * t + c2 * t * t;

const W: Quadratic = [330, 0.452, 0.00415];
const K: Quadratic = [0.791, 0.000463, -8.44e-7];
const K1: Quadratic = [6.34, 0.000775, -9.35e-5];
const K2: Quadratic = [1.09, 0.0284, -9.04e-5];

const SORPTION: RestsOn = {
  of: 'Equation 4-5: moisture content in equilibrium with air',
  how: 'memory',
  source: 'Wood Handbook (FPL-GTR-190, 2010), equation 4-5 (Simpson 1973)',
  note: 'Its constants agree with all 228 remembered entries of table 4-2 within 0.066, and with one that was read.',
};

function emcOf(temp: Guarded, rh: Guarded, temperatureF: number, humidityPercent: number): number {
  const t = between(temp, temperatureF, COLDEST, HOTTEST);
  const kh = (at(K, t) * between(rh, humidityPercent, 0, 100)) / 100;
  const k1 = at(K1, t);
  const both = k1 * at(K2, t) * kh * kh;
  rests(SORPTION);
  const bound = (k1 * kh + 2 * both) / (1 + k1 * kh + both);
  return (1800 / at(W, t)) * (kh / (1 - kh) + bound);
}

/**
 * Equilibrium moisture content: what wood settles at in air of this temperature and humidity.
 * @param temperature °F, 30 to 270, the range of table 4-2
 * @param humidity % relative humidity, 0 to 100; the table prints 5 to 95, beyond is the equation
 * @returns % moisture content
 * @throws Fault `kind`, `range`
 * Source: Wood Handbook (FPL-GTR-190) equation 4-5, Fahrenheit constants (Simpson 1973; from
 * memory, all 228 remembered entries of table 4-2 agree within 0.066). The Fahrenheit form is used
 * for both unit systems, so a book gives the same answer in either; the handbook's Celsius form
 * differs from it by up to 0.013 % between -1 and 60 °C.
 */
export function emc(temperature: number, humidity: number): number {
  return emcOf(TEMPERATURE, HUMIDITY, temperature, humidity);
}

/**
 * How much the equilibrium moisture content differs between two states of the air.
 * @param temperature1 °F, 30 to 270
 * @param humidity1 %, 0 to 100
 * @param temperature2 °F, 30 to 270
 * @param humidity2 %, 0 to 100
 * @returns % points: the second state less the first
 * @throws Fault `kind`, `range`
 * Source: Wood Handbook (FPL-GTR-190) equation 4-5; see {@link emc}.
 */
export function emcDelta(
  temperature1: number,
  humidity1: number,
  temperature2: number,
  humidity2: number,
): number {
  const first = emcOf(FIRST_TEMPERATURE, FIRST_HUMIDITY, temperature1, humidity1);
  return emcOf(SECOND_TEMPERATURE, SECOND_HUMIDITY, temperature2, humidity2) - first;
}

const WANTED_EMC = moisture('emc', 'moisture content the wood should settle at');

/**
 * Relative humidity at which wood settles at a moisture content: the inverse of {@link emc}.
 * @param temperature °F, 30 to 270
 * @param moistureContent %, from 0 to what saturated air gives at that temperature
 * @returns % relative humidity, found by halving to better than 0.0001
 * @throws Fault `kind`; `range` when no humidity gives that moisture content
 * Source: Wood Handbook (FPL-GTR-190) equation 4-5; see {@link emc}.
 */
export function humidityForEmc(temperature: number, moistureContent: number): number {
  const wettest = emc(temperature, 100);
  const wanted = between(WANTED_EMC, moistureContent, 0, wettest);
  let [low, high] = [0, 100];
  // The equation rises with humidity all the way, so halving cannot miss.
  for (let halving = 0; halving < 60; halving += 1) {
    const middle = (low + high) / 2;
    if (emc(temperature, middle) < wanted) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

const CUTS: Readonly<Record<string, number>> = { flat: 0, plain: 0, rift: 45, quarter: 90 };

/** Ring angle in degrees of a cut given by its word or by its angle. */
export function ringAngle(cut: string | number): number {
  if (typeof cut === 'number') return between(CUT_ARGUMENT, cut, 0, 90);
  const takes = '"flat", "rift", "quarter" or a ring angle from 0 to 90';
  const word = words(CUT_ARGUMENT, cut, takes).toLowerCase();
  const known = word.replace(/[\s-]?sawn$/, '');
  // A word such as `__proto__` is in every object.
  const angle = Object.hasOwn(CUTS, known) ? CUTS[known] : undefined;
  if (angle !== undefined) return angle;
  throw new Fault({
    class: 'unknown',
    argument: CUT_ARGUMENT.name,
    got: cut,
    quantity: 'text',
    takes,
  });
}

/** What the coefficients of table 13-5 are fitted for, %. */
const [FITTED_FROM, FITTED_TO] = [6, 14];

/** Says so where a moisture lies beyond what the coefficients are fitted for. */
export function cautionBeyondFit(...moistures: readonly number[]): void {
  const outside = moistures.filter((one) => one < FITTED_FROM || one > FITTED_TO);
  if (outside.length === 0) return;
  cautions(() => {
    const which = outside.map((one) => `${Number(one.toFixed(1))} %`).join(' and ');
    return `Moisture of ${which} is outside the ${FITTED_FROM} to ${FITTED_TO} % that movement coefficients are fitted for: the movement is an estimate there.`;
  });
}

/** Fibre saturation: above it wood no longer swells (Wood Handbook chapter 4, about 30 %). */
const SATURATED = 30;

/**
 * How much a width changes between two moisture contents; growth is positive.
 * @param width in, across the grain, measured at `moistureFrom`
 * @param species any usual name
 * @param moistureFrom %, 0 to 30
 * @param moistureTo %, 0 to 30
 * @param cut "flat" (when left out), "rift" (45°), "quarter", or a ring angle 0 to 90
 * @returns in, negative when shrinking: width x change of moisture x coefficient
 * @throws Fault `kind`, `range`, `unknown`
 * Source: Wood Handbook (FPL-GTR-190) equation 13-2 with the coefficients of table 13-5, fitted
 * for 6 to 14 %. Up to fibre saturation (30 %) the same straight line is used, an estimate there.
 */
export function movement(
  width: number,
  species: string,
  moistureFrom: number,
  moistureTo: number,
  cut: string | number = 'flat',
): number {
  const across = notNegative(WIDTH, width);
  const from = between(FROM, moistureFrom, 0, SATURATED);
  const to = between(TO, moistureTo, 0, SATURATED);
  cautionBeyondFit(from, to);
  // Adding nothing turns the negative zero of a width that does not move into plain zero.
  return across * (to - from) * moveAtAngle(species, ringAngle(cut)) + 0;
}

/**
 * The whole travel of a width between the dry and the humid season.
 * @param width in, across the grain
 * @param species any usual name
 * @param moistureDry %, 0 to 30
 * @param moistureWet %, 0 to 30
 * @param cut as for {@link movement}
 * @returns in, never negative; the same whichever season is named first
 * @throws Fault `kind`, `range`, `unknown`
 * Source: as for {@link movement}.
 */
export function movementSwing(
  width: number,
  species: string,
  moistureDry: number,
  moistureWet: number,
  cut: string | number = 'flat',
): number {
  const dry = between(DRY, moistureDry, 0, SATURATED);
  const wet = between(WET, moistureWet, 0, SATURATED);
  return Math.abs(movement(width, species, dry, wet, cut));
}

const EQUATION =
  'Wood Handbook (FPL-GTR-190, 2010), equation 4-5, Fahrenheit constants; constants from memory, checked against table 4-2';
const COEFFICIENTS =
  'Wood Handbook (FPL-GTR-190, 2010), equation 13-2 with the coefficients of table 13-5';

export const MOISTURE_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'EMC',
    task: 'Moisture and movement',
    answers: 'What moisture content wood settles at in air of this temperature and humidity.',
    args: [TEMPERATURE, HUMIDITY],
    result: { quantity: 'moisture', means: 'equilibrium moisture content' },
    source: EQUATION,
    example: '=EMC(70, 40)',
    notes:
      'From 30 to 270 °F (-1.1 to 132 °C), as the table. The table prints 5 to 95 % humidity; nearer to 0 and 100 the equation carries on alone.',
    run: emc,
  },
  {
    name: 'EMC_DELTA',
    task: 'Moisture and movement',
    answers: 'How much the moisture content of wood differs between two states of the air.',
    args: [FIRST_TEMPERATURE, FIRST_HUMIDITY, SECOND_TEMPERATURE, SECOND_HUMIDITY],
    result: { quantity: 'moisture', means: 'second state less the first, percentage points' },
    source: EQUATION,
    example: '=EMC_DELTA(70, 30, 75, 60)',
    run: emcDelta,
  },
  {
    name: 'HUMIDITY_FOR_EMC',
    task: 'Moisture and movement',
    answers: 'At what humidity wood settles at a moisture content.',
    args: [TEMPERATURE, WANTED_EMC],
    result: { quantity: 'humidity', means: 'relative humidity' },
    source: EQUATION,
    example: '=HUMIDITY_FOR_EMC(70, 8)',
    run: humidityForEmc,
  },
  {
    name: 'MOVEMENT',
    task: 'Moisture and movement',
    answers: 'How much a width grows or shrinks from one moisture content to another.',
    args: [WIDTH, SPECIES_ARGUMENT, FROM, TO, CUT_ARGUMENT],
    result: { quantity: 'length', means: 'change of the width; growth is positive' },
    source: COEFFICIENTS,
    example: '=MOVEMENT(42, "white oak", 7, 11, "flat")',
    notes:
      'The coefficients are fitted for 6 to 14 % moisture; further out the answer is an estimate.',
    run: movement,
  },
  {
    name: 'MOVEMENT_SWING',
    task: 'Moisture and movement',
    answers: 'How far a width moves in all between the dry and the humid season.',
    args: [WIDTH, SPECIES_ARGUMENT, DRY, WET, CUT_ARGUMENT],
    result: { quantity: 'length', means: 'full movement, never negative' },
    source: COEFFICIENTS,
    example: '=MOVEMENT_SWING(42, "white oak", 6, 12)',
    notes: 'As for MOVEMENT. The order of the seasons makes no difference.',
    run: movementSwing,
  },
];
