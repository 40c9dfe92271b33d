import { boxSolid, sectionOf, type Triple } from '@kerfbook/solids';
import type { Piece } from '../scene.ts';
import { mergeSpans, type Span } from '../spans.ts';
import { within } from '../templates/curve-templates.ts';
import type { Rectangle, Segment } from '../views.ts';
import type { Outline } from '../visible-face.ts';
import { onPaper, type PaperPlane } from './section-plane.ts';
import { dot } from './ways.ts';

/** The cut face of a piece on the paper, mm at full size. */
export interface CutFace {
  /** Convex polygons that fill it. */
  readonly areas: readonly Outline[];
  /** Its outline. */
  readonly lines: readonly Segment[];
  /** Corners of it that lie on a true curve: where facets of one curve meet. */
  readonly onCurves: Outline;
  /** Around it. */
  readonly bounds: Rectangle;
}

/** What a plane cuts a piece in; undefined where it passes it by. */
export function cutFaceOf({ solid, from, to }: Piece, plane: PaperPlane): CutFace | undefined {
  const whole = solid ?? boxSolid([from.x, from.y, from.z], [to.x, to.y, to.z]);
  const { areas, lines } = sectionOf(whole, plane);
  const curved = { ...whole, cells: [], facets: whole.facets.filter((facet) => facet.curved) };
  const onCurves = sectionOf(curved, plane).lines.flat();
  if (areas.length === 0) return undefined;
  const outlines = areas.map((points) => points.map((point) => onPaper(plane, point)));
  const segments = lines.map(([one, other]): Segment => {
    const [[x1, y1], [x2, y2]] = [onPaper(plane, one), onPaper(plane, other)];
    return { x1, y1, x2, y2 };
  });
  return {
    areas: outlines,
    lines: segments,
    onCurves: onCurves.map((point) => onPaper(plane, point)),
    bounds: boundsOf(outlines.flat()),
  };
}

/** The rectangle around points. */
export const boundsOf = (points: Outline): Rectangle => ({
  left: Math.min(...points.map(([x]) => x)),
  right: Math.max(...points.map(([x]) => x)),
  bottom: Math.min(...points.map(([, y]) => y)),
  top: Math.max(...points.map(([, y]) => y)),
});

/** Whether a plane passes through the box around a piece within a part of the paper. */
export function comesNear({ from, to }: Piece, plane: PaperPlane, room: Rectangle): boolean {
  const corners = [from.x, to.x].flatMap((x) =>
    [from.y, to.y].flatMap((y) => [from.z, to.z].map((z): Triple => [x, y, z])),
  );
  const away = corners.map((corner) => dot(plane.normal, corner) - plane.offset);
  if (Math.min(...away) >= 0 || Math.max(...away) < 0) return false;
  const { left, right, bottom, top } = boundsOf(corners.map((corner) => onPaper(plane, corner)));
  return left < room.right && right > room.left && bottom < room.top && top > room.bottom;
}

/** What of lines lies in a part of the paper. */
export const linesWithin = (lines: readonly Segment[], room: Rectangle): readonly Segment[] =>
  lines.flatMap((line) => within(line, room) ?? []);

/** Walls between the polygons of one face are no gaps, mm. */
const WALL = 1e-6;

/**
 * Where a line runs through convex polygons. The line is that of all points with a · x + b · y = at; a and b have
 * length 1 together.
 * @returns stretches along the way (-b, a)
 */
export function stretchesOn(
  areas: readonly Outline[],
  [a, b]: readonly [number, number],
  at: number,
): readonly Span[] {
  const spans = areas.flatMap((points): Span[] => {
    const away = points.map(([x, y]) => a * x + b * y - at);
    const found = points.flatMap(([x, y], index) => {
      const next = (index + 1) % points.length;
      const [here, there] = [away[index] ?? 0, away[next] ?? 0];
      if (here < 0 === there < 0) return [];
      const [nx, ny] = points[next] ?? [x, y];
      const share = here / (here - there);
      return [a * (y + (ny - y) * share) - b * (x + (nx - x) * share)];
    });
    if (found.length < 2) return [];
    return [[Math.min(...found) - WALL, Math.max(...found) + WALL]];
  });
  return mergeSpans(spans);
}

/** Wood along an upright or a level line: from where to where on its axis. */
export const woodOn = (areas: readonly Outline[], axis: 'x' | 'y', at: number): readonly Span[] =>
  axis === 'x'
    ? // The way along of y = at is (-1, 0): turned about.
      stretchesOn(areas, [0, 1], at)
        .map(([from, to]): Span => [0 - to, 0 - from])
        .reverse()
    : stretchesOn(areas, [1, 0], at);

const DIAGONAL = Math.SQRT1_2;

/**
 * Hatching of a cut face: thin lines at 45° (ISO 128-44 and -50, from memory), rising to the right or to the left.
 * @param apart mm from line to line
 */
export function hatching(
  areas: readonly Outline[],
  rises: 'right' | 'left',
  apart: number,
  room: Rectangle,
): readonly Segment[] {
  const [a, b] = rises === 'right' ? [0 - DIAGONAL, DIAGONAL] : [DIAGONAL, DIAGONAL];
  const corners = [room.left, room.right].flatMap((x) =>
    [room.bottom, room.top].map((y) => a * x + b * y),
  );
  const lines: Segment[] = [];
  const last = Math.floor(Math.max(...corners) / apart);
  for (let line = Math.ceil(Math.min(...corners) / apart); line <= last; line++) {
    const at = line * apart;
    for (const [from, to] of stretchesOn(areas, [a, b], at)) {
      const part = within(
        {
          x1: a * at - b * from,
          y1: b * at + a * from,
          x2: a * at - b * to,
          y2: b * at + a * to,
        },
        room,
      );
      if (part !== undefined) lines.push(part);
    }
  }
  return lines;
}
