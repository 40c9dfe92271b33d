import { lengthOf, optional } from './arguments.ts';
import { METRIC_SOURCE, ROOT_SOURCE, SHANK_SOURCE } from './data/screws.ts';
import type { FunctionDescription } from './describe.ts';
import { ceilSettled, roundSettled } from './exact.ts';
import { screwDiameter } from './fastenings.ts';
import { SPECIES_ARGUMENT } from './find-species.ts';
import { gravityAt } from './gravity.ts';
import { between } from './guards.ts';
import { rests } from './rests.ts';
import { rootTaken, SCREW_ARGUMENT, screwSize } from './screw-size.ts';
import { specificGravity } from './species.ts';

const BIT_STEP = optional(
  lengthOf('bit_step', 'from one bit of your set to the next: 1/64 in, or MM(0.5)'),
  '1/64 in',
);

const USUAL_STEP = 1 / 64;
const FINEST_STEP = 0.001;
/** In a set coarser than this the bit next to a small screw could be none at all. */
const COARSEST_STEP = 1 / 32;

/** Wood denser than this, ovendry, takes the larger lead hole (NDS 12.1.5.2, value from memory). */
const DENSE = 0.6;
const LEAD_SHARE = { light: 0.7, dense: 0.9 } as const;

const stepOf = (step: number): number => between(BIT_STEP, step, FINEST_STEP, COARSEST_STEP);

/**
 * Bit for the hole a wood screw passes through freely: the smallest that clears the shank.
 * @param gauge whole number, 0 to 24, or words such as `No. 8`, `4 mm`
 * @param bitStep in, 0.001 to 1/32; 1/64 when left out
 * @returns in, a multiple of `bitStep`
 * @throws Fault `kind`, `range`
 * Source: shank of ASME B18.6.1 (formula from memory), rounded up to a bit.
 */
export function screwClearanceHole(gauge: number | string, bitStep = USUAL_STEP): number {
  const step = stepOf(bitStep);
  return ceilSettled(screwDiameter(gauge) / step) * step;
}

/**
 * Bit for the hole a wood screw cuts its thread in: nearest to the lead hole of the screw tests.
 * @param gauge whole number, 0 to 24, or words such as `No. 8`, `4 mm`
 * @param species any usual name
 * @param bitStep in, 0.001 to 1/32; 1/64 when left out
 * @returns in, a multiple of `bitStep`
 * @throws Fault `kind`, `range`, `unknown`
 * Source: NDS 12.1.5.2: lead holes of 90 % of the root of the thread in wood of more than 0.6 ovendry
 * specific gravity, 70 % in lighter wood (memory; 70 and 90 % read in Canadian Wood Council, figure
 * 5.5, and in the NDS commentary for softwoods and hardwoods). Roots: {@link GAUGE_ROOTS}.
 */
export function screwPilotHole(
  gauge: number | string,
  species: string,
  bitStep = USUAL_STEP,
): number {
  const step = stepOf(bitStep);
  const ovendry = gravityAt(specificGravity(species), 0);
  const share = ovendry > DENSE ? LEAD_SHARE.dense : LEAD_SHARE.light;
  rests({
    of: `Lead hole in wood of ${ovendry > DENSE ? 'more' : 'no more'} than ${DENSE} ovendry gravity: share of the root`,
    value: share,
    quantity: 'ratio',
    how: 'memory',
    source: 'NDS 12.1.5.2',
    note: 'Both shares, 0.7 and 0.9, were read in Canadian Wood Council, figure 5.5, for softwoods and hardwoods.',
  });
  return roundSettled((rootTaken(screwSize(gauge)) * share) / step) * step;
}

export const HOLE_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'SCREW_CLEARANCE_HOLE',
    task: 'Fastenings',
    answers: 'Which bit drills the hole that a wood screw passes through freely.',
    args: [SCREW_ARGUMENT, BIT_STEP],
    result: {
      quantity: 'length',
      means: 'diameter of the bit, the smallest that clears the shank',
    },
    source: `${SHANK_SOURCE}, rounded up to a bit; ${METRIC_SOURCE}`,
    example: '=SCREW_CLEARANCE_HOLE(8)',
    notes: 'A hole that lets a top move is a slot: see SLOT_LENGTH.',
    run: screwClearanceHole,
  },
  {
    name: 'SCREW_PILOT_HOLE',
    task: 'Fastenings',
    answers: 'Which bit drills the hole that a wood screw cuts its thread in.',
    args: [SCREW_ARGUMENT, SPECIES_ARGUMENT, BIT_STEP],
    result: { quantity: 'length', means: 'diameter of the bit, nearest to the lead hole' },
    source: `NDS 12.1.5.2: 90 % of the root of the thread in wood of more than 0.6 ovendry specific gravity, 70 % in lighter wood, from memory; both shares read in Canadian Wood Council, figure 5.5; ${ROOT_SOURCE}`,
    example: '=SCREW_PILOT_HOLE(8, "white oak")',
    notes:
      'Try it in scrap of the same wood: threads differ from maker to maker. For soft brass screws, drive a steel one first.',
    run: screwPilotHole,
  },
];
