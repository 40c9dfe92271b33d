import { columnName } from '@kerfbook/document';
import { OWN_UNITS, type Quantity, type UnitSystem } from '@kerfbook/wood';
import type { CellIn, SheetIn } from './coming-in.ts';

/** What cells of a column look like, by their formats, the unit beside them or the head over them. */
export interface Guess {
  /** Counted from 0. */
  readonly sheet: number;
  /** What they would be. */
  readonly quantity: Quantity;
  /** As the file says it; empty where the quantity has none. */
  readonly unit: string;
  /** Counted from 0. */
  readonly cells: readonly { readonly row: number; readonly column: number }[];
  /** Its numbers are in the workbook's own unit; others stay bare numbers, since formulas rest on them. */
  readonly fits: boolean;
  /** `Column C looks like lengths in inches (41 cells): its head says "Length (in)".` */
  readonly says: string;
}

interface Known {
  readonly quantity: Quantity;
  /** As our units are written. */
  readonly unit: string;
  readonly plural: string;
}

const of = (quantity: Quantity, unit: string, plural: string): Known => ({
  quantity,
  unit,
  plural,
});

const INCHES = of('length', 'in', 'lengths in inches');
const MILLIMETERS = of('length', 'mm', 'lengths in millimeters');
const COUNTS = of('count', '', 'counts');

/** Units as people write them, in small letters. */
const UNITS: ReadonlyMap<string, Known> = new Map<string, Known>([
  ...['in', 'in.', '"', '″', 'inch', 'inches', 'ins'].map((word) => [word, INCHES] as const),
  ...['mm', 'millimeter', 'millimeters'].map((word) => [word, MILLIMETERS] as const),
  ...['ft', "'", 'feet'].map((word) => [word, of('length', 'ft', 'lengths in feet')] as const),
  ['cm', of('length', 'cm', 'lengths in centimeters')],
  ['m', of('length', 'm', 'lengths in meters')],
  ...['bd ft', 'bf', 'bdft', 'board feet', 'bd. ft.'].map(
    (word) => [word, of('boardfeet', 'bd ft', 'board feet')] as const,
  ),
  ...['in²', 'sq in', 'in2'].map(
    (word) => [word, of('area', 'in²', 'areas in square inches')] as const,
  ),
  ...['ft²', 'sq ft', 'ft2', 'sqft'].map(
    (word) => [word, of('area', 'ft²', 'areas in square feet')] as const,
  ),
  ...['mm²', 'mm2'].map(
    (word) => [word, of('area', 'mm²', 'areas in square millimeters')] as const,
  ),
  ...['m²', 'm2', 'sq m'].map(
    (word) => [word, of('area', 'm²', 'areas in square meters')] as const,
  ),
  ...['lb', 'lbs', 'pounds'].map((word) => [word, of('mass', 'lb', 'weights in pounds')] as const),
  ...['kg'].map((word) => [word, of('mass', 'kg', 'weights in kilograms')] as const),
  ...['h', 'hr', 'hrs', 'hours'].map((word) => [word, of('duration', 'h', 'hours')] as const),
  ...['°f', 'deg f'].map((word) => [word, of('temperature', '°F', 'temperatures in °F')] as const),
  ...['°c', 'deg c'].map((word) => [word, of('temperature', '°C', 'temperatures in °C')] as const),
  ...['°', 'deg', 'degrees'].map((word) => [word, of('angle', '°', 'angles')] as const),
  ...['psi'].map((word) => [word, of('pressure', 'psi', 'pressures in psi')] as const),
]);

const LONGEST_UNIT = 14;
/** Either spelling is the same unit. */
const unitCalled = (word: string): Known | undefined =>
  UNITS.get(word.toLowerCase().replace(/met(?:re)(?=s?$)/, 'meter'));

/** Heads that say what is under them without a unit. */
const LENGTH_HEADS = /\b(?:length|width|thickness|thick|depth|height|diameter|radius|long|wide)\b/i;
const COUNT_HEADS = /^(?:qty|quantity|count|pcs|pieces|no\.?|number|how many|#)$/i;
const UNIT_IN_HEAD =
  /[([]\s*([^)\]]{1,12})\s*[)\]]\s*$|,\s*([^,]{1,8})$|\bin (inches|mm|cm|feet)$/i;

const isMetric = (known: Known): boolean =>
  OWN_UNITS[known.quantity].us !== OWN_UNITS[known.quantity].metric &&
  /^(?:mm|cm|m|mm²|m²|kg|°C)$/.test(known.unit);
const isUs = (known: Known): boolean => /^(?:in|ft|in²|ft²|lb|°F|psi)$/.test(known.unit);

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

/** What numbers look like, a guess for each column and kind; nothing is taken before somebody said so. */
export function guessesOf(sheets: readonly SheetIn[], units: UnitSystem): readonly Guess[] {
  return sheets.flatMap((sheet, index) => {
    const groups = new Map<
      string,
      { known: Known; why: string; cells: { row: number; column: number }[] }
    >();
    for (const { cell, known, why } of told(sheet, units)) {
      const key = `${cell.column} ${known.quantity} ${known.unit}`;
      const group = groups.get(key) ?? { known, why, cells: [] };
      group.cells.push({ row: cell.row, column: cell.column });
      groups.set(key, group);
    }
    return [...groups.values()].map(({ known, why, cells }): Guess => {
      const { quantity, unit } = known;
      const count = `${cells.length} ${cells.length === 1 ? 'cell' : 'cells'}`;
      const letters = columnName(cells[0]?.column ?? 0);
      const fits = OWN_UNITS[quantity][units] === unit;
      const stays = fits ? '' : ' Its numbers stay bare, since formulas rest on them.';
      return {
        sheet: index,
        quantity,
        unit,
        cells,
        fits,
        says: `${sheet.name}, column ${letters} looks like ${known.plural} (${count}): ${why}.${stays}`,
      };
    });
  });
}

interface Told {
  readonly cell: CellIn;
  readonly known: Known;
  readonly why: string;
}

/** Numbers of a sheet that say what they are. */
function* told(sheet: SheetIn, units: UnitSystem = 'us'): Generator<Told> {
  const texts = new Map<string, string>();
  for (const { row, column, value } of sheet.cells) {
    if (value?.kind === 'text') texts.set(`${row} ${column}`, value.text.trim());
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
      byNeighbor(texts.get(`${row} ${column + 1}`)) ??
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
      return { known: of('date', '', 'dates'), why: 'its format is that of dates' };
    case 'money':
      return { known: of('money', '', 'amounts of money'), why: 'its format is that of money' };
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
