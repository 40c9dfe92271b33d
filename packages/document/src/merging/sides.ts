import type { Change, ListOf } from '../changes/types.ts';
import type { Complaint } from '../faults/catalogue.ts';
import { columnName } from '../formula/address.ts';
import type { BookState, Head } from '../state/state.ts';
import { mergeComplaint } from './sentences.ts';

/** One of two workbooks that are merged, by what was done since their common earlier state. */
export interface Side {
  /** How sentences call it. */
  readonly name: string;
  readonly state: BookState;
  /** The smallest changes that make it of the earlier state. */
  readonly changes: readonly Change[];
}

/** A place at which two changed the same, or one what the other removed: one of both can be chosen there. */
export type Spot =
  | {
      readonly of: 'cell';
      readonly sheet: string;
      readonly row: string;
      readonly column: string;
      /** What it holds and is for, or one of its traits. */
      readonly part: CellPart;
    }
  | { readonly of: 'head'; readonly key: keyof Head & string }
  | { readonly of: 'about'; readonly in: ListOf; readonly id: string; readonly key: string }
  | { readonly of: 'gone'; readonly in: ListOf; readonly id: string };

/** Parts of a cell that are merged each by itself. */
export type CellPart = 'held' | 'show' | 'role' | 'name' | 'remark' | 'allow' | 'style';

/** What two logs changed so that it does not go together as it was meant, told for a person. */
export interface MergeConflict extends Complaint {
  /** What was meant and does not stand: nothing of it is lost. Empty where all stands. */
  readonly left: readonly Change[];
  /** Where it is, where one of both can be chosen. */
  readonly spot?: Spot;
}

/** What is merged: in the order of the law, the second one having the last word. */
export interface Merging {
  readonly base: BookState;
  readonly first: Side;
  readonly second: Side;
  readonly conflicts: MergeConflict[];
}

export function tell(
  { conflicts }: Merging,
  complaint: Complaint,
  left: readonly Change[] = [],
  spot?: Spot,
) {
  conflicts.push({ ...complaint, left, ...(spot === undefined ? {} : { spot }) });
}

/** The same was set otherwise by both: that of the second one stands. */
export function tellEither(
  merging: Merging,
  where: string,
  [first, second]: readonly [string, string],
  left: Change,
  spot: Spot,
): void {
  const [one, other] = [merging.first.name, merging.second.name];
  const words = [where, { log: one, what: first }, { log: other, what: second }] as const;
  tell(merging, mergeComplaint('X1', ...words), [left], spot);
}

/** Where a cell stands, the first state that has the place telling: `Base!B7 (top_length)`. */
export function cellPlace(
  states: readonly BookState[],
  sheet: string,
  row: string,
  column: string,
): string {
  for (const state of states) {
    const found = state.sheet(sheet);
    const [at, across] = [found?.rowIndex(row), found?.columnIndex(column)];
    if (found === undefined || at === undefined || across === undefined) continue;
    const name = found.rows[at]?.cells.get(column)?.name;
    const address = `${found.name}!${columnName(across)}${at + 1}`;
    return name === undefined ? address : `${address} (${name})`;
  }
  return `a cell of ${sheet}`;
}

const WORDS = {
  rows: (sheet: string, at: number) => `row ${at + 1} of ${sheet}`,
  columns: (sheet: string, at: number) => `column ${columnName(at)} of ${sheet}`,
} as const;

/** A member of a list in words, as the first state has it that has it at all. */
export function memberPlace(
  states: readonly BookState[],
  of: { readonly list: string; readonly sheet?: string },
  id: string,
): string {
  for (const state of states) {
    switch (of.list) {
      case 'rows':
      case 'columns': {
        const sheet = state.sheet(of.sheet ?? '');
        const at = of.list === 'rows' ? sheet?.rowIndex(id) : sheet?.columnIndex(id);
        if (sheet !== undefined && at !== undefined) return WORDS[of.list](sheet.name, at);
        break;
      }
      case 'sheets': {
        const name = state.sheetName(id);
        if (name !== undefined) return `the sheet "${name}"`;
        break;
      }
      case 'checks': {
        const name = state.checks.find((check) => check.id === id)?.name;
        if (name !== undefined) return `the check "${name}"`;
        break;
      }
      default: {
        const table = state.tables.find((one) => one.id === id);
        if (table !== undefined) return tablePlace(state, table);
      }
    }
  }
  return `${of.list} ${id}`;
}

const tablePlace = (
  state: BookState,
  { kind, sheet }: { readonly kind: string; readonly sheet: string },
): string => {
  const name = state.sheetName(sheet);
  return `the table of ${kind}${name === undefined ? '' : ` on ${name}`}`;
};

/** A property as a sentence has it. */
export function sayValue(value: unknown): string {
  if (value === undefined || value === null) return 'none';
  return typeof value === 'string' ? `"${short(value)}"` : short(JSON.stringify(value));
}

export const short = (text: string): string => (text.length > 60 ? `${text.slice(0, 59)}…` : text);
