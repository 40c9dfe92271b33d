import { type JointWork, SPARE } from '@kerfbook/functions/joints';
import type { OpenWorkbook } from '@kerfbook/workbook';
import type { Dimension } from '../dimensions.ts';
import type { Layout } from '../layout.ts';
import { PAPER } from '../paper.ts';
import { SCALES } from '../scales.ts';
import type { Piece } from '../scene.ts';
import { around, type Page, PRINTED_UNIT, ROUNDING } from '../sheet.ts';
import type { Span } from '../spans.ts';
import type { Format } from '../units.ts';
import type { Rectangle, Segment } from '../views.ts';
import type { Outline } from '../visible-face.ts';
import { boreOf } from './bores.ts';
import { clearLayout } from './clear-layout.ts';
import { boundsOf, comesNear, cutFaceOf, hatching, linesWithin, woodOn } from './cut-faces.ts';
import { type DrawnMark, drawnMarks, type FaceMark, faceMarks } from './face-marks.ts';
import { type JointPlace, jointPlaces } from './joint-places.ts';
import { jointSizes } from './joint-sizes.ts';
import { onPaper, type PaperPlane, planeOf } from './section-plane.ts';
import { type Cross, shownCuts } from './sizes.ts';

/** A joint cut open through its middle, ready to be drawn; mm on the paper at full size. */
export interface JointDetail {
  /** Where it is made. */
  readonly place: JointPlace;
  /** Cut faces, with their hatching: wood of the two parts is hatched in opposite directions. */
  readonly faces: readonly {
    readonly lines: readonly Segment[];
    readonly hatch: readonly Segment[];
  }[];
  /** Outlines of dowels and loose tenons: what is no piece of its own. */
  readonly loose: readonly Segment[];
  /** The middle lines of holes. */
  readonly middles: readonly Segment[];
  /** Outlines of other pieces that the plane goes through there. */
  readonly adjacent: readonly Segment[];
  /** Corners of all those outlines that lie on true curves. */
  readonly onCurves: Outline;
  /** Where a piece is broken off. */
  readonly breaks: readonly Segment[];
  /** Its sizes in their places. */
  readonly layout: Layout;
  /** Faces that sizes are measured from, each with the sign of carpenters at it. */
  readonly marks: readonly DrawnMark[];
  /** Sizes that no line has room for. */
  readonly unplaced: readonly Dimension[];
  /** From where it is seen. */
  readonly plane: PaperPlane;
  /** The whole picture, mm at full size. */
  readonly frame: Rectangle;
  /** mm for one paper unit. */
  readonly unit: number;
  /** mm of the furniture for one mm of the printed page. */
  readonly scale: number;
}

/** What details are laid out for. */
export interface DetailOptions {
  /** Room for one on a printed page, mm. */
  readonly room: Page;
  /** More room, for one that would come smaller than half size; the same where left out. */
  readonly wide?: Page;
  /** Decides on which scales there are. */
  readonly units: OpenWorkbook['units'];
  /** Writes a length given in mm, as the workbook writes lengths. */
  readonly format: Format;
}

/** No detail is drawn larger than twice full size. */
const LARGEST = 1 / 2;
/** Down to half size one has half the width of a page. */
const HALF = 2;

/** A joint on the paper, before its scale is known. */
interface Drawn {
  readonly cross: Cross;
  readonly window: Rectangle;
  readonly sizes: readonly Dimension[];
  readonly measuredFrom: readonly FaceMark[];
  readonly loose: readonly Outline[];
  readonly middles: readonly Segment[];
  readonly adjacent: readonly Segment[];
  readonly onCurves: Outline;
}

/** A section through each joint that is made, one for each row of the joints table. */
export function jointDetails(
  pieces: readonly Piece[],
  work: Pick<JointWork, 'cuts' | 'joined'>,
  options: DetailOptions,
): readonly JointDetail[] {
  return jointPlaces(pieces, work).flatMap((place) => {
    const drawn = drawnOf(place, pieces);
    return drawn === undefined ? [] : [scaled(drawn, options)];
  });
}

/** The joint where its plane cuts it; undefined where no wood is left there, as of a hole as wide as its part. */
export function crossOf(place: JointPlace): Cross | undefined {
  const plane = planeOf(place);
  if (plane === undefined) return undefined;
  const [a, b] = [place.a, place.b].map((one) => one && cutFaceOf(one.piece, plane));
  if (a === undefined || (place.b !== undefined && b === undefined)) return undefined;
  return { place, plane, a, ...(b === undefined ? {} : { b }) };
}

function drawnOf(place: JointPlace, pieces: readonly Piece[]): Drawn | undefined {
  const cross = crossOf(place);
  if (cross === undefined) return undefined;
  const { plane } = cross;
  const rooms = [place.a, place.b].flatMap((one) =>
    one === undefined ? [] : shownCuts(one, plane).map(({ room }) => room),
  );
  if (rooms.length === 0) return undefined;
  const window = windowOf(cross, rooms);
  const own = new Set([place.a.piece, place.b?.piece]);
  const others = pieces
    .filter((piece) => !own.has(piece) && comesNear(piece, plane, window))
    .flatMap((piece) => cutFaceOf(piece, plane) ?? []);
  const adjacent = others.flatMap(({ lines }) => lines);
  return {
    cross,
    window,
    sizes: jointSizes(cross),
    measuredFrom: faceMarks(cross, pieces, window),
    loose: loosePieces(place, plane),
    middles: middleLines(place, plane),
    adjacent: linesWithin(adjacent, window),
    onCurves: [cross.a, cross.b, ...others].flatMap((face) => face?.onCurves ?? []),
  };
}

/** What lies on the rim of the window is in it, mm. */
const INSIDE = 1e-3;
/** So much of it is shown around a joint, no less than this and no more, mm; common practice, no source. */
const AROUND = 0.6;
const LEAST_AROUND = 15;
const MOST_AROUND = 20;
/** A face no further away than this is shown, mm, and no further than so many times the joint. */
const NEAR_FACE = 60;
const NEAR_SHARE = 1.2;
/** A piece that goes on is shown so far past another's face, as a share of what is shown around. */
const PAST = 0.4;

/** What is shown: the joint, faces near it, and of pieces that go on a little more. */
function windowOf({ a, b }: Cross, rooms: readonly Rectangle[]): Rectangle {
  const core = unionOf(rooms);
  const size = Math.max(core.right - core.left, core.top - core.bottom);
  const margin = Math.min(Math.max(LEAST_AROUND, AROUND * size), MOST_AROUND);
  const limit = Math.max(NEAR_FACE, NEAR_SHARE * size);
  const faces = [a, b].flatMap((face) => (face === undefined ? [] : [face.bounds]));
  const reach = (beyond: readonly number[]): number => {
    const near = Math.max(0, ...beyond.filter((one) => one <= limit));
    return beyond.some((one) => one > limit) ? Math.max(near + PAST * margin, margin) : near;
  };
  return {
    left: core.left - reach(faces.map(({ left }) => core.left - left)),
    right: core.right + reach(faces.map(({ right }) => right - core.right)),
    bottom: core.bottom - reach(faces.map(({ bottom }) => core.bottom - bottom)),
    top: core.top + reach(faces.map(({ top }) => top - core.top)),
  };
}

const unionOf = (rooms: readonly Rectangle[]): Rectangle =>
  boundsOf(
    rooms.flatMap(({ left, right, bottom, top }) => [
      [left, bottom],
      [right, top],
    ]),
  );

/** Dowels and loose tenons between the holes of both pieces, with the room for glue at both ends. */
function loosePieces({ a, b, joint }: JointPlace, plane: PaperPlane): readonly Outline[] {
  if (b === undefined || (joint.kind !== 'dowels' && joint.kind !== 'loose tenon')) return [];
  const [mine, its] = [shownCuts(a, plane), shownCuts(b, plane)];
  return mine.flatMap(({ room }, index): Outline[] => {
    const other = its[index]?.room;
    if (other === undefined) return [];
    const both = unionOf([room, other]);
    const [x, y] = plane.depth === 'x' ? [SPARE / 2, 0] : [0, SPARE / 2];
    const [left, right] = [both.left + x, both.right - x];
    const [bottom, top] = [both.bottom + y, both.top - y];
    return [
      [
        [left, bottom],
        [right, bottom],
        [right, top],
        [left, top],
      ],
    ];
  });
}

/** How far the middle line of a hole goes on outside it, mm. */
const BEYOND = 3;

function middleLines({ a, b }: JointPlace, plane: PaperPlane): readonly Segment[] {
  return [a, b].flatMap((member) => {
    if (member === undefined) return [];
    return shownCuts(member, plane).flatMap(({ of }): Segment[] => {
      const bore = boreOf(member.stand, of);
      if (bore?.diameter === undefined) return [];
      const { mouth, into, depth } = bore;
      const at = (by: number) =>
        onPaper(plane, [mouth[0] + into[0] * by, mouth[1] + into[1] * by, mouth[2] + into[2] * by]);
      const [[x1, y1], [x2, y2]] = [at(-BEYOND), at(depth + BEYOND)];
      return [{ x1, y1, x2, y2 }];
    });
  });
}

/** At the largest standard scale at which it fits its room, or the smallest there is. */
function scaled(drawn: Drawn, { room, wide = room, units, format }: DetailOptions): JointDetail {
  const scales = SCALES[units].filter((scale) => scale >= LARGEST);
  const fits = (page: Page, scale: number): boolean => {
    const { frame } = detailAt(drawn, scale, format);
    return (
      frame.right - frame.left <= page.width * scale * (1 + ROUNDING) &&
      frame.top - frame.bottom <= page.height * scale * (1 + ROUNDING)
    );
  };
  const half = scales.find((scale) => scale <= HALF && fits(room, scale));
  const scale = half ?? scales.find((one) => one >= HALF && fits(wide, one)) ?? Math.max(...scales);
  return detailAt(drawn, scale, format);
}

/** Between two lines of hatching, in paper units; of a loose tenon half of that. */
const HATCH = 6;

function detailAt(drawn: Drawn, scale: number, format: Format): JointDetail {
  const { cross, window, sizes, adjacent, loose, middles, onCurves, measuredFrom } = drawn;
  const unit = scale * PRINTED_UNIT;
  const inside = sizes.filter(({ side, from, to }) => {
    const [low, high] =
      side === 'below' ? [window.left, window.right] : [window.bottom, window.top];
    return from >= low - INSIDE && to <= high + INSIDE;
  });
  const { layout, unplaced } = clearLayout(inside, window, format, unit);
  const faces = ([[cross.a, 'right'] as const, [cross.b, 'left'] as const] as const).flatMap(
    ([face, rises]) =>
      face === undefined
        ? []
        : [
            {
              lines: linesWithin(face.lines, window),
              hatch: hatching(face.areas, rises, HATCH * unit, window),
            },
          ],
  );
  const isLooseTenon = cross.place.joint.kind === 'loose tenon';
  const looseFaces = loose.map((outline) => ({
    lines: linesOf(outline),
    // Fasteners along their length are not hatched (ISO 128-50, from memory); a tenon is wood of its own.
    hatch: isLooseTenon ? hatching([outline], 'right', (HATCH / 2) * unit, window) : [],
  }));
  const breaks = breaksOf(cross, window, unit);
  const inner = around(window, [...breaks, ...linesWithin(middles, window)], []);
  const marks = drawnMarks(measuredFrom, layout, unit);
  const content = around(
    inner,
    [...layout.lines, ...marks.flatMap(({ lines }) => lines)],
    layout.labels,
  );
  const edge = PAPER.edge * unit;
  return {
    place: cross.place,
    faces: [...faces, ...looseFaces.filter(({ hatch }) => hatch.length > 0)],
    loose: looseFaces.filter(({ hatch }) => hatch.length === 0).flatMap(({ lines }) => lines),
    middles: linesWithin(middles, window),
    adjacent,
    onCurves,
    breaks,
    layout,
    marks,
    unplaced,
    plane: cross.plane,
    frame: {
      left: content.left - edge,
      right: content.right + edge,
      bottom: content.bottom - edge,
      top: content.top + edge,
    },
    unit,
    scale,
  };
}

const linesOf = (outline: Outline): readonly Segment[] =>
  outline.map(([x1, y1], index) => {
    const [x2, y2] = outline[(index + 1) % outline.length] ?? [x1, y1];
    return { x1, y1, x2, y2 };
  });

/** The zigzag of a break, and how far it goes past the wood, in paper units (ISO 128-24, type 01.1, from memory). */
const ZIGZAG = 4;
const OVER = 3;

/** Zigzag lines where the window cuts pieces off. */
function breaksOf({ a, b }: Cross, window: Rectangle, unit: number): readonly Segment[] {
  return [a, b].flatMap((face) => {
    if (face === undefined) return [];
    const { areas, bounds } = face;
    const { left, right, bottom, top } = window;
    const found: Segment[] = [];
    const broken = (axis: 'x' | 'y', at: number, inside: number, room: Span): void => {
      for (const [from, to] of woodOn(areas, axis, inside)) {
        const span: Span = [Math.max(from, room[0]), Math.min(to, room[1])];
        if (span[1] > span[0]) found.push(...zigzag(axis, at, span, unit));
      }
    };
    if (bounds.left < left - INSIDE) broken('y', left, left + INSIDE, [bottom, top]);
    if (bounds.right > right + INSIDE) broken('y', right, right - INSIDE, [bottom, top]);
    if (bounds.bottom < bottom - INSIDE) broken('x', bottom, bottom + INSIDE, [left, right]);
    if (bounds.top > top + INSIDE) broken('x', top, top - INSIDE, [left, right]);
    return found;
  });
}

function zigzag(axis: 'x' | 'y', at: number, [from, to]: Span, unit: number): readonly Segment[] {
  const middle = (from + to) / 2;
  const step = Math.min(ZIGZAG * unit, (to - from) / 4);
  const points: readonly (readonly [along: number, beside: number])[] = [
    [from - OVER * unit, 0],
    [middle - step, 0],
    [middle - step / 2, step],
    [middle + step / 2, -step],
    [middle + step, 0],
    [to + OVER * unit, 0],
  ];
  const on = points.map(([along, beside]) =>
    axis === 'x' ? ([along, at + beside] as const) : ([at + beside, along] as const),
  );
  return on.slice(1).map(([x2, y2], index) => {
    const [x1, y1] = on[index] ?? [x2, y2];
    return { x1, y1, x2, y2 };
  });
}
