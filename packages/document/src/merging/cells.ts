import type { CellChange, Change } from '../changes/types.ts';
import type { CellDocument } from '../format/schema.ts';
import { formulaOf } from '../formula/tree/read.ts';
import { writtenText } from '../formula/tree/turns.ts';
import type { SheetState } from '../state/sheet.ts';
import { ofThree, ofThreeEach, same } from './same.ts';
import { mergeComplaint } from './sentences.ts';
import { cellPlace, type Merging, type Side, sayValue, short, tell, tellEither } from './sides.ts';

/** What a cell holds and is: read by each other, so that they go together only as one of two has them. */
export const HELD = ['value', 'typed', 'formula', 'override', 'quantity', 'other'] as const;
type Held = Pick<CellDocument, (typeof HELD)[number]>;
type Traits = Omit<CellDocument, keyof Held>;

interface Place {
  readonly sheet: string;
  readonly row: string;
  readonly column: string;
}

/** The cells of a row that both have. */
export function mergedCells(
  merging: Merging,
  sheets: {
    readonly was?: SheetState | undefined;
    readonly first: SheetState;
    readonly second: SheetState;
  },
  row: string,
  columns: ReadonlySet<string>,
): Map<string, CellDocument> {
  const [was, first, second] = [sheets.was, sheets.first, sheets.second].map(
    (sheet) => sheet?.rows[sheet.rowIndex(row) ?? -1]?.cells,
  );
  const cells = new Map<string, CellDocument>();
  for (const column of columns) {
    const place = { sheet: sheets.first.id, row, column };
    const [old, one, other] = [was?.get(column), first?.get(column), second?.get(column)];
    const cell = mergedCell(merging, place, old, one, other);
    if (cell !== undefined) cells.set(column, cell);
  }
  return cells;
}

function mergedCell(
  merging: Merging,
  place: Place,
  was: CellDocument | undefined,
  first: CellDocument | undefined,
  second: CellDocument | undefined,
): CellDocument | undefined {
  if (first === second || same(first, second) || same(was, second)) return first;
  if (same(was, first)) return second;
  const [old, one, other] = [was, first, second].map((cell) => parted(cell));
  if (old === undefined || one === undefined || other === undefined) return second;
  const held = ofThree(old.held, one.held, other.held);
  const traits = ofThreeEach<Traits>(old.traits, one.traits, other.traits);
  const cell: CellDocument = { ...held.value, ...traits.value };
  const where = cellPlace(
    [merging.second.state, merging.first.state],
    place.sheet,
    place.row,
    place.column,
  );
  if (held.both) {
    const a = said(merging.first, place, first, second);
    const b = said(merging.second, place, second, first);
    tellEither(merging, where, [a, b], left(place, first), { of: 'cell', ...place, part: 'held' });
  }
  for (const key of traits.both) {
    const [a, b] = [first, second].map((one) => sayValue(one?.[key]));
    const spot = { of: 'cell', ...place, part: key } as const;
    const words = [a ?? '', b ?? ''] as const;
    tellEither(merging, `the ${TRAITS[key]} of ${where}`, words, left(place, first), spot);
  }
  if (!held.both && traits.both.length === 0) {
    tell(merging, mergeComplaint('X2', where, merging.first.name, merging.second.name));
  }
  const none = Object.keys(cell).length === 0;
  return none && (first === undefined || second === undefined) ? undefined : cell;
}

const TRAITS: { readonly [K in keyof Traits]-?: string } = {
  show: 'way it is shown',
  role: 'role',
  name: 'name',
  remark: 'remark',
  allow: 'choice of entries',
  style: 'look',
};

const left = ({ sheet, row, column }: Place, cell: CellDocument | undefined): Change => ({
  change: 'cells',
  sheet,
  cells: [{ row, column, cell: cell ?? null } satisfies CellChange],
});

function parted(cell: CellDocument = {}): { readonly held: Held; readonly traits: Traits } {
  const { value, typed, formula, override, quantity, other, ...traits } = cell;
  const held = Object.entries({ value, typed, formula, override, quantity, other });
  return { held: Object.fromEntries(held.filter(([, one]) => one !== undefined)), traits };
}

/** What a cell holds, as a sentence has it; what it is for where that differs too. */
function said(
  { state }: Side,
  { sheet }: Place,
  cell: CellDocument = {},
  other: CellDocument = {},
): string {
  const formula = formulaOf(cell);
  const text =
    cell.override === undefined && formula !== undefined
      ? short(writtenText(formula, sheet, state))
      : sayEntry(cell.override ?? cell);
  return cell.quantity === other.quantity ? text : `${text} (${cell.quantity ?? 'no quantity'})`;
}

function sayEntry({ value, typed }: Pick<CellDocument, 'value' | 'typed'>): string {
  if (value === undefined) return 'empty';
  return typeof value === 'string' ? `"${short(typed ?? value)}"` : short(typed ?? String(value));
}
