import type { BookDocument, CellDocument } from '@kerfbook/document';
import { fromUs } from './stated.ts';

/** The same workbook in metric: inputs and their ranges converted, formulas as they are. */
export function inMetric(document: BookDocument): BookDocument {
  const copy = structuredClone(document);
  copy.units = 'metric';
  for (const sheet of copy.sheets) {
    for (const { cells = {} } of sheet.rows) for (const cell of Object.values(cells)) convert(cell);
  }
  return copy;
}

function convert(cell: CellDocument): void {
  const { quantity, value, allow } = cell;
  if (quantity === undefined || cell.formula !== undefined) return;
  delete cell.typed;
  if (typeof value === 'number') cell.value = fromUs(value, quantity, 'metric');
  if (allow?.min !== undefined) allow.min = fromUs(allow.min, quantity, 'metric');
  if (allow?.max !== undefined) allow.max = fromUs(allow.max, quantity, 'metric');
}
