import { escapeText } from '../svg-text.ts';
import type { PlannedBoard, PlannedPanel } from './plan.ts';

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
}

/** Width of the picture and height of a board in it, units of the picture. */
const WIDE = 1000;
const MOST_HIGH = 92;
const LEAST_HIGH = 40;
/** So many heights of its letters a piece has at least for two lines of them. */
const TWO_LINES = 2.6;
/** Between the lines of a hatching. */
const HATCH = 9;
/** Of letters: 9 pt and a little more where the picture is as wide as a page of A4 within its margins. */
const LETTERS = 18;
/** What a letter takes of its height, of Source Sans 3. */
const LETTER_WIDE = 0.54;
/** A sheet higher than this is drawn smaller to fit its page, and its letters larger for it. */
const SHEET_HIGH = 480;

/**
 * A board as it is cut: pieces in cutting order to scale along the board, saw cuts black, strips side
 * by side, the offcut hatched. Line widths after ISO 128 at print size.
 */
export function boardSvg(board: PlannedBoard, options: BoardSvgOptions): string {
  const { format, kerf, longest, letters = LETTERS } = options;
  const scale = WIDE / longest;
  const long = board.stock.length * scale;
  const narrowest = Math.min(...board.pieces.map(({ item }) => item.width));
  // Each strip is high enough for its letters: a board is not drawn to scale across.
  const strip = (letters + 4) * (board.stock.width / Math.max(narrowest, board.stock.width / 6));
  const high = Math.max(
    strip,
    Math.min(MOST_HIGH, Math.max(LEAST_HIGH, board.stock.width * scale)),
  );
  const parts: string[] = [];
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
    if (isOver && fits(name, wide, letters) && fits(sizes, wide, letters)) {
      parts.push(text(center, middle - letters * 0.6, [name], wide, letters));
      parts.push(text(center, middle + letters * 0.6, [sizes], wide, letters), '</g>');
    } else {
      // What it is tells more than how long it is: its place in the board shows that.
      const labels = [`${name} ${sizes}`, name, `${i + 1}: ${format(length)}`, String(i + 1)];
      parts.push(text(center, middle, labels, wide, letters), '</g>');
    }
    if (at + length < board.stock.length - 1e-6) {
      const saw = Math.max(1.5, kerf * scale);
      parts.push(
        `<rect class="kb-kerf" x="${n(x + wide)}" y="0" width="${n(saw)}" height="${n(high)}"/>`,
      );
    }
  }
  const left = (from: number, to: number): void => {
    if (to - from <= 1e-6) return;
    const [x, wide] = [from * scale, (to - from) * scale];
    parts.push(
      `<rect class="kb-offcut" x="${n(x)}" y="0" width="${n(wide)}" height="${n(high)}"/>`,
      `<path class="kb-hatch" d="${hatch(x, wide, high)}"/>`,
    );
  };
  const [first, last] = [board.pieces[0], board.pieces.at(-1)];
  const trimmed = first?.at ?? 0;
  if (trimmed > 1e-6) {
    const saw = Math.min(trimmed * scale, Math.max(1.5, kerf * scale));
    left(0, trimmed - saw / scale);
    parts.push(
      `<rect class="kb-kerf" x="${n(trimmed * scale - saw)}" y="0" width="${n(saw)}" height="${n(high)}"/>`,
    );
  }
  // What remains, and the end that is trimmed off with it.
  left((last === undefined ? 0 : last.at + last.length) + kerf, board.stock.length);
  const says = `A board ${format(board.stock.length)} long: ${board.pieces
    .map(
      ({ item, length, strips }) =>
        `${strips > 1 ? `${strips} ` : ''}${item.name} ${format(length)}`,
    )
    .join(
      ', ',
    )}; ${format(board.offcut)} remain${trimmed > 1e-6 ? `, ${format(trimmed)} trimmed off each end` : ''}`;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" class="kb-board" role="img" viewBox="-2 -2 ${WIDE + 4} ${n(high + 4)}">`,
    `<title>${escapeText(says)}</title>`,
    ...parts,
    `<rect class="kb-board-edge" x="0" y="0" width="${n(long)}" height="${n(high)}"/>`,
    '</svg>',
  ].join('');
}

/** A sheet as it is cut: pieces to scale with their names and sizes, offcuts hatched. */
export function panelSvg(
  { stock, pieces, offcuts }: PlannedPanel,
  { format, longest, letters: usual = LETTERS }: Omit<BoardSvgOptions, 'kerf'>,
): string {
  const scale = WIDE / longest;
  const [long, high] = [stock.length * scale, stock.width * scale];
  const letters = usual * Math.max(1, high / SHEET_HIGH);
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
      [`${i + 1}: ${item.name}`, String(i + 1)],
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
  const waste = offcuts.flatMap(({ x, y, length, width }) => [
    `<g transform="translate(0 ${n(y * scale)})"><path class="kb-hatch" d="${hatch(x * scale, length * scale, width * scale)}"/></g>`,
  ]);
  const says = `A sheet ${format(stock.length)} by ${format(stock.width)}: ${pieces
    .map(({ item }) => item.name)
    .join(', ')}`;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" class="kb-board" role="img" viewBox="-2 -2 ${WIDE + 4} ${n(high + 4)}">`,
    `<title>${escapeText(says)}</title>`,
    ...waste,
    ...parts,
    `<rect class="kb-board-edge" x="0" y="0" width="${n(long)}" height="${n(high)}"/>`,
    '</svg>',
  ].join('');
}

/** Lines at 45 degrees over a rectangle that begins at x, cut off at its edges. */
function hatch(x: number, wide: number, high: number): string {
  const lines: string[] = [];
  for (let at = HATCH / 2; at < wide + high; at += HATCH) {
    const from = { x: Math.min(at, wide), y: Math.max(0, at - wide) };
    const to = { x: Math.max(0, at - high), y: Math.min(at, high) };
    lines.push(`M${n(x + from.x)} ${n(from.y)}L${n(x + to.x)} ${n(to.y)}`);
  }
  return lines.join('');
}

/** What is cut, told whole where a pointer asks for it: a small piece has no room for its name. */
const cutGroup = (says: string, strips: number): string =>
  `<g class="kb-cut"><title>${escapeText(strips === 1 ? says : `${says}, ${strips} side by side`)}</title>`;

const fits = (says: string, room: number, size: number): boolean =>
  says.length * size * LETTER_WIDE + 6 <= room;

/** The first of the labels that there is room for, in letters of one size; none where there is none. */
function text(x: number, y: number, labels: readonly string[], room: number, size: number): string {
  const says = labels.find((one) => fits(one, room, size));
  if (says === undefined) return '';
  return `<text x="${n(x)}" y="${n(y)}" font-size="${n(size)}" text-anchor="middle">${escapeText(says)}</text>`;
}

const n = (value: number): string => String(Number(value.toFixed(2)));
