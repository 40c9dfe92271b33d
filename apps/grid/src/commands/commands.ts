import { type CellTraits, type Edit, type Place, shifting } from '@kerfbook/workbook';
import { type Area, didWith, placesOf, within } from '../session/area.ts';
import { asRead } from '../session/decimal-mark.ts';
import { offered } from '../session/offered.ts';
import type { Session } from '../session/session.ts';

/** What is selected, cut to the part of the sheet that is there. */
export function selectedOnSheet(session: Session): readonly Area[] {
  const { rows = 0, columns = 0 } = session.book.sheet(session.at.sheet) ?? {};
  return session.areas.flatMap((area) => within(area, rows, columns) ?? []);
}

/** Whether whole columns or rows are selected, so that what could mean either means those; else cells. */
export function selectsWhole({ book, at, areas }: Session): 'columns' | 'rows' | 'cells' {
  const area = areas.at(-1);
  if (area === undefined) return 'cells';
  const { rows, columns } = offered(book.sheet(at.sheet));
  if (area.top === 0 && area.bottom >= rows - 1) return 'columns';
  return area.left === 0 && area.right >= columns - 1 ? 'rows' : 'cells';
}

/** Empties what is selected; formats, names and remarks stay (G23). */
export function clearSelected(session: Session): void {
  const cells = usedPlaces(session);
  if (cells.length > 0)
    session.apply(
      { do: 'clear', sheet: session.at.sheet, cells },
      didWith('Cleared', cells.length),
    );
}

/** Selected places that hold something, or have something said of them. */
function usedPlaces(session: Session): Place[] {
  const { sheet } = session.at;
  return placesOf(selectedOnSheet(session)).filter(
    ({ row, column }) => session.book.copyOf({ sheet, row, column }) !== undefined,
  );
}

/** Puts what is written into every selected cell, formulas as if copied from the first (G24). */
export function enterInAll(session: Session): boolean {
  const { editing } = session;
  if (editing === undefined || session.selection === undefined) return session.commit();
  const { sheet, row, column } = editing.at;
  const text = asRead(editing.text, () => session.book.cell(editing.at));
  const textAt = entryAt(text);
  const first: Edit = { do: 'enter', sheet, cells: [{ row, column, text }] };
  const others = placesOf(session.areas).filter((p) => p.row !== row || p.column !== column);
  const result = session.apply(
    {
      do: 'batch',
      edits: [
        first,
        {
          do: 'enter',
          sheet,
          cells: others.map((p) => ({ ...p, text: textAt(p.row - row, p.column - column) })),
        },
      ],
    },
    didWith('Entered in', others.length + 1),
  );
  if (result.ok) session.cancel();
  return result.ok;
}

/** What is typed as it reads so many rows down and columns to the right. */
const entryAt = (text: string): ((rows: number, columns: number) => string) =>
  /^\s*=/.test(text) ? shifting(text) : () => text;

/** Says the same of every selected cell, or of the current one only. */
export function describe(session: Session, traits: CellTraits, one = false): void {
  const { sheet, row, column } = session.at;
  const places = one ? [{ row, column }] : placesOf(selectedOnSheet(session));
  session.apply(
    {
      do: 'describeCells',
      sheet,
      cells: places.map((place) => ({ ...place, traits })),
    },
    didWith('Formatted', places.length),
  );
}

/** Makes what is selected bold or italic, or plain again where the current cell is so already. */
export function turnStyle(session: Session, what: 'bold' | 'italic'): void {
  const { sheet } = session.at;
  const on = session.current().style?.[what] !== true;
  const cells = placesOf(selectedOnSheet(session)).map((place) => {
    const { [what]: _was, ...others } = session.book.cell({ sheet, ...place }).style ?? {};
    const style = on ? { ...others, [what]: true as const } : others;
    return { ...place, traits: { style: Object.keys(style).length === 0 ? null : style } };
  });
  if (cells.length > 0)
    session.apply({ do: 'describeCells', sheet, cells }, didWith('Formatted', cells.length));
}
