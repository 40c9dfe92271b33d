import type { Axis, Scene } from './scene.ts';
import { mergeSpans, type Span, subtractSpans } from './spans.ts';
import { DIRECTIONS, type Projection, type Rectangle, type View, type ViewPiece } from './views.ts';
import type { Outline } from './visible-face.ts';

/** A size to show in a view; where its line and text go is decided by the layout. */
export interface Dimension {
  /** What it measures; each is shown in one view only (ISO 129-1: no dimension twice). */
  readonly key: string;
  /** `inside`: within the outline, in a free opening. */
  readonly side: 'below' | 'left' | 'right' | 'inside';
  /** From and to along the dimension line, mm on the paper at full size. */
  readonly from: number;
  /** Its other end along the dimension line, mm on the paper at full size. */
  readonly to: number;
  /** Where the extension lines start, across the dimension line, mm. */
  readonly fromAnchor: number;
  /** The same of the extension line at `to`, mm. */
  readonly toAnchor: number;
  /** Shown even where it cannot be kept clear of other lines. */
  readonly must: boolean;
  /** Stands before the size: Ø of what is round (ISO 129-1). */
  readonly sign?: 'Ø';
  /** For `inside`: the stretch of paper across the line that is free, mm. */
  readonly opening?: Span;
}

/** Two sizes closer than this are one to a woodworker's rule, mm. */
const SAME = 0.01;
const close = (a: number, b: number): boolean => Math.abs(a - b) <= SAME;

interface Words {
  readonly overhang: string;
  readonly farOverhang: string;
  readonly between: string;
  readonly leg: string;
}

const LENGTHWISE: Words = {
  overhang: 'end overhang',
  farOverhang: 'right end overhang',
  between: 'between legs',
  leg: 'leg',
};
const CROSSWISE: Words = {
  overhang: 'side overhang',
  farOverhang: 'far side overhang',
  between: 'between legs across',
  leg: 'leg across',
};

const OVERALL: Readonly<Record<Axis, string>> = { x: 'length', y: 'width', z: 'height' };

/**
 * The few sizes that say what a piece of furniture is: length, width and height, the top's
 * thickness, how far the top reaches past the legs, the legs, the room between them, and the clear
 * height below what hangs from the top. The choice is common practice, no source.
 */
export function chooseDimensions(
  scene: Scene,
  projections: readonly Projection[],
): ReadonlyMap<View, readonly Dimension[]> {
  const views = projections.map(({ view }) => view);
  const told = new Set<string>();
  const chosen = new Map<View, readonly Dimension[]>();
  for (const projection of projections) {
    const all = candidates(scene, projection, views).filter(
      ({ key, from, to }) => !told.has(key) && to - from > SAME,
    );
    for (const { key } of all) told.add(key);
    // One diameter says both ways across.
    const [first] = all.filter(({ sign }) => sign !== undefined);
    const fresh = all.filter((one) => one.sign === undefined || one === first);
    chosen.set(projection.view, fresh);
  }
  return chosen;
}

function candidates(scene: Scene, projection: Projection, views: readonly View[]): Dimension[] {
  const legs = outerLegs(scene, projection);
  if (projection.view === 'plan') {
    // The side overhang is measured to legs that lie hidden here, so an end view takes it if drawn.
    const reach = views.includes('end') ? [] : sideReach(projection, legs);
    return [...overall(projection), ...reach];
  }
  return [
    ...overall(projection),
    ...legSizes(projection, legs),
    ...topThickness(projection),
    ...taperStart(legs),
    ...clearHeight(projection),
  ];
}

function overall({ view, bounds, pieces }: Projection): Dimension[] {
  const { across, up } = DIRECTIONS[view];
  const low = (side: 'left' | 'right'): number =>
    Math.min(...pieces.filter((p) => close(p[side], bounds[side])).map((p) => reachAt(p, side)));
  const right = (side: 'bottom' | 'top'): number =>
    Math.max(...pieces.filter((p) => close(p[side], bounds[side])).map((p) => reachAt(p, side)));
  const isRound = pieces.some((piece) => isDisc(piece, bounds));
  const sign = isRound ? ({ sign: 'Ø' } as const) : {};
  return [
    {
      ...sign,
      key: OVERALL[across],
      side: 'below',
      from: bounds.left,
      to: bounds.right,
      fromAnchor: low('left'),
      toAnchor: low('right'),
      must: true,
    },
    {
      ...sign,
      key: OVERALL[up],
      side: 'right',
      from: bounds.bottom,
      to: bounds.top,
      fromAnchor: right('bottom'),
      toAnchor: right('top'),
      must: true,
    },
  ];
}

/** Where the outline of a piece is at the side on which it reaches farthest: of a round one not at its corner. */
function reachAt({ outlines, ...room }: ViewPiece, side: keyof Rectangle): number {
  const level = side === 'left' || side === 'right';
  if (outlines === undefined) return level ? room.bottom : room.right;
  const at = outlines
    .flat()
    .filter(([x, y]) => close(level ? x : y, room[side]))
    .map(([x, y]) => (level ? y : x));
  return level ? Math.min(...at) : Math.max(...at);
}

/** Whether a piece is a disc that fills a place: its corners lie all around at one distance. */
function isDisc({ piece, outlines }: ViewPiece, { left, right, bottom, top }: Rectangle): boolean {
  const [outline, ...others] = outlines ?? [];
  if (outline === undefined || others.length > 0) return false;
  if (piece.solid?.facets.some(({ curved }) => curved) !== true) return false;
  const [x, y, radius] = [(left + right) / 2, (bottom + top) / 2, (right - left) / 2];
  return outline.every(([px, py]) => close(Math.hypot(px - x, py - y), radius));
}

interface Legs {
  readonly first: ViewPiece;
  readonly last: ViewPiece;
}

type Ends = readonly ['left', 'right'] | readonly ['bottom', 'top'];

const endsOf = (view: View): Ends => (view === 'plan' ? ['bottom', 'top'] : ['left', 'right']);

/** The outermost pieces that stand on the floor; none where they meet or one is the whole base. */
function outerLegs(scene: Scene, { view, pieces }: Projection): Legs | undefined {
  const floor = scene.extents?.from.z ?? 0;
  const [low, high] = endsOf(view);
  const standing = pieces
    .filter(({ piece }) => close(piece.from.z, floor))
    .map((piece) => (view === 'plan' ? piece : atFloor(piece)));
  const first = outermost(
    standing,
    (p) => p[low],
    (p) => p[high] - p[low],
  );
  const last = outermost(
    standing,
    (p) => -p[high],
    (p) => p[high] - p[low],
  );
  if (first === undefined || last === undefined || first[high] >= last[low]) return undefined;
  return { first, last };
}

/** A shaped piece as wide as it is on the floor: what splays or tapers is measured at its foot. */
function atFloor(piece: ViewPiece): ViewPiece {
  if (piece.outlines === undefined) return piece;
  const foot = piece.outlines
    .flat()
    .filter(([, y]) => close(y, piece.bottom))
    .map(([x]) => x);
  return { ...piece, left: Math.min(...foot), right: Math.max(...foot) };
}

/** The piece that reaches least far; of several, the slimmest, so that a back is no leg. */
function outermost(
  pieces: readonly ViewPiece[],
  reach: (p: ViewPiece) => number,
  width: (p: ViewPiece) => number,
): ViewPiece | undefined {
  const least = Math.min(...pieces.map(reach));
  return pieces
    .filter((p) => close(reach(p), least))
    .reduce<ViewPiece | undefined>(
      (best, p) => (best === undefined || width(p) < width(best) ? p : best),
      undefined,
    );
}

function sideReach({ bounds, pieces }: Projection, legs: Legs | undefined): Dimension[] {
  if (legs === undefined) return [];
  const edge = pieces.filter((p) => close(p.bottom, bounds.bottom)).map((p) => p.left);
  return [
    {
      key: CROSSWISE.overhang,
      side: 'left',
      from: bounds.bottom,
      to: legs.first.bottom,
      fromAnchor: Math.min(...edge),
      toAnchor: legs.first.left,
      must: false,
    },
  ];
}

function legSizes({ view, bounds, pieces }: Projection, legs: Legs | undefined): Dimension[] {
  if (legs === undefined) return [];
  const words = view === 'end' ? CROSSWISE : LENGTHWISE;
  const { first, last } = legs;
  const low = (side: 'left' | 'right'): number =>
    Math.min(...pieces.filter((p) => close(p[side], bounds[side])).map((p) => p.bottom));
  const row = { side: 'below', must: false } as const;
  const feet = { fromAnchor: first.bottom, toAnchor: last.bottom } as const;
  const sizes: Dimension[] = [
    {
      ...row,
      key: words.overhang,
      from: bounds.left,
      to: first.left,
      fromAnchor: low('left'),
      toAnchor: first.bottom,
    },
    { ...row, ...feet, key: words.between, from: first.right, to: last.left },
    { ...row, ...feet, key: words.leg, from: last.left, to: last.right },
  ];
  if (!close(first.left - bounds.left, bounds.right - last.right)) {
    sizes.push({
      ...row,
      key: words.farOverhang,
      from: last.right,
      to: bounds.right,
      fromAnchor: last.bottom,
      toAnchor: low('right'),
    });
  }
  return sizes;
}

function topThickness({ bounds, pieces }: Projection): Dimension[] {
  const tops = pieces.filter((p) => close(p.top, bounds.top));
  const top = tops.reduce<ViewPiece | undefined>(
    (best, p) => (best === undefined || p.right - p.left > best.right - best.left ? p : best),
    undefined,
  );
  if (top === undefined || close(top.bottom, bounds.bottom)) return [];
  const { left } = top;
  const ends = { from: top.bottom, to: top.top, fromAnchor: left, toAnchor: left };
  return [{ key: 'top thickness', side: 'left', must: false, ...ends }];
}

/**
 * From the upper end of the first leg to where it begins to taper, as it is marked out; its size at the floor is among
 * those of the legs. Only where it begins at one height on all sides seen here, below its upper end.
 */
function taperStart(legs: Legs | undefined): Dimension[] {
  const { first } = legs ?? {};
  if (first?.outlines === undefined) return [];
  const sides = sidesOf(first.outlines);
  const [foot, bend, head, ...others] = sides;
  if (foot === undefined || bend === undefined || head === undefined || others.length > 0)
    return [];
  const tapers = foot.left >= bend.left - SAME && foot.right <= bend.right + SAME;
  // Above where it begins its sides are upright; another bend would be of another cut.
  if (!tapers || !close(bend.left, head.left) || !close(bend.right, head.right)) return [];
  const x = close(foot.left, bend.left) ? bend.right : bend.left;
  const ends = { from: bend.level, to: head.level, fromAnchor: x, toAnchor: head.left };
  return [{ key: 'taper start', side: 'left', must: false, ...ends }];
}

/** How far a piece reaches to both sides at a height. */
interface Sides {
  readonly level: number;
  readonly left: number;
  readonly right: number;
}

/**
 * Both sides of a piece from its lower to its upper end, where they begin, bend and end. What covers it may meet within
 * it, as around a mortise: corners there are of no side.
 */
function sidesOf(outlines: readonly Outline[]): readonly Sides[] {
  const levels = outlines
    .flat()
    .map(([, y]) => y)
    .sort((a, b) => a - b)
    .filter((y, i, all) => i === 0 || !close(y, all[i - 1] ?? y));
  const sides = levels.map((level): Sides => {
    const at = outlines.flatMap((outline) => crossings(outline, level));
    return { level, left: Math.min(...at), right: Math.max(...at) };
  });
  const bends: Sides[] = [];
  for (const [i, here] of sides.entries()) {
    const [below, above] = [bends.at(-1), sides[i + 1]];
    if (below === undefined || above === undefined || !isOnTheWay(below, here, above)) {
      bends.push(here);
    }
  }
  return bends;
}

/** Whether both sides run straight through a height. */
function isOnTheWay(below: Sides, here: Sides, above: Sides): boolean {
  const share = (here.level - below.level) / (above.level - below.level);
  return (['left', 'right'] as const).every((side) =>
    close(here[side], below[side] + share * (above[side] - below[side])),
  );
}

/** Where an outline crosses a height. */
const crossings = (outline: Outline, level: number): readonly number[] =>
  outline.flatMap(([x, y], i) => {
    const [toX, toY] = outline[(i + 1) % outline.length] ?? [x, y];
    if (close(y, level)) return [x];
    if (close(toY, level) || y < level === toY < level) return [];
    return [x + ((level - y) / (toY - y)) * (toX - x)];
  });

/**
 * From the floor to the lowest underside in the upper half, in the widest opening below it: knee
 * room under an apron. A low stretcher stays out of it.
 */
function clearHeight({ bounds, pieces }: Projection): Dimension[] {
  const half = (bounds.bottom + bounds.top) / 2;
  const undersides = pieces.map((p) => p.bottom).filter((bottom) => bottom >= half);
  if (undersides.length === 0) return [];
  const underside = Math.min(...undersides);
  const above = pieces.filter((p) => close(p.bottom, underside));
  const below = pieces.filter((p) => p.bottom < underside - SAME);
  const free = subtractSpans(mergeSpans(above.map(across)), mergeSpans(below.map(across)));
  const widest = free.reduce<Span | undefined>(
    (best, span) => (best === undefined || span[1] - span[0] > best[1] - best[0] ? span : best),
    undefined,
  );
  if (widest === undefined) return [];
  return [
    {
      key: 'clear height',
      side: 'inside',
      from: bounds.bottom,
      to: underside,
      fromAnchor: widest[0],
      toAnchor: widest[0],
      must: false,
      opening: widest,
    },
  ];
}

const across = (p: ViewPiece): Span => [p.left, p.right];
