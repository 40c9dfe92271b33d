import { standardFunction } from '@kerfbook/functions';
import { type ArraySize, HyperFormula } from 'hyperformula';
import { extraOf } from '../results/weighs.ts';
import { type Ast, type Corner, PART, type Place, type Sheets } from './inside.ts';

type RangeAst = Ast & { readonly start: Corner; readonly end: Corner };

export interface Size {
  readonly width: number;
  readonly height: number;
}

interface RangeSize extends Size {
  /** The same for the same cells. */
  readonly key: string;
  readonly whole: boolean;
}

const RANGES: ReadonlySet<string> = new Set([PART.cells, PART.columns, PART.rows]);

export const isRange = (ast: Ast): ast is RangeAst => RANGES.has(ast.type);

/** How many cells a range has; of a sheet that is not there, none. */
export function sizeOfRange(ast: RangeAst, at: Place, sheets: Sheets): RangeSize {
  const { start, end } = ast;
  const area = (of: 'getSheetHeight' | 'getSheetWidth', sheet: number): number => {
    try {
      return sheets[of](sheet);
    } catch {
      return 0;
    }
  };
  if (ast.type === PART.columns) {
    const [from, to] = [start.toSimpleColumnAddress(at), end.toSimpleColumnAddress(at)];
    const height = area('getSheetHeight', from.sheet);
    const key = `${from.sheet} ${from.col}:${to.col}`;
    return { width: span(from.col, to.col), height, key, whole: true };
  }
  if (ast.type === PART.rows) {
    const [from, to] = [start.toSimpleRowAddress(at), end.toSimpleRowAddress(at)];
    const width = area('getSheetWidth', from.sheet);
    const key = `${from.sheet} ${from.row}-${to.row}`;
    return { width, height: span(from.row, to.row), key, whole: true };
  }
  const [from, to] = [start.toSimpleCellAddress(at), end.toSimpleCellAddress(at)];
  const key = `${from.sheet} ${from.col} ${from.row} ${to.col} ${to.row}`;
  return { width: span(from.col, to.col), height: span(from.row, to.row), key, whole: false };
}

const span = (from: number, to: number): number => Math.abs(to - from) + 1;

export interface Weight {
  /** Cells of all ranges. */
  readonly cells: number;
  /** Cells of arrays on the way to the result. */
  readonly made: number;
  /** Cells that the results fill; Infinity where whole rows or columns give no size. */
  readonly results: number;
  /** What the formula costs among all. */
  readonly all: number;
}

/** What a range of whole rows or columns costs: each cell told afterwards is held against each of them. */
const WHOLE = 2_000;

/** What a cell costs that results fill. */
export const FILLED = 10;

interface Sum {
  cells: number;
  made: number;
  extra: number;
}

const ONE: Size = { width: 1, height: 1 };
const SUMS = new Map<string, boolean>();

/** Functions whose answer for a range the engine keeps: only the first formula with it reads the cells. */
function isSum(name: string): boolean {
  let known = SUMS.get(name);
  if (known === undefined) {
    known = HyperFormula.getFunctionPlugin(name) === HyperFormula.getFunctionPlugin('SUM');
    SUMS.set(name, known);
  }
  return known;
}

/** What formulas cost, told from their text and the sizes of their ranges before they are worked out. */
export class Weights {
  readonly #sheets: Sheets;
  readonly #predict: (ast: Ast, at: Place) => ArraySize;
  readonly #expected = new Map<number, Size>();
  readonly #known = new Set<string>();
  /** Of all ranges, which a row or a column more makes so much larger. */
  #widths = 0;
  #heights = 0;

  constructor(sheets: Sheets, predict: (ast: Ast, at: Place) => ArraySize) {
    this.#predict = predict;
    const expected = this.#expected;
    this.#sheets = {
      getSheetHeight: (sheet) =>
        Math.max(sheets.getSheetHeight(sheet), expected.get(sheet)?.height ?? 0),
      getSheetWidth: (sheet) =>
        Math.max(sheets.getSheetWidth(sheet), expected.get(sheet)?.width ?? 0),
    };
  }

  /** Cells reach so far on a sheet; by how many rows and columns that is more than was known. */
  reach(sheet: number, height: number, width: number): Size | undefined {
    const known = this.#expected.get(sheet) ?? { width: 0, height: 0 };
    if (height <= known.height && width <= known.width) return undefined;
    const reached = {
      width: Math.max(width, known.width),
      height: Math.max(height, known.height),
    };
    this.#expected.set(sheet, reached);
    return { width: reached.width - known.width, height: reached.height - known.height };
  }

  /** The most that all costs grow where so many rows and columns are put in. */
  growth(rows: number, columns: number): number {
    return this.#widths * rows + this.#heights * columns;
  }

  weigh({ formula, cellAddress }: { readonly formula: Ast; readonly cellAddress: Place }): Weight {
    const sum: Sum = { cells: 0, made: 0, extra: 0 };
    const several = cellsOf(this.#size(formula, cellAddress, sum, false)) > 1;
    const size = several ? this.#predict(formula, cellAddress) : undefined;
    const results = size === undefined || size.isScalar() ? 1 : cellsOf(size);
    const filled = results > 1 ? FILLED * known(sum, { width: 1, height: results }) : 0;
    return { cells: sum.cells, made: sum.made, results, all: sum.extra + sum.made + filled };
  }

  /** The size of what a part of a formula comes to; adds up what it costs. */
  #size(ast: Ast, at: Place, sum: Sum, summed: boolean): Size {
    if (isRange(ast)) return this.#range(ast, at, sum, summed);
    switch (ast.type) {
      case PART.call:
        return this.#call(ast, at, sum);
      case PART.brackets:
        return ast.expression === undefined ? ONE : this.#size(ast.expression, at, sum, false);
      case PART.array:
        return this.#array(ast, at, sum);
      default:
        break;
    }
    const parts = [ast.left, ast.right, ast.value].filter(
      (one): one is Ast => typeof one === 'object' && one !== null && 'type' in one,
    );
    if (parts.length === 0) return ONE;
    return made(sum, largest(parts.map((part) => this.#size(part, at, sum, false))));
  }

  #call(ast: Ast, at: Place, sum: Sum): Size {
    const name = ast.procedureName ?? '';
    const sums = isSum(name);
    const parts = (ast.args ?? []).map((part) => this.#size(part as Ast, at, sum, sums));
    const largestPart = largest(parts);
    const [each, once] = extraOf(name);
    sum.extra += once + each * known(sum, largestPart);
    // Most functions of single values are one: HyperFormula is asked where an array may come of it.
    if (cellsOf(largestPart) === 1 && standardFunction(name)?.spills === undefined) return ONE;
    return made(sum, this.#predict(ast, at));
  }

  #array(ast: Ast, at: Place, sum: Sum): Size {
    let [width, height] = [1, 0];
    for (const row of (ast.args ?? []) as readonly (readonly Ast[])[]) {
      const sizes = row.map((one) => this.#size(one, at, sum, false));
      width = Math.max(
        width,
        sizes.reduce((total, one) => total + one.width, 0),
      );
      height += Math.max(1, ...sizes.map((one) => one.height));
    }
    return made(sum, { width, height });
  }

  #range(ast: RangeAst, at: Place, sum: Sum, summed: boolean): Size {
    const { width, height, key, whole } = sizeOfRange(ast, at, this.#sheets);
    const cells = width * height;
    const isKnown = this.#known.has(key);
    if (!isKnown) {
      this.#known.add(key);
      if (whole) sum.extra += WHOLE;
    }
    this.#widths += width;
    this.#heights += height;
    sum.cells += cells;
    sum.extra += isKnown && summed ? 1 : cells;
    if (!whole) return { width, height };
    // HyperFormula gives whole rows and columns no end where results go over several cells.
    return ast.type === PART.columns
      ? { width, height: Number.POSITIVE_INFINITY }
      : { width: Number.POSITIVE_INFINITY, height };
  }
}

const cellsOf = ({ width, height }: Size): number => width * height;
/** Whole rows and columns have no size here: their cells are those read so far. */
const known = (sum: Sum, size: Size): number =>
  Number.isFinite(cellsOf(size)) ? cellsOf(size) : sum.cells;

function largest(sizes: readonly Size[]): Size {
  return {
    width: Math.max(1, ...sizes.map(({ width }) => width)),
    height: Math.max(1, ...sizes.map(({ height }) => height)),
  };
}

function made(sum: Sum, size: Size): Size {
  if (cellsOf(size) > 1) sum.made += known(sum, size);
  return size;
}
