import type { CellDocument, CheckDocument } from '../format/schema.ts';
import type { KeptReference } from '../formula/kept.ts';
import { keptOf, readFormula } from '../formula/tree/read.ts';
import { renamed, rereferred } from '../formula/tree/turns.ts';
import { renamedSentence } from '../state/check-sentences.ts';

/** A reference that says which sheet it is on. */
export type Placed = KeptReference & { readonly sheet: string };

/** What became of places and names of a workbook that came into another one. */
export interface Carrying {
  /** Where a reference points now; `null` where what it named is not there any more. */
  readonly moved: (reference: Placed) => Placed | null;
  /** Names that became others, as they were and are. */
  readonly names: readonly (readonly [string, string])[];
}

/** A formula that stood on one sheet as it stands on another, meaning the same. */
export function carriedFormula(
  text: string,
  home: { readonly was: string; readonly is: string },
  { moved, names }: Carrying,
): string {
  const read = rereferred(readFormula(text), (reference) => {
    const next = moved({ ...reference, sheet: reference.sheet ?? home.was });
    if (next === null) return null;
    // Said of its own sheet, a reference goes on without it, as it is typed there.
    if (reference.sheet !== undefined || next.sheet !== home.is) return next;
    const { sheet: _sheet, ...own } = next;
    return own;
  });
  let formula = read;
  for (const [from, to] of names) formula = renamed(formula, from, to);
  return keptOf(formula);
}

/** A cell with its formulas carried along, that in the other units too. */
export function carriedCell(
  cell: CellDocument,
  home: { readonly was: string; readonly is: string },
  carrying: Carrying,
): CellDocument {
  const { formula, other, value } = cell;
  // What is typed shows cells by name where it is the text of a step.
  const says = typeof value === 'string' ? carriedText(value, carrying) : value;
  if (formula === undefined && other?.formula === undefined && says === value) return cell;
  const { typed: _typed, ...untyped } = cell;
  return {
    ...(says === undefined || says === value ? cell : { ...untyped, value: says }),
    ...(formula === undefined ? {} : { formula: carriedFormula(formula, home, carrying) }),
    ...(other?.formula === undefined
      ? {}
      : { other: { ...other, formula: carriedFormula(other.formula, home, carrying) } }),
  };
}

const carriedText = (text: string, { names }: Carrying): string =>
  names.reduce((said, [from, to]) => renamedSentence(said, from, to), text);

/** A check with its formulas, its cells and the names in its sentence carried along. */
export function carriedCheck(
  check: CheckDocument,
  sheets: { readonly was: string; readonly is: string },
  carrying: Carrying,
): CheckDocument {
  const { formula, says, cells, other } = check;
  return {
    ...check,
    formula: carriedFormula(formula, sheets, carrying),
    says: carriedText(says, carrying),
    ...(cells === undefined ? {} : { cells: carriedFormula(cells, sheets, carrying) }),
    ...(other === undefined ? {} : { other: carriedFormula(other, sheets, carrying) }),
  };
}
