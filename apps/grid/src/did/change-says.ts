import type {
  At,
  CellChange,
  CellDocument,
  CellIds,
  Change,
  OpenWorkbook,
} from '@kerfbook/workbook';
import { changeInWords } from '../library/change-words.ts';
import { nameBeside, saidByWords } from '../page/words-for.ts';
import { wordsFor } from '../session/called.ts';
import type { Effect, Way } from '../session/effects.ts';

/** What was changed, in words, and the cell where that was one cell. */
interface ChangeSays {
  readonly says: string;
  readonly of?: CellIds;
  readonly named?: Named;
}

/** A name that is set behind the words that a maker knows the cell by. */
export interface Named {
  readonly name: string;
  /** So many letters of the sentence stand before it. */
  readonly after: number;
}

const BEFORE: Readonly<Record<Way, string>> = {
  done: '',
  undone: 'Undone: ',
  again: 'Redone: ',
  cameIn: '',
};

/** The first line of what a change did: `Length of the top 84 → 96`, `Undone: pasted 12 cells`. */
export function changeSays(effect: Effect, book: OpenWorkbook): ChangeSays {
  const { way, said, steps, changes } = effect;
  if (steps.length > 1) return { says: stepsSay(way, steps.length) };
  const before = BEFORE[way];
  const words = (says: string): string => {
    const bare = says.replace(/\.$/, '');
    return before === '' ? bare : `${before}${bare.charAt(0).toLowerCase()}${bare.slice(1)}`;
  };
  const cells = changes.flatMap((change) => (change.change === 'cells' ? cellsOf(change) : []));
  const [only] = cells;
  // What came from elsewhere is told by who changed it.
  if (way === 'cameIn' && said !== undefined) return { says: words(said) };
  if (only !== undefined && changes.every(isOfCells)) {
    if (cells.length === 1) return { ...oneSays(only, effect, book, before), of: only.ids };
    return { says: words(said ?? `${cells.length} cells changed`) };
  }
  if (said !== undefined) return { says: words(said) };
  // What was taken back is told as it was done: what came with it is gone, and has no name in the workbook any more.
  return { says: words(othersSay(way === 'undone' ? effect.inverse : changes, book)) };
}

/** Whether a change is of cells, or makes room for them. */
const isOfCells = (change: Change): boolean =>
  change.change === 'cells' ||
  (change.change === 'insert' &&
    (change.list === 'columns' ||
      (change.list === 'rows' && change.items.every(({ cells }) => cells === undefined))));

function stepsSay(way: Way, count: number): string {
  const after = { done: '', undone: ' undone', again: ' redone', cameIn: '' };
  return `${count} changes${after[way]}`;
}

interface ChangedCell {
  readonly ids: CellIds;
  readonly cell: CellDocument | null;
}

const cellsOf = ({ sheet, cells }: Change & { readonly change: 'cells' }): readonly ChangedCell[] =>
  cells.map(({ row, column, cell }: CellChange) => ({ ids: { sheet, row, column }, cell }));

/** One cell that was changed, by the words beside it; its name goes behind them. */
function oneSays(one: ChangedCell, effect: Effect, book: OpenWorkbook, before: string): ChangeSays {
  const at = book.placeOf(one.ids);
  if (at === undefined) return { says: `${before}A cell that is gone` };
  const { name, address } = book.cell(at);
  const label = wordsFor(at, book) ?? name ?? `${book.sheet(at.sheet)?.name ?? ''} ${address}`;
  const beside = nameBeside(label, name);
  const what = `${before}${label}`;
  const says = `${what}${cellSays(one, at, effect, book)}`;
  return beside === undefined ? { says } : { says, named: { name: beside, after: what.length } };
}

/** What one cell came to before and now, or what else of it is another. */
function cellSays({ ids, cell }: ChangedCell, at: At, effect: Effect, book: OpenWorkbook): string {
  const view = book.cell(at);
  const isIt = (one: CellIds): boolean =>
    one.sheet === ids.sheet && one.row === ids.row && one.column === ids.column;
  const moved = effect.moved.find((one) => isIt(one.ids));
  const told = (was: string, is: string): string => ` ${was || 'empty'} → ${is || 'empty'}`;
  if (moved !== undefined) {
    const was = book.asShown(at, moved.was).text;
    const is = book.asShown(at, moved.is).text;
    if (moved.is.kind !== 'error') return told(was, is);
    // A slip is said where it was made, with what was typed: what rests on it only tells that it does.
    const says = told(was, view.problem === undefined ? is : view.shown.text);
    return `${says}${/[!?]$/.test(says) ? '' : '.'} ${saidByWords(moved.is.error, book)}`;
  }
  const before = effect.inverse
    .flatMap((change) => (change.change === 'cells' ? cellsOf(change) : []))
    .find((one) => isIt(one.ids))?.cell;
  const holds = (one: CellDocument | null | undefined): boolean =>
    one?.value !== undefined || one?.formula !== undefined;
  // It came with its row: there was nothing to move.
  if (!holds(before) && holds(cell)) return told('', view.shown.text);
  return `: ${differs(before ?? {}, cell ?? {})}`;
}

/** What is another one of a cell that comes to the same. */
function differs(before: CellDocument, after: CellDocument): string {
  const other = (key: keyof CellDocument): boolean =>
    JSON.stringify(before[key]) !== JSON.stringify(after[key]);
  if (other('formula')) return after.formula === undefined ? 'no formula now' : 'another formula';
  if (other('override')) return after.override === undefined ? 'formula restored' : 'overridden';
  if (other('name')) return after.name === undefined ? 'its name removed' : 'another name';
  if (other('remark')) return after.remark === undefined ? 'its remark removed' : 'another remark';
  if (other('value') || other('typed')) return 'typed another way';
  return 'another format';
}

/** Rows, sheets, checks and what is said of the workbook. */
function othersSay(changes: readonly Change[], book: OpenWorkbook): string {
  for (const change of changes) {
    if (change.change !== 'head' || change.set.units === undefined) continue;
    return `Units: ${change.set.units === 'metric' ? 'millimeters' : 'inches'}`;
  }
  const standing = book.document();
  // Cells that follow a change of rows or names are no news beside it.
  const main = changes.filter(({ change }) => change !== 'cells').toSorted(byWeight);
  const words = (main.length === 0 ? changes : main).flatMap((change) =>
    changeInWords(change, standing),
  );
  const [first = 'Changed'] = words;
  return words.length > 1 ? `${first} and ${words.length - 1} more` : first;
}

const HEAVIEST_FIRST: readonly string[] = ['sheets', 'rows', 'columns', 'checks', 'tables'];

/** A sheet comes with its checks, tables and results: it is told, and they are counted. */
const byWeight = (a: Change, b: Change): number => weightOf(a) - weightOf(b);

const weightOf = (change: Change): number =>
  'list' in change ? HEAVIEST_FIRST.indexOf(change.list) : HEAVIEST_FIRST.length;
