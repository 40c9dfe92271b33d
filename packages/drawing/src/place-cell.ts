import type { At } from '@kerfbook/workbook';
import { readHeader } from './columns.ts';
import { type PartsReading, readParts } from './parts.ts';
import { endBelow, type PartsSource } from './parts-source.ts';

/** A cell that says in words where a part goes. */
export interface PlaceCell {
  /** Names of the other parts, each once, in the order of the table: what its words may go by. */
  readonly names: readonly string[];
}

/** What a cell may name where it says the place of a part; undefined where it says anything else. */
export function placeCell(source: PartsSource, at: At): PlaceCell | undefined {
  const table = source.tables().find(({ kind }) => kind === 'parts');
  if (table === undefined || table.sheet !== at.sheet || at.row <= table.header) return undefined;
  const { columns } = readHeader(source, table);
  const part = columns.get('part');
  if (part === undefined || columns.get('place') !== at.column) return undefined;
  const end = endBelow(source, table);
  if (at.row >= end) return undefined;
  const names = new Map<string, string>();
  for (let row = table.header + 1; row <= Math.min(table.last, end - 1); row += 1) {
    const value = row === at.row ? undefined : source.value({ sheet: at.sheet, row, column: part });
    const name = value?.kind === 'text' ? value.text.trim() : '';
    if (name !== '' && !names.has(name.toLowerCase())) names.set(name.toLowerCase(), name);
  }
  return { names: [...names.values()] };
}

/**
 * The parts as they would be with a place that is being written; undefined where it cannot be read as it is, or
 * the cell says no place.
 */
export function partsPlaced(source: PartsSource, at: At, text: string): PartsReading | undefined {
  if (placeCell(source, at) === undefined) return undefined;
  const reading = readParts({
    units: source.units,
    tables: () => source.tables(),
    sheet: (id) => source.sheet(id),
    value: (one) =>
      one.sheet === at.sheet && one.row === at.row && one.column === at.column
        ? { kind: 'text', text }
        : source.value(one),
  });
  const part = reading.parts.find((one) => one.at.sheet === at.sheet && one.at.row === at.row);
  return part?.placing === undefined ? undefined : reading;
}
