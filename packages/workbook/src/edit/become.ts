import { BookState, type Change, type Edit, keptByIds, loadValue } from '@kerfbook/document';
import type { Desk, Refusal } from './desk.ts';

type Head = Change & { readonly change: 'head' };

/** `become`: another state of the workbook is taken over whole (rule E6). */
export function becomeBook(desk: Desk, { book }: Edit & { do: 'become' }): Refusal {
  const loaded = loadValue(book);
  if (!loaded.ok) return loaded;
  const { state } = desk;
  const { sheets, checks, tables, ...head } = keptByIds(BookState.of(loaded.document)).document();
  const gone = Object.fromEntries(Object.keys(state.head).map((key) => [key, null]));
  const ids = (all: readonly { readonly id: string }[]): string[] => all.map(({ id }) => id);
  const after = null;
  desk.change(
    { change: 'head', set: { ...gone, ...head } as Head['set'] },
    { change: 'remove', list: 'tables', ids: ids(state.tables) },
    { change: 'remove', list: 'checks', ids: ids(state.checks) },
    { change: 'remove', list: 'sheets', ids: ids(state.sheets) },
    { change: 'insert', list: 'sheets', after, items: sheets },
    { change: 'insert', list: 'checks', after, items: checks },
    { change: 'insert', list: 'tables', after, items: tables },
  );
  return undefined;
}
