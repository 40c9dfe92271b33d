import { knownTable } from '@kerfbook/drawing';
import {
  type Edit,
  type OpenWorkbook,
  type RowDocument,
  randomId,
  shopTableEdit,
} from '@kerfbook/workbook';

/** The edit that adds the sheet for a second language with every text in it; undefined where the workbook has one. */
export function languageSheetEdit(book: OpenWorkbook, texts: readonly string[]): Edit | undefined {
  const edit = shopTableEdit(book, 'words');
  if (edit?.do !== 'batch') return undefined;
  const [adds, names] = edit.edits;
  if (adds?.do !== 'addSheet' || names?.do !== 'setTables') return undefined;
  const { sheet } = adds;
  const header = sheet.frozenRows ?? 0;
  const [column, other] = sheet.columns.map(({ id }) => id);
  if (column === undefined || other === undefined) return undefined;
  const cell = { quantity: 'text', role: 'input', style: { wrap: true } } as const;
  const rows = texts.map((value, i) => ({
    id: sheet.rows[header + i]?.id ?? randomId('r'),
    cells: { [column]: { ...cell, value }, [other]: cell },
  }));
  const all = [...sheet.rows.slice(0, header), ...rows, ...sheet.rows.slice(header + rows.length)];
  const last = all.at(-1)?.id ?? '';
  return {
    do: 'batch',
    edits: [
      { ...adds, sheet: { ...sheet, rows: all } },
      {
        ...names,
        tables: names.tables.map((one) => (one.sheet === sheet.id ? { ...one, last } : one)),
      },
    ],
  };
}

/** The edit that puts texts under each other into the blank rows at the end of the words, with more rows as needed. */
export function wordsEdit(book: OpenWorkbook, texts: readonly string[]): Edit | undefined {
  const table = knownTable(book, 'words');
  const column = table?.columns.get('words');
  if (table === undefined || column === undefined || texts.length === 0) return undefined;
  const { sheet, first, end } = table;
  let at = end;
  while (at > first && isBlankRow(book, sheet, at - 1, [...table.columns.values()])) at -= 1;
  const short = at + texts.length - end;
  const edits: Edit[] = [];
  if (short > 0) {
    const ids = [...table.columns.values()].flatMap(
      (one) => book.idsAt({ sheet, row: first - 1, column: one })?.column ?? [],
    );
    const rows = Array.from(
      { length: short },
      (): RowDocument => ({
        id: randomId('r'),
        cells: Object.fromEntries(
          ids.map((id) => [id, { quantity: 'text', role: 'input', style: { wrap: true } }]),
        ),
      }),
    );
    const own = book.tables().find(({ kind }) => kind === 'words');
    const last = rows.at(-1)?.id ?? '';
    edits.push(
      { do: 'insertRows', sheet, at: end, rows },
      {
        do: 'setTables',
        tables: book.document().tables.map((one) => (one.id === own?.id ? { ...one, last } : one)),
      },
    );
  }
  edits.push({
    do: 'place',
    sheet,
    cells: texts.map((value, i) => ({
      row: at + i,
      column,
      cell: { value, quantity: 'text', role: 'input', style: { wrap: true } },
    })),
  });
  return { do: 'batch', edits };
}

function isBlankRow(
  book: OpenWorkbook,
  sheet: string,
  row: number,
  columns: readonly number[],
): boolean {
  return columns.every((column) => book.value({ sheet, row, column }).kind === 'empty');
}
