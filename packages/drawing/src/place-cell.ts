import { SHAPE_FORMS, type ShapeWordColumn } from '@kerfbook/wood';
import type { At } from '@kerfbook/workbook';
import { type Column, readHeader } from './columns.ts';
import { type PartsReading, readParts } from './parts.ts';
import { endBelow, type PartProblem, type PartsSource } from './parts-source.ts';

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

/** The head of a shape in words that a cell stands under; undefined where it stands under any other, or under none. */
export function shapeCell(source: PartsSource, at: At): ShapeWordColumn | undefined {
  const table = source.tables().find(({ kind }) => kind === 'parts');
  if (table === undefined || table.sheet !== at.sheet || at.row <= table.header) return undefined;
  if (at.row >= endBelow(source, table)) return undefined;
  const { columns } = readHeader(source, table);
  const words = Object.keys(SHAPE_FORMS) as ShapeWordColumn[];
  return words.find((word) => columns.get(word) === at.column);
}

/** Heads that the parts table has already, where a cell is one of its heads; undefined for any other cell. */
export function headCell(source: PartsSource, at: At): readonly Column[] | undefined {
  const table = source.tables().find(({ kind }) => kind === 'parts');
  if (table === undefined || table.sheet !== at.sheet || at.row !== table.header) return undefined;
  const { columns } = readHeader(source, table);
  return [...columns].flatMap(([word, column]) => (column === at.column ? [] : [word]));
}

/** What is wrong with a place in words, at its cell. */
export interface PlaceTrouble extends PartProblem {
  /** `stop` where the part is placed nowhere, `care` where it is placed and something is to be looked at. */
  readonly state: 'stop' | 'care';
}

/** What a reading says of the cells that hold places in words, each cell once; nothing of rows that hold none. */
export function placeTroubles(
  source: PartsSource,
  { problems, parts }: Pick<PartsReading, 'problems' | 'parts'>,
): readonly PlaceTrouble[] {
  const table = source.tables().find(({ kind }) => kind === 'parts');
  if (table === undefined || problems.length === 0) return [];
  const column = readHeader(source, table).columns.get('place');
  const placed = new Set(parts.flatMap(({ at, placing }) => (placing === undefined ? [] : at.row)));
  const found = new Map<number, PlaceTrouble>();
  for (const { at, says } of problems) {
    if (at.sheet !== table.sheet || at.column !== column || at.row <= table.header) continue;
    if (source.value(at).kind === 'empty') continue;
    const before = found.get(at.row);
    const state = placed.has(at.row) ? 'care' : 'stop';
    found.set(at.row, { at, says: before === undefined ? says : `${before.says} ${says}`, state });
  }
  return [...found.values()];
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
