import { anglesOfEnds } from './end-angles.ts';
import { gazeOf } from './eye.ts';
import type { Label } from './layout.ts';
import { PAPER, textWidth } from './paper.ts';
import { paperOf } from './paper-lines.ts';
import type { Piece } from './scene.ts';
import { rimOf } from './shapes/silhouette.ts';
import { SQUARE_ON } from './shapes/square-on.ts';
import { type Curve, cornersOnCurves, trueLines } from './shapes/true-curves.ts';
import { within } from './templates/curve-templates.ts';
import type { Format } from './units.ts';
import type { Projection, Rectangle, Segment, View, ViewPiece } from './views.ts';

type Spot = readonly [number, number];

/** A size that no dimension line takes: of something round, of an arch, of a splay. */
export interface Callout {
  /** What it measures; each is shown in one view only. */
  readonly key: string;
  /** As ISO 129-1 writes it: Ø and R before a size, ° behind an angle. */
  readonly says: (format: Format) => string;
  /** Where its arrow points, or an angle has its corner; mm on the paper at full size. */
  readonly at: Spot;
  /** Of an arrow, away from the wood; of an angle, the way of its slanting side: length 1. */
  readonly way: Spot;
  /** An angle lies between that way and `base`, or the upright. */
  readonly isAngle: boolean;
  /** The other side of an angle: length 1. */
  readonly base?: Spot;
}

/** A callout in its place. */
export interface PlacedCallout {
  /** What it is. */
  readonly key: string;
  /** Leader, arrowhead and the sides of an angle, mm. */
  readonly lines: readonly Segment[];
  /** Its writing. */
  readonly label: Label;
}

/** A view has room for no more. */
const MOST = 10;
/** An arc that sweeps about a quarter turn is a rounded corner, one of less an arch; radians. */
const QUARTER = [1.4, 1.75] as const;
/** What is smaller on its chord is no arch that is sawn, mm. */
const LEAST_CHORD = 60;
/** Splays that are told, degrees. */
const SPLAY = [0.5, 45] as const;

/** Sizes of what is round or leans, each in the first view that shows it. */
export function chooseCallouts(
  projections: readonly Projection[],
): ReadonlyMap<View, readonly Callout[]> {
  const told = new Set<string>();
  const chosen = new Map<View, readonly Callout[]>();
  for (const projection of projections) {
    const fresh: Callout[] = [];
    // The nearest first: what stands before the others is what one looks at.
    for (const shown of [...projection.pieces].reverse()) {
      const own = [
        ...roundsOf(shown, projection),
        ...leansOf(shown, projection),
        ...anglesOfEnds(shown.piece, projection.view).filter(({ at }) =>
          isOnLine(at, projection.visible),
        ),
      ];
      for (const callout of own) {
        if (told.has(callout.key) || fresh.length === MOST) continue;
        told.add(callout.key);
        fresh.push(callout);
      }
    }
    chosen.set(projection.view, fresh);
  }
  return chosen;
}

function roundsOf({ piece, outlines }: ViewPiece, projection: Projection): Callout[] {
  if (outlines === undefined) return [];
  const corners = cornersOnCurves([piece], SQUARE_ON[projection.view]);
  const { curves } = trueLines(rimOf(outlines), corners);
  return curves.flatMap((curve) => {
    const size = curve.major === curve.minor ? sizeOf(curve) : undefined;
    if (size === undefined) return [];
    const spots = [0.5, 0.35, 0.65, 0.2, 0.8].map((share) => onCurve(curve, share));
    const seen = spots.find((spot) => isOnLine(spot, projection.visible));
    if (seen === undefined) return [];
    const { at, way } = awayFrom(curve, seen);
    const key = `${piece.part.name} ${size.name} ${Math.round(curve.major * 100)}`;
    // Told by its dimension line already.
    if (size.name === 'diameter' && isOverall(curve, projection.bounds)) return [];
    return [{ key, says: size.says, at, way, isAngle: false }];
  });
}

function sizeOf({
  major,
  from,
  to,
}: Curve): { readonly name: string; readonly says: Callout['says'] } | undefined {
  const swept = to - from;
  if (swept >= 2 * Math.PI) return { name: 'diameter', says: (format) => `Ø${format(2 * major)}` };
  if (swept > QUARTER[0] && swept < QUARTER[1]) {
    return { name: 'radius', says: (format) => `R${format(major)}` };
  }
  if (swept >= Math.PI || 2 * major * Math.sin(swept / 2) < LEAST_CHORD) return undefined;
  const rise = major * (1 - Math.cos(swept / 2));
  return {
    name: 'arch',
    says: (format) => `R${format(major)}, rise ${format(rise)}`,
  };
}

const onCurve = ({ x, y, major, from, to }: Curve, share: number): Spot => {
  const angle = from + share * (to - from);
  return [x + major * Math.cos(angle), y + major * Math.sin(angle)];
};

const awayFrom = ({ x, y, major }: Curve, at: Spot): Pick<Callout, 'at' | 'way'> => ({
  at,
  way: [(at[0] - x) / major, (at[1] - y) / major],
});

/** Nearer to a line than this, a spot of a curve is on it: its chords lie as far within, mm. */
const ON_LINE = 0.3;

const isOnLine = ([x, y]: Spot, lines: readonly Segment[]): boolean =>
  lines.some(({ x1, y1, x2, y2 }) => {
    const [dx, dy] = [x2 - x1, y2 - y1];
    const along = ((x - x1) * dx + (y - y1) * dy) / (dx * dx + dy * dy);
    const share = Math.max(0, Math.min(1, along));
    return Math.hypot(x1 + share * dx - x, y1 + share * dy - y) < ON_LINE;
  });

const isOverall = ({ x, y, major }: Curve, { left, right, bottom, top }: Rectangle): boolean =>
  [x - major - left, x + major - right, y - major - bottom, y + major - top].every(
    (off) => Math.abs(off) < 0.01,
  );

function leansOf({ piece, outlines }: ViewPiece, { view, visible }: Projection): Callout[] {
  const way = view === 'plan' || outlines === undefined ? undefined : upwards(piece, view);
  if (way === undefined) return [];
  const degrees = Math.abs((Math.atan2(way[0], way[1]) * 180) / Math.PI);
  if (degrees < SPLAY[0] || degrees > SPLAY[1]) return [];
  const at = footOf(outlines ?? []);
  if (!isOnLine(at, visible)) return [];
  const shown = Math.round(degrees * 10) / 10;
  const key = `${piece.part.name} splay ${view} ${shown}`;
  return [{ key, says: () => `${shown}°`, at, way, isAngle: true }];
}

/** The way its length goes up on the paper; undefined where it is seen end on or lies level. */
function upwards({ stands }: Piece, view: View): Spot | undefined {
  if (stands === undefined) return undefined;
  const [x, y] = paperOf(stands.axes[0], gazeOf(SQUARE_ON[view]));
  const length = Math.hypot(x, y);
  if (length < 0.5 || Math.abs(y) < 1e-6) return undefined;
  const sign = y < 0 ? -1 : 1;
  return [(sign * x) / length, (sign * y) / length];
}

/** The lowest spot of an outline; of several, the one in their middle. */
function footOf(outlines: readonly (readonly Spot[])[]): Spot {
  const spots = outlines.flat();
  const low = Math.min(...spots.map(([, y]) => y));
  const across = spots.filter(([, y]) => y < low + 0.01).map(([x]) => x);
  return [(Math.min(...across) + Math.max(...across)) / 2, low];
}

/** Turns of an arrow's leader from straight away, degrees, and its lengths in paper units. */
const TURNS = [0, 30, -30, 60, -60, 180, 150, -150, 120, -120, 90, -90];
const LENGTHS = [16, 26, 38, 54, 74];
/** Of an angle: how far from its corner it is drawn, paper units. */
const RADII = [60, 44, 80, 100];
/** Of an angle at the end of a piece, which is no longer than the piece is wide. */
const RADII_AT_ENDS = [26, 36, 50];
/** What is written keeps so far off lines, paper units. */
const OFF = 2;
const BARB = 6;

interface Surroundings {
  /** Lines that nothing may be written over, mm. */
  readonly lines: readonly Segment[];
  /** What is written already. */
  readonly labels: readonly Label[];
  /** What is written has to lie in it, mm. */
  readonly room: Rectangle;
  readonly format: Format;
  /** mm for one paper unit. */
  readonly unit: number;
}

/** Puts callouts where nothing is written over; one that finds no such place is left out. */
export function placeCallouts(
  callouts: readonly Callout[],
  surroundings: Surroundings,
): PlacedCallout[] {
  const placed: PlacedCallout[] = [];
  for (const callout of callouts) {
    const labels = [...surroundings.labels, ...placed.map(({ label }) => label)];
    const lines = [...surroundings.lines, ...placed.flatMap((one) => one.lines)];
    const tries = callout.isAngle
      ? anglesOf(callout, surroundings)
      : leadersOf(callout, surroundings);
    const found = tries.find((one) => isClear(one, { ...surroundings, labels, lines }));
    if (found !== undefined) placed.push(found);
  }
  return placed;
}

const written = (text: string, unit: number) => ({
  text,
  wide: textWidth(text, PAPER.text) * unit,
  tall: PAPER.text * unit,
});

function leadersOf(
  { key, says, at, way }: Callout,
  { format, unit }: Surroundings,
): PlacedCallout[] {
  const { text, wide, tall } = written(says(format), unit);
  return LENGTHS.flatMap((long) =>
    TURNS.map((turn) => {
      const [dx, dy] = turned(way, turn);
      const end: Spot = [at[0] + dx * long * unit, at[1] + dy * long * unit];
      const gap = 2 * unit;
      const left = dx >= 0 ? end[0] + gap : end[0] - gap - wide;
      return {
        key,
        lines: [{ x1: at[0], y1: at[1], x2: end[0], y2: end[1] }, ...barbs(at, [dx, dy], unit)],
        label: labelAt(key, text, left, end[1] - tall / 2, wide, tall),
      };
    }),
  );
}

function anglesOf(
  { key, says, at, way, base = UPRIGHT }: Callout,
  { format, unit }: Surroundings,
): PlacedCallout[] {
  const { text, wide, tall } = written(says(format), unit);
  const first = Math.atan2(base[0], base[1]);
  const turn = Math.atan2(way[0], way[1]) - first;
  // The short way round from the one side to the other.
  const lean = turn - 2 * Math.PI * Math.round(turn / (2 * Math.PI));
  const spot = (angle: number, far: number): Spot => [
    at[0] + far * Math.sin(angle),
    at[1] + far * Math.cos(angle),
  ];
  const radii = base === UPRIGHT ? RADII : RADII_AT_ENDS;
  return radii.flatMap((radius) => {
    const far = radius * unit;
    const middle = base === UPRIGHT ? [] : BETWEEN;
    // Outside of the upright, where it leans away, or beyond its slanting side; at an end between both sides too.
    const placeOf = (side: number): Spot => {
      if (Math.abs(side) > 1) {
        const [x, y] = spot(first + lean / 2, far + side * unit);
        return [x - wide / 2, y - tall / 2];
      }
      const beyond = side === 1 ? way : base;
      const outward = (side * Math.sign(lean) || 1) * (base[1] + way[1] < 0 ? -1 : 1);
      const edge = at[0] + beyond[0] * far;
      const up = base === UPRIGHT ? far : beyond[1] * far;
      return [outward > 0 ? edge + 4 * unit : edge - 4 * unit - wide, at[1] + up - tall / 2];
    };
    return [-1, 1, ...middle].map((side) => {
      const steps = 6;
      const arc = Array.from({ length: steps }, (_, k): Segment => {
        const [x1, y1] = spot(first + (lean * k) / steps, far);
        const [x2, y2] = spot(first + (lean * (k + 1)) / steps, far);
        return { x1, y1, x2, y2 };
      });
      const reach = far + 8 * unit;
      const sides = [base, way].map(([dx, dy]) => ({
        x1: at[0],
        y1: at[1],
        x2: at[0] + dx * reach,
        y2: at[1] + dy * reach,
      }));
      return {
        key,
        lines: [...sides, ...arc],
        label: labelAt(key, text, ...placeOf(side), wide, tall),
      };
    });
  });
}

/** How far past the arc an angle is written between its sides, paper units. */
const BETWEEN = [14, 24, 36];
const UPRIGHT: Spot = [0, 1];

const labelAt = (
  key: string,
  text: string,
  left: number,
  bottom: number,
  wide: number,
  tall: number,
): Label => ({
  key,
  text,
  x: left + wide / 2,
  // Letters without tails stand on their line: their middle is that of the place.
  y: bottom + tall * 0.14,
  upright: false,
  box: { left, right: left + wide, bottom, top: bottom + tall },
});

const turned = ([x, y]: Spot, degrees: number): Spot => {
  const turn = (degrees * Math.PI) / 180;
  return [x * Math.cos(turn) - y * Math.sin(turn), x * Math.sin(turn) + y * Math.cos(turn)];
};

/** The head of a leader, its tip at a spot and its barbs along the leader. */
const barbs = (at: Spot, way: Spot, unit: number): Segment[] =>
  [14, -14].map((turn) => {
    const [dx, dy] = turned(way, turn);
    return {
      x1: at[0],
      y1: at[1],
      x2: at[0] + dx * BARB * unit,
      y2: at[1] + dy * BARB * unit,
    };
  });

function isClear(
  { label, lines: own }: PlacedCallout,
  { lines, labels, room, unit }: Surroundings,
): boolean {
  const { left, right, bottom, top } = label.box;
  if (left < room.left || right > room.right || bottom < room.bottom || top > room.top)
    return false;
  const off = OFF * unit;
  const around = {
    left: left - off,
    right: right + off,
    bottom: bottom - off,
    top: top + off,
  };
  if (lines.some((line) => within(line, around) !== undefined)) return false;
  return labels.every(
    ({ box }) =>
      (box.left >= around.right ||
        box.right <= around.left ||
        box.bottom >= around.top ||
        box.top <= around.bottom) &&
      own.every((line) => within(line, box) === undefined),
  );
}
