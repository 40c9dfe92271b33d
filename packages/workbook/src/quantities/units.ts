import { OWN_UNITS, ownFromUs, type Quantity, type UnitSystem, usFromOwn } from '@kerfbook/wood';

/**
 * The units a maker can type and a cell can show. Each belongs to a system and is so many of that
 * system's own unit; the step between the systems is the ground floor's (`usFromOwn`). Factors are
 * exact: NIST SP 811 (2008) appendix B and NIST Handbook 44 appendix C: 1 gal = 231 in³ = 128 fl oz,
 * 1 lb = 16 oz; a board foot is 144 in³ (PS 20).
 */
export interface Unit {
  /** As it is shown. */
  readonly sign: string;
  /** `both`: own units do not differ between the systems. */
  readonly system: UnitSystem | 'both';
  /** `over / under` own units make one of it; two numbers, so that neither is rounded. */
  readonly over: number;
  readonly under: number;
  /** Other ways to type it, lower case, `ft2` and full stops left out. */
  readonly also: readonly string[];
}

type Make = (sign: string, over: number, under: number, ...also: string[]) => Unit;

const of =
  (system: Unit['system']): Make =>
  (sign, over, under, ...also) => ({ sign, system, over, under, also });
const us = of('us');
const metric = of('metric');
const both = of('both');

const PERCENT = [both('%', 1, 1, 'percent', 'pct')];
const HUNDREDTH = [both('%', 1, 100, 'percent', 'pct')];

/** One board foot in cubic metres: 144 × 0.0254³, exact. */
const BOARD_FOOT_M3 = 0.002359737216;

const UNITS: Partial<Record<Quantity, readonly Unit[]>> = {
  length: [
    us('in', 1, 1, '"', 'inch', 'inches', 'ins'),
    us('ft', 12, 1, "'", 'foot', 'feet'),
    us('yd', 36, 1, 'yds', 'yard', 'yards'),
    metric('mm', 1, 1, 'millimetre', 'millimetres', 'millimeter', 'millimeters'),
    metric('cm', 10, 1, 'centimetre', 'centimetres', 'centimeter', 'centimeters'),
    metric('m', 1000, 1, 'metre', 'metres', 'meter', 'meters'),
  ],
  area: [
    us('in²', 1, 1, 'sq in', 'square inch', 'square inches'),
    us('ft²', 144, 1, 'sq ft', 'square foot', 'square feet'),
    us('yd²', 1296, 1, 'sq yd', 'square yard', 'square yards'),
    metric('mm²', 1, 1, 'sq mm'),
    metric('cm²', 100, 1, 'sq cm'),
    metric('m²', 1e6, 1, 'sq m', 'square metre', 'square metres', 'square meter', 'square meters'),
  ],
  volume: [
    us('in³', 1, 1, 'cu in', 'cubic inch', 'cubic inches'),
    us('ft³', 1728, 1, 'cu ft', 'cubic foot', 'cubic feet'),
    metric('mm³', 1, 1, 'cu mm'),
    metric('cm³', 1000, 1, 'cu cm'),
    metric('m³', 1e9, 1, 'cu m', 'cubic metre', 'cubic metres', 'cubic meter', 'cubic meters'),
  ],
  liquid: [
    us('fl oz', 1, 1, 'oz', 'fluid ounce', 'fluid ounces'),
    us('pt', 16, 1, 'pint', 'pints'),
    us('qt', 32, 1, 'quart', 'quarts'),
    us('gal', 128, 1, 'gallon', 'gallons'),
    metric('mL', 1, 1, 'millilitre', 'millilitres', 'milliliter', 'milliliters'),
    metric('L', 1000, 1, 'litre', 'litres', 'liter', 'liters'),
  ],
  boardfeet: [
    both('bd ft', 1, 1, 'bf', 'fbm', 'board foot', 'board feet'),
    both('m³', 1, BOARD_FOOT_M3, 'cu m'),
  ],
  mass: [
    us('lb', 1, 1, 'lbs', 'pound', 'pounds'),
    us('oz', 1, 16, 'ounce', 'ounces'),
    metric('kg', 1, 1, 'kilo', 'kilos', 'kilogram', 'kilograms'),
    metric('g', 1, 1000, 'gram', 'grams'),
  ],
  temperature: [us('°F', 1, 1, 'f', 'deg f'), metric('°C', 1, 1, 'c', 'deg c')],
  angle: [both('°', 1, 1, 'deg', 'degree', 'degrees')],
  force: [
    us('lb', 1, 1, 'lbf', 'lbs', 'pound', 'pounds'),
    metric('N', 1, 1),
    metric('kN', 1000, 1),
  ],
  pressure: [us('psi', 1, 1), metric('MPa', 1, 1), metric('kPa', 1, 1000), metric('GPa', 1000, 1)],
  load_per_length: [
    us('lb/in', 1, 1, 'lbf/in'),
    us('lb/ft', 1, 12, 'lbf/ft'),
    metric('N/mm', 1, 1),
    metric('N/m', 1, 1000),
  ],
  coverage: [
    us('in²/fl oz', 1, 1),
    us('ft²/gal', 144, 128, 'sq ft/gal', 'sq ft/gallon', 'ft²/gallon'),
    us('ft²/qt', 144, 32, 'sq ft/qt', 'sq ft/quart', 'ft²/quart'),
    metric('mm²/mL', 1, 1),
    metric('m²/L', 1000, 1, 'sq m/l', 'm²/litre', 'm²/liter'),
  ],
  duration: [
    both('h', 1, 1, 'hr', 'hrs', 'hour', 'hours'),
    both('min', 1, 60, 'mins', 'minute', 'minutes'),
    // Waiting runs through the night: a day is 24 h, not a working day.
    both('d', 24, 1, 'day', 'days'),
  ],
  percent: PERCENT,
  moisture: PERCENT,
  humidity: PERCENT,
  ratio: HUNDREDTH,
  movement_rate: HUNDREDTH,
};

interface Lexicon {
  readonly words: ReadonlyMap<string, Unit>;
  /** Matches a unit at `lastIndex`; longest word first. */
  readonly pattern: RegExp;
}

/** `Sq. Ft`, `sq ft` and `sqft`, `ft2`, `ft^2` and `ft²`, `per` and `/` are one word. */
function keyOf(word: string): string {
  return word
    .toLowerCase()
    .replace(/per/g, '/')
    .replace(/[\s.^]+/g, '')
    .replace(/²/g, '2')
    .replace(/³/g, '3');
}

function patternOf(word: string): string {
  return word
    .replace(/[\^$\\.*+?()[\]{}|]/g, '\\$&')
    .replace(/²/g, '(?:²|\\^?2)')
    .replace(/³/g, '(?:³|\\^?3)')
    .replace(/\//g, '\\s*(?:\\/|per\\b)\\s*')
    .replace(/ /g, '\\.?\\s*');
}

function lexiconOf(units: readonly Unit[]): Lexicon {
  const words = new Map<string, Unit>();
  for (const unit of units) {
    for (const word of [unit.sign, ...unit.also]) words.set(keyOf(word), unit);
    // Also as it is shown: every cell that is drawn asks for it.
    words.set(unit.sign, unit);
  }
  const spellings = units
    .flatMap((unit) => [unit.sign, ...unit.also])
    .sort((a, b) => b.length - a.length)
    .map(patternOf);
  const end = '(?![\\p{L}°²³^%]|(?<=\\d)\\d)';
  return { words, pattern: new RegExp(`(?:${spellings.join('|')})${end}\\.?`, 'iuy') };
}

const LEXICONS: ReadonlyMap<Quantity, Lexicon> = new Map(
  (Object.keys(UNITS) as Quantity[]).map((quantity) => [
    quantity,
    lexiconOf(UNITS[quantity] ?? []),
  ]),
);

/** The unit of a quantity by any of its words; `undefined` for none. */
export function unitOf(quantity: Quantity, word: string): Unit | undefined {
  const words = LEXICONS.get(quantity)?.words;
  return words?.get(word) ?? words?.get(keyOf(word));
}

/** The units of a quantity, its own first. */
export function unitsOf(quantity: Quantity): readonly Unit[] {
  return UNITS[quantity] ?? [];
}

/** Signs of the units a quantity may be shown in; none for what has no unit. */
export function quantityUnits(quantity: string): readonly string[] {
  return (UNITS[quantity as Quantity] ?? []).map(({ sign }) => sign);
}

/** The unit that stands in `text` at `index`, and where it ends. */
export function unitAt(
  text: string,
  index: number,
  quantity: Quantity,
): { readonly unit: Unit; readonly end: number; readonly word: string } | undefined {
  const lexicon = LEXICONS.get(quantity);
  if (lexicon === undefined) return undefined;
  lexicon.pattern.lastIndex = index;
  const found = lexicon.pattern.exec(text);
  const unit = found === null ? undefined : lexicon.words.get(keyOf(found[0]));
  if (found === null || unit === undefined) return undefined;
  return { unit, end: index + found[0].length, word: found[0] };
}

/** The unit that numbers of a quantity are in; `undefined` where they have none. */
export function ownUnit(quantity: Quantity, system: UnitSystem): Unit | undefined {
  const sign = OWN_UNITS[quantity][system];
  return sign === '' ? undefined : unitOf(quantity, sign);
}

/** A number of a unit in its own system's own unit: feet in inches, also in a metric workbook. */
export const inSystem = (value: number, { over, under }: Unit): number => (value * over) / under;

/**
 * 25.4 and its powers as fractions: 12 × 25.4 comes out a hair under 304.8, 12 × 127 / 5 does not.
 */
const PER_INCH: Partial<Record<Quantity, readonly [number, number]>> = {
  length: [127, 5],
  area: [16_129, 25],
  volume: [2_048_383, 125],
};

function metricFromUs(value: number, quantity: Quantity): number {
  const ratio = PER_INCH[quantity];
  return ratio === undefined ? ownFromUs(quantity, value, 'metric') : (value * ratio[0]) / ratio[1];
}

/** From the own unit of the system that `unit` belongs to into the workbook's own unit. */
export function bridge(value: number, unit: Unit, quantity: Quantity, system: UnitSystem): number {
  if (unit.system === 'both' || unit.system === system) return value;
  return system === 'us' ? usFromOwn(quantity, value, 'metric') : metricFromUs(value, quantity);
}

/** A number of a unit in the workbook's own unit. */
export function toOwn(value: number, from: Unit, quantity: Quantity, system: UnitSystem): number {
  return bridge(inSystem(value, from), from, quantity, system);
}

/** A number in the workbook's own unit in another unit: the inverse of {@link toOwn}. */
export function fromOwn(value: number, to: Unit, quantity: Quantity, system: UnitSystem): number {
  return (acrossTo(to, value, quantity, system) * to.under) / to.over;
}

function acrossTo(to: Unit, value: number, quantity: Quantity, system: UnitSystem): number {
  if (to.system === 'both' || to.system === system) return value;
  return system === 'us' ? metricFromUs(value, quantity) : usFromOwn(quantity, value, 'metric');
}
