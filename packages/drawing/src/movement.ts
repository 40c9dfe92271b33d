import type { Arrow, Label } from './layout.ts';
import { PAPER, textWidth } from './paper.ts';
import type { Axis, Piece } from './scene.ts';
import type { Format } from './units.ts';
import type { Projection, Rectangle, Segment, ViewPiece } from './views.ts';

/** What the seasons do to the width of a panel, to be drawn in the view from above. */
export interface Movement {
  /** Names of the parts that make up the panel; the highest part with the largest face where left out. */
  readonly parts?: readonly string[];
  /** Change of the width across the grain from the width drawn, mm: mostly below 0 in the dry season, above it in the humid one. */
  readonly dry: number;
  /** The same in the humid season, mm. */
  readonly humid: number;
  /** How many times as large it is drawn, 10 where left out; less is used, and said, where the edges would meet. */
  readonly exaggeration?: number;
  /** Writes its figures, finer than a size is read off a tape; as the sizes are written where left out. */
  readonly format?: Format;
}

/** Movement as it is drawn; mm on the paper. */
export interface MovementDrawing {
  /** The edges at both seasons, exaggerated. */
  readonly lines: readonly Segment[];
  /** Lines from a label to the edge it is about. */
  readonly leaders: readonly Segment[];
  /** Their heads, at the edge. */
  readonly arrows: readonly Arrow[];
  /** What each line is, with the real figure, and last how much is exaggerated. */
  readonly labels: readonly Label[];
}

const DEFAULT_EXAGGERATION = 10;
/** Smaller exaggerations that are tried where one would bring the edges together. */
const SMALLER = [5, 2, 1, 0.5, 0.2, 0.1];
/** From the letters of a label down to its leader: below what hangs under their line. Paper units. */
const CLEAR = PAPER.gap + PAPER.text / 4;
/** From what is drawn up to the first label, with room for a leader and its head. */
const ABOVE = CLEAR + PAPER.arrow + PAPER.gap;
/** Share of its width a panel may seem to lose. */
const MOST = 0.8;

interface Panel {
  readonly name: string;
  readonly place: Rectangle;
  /** The axis across the grain. */
  readonly axis: Axis;
}

interface DrawingInput {
  readonly movement: Movement;
  readonly projection: Projection;
  readonly format: Format;
  /** mm for one paper unit. */
  readonly unit: number;
  /** Above this nothing else is drawn or written, mm. */
  readonly top: number;
}

interface Edge {
  readonly season: 'dry' | 'humid';
  /** mm, of the whole width. */
  readonly change: number;
  /** How far each edge is drawn outside its own place, mm. */
  readonly by: number;
  /** Where along the panel its leader ends. */
  readonly share: number;
}

interface Moved {
  readonly panel: Panel;
  readonly times: number;
  readonly edges: readonly Edge[];
}

/**
 * Lines of a panel's edges in the dry and the humid season, in the view from above, exaggerated. A
 * panel is taken to be held in its middle, so that each edge moves by half of the change. None where
 * there is nothing to show.
 */
export function movementLines(movement: Movement, projection: Projection): Segment[] {
  const moved = movedOf(movement, projection);
  return typeof moved === 'string' ? [] : linesOf(moved);
}

/** The same lines with what they are written above the view; where there are none, it says why. */
export function movementDrawing(input: DrawingInput): MovementDrawing {
  const { movement, projection, format, unit } = input;
  const moved = movedOf(movement, projection);
  if (typeof moved === 'string') return onlySays(moved, input);
  const { panel, times, edges } = moved;
  const rows = new Rows(input.top, unit);
  const leaders: Segment[] = [];
  const arrows: Arrow[] = [];
  const labels: Label[] = [];
  const told = edges.map(({ season, change, by, share }) => {
    const says = seasonText(season, change, movement.format ?? format);
    const half = (textWidth(says, PAPER.text) * unit) / 2;
    return { season, says, half, spot: spotOn(panel, by, share) };
  });
  const aside = asideOf(told, unit);
  for (const { season, says, spot } of told) {
    const label = rows.put(`movement ${season}`, says, spot.x + (aside.get(season) ?? 0));
    labels.push(label);
    leaders.push({ x1: spot.x, y1: spot.y, x2: spot.x, y2: label.box.bottom - CLEAR * unit });
    arrows.push({ ...spot, points: 'down' });
  }
  const middle = (panel.place.left + panel.place.right) / 2;
  labels.push(rows.put('movement', noteText(panel, times, edges.length), middle, true));
  return { lines: linesOf(moved), leaders, arrows, labels };
}

interface Told {
  readonly season: Edge['season'];
  /** Half of the width of what is written, mm. */
  readonly half: number;
  readonly spot: { readonly x: number };
}

/**
 * How far what is written stands aside from its leader where both would not go beside each other over a narrow panel:
 * one above the other, the leader of the upper one would run through the lower one.
 */
function asideOf([one, other]: readonly Told[], unit: number): ReadonlyMap<Edge['season'], number> {
  if (one === undefined || other === undefined) return new Map();
  const margin = PAPER.text * unit;
  if (one.spot.x + one.half + margin < other.spot.x - other.half) return new Map();
  const over = Math.min(margin, (other.spot.x - one.spot.x) / 4);
  return new Map([
    [one.season, over - one.half],
    [other.season, other.half - over],
  ]);
}

function movedOf(movement: Movement, projection: Projection): Moved | string {
  const panel = panelOf(projection, movement);
  if (typeof panel === 'string') return panel;
  const { dry, humid } = movement;
  if (!Number.isFinite(dry) || !Number.isFinite(humid)) {
    return 'The movement of the seasons is not known, so it is not drawn';
  }
  const times = exaggerationFor(panel, movement);
  const edges: Edge[] = [
    { season: 'dry', change: dry, by: (dry / 2) * times, share: 1 / 4 },
    { season: 'humid', change: humid, by: (humid / 2) * times, share: 3 / 4 },
  ];
  return { panel, times, edges: edges.filter(({ change }) => change !== 0) };
}

const linesOf = ({ panel, edges }: Moved): Segment[] =>
  edges.flatMap(({ by }) => edgeLines(panel, by));

function onlySays(
  says: string,
  { projection: { bounds }, top, unit }: DrawingInput,
): MovementDrawing {
  const label = new Rows(top, unit).put('movement', says, (bounds.left + bounds.right) / 2);
  return { lines: [], leaders: [], arrows: [], labels: [label] };
}

function seasonText(season: string, change: number, format: Format): string {
  return `${season}: ${format(Math.abs(change))} ${change < 0 ? 'narrower' : 'wider'}`;
}

const noteText = ({ name }: Panel, times: number, edges: number): string =>
  edges === 0
    ? `${name} does not move with the seasons`
    : `${name}: movement shown ${times === 1 ? 'as large as it is' : `${times} times as large`}`;

/** The panel a movement is about, or why there is none. */
function panelOf(projection: Projection, { parts }: Movement): Panel | string {
  const wanted = parts?.map(plain);
  const pieces =
    wanted === undefined
      ? highest(projection)
      : projection.pieces.filter(({ piece }) => wanted.includes(plain(piece.part.name)));
  const [first] = pieces;
  if (first === undefined) {
    return `No part called ${parts?.join(' or ') ?? 'so'} is drawn, so its movement is not shown`;
  }
  const place = {
    left: Math.min(...pieces.map(({ left }) => left)),
    right: Math.max(...pieces.map(({ right }) => right)),
    bottom: Math.min(...pieces.map(({ bottom }) => bottom)),
    top: Math.max(...pieces.map(({ top }) => top)),
  };
  const { name } = first.piece.part;
  const axis = acrossGrain(first.piece);
  if (axis === undefined) return `The grain of ${name} stands upright, so no movement is shown`;
  return { name, place, axis };
}

const plain = (name: string): string => name.trim().toLowerCase();

/** The pieces of the part with the largest face among those that reach highest. */
function highest({ pieces }: Projection): readonly ViewPiece[] {
  const top = Math.min(...pieces.map(({ near }) => near));
  const face = (p: ViewPiece): number => (p.right - p.left) * (p.top - p.bottom);
  const largest = pieces
    .filter(({ near }) => near === top)
    .reduce<ViewPiece | undefined>(
      (best, p) => (best === undefined || face(p) > face(best) ? p : best),
      undefined,
    );
  return pieces.filter(({ piece }) => piece.part === largest?.piece.part);
}

/** Without a grain direction it runs along the longer side: common practice, no source. */
function acrossGrain({ grain, from, to }: Piece): Axis | undefined {
  if (grain === 'z') return undefined;
  if (grain !== undefined) return grain === 'x' ? 'y' : 'x';
  return to.x - from.x >= to.y - from.y ? 'y' : 'x';
}

function exaggerationFor({ place, axis }: Panel, { dry, humid, exaggeration }: Movement): number {
  const width = axis === 'x' ? place.right - place.left : place.top - place.bottom;
  const loss = Math.max(0, -dry, -humid);
  const fits = (times: number): boolean => loss * times <= width * MOST;
  const given = exaggeration ?? DEFAULT_EXAGGERATION;
  const asked = Number.isFinite(given) && given > 0 ? given : DEFAULT_EXAGGERATION;
  if (fits(asked)) return asked;
  return SMALLER.find((times) => times < asked && fits(times)) ?? 1;
}

/** Both edges of a panel moved outwards; inwards where `by` is below 0. */
function edgeLines({ place, axis }: Panel, by: number): Segment[] {
  const { left, right, bottom, top } = place;
  if (axis === 'y') {
    return [bottom - by, top + by].map((y) => ({ x1: left, y1: y, x2: right, y2: y }));
  }
  return [left - by, right + by].map((x) => ({ x1: x, y1: bottom, x2: x, y2: top }));
}

/** Where the leader of a season's line ends; the two seasons' apart from each other. */
function spotOn({ place, axis }: Panel, by: number, share: number): { x: number; y: number } {
  const { left, right, top } = place;
  if (axis === 'y') return { x: left + share * (right - left), y: top + by };
  return { x: share < 1 / 2 ? left - by : right + by, y: top };
}

/** Rows of text above a view: each text on the lowest row where it is clear of the others. */
class Rows {
  readonly #top: number;
  readonly #unit: number;
  readonly #rows: Rectangle[][] = [];

  constructor(top: number, unit: number) {
    this.#top = top;
    this.#unit = unit;
  }

  /** @param alone true: on a row of its own, above all others */
  put(key: string, text: string, x: number, alone = false): Label {
    const half = (textWidth(text, PAPER.text) * this.#unit) / 2;
    const margin = PAPER.text * this.#unit;
    let row = this.#rows.findIndex(
      (boxes) =>
        !alone && boxes.every((b) => b.right + margin < x - half || b.left - margin > x + half),
    );
    if (row < 0) row = this.#rows.length;
    const y = this.#top + (ABOVE + row * PAPER.next) * this.#unit;
    const box = { left: x - half, right: x + half, bottom: y, top: y + PAPER.text * this.#unit };
    this.#rows[row] = [...(this.#rows[row] ?? []), box];
    return { key, text, x, y, upright: false, box };
  }
}
