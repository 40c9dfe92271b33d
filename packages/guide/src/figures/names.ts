import type { Segment } from '@kerfbook/drawing';
import { inRow, roomOf } from './beside.ts';
import { type Anchor, FIGURE, n, type Picture, type Spot, widthOf, wrapped } from './picture.ts';

/** Something to be named, with the places that may be pointed at; units from the upper left of the drawing. */
export interface Named {
  readonly words: string;
  /** Which language they are in, where that is not the plan's. */
  readonly lang?: string;
  readonly spots: readonly Spot[];
}

/** The drawing that names stand around. */
interface Drawn {
  readonly wide: number;
  readonly high: number;
  /** A leader crosses as few of them as it can. */
  readonly lines: readonly Segment[];
  /** How far down the figure it begins; at its upper edge where left out. */
  readonly from?: number;
}

/** A name in its place; units of the figure. */
export interface PlacedName {
  readonly words: readonly string[];
  /** Which language they are in, where that is not the plan's. */
  readonly lang: string | undefined;
  /** Baseline of its first line. */
  readonly at: Spot;
  readonly anchor: Anchor;
  readonly leader: readonly [Spot, Spot];
  /** What it points at. */
  readonly dot: Spot;
}

/** Where the drawing goes, and the names around it. */
export interface Placed {
  /** The upper left of the drawing. */
  readonly left: number;
  readonly top: number;
  /** How much smaller it is drawn than was asked for, to leave room for names beside it. */
  readonly shrink: number;
  readonly names: readonly PlacedName[];
  readonly bottom: number;
}

/** From the drawing to a row of names above or below it, and to a column beside it. */
const OFF = 10;
const TALL = FIGURE.text + 4;
/** The widest column of names, and the widest name in a row. */
const COLUMN = 96;
const NAME = 210;

/**
 * Names around a drawing, each with a leader, none over another: in a row above it and one below it where they have
 * room there, else in columns at its sides.
 */
export function placeNames(names: readonly Named[], drawn: Drawn): Placed {
  return inRows(names, drawn) ?? inColumns(names, drawn);
}

interface Choice {
  readonly words: readonly string[];
  readonly lang: string | undefined;
  readonly spot: Spot;
  readonly size: number;
}

function inRows(
  names: readonly Named[],
  { wide, high, lines, from: begin = FIGURE.edge }: Drawn,
): Placed | undefined {
  const rows = { above: [] as Choice[], below: [] as Choice[] };
  const room = FIGURE.wide - 2 * FIGURE.edge;
  const taken = { above: 0, below: 0 };
  for (const { words, lang, spots } of names) {
    const written = [words];
    const size = widthOf(words);
    if (size > NAME) return undefined;
    const ways = spots
      .flatMap((spot) =>
        (['above', 'below'] as const).map((row) => ({
          row,
          spot,
          cost:
            crossings(spot, row === 'above' ? -1 : 1, lines) * 25 +
            (row === 'above' ? spot[1] : high - spot[1]),
        })),
      )
      .sort((a, b) => a.cost - b.cost);
    const found = ways.find(({ row }) => taken[row] + size <= room);
    if (found === undefined) return undefined;
    rows[found.row].push({ words: written, lang, spot: found.spot, size });
    taken[found.row] += size + FIGURE.gap;
  }
  const left = (FIGURE.wide - wide) / 2;
  const top = begin + (rows.above.length > 0 ? TALL + OFF : 0);
  const bottom = top + high + (rows.below.length > 0 ? OFF + TALL : 0);
  const set = (choices: readonly Choice[], base: number, end: number): PlacedName[] => {
    const sorted = [...choices].sort((a, b) => a.spot[0] - b.spot[0]);
    const middles = inRow(
      sorted.map(({ spot, size }) => ({ wants: left + spot[0], size })),
      [FIGURE.edge, FIGURE.wide - FIGURE.edge],
      FIGURE.gap,
    );
    return sorted.map(({ words, lang, spot, size }, i) => {
      const middle = middles[i] as number;
      const dot: Spot = [left + spot[0], top + spot[1]];
      // Straight up from what it is about, where the name is over it.
      const half = Math.max(0, size / 2 - 4);
      const from: Spot = [Math.min(middle + half, Math.max(middle - half, dot[0])), end];
      return { words, lang, at: [middle, base], anchor: 'middle', leader: [from, dot], dot };
    });
  };
  const above = begin + FIGURE.text * 0.85;
  return {
    left,
    top,
    shrink: 1,
    bottom,
    names: [
      ...set(rows.above, above, begin + TALL - 1),
      ...set(rows.below, bottom - 3, bottom - TALL),
    ],
  };
}

/** How many lines one crosses from a spot straight up (-1) or down (1). */
function crossings([x, y]: Spot, way: 1 | -1, lines: readonly Segment[]): number {
  let count = 0;
  for (const { x1, y1, x2, y2 } of lines) {
    if (x1 > x === x2 > x) continue;
    const at = y1 + ((x - x1) / (x2 - x1)) * (y2 - y1);
    if ((at - y) * way > 0.5) count += 1;
  }
  return count;
}

function inColumns(
  names: readonly Named[],
  { wide, high, from: begin = FIGURE.edge }: Drawn,
): Placed {
  const sides = { left: [] as Choice[], right: [] as Choice[] };
  const sorted = names
    .map(({ words, lang, spots }) => ({ words, lang, spot: spots[0] as Spot, spots }))
    .sort((a, b) => a.spot[0] - b.spot[0]);
  const half = Math.ceil(sorted.length / 2);
  for (const [i, { words, lang, spots }] of sorted.entries()) {
    const side = i < half ? 'left' : 'right';
    const lines = wrapped(words, COLUMN);
    const spot = spots.reduce((best, one) => ((side === 'left') === one[0] < best[0] ? one : best));
    sides[side].push({ words: lines, lang, spot, size: lines.length * FIGURE.line * 0.85 });
  }
  const columnOf = (choices: readonly Choice[]): number =>
    choices.length === 0
      ? 0
      : OFF + Math.max(...choices.flatMap(({ words }) => words.map((one) => widthOf(one))));
  const [leftRoom, rightRoom] = [columnOf(sides.left), columnOf(sides.right)];
  const room = FIGURE.wide - 2 * FIGURE.edge - leftRoom - rightRoom;
  const shrink = Math.min(1, room / wide);
  const need = Math.max(
    ...[sides.left, sides.right].map((own) =>
      roomOf(
        own.map(({ size }) => size),
        3,
      ),
    ),
  );
  const tall = Math.max(high * shrink, need);
  const left = FIGURE.edge + leftRoom + (room - wide * shrink) / 2;
  const top = begin + (tall - high * shrink) / 2;
  const set = (choices: readonly Choice[], side: 'left' | 'right'): PlacedName[] => {
    const down = [...choices].sort((a, b) => a.spot[1] - b.spot[1]);
    const middles = inRow(
      down.map(({ spot, size }) => ({ wants: top + spot[1] * shrink, size })),
      [begin, begin + tall],
      3,
    );
    const x =
      side === 'left' ? FIGURE.edge + leftRoom - OFF : FIGURE.wide - FIGURE.edge - rightRoom + OFF;
    return down.map(({ words, lang, spot, size }, i) => {
      const middle = middles[i] as number;
      const dot: Spot = [left + spot[0] * shrink, top + spot[1] * shrink];
      const from: Spot = [x + (side === 'left' ? 3 : -3), middle];
      const first = middle - size / 2 + FIGURE.text * 0.9;
      return {
        words,
        lang,
        at: [x, first],
        anchor: side === 'left' ? 'end' : 'start',
        leader: [from, dot],
        dot,
      };
    });
  };
  return {
    left,
    top,
    shrink,
    bottom: begin + tall,
    names: [...set(sides.left, 'left'), ...set(sides.right, 'right')],
  };
}

/** Names in the language of the plan; their room is that of what is said. */
export const spokenNames = ({ speak }: Picture, names: readonly Named[]): readonly Named[] =>
  names.map(({ words, spots }) => ({ ...speak(words), spots }));

/** Puts a drawing with its names beneath all that a figure has so far. */
export function drawNamed(
  picture: Picture,
  names: readonly Named[],
  drawn: Omit<Drawn, 'from'>,
  /** What is drawn, in units from its own upper left. */
  body: string,
): void {
  const begin = picture.bottom === 0 ? FIGURE.edge : picture.bottom + FIGURE.edge;
  const placed = placeNames(spokenNames(picture, names), { ...drawn, from: begin });
  const { left, top, shrink } = placed;
  const by = shrink === 1 ? '' : ` scale(${Number(shrink.toPrecision(6))})`;
  picture.add(`<g transform="translate(${n(left)} ${n(top)})${by}">${body}</g>`, placed.bottom);
  writeNames(picture, placed.names);
}

/** Names in their places, with their leaders. */
export function writeNames(picture: Picture, names: readonly PlacedName[]): void {
  for (const { leader, dot, words, lang, at, anchor } of names) {
    const [[x1, y1], [x2, y2]] = leader;
    picture.path('kb-leader', `M${n(x1)} ${n(y1)}L${n(x2)} ${n(y2)}`);
    picture.add(
      `<circle class="kb-dot" cx="${n(dot[0])}" cy="${n(dot[1])}" r="1.6" fill="currentColor"/>`,
    );
    for (const [i, line] of words.entries()) {
      const y = at[1] + i * FIGURE.line * 0.85;
      picture.write([at[0], y], { words: line, ...(lang === undefined ? {} : { lang }) }, anchor);
    }
  }
}
