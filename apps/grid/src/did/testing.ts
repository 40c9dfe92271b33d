import { type BookDocument, type CellDocument, loadText, Workbook } from '@kerfbook/workbook';
import { Session } from '../session/session.ts';
import { type Digest, digestOf } from './digest.ts';

/** A workbook by its text. */
export function bookOf(text: string): Workbook {
  const loaded = loadText(text);
  if (!loaded.ok) throw new Error(loaded.says);
  return Workbook.open(loaded.document);
}

/** A session in which all that follows is worked out with the change. */
export const sessionOf = (book: Workbook): Session =>
  new Session({
    book,
    mayChange: true,
    stretch: Number.POSITIVE_INFINITY,
    record: () => undefined,
  });

/** A workbook of one sheet: each row its words, and beside them a cell. */
export function listOf(
  cells: Readonly<Record<string, CellDocument>>,
  more: Partial<BookDocument> = {},
): Workbook {
  return Workbook.open({
    kerfbook: 8,
    title: 'A list',
    units: 'us',
    sheets: [
      {
        id: 's1',
        name: 'List',
        columns: [{ id: 'c1' }, { id: 'c2' }],
        rows: Object.entries(cells).map(([words, cell], i) => ({
          id: `r${i + 1}`,
          cells: { c1: { value: words }, c2: cell },
        })),
      },
    ],
    checks: [],
    tables: [],
    ...more,
  });
}

/** Types into a cell by its name or address, and what that did. */
export function typed(session: Session, place: string, text: string): Digest {
  const at = session.book.find(place, session.at.sheet);
  if (at === undefined) throw new Error(`there is no ${place}`);
  const { sheet, row, column } = at;
  const result = session.apply({ do: 'enter', sheet, cells: [{ row, column, text }] });
  if (!result.ok) throw new Error(result.says);
  return didNow(session);
}

/** What the last change of a session did, without waiting for it. */
export function didNow(session: Session): Digest {
  session.effects.finish();
  const { last } = session.effects.state.value;
  if (last === undefined) throw new Error('nothing was changed');
  return digestOf(last, session.book);
}
