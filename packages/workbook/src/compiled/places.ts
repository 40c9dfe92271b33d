import { type At, CHECKS_SHEET, type KeptCorner, type SheetState } from '@kerfbook/document';
import type { Differing } from '../port.ts';

/** A row of a sheet, or a check, with the nodes of its cells by the numbers of their columns. */
export interface Line {
  readonly sheet: string;
  readonly id: string;
  /** Where it stands; -1 once it is gone. */
  index: number;
  readonly nodes: (number | undefined)[];
}

export interface Column {
  readonly id: string;
  index: number;
  /** Which of the columns that a sheet ever had it is. */
  readonly number: number;
}

/** The rows and columns at the ends of a range. */
export interface Corners {
  readonly top: Line;
  readonly bottom: Line;
  readonly left: Column;
  readonly right: Column;
}

interface Sheet {
  lines: readonly Line[];
  columns: readonly Column[];
  readonly lineOf: Map<string, Line>;
  readonly columnOf: Map<string, Column>;
  /** How many columns there ever were. */
  numbered: number;
}

/** Nodes whose row, column or sheet is gone. */
export type GoneNodes = readonly number[];

/**
 * The nodes of cells by what the cells are known by, the ids of their rows and columns, and where they
 * stand now: nothing of it moves when rows and columns come and go.
 */
export class Places {
  readonly #sheets = new Map<string, Sheet>();
  readonly #lines: (Line | undefined)[] = [];
  readonly #columns: (Column | undefined)[] = [];
  /** The nodes of checks. */
  readonly #checks = new Set<number>();
  /** Where cells stand, as it was asked for since rows and columns came or went last. */
  readonly #at: (At | undefined)[] = [];

  /** Takes over the rows and columns of a sheet as they stand; the nodes of what is gone. */
  take({ id, rows, columns }: Pick<SheetState, 'id' | 'rows' | 'columns'>): GoneNodes {
    const sheet = this.#sheets.get(id) ?? {
      lines: [],
      columns: [],
      lineOf: new Map(),
      columnOf: new Map(),
      numbered: 0,
    };
    this.#sheets.set(id, sheet);
    this.#at.fill(undefined);
    const goneLines = takeMembers(sheet.lines, rows, sheet.lineOf, (one, index) => ({
      sheet: id,
      id: one.id,
      index,
      nodes: [],
    }));
    const goneColumns = takeMembers(sheet.columns, columns, sheet.columnOf, (one, index) => {
      const number = sheet.numbered;
      sheet.numbered += 1;
      return { id: one.id, index, number };
    });
    const gone = goneLines.gone.flatMap(({ nodes }) => present(nodes));
    for (const { number } of goneColumns.gone) {
      for (const line of goneLines.members) {
        const node = line.nodes[number];
        if (node === undefined) continue;
        gone.push(node);
        line.nodes[number] = undefined;
      }
    }
    sheet.lines = goneLines.members;
    sheet.columns = goneColumns.members;
    return gone;
  }

  /** A sheet is gone with all its cells. */
  drop(id: string): GoneNodes {
    const { lines = [] } = this.#sheets.get(id) ?? {};
    this.#sheets.delete(id);
    this.#at.fill(undefined);
    for (const line of lines) line.index = -1;
    return lines.flatMap(({ nodes }) => present(nodes));
  }

  /** The checks, which stand in one column. */
  takeChecks(checks: readonly { readonly id: string }[]): GoneNodes {
    const rows = checks.map(({ id }) => ({ id, cells: new Map() }));
    return this.take({ id: CHECKS_SHEET, rows, columns: [{ id: '' }] });
  }

  line(sheet: string, id: string): Line | undefined {
    return this.#sheets.get(sheet)?.lineOf.get(id);
  }

  column(sheet: string, id: string): Column | undefined {
    return this.#sheets.get(sheet)?.columnOf.get(id);
  }

  /**
   * The corners of a range, whichever way it is written. Whole columns and rows reach as far as their sheet
   * does. Nothing where an end is gone.
   */
  corners(sheet: string, from: KeptCorner, to: KeptCorner): Corners | undefined {
    const { lines = [], columns = [] } = this.#sheets.get(sheet) ?? {};
    const ends = <T extends { readonly index: number }>(
      all: readonly T[],
      idOf: (corner: KeptCorner) => string | undefined,
      find: (id: string) => T | undefined,
    ): readonly [T, T] | undefined => {
      const [a, b] = [from, to].map((corner, i) => {
        const id = idOf(corner);
        return id === undefined ? all.at(-i) : find(id);
      });
      if (a === undefined || b === undefined) return undefined;
      return a.index <= b.index ? [a, b] : [b, a];
    };
    const down = ends(
      lines,
      ({ row }) => row,
      (id) => this.line(sheet, id),
    );
    const across = ends(
      columns,
      ({ column }) => column,
      (id) => this.column(sheet, id),
    );
    if (down === undefined || across === undefined) return undefined;
    return { top: down[0], bottom: down[1], left: across[0], right: across[1] };
  }

  /** What stands at a place, counted from 0. */
  lineAt(sheet: string, index: number): Line | undefined {
    return this.#sheets.get(sheet)?.lines[index];
  }

  columnAt(sheet: string, index: number): Column | undefined {
    return this.#sheets.get(sheet)?.columns[index];
  }

  /** The node at a place; nothing where there is none yet. */
  nodeAt({ sheet, row, column }: At): number | undefined {
    const found = this.#sheets.get(sheet);
    const number = found?.columns[column]?.number;
    return number === undefined ? undefined : found?.lines[row]?.nodes[number];
  }

  /** A cell has this node from here on. */
  put(line: Line, column: Column, node: number): void {
    line.nodes[column.number] = node;
    // One after the other: a list with far places filled first is kept as a slow one.
    while (this.#at.length <= node) {
      this.#at.push(undefined);
      this.#lines.push(undefined);
      this.#columns.push(undefined);
    }
    this.#lines[node] = line;
    this.#columns[node] = column;
    if (line.sheet === CHECKS_SHEET) this.#checks.add(node);
  }

  /** Where the cells and checks of nodes stand now: of those that are cells, and are not gone. */
  differing(...lists: readonly ArrayLike<number>[]): Differing {
    const cells: At[] = [];
    const checks: number[] = [];
    for (const nodes of lists) {
      for (let i = 0; i < nodes.length; i += 1) {
        const node = nodes[i] as number;
        const at = this.at(node);
        if (at === undefined) continue;
        // To look at each place takes longer than all else.
        if (this.#checks.size > 0 && this.#checks.has(node)) checks.push(at.row);
        else cells.push(at);
      }
    }
    return { cells, checks };
  }

  /** Where the cell of a node stands now; nothing where it is gone, or the node is no cell's. */
  at(node: number): At | undefined {
    const known = this.#at[node];
    if (known !== undefined) return known;
    const [line, column] = [this.#lines[node], this.#columns[node]];
    if (line === undefined || column === undefined) return undefined;
    if (line.index < 0 || column.index < 0) return undefined;
    const at = { sheet: line.sheet, row: line.index, column: column.index };
    this.#at[node] = at;
    return at;
  }
}

const present = (nodes: readonly (number | undefined)[]): number[] =>
  nodes.filter((node) => node !== undefined);

interface Member {
  readonly id: string;
  index: number;
}

/** The members of a list as they stand now, and those that are gone. */
function takeMembers<M extends Member, T extends { readonly id: string }>(
  before: readonly M[],
  now: readonly T[],
  known: Map<string, M>,
  make: (one: T, index: number) => M,
): { readonly members: readonly M[]; readonly gone: readonly M[] } {
  for (const member of before) member.index = -1;
  const members = now.map((one, index) => {
    const member = known.get(one.id);
    if (member === undefined) {
      const made = make(one, index);
      known.set(one.id, made);
      return made;
    }
    member.index = index;
    return member;
  });
  const gone = before.filter(({ index }) => index < 0);
  for (const { id } of gone) known.delete(id);
  return { members, gone };
}
