import { lengthOf, optional, textOf } from './arguments.ts';
import { LATERAL_NOTE, LATERAL_ROWS, LATERAL_SOURCE } from './data/lateral-loads.ts';
import type { FunctionDescription } from './describe.ts';
import { SPECIES_ARGUMENT, woodClassOf } from './find-species.ts';
import { atLeast, oneOf } from './guards.ts';
import { notKnown } from './nearest.ts';
import { rests } from './rests.ts';
import { SCREW_ARGUMENT, screwSize } from './screw-size.ts';
import { specificGravity } from './species.ts';

const PENETRATION = lengthOf(
  'penetration',
  'length of the screw in the piece that holds its point',
);

/** Into which grain of the wood a screw goes. */
export const GRAIN = optional(
  textOf('grain', 'the grain that the screw goes into: "side", or "end" for the end of a board'),
  '"side"',
);

/** Whether a text says that a screw goes into the end of a board. */
export const isEndGrain = (grain: unknown): boolean =>
  oneOf(GRAIN, grain, ['side', 'end']) === 'end';

/** Diameters of penetration at which a screw bears all it can, and the least that counts. */
const FULL = 7;
const LEAST = 4;
const END_SHARE = 2 / 3;
const IN_END = {
  of: 'end grain: share of the load across a screw in side grain',
  value: END_SHARE,
  quantity: 'ratio',
  how: 'memory',
  source: 'Wood Handbook (FPL-GTR-190, 2010), chapter 8; NDS 12.5.2 has 0.67',
} as const;

/**
 * Side load of a wood screw at which it begins to give.
 * @param gauge as of SCREW_DIAMETER
 * @param penetration in, in the piece that holds the point; 4 diameters at least
 * @param species of that piece, any usual name
 * @param grain "side" (when left out) or "end"
 * @returns lbf: K x diameter², less in proportion below 7 diameters of penetration; two thirds in end grain
 * @throws Fault `kind`, `unknown`; `range`, also for woods lighter than the table
 * Source: Wood Handbook (FPL-GTR-190) chapter 8, lateral resistance (values from memory; 4/3 of the
 * allowable loads of a formula handbook, read). Woods denser than the table count as its last row.
 */
export function screwSideLoad(
  gauge: number | string,
  penetration: number,
  species: string,
  grain = 'side',
): number {
  const { diameter } = screwSize(gauge);
  const deep = atLeast(
    PENETRATION,
    penetration,
    LEAST * diameter,
    'A screw that holds less than 4 of its diameters of wood does not count.',
  );
  const inEnd = isEndGrain(grain);
  const share = Math.min(1, deep / (FULL * diameter)) * (inEnd ? END_SHARE : 1);
  if (inEnd) rests(IN_END);
  return lateralOf(species) * diameter ** 2 * share;
}

function lateralOf(species: string): number {
  const kind = woodClassOf(species) === 'softwood' ? 'softwood' : 'hardwood';
  const rows = LATERAL_ROWS[kind];
  const gravity = specificGravity(species);
  const row = rows.findLast(([least]) => gravity >= least - 1e-9);
  if (row !== undefined) {
    const [least, load, how] = row;
    const of = `${kind} of a gravity from ${least} on: load across a screw, lb for in²`;
    rests({ of, value: load, quantity: 'number', how, source: LATERAL_SOURCE, note: LATERAL_NOTE });
    return load;
  }
  const known = `a wood as dense as the table holds, of a specific gravity from ${rows[0]?.[0]} on`;
  throw notKnown(SPECIES_ARGUMENT, species, known, ['Basswood, American'], 'is lighter than that');
}

export const SCREW_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'SCREW_SIDE_LOAD',
    task: 'Fastenings',
    answers: 'What load across a wood screw makes it start to give.',
    args: [SCREW_ARGUMENT, PENETRATION, SPECIES_ARGUMENT, GRAIN],
    result: { quantity: 'force', means: 'load at which the joint begins to slip' },
    source:
      'Wood Handbook (FPL-GTR-190, 2010), chapter 8, lateral resistance, from memory; its figures are 4/3 of the allowable loads of a formula handbook, read; end grain two thirds: the same chapter and NDS 12.5.2, from memory',
    example: '=SCREW_SIDE_LOAD(8, 1.25, "white oak")',
    notes:
      'With lead holes in dry wood, and a piece under the head that is no weaker. The full load needs 7 diameters in the second piece, and 4 is the least. Design codes allow three quarters of it and less. An estimate: what people hang on, or may fall from, is for licensed practice.',
    run: screwSideLoad,
  },
];
