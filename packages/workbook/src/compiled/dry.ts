import { type BookState, cellOf, type Formula, type KeptReference } from '@kerfbook/document';
import type { Around, Rectangle } from './around.ts';
import { compile } from './compile.ts';
import { refusedFormula } from './fixed.ts';
import { NotCompiled } from './not-compiled.ts';
import { namedBy, standingIn } from './standing.ts';

/** Whether a formula would be compiled, told without the rest of the workbook. */
export function compiles(formula: Formula, home: string, state: BookState): boolean {
  if (refusedFormula(formula, home, state, 0) !== undefined) return true;
  if (formula.root === undefined) return false;
  const here = {
    standing: standingIn(state, { sheet: home, row: 0, column: 0 }),
    named: (reference: KeptReference) => namedBy(reference, home, state),
  };
  try {
    compile(formula.root, around(home, state), [], here);
    return true;
  } catch (reason) {
    if (reason instanceof NotCompiled) return false;
    throw reason;
  }
}

/** Every cell is the same node: nothing is worked out. */
const around = (home: string, state: BookState): Around => ({
  system: state.head.units,
  runs: new Map(),
  cell: ({ sheet = home, from }) => (cellOf(from, sheet, state) === undefined ? undefined : 0),
  range: (reference) => rangeOf(reference, home, state),
  named: (name) => (state.named(name) === undefined ? undefined : 0),
  constant: () => 0,
  shared: () => undefined,
  inLoop: () => false,
});

function rangeOf(
  { sheet, from, to }: KeptReference,
  home: string,
  state: BookState,
): Rectangle | 'gone' | 'unfit' {
  if (to === undefined || from.row === undefined || from.column === undefined) return 'unfit';
  const [first, last] = [cellOf(from, sheet ?? home, state), cellOf(to, sheet ?? home, state)];
  if (first === undefined || last === undefined) return 'gone';
  const [width, height] = [last.column - first.column + 1, last.row - first.row + 1];
  if (width < 1 || height < 1) return 'unfit';
  const key = `${first.sheet} ${first.row} ${first.column} ${last.row} ${last.column}`;
  return { key, cells: new Int32Array(width * height), width };
}
