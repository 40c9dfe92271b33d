import type { CheckDocument } from '../format/schema.ts';
import {
  cellsOfCheck,
  type Formula,
  formulaOf,
  withCells,
  withFormula,
} from '../formula/tree/read.ts';
import { CHECKS_SHEET } from './formulas.ts';

/** A check with its formula and its cells turned into others; itself where they stay. */
export function turnedCheck(
  check: CheckDocument,
  turn: (formula: Formula, home: string) => Formula,
): CheckDocument {
  const [formula, cells] = [formulaOf(check), cellsOfCheck(check)];
  const nextFormula = turn(formula, CHECKS_SHEET);
  const nextCells = cells && turn(cells, check.sheet ?? '');
  if (nextFormula === formula && nextCells === cells) return check;
  const next = withFormula(check, nextFormula);
  return nextCells === undefined ? next : withCells(next, nextCells);
}
