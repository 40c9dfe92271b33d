import { lengthOf, optional, textOf } from './arguments.ts';
import { howAt } from './data/provenance.ts';
import { SAWN_ROWS, SAWN_SOURCE } from './data/sawn-sizes.ts';
import type { FunctionDescription } from './describe.ts';
import { Fault } from './fault.ts';
import { notNegative, positive, words } from './guards.ts';
import { notKnown } from './nearest.ts';
import { MM_PER_INCH } from './quantity.ts';
import { rests } from './rests.ts';

const FINISHED = lengthOf('finished_thickness', 'finished thickness wanted');
const ALLOWANCE = optional(
  lengthOf('allowance', 'what planing both faces takes off'),
  '5 mm; common practice, no source',
);
const KIND = optional(textOf('kind', '"hardwood" or "softwood"'), '"hardwood"');

const USUAL_ALLOWANCE = 5 / MM_PER_INCH;

/**
 * The least sawn thickness of a metric yard that leaves a finished one.
 * @param finishedThickness in
 * @param allowance in; 5 mm when left out
 * @param kind "hardwood" (when left out) or "softwood"
 * @returns in: one of the sizes of EN 1313
 * @throws Fault `kind`, `range`; `unknown`, also past 100 mm
 * Source: {@link SAWN_SOURCE}.
 */
export function sawnFor(
  finishedThickness: number,
  allowance = USUAL_ALLOWANCE,
  kind = 'hardwood',
): number {
  const finished = positive(FINISHED, finishedThickness);
  const needed = (finished + notNegative(ALLOWANCE, allowance)) * MM_PER_INCH;
  const asked = words(KIND, kind, '"hardwood" or "softwood"').toLowerCase();
  const rows = asked === 'hardwood' || asked === 'softwood' ? SAWN_ROWS[asked] : undefined;
  if (rows === undefined)
    throw notKnown(KIND, kind, '"hardwood" or "softwood"', Object.keys(SAWN_ROWS));
  const row = rows.find(([thickness]) => thickness >= needed - 1e-9);
  if (row === undefined) {
    throw new Fault({
      class: 'unknown',
      argument: FINISHED.name,
      got: finished,
      quantity: 'length',
      takes: '{n} at the most, allowance included',
      bounds: [(rows.at(-1)?.[0] ?? 0) / MM_PER_INCH],
      problem: 'is more than the thickest sawn timber leaves',
      hint: 'Laminate thinner boards face to face: PLIES counts them.',
    });
  }
  const [thickness, how] = row;
  const value = thickness / MM_PER_INCH;
  rests({
    of: `Sawn ${asked}, ${thickness} mm`,
    value,
    quantity: 'length',
    how: howAt(how, 0),
    source: SAWN_SOURCE,
  });
  return value;
}

export const SAWN_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'SAWN_FOR',
    task: 'Lumber',
    answers: 'Which sawn thickness to buy in a metric yard for a finished one.',
    args: [FINISHED, ALLOWANCE, KIND],
    result: { quantity: 'length', means: 'sawn thickness: 27, 32, 40, 50 mm and so on' },
    source: SAWN_SOURCE,
    example: '=SAWN_FOR(MM(40), MM(5), "hardwood")',
    notes:
      'Sawn at 20 % moisture: dried for indoors it loses some of it. Ask what your yard stocks.',
    run: sawnFor,
  },
];
