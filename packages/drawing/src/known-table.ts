import { type At, type OpenWorkbook, SHOP_COLUMNS, type ShopTable } from '@kerfbook/workbook';
import { endBelow, type PartProblem, type PartsSource } from './parts-source.ts';
import { isBlank } from './value-words.ts';

/** What is read of an open workbook to read such a table. */
export type TableSource = PartsSource & Pick<OpenWorkbook, 'cell'>;

/** A table of a workbook with the columns that are known by their heads. */
export interface KnownTable {
  /** Id of its sheet. */
  readonly sheet: string;
  /** Of its first row under the head, counted from 0. */
  readonly first: number;
  /** The first row after it. */
  readonly end: number;
  /** Which column each known head is over. */
  readonly columns: ReadonlyMap<string, number>;
  /** What is wrong with its heads. */
  readonly problems: readonly PartProblem[];
}

/** The first table of a kind; undefined where the workbook has none. Case and spaces of heads do not matter. */
export function knownTable(source: TableSource, kind: ShopTable): KnownTable | undefined {
  const table = source.tables().find((one) => one.kind === kind);
  if (table === undefined) return undefined;
  const { sheet, header, last } = table;
  const known = new Set(SHOP_COLUMNS[kind].map(({ heads }) => heads));
  const columns = new Map<string, number>();
  const problems: PartProblem[] = [];
  const wide = source.sheet(sheet)?.columns ?? 0;
  for (let column = 0; column < wide; column += 1) {
    const at = { sheet, row: header, column };
    const value = source.value(at);
    if (value.kind !== 'text') continue;
    const word = value.text.trim().toLowerCase().replaceAll(/\s+/g, ' ');
    if (!known.has(word)) continue;
    if (columns.has(word)) {
      problems.push({
        at,
        says: `Two columns are headed "${word}"; only the first is read. Head this one otherwise.`,
      });
    } else columns.set(word, column);
  }
  const [needed = ''] = known;
  if (!columns.has(needed)) {
    problems.push({
      at: { sheet, row: header, column: 0 },
      says: `No column of the ${kind} table is headed "${needed}". Head one so.`,
    });
  }
  const end = Math.min(last + 1, endBelow(source, table));
  return { sheet, first: header + 1, end, columns, problems };
}

/** A row of such a table. */
export class TableRow {
  readonly #source: TableSource;
  readonly #table: KnownTable;
  /** Counted from 0 on its sheet. */
  readonly row: number;
  /** What was found wrong with it so far. */
  readonly problems: PartProblem[] = [];

  constructor(source: TableSource, table: KnownTable, row: number) {
    this.#source = source;
    this.#table = table;
    this.row = row;
  }

  /** The cell under a head; that of the first known head where there is none. */
  at(head: string): At {
    const { sheet, columns } = this.#table;
    const [first = 0] = columns.values();
    return { sheet, row: this.row, column: columns.get(head) ?? first };
  }

  #value(head: string) {
    return this.#table.columns.has(head)
      ? this.#source.value(this.at(head))
      : ({ kind: 'empty' } as const);
  }

  /** Nothing stands in it. */
  get isBlank(): boolean {
    return [...this.#table.columns.keys()].every((head) => isBlank(this.#value(head)));
  }

  /** Words under a head; undefined where it is blank or in error, which is a problem. */
  words(head: string): string | undefined {
    const value = this.#value(head);
    if (isBlank(value)) return undefined;
    if (value.kind === 'error') {
      this.trouble(head, `Its ${head} is ${value.error.word}: ${value.error.says}`);
      return undefined;
    }
    if (value.kind === 'text') return value.text.trim();
    return this.#source.cell(this.at(head)).shown.text;
  }

  /** What stands between commas under a head. */
  list(head: string): readonly string[] {
    return (this.words(head) ?? '')
      .split(',')
      .map((word) => word.trim())
      .filter((word) => word !== '');
  }

  /** A number of nothing or more under a head, in the workbook's own unit. */
  number(head: string, wants: string): number | undefined {
    const value = this.#value(head);
    if (isBlank(value)) return undefined;
    if (value.kind === 'number' && value.number >= 0) return value.number;
    if (value.kind === 'error') {
      this.trouble(head, `Its ${head} is ${value.error.word}: ${value.error.says}`);
    } else this.trouble(head, `Its ${head} should be ${wants}.`);
    return undefined;
  }

  /** Whether a condition under a head holds; a blank one does. */
  holds(head: string): boolean {
    const value = this.#value(head);
    if (isBlank(value)) return true;
    if (value.kind === 'logical') return value.logical;
    if (value.kind === 'number') return value.number !== 0;
    const word = value.kind === 'text' ? value.text.trim().toLowerCase() : '';
    if (word === 'yes' || word === 'no') return word === 'yes';
    if (value.kind === 'error') {
      this.trouble(
        head,
        `Whether it is needed is ${value.error.word}: ${value.error.says} The step stands.`,
      );
    } else this.trouble(head, `Its ${head} should be yes or no, or blank for always.`);
    return true;
  }

  /** Notes what is wrong with what stands under a head. */
  trouble(head: string, says: string): void {
    this.problems.push({ at: this.at(head), says });
  }
}
