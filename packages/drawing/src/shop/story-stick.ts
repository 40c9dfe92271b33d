import { escapeText } from '../svg-text.ts';
import { fits, wideIn } from './board-letters.ts';
import { type Depth, footOf, n } from './wood-strokes.ts';

/** Between a board and the stick below it. */
const STICK_OFF = 3;
/** Free between 0 at the end of the stick and its first mark. */
const BESIDE_END = 40;
/** Where 0 stands, from the end. */
const ZERO_AT = 5;
/** From the line that leads down from a mark to its number. */
const BESIDE_LINE = 4;
/** From one line of letters to the next, of their height. */
const LINE = 1.2;
/** Lines of numbers: so many marks so close are no board that anyone saws. */
const MOST_LINES = 6;

/** The board that a stick lies below, units of the picture; `wide`: what the picture has of room. */
export interface OverStick {
  readonly scale: number;
  readonly long: number;
  readonly high: number;
  readonly wide: number;
  readonly letters: number;
  readonly depth: Depth;
}

/** A number and where it stands: beside the mark at `x`, on the stick (line 0) or below it. */
interface Put {
  readonly says: string;
  readonly x: number;
  readonly line: number;
  readonly side: 'start' | 'end';
}

/**
 * The stick below a board: its marks, and each said from its left end. What has no room beside its mark stands below the
 * stick, at the end of a line that leads down from it; on one line what has none is left out.
 * @param marks mm from the left end, in order
 * @param lines how many lines of numbers there may be, the one on the stick among them
 */
export function storyStick(
  marks: readonly number[],
  about: OverStick,
  format: (mm: number) => string,
  lines = MOST_LINES,
): { readonly svg: string; readonly high: number } {
  const { scale, long, high, letters, depth } = about;
  const top = high + STICK_OFF;
  const tall = letters + 8;
  const foot = Math.min(9, tall * 0.4);
  const aside = foot * 0.55 + 3;
  const all = putBeside(marks, { ...about, aside }, format, lines);
  // Lines that nothing stands on are none.
  const used = [...new Set([0, ...all.map(({ line }) => line)])].sort((a, b) => a - b);
  const baseOf = (line: number): number => {
    const under = used.indexOf(line);
    const beside = top + tall / 2 + letters / 3 + 1;
    return under === 0 ? beside : beside + tall / 2 + (under - 0.5) * letters * LINE;
  };
  const numbers = all.map(({ says, x, line, side }) => {
    const off = (side === 'start' ? 1 : -1) * (line === 0 ? aside : BESIDE_LINE);
    return `<text x="${n(x + off)}" y="${n(baseOf(line))}" font-size="${n(letters)}" text-anchor="${side}">${escapeText(says)}</text>`;
  });
  // Beside a first mark near the end, 0 would read as one number with it.
  if (hasZero(marks, { ...about, aside })) {
    numbers.unshift(
      `<text x="${n(ZERO_AT)}" y="${n(baseOf(0))}" font-size="${n(letters)}" text-anchor="start">0</text>`,
    );
  }
  const pencil = [
    // Squared over the edge behind, across the face and down to the stick.
    ...marks.map((mark) => {
      const x = mark * scale;
      return `M${n(x + depth.across)} ${n(-depth.up)}L${n(x)} 0V${n(top)}${footOf(x, top, foot)}`;
    }),
    ...all.flatMap(({ x, line }) => (line === 0 ? [] : [`M${n(x)} ${n(top)}V${n(baseOf(line))}`])),
  ];
  const svg = [
    '<g class="kb-stick">',
    `<rect class="kb-stick-lath" x="0" y="${n(top)}" width="${n(long)}" height="${n(tall)}"/>`,
    `<path class="kb-pencil" d="${pencil.join('')}"/>`,
    ...numbers,
    '</g>',
  ].join('');
  return { svg, high: STICK_OFF + tall + (used.length - 1) * letters * LINE };
}

type OnStick = OverStick & { readonly aside: number };

const hasZero = (marks: readonly number[], { scale, letters, aside }: OnStick): boolean =>
  (marks[0] ?? 0) * scale > 2 * aside + wideIn('0', letters) + BESIDE_END;

/** Where each number stands; what has no room is left out. */
function putBeside(
  marks: readonly number[],
  about: OnStick,
  format: (mm: number) => string,
  lines: number,
): readonly Put[] {
  const { scale, long, wide, letters, aside } = about;
  /** Up to where each line is taken. */
  const free = Array.from({ length: lines }, () => 0);
  if (hasZero(marks, about)) free[0] = ZERO_AT + wideIn('0', letters);
  const all: Put[] = [];
  for (const [i, mark] of marks.entries()) {
    const [x, says, next] = [mark * scale, format(mark), marks[i + 1]];
    const offOf = (line: number): number => (line === 0 ? aside : BESIDE_LINE);
    // The line that leads down to a number runs over none.
    const leads = (line: number): boolean => free.slice(1, line).every((taken) => taken <= x);
    const toNext = (line: number): number => {
      if (next === undefined) return line === 0 ? long : wide;
      return line === 0 ? next * scale - aside - wideIn(format(next), letters) - 6 : next * scale;
    };
    /** On the left of its mark, where the piece is; else on its right, where that takes no other's room. */
    const beside = (line: number, to: number): Put['side'] | undefined => {
      if (!leads(line)) return undefined;
      if (fits(says, x - offOf(line) - (free[line] ?? 0), letters)) return 'end';
      const from = Math.max(x, free[line] ?? 0);
      return from === x && fits(says, to - x - offOf(line), letters) ? 'start' : undefined;
    };
    const order = free.map((_, line) => line);
    const found =
      order.find((line) => beside(line, toNext(line)) !== undefined) ??
      // As far down as there is a line: those that come next lead down to numbers above it.
      [...order.slice(1)].reverse().find((line) => beside(line, wide) !== undefined);
    const line = found ?? 0;
    const side = beside(line, toNext(line)) ?? beside(line, wide);
    for (let over = 0; over <= line; over += 1) {
      free[over] = Math.max(free[over] ?? 0, x + offOf(over));
    }
    if (found === undefined || side === undefined) continue;
    if (side === 'start') free[line] = x + offOf(line) + wideIn(says, letters);
    all.push({ says, x, line, side });
  }
  return all;
}
