import type { CellIds, CellView, Change, Moved, OpenWorkbook, Shown } from '@kerfbook/workbook';
import { nameBeside } from '../page/words-for.ts';
import { wordsFor } from '../session/called.ts';
import type { Anew, Effect, Turned } from '../session/effects.ts';
import { changeSays, type Named } from './change-says.ts';
import { type LeftOut, type LeftOutAt, leftOutOf } from './left-out.ts';
import { nothingMoved, readBeside } from './read-beside.ts';

/** A result that moved, in words. */
export interface DidLine {
  readonly ids: CellIds;
  /** What a maker calls it: what stands beside it, else its name, else where it is. */
  readonly label: string;
  /** Its name, where it has one beside the label. */
  readonly name?: string;
  /** Label and where it is: `Price, Cost B29`. */
  readonly title: string;
  /** Name of its sheet. */
  readonly sheet: string;
  readonly was: string;
  readonly is: string;
  /** By how much, with its sign and unit; none where it is no number now or was none, or lacks pieces. */
  readonly by?: string;
  /** What it is without, now or before: what is cheaper by wood that is missing is no saving. */
  readonly without?: string;
}

/** Values that came to something else without another change, in words. */
export interface Since {
  readonly says: string;
  readonly lines: readonly DidLine[];
  readonly turned: readonly Turned[];
}

/** What a change did, as it is told. */
export interface Digest {
  /** Id of the effect that it is of. */
  readonly id: number;
  readonly effect: Effect;
  /** What was changed: `Length of the top 84 → 96`. */
  readonly says: string;
  /** The name of the cell that was changed, where it has one beside its label. */
  readonly named?: Named;
  /** Cells with a formula that were typed over. */
  readonly overridden: readonly CellIds[];
  /** What is told at once: the results that matter most, then others. */
  readonly lines: readonly DidLine[];
  /** How many of them are results that matter most. */
  readonly first: number;
  /** Checks that stand otherwise, the worst first. */
  readonly turned: readonly Turned[];
  /** How many results moved beside those told at once. */
  readonly more: number;
  /** Those, by sheet: named ones first, and last what moved by less than it shows. */
  readonly others: () => readonly DidLine[];
  readonly since?: Since;
  /** Where no result moved and no check turned: that, and what is made of the changed cells besides. */
  readonly nothing?: string;
}

/** So many lines are told at once. */
const AT_ONCE = 8;
/** Of what moved by less than it shows; what needs more is told as exactly as it is known. */
const MOST_DECIMALS = 12;
/** So many are told at all: who changed what ten thousand cells rest on looks at the sheet. */
export const AT_MOST = 300;

const SINCE: Readonly<Record<Anew, string>> = {
  plan: 'Since then a better buying plan was found:',
  parts: 'Since then the rest of Kerfbook loaded, and these were worked out:',
};

const WORST_FIRST = ['stop', 'unknown', 'care', 'pass'] as const;

/** Puts what a change did into words, as the workbook stands now. */
export function digestOf(effect: Effect, book: OpenWorkbook): Digest {
  const head = changeSays(effect, book);
  const without = leftOutOf(effect, book);
  const inWords = (some: readonly Result[]) => linesOf(some, book, without);
  const results = resultsOf(effect.moved, book, head.of);
  const told = results.slice(0, Math.max(AT_ONCE, results.filter(({ rank }) => rank === 0).length));
  const rest = results.slice(told.length);
  const { since } = effect;
  let others: readonly DidLine[] | undefined;
  return {
    id: effect.id,
    effect,
    says: head.says,
    ...(head.named === undefined ? {} : { named: head.named }),
    overridden: overriddenBy(effect),
    lines: inWords(told),
    first: told.filter(({ rank }) => rank === 0).length,
    turned: worstFirst(effect.turned),
    ...(results.length + effect.turned.length === 0
      ? { nothing: nothingMoved(readBeside(effect, book)) }
      : {}),
    more: rest.length,
    others: () => {
      others ??= inWords(rest.slice(0, AT_MOST));
      return others;
    },
    ...(since === undefined
      ? {}
      : {
          since: {
            says: SINCE[since.why],
            lines: inWords(resultsOf(since.moved, book).slice(0, AT_ONCE)),
            turned: worstFirst(since.turned),
          },
        }),
  };
}

const worstFirst = (turned: readonly Turned[]): readonly Turned[] =>
  WORST_FIRST.flatMap((state) => turned.filter(({ is }) => is.state === state));

/** A result with its place in the order: what matters most, what has a name, the rest, what hardly moved. */
interface Result {
  readonly moved: Moved;
  readonly rank: 0 | 1 | 2 | 3;
  readonly place: number;
}

const keyOf = ({ sheet, row, column }: CellIds): string => `${sheet} ${row} ${column}`;

/** The results among what moved, in the order in which they are told. `but`: the cell that was changed. */
function resultsOf(moved: readonly Moved[], book: OpenWorkbook, but?: CellIds): readonly Result[] {
  const known = new Map<string, number>();
  for (const [place, { at }] of book.names().entries()) {
    const ids = book.idsAt(at);
    if (ids !== undefined) known.set(keyOf(ids), place);
  }
  const most = new Map<string, number>();
  for (const [place, name] of book.results.entries()) {
    const at = book.find(name);
    const ids = at === undefined ? undefined : book.idsAt(at);
    if (ids !== undefined) most.set(keyOf(ids), place);
  }
  const sheets = new Map(book.sheets().map(({ id }, place) => [id, place]));
  const skip = but === undefined ? undefined : keyOf(but);
  const results = moved.flatMap((one): readonly Result[] => {
    const { ids, at, calculated } = one;
    const key = keyOf(ids);
    if (!calculated || key === skip) return [];
    const [first, named] = [most.get(key), known.get(key)];
    const standing = ((sheets.get(at.sheet) ?? 0) * 1e5 + at.row) * 1e3 + at.column;
    if (first !== undefined) return [{ moved: one, rank: 0, place: first }];
    if (named !== undefined) return [{ moved: one, rank: 1, place: named }];
    return [{ moved: one, rank: 2, place: standing }];
  });
  results.sort((a, b) => a.rank - b.rank || a.place - b.place);
  return hardlyLast(results, book);
}

/** Of the results looked at first, those that show what they showed before come last. */
function hardlyLast(results: readonly Result[], book: OpenWorkbook): readonly Result[] {
  const looked = results.slice(0, AT_MOST);
  const hardly = new Set(looked.filter(({ moved }) => showsTheSame(moved, book)));
  if (hardly.size === 0) return results;
  return [
    ...results.filter((one) => !hardly.has(one)),
    ...[...hardly].map((one) => ({ ...one, rank: 3 as const })),
  ];
}

function showsTheSame({ ids, was, is }: Moved, book: OpenWorkbook): boolean {
  const at = book.placeOf(ids);
  return at !== undefined && book.asShown(at, was).text === book.asShown(at, is).text;
}

const linesOf = (
  results: readonly Result[],
  book: OpenWorkbook,
  without: LeftOutAt,
): readonly DidLine[] =>
  results.flatMap(({ moved, rank }) => lineOf(moved, book, rank === 3, without) ?? []);

/** Cells whose formula something typed took the place of. */
function overriddenBy({ way, changes, inverse }: Effect): readonly CellIds[] {
  if (way === 'undone') return [];
  const overrides = (all: readonly Change[]): readonly CellIds[] =>
    all.flatMap((change) =>
      change.change === 'cells'
        ? change.cells
            .filter(({ cell }) => cell?.override !== undefined)
            .map(({ row, column }) => ({ sheet: change.sheet, row, column }))
        : [],
    );
  const before = new Set(overrides(inverse).map(keyOf));
  return overrides(changes).filter((one) => !before.has(keyOf(one)));
}

/** A result in words; nothing where its cell is gone. `finely`: it moved by less than it shows. */
export function lineOf(
  moved: Moved,
  book: OpenWorkbook,
  finely = false,
  without: LeftOutAt = () => undefined,
): DidLine | undefined {
  const { ids, was, is } = moved;
  const at = book.placeOf(ids);
  if (at === undefined) return undefined;
  const cell = book.cell(at);
  const sheet = book.sheet(at.sheet)?.name ?? '';
  const where = `${sheet} ${cell.address}`;
  const label = wordsFor(at, book) ?? cell.name ?? where;
  const name = nameBeside(label, cell.name);
  const shown = [was, is].map((value) => book.asShown(at, value));
  const [before = '', now = ''] = (
    finely ? toldApart(shown.map(exactly)) : shown.map(({ text }) => text)
  ).map((text) => text || 'empty');
  const lacks = lacking(without(at));
  const by = lacks === undefined ? differenceOf(moved, cell, book) : undefined;
  return {
    ids,
    label,
    ...(name === undefined ? {} : { name }),
    title: label === where ? where : `${label}, ${where}`,
    sheet,
    was: before,
    is: now,
    ...(by === undefined ? {} : { by }),
    ...(lacks === undefined ? {} : { without: lacks }),
  };
}

/** What a price is without, in words. */
function lacking(pieces: LeftOut | undefined): string | undefined {
  if (pieces === undefined) return undefined;
  return pieces.is > 0
    ? `without ${counted(`${pieces.is}`, 'piece')}`
    : `before, without ${counted(`${pieces.was}`, 'piece')}`;
}

const exactly = ({ text, exact }: Shown): string => exact ?? text;

const NUMBER = /-?\d[\d,]*(?:\.\d+)?/;

/** Exact numbers with the fewest decimals that tell by how much they differ: what is beyond them is noise. */
function toldApart(texts: readonly string[]): readonly string[] {
  const differ = (all: readonly string[]): number => {
    const [from = Number.NaN, to = Number.NaN] = all.map((text) =>
      Number(NUMBER.exec(text)?.[0].replaceAll(',', '')),
    );
    return Math.abs(to - from);
  };
  const size = differ(texts);
  if (!(size > 0) || texts.some((text) => text.includes('/'))) return texts;
  for (let decimals = 0; decimals <= MOST_DECIMALS; decimals += 1) {
    const short = texts.map((text) => text.replace(NUMBER, (number) => shortTo(number, decimals)));
    if (Math.abs(differ(short) - size) <= size / 10) return short;
  }
  return texts;
}

/** A number with no more than so many decimals. */
const shortTo = (number: string, decimals: number): string =>
  (number.split('.')[1]?.length ?? 0) <= decimals
    ? number
    : String(Number(Number(number.replaceAll(',', '')).toFixed(decimals)));

/** Quantities whose difference is so many points of a hundred. */
const PERCENTS: ReadonlySet<string> = new Set(['percent', 'moisture', 'humidity']);

/** By how much a number moved, written as its cell writes numbers: `+12 in`, `−$390.30`, `+2 points`. */
function differenceOf(
  { was, is }: Moved,
  { at, quantity, unit }: CellView,
  book: OpenWorkbook,
): string | undefined {
  if (was.kind !== 'number' || is.kind !== 'number') return undefined;
  const sign = is.number < was.number ? '−' : '+';
  const shown = sizeOf(was.number, is.number, (number) =>
    book.asShown(at, { kind: 'number', number }),
  );
  // A difference of days is no date, and one of percentages no percentage.
  if (quantity === 'date') return `${sign}${counted(days(was.number, is.number), 'day')}`;
  if (quantity === 'temperature') return `${sign}${counted(shown, 'degree')}`;
  if (quantity !== undefined && PERCENTS.has(quantity)) return `${sign}${counted(shown, 'point')}`;
  if (unit === '') return `${sign}${shown}`;
  return unit === '°' || unit.startsWith('/')
    ? `${sign}${shown}${unit}`
    : `${sign}${shown} ${unit}`;
}

const counted = (many: string, what: string): string => `${many} ${what}${many === '1' ? '' : 's'}`;

const days = (was: number, is: number): string => `${Math.round(Math.abs(is - was) * 100) / 100}`;

/**
 * The size of a difference, so that it fits to what is shown: 26 to 26.4 is 0.4, also where 26.04 stands
 * behind the first. Numbers that show the same differ by what is behind them.
 */
function sizeOf(was: number, is: number, shown: (number: number) => Shown): string {
  const [before, after] = [shown(was), shown(is)];
  if (before.text !== after.text) {
    const decimals = decimalDifference(before.text, after.text);
    if (decimals !== undefined) return decimals;
    const [from, to] = [stands(before), stands(after)];
    const isOwn = (text: number | undefined, own: number): text is number =>
      text !== undefined && Math.abs(text - own) < 0.1;
    if (isOwn(from, was) && isOwn(to, is)) return shown(Math.abs(to - from)).text;
  }
  const difference = shown(Math.abs(is - was));
  if (before.text !== after.text && difference.text !== shown(0).text) return difference.text;
  const [from = '', to = ''] = toldApart([before, after].map(exactly));
  return decimalDifference(from, to) ?? exactly(difference);
}

const DECIMAL = /^-?[\d,]*\.?\d+$/;

/** The difference of two numbers that are written with decimals, with as many. */
function decimalDifference(was: string, is: string): string | undefined {
  if (!DECIMAL.test(was) || !DECIMAL.test(is)) return undefined;
  const [from, to] = [was, is].map((text) => Number(text.replaceAll(',', '')));
  const places = Math.max(...[was, is].map((text) => text.split('.')[1]?.length ?? 0));
  const size = Math.abs((to ?? 0) - (from ?? 0)).toFixed(places);
  // Where all that is shown has its decimals, the difference has them too.
  const bare = places === 0 || sameDecimals(was, is) ? size : `${Number(size)}`;
  return /,/.test(was + is) ? Number(bare).toLocaleString('en-US') : bare;
}

const sameDecimals = (a: string, b: string): boolean =>
  (a.split('.')[1]?.length ?? 0) === (b.split('.')[1]?.length ?? 0);

/** The number that a text with a true fraction stands for. */
function stands({ text, fraction }: Shown): number | undefined {
  if (fraction === undefined) return /^-?\d+$/.test(text) ? Number(text) : undefined;
  const { whole, over, under } = fraction;
  const size = Math.abs(Number(whole === '-' ? 0 : whole)) + Number(over) / Number(under);
  return whole.startsWith('-') ? -size : size;
}
