import { type At, columnName, type Edit, type Neighbour, randomId } from '@kerfbook/workbook';
import { type Area, columnsOf, holds, placesOf, rowsOf, within } from '../session/area.ts';
import { wordsFor } from '../session/called.ts';
import type { Session } from '../session/session.ts';

export type Line = 'row' | 'column';

const count = (area: Area, line: Line): number => (line === 'row' ? rowsOf(area) : columnsOf(area));

/** `row 5`, `rows 5 to 7`, `column B`, `columns B to D`. */
export function linesInWords(area: Area, line: Line): string {
  const [from, to] = line === 'row' ? [area.top, area.bottom] : [area.left, area.right];
  const name = (n: number): string => (line === 'row' ? String(n + 1) : columnName(n));
  return from === to ? `${line} ${name(from)}` : `${line}s ${name(from)} to ${name(to)}`;
}

/** Puts in as many empty rows or columns as are selected, before or after them (G38). */
export function insertLines(session: Session, line: Line, where: 'before' | 'after'): void {
  const area = session.areas.at(-1);
  if (area === undefined) return;
  const { sheet } = session.at;
  const view = session.book.sheet(sheet);
  if (view === undefined) return;
  const first = line === 'row' ? area.top : area.left;
  const last = line === 'row' ? area.bottom : area.right;
  const at = where === 'before' ? first : last + 1;
  const most = line === 'row' ? view.rows : view.columns;
  // Beyond the edge there is nothing to make room in.
  if (at > most) return;
  const ids = Array.from({ length: count(area, line) }, () => ({
    id: randomId(line === 'row' ? 'r' : 'c'),
  }));
  session.apply(
    line === 'row'
      ? { do: 'insertRows', sheet, at, rows: ids }
      : { do: 'insertColumns', sheet, at, columns: ids },
  );
}

/** Rows or columns that would go, as an edit; undefined where they are beyond the sheet's edge. */
export function removal(session: Session, line: Line): { edit: Edit; area: Area } | undefined {
  const { sheet } = session.at;
  const { rows = 0, columns = 0 } = session.book.sheet(sheet) ?? {};
  const selected = session.areas.at(-1);
  const whole =
    selected === undefined
      ? undefined
      : line === 'row'
        ? { ...selected, left: 0, right: columns - 1 }
        : { ...selected, top: 0, bottom: rows - 1 };
  const area = whole === undefined ? undefined : within(whole, rows, columns);
  if (area === undefined) return undefined;
  const edit: Edit =
    line === 'row'
      ? { do: 'deleteRows', sheet, at: area.top, count: rowsOf(area) }
      : { do: 'deleteColumns', sheet, at: area.left, count: columnsOf(area) };
  return { edit, area };
}

/** Cells elsewhere whose formulas use a cell of an area, each once, called by their words (G40). */
export function usersOf(session: Session, sheet: string, area: Area): readonly Neighbour[] {
  const { book } = session;
  const users = new Map<string, Neighbour>();
  const inside = (at: At): boolean => at.sheet === sheet && holds(area, at);
  for (const place of placesOf([area])) {
    const at = { sheet, ...place };
    if (book.value(at).kind === 'empty') continue;
    for (const user of book.usedBy(at)) {
      if (inside(user.at)) continue;
      users.set(user.address, { ...user, label: wordsFor(user.at, book) ?? user.label });
    }
  }
  return [...users.values()];
}

/** Names of the checks that use a cell of an area: they cannot tell once it is gone. */
export function checksOf({ book }: Session, sheet: string, area: Area): readonly string[] {
  const found = placesOf([area]).flatMap((place) => {
    const at = { sheet, ...place };
    if (book.value(at).kind === 'empty') return [];
    return book.alsoUsedBy(at).flatMap((says) => /^the check "(.*)"$/.exec(says)?.[1] ?? []);
  });
  return [...new Set(found)];
}
