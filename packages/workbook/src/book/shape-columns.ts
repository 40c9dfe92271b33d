import type { CellDocument, Edit } from '@kerfbook/document';
import { SHAPE_COLUMNS } from '@kerfbook/wood';
import type { OpenWorkbook } from '../api.ts';
import { SHOP_COLUMNS } from './shop-tables.ts';

const plain = (text: string): string => text.trim().toLowerCase().replaceAll(/\s+/g, ' ');

/**
 * The edit that puts the columns for shapes behind the heads of the parts table, as far as they are not there;
 * undefined where the workbook has no parts table or lacks none of them.
 */
export function shapeColumnsEdit(book: OpenWorkbook): Edit | undefined {
  const table = book.tables().find(({ kind }) => kind === 'parts');
  const sheet = book.document().sheets.find(({ id }) => id === table?.sheet);
  if (table === undefined || sheet === undefined) return undefined;
  const heads = sheet.columns.map((_, column) => {
    const value = book.value({ sheet: sheet.id, row: table.header, column });
    return value.kind === 'text' ? plain(value.text) : '';
  });
  const words: readonly string[] = SHAPE_COLUMNS;
  const missing = SHOP_COLUMNS.parts.filter(
    ({ heads: word }) => words.includes(word) && !heads.includes(word),
  );
  if (missing.length === 0) return undefined;
  const ids = new Set(sheet.columns.map(({ id }) => id));
  let next = 1;
  const columns = missing.map(({ width }) => {
    while (ids.has(`c${next}`)) next += 1;
    ids.add(`c${next}`);
    return { id: `c${next}`, width };
  });
  const cellsOf = (row: number): Readonly<Record<string, CellDocument>> =>
    Object.fromEntries(
      missing.map(({ heads: word, means, quantity }, i): [string, CellDocument] => [
        columns[i]?.id ?? '',
        row === table.header
          ? { value: word, role: 'heading', remark: means }
          : { quantity, role: 'input' },
      ]),
    );
  const rows = sheet.rows.flatMap(({ id }, row) =>
    row < table.header || row > table.last ? [] : [[id, cellsOf(row)] as const],
  );
  return {
    do: 'insertColumns',
    sheet: sheet.id,
    at: heads.findLastIndex((word) => word !== '') + 1,
    columns,
    cells: Object.fromEntries(rows),
  };
}
