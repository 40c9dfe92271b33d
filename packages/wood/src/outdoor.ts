import { textOf } from './arguments.ts';
import { OUTDOOR_ROWS, OUTDOOR_SOURCE, type OutdoorRow } from './data/outdoor-moisture.ts';
import type { ArgumentDescription, FunctionDescription } from './describe.ts';
import { whole, words } from './guards.ts';
import { notKnown } from './nearest.ts';

const PLACE = textOf(
  'place',
  'a city of the table: "Denver", or "Portland, OR" where two share it',
);
const MONTH: ArgumentDescription = {
  name: 'month',
  means: 'the month, 1 to 12 or its name',
  takes: 'either',
  quantity: 'count',
};

const MONTHS = [
  'january',
  'february',
  'march',
  'april',
  'may',
  'june',
  'july',
  'august',
  'september',
  'october',
  'november',
  'december',
];

const key = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[^a-z]+/g, ' ')
    .trim();

const fullName = ([city, state]: OutdoorRow): string => `${city}, ${state}`;

function rowOf(place: string): OutdoorRow {
  const takes = 'a city of the table of outdoor moisture';
  const asked = words(PLACE, place, takes);
  const wanted = key(asked);
  const found = OUTDOOR_ROWS.filter(
    (row) => key(fullName(row)) === wanted || key(row[0]) === wanted,
  );
  const [only] = found;
  if (only && found.length === 1) return only;
  if (only)
    throw notKnown(PLACE, asked, takes, found.map(fullName), 'is the name of more than one city');
  throw notKnown(PLACE, asked, takes, outdoorPlaces());
}

/** Place of a month in a row, from its number, its name or the first letters of its name. */
function monthPlace(month: string | number): number {
  if (typeof month === 'number') return whole(MONTH, month, 1, 12) - 1;
  const takes = 'a month, 1 to 12 or its name';
  const asked = words(MONTH, month, takes);
  const wanted = key(asked);
  const found = MONTHS.findIndex((name) => wanted.length >= 3 && name.startsWith(wanted));
  if (found >= 0) return found;
  throw notKnown(MONTH, asked, takes, MONTHS);
}

/**
 * Moisture content that wood outdoors, under cover, settles at in a month.
 * @param place a city of the table, with its state where two share the name
 * @param month 1 to 12, or a name of at least three letters
 * @returns % moisture content
 * @throws Fault `kind`, `range`, `unknown`
 * Source: Wood Handbook table 13-1, values from memory.
 */
export function outdoorEmc(place: string, month: string | number): number {
  const [, , months] = rowOf(place);
  return months[monthPlace(month)] as number;
}

/** Cities of the table, with their states. */
export function outdoorPlaces(): readonly string[] {
  return OUTDOOR_ROWS.map(fullName);
}

export const OUTDOOR_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'OUTDOOR_EMC',
    task: 'Moisture and movement',
    answers: 'What moisture content wood kept outdoors under cover settles at in a month.',
    args: [PLACE, MONTH],
    result: { quantity: 'moisture', means: 'equilibrium moisture content outdoors' },
    source: OUTDOOR_SOURCE,
    example: '=OUTDOOR_EMC("Denver, CO", "July")',
    notes: 'Wood lags behind the weather by weeks. Heated rooms are drier than the table.',
    run: outdoorEmc,
  },
];
