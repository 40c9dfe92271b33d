import type { ParallelView } from './parallel.ts';
import { frameOf, unitFor } from './parallel-svg.ts';
import { shadeClass, shadeOfFace } from './shade.ts';
import type { Panel } from './sheet.ts';
import { escapeText } from './svg-text.ts';
import type { Segment } from './views.ts';
import type { Outline } from './visible-face.ts';
import { woodGrain } from './wood-grain.ts';
import { woodTone } from './wood-tone.ts';

/** Corners of a face nearer to each other than this are one, in pixels: an eye cannot tell them apart. */
const NEAR = 0.4;

/**
 * A parallel projection as a small SVG for a card, a user unit 1 pixel: without the words of its parts, and with no
 * more corners than its size shows.
 * @param says what it shows, for those who do not see it
 */
export function cardSvg(view: ParallelView, panel: Panel, says: string): string {
  const unit = unitFor(view.bounds, panel);
  const frame = frameOf(view.bounds, panel, unit);
  const x = (mm: number): string => short((mm - frame.left) / unit);
  const y = (mm: number): string => short((frame.top - mm) / unit);
  const grain = woodGrain(view, unit);
  const outline = (corners: Outline): string =>
    `M${thinned(corners, NEAR * unit)
      .map(([across, up]) => `${x(across)} ${y(up)}`)
      .join('L')}Z`;
  const line = (kind: string, segments: readonly Segment[]): string =>
    segments.length === 0
      ? ''
      : `<path class="${kind}" vector-effect="non-scaling-stroke" d="${chained(segments, NEAR * unit, x, y)}"/>`;
  const pieces = view.pieces.flatMap(({ piece, faces }) => {
    if (faces.length === 0) return [];
    const drawn = faces.map(
      (face) =>
        `<path class="kb-face ${shadeClass(shadeOfFace(face, view.eye))}" d="${face.outlines.map(outline).join('')}"/>`,
    );
    return [`<g class="kb-wood-${woodTone(piece.part.material)}">${drawn.join('')}</g>`];
  });
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" class="kb-drawing kb-parallel" role="img" aria-label="${escapeText(says)}" viewBox="0 0 ${short((frame.right - frame.left) / unit)} ${short((frame.top - frame.bottom) / unit)}">`,
    ...pieces,
    '<g class="kb-lines" fill="none" stroke="currentColor">',
    line('kb-rings', grain.rings),
    line('kb-fibre', grain.along),
    line('kb-joint', grain.joints),
    line('kb-outline', view.visible),
    '</g></svg>',
  ].join('');
}

const short = (value: number): string => String(Math.round(value * 10) / 10 || 0);

/** An outline without the corners that lie too near to the one before; never fewer than three. */
function thinned(corners: Outline, near: number): Outline {
  const kept = corners.filter(onceApart(near));
  return kept.length < 3 ? corners : kept;
}

/** Keeps what lies far enough from what was kept last. */
function onceApart(near: number): (corner: Outline[number]) => boolean {
  let last: Outline[number] | undefined;
  return (corner) => {
    if (last !== undefined && Math.hypot(corner[0] - last[0], corner[1] - last[1]) < near) {
      return false;
    }
    last = corner;
    return true;
  };
}

/** Lines as one path: those that go on where the last ended are drawn on, and short ones of such a chain fall together. */
function chained(
  segments: readonly Segment[],
  near: number,
  x: (mm: number) => string,
  y: (mm: number) => string,
): string {
  let path = '';
  // Where the pen is on the paper, and where it would be if nothing had been left out.
  let drawn = { x: Number.NaN, y: Number.NaN };
  let at = drawn;
  const lineTo = (to: { readonly x: number; readonly y: number }): void => {
    path += `L${x(to.x)} ${y(to.y)}`;
    drawn = to;
  };
  for (const { x1, y1, x2, y2 } of segments) {
    if (x1 !== at.x || y1 !== at.y) {
      if (at !== drawn) lineTo(at);
      path += `M${x(x1)} ${y(y1)}`;
      drawn = { x: x1, y: y1 };
    }
    at = { x: x2, y: y2 };
    if (Math.hypot(x2 - drawn.x, y2 - drawn.y) >= near) lineTo(at);
  }
  if (at !== drawn && !Number.isNaN(at.x)) lineTo(at);
  return path;
}
