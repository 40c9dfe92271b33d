import { countOf, numberOf, optional, textOf } from './arguments.ts';
import { COVERAGE_ROWS, COVERAGE_SOURCE } from './data/finish-coverage.ts';
import type { FunctionDescription } from './describe.ts';
import { Fault } from './fault.ts';
import { between, notNegative, positive, someNumber, whole, words } from './guards.ts';
import { notKnown } from './nearest.ts';
import { ownFigure } from './own.ts';
import { type RestsOn, rests } from './rests.ts';

const AREA = numberOf('area', 'area', 'surface to treat, all faces and edges together');
const COATS = countOf('coats', 'number of coats');
const COVERAGE = numberOf('coverage', 'coverage', 'surface that one coat of it covers');
const LOSS = optional(
  numberOf('percent', 'loss_percent', 'what stays in the brush, rag and can, percent, 0 to 95'),
  'no loss',
);
const FIRST_MORE = optional(
  numberOf(
    'percent',
    'first_more_percent',
    'how much more the first coat on bare wood takes than the next, percent, 0 to 300',
  ),
  '25 %',
);
const FINISH = textOf('finish', 'the kind of finish, such as "varnish" or "hard-wax oil"');
const FIRST = countOf('first', 'grit to begin with');
const LAST = countOf('last', 'grit to end with, no coarser than the first');
const AREA_AN_HOUR = optional(
  numberOf('area', 'area_an_hour', 'surface you sand in an hour with one grit'),
  '60 ft² (5.6 m²)',
);

/** 1 gal is 128 fl oz and 1 ft² is 144 in². */
const OWN_PER_FT2_GAL = 144 / 128;
const USUAL_AREA_AN_HOUR = 60 * 144;
const MOST_COATS = 100;
/** Common practice, no source: bare wood drinks the first coat. */
const USUAL_FIRST_MORE = 25;
const MOST_FIRST_MORE = 300;
const FIRST_COAT: RestsOn = {
  of: 'First coat on bare wood: more than the next',
  value: USUAL_FIRST_MORE,
  quantity: 'percent',
  how: 'practice',
  source: 'no source: try it on a board',
};
const SANDING_PACE: RestsOn = {
  of: 'Sanded in an hour with one grit',
  value: USUAL_AREA_AN_HOUR,
  quantity: 'area',
  how: 'practice',
  source: 'no source: time yourself',
};

/** Grits of the P scale that shops stock (FEPA 43-1, ISO 6344; from memory). */
const GRITS = [40, 50, 60, 80, 100, 120, 150, 180, 220, 240, 280, 320, 360, 400, 500, 600];

/**
 * Finish for a surface of bare wood.
 * @param area in²
 * @param coats whole number, 1 to 100
 * @param coverage in² for a fl oz, one coat on sealed wood
 * @param lossPercent % of what is opened that never reaches the wood, 0 to 95; 0 when left out
 * @param firstMorePercent % that the first coat takes more than the next, 0 to 300; 25 when left out
 * @returns fl oz: area x (coats + firstMore) / coverage / (1 − loss)
 * @throws Fault `kind`, `range`
 * Source: area over coverage; how much more the first coat takes is common practice, no source.
 */
export function finishVolume(
  area: number,
  coats: number,
  coverage: number,
  lossPercent = 0,
  firstMorePercent = USUAL_FIRST_MORE,
): number {
  if (firstMorePercent === USUAL_FIRST_MORE) rests(FIRST_COAT);
  const first = between(FIRST_MORE, firstMorePercent, 0, MOST_FIRST_MORE) / 100;
  const covered = notNegative(AREA, area) * (whole(COATS, coats, 1, MOST_COATS) + first);
  const used =
    covered / positive(COVERAGE, coverage) / (1 - between(LOSS, lossPercent, 0, 95) / 100);
  if (used < 1e12) return used;
  throw new Fault({
    class: 'range',
    argument: COVERAGE.name,
    got: coverage,
    quantity: 'coverage',
    takes: 'a coverage that a finish can have',
  });
}

/**
 * Surface that one coat of a finish covers: the careful end of the usual range.
 * @param finish a kind of finish
 * @returns in² for a fl oz
 * @throws Fault `kind`, `unknown`
 * Source: values from memory, common practice. The label on the can is right for that can.
 */
export function finishCoverage(finish: string): number {
  const takes = 'a kind of finish of the list';
  const asked = words(FINISH, finish, takes);
  const wanted = asked.toLowerCase();
  const own = ownFigure(
    'finishes',
    (one) => String(one.finish).toLowerCase() === wanted,
    'coverage',
  );
  if (own !== undefined) return own;
  const row = COVERAGE_ROWS.find(({ name }) => name === wanted);
  if (row !== undefined) {
    const value = row.low * OWN_PER_FT2_GAL;
    const { how, note } = row;
    rests({
      of: `${row.name}: surface one coat covers`,
      value,
      quantity: 'coverage',
      how,
      source: COVERAGE_SOURCE,
      ...(note === undefined ? {} : { note }),
    });
    return value;
  }
  throw notKnown(
    FINISH,
    asked,
    takes,
    COVERAGE_ROWS.map(({ name }) => name),
  );
}

function gritPlace(argument: typeof FIRST, grit: number): number {
  const place = GRITS.indexOf(someNumber(argument, grit));
  if (place >= 0) return place;
  throw new Fault({
    class: 'range',
    argument: argument.name,
    got: grit,
    quantity: 'count',
    takes: `a grit of the P scale: ${GRITS.join(', ')}`,
  });
}

/** Grits from the first to the last, leaving out one between neighbours where that still arrives. */
function grits(first: number, last: number): readonly number[] {
  const from = gritPlace(FIRST, first);
  const to = gritPlace(LAST, last);
  if (to < from) {
    throw new Fault({
      class: 'range',
      argument: LAST.name,
      got: last,
      quantity: 'count',
      takes: '{n} or finer',
      bounds: [first],
    });
  }
  const steps = [];
  for (let place = from; place < to; place += place + 2 <= to ? 2 : 1)
    steps.push(GRITS[place] ?? 0);
  return [...steps, last];
}

/**
 * Sanding sequence that leaves out no more than one grit between neighbours.
 * @param first grit of the P scale, 40 to 600
 * @param last grit, no coarser
 * @returns text: `80 → 120 → 180 → 220`
 * @throws Fault `kind`, `range`
 * Source: grits of FEPA 43-1 (ISO 6344), from memory; the rule is common practice, no source.
 */
export function gritSteps(first: number, last: number): string {
  return grits(first, last).join(' → ');
}

/**
 * Time to sand a surface through that sequence.
 * @param area in²
 * @param first grit
 * @param last grit
 * @param areaAnHour in² in an hour with one grit; 60 ft² when left out
 * @returns hours: area x grits / areaAnHour
 * @throws Fault `kind`, `range`
 * Source: a rule of thumb, one minute for a square foot and grit; common practice, no source.
 */
export function sandingHours(
  area: number,
  first: number,
  last: number,
  areaAnHour = USUAL_AREA_AN_HOUR,
): number {
  if (areaAnHour === USUAL_AREA_AN_HOUR) rests(SANDING_PACE);
  return (
    (notNegative(AREA, area) * grits(first, last).length) /
    between(AREA_AN_HOUR, areaAnHour, 1, 1e9)
  );
}

const PRACTICE = 'common practice, no source';
const LUNGS =
  'Fine dust harms lungs, and some woods more than others: collect it, and wear a mask that fits.';

export const FINISHING_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'FINISH_VOLUME',
    task: 'Finish',
    answers: 'How much finish a surface takes, all coats together.',
    args: [AREA, COATS, COVERAGE, LOSS, FIRST_MORE],
    result: { quantity: 'liquid', means: 'finish needed' },
    source:
      'area times coats over coverage, the first coat on bare wood a quarter more; common practice, no source',
    example: '=FINISH_VOLUME(84*42*2, 3, 450, 10)',
    notes:
      'Coverage is in the workbook’s own units, in² for a fl oz or mm² for a mL: FINISH_COVERAGE gives it so. For wood that is already sealed use 0 for first_more_percent. Oily rags heat up and can catch fire by themselves: spread them out to dry or keep them in water.',
    run: finishVolume,
  },
  {
    name: 'FINISH_COVERAGE',
    task: 'Finish',
    answers: 'How much surface one coat of a finish covers, on the safe side.',
    args: [FINISH],
    result: { quantity: 'coverage', means: 'the lower end of the usual range' },
    source: COVERAGE_SOURCE,
    example: '=FINISH_COVERAGE("varnish")',
    notes: `Knows ${COVERAGE_ROWS.map(({ name }) => name).join(', ')}. The label on your can comes first.`,
    run: finishCoverage,
  },
  {
    name: 'GRIT_STEPS',
    task: 'Finish',
    answers: 'Which grits to sand with, one after another.',
    args: [FIRST, LAST],
    result: { quantity: 'text', means: 'the grits in order' },
    source:
      'grits of FEPA 43-1 (ISO 6344), from memory; leaving out one is common practice, no source',
    example: '=GRIT_STEPS(80, 220)',
    notes: LUNGS,
    run: gritSteps,
  },
  {
    name: 'SANDING_HOURS',
    task: 'Finish',
    answers: 'How long sanding a surface takes, all grits together.',
    args: [AREA, FIRST, LAST, AREA_AN_HOUR],
    result: { quantity: 'duration', means: 'hours of sanding' },
    source: `a rule of thumb, a minute for a square foot and grit; ${PRACTICE}`,
    example: '=SANDING_HOURS(84*42*2, 80, 220)',
    notes: `With a hand-held machine on flat faces; use your own figure once you have timed it. ${LUNGS}`,
    run: sandingHours,
  },
];
