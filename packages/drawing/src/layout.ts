import type { PlacedCallout } from './callouts.ts';
import type { Dimension } from './dimensions.ts';
import { PAPER, textWidth } from './paper.ts';
import { overlap, type Span } from './spans.ts';
import type { Format } from './units.ts';
import type { Rectangle, Segment } from './views.ts';

/** The head of a dimension line or of a line that points at something; mm on the paper at full size. */
export interface Arrow {
  /** Where the tip is, mm. */
  readonly x: number;
  /** Where the tip is, mm upwards. */
  readonly y: number;
  /** The way the tip looks. */
  readonly points: 'left' | 'right' | 'up' | 'down';
}

/** Writing in a drawing, in its place. */
export interface Label {
  /** What it belongs to: the key of a dimension, or of an edge that moves with the seasons. */
  readonly key: string;
  /** As it is read, with its unit. */
  readonly text: string;
  /** Middle of the text's baseline, mm. */
  readonly x: number;
  /** Middle of the text's baseline, mm upwards. */
  readonly y: number;
  /** Read from the right, as on a dimension line that goes up. */
  readonly upright: boolean;
  /** Estimated place on the paper, mm. */
  readonly box: Rectangle;
}

/** A dimension in its place. */
export interface PlacedDimension {
  /** The size that is shown. */
  readonly dimension: Dimension;
  /** The size as it is written. */
  readonly text: string;
  /** Where its line is, across its own direction, mm. */
  readonly line: number;
  /** From where to where its line is drawn, tails included, mm. */
  readonly lineSpan: Span;
  /** False where the arrows stand outside and point inwards, for want of room. */
  readonly arrowsInside: boolean;
  /** Its writing; it is among the layout's labels too. */
  readonly label: Label;
}

/** Dimension lines in their places; mm at full size. */
export interface Layout {
  /** What lines, arrows and labels belong to, for outputs that know dimensions as such. */
  readonly dimensions: readonly PlacedDimension[];
  /** Dimension lines and extension lines. */
  readonly lines: readonly Segment[];
  /** The heads of dimension lines. */
  readonly arrows: readonly Arrow[];
  /** One for each dimension, and one for each callout. */
  readonly labels: readonly Label[];
  /** Sizes that no dimension line takes; their lines and labels are among the others too. */
  readonly callouts?: readonly PlacedCallout[];
}

interface LayoutInput {
  readonly dimensions: readonly Dimension[];
  readonly bounds: Rectangle;
  readonly format: Format;
  /** mm for one paper unit. */
  readonly unit: number;
}

const LEVELS = 5;

/** A dimension with its text, arrows and level decided; positions along the line, mm. */
interface Placed {
  readonly dimension: Dimension;
  readonly text: string;
  readonly level: number;
  readonly middle: number;
  readonly textSpan: Span;
  readonly lineSpan: Span;
  readonly arrowsInside: boolean;
}

/**
 * Puts dimension lines around a view so that nothing written overlaps: shorter ones nearer the
 * outline, each on the nearest level where it is free of the others and of the extension lines that
 * pass by. A dimension that finds no such place is left out, unless it must be shown.
 */
export function layOut(input: LayoutInput): Layout {
  const dimensions = (['below', 'left', 'right', 'inside'] as const).flatMap((side) => {
    const own = input.dimensions.filter((dimension) => dimension.side === side);
    const placed = side === 'inside' ? placeInside(own, input) : placeAround(own, input);
    return placed.map((one) => settle(one, input));
  });
  return {
    dimensions,
    lines: dimensions.flatMap((one) => linesOf(one, input.unit)),
    arrows: dimensions.flatMap(arrowsOf),
    labels: dimensions.map(({ label }) => label),
  };
}

function placeInside(dimensions: readonly Dimension[], { format, unit }: LayoutInput): Placed[] {
  return dimensions.flatMap((dimension) => {
    const [shape] = shapes(dimension, format, unit);
    const [from, to] = dimension.opening ?? [0, 0];
    const room = PAPER.text + 2 * PAPER.lift + PAPER.arrow;
    if (shape === undefined || !shape.arrowsInside || to - from < room * unit) return [];
    return shape.textSpan[1] <= dimension.to ? [{ ...shape, level: 0 }] : [];
  });
}

function placeAround(dimensions: readonly Dimension[], { format, unit }: LayoutInput): Placed[] {
  const waiting = [...dimensions].sort((a, b) => a.to - a.from - (b.to - b.from));
  const placed: Placed[] = [];
  for (let next = waiting.shift(); next !== undefined; next = waiting.shift()) {
    const options = shapes(next, format, unit);
    const found = firstFree(options, placed, waiting, unit);
    if (found !== undefined) placed.push(found);
    else if (next.must && options[0] !== undefined) placed.push({ ...options[0], level: LEVELS });
  }
  return placed;
}

type Shape = Omit<Placed, 'level'>;

function firstFree(
  options: readonly Shape[],
  placed: readonly Placed[],
  waiting: readonly Dimension[],
  unit: number,
): Placed | undefined {
  for (let level = 0; level < LEVELS; level++) {
    for (const shape of options) {
      const beside = placed.filter((other) => other.level === level);
      const passing = [
        ...placed.filter((other) => other.level >= level).map((other) => other.dimension),
        ...waiting,
      ];
      const free = beside.every((other) => !overlap(other.lineSpan, shape.lineSpan));
      if (free && passing.every((other) => clearOf(shape.textSpan, other, unit))) {
        return { ...shape, level };
      }
    }
  }
  return undefined;
}

/** The text keeps two units off the extension lines of another dimension. */
function clearOf([from, to]: Span, other: Dimension, unit: number): boolean {
  const margin = 2 * unit;
  return [other.from, other.to].every((at) => at <= from - margin || at >= to + margin);
}

/** The ways a dimension can be written, best first. */
function shapes(dimension: Dimension, format: Format, unit: number): Shape[] {
  const { from, to } = dimension;
  const text = `${dimension.sign ?? ''}${format(to - from)}`;
  const wide = textWidth(text, PAPER.text) * unit;
  const length = to - from;
  const arrowsInside = length >= (2 * PAPER.arrow + 4) * unit;
  const tail = arrowsInside ? 0 : PAPER.tail * unit;
  const base = { dimension, text, arrowsInside };
  const at = (middle: number): Pick<Shape, 'middle' | 'textSpan'> => ({
    middle,
    textSpan: [middle - wide / 2, middle + wide / 2],
  });
  if (wide + 4 * unit <= length) {
    return [{ ...base, ...at((from + to) / 2), lineSpan: [from - tail, to + tail] }];
  }
  // Too narrow for its text: written beside it, over the line carried on.
  const reach = PAPER.arrow * unit + 3 * unit + wide;
  const middle = PAPER.arrow * unit + 3 * unit + wide / 2;
  return [
    { ...base, ...at(to + middle), lineSpan: [from - tail, to + reach] },
    { ...base, ...at(from - middle), lineSpan: [from - reach, to + tail] },
  ];
}

/** The dimension line and its extension lines, mm. @param unit mm for one paper unit */
export function linesOf({ dimension, lineSpan, line }: PlacedDimension, unit: number): Segment[] {
  const { side, from, to, fromAnchor, toAnchor } = dimension;
  const level = side === 'below';
  const [a, b] = lineSpan;
  const own: Segment = level
    ? { x1: a, y1: line, x2: b, y2: line }
    : { x1: line, y1: a, x2: line, y2: b };
  if (side === 'inside') return [own];
  // Away from the furniture: down and left are negative on the paper.
  const away = (side === 'right' ? 1 : -1) * unit;
  const end = line + PAPER.overrun * away;
  const extensions = (
    [
      [from, fromAnchor],
      [to, toAnchor],
    ] as const
  ).map(([at, anchor]): Segment => {
    const start = anchor + PAPER.gap * away;
    return level ? { x1: at, y1: start, x2: at, y2: end } : { x1: start, y1: at, x2: end, y2: at };
  });
  return [own, ...extensions];
}

export function arrowsOf({ dimension, line, arrowsInside }: PlacedDimension): Arrow[] {
  const level = dimension.side === 'below';
  const back = level ? ('left' as const) : ('down' as const);
  const on = level ? ('right' as const) : ('up' as const);
  const tip = (at: number): { x: number; y: number } =>
    level ? { x: at, y: line } : { x: line, y: at };
  return [
    { ...tip(dimension.from), points: arrowsInside ? back : on },
    { ...tip(dimension.to), points: arrowsInside ? on : back },
  ];
}

function settle(placed: Placed, { bounds, unit }: LayoutInput): PlacedDimension {
  const { dimension, text, lineSpan, arrowsInside } = placed;
  const line = lineAt(placed, bounds, unit);
  return { dimension, text, line, lineSpan, arrowsInside, label: labelOf(placed, line, unit) };
}

/** Where the dimension line is, across its own direction. */
function lineAt({ dimension, level }: Placed, bounds: Rectangle, unit: number): number {
  const distance = (PAPER.first + level * PAPER.next) * unit;
  switch (dimension.side) {
    case 'below':
      return bounds.bottom - distance;
    case 'left':
      return bounds.left - (PAPER.first - PAPER.text / 2 + level * PAPER.next) * unit;
    case 'right':
      return bounds.right + distance;
    case 'inside': {
      // Line and text together stand in the middle of the opening.
      const [from, to] = dimension.opening ?? [0, 0];
      return (from + to) / 2 + ((PAPER.lift + PAPER.text) / 2) * unit;
    }
  }
}

function labelOf({ dimension, text, middle, textSpan }: Placed, line: number, unit: number): Label {
  const lift = PAPER.lift * unit;
  const tall = PAPER.text * unit;
  const [from, to] = textSpan;
  const { key } = dimension;
  if (dimension.side === 'below') {
    const box = { left: from, right: to, bottom: line + lift, top: line + lift + tall };
    return { key, text, x: middle, y: line + lift, upright: false, box };
  }
  const box = { left: line - lift - tall, right: line - lift, bottom: from, top: to };
  return { key, text, x: line - lift, y: middle, upright: true, box };
}
