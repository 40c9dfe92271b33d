import type { Node } from './nodes.ts';
import { parseTokens } from './parse.ts';
import { standsApart, type Token, textOf, tokensOf } from './tokens.ts';

/** A formula that was read once: its text piece by piece, and what it says. */
export interface Formula {
  /** In order; joined they are the formula. */
  readonly tokens: readonly Token[];
  /** `undefined` where it cannot be read; its text is kept all the same. */
  readonly root: Node | undefined;
}

class ReadFormula implements Formula {
  readonly tokens: readonly Token[];
  #root: Node | undefined;
  #isParsed = false;

  constructor(tokens: readonly Token[]) {
    this.tokens = tokens;
  }

  /** Found when it is first asked for. */
  get root(): Node | undefined {
    if (!this.#isParsed) {
      this.#root = parseTokens(this.tokens);
      this.#isParsed = true;
    }
    return this.#root;
  }
}

/** Reads a formula in the form in which it is kept, references by ids (rule F1). */
export const readFormula = (kept: string): Formula => new ReadFormula(tokensOf(kept));

/** A formula whose pieces are known. */
export const readTokens = (tokens: readonly Token[]): Formula => new ReadFormula(tokens);

/** Reads a formula as it is typed, its functions in capitals, no spaces around it. */
export const readTyped = (a1: string): Formula => inCapitals(readFormula(a1.trim()));

function inCapitals(formula: Formula): Formula {
  const isSmall = ({ type, value }: Token): boolean =>
    type === 'func' && value !== value.toUpperCase();
  if (!formula.tokens.some(isSmall)) return formula;
  return new ReadFormula(
    formula.tokens.map((token) =>
      isSmall(token) ? { ...token, value: token.value.toUpperCase() } : token,
    ),
  );
}

/** The text of a formula as it is kept, letter by letter. */
export const keptOf = ({ tokens }: Formula): string => textOf(tokens);

/**
 * A formula with some of its pieces turned into others: the formula itself where none is. Where a new
 * piece could grow together with its neighbours, the text is read anew.
 */
export function turned(
  formula: Formula,
  turn: (token: Token, at: number, all: readonly Token[]) => Token,
): Formula {
  let same = true;
  let apart = true;
  const tokens = formula.tokens.map((token, at, all) => {
    const next = turn(token, at, all);
    if (next === token) return token;
    same = false;
    apart &&= standsApart(all[at - 1], all[at + 1]);
    return next;
  });
  if (same) return formula;
  return apart ? new ReadFormula(tokens) : readFormula(textOf(tokens));
}

/** What formulas are kept with: a cell or a check, or what is said of one. */
interface Holder {
  readonly formula?: string;
  /** The cells that a check marks. */
  readonly cells?: string;
}

const READ = { formula: new WeakMap<object, Formula>(), cells: new WeakMap<object, Formula>() };
const KINDS = ['formula', 'cells'] as const;

/** Nothing only where there may be no formula. */
type ReadOf<T> = T extends { readonly formula: string } ? Formula : Formula | undefined;

/** The formula of a cell or a check. They are replaced and never changed: each is read once. */
export const formulaOf = <T extends Holder>(holder: T): ReadOf<T> =>
  readIn(holder, 'formula') as ReadOf<T>;

/** The same as it is typed, its functions in capitals, no spaces around it. */
export function typedOf(cell: Holder & { readonly formula: string }): Formula {
  const { formula } = cell;
  return formula === formula.trim() ? inCapitals(formulaOf(cell)) : readTyped(formula);
}

/** The cells that a check marks. */
export const cellsOfCheck = (check: Holder): Formula | undefined => readIn(check, 'cells');

function readIn(holder: Holder, kind: keyof Holder): Formula | undefined {
  const text = holder[kind];
  if (text === undefined) return undefined;
  let read = READ[kind].get(holder);
  if (read === undefined) {
    read = readFormula(text);
    READ[kind].set(holder, read);
  }
  return read;
}

/**
 * The formula of a cell as some function turns it: the cell itself where it stays, else the same cell with the other one.
 * What it said before is not kept in mind, as it would be by {@link formulaOf}.
 */
export function turnedCell<T extends Holder & { readonly formula: string }>(
  cell: T,
  turn: (formula: Formula) => Formula,
): T {
  const known = READ.formula.get(cell);
  const formula = known ?? readFormula(cell.formula);
  const next = turn(formula);
  if (next !== formula) return withFormula(cell, next);
  if (known === undefined) READ.formula.set(cell, formula);
  return cell;
}

/** The same cell or check with another formula, which is not read again. */
export function withFormula<T extends object>(
  holder: T,
  formula: Formula,
): T & { readonly formula: string } {
  const next = { ...holder, formula: keptOf(formula) };
  carryRead(holder, next);
  READ.formula.set(next, formula);
  return next;
}

/** The same with other cells that a check marks. */
export function withCells<T extends object>(
  holder: T,
  cells: Formula,
): T & { readonly cells: string } {
  const next = { ...holder, cells: keptOf(cells) };
  carryRead(holder, next);
  READ.cells.set(next, cells);
  return next;
}

type Kept = { readonly [kind in keyof Holder]?: unknown };

/** What became of a cell or a check, or is said of one, goes on with what was read of it before. */
export function carryRead<T extends Kept | null | undefined>(
  before: Kept | null | undefined,
  after: T,
): T {
  if (!before || !after) return after;
  for (const kind of KINDS) {
    if (before[kind] === undefined || before[kind] !== after[kind]) continue;
    const read = READ[kind].get(before);
    if (read !== undefined && !READ[kind].has(after)) READ[kind].set(after, read);
  }
  return after;
}
