import { BookState, formulaOf, writtenText } from '@kerfbook/document';
import { type CellValue, contextOf, type OpenWorkbook, showValue } from '@kerfbook/workbook';
import { csvText, type Plain, quotedField } from './csv-text.ts';

/** What is read of an open workbook. */
type Source = Pick<OpenWorkbook, 'document' | 'value'>;

/**
 * A sheet as comma-separated values (RFC 4180), lines ending as it says. Numbers are in the workbook's own units, dates
 * year first (ISO 8601), errors by their words.
 * @param how `formulas`: what has a formula is written as one
 * @returns nothing where there is no such sheet
 */
export function writeCsv(
  book: Source,
  sheet: string,
  how: 'values' | 'formulas' = 'values',
): string | undefined {
  const state = BookState.of(book.document());
  const { rows = [], columns = [] } = state.sheet(sheet) ?? {};
  if (state.sheet(sheet) === undefined) return undefined;
  const lines = rows.map((_, row) =>
    columns.map((__, column) => {
      const at = { sheet, row, column };
      const cell = state.cell(at);
      const formula = cell?.override === undefined ? formulaOf(cell ?? {}) : undefined;
      // What cannot be read is words, whatever it looks like.
      if (how === 'formulas' && formula?.root !== undefined) {
        return quotedField(writtenText(formula, sheet, state));
      }
      const context = contextOf(cell, state.head);
      const value = book.value(at);
      const plain = plainOf(value);
      const isDay = context.quantity === 'date' && value.kind === 'number';
      return csvText([[isDay ? showValue(value, context).text : plain]])[0] ?? '';
    }),
  );
  const used = lines.findLastIndex((line) => line.some((field) => field !== ''));
  return lines
    .slice(0, used + 1)
    .map((line) => `${line.join(',')}\r\n`)
    .join('');
}

function plainOf(value: CellValue): Plain {
  switch (value.kind) {
    case 'number':
      return value.number;
    case 'text':
      return value.text;
    case 'logical':
      return value.logical;
    case 'error':
      return value.error.word;
    case 'empty':
      return null;
  }
}
