import {
  type At,
  type BookDocument,
  BookState,
  type CellDocument,
  type Change,
  type CheckDocument,
  changesBetween,
  keptByIds,
} from '@kerfbook/document';
import type { OpenWorkbook } from '../api.ts';
import { Workbook } from '../workbook.ts';

/** One place at which two states of a workbook differ. */
export interface Difference {
  /** `Base!B7`, where it is now; where it was, when it is gone. */
  readonly address: string;
  /** What stands at the left of it or where it stands in a table; its name where there is neither. */
  readonly label: string;
  /** As it was shown or typed; `''` where it was not there. */
  readonly before: string;
  /** As it is shown or typed; `''` where it is gone. */
  readonly after: string;
  /** `typed`: what it holds changed; `result`: only what its formula came to. */
  readonly kind: 'typed' | 'result' | 'check' | 'sheet';
  /** Where it is now; left out where it is gone, and of what is no cell. */
  readonly at?: At;
}

/**
 * What changed from an earlier state of a workbook to what it is now, in the order of now. Cells are the
 * same where their row and column are, so rows put in between make no difference of those below. Where
 * nothing differs that values may come of, none are worked out.
 */
export function compareBooks(before: BookDocument, book: OpenWorkbook): readonly Difference[] {
  const after = book.document();
  const was = keptByIds(BookState.of(before));
  const changes = changesBetween(was, BookState.of(after));
  const shows = changes.some((change) => mayShow(change, was));
  return [
    ...sheetDifferences(before, after),
    ...(shows ? cells({ before, after, changes }, book) : []),
    ...checks(was.document(), after),
  ];
}

/** Whether any cell may show or say something else after a change. */
function mayShow(change: Change, was: BookState): boolean {
  if (change.change === 'head') return isOfAll(change);
  if (change.change === 'cells') {
    const sheet = was.sheet(change.sheet);
    return change.cells.some(({ row, column, cell }) => {
      const old = sheet?.rows[sheet.rowIndex(row) ?? -1]?.cells.get(column);
      return saysSo(old) !== saysSo(cell ?? undefined);
    });
  }
  if (change.list === 'checks') return false;
  if (change.change !== 'set') return true;
  return change.list === 'tables' || 'name' in change.set;
}

/** What of a cell is shown or used by formulas. */
function saysSo(cell: CellDocument = {}): string {
  const { role: _role, remark: _remark, allow: _allow, style: _style, ...rest } = cell;
  return JSON.stringify(Object.entries(rest).sort());
}

/** Whether a change may show in every number. */
const isOfAll = (change: Change): boolean =>
  change.change === 'head' && ('units' in change.set || 'currency' in change.set);

function sheetDifferences(before: BookDocument, after: BookDocument): Difference[] {
  const was = new Map(before.sheets.map((sheet) => [sheet.id, sheet.name]));
  const is = new Map(after.sheets.map((sheet) => [sheet.id, sheet.name]));
  const ids = [...new Set([...is.keys(), ...was.keys()])];
  return ids.flatMap((id) => {
    const [from = '', to = ''] = [was.get(id), is.get(id)];
    if (from === to) return [];
    return [
      { address: to || from, label: 'Sheet', before: from, after: to, kind: 'sheet' as const },
    ];
  });
}

interface Seen {
  readonly entry: string;
  /** As it is kept, by ids. */
  readonly formula: string | undefined;
  readonly shown: string;
  readonly address: string;
  readonly at: At;
  readonly label: () => string;
}

interface Compared {
  readonly before: BookDocument;
  readonly after: BookDocument;
  readonly changes: readonly Change[];
}

function cells({ before, after, changes }: Compared, book: OpenWorkbook): Difference[] {
  // What is worked out in parts is not known yet.
  const [old, now] = [Workbook.open(before), book.pending ? Workbook.open(after) : book];
  const [had, has] = [keptCells(old.document()), keptCells(after)];
  const touched = touchedBy(changes);
  const keys = [...new Set([...has.keys(), ...had.keys()])].filter((key) => {
    const [from, to] = [had.get(key), has.get(key)];
    if (touched === 'all' || touched.has(key)) return true;
    return from === undefined || to === undefined || isFormula(from) || isFormula(to);
  });
  return keys.flatMap((key) => {
    const [from, to] = [seenIn(old, had.get(key)), seenIn(now, has.get(key))];
    const here = to ?? from;
    if (here === undefined || (from?.entry === to?.entry && from?.shown === to?.shown)) return [];
    // The same formula written with other addresses is no change: what it comes to is.
    const sameFormula = from?.formula !== undefined && from.formula === to?.formula;
    const typed = from?.entry !== to?.entry && !sameFormula;
    if (!typed && from?.shown === to?.shown) return [];
    const words = (seen: Seen | undefined): string =>
      typed && seen?.entry.startsWith('=') === true
        ? `${seen.shown} (${seen.entry})`
        : (seen?.shown ?? '');
    return [
      {
        address: here.address,
        label: here.label(),
        before: words(from),
        after: words(to),
        kind: typed ? 'typed' : 'result',
        ...(to === undefined ? {} : { at: to.at }),
      } as const,
    ];
  });
}

/** Cells that changes put in place, by the ids of their sheet, row and column. */
function touchedBy(changes: readonly Change[]): ReadonlySet<string> | 'all' {
  if (changes.some(isOfAll)) return 'all';
  const touched = new Set<string>();
  for (const change of changes) {
    if (change.change !== 'cells') continue;
    for (const { row, column } of change.cells) touched.add(`${change.sheet} ${row} ${column}`);
  }
  return touched;
}

/** A cell that is kept, and where it stands. */
interface KeptCell {
  readonly at: At;
  readonly sheet: string;
  readonly cell: CellDocument;
}

const isFormula = ({ cell }: KeptCell): boolean => cell.formula !== undefined;

function keptCells(document: BookDocument): Map<string, KeptCell> {
  const kept = new Map<string, KeptCell>();
  for (const sheet of document.sheets) {
    const columns = new Map(sheet.columns.map(({ id }, index) => [id, index]));
    for (const [row, { id, cells: inRow = {} }] of sheet.rows.entries()) {
      for (const [columnId, cell] of Object.entries(inRow)) {
        const at = { sheet: sheet.id, row, column: columns.get(columnId) ?? 0 };
        kept.set(`${sheet.id} ${id} ${columnId}`, { at, sheet: sheet.name, cell });
      }
    }
  }
  return kept;
}

/** A kept cell as it shows; nothing where it holds nothing. */
function seenIn(book: OpenWorkbook, kept: KeptCell | undefined): Seen | undefined {
  if (kept === undefined) return undefined;
  const { at, sheet, cell } = kept;
  const view = book.cell(at);
  if (view.entry === '' && view.shown.text === '') return undefined;
  return {
    entry: view.entry,
    formula: cell.formula,
    shown: view.shown.text,
    address: `${sheet}!${view.address}`,
    at,
    label: () => called(book, at, `${sheet}!${view.address}`),
  };
}

/** What a maker calls a cell: the words of its row; its name where no words stand there. */
function called(book: OpenWorkbook, at: At, address: string): string {
  const words = book.labelOf(at);
  return words === address ? (book.cell(at).name ?? '') : words;
}

function checks(before: BookDocument, after: BookDocument): Difference[] {
  const text = (check: CheckDocument | undefined): string =>
    check === undefined ? '' : `${check.formula}, else ${check.severity}: ${check.says}`;
  const was = new Map(before.checks.map((check) => [check.id, check]));
  const is = new Map(after.checks.map((check) => [check.id, check]));
  return [...new Set([...is.keys(), ...was.keys()])].flatMap((id) => {
    const [from, to] = [was.get(id), is.get(id)];
    if (JSON.stringify(from) === JSON.stringify(to)) return [];
    const address = (to ?? from)?.name ?? id;
    return [
      { address, label: 'Check', before: text(from), after: text(to), kind: 'check' as const },
    ];
  });
}
