import { humidityOf } from './air.ts';
import { textOf } from './arguments.ts';
import { CLIMATE_ROWS, CLIMATE_SOURCE, type ClimateRow } from './data/climate.ts';
import { OUTDOOR_ROWS, OUTDOOR_SOURCE } from './data/outdoor-moisture.ts';
import type { ArgumentDescription, FunctionDescription } from './describe.ts';
import { whole, words } from './guards.ts';
import { notKnown } from './nearest.ts';
import type { Quantity } from './quantity.ts';
import { rests } from './rests.ts';

const PLACE = textOf(
  'place',
  'a city of the table: "Denver", "Lyon", or "Portland, OR" and "London, Canada" where two share it',
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

type Place = readonly [city: string, state: string, ...rest: unknown[]];

const fullName = ([city, state]: Place): string => `${city}, ${state}`;

function rowOf<Row extends Place>(rows: readonly Row[], place: string, takes: string): Row {
  const asked = words(PLACE, place, takes);
  const wanted = key(asked);
  const found = rows.filter((row) => key(fullName(row)) === wanted || key(row[0]) === wanted);
  const [only] = found;
  if (only && found.length === 1) return only;
  if (only)
    throw notKnown(PLACE, asked, takes, found.map(fullName), 'is the name of more than one city');
  throw notKnown(PLACE, asked, takes, rows.map(fullName));
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
  const row = rowOf(OUTDOOR_ROWS, place, 'a city of the table of outdoor moisture');
  const at = monthPlace(month);
  const value = row[2][at] as number;
  rests({
    of: `${fullName(row)}, ${monthName(at)}: moisture of wood outdoors`,
    value,
    quantity: 'moisture',
    how: 'memory',
    source: OUTDOOR_SOURCE,
  });
  return value;
}

const monthName = (at: number): string => {
  const name = MONTHS[at] ?? '';
  return name.slice(0, 1).toUpperCase() + name.slice(1);
};

const climate = (place: string): ClimateRow =>
  rowOf(CLIMATE_ROWS, place, 'a city of the table of weather stations');

/**
 * Mean temperature of the air outdoors in a month.
 * @param place a city of the table of weather stations, with its state where two share the name
 * @param month 1 to 12, or a name of at least three letters
 * @returns °F
 * @throws Fault `kind`, `range`, `unknown`
 * Source: TMY3 hourly files, monthly means.
 */
export function outdoorTemperature(place: string, month: string | number): number {
  const row = climate(place);
  const at = monthPlace(month);
  const value = fahrenheit(row[2][at] as number);
  fromWeather(row, at, 'mean temperature', 'temperature', value);
  return value;
}

/**
 * Humidity of the air outdoors in a month: that of air at the month's mean temperature which holds
 * the month's mean water. It lies a little below the mean of the hourly humidities.
 * @param place as for {@link outdoorTemperature}
 * @param month 1 to 12, or a name of at least three letters
 * @returns % relative humidity
 * @throws Fault `kind`, `range`, `unknown`
 * Source: TMY3 hourly files, monthly means of temperature and vapour pressure.
 */
export function outdoorHumidity(place: string, month: string | number): number {
  const row = climate(place);
  const at = monthPlace(month);
  const value = humidityOf(fahrenheit(row[2][at] as number), row[3][at] as number);
  fromWeather(row, at, 'humidity', 'humidity', value);
  return value;
}

function fromWeather(
  row: ClimateRow,
  at: number,
  what: string,
  quantity: Quantity,
  value: number,
): void {
  rests({
    of: `${fullName(row)}, ${monthName(at)}: ${what}`,
    value,
    quantity,
    how: 'computed',
    source: CLIMATE_SOURCE,
  });
}

const fahrenheit = (celsius: number): number => celsius * 1.8 + 32;

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
  {
    name: 'OUTDOOR_TEMPERATURE',
    task: 'Moisture and movement',
    answers: 'How warm a month is outdoors, on average.',
    args: [PLACE, MONTH],
    result: { quantity: 'temperature', means: 'mean temperature of the month' },
    source: CLIMATE_SOURCE,
    example: '=OUTDOOR_TEMPERATURE("Chicago, IL", "January")',
    notes: `It knows ${CLIMATE_ROWS.length} cities: in the United States, Canada, the United Kingdom, France, Germany and some other countries ("Lyon", "Paris", "Berlin"). For another place use a nearby one with similar weather, or figures from its weather service.`,
    run: outdoorTemperature,
  },
  {
    name: 'OUTDOOR_HUMIDITY',
    task: 'Moisture and movement',
    answers: 'How humid the air outdoors is in a month, for INDOOR_HUMIDITY.',
    args: [PLACE, MONTH],
    result: {
      quantity: 'humidity',
      means: 'humidity at the month’s mean temperature and mean water content',
    },
    source: CLIMATE_SOURCE,
    example: '=OUTDOOR_HUMIDITY("Chicago, IL", "January")',
    notes:
      'Together: INDOOR_HUMIDITY(OUTDOOR_TEMPERATURE(place, month), OUTDOOR_HUMIDITY(place, month), 70) is what the room gets to without a humidifier, and EMC of that is what the wood settles at.',
    run: outdoorHumidity,
  },
];
