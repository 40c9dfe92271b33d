import {
  colourOf,
  outlinesPath,
  overAllOf,
  type ParallelView,
  type Part,
  pathOf,
  type SeenPiece,
  type Segment,
  shadeClass,
  woodTone,
} from '@kerfbook/drawing';
import { type BuiltStep, partsByName, partsNamed } from '../steps/built.ts';
import { plainText } from '../text/runs.ts';
import type { Figure } from './figure.ts';
import { type Named, placeNames, spokenNames, writeNames } from './names.ts';
import { asItIsThen } from './not-yet.ts';
import { measureLines, partCounted, sizeLines, unitOf, writer } from './part-lines.ts';
import { FIGURE, n, Picture, type Spot } from './picture.ts';
import type { Rectangle, Stage } from './stage.ts';
import { linesOfOutlines } from './true-lines.ts';

/** The thing itself is drawn no higher than this, in units. */
const HIGH = 190;
/** A part of which less than this share is in view, is looked at through what stands before it. */
const LEAST_SEEN = 0.2;

/** A piece of which less than this share of the best one is seen is not pointed at. */
const WORTH_POINTING = 0.3;

/** Of the finished piece no more parts are named. */
const MOST_NAMED = 14;

type Outlines = SeenPiece['faces'][number]['outlines'];

/** Units of the figure for a mm of the finished piece. */
const scaleOf = ({ left, right, top, bottom }: Rectangle): number =>
  Math.min(
    (FIGURE.wide - 2 * FIGURE.edge) / Math.max(right - left, 1e-6),
    HIGH / Math.max(top - bottom, 1e-6),
  );

/**
 * What a step puts on, in the tone of its wood, on what stands so far. `assembly: Post` shows parts that stand there
 * already, such as those that one lifts it by.
 */
export function assemblyFigure(stage: Stage, step: BuiltStep): Figure | string {
  if (step.figure.of !== undefined) return namedFigure(stage, step, step.figure.of);
  const then = asItIsThen(stage, step);
  return builtFigure(then.stage, then.step);
}

function builtFigure(stage: Stage, step: BuiltStep): Figure | string {
  const { before, now, both } = stage.piecesAt(step);
  const first = stage.plan.steps.every(
    ({ number, parts }) => number > step.number || parts.length === 0,
  );
  // At the very beginning there is nothing to show but what it will be.
  const standing = first ? stage.scene.pieces : both;
  const lines = sizeLines(stage.source, step, stage.format);
  const bounds = stage.bounds;
  const view = stage.view(standing);
  if (bounds === undefined || view === undefined) return listFigure(stage, step, lines);
  const through = isHidden(view, stage.view(now), step);
  const shown = through ? stage.view(now) : view;
  const quiet = through ? stage.view(before) : view;
  const fresh = (shown?.pieces ?? []).filter(({ piece }) => stage.isNew(piece, step));
  const scale = scaleOf(bounds);
  const names = namesOf(step, fresh, bounds, scale);
  const picture = new Picture(stage.speak);
  const placed = placeNames(spokenNames(picture, names), {
    wide: (bounds.right - bounds.left) * scale,
    high: (bounds.top - bounds.bottom) * scale,
    lines: (quiet?.visible ?? []).map((line) => scaled(line, bounds, scale)),
  });
  const { shrink, left, top } = placed;
  const factor = scale * shrink;
  const x = left - bounds.left * factor;
  const y = top + bounds.top * factor;
  picture.add(
    [
      `<g transform="translate(${n(x)} ${n(y)}) scale(${Number(factor.toPrecision(6))})">`,
      lineOf('kb-quiet', quiet?.visible ?? []),
      ...fresh.map((seen) => pieceDrawn(seen, shown?.visible ?? [], stage)),
      '</g>',
    ].join('\n'),
    placed.bottom,
  );
  writeNames(picture, placed.names);
  picture.beneath(lines);
  const title = plainText(step.title);
  return {
    svg: picture.svg(title, stage.options.print),
    says: saysOf(stage, step, first, before.length, lines),
    ...(through
      ? { caption: 'What was built before is drawn as if you could see through it.' }
      : {}),
  };
}

/** The same upside down: a base that is set on its top, which lies face down. */
export function turnedOverFigure(stage: Stage, step: BuiltStep): Figure | string {
  const figure = assemblyFigure(stage.turnedOver(), step);
  if (typeof figure === 'string') return figure;
  const caption = ['Drawn upside down, as it lies now.', figure.caption].filter(Boolean).join(' ');
  return { ...figure, says: `Upside down: ${figure.says}`, caption };
}

/** The finished piece, each part that is seen with its name as the plan calls it, and its size over all. */
export function partsFigure(stage: Stage, step: BuiltStep): Figure | string {
  const { bounds } = stage;
  const { pieces, extents } = stage.scene;
  const view = stage.view(pieces);
  const lines = sizeLines(stage.source, { ...step, parts: [] }, stage.format);
  if (bounds === undefined || view === undefined || extents === undefined) {
    return listFigure(stage, { ...step, parts: stage.plan.parts.parts }, lines);
  }
  const scale = scaleOf(bounds);
  const all = [...new Set(pieces.map(({ part }) => part))];
  const named = namesOf({ ...step, parts: all }, view.pieces, bounds, scale).slice(0, MOST_NAMED);
  const picture = new Picture(stage.speak);
  const placed = placeNames(spokenNames(picture, named), {
    wide: (bounds.right - bounds.left) * scale,
    high: (bounds.top - bounds.bottom) * scale,
    lines: view.visible.map((line) => scaled(line, bounds, scale)),
  });
  const factor = scale * placed.shrink;
  picture.add(
    [
      `<g transform="translate(${n(placed.left - bounds.left * factor)} ${n(placed.top + bounds.top * factor)}) scale(${Number(factor.toPrecision(6))})">`,
      ...view.pieces.map((seen) => pieceDrawn(seen, view.visible, stage)),
      '</g>',
    ].join('\n'),
    placed.bottom,
  );
  writeNames(picture, placed.names);
  const { x, y, z } = overAllOf(stage.source, extents);
  const over = [x, y, z].map(writer(stage.format));
  const told = [`Over all: ${over.join(' × ')} ${unitOf(stage.source)}`, ...lines];
  picture.beneath(told);
  return {
    svg: picture.svg(plainText(step.title), stage.options.print),
    says: `The finished piece: ${all.map(partCounted).join(', ')}. ${told.map((one) => `${one}.`).join(' ')}`,
  };
}

/** Parts that are named, in the tone of their wood, among all that stands by then. */
function namedFigure(stage: Stage, step: BuiltStep, of: string): Figure | string {
  const asked = partsNamed(
    of.split(',').map((one) => one.trim()),
    partsByName(stage.plan.parts),
  ).parts;
  const { both } = stage.piecesAt(step);
  const last = stage.plan.steps.every(
    ({ number, parts }) => number <= step.number || parts.length === 0,
  );
  const all = last ? stage.scene.pieces : both;
  const isAsked = ({ part }: (typeof all)[number]): boolean => asked.includes(part);
  const standing = [
    ...all,
    ...stage.scene.pieces.filter((one) => isAsked(one) && !all.includes(one)),
  ];
  const alone = stage.view(standing.filter(isAsked));
  const { bounds } = stage;
  if (bounds === undefined || alone === undefined || asked.length === 0) {
    return 'its figure shows parts among what stands, and none of them has a place. Write their names after the colon, as the parts table has them.';
  }
  const told = { ...step, parts: [] };
  const lines = sizeLines(stage.source, told, stage.format);
  const view = stage.view(standing);
  const through = view === undefined || isHidden(view, alone, { ...step, parts: asked });
  const shown = through ? alone : view;
  const quiet = through ? stage.view(standing.filter((one) => !isAsked(one))) : view;
  const fresh = shown.pieces.filter(({ piece }) => isAsked(piece));
  const scale = scaleOf(bounds);
  const picture = new Picture(stage.speak);
  const names = namesOf({ ...step, parts: asked }, fresh, bounds, scale);
  const placed = placeNames(spokenNames(picture, names), {
    wide: (bounds.right - bounds.left) * scale,
    high: (bounds.top - bounds.bottom) * scale,
    lines: (quiet?.visible ?? []).map((line) => scaled(line, bounds, scale)),
  });
  const factor = scale * placed.shrink;
  picture.add(
    [
      `<g transform="translate(${n(placed.left - bounds.left * factor)} ${n(placed.top + bounds.top * factor)}) scale(${Number(factor.toPrecision(6))})">`,
      lineOf('kb-quiet', quiet?.visible ?? []),
      ...fresh.map((seen) => pieceDrawn(seen, shown.visible, stage)),
      '</g>',
    ].join('\n'),
    placed.bottom,
  );
  writeNames(picture, placed.names);
  picture.beneath(lines);
  return {
    svg: picture.svg(plainText(step.title), stage.options.print),
    says: `${asked.map(partCounted).join(', ')} among what stands so far. ${lines.map((one) => `${one}.`).join(' ')}`.trim(),
    ...(through
      ? { caption: 'What stands in front is drawn as if you could see through it.' }
      : {}),
  };
}

/** Where nothing has a place in the drawing, the sizes alone. */
function listFigure(stage: Stage, step: BuiltStep, lines: readonly string[]): Figure | string {
  if (lines.length === 0) {
    return 'nothing has a place in the parts table, so its figure has nothing to show. Give parts a place there, or write none under figure.';
  }
  const picture = new Picture(stage.speak);
  picture.beneath(lines);
  return {
    svg: picture.svg(plainText(step.title), stage.options.print),
    says: lines.join('. '),
  };
}

/** Whether of some part that comes now too little could be seen as it stands, of what is seen of it alone. */
function isHidden(view: ParallelView, alone: ParallelView | undefined, step: BuiltStep): boolean {
  const drawn = drawnOf(view);
  const whole = alone === undefined ? new Map<Part, number>() : drawnOf(alone);
  return step.parts.some((part) => {
    const area = whole.get(part);
    return area !== undefined && (drawn.get(part) ?? 0) < area * LEAST_SEEN;
  });
}

/** How much of the paper the pieces of each part take, as far as they are seen. */
function drawnOf({ pieces }: ParallelView): Map<Part, number> {
  const areas = new Map<Part, number>();
  for (const { piece, faces } of pieces) {
    let area = areas.get(piece.part) ?? 0;
    for (const { outlines } of faces) for (const outline of outlines) area += areaOf(outline);
    areas.set(piece.part, area);
  }
  return areas;
}

/** The parts that come now, each with the places of its pieces that a leader may point at. */
function namesOf(
  step: BuiltStep,
  fresh: readonly SeenPiece[],
  bounds: Rectangle,
  scale: number,
): readonly Named[] {
  return step.parts.flatMap((part) => {
    const places = fresh
      .filter(({ piece }) => piece.part === part)
      .flatMap(({ faces }) => largestOf(faces) ?? []);
    const most = Math.max(...places.map(({ area }) => area));
    const spots = places
      .filter(({ area }) => area > most * WORTH_POINTING)
      .map(({ outline }): Spot => {
        const [x, y] = middleOf(outline);
        return [(x - bounds.left) * scale, (bounds.top - y) * scale];
      });
    return spots.length === 0 ? [] : [{ words: partCounted(part), spots }];
  });
}

interface Place {
  readonly outline: Outlines[number];
  readonly area: number;
}

/** What is largest of a piece as it is seen; undefined where nothing is. */
function largestOf(faces: SeenPiece['faces']): Place | undefined {
  let largest: Place | undefined;
  for (const { outlines } of faces) {
    for (const outline of outlines) {
      const area = areaOf(outline);
      if (area > (largest?.area ?? 0)) largest = { outline, area };
    }
  }
  return largest;
}

function areaOf(outline: Outlines[number]): number {
  let twice = 0;
  for (const [i, [x, y]] of outline.entries()) {
    const [nextX, nextY] = outline[(i + 1) % outline.length] ?? [x, y];
    twice += x * nextY - nextX * y;
  }
  return Math.abs(twice) / 2;
}

function middleOf(outline: Outlines[number]): Spot {
  const sum = outline.reduce<Spot>(([a, b], [x, y]) => [a + x, b + y], [0, 0]);
  return [sum[0] / outline.length, sum[1] / outline.length];
}

const scaled = ({ x1, y1, x2, y2 }: Segment, { left, top }: Rectangle, by: number): Segment => ({
  x1: (x1 - left) * by,
  y1: (top - y1) * by,
  x2: (x2 - left) * by,
  y2: (top - y2) * by,
});

const lineOf = (kind: string, segments: readonly Segment[]): string =>
  segments.length === 0
    ? ''
    : `<path class="${kind}" fill="none" stroke="currentColor" vector-effect="non-scaling-stroke" d="${pathOf(segments)}"/>`;

/** A piece in the tone of its wood, with a line around each of its faces. */
function pieceDrawn({ piece, faces }: SeenPiece, lines: readonly Segment[], stage: Stage): string {
  if (faces.length === 0) return '';
  const wood = woodTone(piece.part.material);
  const look = stage.options.print === true ? 'print' : 'light';
  const drawn = faces.map((face) => {
    const shade = stage.shadeOf(face);
    return `<path class="kb-face ${shadeClass(shade)}" fill="${colourOf(wood, shade, look)}" d="${outlinesPath(face.outlines)}"/>`;
  });
  const own = linesOfOutlines(
    faces.flatMap(({ outlines }) => outlines),
    lines,
  );
  return `<g class="kb-wood-${wood}">${drawn.join('')}${lineOf('kb-new', own)}</g>`;
}

function saysOf(
  stage: Stage,
  step: BuiltStep,
  first: boolean,
  before: number,
  lines: readonly string[],
): string {
  const comes = step.parts.map(partCounted).join(', ');
  if (comes === '') {
    const shown =
      first || before === 0 ? 'The finished piece, in outline.' : 'What stands so far, in outline.';
    return [shown, ...measureLines(step).map((line) => `${line}.`)].join(' ');
  }
  const onto = before === 0 ? '' : ' on what stands so far';
  const drawn = stage.scene.pieces.some((piece) => stage.isNew(piece, step));
  return [
    drawn ? `${comes}${onto}.` : `What stands so far, in outline. ${comes}: not drawn.`,
    ...lines.map((line) => `${line}.`),
  ].join(' ');
}
