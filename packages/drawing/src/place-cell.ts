import { SHAPE_COLUMNS, SHAPE_FORMS, type ShapeWordColumn } from '@kerfbook/wood';
import type { At } from '@kerfbook/workbook';
import { type Column, readHeader } from './columns.ts';
import { type PartsReading, readParts } from './parts.ts';
import { endBelow, type PartProblem, type PartsSource } from './parts-source.ts';
import { keyOfCell } from './shop/cell-plans.ts';

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

/** What is wrong with a place in words or with a shape, at its cell. */
export interface PartTrouble extends PartProblem {
  /**
   * `stop` where the part is placed nowhere or made without that of its shape, `care` where it is placed and something
   * is to be looked at.
   */
  readonly state: 'stop' | 'care';
}

/** What a reading says of the cells that place parts in words and shape them, each cell once; nothing of empty ones. */
export function partTroubles(
  source: PartsSource,
  { problems, parts }: Pick<PartsReading, 'problems' | 'parts'>,
): readonly PartTrouble[] {
  const table = source.tables().find(({ kind }) => kind === 'parts');
  if (table === undefined || problems.length === 0) return [];
  const { columns } = readHeader(source, table);
  const place = columns.get('place');
  const shaping = new Set(SHAPE_COLUMNS.map((column) => columns.get(column)));
  const placed = new Set(parts.flatMap(({ at, placing }) => (placing === undefined ? [] : at.row)));
  const found = new Map<string, PartTrouble>();
  for (const { at, says } of problems) {
    if (at.sheet !== table.sheet || at.row <= table.header) continue;
    if (at.column !== place && !shaping.has(at.column)) continue;
    if (source.value(at).kind === 'empty') continue;
    const key = keyOfCell(at);
    const before = found.get(key);
    const state = at.column === place && placed.has(at.row) ? 'care' : 'stop';
    found.set(key, { at, says: before === undefined ? says : `${before.says} ${says}`, state });
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
