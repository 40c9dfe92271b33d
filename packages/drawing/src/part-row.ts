import {
  PLACE_SAYS,
  readTurn,
  SHAPE_FORMS,
  SHAPE_SAYS,
  type ShapeCells,
  type ShapeColumn,
  type ShapeWordColumn,
  type Turn,
} from '@kerfbook/wood';
import type { At, CellValue } from '@kerfbook/workbook';
import type { Column } from './columns.ts';
import type { PartProblem, PartsSource } from './parts-source.ts';
import { mmFromOwn, ownFromMm } from './units.ts';
import { isBlank, plainNumber, written } from './value-words.ts';

/** A cell was there but could not be used; its problem has been noted. */
export const trouble = Symbol('trouble');
type Trouble = typeof trouble;

/** Longest side taken, mm: 100 m. Beyond it a typing mistake is far likelier than furniture. */
const LONGEST = 100_000;
/** Farthest position or step taken, mm: 1 km. */
const FARTHEST = 1_000_000;
/** Sizes that differ by less are the same, mm: what converting between units adds. */
const NEAR = 1e-3;

const GRAIN: ReadonlyMap<string, 'length' | 'width' | 'none'> = new Map([
  ['length', 'length'],
  ['width', 'width'],
  ['none', 'none'],
]);

/** Columns whose heads say too little by themselves in a sentence. */
const CALLED: Readonly<Partial<Record<Column, string>>> = {
  boards: 'number of boards',
  corner: 'corner radius',
  'taper to': 'size at the narrow end of the taper',
  'taper from': 'beginning of the taper',
  arch: 'rise of the arch',
};

/** What stands under the heads of a shape that are no words. */
const SHAPE_SIZES = ['corner', 'taper to', 'arch', 'edge size'] as const;
const SPLAYS = ['splay along', 'splay across'] as const;

/** A row that has none of these is no part. */
const SIZES = ['thickness', 'width', 'length'] as const;

interface RowPlace {
  readonly source: PartsSource;
  readonly sheet: string;
  readonly row: number;
  readonly columns: ReadonlyMap<Column, number>;
  readonly problems: PartProblem[];
}

/** Reads the cells of one row by column word; what cannot be read becomes a problem at its cell. */
export class PartRow {
  readonly #place: RowPlace;
  #label = '';

  constructor(place: RowPlace) {
    this.#place = place;
  }

  at(column: Column): At | undefined {
    const { columns, sheet, row } = this.#place;
    const index = columns.get(column);
    return index === undefined ? undefined : { sheet, row, column: index };
  }

  /** The part's name; undefined for a row that is not a part. */
  name(): string | undefined {
    const value = this.#value('part');
    if (value.kind === 'error')
      this.#complain(
        'part',
        `This part's name shows ${value.error.word}; it takes a name, and the row is left out until then.`,
      );
    const text = plainText(value);
    this.#label = text ?? '';
    return text;
  }

  /**
   * What to call a row that has sizes and no name, having complained of it; undefined for a row that
   * is empty or holds something else, such as a sum below the counts.
   */
  namelessPart(): string | undefined {
    if (this.#value('part').kind === 'error') return this.#row;
    if (SIZES.every((column) => isBlank(this.#value(column)))) return undefined;
    this.#complain(
      'part',
      `${this.#row} of the parts table has sizes but no name, so it is left out. Name the part, or clear the row.`,
    );
    return this.#row;
  }

  /** The same for a row below the table's last one that is filled in like a part. */
  strayPart(last: number): string | undefined {
    const name = plainText(this.#value('part'));
    const filled = SIZES.every((column) => this.#value(column).kind === 'number');
    if (name === undefined || !filled) return undefined;
    this.#complain(
      'part',
      `${name} stands in row ${this.#place.row + 1}, below the parts table, which ends at row ${last + 1}, so it is left out. Insert a row within the table and move it there.`,
    );
    return name;
  }

  firstAt(): At {
    const { sheet, row } = this.#place;
    return this.at('part') ?? { sheet, row, column: 0 };
  }

  /** A cell of words in error: complained of, since what it would say is not known. */
  isInError(column: Column): boolean {
    const value = this.#value(column);
    if (value.kind !== 'error') return false;
    this.#refuse(column, value, 'it takes words');
    return true;
  }

  get #row(): string {
    return `Row ${this.#place.row + 1}`;
  }

  /** A name with nothing else in the row: a heading that groups the parts below it. */
  isHeading(): boolean {
    const others = [...this.#place.columns.keys()].filter((column) => column !== 'part');
    return others.length > 0 && others.every((column) => isBlank(this.#value(column)));
  }

  /**
   * Whether two or more of what every part needs are blank: said in one sentence, at the first of
   * them, so that a row that is being filled in tells what is left instead of one slip after another.
   */
  isUnfinished(): boolean {
    const blank = (['count', ...SIZES] as const).filter(
      (column) => this.at(column) !== undefined && isBlank(this.#value(column)),
    );
    const [first, ...others] = blank;
    if (first === undefined || others.length === 0) return false;
    const last = others.at(-1);
    const list = [first, ...others.slice(0, -1)].map((word) => `a ${word}`).join(', ');
    this.#complain(first, `${this.#label} still needs ${list} and a ${last}.`);
    return true;
  }

  /** Whether there is such a column with nothing in it. */
  isBlank(column: Column): boolean {
    return this.at(column) !== undefined && isBlank(this.#value(column));
  }

  text(column: Column): string | undefined {
    return plainText(this.#value(column));
  }

  /** One where the table has no such column. */
  count(): number | Trouble {
    if (this.at('count') === undefined) return 1;
    const value = this.#value('count');
    const takes = 'it takes a whole number, 0 for none';
    if (value.kind !== 'number') return this.#refuse('count', value, takes);
    if (!Number.isSafeInteger(value.number) || value.number < 0) {
      return this.#refuse('count', value, takes);
    }
    return value.number;
  }

  /** A side of the part in mm, above 0. A missing column was complained of at the header. */
  size(column: 'thickness' | 'width' | 'length'): number | Trouble {
    return this.at(column) === undefined ? trouble : this.#size(column);
  }

  /** The same without a complaint; undefined where it cannot be used. */
  sizeIfGood(column: 'thickness' | 'width'): number | undefined {
    const value = this.#value(column);
    const mm = value.kind === 'number' ? mmFromOwn(value.number, this.#units) : 0;
    return mm > 0 && mm <= LONGEST ? mm : undefined;
  }

  #size(column: Column): number | Trouble {
    const value = this.#value(column);
    const takes = `it takes ${this.#kind('size')} above 0`;
    if (value.kind !== 'number') return this.#refuse(column, value, takes);
    const mm = mmFromOwn(value.number, this.#units);
    if (!(mm > 0)) return this.#refuse(column, value, takes);
    if (mm > LONGEST) return this.#refuse(column, value, this.#most(LONGEST));
    return mm;
  }

  /** A side in mm; `otherwise` where the table or the row does not give it. */
  sizeOr(column: 'board width' | 'board length', otherwise: number): number | Trouble {
    return isBlank(this.#value(column)) ? otherwise : this.#size(column);
  }

  /** How thick a board is as it is glued up, mm; undefined where the table or the row does not say it. */
  boardThickness(panel: number): number | undefined | Trouble {
    const value = this.#value('board thickness');
    if (isBlank(value)) return undefined;
    const mm = this.#size('board thickness');
    if (mm === trouble || mm > panel - NEAR) return mm;
    return this.#refuse(
      'board thickness',
      value,
      'it takes what the panel is thick, or more: a board is never planed thicker',
    );
  }

  /** Boards, side by side, or layers, face to face, that a part is glued up of; undefined for one piece. */
  gluedOf(column: 'boards' | 'layers'): number | undefined | Trouble {
    const value = this.#value(column);
    if (isBlank(value)) return undefined;
    const takes = `it takes a whole number of ${column}, or nothing for one piece`;
    if (value.kind !== 'number') return this.#refuse(column, value, takes);
    if (!Number.isSafeInteger(value.number) || value.number < 1) {
      return this.#refuse(column, value, takes);
    }
    return value.number === 1 ? undefined : value.number;
  }

  /** A position or step in mm; undefined where the cell is empty. */
  distance(column: Column): number | undefined | Trouble {
    const value = this.#value(column);
    if (isBlank(value)) return undefined;
    const takes = `it takes ${this.#kind('distance')}`;
    if (value.kind !== 'number') return this.#refuse(column, value, takes);
    const mm = mmFromOwn(value.number, this.#units);
    if (!(Math.abs(mm) <= FARTHEST)) return this.#refuse(column, value, this.#most(FARTHEST));
    return mm;
  }

  /** Where it goes, in words; undefined where x, y and z alone say it. */
  place(): string | undefined | Trouble {
    const value = this.#value('place');
    if (isBlank(value)) return undefined;
    if (value.kind === 'text') return value.text;
    this.#complain('place', PLACE_SAYS.notText(this.#label, written(value)));
    return trouble;
  }

  /** Undefined where the row does not say. */
  turn(): Turn | undefined | Trouble {
    const value = this.#value('turn');
    if (isBlank(value)) return undefined;
    const turn = value.kind === 'text' ? readTurn(value.text) : undefined;
    if (turn !== undefined) return turn;
    return this.#refuse(
      'turn',
      value,
      'it takes L, W and T once each for what runs along x, y and z, such as LWT for flat or WTL for upright',
    );
  }

  grain(): 'length' | 'width' | undefined | Trouble {
    const value = this.#value('grain');
    if (isBlank(value)) return undefined;
    const grain = value.kind === 'text' ? GRAIN.get(value.text.trim().toLowerCase()) : undefined;
    if (grain === undefined) {
      return this.#refuse('grain', value, 'it takes length, width or none');
    }
    return grain === 'none' ? undefined : grain;
  }

  /** What the row says of its shape, as far as it can be used. */
  shape(): ShapeCells {
    const cells: { -readonly [column in ShapeColumn]?: ShapeCells[column] } = {};
    for (const column of Object.keys(SHAPE_FORMS) as ShapeWordColumn[]) {
      const words = this.#words(column);
      if (words !== undefined) cells[column] = words;
    }
    for (const column of SHAPE_SIZES) {
      const mm = isBlank(this.#value(column)) ? undefined : this.#size(column);
      if (mm !== undefined && mm !== trouble) cells[column] = mm;
    }
    const from = this.distance('taper from');
    if (from !== undefined && from !== trouble) cells['taper from'] = from;
    for (const column of SPLAYS) {
      const value = this.#value(column);
      if (value.kind === 'number') cells[column] = value.number;
      else if (!isBlank(value)) this.#refuse(column, value, 'it takes an angle in degrees');
    }
    return cells;
  }

  #words(column: ShapeWordColumn): string | undefined {
    const value = this.#value(column);
    if (isBlank(value)) return undefined;
    if (value.kind === 'text') return value.text;
    this.#complain(column, SHAPE_SAYS.notText(column, this.#label, written(value)));
    return undefined;
  }

  /** The cell of a column, or that of the name where the table has no such column. */
  cellOr(column: Column): At {
    return this.at(column) ?? this.firstAt();
  }

  /** Notes what is wrong with a cell of the row. */
  note(column: Column, says: string): void {
    this.#place.problems.push({ at: this.cellOr(column), says });
  }

  get #units() {
    return this.#place.source.units;
  }

  #kind(noun: 'size' | 'distance'): string {
    return `a ${noun} in ${this.#units === 'us' ? 'inches' : 'millimeters'}`;
  }

  #most(mm: number): string {
    const unit = this.#units === 'us' ? 'in' : 'mm';
    return `a drawing takes up to ${plainNumber(ownFromMm(mm, this.#units))} ${unit}`;
  }

  #value(column: Column): CellValue {
    const at = this.at(column);
    return at === undefined ? { kind: 'empty' } : this.#place.source.value(at);
  }

  #refuse(column: Column, value: CellValue, takes: string): Trouble {
    const state = isBlank(value) ? 'is empty' : `is ${written(value)}`;
    const what = CALLED[column] ?? column;
    this.#complain(column, `The ${what} of ${this.#label} ${state}; ${takes}.`);
    return trouble;
  }

  #complain(column: Column, says: string): void {
    const at = this.at(column);
    if (at !== undefined) this.#place.problems.push({ at, says });
  }
}

function plainText(value: CellValue): string | undefined {
  if (isBlank(value)) return undefined;
  if (value.kind === 'text') return value.text.trim();
  return value.kind === 'error' ? undefined : written(value);
}
