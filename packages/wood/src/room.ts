import { lengthOf, numberOf, textOf } from './arguments.ts';
import type { FunctionDescription } from './describe.ts';
import { Fault } from './fault.ts';
import { SPECIES_ARGUMENT } from './find-species.ts';
import { between, eitherSign, positive, words } from './guards.ts';
import { CUT_ARGUMENT, cautionBeyondFit, emc, humidityForEmc, ringAngle } from './moisture.ts';
import { notKnown } from './nearest.ts';
import { rests } from './rests.ts';
import { moveAtAngle } from './species.ts';

const WIDTH = lengthOf('width', 'width across the grain');
const NOW = numberOf(
  'moisture',
  'moisture_now',
  'moisture content it is built at, percent, 0 to 30',
);
const MOVE = lengthOf(
  'movement',
  'how far it may move from there: above 0 it grows, below 0 it shrinks',
);
const TEMPERATURE = numberOf('temperature', 'temperature', 'temperature of the room');
const REGION = textOf('region', 'part of the country: "most areas", "dry southwest", "damp coast"');

interface RegionRow {
  readonly name: string;
  readonly average: number;
  readonly from: number;
  readonly to: number;
}

const REGIONS: readonly RegionRow[] = [
  { name: 'most areas', average: 8, from: 6, to: 10 },
  { name: 'dry southwest', average: 6, from: 4, to: 9 },
  { name: 'damp coast', average: 11, from: 8, to: 13 },
];

/**
 * Moisture content at which indoor woodwork is best built and fitted in a part of the country.
 * @param region `most areas`, `dry southwest` or `damp coast`
 * @returns % moisture content
 * @throws Fault `kind`, `unknown`
 * Source: Wood Handbook (FPL-GTR-190) table 13-2, averages for interior woodwork of the United
 * States (averages read in a quotation, the ranges from memory).
 */
export function indoorMoisture(region: string): number {
  const takes = 'a part of the country that the table gives';
  const asked = words(REGION, region, takes);
  const row = REGIONS.find(({ name }) => name === asked.toLowerCase());
  if (row !== undefined) {
    rests({
      of: `Interior woodwork, ${row.name}: moisture content`,
      value: row.average,
      quantity: 'moisture',
      how: 'read',
      source: 'Wood Handbook (FPL-GTR-190, 2010), table 13-2, in a quotation',
      note: `The range of ${row.from} to ${row.to} % is from memory.`,
    });
    return row.average;
  }
  throw notKnown(
    REGION,
    asked,
    takes,
    REGIONS.map(({ name }) => name),
  );
}

/**
 * Humidity at which a panel has moved so far from the size it was built at.
 * @param width in, across the grain
 * @param species any usual name
 * @param moistureNow % at building, 0 to 30
 * @param move in, more than 0 for growing, less for shrinking
 * @param temperature °F, 30 to 270
 * @param cut as in {@link movement}
 * @returns % relative humidity, 0 to 100, once the wood has settled in it
 * @throws Fault `kind`, `unknown`; `range`, also when no air moves the panel so far
 * Source: Wood Handbook (FPL-GTR-190) equations 13-2 and 4-5, solved for the humidity.
 */
export function humidityForMovement(
  width: number,
  species: string,
  moistureNow: number,
  move: number,
  temperature: number,
  cut: string | number = 'flat',
): number {
  const now = between(NOW, moistureNow, 0, 30);
  const wanted = eitherSign(MOVE, move);
  const forOne = positive(WIDTH, width) * moveAtAngle(species, ringAngle(cut));
  const driest = emc(temperature, 0);
  const wettest = Math.min(30, emc(temperature, 100));
  const target = now + wanted / forOne;
  cautionBeyondFit(now, target);
  if (target >= driest && target <= wettest) return humidityForEmc(temperature, target);
  throw new Fault({
    class: 'range',
    argument: MOVE.name,
    got: wanted,
    quantity: 'length',
    takes: 'a movement that air can bring about: {n} to {n}',
    bounds: [(driest - now) * forOne, (wettest - now) * forOne],
  });
}

export const ROOM_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'INDOOR_MOISTURE',
    task: 'Moisture and movement',
    answers: 'What moisture content to build at for a heated, lived-in house.',
    args: [REGION],
    result: { quantity: 'moisture', means: 'recommended average, percent' },
    source:
      'Wood Handbook (FPL-GTR-190, 2010), table 13-2, interior woodwork in the United States; averages read in a quotation, ranges from memory',
    example: '=INDOOR_MOISTURE("most areas")',
    notes: REGIONS.map(({ name, average, from, to }) => `${name} ${average} % (${from} to ${to})`)
      .join(', ')
      .concat('. Elsewhere measure the room, or use INDOOR_HUMIDITY and EMC.'),
    run: indoorMoisture,
  },
  {
    name: 'HUMIDITY_FOR_MOVEMENT',
    task: 'Moisture and movement',
    answers: 'At what humidity a top has moved as far as its fasteners allow.',
    args: [WIDTH, SPECIES_ARGUMENT, NOW, MOVE, TEMPERATURE, CUT_ARGUMENT],
    result: { quantity: 'humidity', means: 'relative humidity not to exceed for long' },
    source:
      'Wood Handbook (FPL-GTR-190, 2010), equations 13-2 and 4-5 with the coefficients of table 13-5, solved for the humidity',
    example: '=HUMIDITY_FOR_MOVEMENT(42, "white oak", 8, 0.25, 70)',
    notes:
      'A movement below 0 gives the driest air it can take. Wood settles over weeks: a few humid days do no harm.',
    run: humidityForMovement,
  },
];
