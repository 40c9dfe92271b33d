import type { OpenWorkbook } from '@kerfbook/workbook';
import { type Callout, placeCallouts } from './callouts.ts';
import type { Dimension } from './dimensions.ts';
import { type Label, type Layout, layOut } from './layout.ts';
import { type Movement, type MovementDrawing, movementDrawing, movementLines } from './movement.ts';
import { PAPER } from './paper.ts';
import { SCALES } from './scales.ts';
import type { Format } from './units.ts';
import { DIRECTIONS, type Projection, type Rectangle, type Segment, type View } from './views.ts';

/** A view with everything written on it, ready to be drawn. */
export interface Sheet {
  /** The view itself. */
  readonly projection: Projection;
  /** Its dimensions in their places. */
  readonly layout: Layout;
  /** In the view from above, where movement was asked for. */
  readonly movement?: MovementDrawing;
  /** The whole picture, caption row included, mm at full size. */
  readonly frame: Rectangle;
  /** mm for one paper unit. */
  readonly unit: number;
  /** mm of the furniture for one mm of the printed page, where it was laid out for one. */
  readonly scale?: number;
}

/** Room on a screen that a drawing is to be read in. */
export interface Panel {
  /** Paper units; 420 by 420 where left out. */
  readonly width: number;
  /** Paper units. */
  readonly height: number;
}

export const PANEL: Panel = { width: 420, height: 420 };

/** Room for each view on a printed page, mm. */
export interface Page {
  /** Over 0. */
  readonly width: number;
  /** Over 0. */
  readonly height: number;
}

interface Input {
  readonly projections: readonly Projection[];
  readonly dimensions: ReadonlyMap<string, readonly Dimension[]>;
  readonly format: Format;
  readonly panel: Panel;
  readonly movement?: Movement;
  readonly callouts?: ReadonlyMap<View, readonly Callout[]>;
}

/**
 * Lays out views at one scale and with frames of one width, so that shown one above the other they
 * line up: a point of the furniture is at the same place across in each view that shares its axis,
 * and side by side at the same height.
 */
export function composeSheets(input: Input): Sheet[] {
  return compose(input, chooseUnit(input));
}

/**
 * One paper unit on a printed page, mm: letters are 9 pt or larger, captions as the smallest 3.2 mm and
 * dimensions 3.5 mm, a height of ISO 3098 (value from memory).
 */
export const PRINTED_UNIT = 0.32;

/**
 * The same for a printed page: at the largest standard scale at which every view fits its room, or
 * the smallest scale there is, however much of the page that takes.
 */
export function composePages(
  input: Omit<Input, 'panel'>,
  page: Page,
  units: OpenWorkbook['units'],
): Sheet[] {
  const panel = { width: page.width / PRINTED_UNIT, height: page.height / PRINTED_UNIT };
  const full = { ...input, panel };
  const fits = (scale: number): boolean =>
    compose(full, scale * PRINTED_UNIT).every(
      ({ frame }) =>
        frame.right - frame.left <= page.width * scale * (1 + ROUNDING) &&
        frame.top - frame.bottom <= page.height * scale * (1 + ROUNDING),
    );
  const scale = SCALES[units].find(fits) ?? Math.max(...SCALES[units]);
  return compose(full, scale * PRINTED_UNIT).map((sheet) => ({ ...sheet, scale }));
}

/** A frame is as wide as its room, worked out another way round. */
export const ROUNDING = 1e-9;

function compose(input: Input, unit: number): Sheet[] {
  const drawn = input.projections.map((projection) => layoutAt(projection, input, unit));
  const middles = spread(drawn);
  const rows = levels(drawn);
  const width = Math.max(
    input.panel.width * unit,
    ...[...middles.values()].map(({ left, right }) => right - left + 2 * PAPER.edge * unit),
  );
  return drawn.map(({ projection, layout, movement, content }) => {
    const { left, right } = middles.get(DIRECTIONS[projection.view].across) ?? content;
    const middle = (left + right) / 2;
    const { bottom, top } = rows.get(DIRECTIONS[projection.view].up) ?? content;
    const frame = {
      left: middle - width / 2,
      right: middle + width / 2,
      bottom: bottom - (PAPER.foot + PAPER.edge) * unit,
      top: top + PAPER.edge * unit,
    };
    const written = withCallouts({ projection, layout, content }, input, unit, movement);
    return {
      projection,
      layout: written,
      frame,
      unit,
      ...(movement === undefined ? {} : { movement }),
    };
  });
}

/** Callouts come last, into the room that is left: they make no drawing smaller. */
function withCallouts(
  { projection, layout, content }: Pick<Drawn, 'projection' | 'layout' | 'content'>,
  { callouts, format }: Input,
  unit: number,
  movement: MovementDrawing | undefined,
): Layout {
  const wanted = callouts?.get(projection.view) ?? [];
  if (wanted.length === 0) return layout;
  const placed = placeCallouts(wanted, {
    lines: [
      ...projection.visible,
      ...projection.hidden,
      ...layout.lines,
      ...(movement === undefined ? [] : [...movement.lines, ...movement.leaders]),
    ],
    labels: [...layout.labels, ...(movement?.labels ?? [])],
    room: content,
    format,
    unit,
  });
  return {
    ...layout,
    callouts: placed,
    lines: [...layout.lines, ...placed.flatMap((one) => one.lines)],
    labels: [...layout.labels, ...placed.map(({ label }) => label)],
  };
}

interface Drawn {
  readonly projection: Projection;
  readonly layout: Layout;
  readonly movement?: MovementDrawing;
  readonly content: Rectangle;
}

function layoutAt(projection: Projection, input: Input, unit: number): Drawn {
  const { format } = input;
  const wanted = projection.view === 'plan' ? input.movement : undefined;
  const moved = wanted === undefined ? [] : movementLines(wanted, projection);
  const bounds = around(projection.bounds, moved, []);
  const dimensions = input.dimensions.get(projection.view) ?? [];
  const layout = layOut({ dimensions, bounds, format, unit });
  const drawn = around(bounds, layout.lines, layout.labels);
  if (wanted === undefined) return { projection, layout, content: drawn };
  const { top } = drawn;
  const movement = movementDrawing({ movement: wanted, projection, format, unit, top });
  return { projection, layout, movement, content: around(drawn, [], movement.labels) };
}

/** How far views that share a horizontal axis reach together. */
function spread(
  drawn: readonly Pick<Drawn, 'projection' | 'content'>[],
): Map<string, { left: number; right: number }> {
  const reach = new Map<string, { left: number; right: number }>();
  for (const { projection, content } of drawn) {
    const axis = DIRECTIONS[projection.view].across;
    const known = reach.get(axis) ?? content;
    reach.set(axis, {
      left: Math.min(known.left, content.left),
      right: Math.max(known.right, content.right),
    });
  }
  return reach;
}

/** The same upwards: the front and the end stand on one floor when they are shown side by side. */
function levels(
  drawn: readonly Pick<Drawn, 'projection' | 'content'>[],
): Map<string, { bottom: number; top: number }> {
  const reach = new Map<string, { bottom: number; top: number }>();
  for (const { projection, content } of drawn) {
    const axis = DIRECTIONS[projection.view].up;
    const known = reach.get(axis) ?? content;
    reach.set(axis, {
      bottom: Math.min(known.bottom, content.bottom),
      top: Math.max(known.top, content.top),
    });
  }
  return reach;
}

/** Smallest share of the panel kept for the furniture itself, however much is written around it. */
const LEAST_SHARE = 0.3;
/** Keeps a drawing of something thinner than a hair from dividing by nothing, mm. */
const LEAST_UNIT = 1e-6;
const ROUNDS = 3;
const NUDGE = 1.03;
const MOST_NUDGES = 20;

/**
 * mm for one paper unit, such that every view fits the panel with what is written around it. What
 * is written depends on the scale in steps (a text that no longer fits between its arrows), so the
 * scale is settled in a few rounds, and then nudged until everything is in.
 */
function chooseUnit(input: Input): number {
  const { projections, panel } = input;
  let unit = Math.max(
    ...projections.map(({ bounds }) => (bounds.right - bounds.left) / (panel.width * 0.75)),
    ...projections.map(({ bounds }) => (bounds.top - bounds.bottom) / (panel.height * 0.75)),
    LEAST_UNIT,
  );
  for (let round = 0; round < ROUNDS; round++) unit = neededUnit(input, unit);
  for (let nudge = 0; nudge < MOST_NUDGES && neededUnit(input, unit) > unit; nudge++) unit *= NUDGE;
  return unit;
}

/** The unit at which everything would fit, if what is written took as much room as at `unit`. */
function neededUnit(input: Input, unit: number): number {
  const { projections, panel } = input;
  const drawn = projections.map((projection) => layoutAt(projection, input, unit));
  const rows = levels(drawn);
  const up = drawn.map(({ projection: { view, bounds }, content }) => {
    const { bottom, top } = rows.get(DIRECTIONS[view].up) ?? content;
    return fit(bounds.top - bounds.bottom, top - bottom, panel.height, unit, PAPER.foot);
  });
  const bare = spread(drawn.map(({ projection }) => ({ projection, content: projection.bounds })));
  const across = [...spread(drawn)].map(([axis, { left, right }]) => {
    const furniture = bare.get(axis) ?? { left, right };
    return fit(furniture.right - furniture.left, right - left, panel.width, unit, 0);
  });
  return Math.max(...across, ...up, LEAST_UNIT);
}

function fit(bare: number, written: number, room: number, unit: number, foot: number): number {
  const margins = (written - bare) / unit + foot + 2 * PAPER.edge;
  return bare / Math.max(room - margins, room * LEAST_SHARE);
}

/** A rectangle grown to take in lines and texts. */
export function around(
  bounds: Rectangle,
  lines: readonly Segment[],
  labels: readonly Label[],
): Rectangle {
  let { left, right, bottom, top } = bounds;
  const take = (x: number, y: number): void => {
    left = Math.min(left, x);
    right = Math.max(right, x);
    bottom = Math.min(bottom, y);
    top = Math.max(top, y);
  };
  for (const { x1, y1, x2, y2 } of lines) {
    take(x1, y1);
    take(x2, y2);
  }
  for (const { box } of labels) {
    take(box.left, box.bottom);
    take(box.right, box.top);
  }
  return { left, right, bottom, top };
}
