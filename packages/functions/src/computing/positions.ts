import { SAYS } from './says.ts';
import { type Aids, taken, text } from './takes.ts';
import { Failure, fail, type Value } from './values.ts';

/** A cell by where it stands, from 0. */
export interface Place {
  /** Id of its sheet. */
  readonly sheet: string;
  /** Its row. */
  readonly row: number;
  /** Its column. */
  readonly column: number;
}

/** A corner of what a reference names: whole rows have no column, whole columns no row. */
export interface Corner {
  /** Its row; none for whole columns. */
  readonly row?: number;
  /** Its column; none for whole rows. */
  readonly column?: number;
  /** Written with `$`. */
  readonly rowFixed: boolean;
  /** The same of the column. */
  readonly columnFixed: boolean;
}

/** The cells that a reference names, from the upper left to the lower right. */
export interface Named {
  /** Id of the sheet. */
  readonly sheet: string;
  /** The upper left. */
  readonly first: Corner;
  /** The lower right; left out for a single cell. */
  readonly last?: Corner;
}

/** What a workbook answers of where things stand, and of what cells are beside their values. */
export interface Standing {
  /** The cell that asks. */
  readonly own: Place;
  /** How many rows and columns a sheet may have. */
  readonly most: { readonly rows: number; readonly columns: number };
  /** How many sheets there are. */
  sheetCount(): number;
  /** The place of a sheet among them, from 1; nothing where it is not there. */
  sheetPlace(id: string): number | undefined;
  /** The place of the sheet that is called so. */
  sheetCalled(name: string): number | undefined;
  /** The formula of a cell as its maker reads it. */
  formulaText(at: Place): string | undefined;
}

/** A function of where cells stand, which asks for no values. */
export interface Position {
  /** What it also looks at: what cells hold. */
  readonly content?: true;
  /** What it comes to without an argument. */
  none(standing: Standing): Value;
  /** What it comes to for cells. */
  of(standing: Standing, named: Named): Value;
  /** What it comes to for a value. */
  other(standing: Standing, value: Value, isEmpty: boolean): Value;
}

const count = () => fail('NA', SAYS.arguments);

/** For anything that names no cell. */
const noCell = (_: Standing, value: Value): Value =>
  value instanceof Failure ? value : fail('NA', SAYS.cell);

const asOne = (_: Standing, value: Value, isEmpty: boolean): Value => {
  if (isEmpty) return fail('NUM', SAYS.emptyArgument);
  return value instanceof Failure ? value : 1;
};

/**
 * How far it is between two rows or columns. HyperFormula counts those without `$` from the cell that asks,
 * and so comes to another number where only one of them has it.
 */
const between = (own: number, from: number, fromFixed: boolean, to: number, toFixed: boolean) =>
  (toFixed ? to : to - own) - (fromFixed ? from : from - own) + 1;

/** Functions of where cells stand, by name. */
export const positions = ({
  missing,
  wrongCount,
}: Pick<Aids, 'missing' | 'wrongCount'>): ReadonlyMap<string, Position> => {
  const notThere = () => fail('NA', missing);
  return new Map(
    Object.entries<Position>({
      ROW: {
        none: ({ own }) => own.row + 1,
        of: (_, { first }) => (first.row ?? 0) + 1,
        other: noCell,
      },
      COLUMN: {
        none: ({ own }) => own.column + 1,
        of: (_, { first }) => (first.column ?? 0) + 1,
        other: noCell,
      },
      ROWS: {
        none: count,
        of: ({ own, most }, { first, last }) => {
          if (last === undefined) return 1;
          if (first.row === undefined || last.row === undefined) return most.rows;
          return between(own.row, first.row, first.rowFixed, last.row, last.rowFixed);
        },
        other: asOne,
      },
      COLUMNS: {
        none: count,
        of: ({ own, most }, { first, last }) => {
          if (last === undefined) return 1;
          if (first.column === undefined || last.column === undefined) return most.columns;
          const [from, to] = [first.column, last.column];
          return between(own.column, from, first.columnFixed, to, last.columnFixed);
        },
        other: asOne,
      },
      SHEET: {
        none: ({ own, sheetPlace }) => sheetPlace(own.sheet) ?? notThere(),
        of: ({ sheetPlace }, { sheet }) => sheetPlace(sheet) ?? notThere(),
        other: ({ sheetCalled }, value) => {
          const name = taken(value, text);
          if (name instanceof Failure) return name;
          return sheetCalled(String(name)) ?? notThere();
        },
      },
      SHEETS: {
        none: ({ sheetCount }) => sheetCount(),
        of: () => 1,
        other: (_, value) => (value instanceof Failure ? value : notThere()),
      },
      FORMULATEXT: {
        content: true,
        none: () => fail('NA', wrongCount),
        of: ({ formulaText }, named) => formulaText(cornerOf(named)) ?? notThere(),
        other: noCell,
      },
      ISFORMULA: {
        content: true,
        none: count,
        of: ({ formulaText }, named) => formulaText(cornerOf(named)) !== undefined,
        other: noCell,
      },
    }),
  );
};

const cornerOf = ({ sheet, first }: Named): Place => ({
  sheet,
  row: first.row ?? 0,
  column: first.column ?? 0,
});
