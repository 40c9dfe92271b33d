/** Along the piece, across it, up: in one unit of length throughout. */
export type Corner = readonly [along: number, across: number, up: number];

/** A piece in its place, as the box around it. */
export interface Block {
  /** The corner with the least of each. */
  readonly low: Corner;
  /** The corner with the most of each. */
  readonly high: Corner;
}

/** How two blocks stand to each other. */
export interface BlockMeeting {
  /** Which of the blocks given, from 0. */
  readonly first: number;
  /** Which other one, later among them. */
  readonly second: number;
  /** How far they reach into each other along each axis; negative is the gap between them. */
  readonly reach: Corner;
}

const PLACES = [0, 1, 2] as const;
type Place = (typeof PLACES)[number];

/**
 * All pairs of blocks no farther apart than `gap` along any axis. Blocks are sorted along the first
 * axis, so that each is only compared with those that begin before it ends.
 * @param blocks in one unit of length
 * @param gap in that unit
 * @returns pairs in the order of the blocks
 */
export function blockMeetings(blocks: readonly Block[], gap: number): BlockMeeting[] {
  const sorted = blocks
    .map((block, index) => ({ block, index }))
    .sort((a, b) => a.block.low[0] - b.block.low[0] || a.index - b.index);
  const found: BlockMeeting[] = [];
  for (const [place, one] of sorted.entries()) {
    for (let next = place + 1; next < sorted.length; next++) {
      const other = sorted[next];
      if (other === undefined || other.block.low[0] > one.block.high[0] + gap) break;
      const reach = reachOf(one.block, other.block);
      if (PLACES.some((axis) => reach[axis] < -gap)) continue;
      const [first, second] =
        one.index < other.index ? [one.index, other.index] : [other.index, one.index];
      found.push({ first, second, reach });
    }
  }
  return found.sort((a, b) => a.first - b.first || a.second - b.second);
}

/** To a millionth of the unit, so that faces that meet are neither apart nor inside each other. */
function reachOf(a: Block, b: Block): Corner {
  const along = (axis: Place): number =>
    Math.round((Math.min(a.high[axis], b.high[axis]) - Math.max(a.low[axis], b.low[axis])) * 1e6) /
    1e6;
  return [along(0), along(1), along(2)];
}

/**
 * Whether two blocks take up the same room: they reach into each other along every axis.
 * @param meeting of the two
 * @param tolerance reaching in by no more than this is touching
 * @returns false where they only touch
 */
export const shareRoom = ({ reach }: BlockMeeting, tolerance: number): boolean =>
  PLACES.every((axis) => reach[axis] > tolerance);

/** A line or a corner in common holds nothing: it takes a face. */
const holds = ({ reach }: BlockMeeting, tolerance: number): boolean =>
  PLACES.filter((axis) => reach[axis] > tolerance).length >= 2;

/**
 * Groups of blocks that hang together and reach neither the lowest place there is nor what stands on
 * it.
 * @param blocks in one unit of length
 * @param meetings of these blocks, with `tolerance` as their gap
 * @param tolerance in that unit
 * @returns the blocks of each group, by their places in `blocks`
 */
export function looseBlocks(
  blocks: readonly Block[],
  meetings: readonly BlockMeeting[],
  tolerance: number,
): number[][] {
  const group = blocks.map((_, index) => index);
  const rootOf = (index: number): number => {
    let root = index;
    while (group[root] !== undefined && group[root] !== root) root = group[root] ?? root;
    group[index] = root;
    return root;
  };
  for (const meeting of meetings) {
    if (!holds(meeting, tolerance)) continue;
    const [one, two] = [rootOf(meeting.first), rootOf(meeting.second)];
    group[Math.max(one, two)] = Math.min(one, two);
  }
  const floor = blocks.reduce((least, { low }) => Math.min(least, low[2]), Infinity);
  const grounded = new Set<number>();
  const members = new Map<number, number[]>();
  for (const [index, { low }] of blocks.entries()) {
    const root = rootOf(index);
    members.set(root, [...(members.get(root) ?? []), index]);
    if (low[2] <= floor + tolerance) grounded.add(root);
  }
  return [...members].filter(([root]) => !grounded.has(root)).map(([, indexes]) => indexes);
}
