import {
  type BenchLine,
  cutAs,
  type PiecesByKey,
  type Ticked,
  type Ticks,
  tickKey,
  withPieces,
} from './ticks.ts';

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
  /** True: a side lacks more than a hair, and no wood can be put back. */
  readonly isShort: boolean;
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
  const alike = (key: string, rows: readonly string[]): readonly BenchLine[] => {
    const was = cutAs(key);
    return linesFor(was.name, rows, lines).filter((line) =>
      SIDES.every(([side]) => write(line[side]) === write(was[side])),
    );
  };
  const isListed = (key: string, { rows }: Ticked): boolean =>
    known.has(key) || alike(key, rows).length > 0;
  const asCut = unlessGood(kept, isListed);
  let ticks: Ticks = asCut;
  for (const line of lines) {
    // Pieces of a line are alike: where fewer are wanted, the cut ones count first.
    ticks = withMore(without(ticks, tickKey(line)), line, asCut[tickKey(line)]);
  }
  const wrong: WrongSize[] = [];
  const gone: CutBefore[] = [];
  for (const [key, { pieces, rows }] of Object.entries(asCut)) {
    if (known.has(key)) continue;
    const was = cutAs(key);
    const size = SIDES.map(([side]) => write(was[side]));
    const nowOf = linesFor(was.name, rows, lines);
    const same = alike(key, rows);
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
      isShort: SIDES.some(([side]) => line[side] - was[side] > HAIR),
    });
  }
  const over = lines.flatMap((line): CutOver[] => {
    const cut = ticks[tickKey(line)]?.pieces.length ?? 0;
    return cut > line.count ? [{ line, cut }] : [];
  });
  return { ticks, wrong, gone, over };
}

/** A sixteenth of an inch, mm: what a maker may let pass of a piece. Common practice, no source. */
const HAIR = 25.4 / 16;

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

/**
 * What was ticked off as it was cut, where the size that it was good for is not listed any more: what was cut at 400
 * and good for 410 fits 400 again, and for 420 it is one cut at 400.
 */
function unlessGood(kept: Ticks, isListed: (key: string, one: Ticked) => boolean): Ticks {
  let ticks: Ticks = {};
  const add = (key: string, pieces: readonly number[], rows: readonly string[]): void => {
    const own = ticks[key];
    if (pieces.length === 0) return;
    const all = filled(own?.pieces ?? [], pieces, Number.POSITIVE_INFINITY);
    const both = new Set([...(own?.rows ?? []), ...rows]);
    ticks = { ...ticks, [key]: { ...own, pieces: all.now, rows: [...both] } };
  };
  for (const [key, one] of Object.entries(kept)) {
    if (isListed(key, one)) ticks = { ...ticks, [key]: one };
  }
  for (const [key, one] of Object.entries(kept)) {
    if (isListed(key, one)) continue;
    const others = Object.entries(one.cutAs ?? {});
    const elsewhere = new Set(others.flatMap(([, pieces]) => pieces));
    add(
      key,
      one.pieces.filter((piece) => !elsewhere.has(piece)),
      one.rows,
    );
    for (const [cut, pieces] of others) add(cut, pieces, one.rows);
  }
  return ticks;
}

/** Pieces kept by a key as pieces of lines, each line filled before the next; what is too many stays with the last. */
function carried(ticks: Ticks, key: string, lines: readonly BenchLine[]): Ticks {
  const was = ticks[key];
  let next = without(ticks, key);
  let left = was?.pieces ?? [];
  for (const [i, line] of lines.entries()) {
    const own = next[tickKey(line)]?.pieces ?? [];
    const free = Math.max(0, line.count - own.length);
    const here = i === lines.length - 1 ? left : left.slice(0, free);
    left = left.slice(here.length);
    next = withMore(next, line, { ...was, pieces: here });
  }
  return next;
}

/** The same with more pieces of a line, each with what it was cut as. */
function withMore(
  ticks: Ticks,
  line: BenchLine,
  more: Pick<Ticked, 'pieces' | 'cutAs'> | undefined,
): Ticks {
  const own = ticks[tickKey(line)];
  const { now, where } = filled(own?.pieces ?? [], more?.pieces ?? [], line.count);
  const cut: Record<string, readonly number[]> = { ...own?.cutAs };
  for (const [key, pieces] of Object.entries(more?.cutAs ?? {})) {
    const here = pieces.flatMap((piece) => where.get(piece) ?? []);
    cut[key] = [...(cut[key] ?? []), ...here];
  }
  return withPieces(ticks, line, now, cut);
}

/** Pieces with others: each at its own place where that is free, else at the next that is. */
function filled(
  own: readonly number[],
  more: readonly number[],
  count: number,
): { readonly now: readonly number[]; readonly where: ReadonlyMap<number, number> } {
  const taken = new Set(own);
  const where = new Map<number, number>();
  for (const piece of more) {
    if (piece >= count || taken.has(piece)) continue;
    taken.add(piece);
    where.set(piece, piece);
  }
  let next = 0;
  for (const piece of more) {
    if (where.has(piece)) continue;
    while (taken.has(next)) next++;
    taken.add(next);
    where.set(piece, next);
  }
  return { now: [...taken], where };
}

function without(ticks: Ticks, key: string): Ticks {
  const { [key]: _was, ...rest } = ticks;
  return rest;
}

/** The same with pieces of another size taken for pieces of their part all the same; what they were cut as stays known. */
export function stillGood(ticks: Ticks, { key, line, pieces }: WrongSize): Ticks {
  const cut: PiecesByKey = { [key]: pieces };
  return withMore(without(ticks, key), line, { pieces, cutAs: cut });
}

/** The same without pieces that are cut again, or of no use any more. */
export const forgotten = (ticks: Ticks, { key }: CutBefore): Ticks => without(ticks, key);

/** The same with no more pieces of a line than are wanted. */
export const trimmed = (ticks: Ticks, { line }: CutOver): Ticks =>
  withPieces(
    ticks,
    line,
    (ticks[tickKey(line)]?.pieces ?? []).filter((piece) => piece < line.count),
  );
