import type { Compared } from '@kerfbook/workbook';
import { sheetsInSight } from '../session/places.ts';
import type { Session } from '../session/session.ts';

/** Cells of the second workbook that differ, with what they are in the first one. */
export function marksOf({ typed, results }: Compared): ReadonlyMap<string, string> {
  const marks = new Map<string, string>();
  for (const { cells = [], before, trait } of [...typed, ...results]) {
    const says = trait === undefined ? before : `${trait}: ${before === '' ? 'none' : before}`;
    for (const { sheet, row, column } of cells) {
      const key = `${sheet} ${row} ${column}`;
      const known = marks.get(key);
      marks.set(key, known === undefined || known === '' ? says : `${known}; ${says}`);
    }
  }
  return marks;
}

/** Marks in the grid what differs from another workbook, and goes to the first of it. */
export function markCompared(session: Session, title: string, found: Compared): void {
  const cells = marksOf(found);
  session.compare({ title, cells });
  goToMark(session, 1);
}

/** Goes to the next cell that is marked, or the one before; from the last to the first. */
export function goToMark(session: Session, by: 1 | -1): void {
  const { book, at } = session;
  const marked = [...(session.state.value.comparing?.cells.keys() ?? [])]
    .flatMap((key) => {
      const [sheet = '', row = '', column = ''] = key.split(' ');
      return book.placeOf({ sheet, row, column }) ?? [];
    })
    .filter(({ sheet, row, column }) => {
      const view = book.sheet(sheet);
      return view?.hiddenRows.includes(row) === false && !view.hidden.includes(column);
    });
  const order = sheetsInSight(book, at.sheet).map(({ id }) => id);
  const place = (one: typeof at): number =>
    (order.indexOf(one.sheet) * 1e6 + one.row) * 1e4 + one.column;
  const sorted = marked
    .filter(({ sheet }) => order.includes(sheet))
    .toSorted((one, other) => place(one) - place(other));
  const next =
    by === 1
      ? (sorted.find((one) => place(one) > place(at)) ?? sorted[0])
      : (sorted.findLast((one) => place(one) < place(at)) ?? sorted.at(-1));
  if (next !== undefined) session.go(next);
}
