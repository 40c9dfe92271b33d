import { countOf, lengthOf, optional } from './arguments.ts';
import type { FunctionDescription } from './describe.ts';
import { ceilSettled, floorSettled } from './exact.ts';
import { between, leftOver, notNegative, positive, sensibleCount, whole } from './guards.ts';

const TABLE_SIZE = lengthOf('table_size', 'length or width of the top, along the part');
const OVERHANG = lengthOf('overhang', 'table edge to the outer face of the leg');
const LEG = lengthOf('leg', 'size of the leg, along the part');
const TENON = optional(
  lengthOf('tenon', 'length of the tenon at each end'),
  'no tenon: butt or pocket-screw joints',
);
const SETBACK = lengthOf('setback', 'outer face of the leg to the outer face of the apron');
const APRON_THICKNESS = lengthOf('apron_thickness', 'thickness of the aprons');
const TABLE_HEIGHT = lengthOf('table_height', 'floor to the top of the table');
const TOP_THICKNESS = lengthOf('top_thickness', 'thickness of the top');
const APRON_WIDTH = lengthOf('apron_width', 'width (height) of the apron');
const SIDE_LENGTH = lengthOf('length', 'length of the side people sit at');
const PER_SEAT = lengthOf('per_seat', 'width for one person');
const LOST_EACH_END = optional(
  lengthOf('lost_each_end', 'length at each end where nobody sits'),
  'no length is lost',
);
const SPAN = lengthOf('span', 'clear length to be divided');
const WIDEST_GAP = lengthOf('widest_gap', 'widest gap to leave between supports');
const GROOVE_WIDTH = lengthOf('groove_width', 'width of the groove');
const KERF = lengthOf('kerf', 'width of the saw cut');
const EDGE_TO_GROOVE = lengthOf('edge_to_groove', 'edge against the fence to the groove');
const PASS = countOf('pass', 'which pass: 1, 2, …');

const PRACTICE = 'common practice, no source';
const SAW_CAUTION =
  'Unplug the saw to set it; a groove hides the blade, so use push blocks, and a guard and riving knife made for such cuts.';

/**
 * Length of an apron between two legs, tenons included.
 * @param tableSize in, length or width of the top
 * @param overhang in, table edge to the outer face of the leg
 * @param leg in
 * @param tenon in at each end, 0 when left out
 * @returns in: tableSize − 2 x overhang − 2 x leg + 2 x tenon
 * @throws Fault `kind`; `range` when no apron is left between the legs
 * Source: common practice, no source.
 */
export function apronLength(tableSize: number, overhang: number, leg: number, tenon = 0): number {
  const size = positive(TABLE_SIZE, tableSize);
  const over = notNegative(OVERHANG, overhang);
  const post = positive(LEG, leg);
  const joint = notNegative(TENON, tenon);
  const parts = [
    { argument: OVERHANG, value: over, times: 2 },
    { argument: LEG, value: post, times: 2 },
  ];
  return leftOver(size, parts, 'an apron is left between the legs') + 2 * joint;
}

/**
 * Length of a cross support between the inner faces of two aprons.
 * @param tableSize in, length or width of the top
 * @param overhang in, table edge to the outer face of the leg
 * @param setback in, outer face of the leg to the outer face of the apron
 * @param apronThickness in
 * @returns in: tableSize − 2 x (overhang + setback + apronThickness)
 * @throws Fault `kind`; `range` when nothing is left between the aprons
 * Source: common practice, no source.
 */
export function railBetween(
  tableSize: number,
  overhang: number,
  setback: number,
  apronThickness: number,
): number {
  const size = positive(TABLE_SIZE, tableSize);
  const over = notNegative(OVERHANG, overhang);
  const back = notNegative(SETBACK, setback);
  const thick = positive(APRON_THICKNESS, apronThickness);
  const parts = [
    { argument: OVERHANG, value: over, times: 2 },
    { argument: SETBACK, value: back, times: 2 },
    { argument: APRON_THICKNESS, value: thick, times: 2 },
  ];
  return leftOver(size, parts, 'room is left between the aprons');
}

/**
 * Room for knees: floor to the underside of the apron.
 * @param tableHeight in
 * @param topThickness in
 * @param apronWidth in
 * @returns in: tableHeight − topThickness − apronWidth
 * @throws Fault `kind`; `range` when nothing is left above the floor
 * Source: common practice, no source.
 */
export function kneeRoom(tableHeight: number, topThickness: number, apronWidth: number): number {
  const height = positive(TABLE_HEIGHT, tableHeight);
  const top = positive(TOP_THICKNESS, topThickness);
  const apron = notNegative(APRON_WIDTH, apronWidth);
  const parts = [
    { argument: TOP_THICKNESS, value: top, times: 1 },
    { argument: APRON_WIDTH, value: apron, times: 1 },
  ];
  return leftOver(height, parts, 'room is left above the floor');
}

/**
 * Whole seats along one side.
 * @param length in
 * @param perSeat in
 * @param lostEachEnd in, 0 when left out
 * @returns count, 0 or more
 * @throws Fault `kind`; `range` when the lost ends are longer than the side
 * Source: common practice, no source.
 */
export function seatsAlong(length: number, perSeat: number, lostEachEnd = 0): number {
  const side = positive(SIDE_LENGTH, length);
  const seat = positive(PER_SEAT, perSeat);
  const lost = between(LOST_EACH_END, lostEachEnd, 0, side / 2);
  const seats = floorSettled(Math.max(0, side - 2 * lost) / seat);
  return sensibleCount(seats, PER_SEAT, seat, 'seats');
}

/**
 * Supports that divide a span so that no gap exceeds `widestGap`.
 * @param span in
 * @param widestGap in
 * @returns count: ⌈span/widestGap⌉ − 1; none when the span itself is no wider
 * @throws Fault `kind`, `range`
 * Source: common practice, no source. Gaps are measured between the middles of the supports.
 */
export function supportCount(span: number, widestGap: number): number {
  const gap = positive(WIDEST_GAP, widestGap);
  const gaps = Math.max(1, ceilSettled(positive(SPAN, span) / gap));
  return sensibleCount(gaps - 1, WIDEST_GAP, gap, 'supports');
}

/** A kerf that fits the groove. */
function fittingKerf(kerf: number, groove: number): number {
  const cut = positive(KERF, kerf);
  return between(KERF, cut, 0, groove, 'A narrower blade, or a router bit, would fit the groove.');
}

/**
 * Table-saw passes for a groove wider than the blade.
 * @param grooveWidth in
 * @param kerf in, no wider than the groove
 * @returns count, 1 or more
 * @throws Fault `kind`; `range` when the kerf is wider than the groove
 * Source: common practice, no source.
 */
export function groovePasses(grooveWidth: number, kerf: number): number {
  const groove = positive(GROOVE_WIDTH, grooveWidth);
  const cut = fittingKerf(kerf, groove);
  return sensibleCount(Math.max(1, ceilSettled(groove / cut)), KERF, cut, 'passes');
}

/**
 * Fence to the near side of the blade for one pass of a groove. The last pass ends exactly at the
 * groove's far edge; a pass beyond it would be at the same setting.
 * @param edgeToGroove in, edge against the fence to the groove's near edge
 * @param grooveWidth in
 * @param kerf in, no wider than the groove
 * @param pass 1, 2, …
 * @returns in: edgeToGroove + min((pass − 1) x kerf, grooveWidth − kerf)
 * @throws Fault `kind`; `range` when the kerf is wider than the groove
 * Source: common practice, no source.
 */
export function fenceStop(
  edgeToGroove: number,
  grooveWidth: number,
  kerf: number,
  pass: number,
): number {
  const near = notNegative(EDGE_TO_GROOVE, edgeToGroove);
  const groove = positive(GROOVE_WIDTH, grooveWidth);
  const cut = fittingKerf(kerf, groove);
  const turn = whole(PASS, pass, 1);
  // A kerf that equals the groove but for conversion noise must not set the fence back.
  return near + Math.min((turn - 1) * cut, Math.max(0, groove - cut));
}

export const BASE_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'APRON_LENGTH',
    task: 'Base',
    answers: 'How long an apron between two legs is, tenons included.',
    args: [TABLE_SIZE, OVERHANG, LEG, TENON],
    result: { quantity: 'length', means: 'length of the apron' },
    source: PRACTICE,
    example: '=APRON_LENGTH(84, 6, 3.5)',
    notes: 'table_size - 2 x overhang - 2 x leg + 2 x tenon.',
    run: apronLength,
  },
  {
    name: 'RAIL_BETWEEN',
    task: 'Base',
    answers: 'How long a cross support between the inner faces of two aprons is.',
    args: [TABLE_SIZE, OVERHANG, SETBACK, APRON_THICKNESS],
    result: { quantity: 'length', means: 'length of the support' },
    source: PRACTICE,
    example: '=RAIL_BETWEEN(42, 3, 0.5, 1.5)',
    notes: 'table_size - 2 x (overhang + setback + apron_thickness).',
    run: railBetween,
  },
  {
    name: 'KNEE_ROOM',
    task: 'Base',
    answers: 'How much room for knees there is between the floor and the apron.',
    args: [TABLE_HEIGHT, TOP_THICKNESS, APRON_WIDTH],
    result: { quantity: 'length', means: 'floor to the underside of the apron' },
    source: PRACTICE,
    example: '=KNEE_ROOM(30, 1.75, 3.5)',
    run: kneeRoom,
  },
  {
    name: 'SEATS_ALONG',
    task: 'Base',
    answers: 'How many people can sit along one side.',
    args: [SIDE_LENGTH, PER_SEAT, LOST_EACH_END],
    result: { quantity: 'count', means: 'whole seats on one side' },
    source: PRACTICE,
    example: '=SEATS_ALONG(84, 24, 6)',
    run: seatsAlong,
  },
  {
    name: 'SUPPORT_COUNT',
    task: 'Base',
    answers: 'How many supports divide a span so that no gap is too wide.',
    args: [SPAN, WIDEST_GAP],
    result: { quantity: 'count', means: 'supports between the ends' },
    source: PRACTICE,
    example: '=SUPPORT_COUNT(66, 24)',
    run: supportCount,
  },
  {
    name: 'GROOVE_PASSES',
    task: 'Base',
    answers: 'How many table-saw passes a groove wider than the blade takes.',
    args: [GROOVE_WIDTH, KERF],
    result: { quantity: 'count', means: 'passes' },
    source: PRACTICE,
    example: '=GROOVE_PASSES(3/8, 1/8)',
    notes: SAW_CAUTION,
    run: groovePasses,
  },
  {
    name: 'FENCE_STOP',
    task: 'Base',
    answers: 'Where to set the fence for each pass of a groove.',
    args: [EDGE_TO_GROOVE, GROOVE_WIDTH, KERF, PASS],
    result: { quantity: 'length', means: 'fence to the near side of the blade' },
    source: PRACTICE,
    example: '=FENCE_STOP(1/2, 3/8, 1/8, 2)',
    notes: `The last pass ends at the far edge of the groove. ${SAW_CAUTION}`,
    run: fenceStop,
  },
];
