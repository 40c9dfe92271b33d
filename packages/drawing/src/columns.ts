import { SHAPE_COLUMNS } from '@kerfbook/wood';
import type { At } from '@kerfbook/workbook';
import type { PartProblem, PartsSource } from './parts-source.ts';

/** The words a parts table's header may hold; any other word is a column of the maker's own. */
export const COLUMNS = [
  'part',
  'count',
  'thickness',
  'width',
  'length',
  'material',
  'grain',
  'place',
  'x',
  'y',
  'z',
  'step x',
  'step y',
  'step z',
  'turn',
  'boards',
  'board width',
  'board length',
  'board thickness',
  'layers',
  ...SHAPE_COLUMNS,
] as const;

/** A head of the parts table that has a meaning, in small letters with single spaces. */
export type Column = (typeof COLUMNS)[number];

const NEEDED: readonly Column[] = ['part', 'count', 'thickness', 'width', 'length'];
const KNOWN: ReadonlySet<string> = new Set(COLUMNS);

/** Heads that tables made before these words still have. */
const FORMER: ReadonlyMap<string, Column> = new Map([
  ['staves', 'boards'],
  ['stave width', 'board width'],
  ['stave length', 'board length'],
]);

const columnOf = (word: string): Column | undefined =>
  FORMER.get(word) ?? (KNOWN.has(word) ? (word as Column) : undefined);

interface Header {
  readonly columns: ReadonlyMap<Column, number>;
  readonly problems: readonly PartProblem[];
}

interface TablePlace {
  readonly sheet: string;
  readonly header: number;
  readonly last: number;
}

/** Finds the known columns by their words; case and spacing do not matter. */
export function readHeader(source: PartsSource, table: TablePlace): Header {
  const columns = new Map<Column, number>();
  const problems: PartProblem[] = [];
  const wide = source.sheet(table.sheet)?.columns ?? 0;
  for (let column = 0; column < wide; column++) {
    const at: At = { sheet: table.sheet, row: table.header, column };
    const value = source.value(at);
    if (value.kind !== 'text') continue;
    const word = columnOf(value.text.trim().toLowerCase().replaceAll(/\s+/g, ' '));
    if (word === undefined) continue;
    if (columns.has(word)) problems.push({ at, says: twice(word) });
    else columns.set(word, column);
  }
  const first = Math.min(...columns.values(), Math.max(0, wide - 1));
  const corner: At = { sheet: table.sheet, row: table.header, column: first };
  for (const word of NEEDED) {
    if (!columns.has(word)) problems.push({ at: corner, says: missing(word) });
  }
  return { columns, problems };
}

const twice = (word: Column): string =>
  `The parts table has two columns headed "${word}"; the first one is used, so rename this one.`;

function missing(word: Column): string {
  const then = word === 'count' ? 'each row counts as one piece' : 'no part is drawn';
  return `The parts table has no column headed "${word}", so ${then}; write "${word}" above the column that holds it.`;
}
