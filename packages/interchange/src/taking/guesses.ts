import { columnName } from '@kerfbook/document';
import { OWN_UNITS, type UnitSystem } from '@kerfbook/wood';
import type { CellIn, SheetIn } from './coming-in.ts';
import { placeKey } from './place-key.ts';
import {
  COUNTS,
  DATES,
  INCHES,
  type KnownUnit,
  MILLIMETERS,
  MONEY,
  unitCalled,
} from './units-in.ts';

/** What cells of a column look like, by their formats, the unit beside them or the head over them. */
export interface Guess extends KnownUnit {
  /** Counted from 0. */
  readonly sheet: number;
  /** Counted from 0. */
  readonly cells: readonly { readonly row: number; readonly column: number }[];
  /** `column C` */
  readonly column: string;
  /** `its head says "Length (in)"` */
  readonly why: string;
  /** Its numbers are in the workbook's own unit. */
  readonly fits: boolean;
  /** They may be turned into it: none is a formula's, and no formula rests on them. */
  readonly turns: boolean;
  /** `Column C looks like lengths in inches (41 cells): its head says "Length (in)".` */
  readonly says: string;
}

const LONGEST_UNIT = 14;

/** Heads that say what is under them without a unit. */
const LENGTH_HEADS = /\b(?:length|width|thickness|thick|depth|height|diameter|radius|long|wide)\b/i;
const COUNT_HEADS = /^(?:qty|quantity|count|pcs|pieces|no\.?|number|how many|#)$/i;
const UNIT_IN_HEAD =
  /[([]\s*([^)\]]{1,12})\s*[)\]]\s*$|,\s*([^,]{1,8})$|\bin (inches|mm|cm|feet)$/i;

const isMetric = (known: KnownUnit): boolean =>
  OWN_UNITS[known.quantity].us !== OWN_UNITS[known.quantity].metric &&
  /^(?:mm|cm|m|mm²|m²|kg|°C)$/.test(known.unit);
const isUs = (known: KnownUnit): boolean => /^(?:in|ft|in²|ft²|lb|°F|psi)$/.test(known.unit);

/** The units that a file speaks in: those that most of its cells with a unit have. */
export function unitsOf(sheets: readonly SheetIn[]): UnitSystem {
  let metric = 0;
  let us = 0;
  for (const sheet of sheets) {
    for (const { known } of told(sheet)) {
      if (isMetric(known)) metric += 1;
      else if (isUs(known)) us += 1;
    }
  }
  return metric > us ? 'metric' : 'us';
}

/** The money of a file: that of most amounts; undefined where there are none. */
export function currencyOf(sheets: readonly SheetIn[]): string | undefined {
  const counts = new Map<string, number>();
  for (const { cells } of sheets) {
    for (const { format } of cells) {
      const code = format?.kind === 'money' ? format.currency : undefined;
      if (code !== undefined) counts.set(code, (counts.get(code) ?? 0) + 1);
    }
  }
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0];
}

/**
 * What numbers look like, a guess for each column and kind; nothing is taken before somebody said so.
 * @param isFree whether a cell holds a number that no formula rests on
 */
export function guessesOf(
  sheets: readonly SheetIn[],
  units: UnitSystem,
  isFree: (sheet: number, row: number, column: number) => boolean,
): readonly Guess[] {
  return sheets.flatMap((sheet, index) => {
    const groups = new Map<
      string,
      { known: KnownUnit; why: string; cells: { row: number; column: number }[] }
    >();
    for (const { cell, known, why } of told(sheet, units)) {
      const key = `${cell.column} ${known.quantity} ${known.unit}`;
      const group = groups.get(key) ?? { known, why, cells: [] };
      group.cells.push({ row: cell.row, column: cell.column });
      groups.set(key, group);
    }
    return [...groups.values()].map(({ known, why, cells }): Guess => {
      const { quantity, unit, plural } = known;
      const count = `${cells.length} ${cells.length === 1 ? 'cell' : 'cells'}`;
      const column = `column ${columnName(cells[0]?.column ?? 0)}`;
      const own = OWN_UNITS[quantity][units];
      const fits = own === unit;
      const turns = cells.every((cell) => isFree(index, cell.row, cell.column));
      const becomes = turns
        ? ` Its numbers become ${own}.`
        : ' Its numbers stay bare, since formulas rest on them.';
      return {
        ...known,
        sheet: index,
        cells,
        column,
        why,
        fits,
        turns,
        says: `${sheet.name}, ${column} looks like ${plural} (${count}): ${why}.${fits ? '' : becomes}`,
      };
    });
  });
}

interface Told {
  readonly cell: CellIn;
  readonly known: KnownUnit;
  readonly why: string;
}

/** Numbers of a sheet that say what they are. */
function* told(sheet: SheetIn, units: UnitSystem = 'us'): Generator<Told> {
  const texts = new Map<number, string>();
  for (const { row, column, value } of sheet.cells) {
    if (value?.kind === 'text') texts.set(placeKey(row, column), value.text.trim());
  }
  /** The last words over a place in its column. */
  const heads = new Map<number, string>();
  for (const cell of sheet.cells) {
    const { row, column, value } = cell;
    if (value?.kind === 'text') {
      heads.set(column, value.text.trim());
      continue;
    }
    if (value?.kind !== 'number') continue;
    const found =
      byFormat(cell, units) ??
      byNeighbor(texts.get(placeKey(row, column + 1))) ??
      byHead(heads.get(column), units);
    if (found !== undefined) yield { cell, ...found };
  }
}

function byFormat({ format }: CellIn, units: UnitSystem): Omit<Told, 'cell'> | undefined {
  if (format === undefined) return undefined;
  const unit = unitCalled(format.words ?? '');
  if (unit !== undefined) return { known: unit, why: `its format says "${format.words}"` };
  switch (format.kind) {
    case 'date':
      return { known: DATES, why: 'its format is that of dates' };
    case 'money':
      return { known: MONEY, why: 'its format is that of money' };
    case 'fraction':
      return units === 'us' ? { known: INCHES, why: 'its format is that of fractions' } : undefined;
    default:
      return undefined;
  }
}

function byNeighbor(text: string | undefined): Omit<Told, 'cell'> | undefined {
  const known = text === undefined || text.length > LONGEST_UNIT ? undefined : unitCalled(text);
  return known === undefined ? undefined : { known, why: `"${text}" stands beside it` };
}

const LONGEST_HEAD = 60;

function byHead(head: string | undefined, units: UnitSystem): Omit<Told, 'cell'> | undefined {
  if (head === undefined || head.length > LONGEST_HEAD) return undefined;
  const why = `its head says "${head}"`;
  const found = UNIT_IN_HEAD.exec(head);
  const word = (found?.[1] ?? found?.[2] ?? found?.[3])?.trim().toLowerCase();
  const known = word === undefined ? undefined : unitCalled(word);
  if (known !== undefined) return { known, why };
  if (COUNT_HEADS.test(head)) return { known: COUNTS, why };
  if (!LENGTH_HEADS.test(head)) return undefined;
  return { known: units === 'us' ? INCHES : MILLIMETERS, why };
}
