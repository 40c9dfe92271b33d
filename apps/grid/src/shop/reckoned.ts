import { type BenchLine, cutAs, type Ticks, tickKey, withPieces } from './ticks.ts';

/** Pieces that were cut at a size the list no longer has. */
export interface CutBefore {
  /** What they are kept by. */
  readonly key: string;
  readonly name: string;
  /** Which of the line's pieces they were, counted from 0. */
  readonly pieces: readonly number[];
  /** `28 1/4 long`: the sides that differ now, or the whole size where several do. */
  readonly size: string;
}

/** Pieces whose part has another size now. */
export interface WrongSize extends CutBefore {
  readonly line: BenchLine;
  /** The same sides as they are now: `29`. */
  readonly now: string;
}

/** Pieces of a line beyond those that are wanted. */
export interface CutOver {
  readonly line: BenchLine;
  readonly cut: number;
}

/** What was ticked off, held against what is to be cut now: each tick is somewhere in it. */
export interface Reckoned {
  /** By the lines as they are now; pieces at other sizes as they were kept. */
  readonly ticks: Ticks;
  readonly wrong: readonly WrongSize[];
  /** Cut for what the list does not have any more. */
  readonly gone: readonly CutBefore[];
  readonly over: readonly CutOver[];
}

/**
 * Holds what was ticked off against the list as it is now. A piece whose part only has another name, or stands in
 * another row, is as cut as before; of one that has another size the maker is told.
 * @param write as the list writes sizes: what reads the same is cut alike
 */
export function reckon(
  kept: Ticks,
  lines: readonly BenchLine[],
  write: (mm: number) => string,
): Reckoned {
  const known = new Set(lines.map(tickKey));
  let ticks: Ticks = kept;
  for (const line of lines) {
    const pieces = kept[tickKey(line)]?.pieces ?? [];
    // Pieces of a line are alike: where fewer are wanted, the cut ones count first.
    ticks = withPieces(ticks, line, filled([], pieces, line.count));
  }
  const wrong: WrongSize[] = [];
  const gone: CutBefore[] = [];
  for (const [key, { pieces, rows }] of Object.entries(kept)) {
    if (known.has(key)) continue;
    const was = cutAs(key);
    const size = SIDES.map(([side]) => write(was[side]));
    const nowOf = linesFor(was.name, rows, lines);
    const same = nowOf.filter((line) => SIDES.every(([side], i) => write(line[side]) === size[i]));
    if (same.length > 0) {
      ticks = carried(ticks, key, same);
      continue;
    }
    const [line] = nowOf;
    if (line === undefined) {
      gone.push({ key, name: was.name, pieces, size: size.join(' × ') });
      continue;
    }
    const own = SIDES.map(([side]) => write(line[side]));
    const other = SIDES.flatMap(([, says], i) => (own[i] === size[i] ? [] : [{ says, i }]));
    const [one] = other;
    const isOne = other.length === 1 && one !== undefined;
    wrong.push({
      key,
      name: line.name,
      pieces,
      line,
      size: isOne ? `${size[one.i]} ${one.says}` : size.join(' × '),
      now: isOne ? `${own[one.i]}` : own.join(' × '),
    });
  }
  const over = lines.flatMap((line): CutOver[] => {
    const cut = ticks[tickKey(line)]?.pieces.length ?? 0;
    return cut > line.count ? [{ line, cut }] : [];
  });
  return { ticks, wrong, gone, over };
}

const SIDES = [
  ['thickness', 'thick'],
  ['width', 'wide'],
  ['length', 'long'],
] as const;

/** The lines of the rows that pieces were cut for, or of their name where those rows are gone. */
function linesFor(
  name: string,
  rows: readonly string[],
  lines: readonly BenchLine[],
): readonly BenchLine[] {
  const own = lines.filter((line) => line.rows.some((row) => rows.includes(row)));
  return own.length > 0 ? own : lines.filter((line) => line.name === name);
}

/** Pieces kept by a key as pieces of lines, each line filled before the next; what is too many stays with the last. */
function carried(ticks: Ticks, key: string, lines: readonly BenchLine[]): Ticks {
  const { [key]: was, ...rest } = ticks;
  let next: Ticks = rest;
  let left = was?.pieces ?? [];
  for (const [i, line] of lines.entries()) {
    const own = next[tickKey(line)]?.pieces ?? [];
    const free = Math.max(0, line.count - own.length);
    const here = i === lines.length - 1 ? left : left.slice(0, free);
    left = left.slice(here.length);
    next = withPieces(next, line, filled(own, here, line.count));
  }
  return next;
}

/** Pieces with others: each at its own place where that is free, else at the next that is. */
function filled(own: readonly number[], more: readonly number[], count: number): readonly number[] {
  const taken = new Set(own);
  const late: number[] = [];
  for (const piece of more) {
    if (piece < count && !taken.has(piece)) taken.add(piece);
    else late.push(piece);
  }
  let next = 0;
  for (const _ of late) {
    while (taken.has(next)) next++;
    taken.add(next);
  }
  return [...taken];
}

/** The same with pieces of another size taken for pieces of their part all the same. */
export const stillGood = (ticks: Ticks, { key, line }: WrongSize): Ticks =>
  carried(ticks, key, [line]);

/** The same without pieces that are cut again, or of no use any more. */
export function forgotten(ticks: Ticks, { key }: CutBefore): Ticks {
  const { [key]: _was, ...rest } = ticks;
  return rest;
}

/** The same with no more pieces of a line than are wanted. */
export const trimmed = (ticks: Ticks, { line }: CutOver): Ticks =>
  withPieces(
    ticks,
    line,
    (ticks[tickKey(line)]?.pieces ?? []).filter((piece) => piece < line.count),
  );
