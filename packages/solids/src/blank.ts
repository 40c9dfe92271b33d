import type { Face } from './faces.ts';
import type { Faceting } from './faceting.ts';
import { type Loop, loopOf, type Outline } from './outline.ts';
import { type Frame, prism, rectangle } from './prism.ts';
import { size } from './problem.ts';
import type { Skins } from './skins.ts';
import type { Convex, Triple } from './types.ts';
import { X, Y, Z } from './vectors.ts';

/** What a piece is made from, in its own frame: from 0 along its length (x), width (y) and thickness (z). */
export type Blank =
  | {
      readonly kind: 'box';
      readonly length: number;
      readonly width: number;
      readonly thickness: number;
    }
  | {
      /** An outline that goes straight through the piece. */
      readonly kind: 'prism';
      readonly outline: Outline;
      /** How far it goes through, mm. */
      readonly through: number;
      /**
       * Which way it goes: through the thickness as in a round top (when left out), or along the length as in a
       * rod, whose outline then lies in width and thickness.
       */
      readonly along?: 'thickness' | 'length';
    };

/** What is known of a shape by formula, of the true curves, mm³, mm² and mm. */
export interface Exact {
  /** Volume, mm³. */
  readonly volume: number;
  /** Area of all its faces, mm²; undefined where no formula tells it. */
  readonly area: number | undefined;
  /** Its middle by weight. */
  readonly centroid: Triple;
}

/** A blank as a body. */
export interface MadeBlank {
  readonly body: Convex;
  /** The box around it: length, width and thickness. */
  readonly size: Triple;
  readonly exact: Exact;
}

const SIDES: readonly Face[] = ['front', 'end', 'back', 'start'];
const ORIGIN: Triple = [0, 0, 0];
const LYING: Frame = { origin: ORIGIN, u: X, v: Y, w: Z };
const ALONG: Frame = { origin: ORIGIN, u: Y, v: Z, w: X };

/** Makes a blank. */
export function blankOf(blank: Blank, faceting: Faceting, skins: Skins): MadeBlank {
  if (blank.kind === 'box') return boxOf(blank, skins);
  const through = size('thickness', blank.through);
  const loop = loopOf(blank.outline, faceting);
  const isRod = blank.along === 'length';
  const runs = facesOfRuns(blank.outline, isRod);
  const body = prism(loop, isRod ? ALONG : LYING, [0, through], skins, {
    low: isRod ? 'start' : 'bottom',
    high: isRod ? 'end' : 'top',
    ...(runs === undefined ? {} : { runs }),
  });
  const wide = Math.max(...loop.points.map(([x]) => x));
  const deep = Math.max(...loop.points.map(([, y]) => y));
  return {
    body,
    size: isRod ? [through, wide, deep] : [wide, deep, through],
    exact: exactOf(loop, through, isRod),
  };
}

function boxOf(
  { length, width, thickness }: Extract<Blank, { kind: 'box' }>,
  skins: Skins,
): MadeBlank {
  const [l, w, t] = [size('length', length), size('width', width), size('thickness', thickness)];
  return {
    body: prism(rectangle([0, 0], [l, w]), LYING, [0, t], skins, {
      low: 'bottom',
      high: 'top',
      runs: SIDES,
    }),
    size: [l, w, t],
    exact: {
      volume: l * w * t,
      area: 2 * (l * w + l * t + w * t),
      centroid: [l / 2, w / 2, t / 2],
    },
  };
}

/** The flats of a rectangle with rounded corners are faces of the blank. */
function facesOfRuns(outline: Outline, isRod: boolean): readonly (Face | undefined)[] | undefined {
  if (outline.kind !== 'rounded') return undefined;
  const sides: readonly Face[] = isRod ? ['bottom', 'back', 'top', 'front'] : SIDES;
  return sides.flatMap((face) => [face, undefined]);
}

function exactOf({ area, around, middle: [x, y] }: Loop, through: number, isRod: boolean): Exact {
  return {
    volume: area * through,
    area: around === undefined ? undefined : 2 * area + around * through,
    centroid: isRod ? [through / 2, x, y] : [x, y, through / 2],
  };
}
