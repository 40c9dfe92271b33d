import type { BookDocument, CheckDocument } from '@kerfbook/document';
import { Workbook } from '../workbook.ts';

/** One place at which two states of a workbook differ. */
export interface Difference {
  /** `Base!B7`, where it is now; where it was, when it is gone. */
  readonly address: string;
  /** Its name, or what stands at the left of it, where there is either. */
  readonly label: string;
  /** As it was shown or typed; `''` where it was not there. */
  readonly before: string;
  /** As it is shown or typed; `''` where it is gone. */
  readonly after: string;
  /** `typed`: what it holds changed; `result`: only what its formula came to. */
  readonly kind: 'typed' | 'result' | 'check' | 'sheet';
}

/**
 * What changed from one state of a workbook to another, in the order of the later one. Cells are the
 * same where their row and column are, so rows put in between make no difference of those below.
 */
export function compareBooks(before: BookDocument, after: BookDocument): readonly Difference[] {
  const [old, now] = [Workbook.open(before), Workbook.open(after)];
  return [
    ...sheetDifferences(before, after),
    ...cells(old, now, before, after),
    ...checks(before, after),
  ];
}

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
  readonly label: string;
}

function cells(
  old: Workbook,
  now: Workbook,
  before: BookDocument,
  after: BookDocument,
): Difference[] {
  const was = seenCells(old, before);
  const is = seenCells(now, after);
  const keys = [...new Set([...is.keys(), ...was.keys()])];
  return keys.flatMap((key) => {
    const [from, to] = [was.get(key), is.get(key)];
    const here = to ?? from;
    if (here === undefined || (from?.entry === to?.entry && from?.shown === to?.shown)) return [];
    // The same formula written with other addresses is no change: what it comes to is.
    const sameFormula = from?.formula !== undefined && from.formula === to?.formula;
    const typed = from?.entry !== to?.entry && !sameFormula;
    if (!typed && from?.shown === to?.shown) return [];
    const { address, label } = here;
    const words = (seen: Seen | undefined): string =>
      typed && seen?.entry.startsWith('=') === true
        ? `${seen.shown} (${seen.entry})`
        : (seen?.shown ?? '');
    return [
      {
        address,
        label,
        before: words(from),
        after: words(to),
        kind: typed ? 'typed' : 'result',
      } as const,
    ];
  });
}

/** Cells that hold something, by the ids of their sheet, row and column. */
function seenCells(book: Workbook, document: BookDocument): Map<string, Seen> {
  const seen = new Map<string, Seen>();
  for (const sheet of document.sheets) {
    const columns = new Map(sheet.columns.map(({ id }, index) => [id, index]));
    for (const [row, { id, cells: kept = {} }] of sheet.rows.entries()) {
      for (const [columnId, { formula }] of Object.entries(kept)) {
        const column = columns.get(columnId) ?? 0;
        const cell = book.cell({ sheet: sheet.id, row, column });
        if (cell.entry === '' && cell.shown.text === '') continue;
        seen.set(`${sheet.id} ${id} ${columnId}`, {
          entry: cell.entry,
          formula,
          shown: cell.shown.text,
          address: `${sheet.name}!${cell.address}`,
          label: cell.name ?? leftOf(book, sheet.id, row, column),
        });
      }
    }
  }
  return seen;
}

function leftOf(book: Workbook, sheet: string, row: number, column: number): string {
  for (let at = column - 1; at >= 0; at -= 1) {
    const value = book.value({ sheet, row, column: at });
    if (value.kind === 'text') return value.text.slice(0, 60);
  }
  return '';
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
