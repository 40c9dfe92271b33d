import type { Arrow } from '../layout.ts';
import { PAPER } from '../paper.ts';
import type { Curve } from '../shapes/true-curves.ts';
import type { Segment } from '../views.ts';
import { LAYERS, type LayerName } from './layers.ts';
import { type Handles, plainText, point, real, type Tag, text, whole } from './tags.ts';

/** Turns points of a view, in mm, into those of the file: moved to the view's place, in its unit. */
export interface Placement {
  /** Units of the file to a millimetre. */
  readonly scale: number;
  /** mm */
  readonly dx: number;
  readonly dy: number;
}

export const placed = ({ scale, dx, dy }: Placement, x: number, y: number): [number, number] => [
  (x + dx) * scale,
  (y + dy) * scale,
];

/** What entities are written into: the model's space or the block of a dimension. */
export interface Space {
  readonly handles: Handles;
  /** Handle of the record of the block they belong to. */
  readonly owner: string;
  readonly placement: Placement;
}

export function entity(
  kind: string,
  layer: LayerName,
  { handles, owner }: Pick<Space, 'handles' | 'owner'>,
): Tag[] {
  return [
    text(0, kind),
    text(5, handles.take()),
    text(330, owner),
    text(100, 'AcDbEntity'),
    text(8, LAYERS[layer].name),
  ];
}

export const lines = (segments: readonly Segment[], layer: LayerName, space: Space): Tag[] =>
  segments.flatMap(({ x1, y1, x2, y2 }) => [
    ...entity('LINE', layer, space),
    text(100, 'AcDbLine'),
    ...point(10, ...placed(space.placement, x1, y1)),
    ...point(11, ...placed(space.placement, x2, y2)),
  ]);

/** Circles, and parts of them, as what they are; what is drawn out as an ellipse. */
export const curves = (all: readonly Curve[], layer: LayerName, space: Space): Tag[] =>
  all.flatMap((curve) => {
    const { x, y, major, minor, turn, from, to } = curve;
    const { scale } = space.placement;
    const middle = point(10, ...placed(space.placement, x, y));
    const isWhole = to - from >= 2 * Math.PI;
    if (major !== minor) {
      return [
        ...entity('ELLIPSE', layer, space),
        text(100, 'AcDbEllipse'),
        ...middle,
        ...point(11, major * Math.cos(turn) * scale, major * Math.sin(turn) * scale),
        real(40, minor / major),
        real(41, isWhole ? 0 : wrapped(from)),
        real(42, isWhole ? 2 * Math.PI : wrapped(to)),
      ];
    }
    const circle = [text(100, 'AcDbCircle'), ...middle, real(40, major * scale)];
    if (isWhole) return [...entity('CIRCLE', layer, space), ...circle];
    return [
      ...entity('ARC', layer, space),
      ...circle,
      text(100, 'AcDbArc'),
      real(50, (wrapped(from) * 180) / Math.PI),
      real(51, (wrapped(to) * 180) / Math.PI),
    ];
  });

/** An angle from 0 up to a full turn, radians. */
const wrapped = (angle: number): number => {
  const turns = angle / (2 * Math.PI);
  return (turns - Math.floor(turns)) * 2 * Math.PI;
};

interface Written {
  readonly text: string;
  /** mm */
  readonly x: number;
  readonly y: number;
  readonly height: number;
  readonly upright?: boolean;
  readonly from?: 'left' | 'middle';
}

export function writing(
  { text: says, x, y, height, upright = false, from = 'middle' }: Written,
  layer: LayerName,
  space: Space,
): Tag[] {
  const at = placed(space.placement, x, y);
  return [
    ...entity('TEXT', layer, space),
    text(100, 'AcDbText'),
    ...point(10, ...at),
    real(40, height * space.placement.scale),
    text(1, plainText(says)),
    real(50, upright ? 90 : 0),
    text(7, 'Standard'),
    whole(72, from === 'middle' ? 1 : 0),
    ...(from === 'middle' ? point(11, ...at) : []),
    text(100, 'AcDbText'),
  ];
}

/** A filled arrowhead. @param unit mm for one paper unit */
export function arrowhead(
  { x, y, points }: Arrow,
  unit: number,
  layer: LayerName,
  space: Space,
): Tag[] {
  const back = (points === 'left' || points === 'down' ? 1 : -1) * PAPER.arrow * unit;
  const half = PAPER.arrowHalf * unit;
  const level = points === 'left' || points === 'right';
  const corner = (side: number): [number, number] =>
    level
      ? placed(space.placement, x + back, y + side * half)
      : placed(space.placement, x + side * half, y + back);
  const tip = placed(space.placement, x, y);
  return [
    ...entity('SOLID', layer, space),
    text(100, 'AcDbTrace'),
    ...point(10, ...tip),
    ...point(11, ...corner(1)),
    ...point(12, ...corner(-1)),
    ...point(13, ...corner(-1)),
  ];
}
