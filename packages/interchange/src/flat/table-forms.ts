import type { Node } from '@kerfbook/document';
import { SHAPE_COLUMNS } from '@kerfbook/wood';
import type { CellValue } from '@kerfbook/workbook';

/** A column of a table with known heads. */
export interface TableColumn {
  /** What stands under its head. */
  readonly range: Node;
  /** Nothing does. */
  readonly isBlank: boolean;
  /** What stands in each of its cells, the cell, and whether it was typed there. */
  cells(): readonly {
    readonly value: CellValue;
    readonly cell: Node;
    readonly isTyped: boolean;
  }[];
}

/** What is asked of the cells of a table. */
export interface TableSource {
  /** The columns of a table by their heads, in small letters; undefined where an argument is none. */
  columnsOf(argument: Node): ReadonlyMap<string, TableColumn> | undefined;
  /** How many letters a formula has when it is written. */
  lettersOf(node: Node): number;
}

/** What the finished parts of a table measure, as sums over its columns. */
const SUMS: Readonly<Record<string, (sum: (...heads: readonly string[]) => Node) => Node>> = {
  PARTS_VOLUME: (sum) => sum('count', 'thickness', 'width', 'length'),
  PARTS_AREA: (sum) => ({
    kind: 'joined',
    sign: '*',
    left: { kind: 'number', value: 2 },
    right: {
      kind: 'bracket',
      of: plus(
        plus(sum('count', 'width', 'length'), sum('count', 'thickness', 'length')),
        sum('count', 'thickness', 'width'),
      ),
    },
  }),
};

const plus = (left: Node, right: Node): Node => ({ kind: 'joined', sign: '+', left, right });

/** Names of the functions that can be written as sums. */
export const SUMMED_UP: readonly string[] = Object.keys(SUMS);

/**
 * A call of ours on a parts table as sums over its columns; undefined where there is no such form, or where parts are
 * shaped or joined: what is cut off them no sum tells.
 */
export function tableForm(
  name: string,
  args: readonly Node[],
  source: TableSource,
): Node | undefined {
  const form = Object.hasOwn(SUMS, name) ? SUMS[name] : undefined;
  const [table, ...more] = args;
  if (form === undefined || table === undefined) return undefined;
  if (more.some(({ kind }) => kind !== 'nothing')) return undefined;
  const columns = source.columnsOf(table);
  if (columns === undefined) return undefined;
  if (SHAPE_COLUMNS.some((head) => columns.get(head)?.isBlank === false)) return undefined;
  const needed = ['count', 'thickness', 'width', 'length'];
  if (!needed.every((head) => columns.has(head))) return undefined;
  const whole = form((...heads) => ({
    kind: 'call',
    name: 'SUMPRODUCT',
    args: heads.flatMap((head) => columns.get(head)?.range ?? []),
  }));
  return whole.kind === 'joined' ? { kind: 'bracket', of: whole } : whole;
}
