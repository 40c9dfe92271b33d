import { countOf, lengthOf, optional, textOf } from './arguments.ts';
import { GRADE_ROWS, GRADE_SOURCE, QUARTERS_ROWS, QUARTERS_SOURCE } from './data/lumber-sizes.ts';
import { howAt } from './data/provenance.ts';
import type { FunctionDescription } from './describe.ts';
import { ceilSettled, floorSettled, roundSettled } from './exact.ts';
import { Fault } from './fault.ts';
import { leftOver, notNegative, positive, sensibleCount, whole, words } from './guards.ts';
import { notKnown } from './nearest.ts';
import { rests } from './rests.ts';

const THICKNESS = lengthOf('thickness', 'rough thickness');
const WIDTH = lengthOf('width', 'width of the board');
const LENGTH = lengthOf('length', 'length of the board');
const COUNT = optional(countOf('count', 'how many such boards'), 'one board');
const QUARTERS = textOf('quarters', 'rough thickness in quarters of an inch: "4/4", "8/4"');
const FINISHED = lengthOf('finished_thickness', 'finished thickness wanted');
const ALLOWANCE = optional(
  lengthOf('allowance', 'extra to leave for flattening after planing'),
  'nothing extra',
);
const PLY_COUNT = countOf('plies', 'number of layers');
const FLATTENING = optional(
  lengthOf('flattening', 'what planing the glued stack flat takes off in all'),
  'nothing',
);
const PLY = lengthOf('ply_thickness', 'thickness of each planed layer');
const GRADE = textOf('grade', 'lumber grade: "FAS", "F1F", "Selects", "1C", "2C" …');

const CUBIC_INCHES_PER_BOARD_FOOT = 144;

/**
 * Board feet. A thickness under 1 in counts as 1 in.
 * @param thickness in, rough
 * @param width in
 * @param length in
 * @param count boards, 1 when left out
 * @returns bd ft: thickness x width x length x count / 144
 * @throws Fault `kind`, `range`
 * Source: NHLA rules, board measure; thin lumber as 1 in: trade statement read, rule from memory.
 * Not rounded: the rule's rounding of width and length belongs to the tally of bought boards.
 */
export function boardFeet(thickness: number, width: number, length: number, count = 1): number {
  const thick = Math.max(1, positive(THICKNESS, thickness));
  const face = notNegative(WIDTH, width) * notNegative(LENGTH, length);
  return (thick * face * whole(COUNT, count, 0)) / CUBIC_INCHES_PER_BOARD_FOOT;
}

const INCHES_PER_FOOT = 12;

/**
 * Surface measure of a hardwood board: width in inches times length in whole feet, over 12.
 * @param width in
 * @param length in; a part of a foot is dropped
 * @returns whole ft², also in a metric book
 * @throws Fault `kind`, `range`
 * Source: NHLA rules, surface measure (read). The trade rounds halves up and down by turns over a
 * tally; one board has no turn, so a half is rounded up, as the first of a tally is.
 */
export function surfaceMeasure(width: number, length: number): number {
  const wholeFeet = floorSettled(notNegative(LENGTH, length) / INCHES_PER_FOOT);
  return roundSettled((notNegative(WIDTH, width) * wholeFeet) / INCHES_PER_FOOT);
}

const QUARTERS_NAMES = QUARTERS_ROWS.map(([name]) => name);

function quartersRow(quarters: string) {
  const takes = 'quarters of an inch in quotes, such as "8/4"';
  const asked = words(QUARTERS, quarters, takes).replace(/\s+/g, '');
  const row = QUARTERS_ROWS.find(([name]) => name === asked);
  if (row) return row;
  throw notKnown(QUARTERS, quarters, takes, QUARTERS_NAMES);
}

function quartersTaken(row: ReturnType<typeof quartersRow>, of: 'rough' | 'planed'): number {
  const [name, rough, planed, how] = row;
  const value = of === 'rough' ? rough : planed;
  rests({
    of: `${name} hardwood: ${of === 'rough' ? 'rough' : 'both faces planed'}`,
    value,
    quantity: 'length',
    how: howAt(how, 0),
    source: QUARTERS_SOURCE,
  });
  return value;
}

/**
 * Rough thickness named in quarters of an inch.
 * @param quarters "2/4" to "16/4"
 * @returns in
 * @throws Fault `kind`, `unknown`
 * Source: NHLA rules, standard thickness (read; 10/4 from memory).
 */
export function quartersRough(quarters: string): number {
  return quartersTaken(quartersRow(quarters), 'rough');
}

/**
 * Thickness left when rough hardwood is surfaced on two sides.
 * @param quarters "2/4" to "16/4"
 * @returns in
 * @throws Fault `kind`, `unknown`
 * Source: NHLA rules, standard surfaced thickness (read; 10/4 from memory).
 */
export function quartersPlaned(quarters: string): number {
  return quartersTaken(quartersRow(quarters), 'planed');
}

/**
 * The least rough thickness whose planed thickness leaves the finished one and the allowance.
 * @param finishedThickness in
 * @param allowance in, 0 when left out
 * @returns text such as "8/4"
 * @throws Fault `kind`, `range`; `unknown` past 16/4
 * Source: NHLA rules, standard surfaced thickness; see {@link quartersPlaned}.
 */
export function quartersFor(finishedThickness: number, allowance = 0): string {
  const finished = positive(FINISHED, finishedThickness);
  const needed = finished + notNegative(ALLOWANCE, allowance);
  const row = QUARTERS_ROWS.find(([, , planed]) => planed >= needed - 1e-9);
  if (row) {
    quartersTaken(row, 'planed');
    return row[0];
  }
  const thickest = QUARTERS_ROWS.at(-1)?.[2] ?? 0;
  throw new Fault({
    class: 'unknown',
    argument: FINISHED.name,
    got: finished,
    quantity: 'length',
    takes: '{n} at the most, allowance included',
    bounds: [thickest],
    problem: 'is more than the thickest rough lumber leaves',
    hint: 'Laminate thinner boards face to face: PLIES counts them.',
  });
}

/**
 * Layers that reach a thickness when thin boards are laminated face to face.
 * @param finishedThickness in
 * @param plyThickness in, each layer as planed
 * @returns count, 1 or more
 * @throws Fault `kind`, `range`
 * Source: common practice, no source.
 */
export function plies(finishedThickness: number, plyThickness: number): number {
  const ply = positive(PLY, plyThickness);
  const layers = Math.max(1, ceilSettled(positive(FINISHED, finishedThickness) / ply));
  return sensibleCount(layers, PLY, ply, 'layers');
}

const gradeKey = (text: string): string =>
  text
    .toLowerCase()
    .replace(/#/g, 'no ')
    .replace(/[^a-z0-9]+/g, ' ')
    .trim();

const GRADE_BY_KEY = new Map(
  GRADE_ROWS.flatMap(([grade, twelfths, alsoCalled]) =>
    [grade, ...alsoCalled].map((name) => [gradeKey(name), twelfths] as const),
  ),
);

/**
 * Thickness of boards laminated face to face, after the stack was planed flat.
 * @param count whole number of layers, 1 or more
 * @param plyThickness in, each layer as planed before gluing
 * @param flattening in, taken off the stack in all; 0 when left out
 * @returns in: count x plyThickness − flattening
 * @throws Fault `kind`; `range`, also when nothing is left
 * Source: common practice, no source.
 */
export function laminatedThickness(count: number, plyThickness: number, flattening = 0): number {
  const stack = whole(PLY_COUNT, count, 1, 1000) * positive(PLY, plyThickness);
  const off = notNegative(FLATTENING, flattening);
  return leftOver(
    stack,
    [{ argument: FLATTENING, value: off, times: 1 }],
    'some of the stack is left',
  );
}

/**
 * Least share of a board's face that is clear, by grade.
 * @param grade "FAS", "F1F", "Selects", "1C", "2C", "2AC", "2BC", "3AC", "3BC" or in full
 * @returns fraction, 0 to 1
 * @throws Fault `kind`, `unknown`
 * Source: NHLA rules, summary of grades: cutting units per square foot of surface, over 12 (read).
 */
export function gradeYield(grade: string): number {
  const takes = 'a hardwood grade such as "FAS" or "1C"';
  const asked = words(GRADE, grade, takes);
  const twelfths = GRADE_BY_KEY.get(gradeKey(asked));
  if (twelfths !== undefined) {
    rests({
      of: `Grade ${asked}: least clear share of the face`,
      value: twelfths / 12,
      quantity: 'ratio',
      how: 'read',
      source: GRADE_SOURCE,
    });
    return twelfths / 12;
  }
  throw notKnown(
    GRADE,
    asked,
    takes,
    GRADE_ROWS.map(([name]) => name),
  );
}

export const LUMBER_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'BOARDFEET',
    task: 'Lumber',
    answers: 'How many board feet a board is, or several alike.',
    args: [THICKNESS, WIDTH, LENGTH, COUNT],
    result: { quantity: 'boardfeet', means: 'board feet, in metric workbooks too' },
    source: 'NHLA rules, board measure: thickness x width x length / 144 in inches',
    example: '=BOARDFEET(2, 8, 96, 4)',
    notes: 'A thickness under 1 in counts as 1 in, as hardwood is sold.',
    run: boardFeet,
  },
  {
    name: 'SURFACE_MEASURE',
    task: 'Lumber',
    answers: 'How many whole square feet a hardwood board is tallied at.',
    args: [WIDTH, LENGTH],
    result: { quantity: 'count', means: 'whole square feet, in metric workbooks too' },
    source: 'NHLA rules, surface measure: width in inches x length in whole feet / 12',
    example: '=SURFACE_MEASURE(6.5, 96)',
    notes: 'A fraction of a foot is dropped. A half is rounded up; a tally alternates up and down.',
    run: surfaceMeasure,
  },
  {
    name: 'QUARTERS_ROUGH',
    task: 'Lumber',
    answers: 'How thick rough lumber named in quarters of an inch is.',
    args: [QUARTERS],
    result: { quantity: 'length', means: 'rough thickness' },
    source: QUARTERS_SOURCE,
    example: '=QUARTERS_ROUGH("8/4")',
    run: quartersRough,
  },
  {
    name: 'QUARTERS_PLANED',
    task: 'Lumber',
    answers: 'How thick rough lumber is once both faces are planed.',
    args: [QUARTERS],
    result: { quantity: 'length', means: 'thickness surfaced on two sides' },
    source: QUARTERS_SOURCE,
    example: '=QUARTERS_PLANED("8/4")',
    run: quartersPlaned,
  },
  {
    name: 'QUARTERS_FOR',
    task: 'Lumber',
    answers: 'Which rough thickness to buy for a finished one.',
    args: [FINISHED, ALLOWANCE],
    result: { quantity: 'text', means: 'rough thickness in quarters' },
    source: QUARTERS_SOURCE,
    example: '=QUARTERS_FOR(1.5, 1/16)',
    notes: 'The rule lists 7/4 and 14/4, which few dealers stock.',
    run: quartersFor,
  },
  {
    name: 'PLIES',
    task: 'Lumber',
    answers: 'How many thin boards, laminated face to face, reach a thickness.',
    args: [FINISHED, PLY],
    result: { quantity: 'count', means: 'layers' },
    source: 'common practice, no source',
    example: '=PLIES(3.5, 13/16)',
    run: plies,
  },
  {
    name: 'LAMINATED_THICKNESS',
    task: 'Lumber',
    answers: 'How thick laminated boards are once the stack is planed flat.',
    args: [PLY_COUNT, PLY, FLATTENING],
    result: { quantity: 'length', means: 'thickness of the planed stack' },
    source: 'common practice, no source',
    example: '=LAMINATED_THICKNESS(4, 13/16, 1/8)',
    notes:
      'Glue two and two first and plane each pair flat: a stack of pairs stays truer than one pressed all at once. Every planing counts in flattening.',
    run: laminatedThickness,
  },
  {
    name: 'GRADE_YIELD',
    task: 'Lumber',
    answers: 'What share of a board’s face a grade promises to be clear.',
    args: [GRADE],
    result: { quantity: 'ratio', means: 'least clear share of the face, 0 to 1' },
    source: GRADE_SOURCE,
    example: '=GRADE_YIELD("FAS")',
    notes: 'Measured on the poorer face, except F1F and Selects: the better face.',
    run: gradeYield,
  },
];
