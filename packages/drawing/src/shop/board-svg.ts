import { escapeText } from '../svg-text.ts';
import { woodTone } from '../wood-tone.ts';
import { fits, LETTERS, wideIn } from './board-letters.ts';
import type { PlannedBoard, PlannedPanel } from './plan.ts';
import { storyStick } from './story-stick.ts';
import {
  crossOf,
  type Depth,
  type Face,
  grainOf,
  layersOf,
  n,
  ringsOf,
  sidesOf,
  waveOf,
} from './wood-strokes.ts';

/** How a board of a plan is drawn. */
export interface BoardSvgOptions {
  /** Writes a length given in mm, as the workbook writes lengths. */
  readonly format: (mm: number) => string;
  /** Width of a saw cut, mm. */
  readonly kerf: number;
  /** Length that is drawn as wide as the picture, mm: the longest board of a plan. */
  readonly longest: number;
  /** Height of letters where the picture is shown smaller than on paper, units of a picture 1000 wide. */
  readonly letters?: number | undefined;
  /** Lines that its marks are said in, where some have no room beside them; as many as it takes where left out. */
  readonly markLines?: number | undefined;
}

/** How a sheet of a plan is drawn. */
export interface PanelSvgOptions extends Omit<BoardSvgOptions, 'kerf' | 'markLines'> {
  /** What it has of a page, mm: it is made smaller to fit, and its letters are not. As a page of A4 where left out. */
  readonly room?: { readonly width: number; readonly height: number } | undefined;
}

/** Width of the longest board and height of a board, units of the picture. */
const WIDE = 1000;
const MOST_HIGH = 92;
const LEAST_HIGH = 40;
/** So many heights of its letters a piece has at least for two lines of them. */
const TWO_LINES = 2.6;
/** How far the end of a board is seen at the least and at the most: thin stock is told from thick. */
const LEAST_DEEP = 5;
const MOST_DEEP = 14;
/** Up for each unit across. */
const LEAN = 0.62;
/** From one line of letters to the next, of their height. */
const LINE = 1.22;
/** A sheet higher than this is drawn smaller to fit its page, and its letters larger for it. */
const SHEET_HIGH = 480;
/** Letters on paper, mm: 9 pt are 3.175 mm. */
const LEAST_LETTERS = 3.2;
/** A cross smaller than this is a blot. */
const LEAST_CROSS = 9;
/** Less than this is no wood, mm. */
const NEAR = 1e-6;

/**
 * A board as it is sawn and marked out: its face with the grain along it, one edge and one end behind it; pieces in
 * cutting order to scale along the board, a pencil line and a saw cut of its width at each end, strips side by side,
 * waste crossed out. Under it lies a story stick with each mark as it is measured from the left end, so that all of
 * them are laid out at once and no slip adds up.
 */
export function boardSvg(board: PlannedBoard, options: BoardSvgOptions): string {
  const { format, kerf, longest, letters = LETTERS } = options;
  const scale = WIDE / longest;
  const long = board.stock.length * scale;
  const narrowest = Math.min(...board.pieces.map(({ item }) => item.width));
  // Each strip is high enough for its letters: a board is not drawn to scale across.
  const line = Math.max(letters + 4, letters * LINE);
  const strip = line * (board.stock.width / Math.max(narrowest, board.stock.width / 6));
  const high = Math.max(
    strip,
    Math.min(MOST_HIGH, Math.max(LEAST_HIGH, board.stock.width * scale)),
  );
  const saw = Math.max(1.5, kerf * scale);
  const face: Face = { x: 0, y: 0, wide: long, high };
  const depth = depthOf(board.stock.thickness * scale);
  const parts: string[] = [];
  const cutAt = (x: number): string =>
    `<rect class="kb-kerf" x="${n(x)}" y="0" width="${n(saw)}" height="${n(high)}"/>`;
  for (const [i, { item, length, at, strips }] of board.pieces.entries()) {
    const [x, wide] = [at * scale, length * scale];
    const each = item.width / board.stock.width;
    const cut = kerf / board.stock.width;
    const size =
      strips === 1 && item.width >= board.stock.width - 1e-3 ? '' : ` × ${format(item.width)}`;
    const [name, sizes] = [`${i + 1}: ${item.name}`, `${format(length)}${size}`];
    parts.push(cutGroup(`${name} ${sizes}`, strips));
    for (let strip = 0; strip < strips; strip += 1) {
      const y = strip * (each + cut) * high;
      parts.push(
        `<rect class="kb-cut-piece" x="${n(x)}" y="${n(y)}" width="${n(wide)}" height="${n(each * high)}"/>`,
      );
    }
    const [center, tall] = [x + wide / 2, each * high];
    const middle = tall / 2 + letters / 3;
    const isOver = !fits(`${name} ${sizes}`, wide, letters) && tall > letters * TWO_LINES;
    const short = shortened(name, wide, letters);
    if (isOver && short !== undefined && fits(sizes, wide, letters)) {
      parts.push(text(center, middle - letters * 0.6, [short], wide, letters));
      parts.push(text(center, middle + letters * 0.6, [sizes], wide, letters), '</g>');
    } else {
      // What it is tells more than how long it is: its place in the board shows that.
      const labels = [`${name} ${sizes}`, short ?? '', String(i + 1)].filter((one) => one !== '');
      parts.push(text(center, middle, labels, wide, letters), '</g>');
    }
    const ripped = Math.min(1, strips * (each + cut)) * high;
    parts.push(waste({ x, y: ripped, wide, high: high - ripped }, letters));
    if (at + length < board.stock.length - NEAR) parts.push(cutAt(x + wide));
  }
  const left = (from: number, to: number, says?: string): void => {
    if (to - from <= NEAR) return;
    const rest = { x: from * scale, y: 0, wide: (to - from) * scale, high };
    parts.push(waste(rest, letters, says));
  };
  const [first, last] = [board.pieces[0], board.pieces.at(-1)];
  const trimmed = first?.at ?? 0;
  if (trimmed > NEAR) {
    const wide = Math.min(trimmed * scale, saw);
    left(0, trimmed - wide / scale);
    parts.push(
      `<rect class="kb-kerf" x="${n(trimmed * scale - wide)}" y="0" width="${n(wide)}" height="${n(high)}"/>`,
    );
  }
  // What remains, and the end that is trimmed off with it.
  const end = (last === undefined ? 0 : last.at + last.length) + kerf;
  left(end, board.stock.length, board.offcut > NEAR ? `${format(board.offcut)} left` : undefined);
  const marks = marksOf(board);
  const says = `A board ${format(board.stock.length)} long: ${board.pieces
    .map(
      ({ item, length, strips }) =>
        `${strips > 1 ? `${strips} ` : ''}${item.name} ${format(length)}`,
    )
    .join(
      ', ',
    )}${marks.length > 0 ? `; marks from its left end at ${marks.map(format).join(', ')}` : ''}; ${format(board.offcut)} remain${trimmed > NEAR ? `, ${format(trimmed)} trimmed off each end` : ''}`;
  const stick = storyStick(
    marks,
    { scale, long, high, wide: WIDE, letters, depth },
    format,
    options.markLines,
  );
  const material = board.stock.material === '' ? first?.item.material : board.stock.material;
  return picture(
    says,
    { material, face, depth, below: stick.high },
    `${ground(face, seedOf(board.stock.length + trimmed, board.pieces.length), material)}<path class="kb-rings" d="${ringsOf(face, depth)}"/>`,
    [...parts, stick.svg],
  );
}

/** What every board and sheet lies in: its wood, the edge and the end behind its face, and what is drawn on it. */
function picture(
  says: string,
  {
    material,
    face,
    depth,
    below,
  }: {
    readonly material: string | undefined;
    readonly face: Face;
    readonly depth: Depth;
    readonly below: number;
  },
  wood: string,
  parts: readonly string[],
): string {
  const { edge, end } = sidesOf(face, depth);
  const top = depth.up + 2;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" class="kb-board kb-wood-${woodTone(material)}" role="img" viewBox="-2 ${n(-top)} ${FRAME_WIDE} ${n(face.high + below + frameHigh(depth))}">`,
    `<title>${escapeText(says)}</title>`,
    `<path class="kb-board-side" d="${edge}"/><path class="kb-board-end" d="${end}"/>`,
    wood,
    ...parts,
    `<rect class="kb-board-edge" x="0" y="0" width="${n(face.wide)}" height="${n(face.high)}"/>`,
    '</svg>',
  ].join('');
}

/** All boards of a plan are of one scale, however deep they are. */
const FRAME_WIDE = WIDE + MOST_DEEP + 4;

/** What stands above and below the face of a sheet in its picture. */
const frameHigh = ({ up }: Depth): number => up + 4;

/** How high the least letters are in a picture so high that is fitted into a room of a page. */
const lettersIn = ({ width, height }: NonNullable<PanelSvgOptions['room']>, high: number): number =>
  LEAST_LETTERS / Math.min(width / FRAME_WIDE, height / high);

/** The face and the grain along it; what is no wood has none. */
function ground(face: Face, seed: number, material: string | undefined): string {
  const rect = `<rect class="kb-board-face" x="${n(face.x)}" y="${n(face.y)}" width="${n(face.wide)}" height="${n(face.high)}"/>`;
  if (woodTone(material) === 'plain' && (material ?? '') !== '') return rect;
  return `${rect}<path class="kb-board-grain" d="${grainOf(face, seed)}"/>`;
}

const seedOf = (size: number, count: number): number => (Math.round(size) % 97) + count * 5;

const depthOf = (thick: number): Depth => {
  const across = Math.max(LEAST_DEEP, Math.min(MOST_DEEP, thick * 0.75));
  return { across, up: across * LEAN };
};

/** Where a board is marked, mm from its left end: where its trimmed end begins, and where each piece ends. */
function marksOf({ pieces, stock }: PlannedBoard): readonly number[] {
  const [first] = pieces;
  const ends = pieces
    .map(({ at, length }) => at + length)
    .filter((end) => end < stock.length - NEAR);
  return first !== undefined && first.at > NEAR ? [first.at, ...ends] : ends;
}

/** Waste as it is marked: paler, a cross beside the cut, a wavy line over the rest, and what it is. */
function waste({ x, y, wide, high }: Face, letters: number, says?: string): string {
  if (wide <= 0 || high <= 0.5) return '';
  const rect = `<rect class="kb-offcut" x="${n(x)}" y="${n(y)}" width="${n(wide)}" height="${n(high)}"/>`;
  const size = Math.min(wide * 0.7, high * 0.62, 30);
  const middle = y + high / 2;
  const edge = Math.min(7, (wide - size) / 2);
  // A sliver has room for no cross.
  const crossed = size >= LEAST_CROSS;
  const marks = crossed ? [crossOf(x + edge + size / 2, middle, size)] : [];
  const [from, to] = [x + (crossed ? edge + size + 6 : 7), x + wide - 7];
  const told = says !== undefined && fits(says, to - from, letters) ? says : undefined;
  if (told === undefined) marks.push(waveOf(from, to, middle, high));
  else {
    const half = wideIn(told, letters) / 2 + 8;
    const at = (from + to) / 2;
    marks.push(waveOf(from, at - half, middle, high), waveOf(at + half, to, middle, high));
  }
  const written =
    told === undefined
      ? ''
      : text((from + to) / 2, middle + letters / 3, [told], to - from, letters);
  return `${rect}<path class="kb-chalk" d="${marks.join('')}"/>${written}`;
}

/** A sheet as it is cut: pieces to scale with their names and sizes, offcuts crossed out. */
export function panelSvg(
  { stock, pieces, offcuts }: PlannedPanel,
  { format, longest, letters: usual = LETTERS, room }: PanelSvgOptions,
): string {
  const scale = WIDE / longest;
  const [long, high] = [stock.length * scale, stock.width * scale];
  const depth = depthOf(stock.thickness * scale);
  const letters = Math.max(
    usual * Math.max(1, high / SHEET_HIGH),
    room === undefined ? 0 : lettersIn(room, high + frameHigh(depth)),
  );
  const parts = pieces.flatMap(({ item, x, y, length, width }, i) => {
    const [left, top, wide, tall] = [x, y, length, width].map((mm) => mm * scale) as [
      number,
      number,
      number,
      number,
    ];
    const size = `${format(length)} × ${format(width)}`;
    const middle = top + tall / 2 + letters / 3;
    const two = tall > letters * TWO_LINES;
    const over = text(
      left + wide / 2,
      two ? middle - letters * 0.6 : middle,
      [shortened(`${i + 1}: ${item.name}`, wide, letters) ?? '', String(i + 1)].filter(
        (one) => one !== '',
      ),
      tall < letters ? 0 : wide,
      letters,
    );
    return [
      cutGroup(`${i + 1}: ${item.name} ${size}`, 1),
      `<rect class="kb-cut-piece" x="${n(left)}" y="${n(top)}" width="${n(wide)}" height="${n(tall)}"/>`,
      over,
      two ? text(left + wide / 2, middle + letters * 0.6, [size], wide, letters) : '',
      '</g>',
    ];
  });
  const rest = offcuts.map(({ x, y, length, width }) =>
    waste({ x: x * scale, y: y * scale, wide: length * scale, high: width * scale }, letters),
  );
  const says = `A sheet ${format(stock.length)} by ${format(stock.width)}: ${pieces
    .map(({ item }) => item.name)
    .join(', ')}`;
  const face: Face = { x: 0, y: 0, wide: long, high };
  const material = stock.material === '' ? pieces[0]?.item.material : stock.material;
  return picture(
    says,
    { material, face, depth, below: 0 },
    `${ground(face, seedOf(stock.length, pieces.length), material)}<path class="kb-rings" d="${layersOf(face, depth)}"/>`,
    [...rest, ...parts],
  );
}

/** What is cut, told whole where a pointer asks for it: a small piece has no room for its name. */
const cutGroup = (says: string, strips: number): string =>
  `<g class="kb-cut"><title>${escapeText(strips === 1 ? says : `${says}, ${strips} side by side`)}</title>`;

/** So many letters of `1: Leg` are the least that its name is known by. */
const LEAST_SHOWN = 6;

/** A label as far as there is room for it, with an ellipsis for what is cut off; nothing where too little is left. */
function shortened(says: string, room: number, size: number): string | undefined {
  if (fits(says, room, size)) return says;
  const most = Math.floor((room - 6) / wideIn('1', size)) - 1;
  return most < LEAST_SHOWN ? undefined : `${says.slice(0, most).trimEnd()}…`;
}

/** The first of the labels that there is room for, in letters of one size; none where there is none. */
function text(x: number, y: number, labels: readonly string[], room: number, size: number): string {
  const says = labels.find((one) => fits(one, room, size));
  if (says === undefined) return '';
  return `<text x="${n(x)}" y="${n(y)}" font-size="${n(size)}" text-anchor="middle">${escapeText(says)}</text>`;
}
