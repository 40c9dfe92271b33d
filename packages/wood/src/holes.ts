import { countOf, lengthOf, optional } from './arguments.ts';
import type { FunctionDescription } from './describe.ts';
import { ceilSettled, roundSettled } from './exact.ts';
import { screwDiameter } from './fastenings.ts';
import { SPECIES_ARGUMENT, woodClassOf } from './find-species.ts';
import { between } from './guards.ts';

const GAUGE = countOf('gauge', 'screw gauge number, 0 to 24');
const BIT_STEP = optional(
  lengthOf('bit_step', 'from one bit of your set to the next: 1/64 in, or MM(0.5)'),
  '1/64 in',
);

const USUAL_STEP = 1 / 64;
const FINEST_STEP = 0.001;
/** In a set coarser than this the bit next to a small screw could be none at all. */
const COARSEST_STEP = 1 / 32;

/** Root of the thread to the shank of a wood screw, on the average. */
const ROOT_SHARE = 2 / 3;
const LEAD_SHARE = { softwood: 0.7, hardwood: 0.9, imported: 0.9 } as const;

const stepOf = (step: number): number => between(BIT_STEP, step, FINEST_STEP, COARSEST_STEP);

/**
 * Bit for the hole a wood screw passes through freely: the smallest that clears the shank.
 * @param gauge whole number, 0 to 24
 * @param bitStep in, 0.001 to 1/32; 1/64 when left out
 * @returns in, a multiple of `bitStep`
 * @throws Fault `kind`, `range`
 * Source: shank of ASME B18.6.1 (formula from memory), rounded up to a bit.
 */
export function screwClearanceHole(gauge: number, bitStep = USUAL_STEP): number {
  const step = stepOf(bitStep);
  return ceilSettled(screwDiameter(gauge) / step) * step;
}

/**
 * Bit for the hole a wood screw cuts its thread in: nearest to the lead hole of the screw tests.
 * @param gauge whole number, 0 to 24
 * @param species any usual name
 * @param bitStep in, 0.001 to 1/32; 1/64 when left out
 * @returns in, a multiple of `bitStep`
 * @throws Fault `kind`, `range`, `unknown`
 * Source: Wood Handbook (FPL-GTR-190) chapter 8: lead holes of 70 % of the root of the thread in
 * softwoods and 90 % in hardwoods, the root about two thirds of the shank (values from memory).
 * Imported woods, and woods of the maker's own, count as hardwoods.
 */
export function screwPilotHole(gauge: number, species: string, bitStep = USUAL_STEP): number {
  const step = stepOf(bitStep);
  const share = LEAD_SHARE[woodClassOf(species)];
  return roundSettled((screwDiameter(gauge) * ROOT_SHARE * share) / step) * step;
}

export const HOLE_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'SCREW_CLEARANCE_HOLE',
    task: 'Fastenings',
    answers: 'Which bit drills the hole that a wood screw passes through freely.',
    args: [GAUGE, BIT_STEP],
    result: {
      quantity: 'length',
      means: 'diameter of the bit, the smallest that clears the shank',
    },
    source: 'ASME B18.6.1: shank 0.060 in + 0.013 in x gauge, rounded up to a bit; from memory',
    example: '=SCREW_CLEARANCE_HOLE(8)',
    notes: 'A hole that lets a top move is a slot: see SLOT_LENGTH.',
    run: screwClearanceHole,
  },
  {
    name: 'SCREW_PILOT_HOLE',
    task: 'Fastenings',
    answers: 'Which bit drills the hole that a wood screw cuts its thread in.',
    args: [GAUGE, SPECIES_ARGUMENT, BIT_STEP],
    result: { quantity: 'length', means: 'diameter of the bit, nearest to the lead hole' },
    source:
      'Wood Handbook (FPL-GTR-190, 2010), chapter 8: lead hole 70 % of the root of the thread in softwood, 90 % in hardwood; root about 2/3 of the shank; from memory',
    example: '=SCREW_PILOT_HOLE(8, "white oak")',
    notes:
      'Try it in scrap of the same wood: threads differ from maker to maker. Soft brass screws want a steel one driven first.',
    run: screwPilotHole,
  },
];
