import type { FunctionDescription } from './describe.ts';
import type { Quantity } from './quantity.ts';

/** Tables of a maker's own, in which functions look before they look in the published ones. */
export type OwnKind = 'woods' | 'screws' | 'finishes' | 'prices';

/** A column of such a table: the word that heads it, and what stands under it. */
export interface OwnColumn {
  /** The word at its head. */
  readonly heads: string;
  /** What its figures are. */
  readonly quantity: Quantity;
  /** What it is, in words. */
  readonly means: string;
}

/** A table of a maker's own: whom it is for and what its columns are. */
export interface OwnTableDescription {
  /** What it has figures of. */
  readonly kind: OwnKind;
  /** The first column names the row; a blank in another leaves that to the published tables. */
  readonly columns: readonly [OwnColumn, ...OwnColumn[]];
}

const column = (heads: string, quantity: Quantity, means: string): OwnColumn => ({
  heads,
  quantity,
  means,
});

/** The tables a workbook may have of its own. Of prices several rows may be of one wood, and none is published. */
export const OWN_TABLES: readonly OwnTableDescription[] = [
  {
    kind: 'woods',
    columns: [
      column('species', 'text', 'name of the wood'),
      column('tangential', 'movement_rate', 'change across flat-sawn boards for 1 % of moisture'),
      column('radial', 'movement_rate', 'change across quarter-sawn boards for 1 % of moisture'),
      column('gravity', 'number', 'specific gravity at 12 % moisture'),
      column('stiffness', 'pressure', 'modulus of elasticity'),
      column('hardness', 'force', 'side hardness'),
    ],
  },
  {
    kind: 'screws',
    columns: [
      column('gauge', 'count', 'gauge number'),
      column('diameter', 'length', 'diameter of the shank'),
    ],
  },
  {
    kind: 'finishes',
    columns: [
      column('finish', 'text', 'kind or name of the finish'),
      column('coverage', 'coverage', 'surface that one coat covers'),
    ],
  },
  {
    kind: 'prices',
    columns: [
      column('wood', 'text', 'The species.'),
      column(
        'thickness',
        'length',
        'As it is bought, such as 8/4; blank for whatever no other row is thick enough for.',
      ),
      column('grade', 'text', 'As the yard grades it; blank for every grade.'),
      column('price', 'money', 'Of what stands under per.'),
      column('per', 'text', 'board foot, cubic meter or piece; blank for the board foot.'),
      column('day', 'date', 'When it was asked for.'),
    ],
  },
];

/** A row of an own table by its columns' heads, in us units; blanks are left out. */
export type OwnRow = Readonly<Record<string, string | number>>;
/** Rows of a maker's own tables, by kind. */
export type OwnTables = Readonly<Partial<Record<OwnKind, readonly OwnRow[]>>>;

const NONE: OwnTables = {};
let open: OwnTables = NONE;

/**
 * Runs a calculation in which the functions look in these tables first. The tables are closed again
 * whatever it comes to; calculations do not wait for anything, so none sees another's tables.
 */
export function withOwnTables<T>(tables: OwnTables, run: () => T): T {
  const before = open;
  open = tables;
  try {
    return run();
  } finally {
    open = before;
  }
}

/** A figure of an own row; `undefined` where there is no such row or it is blank there. */
export function ownFigure(
  kind: OwnKind,
  isRow: (row: OwnRow) => boolean,
  heads: string,
): number | undefined {
  const value = open[kind]?.find(isRow)?.[heads];
  return typeof value === 'number' ? value : undefined;
}

/** The rows of an own table; `undefined` where the workbook has none. */
export const ownRowsOf = (kind: OwnKind): readonly OwnRow[] | undefined => open[kind];

/** Whether an own table has such a row at all. */
export function hasOwnRow(kind: OwnKind, isRow: (row: OwnRow) => boolean): boolean {
  return open[kind]?.some(isRow) ?? false;
}

/** The argument that is looked up in each kind of table. */
const LOOKED_UP: Readonly<Record<OwnKind, string>> = {
  woods: 'species',
  screws: 'gauge',
  finishes: 'finish',
  prices: 'wood',
};

/** The own tables a function looks in. */
export function ownTablesOf({ args }: FunctionDescription): readonly OwnKind[] {
  return OWN_TABLES.map(({ kind }) => kind).filter((kind) =>
    args.some(({ name }) => name === LOOKED_UP[kind]),
  );
}
