import { type Edit, LIMITS, nameKey, randomId, type SheetDocument } from '@kerfbook/workbook';
import { sheetsInSight } from '../session/places.ts';
import type { Session } from '../session/session.ts';

/** A name no sheet has yet: `Sheet 9`, `Base 2`. */
function freeName(session: Session, plain: string, first: number): string {
  const taken = new Set(session.book.sheets().map(({ name }) => nameKey(name)));
  let number = first;
  while (taken.has(nameKey(numbered(plain, number)))) number += 1;
  return numbered(plain, number);
}

/** The name with a number behind it, cut where it would be too long for a sheet. */
function numbered(plain: string, number: number): string {
  const letters = [...plain];
  while (`${letters.join('')} ${number}`.length > LIMITS.sheetName) letters.pop();
  return `${letters.join('').trimEnd()} ${number}`;
}

/** An empty sheet behind the current one, and goes there (G45). */
export function addSheet(session: Session): void {
  const sheets = session.book.sheets();
  add(session, {
    id: randomId('s'),
    name: freeName(session, 'Sheet', sheets.length + 1),
    columns: Array.from({ length: 6 }, () => ({ id: randomId('c') })),
    rows: Array.from({ length: 20 }, () => ({ id: randomId('r') })),
  });
}

/** The current sheet once more; names stay with the first. */
export function copySheet(session: Session): void {
  const { sheet } = session.at;
  const source = session.book.document().sheets.find(({ id }) => id === sheet);
  if (source === undefined) return;
  add(session, {
    ...source,
    id: randomId('s'),
    name: freeName(session, source.name.replace(/ \d+$/, ''), 2),
    rows: source.rows.map((row) => ({
      ...row,
      ...(row.cells === undefined
        ? {}
        : {
            cells: Object.fromEntries(
              Object.entries(row.cells).map(([id, { name: _name, ...cell }]) => [id, cell]),
            ),
          }),
    })),
  });
}

function add(session: Session, sheet: SheetDocument): void {
  const at = session.book.sheets().findIndex(({ id }) => id === session.at.sheet) + 1;
  const edit: Edit = { do: 'addSheet', at, sheet };
  if (session.apply(edit).ok) session.goSheet(sheet.id);
}

/** Moves the current sheet one place on in the list, past those that are hidden. */
export function moveSheet(session: Session, by: 1 | -1): void {
  const { book, at } = session;
  const shown = sheetsInSight(book, at.sheet);
  const next = shown[shown.findIndex(({ id }) => id === at.sheet) + by];
  if (next === undefined) return;
  const to = book.sheets().findIndex(({ id }) => id === next.id);
  session.apply({ do: 'moveSheet', sheet: at.sheet, to });
}

/** Takes the current sheet out of the list, and goes to the one behind it, or before it where it is the last. */
export function hideSheet(session: Session): void {
  const { sheet } = session.at;
  const shown = sheetsInSight(session.book, sheet);
  const place = shown.findIndex(({ id }) => id === sheet);
  const next = shown[place + 1] ?? shown[place - 1];
  const said = `Sheet ${shown[place]?.name} hidden`;
  if (!session.apply({ do: 'hideSheet', sheet, hidden: true }, said).ok) return;
  if (next !== undefined) session.goSheet(next.id);
}

/** Brings hidden sheets back into the list as one step, and goes to the first of them. */
export function showSheets(session: Session, sheets: readonly string[]): void {
  const [first] = sheets;
  if (first === undefined) return;
  const edits = sheets.map((sheet): Edit => ({ do: 'hideSheet', sheet, hidden: false }));
  const edit: Edit = edits.length === 1 && edits[0] ? edits[0] : { do: 'batch', edits };
  const said =
    sheets.length === 1
      ? `Sheet ${session.book.sheet(first)?.name} shown`
      : `${sheets.length} sheets shown`;
  if (session.apply(edit, said).ok) session.goSheet(first);
}
