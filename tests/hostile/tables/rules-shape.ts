import type { OwnTable, Piece } from './own-table.ts';
import { inputOf } from './own-table.ts';
import { inches, type Refusal, refusal } from './refusal.ts';
import type { Stated } from './stated.ts';

/** Finer than a saw is set; in. Common practice, no source. */
const TOUCH = 0.001;
/** Below this a part is a splinter, and a gap no gap: in. Common practice, no source. */
const LEAST_PART = 0.25;
/** Between two legs something must go; in. Common practice, no source. */
const LEAST_CLEAR = 1;
/** A foot thinner than this breaks when the table is dragged; in. Common practice, no source. */
const LEAST_FOOT = 0.5;
/** Least knee clearance that the 2010 ADA Standards have for any place, 902.4.1 (children's); in. */
const LEAST_KNEES = 24;
/** From this height on a table is one to sit at upright: 2010 ADA Standards, 902.3; in. */
const DINING_HEIGHT = 28;

/** Parts that have no size, run into each other, float, or leave no room for knees. */
export function shapeRefusals(stated: Stated, table: OwnTable): readonly Refusal[] {
  return [
    ...sizes(table),
    ...frame(table),
    ...outline(stated, table),
    ...tapers(table),
    ...meetings(table),
    ...knees(stated, table),
  ];
}

/** A top that is not what its word says, and legs that stand out past its edge. */
function outline(stated: Stated, table: OwnTable): readonly Refusal[] {
  const { length, width, outline, overEnd, overSide } = table;
  const found: Refusal[] = [];
  if (stated.inputs.top_shape === 'round' && Math.abs(length - width) > TOUCH) {
    const says = `A round top of ${inches(length)} by ${inches(width)} is not round.`;
    found.push(refusal('not-round', says));
  }
  if (outline.kind === 'corners' && outline.radius > Math.min(length, width) / 2 + TOUCH)
    found.push(refusal('corner', `No corner of ${inches(outline.radius)} fits the top.`));
  const [x, y] = [length / 2 - overEnd, width / 2 - overSide];
  const isUnder =
    outline.kind === 'oval'
      ? (x / (length / 2)) ** 2 + (y / (width / 2)) ** 2 <= 1
      : overEnd >= outline.radius ||
        overSide >= outline.radius ||
        Math.hypot(outline.radius - overEnd, outline.radius - overSide) <= outline.radius + TOUCH;
  if (!isUnder) found.push(refusal('leg-out', 'The legs stand out past the edge of the top.'));
  return found;
}

/** Legs that are no thinner at the foot, or so thin that they break there; tapers without a length. */
function tapers({ leg, legLength, apron, foot }: OwnTable): readonly Refusal[] {
  if (foot.size === leg && foot.below === 0) return [];
  const found: Refusal[] = [];
  if (foot.size > leg - TOUCH || foot.size < LEAST_FOOT)
    found.push(refusal('foot', `Legs of ${inches(leg)} taper to ${inches(foot.size)}.`));
  const long = legLength - apron.width - foot.below;
  if (long < leg - foot.size)
    found.push(refusal('taper', `A taper of ${inches(long)} is steeper than a bevel.`));
  return found;
}

function sizes({ pieces }: OwnTable): readonly Refusal[] {
  const flat = pieces.filter(({ size }) => size.some((one) => !(one >= LEAST_PART)));
  return flat.map(({ name, size }) =>
    refusal('size', `A ${name} of ${size.map(inches).join(' × ')} is no part that can be made.`),
  );
}

function frame({ clear, apron, leg, legLength, support }: OwnTable): readonly Refusal[] {
  const found: Refusal[] = [];
  for (const [way, room] of Object.entries(clear)) {
    if (room >= LEAST_CLEAR) continue;
    found.push(
      refusal('legs', `The legs ${way} the table have ${inches(room)} between them: no room.`),
    );
  }
  const within = apron.setback + apron.thickness;
  if (within > leg + TOUCH) {
    found.push(
      refusal(
        'leg-thin',
        `A leg of ${inches(leg)} is thinner than apron and set-back, ${inches(within)} together.`,
      ),
    );
  }
  if (apron.width > legLength - TOUCH) {
    found.push(refusal('apron-deep', `An apron of ${inches(apron.width)} reaches the floor.`));
  }
  const way = clear.along / (support.count + 1);
  if (support.count > 0 && way < support.thickness + 0.125) {
    found.push(
      refusal('supports-meet', `Supports every ${inches(way)} leave no room between them.`),
    );
  }
  return found;
}

/** Every pair of pieces that share room though no tenon has one in the other, and those that hang free. */
function meetings({ pieces, tenon }: OwnTable): readonly Refusal[] {
  const found = new Map<string, Refusal>();
  const held = new Set<Piece>(pieces.filter(({ name }) => name === 'leg'));
  const touching = new Map<Piece, Piece[]>(pieces.map((one) => [one, []]));
  for (const [i, one] of pieces.entries()) {
    for (const two of pieces.slice(i + 1)) {
      const shared = [0, 1, 2].map((axis) => reach(one, two, axis as 0 | 1 | 2));
      if (shared.filter((by) => by > TOUCH).length >= 2 && shared.every((by) => by > -TOUCH)) {
        touching.get(one)?.push(two);
        touching.get(two)?.push(one);
      }
      if (shared.some((by) => by <= TOUCH) || isJoint(one, two, shared, tenon)) continue;
      const names = [one.name, two.name].join(' and ');
      found.set(
        names,
        refusal('clash', `${names} take up the same room: ${shared.map(inches).join(' × ')}.`),
      );
    }
  }
  const ways = [...held];
  for (let next = ways.pop(); next !== undefined; next = ways.pop()) {
    for (const other of touching.get(next) ?? []) {
      if (held.has(other)) continue;
      held.add(other);
      // The top may move: what only touches it is not held.
      if (other.name !== 'top') ways.push(other);
    }
  }
  for (const piece of pieces.filter((one) => !held.has(one)))
    found.set(`free ${piece.name}`, refusal('floats', `A ${piece.name} touches nothing.`));
  return [...found.values()];
}

const reach = (one: Piece, two: Piece, axis: 0 | 1 | 2): number =>
  Math.min(one.from[axis] + one.size[axis], two.from[axis] + two.size[axis]) -
  Math.max(one.from[axis], two.from[axis]);

/** An apron goes into a leg as deep as its tenon; where two tenons meet is for the rules of joints. */
function isJoint(one: Piece, two: Piece, shared: readonly number[], tenon: number): boolean {
  const aprons = [one, two].filter(({ name }) => name.endsWith('apron'));
  if (aprons.length === 2) return one.name !== two.name && tenon > 0;
  if (aprons.length === 0 || ![one.name, two.name].includes('leg')) return false;
  const along = aprons[0]?.name === 'long apron' ? 0 : 1;
  return (shared[along] ?? 0) <= tenon + TOUCH;
}

function knees(
  stated: Stated,
  { height, legLength, apron, support }: OwnTable,
): readonly Refusal[] {
  const least = Math.max(
    inputOf(stated, 'least_knee_room'),
    height >= DINING_HEIGHT ? LEAST_KNEES : 0,
  );
  const hangs = [
    ['apron', apron.width],
    ...(support.count > 0 ? [['cross support', support.width] as const] : []),
  ] as const;
  return hangs
    .filter(([, width]) => legLength - width < least - TOUCH)
    .map(([name, width]) =>
      refusal(
        'knees',
        `Under the ${name} are ${inches(legLength - width)}, and knees want ${inches(least)}.`,
      ),
    );
}
