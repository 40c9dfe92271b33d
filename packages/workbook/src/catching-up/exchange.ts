import {
  type BookDocument,
  type CellDocument,
  joinBooks,
  type Meeting,
  type Spot,
  same,
  settled,
  type Told,
} from '@kerfbook/document';
import { Workbook } from '../workbook.ts';
import { inStep, inUnits, notKin, unlocked } from './in-step.ts';
import { calledIn, entryText } from './listed.ts';

/** A workbook before and after sheets of another one came in. */
export interface JoinStep {
  /** As it was before. */
  readonly before: BookDocument;
  /** With what came in, before anything else was changed. */
  readonly after: BookDocument;
}

/** What came of sheets that took the place of others. */
export interface Exchanged {
  /** It is refused else. */
  readonly ok: true;
  /** The workbook with the others. */
  readonly document: BookDocument;
  /** The same without what was changed since: to exchange them again. */
  readonly step: JoinStep;
  /** Ids of the sheets that came in. */
  readonly sheets: readonly string[];
  /** Names of the sheets that went. */
  readonly gone: readonly string[];
  /** Rows of tables that went with them. */
  readonly rowsGone: number;
  /** What was typed into the sheets that went, and stands in those that came under the same name: `Leg, 3 in`. */
  readonly carried: readonly string[];
  /** What was typed into them, and goes with them. */
  readonly lost: readonly string[];
  /** What the names of both came to (rules J1 to J6), and what is to be looked at. */
  readonly told: readonly Told[];
  /** Sentences about what no longer finds what it rested on. */
  readonly says: readonly string[];
}

/**
 * Puts the sheets of one workbook in the place of those of another that came in before (rule J8): what was there without
 * them keeps what was typed into it since, and so does what came in under a name that both have.
 * @param mine the workbook as it is now
 * @param from the one whose sheets come, in whatever units
 */
export function exchanged(
  { before, after }: JoinStep,
  mine: BookDocument,
  from: BookDocument,
): Exchanged | { readonly ok: false; readonly says: string } {
  const says = notKin(after, mine);
  if (says !== undefined) return { ok: false, says };
  const step = inStep(after, before, mine);
  if (!step.ok) return step;
  const coming = inUnits(from, mine.units);
  if (!coming.ok) return coming;
  const joined = joinBooks(step.theirs, coming.document, undefined, step.mine);
  if (!joined.ok) return joined;
  const toSettle = {
    base: step.base,
    mine: step.mine,
    theirs: joined.document,
    names: { mine: 'your workbook', theirs: from.title },
  };
  const first = settled(toSettle);
  if (!first.ok) return first;
  const choices = first.conflicts.flatMap((conflict) => {
    const { spot } = conflict as Partial<Meeting>;
    if (spot === undefined) return [];
    // What went takes with it what was typed there; anything else is the maker's.
    const which = isGone(spot, joined.document) ? ('theirs' as const) : ('mine' as const);
    return [{ spot, which }];
  });
  const done = settled(toSettle, choices);
  if (!done.ok) return done;
  const kept = keepEntries({ was: step.base, mine: step.mine, now: done.document });
  const there = new Set(kept.document.sheets.map(({ id }) => id));
  return {
    ok: true,
    document: kept.document,
    step: { before: step.theirs, after: joined.document },
    sheets: joined.sheets,
    gone: step.mine.sheets.flatMap(({ id, name }) => (there.has(id) ? [] : [name])),
    rowsGone: rowsGone(step.mine, kept.document),
    carried: kept.carried,
    lost: kept.lost,
    told: joined.told,
    says: done.conflicts.map(({ says }) => says),
  };
}

/** Whether a place that both changed is no longer there in the other workbook. */
function isGone(spot: Spot, other: BookDocument): boolean {
  if (spot.of === 'head') return false;
  if (spot.of === 'cell') {
    const sheet = other.sheets.find(({ id }) => id === spot.sheet);
    const isRow = sheet?.rows.some(({ id }) => id === spot.row) === true;
    return !isRow || !sheet.columns.some(({ id }) => id === spot.column);
  }
  const of = spot.in;
  const home = 'sheet' in of ? other.sheets.find(({ id }) => id === of.sheet) : other;
  const list = (home as unknown as Readonly<Record<string, readonly { readonly id: string }[]>>)?.[
    of.list
  ];
  return list?.some(({ id }) => id === spot.id) !== true;
}

function rowsGone(mine: BookDocument, now: BookDocument): number {
  return mine.sheets.reduce((sum, { id, rows }) => {
    const left = now.sheets.find((one) => one.id === id);
    if (left === undefined) return sum;
    const ids = new Set(left.rows.map((row) => row.id));
    return sum + rows.filter((row) => !ids.has(row.id)).length;
  }, 0);
}

interface Three {
  readonly was: BookDocument;
  readonly mine: BookDocument;
  readonly now: BookDocument;
}

/** Cells by where they stand. */
function cellsOf({ sheets }: BookDocument): ReadonlyMap<string, CellDocument> {
  const cells = new Map<string, CellDocument>();
  for (const { id, rows } of sheets) {
    for (const row of rows) {
      for (const [column, cell] of Object.entries(row.cells ?? {})) {
        cells.set(`${id} ${row.id} ${column}`, cell);
      }
    }
  }
  return cells;
}

const held = (cell: CellDocument = {}) => [cell.value, cell.formula, cell.override, cell.typed];

/** Puts what was typed into cells that went into those of the same name and kind, where these take entries. */
function keepEntries({ was, mine, now }: Three) {
  const [old, own, is] = [cellsOf(was), cellsOf(mine), cellsOf(now)];
  const named = new Map(
    [...is].flatMap(([key, cell]) =>
      cell.name === undefined ? [] : [[cell.name.toLowerCase(), { key, cell }] as const],
    ),
  );
  const book = Workbook.open(unlocked(mine));
  const next = new Map<string, CellDocument>();
  const carried: string[] = [];
  const lost: string[] = [];
  for (const [key, cell] of own) {
    if (is.has(key) || same(held(old.get(key)), held(cell))) continue;
    const [sheet = '', row = '', column = ''] = key.split(' ');
    const at = book.placeOf({ sheet, row, column });
    const text = at === undefined ? '' : entryText(book, at);
    if (at === undefined || text === '') continue;
    const line = `${calledIn(book, at)}, ${text}`;
    const there = named.get(cell.name?.toLowerCase() ?? '');
    if (there === undefined || !takes(there.cell, cell)) {
      lost.push(line);
      continue;
    }
    const { value: _value, typed: _typed, other: _other, ...rest } = there.cell;
    next.set(there.key, {
      ...rest,
      ...(cell.value === undefined ? {} : { value: cell.value }),
      ...(cell.typed === undefined ? {} : { typed: cell.typed }),
    });
    carried.push(line);
  }
  return { document: withCells(now, next), carried, lost };
}

/** Whether an entry of one cell may stand in another. */
const takes = (there: CellDocument, cell: CellDocument): boolean =>
  there.formula === undefined && cell.formula === undefined && there.quantity === cell.quantity;

function withCells(document: BookDocument, cells: ReadonlyMap<string, CellDocument>): BookDocument {
  if (cells.size === 0) return document;
  return {
    ...document,
    sheets: document.sheets.map((sheet) => ({
      ...sheet,
      rows: sheet.rows.map((row) =>
        row.cells === undefined
          ? row
          : {
              ...row,
              cells: Object.fromEntries(
                Object.entries(row.cells).map(([column, cell]) => [
                  column,
                  cells.get(`${sheet.id} ${row.id} ${column}`) ?? cell,
                ]),
              ),
            },
      ),
    })),
  };
}
