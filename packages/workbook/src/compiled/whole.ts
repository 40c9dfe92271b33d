import { childrenOf, type KeptReference, type Node } from '@kerfbook/document';
import { type Computing, conditionOf } from '@kerfbook/functions/computing';

/** Whole columns or rows: they reach as far as their sheet does. */
export const isWhole = ({ from, to }: KeptReference): boolean =>
  to !== undefined && (from.row === undefined || from.column === undefined);

const wholeIn = (node: Node): KeptReference | undefined =>
  node.kind === 'reference' && isWhole(node.to) ? node.to : undefined;

/** Whether whole columns or rows stand anywhere in a formula. */
export const readsWhole = (node: Node): boolean =>
  wholeIn(node) !== undefined || childrenOf(node).some(readsWhole);

/** Whether a function may be given the whole columns and rows that stand among its arguments. */
export function takesWhole({ whole, takes }: Computing, args: readonly Node[]): boolean {
  const given = args.map(wholeIn);
  const all = given.filter((one) => one !== undefined);
  const [first] = all;
  if (first === undefined) return true;
  const isColumns = (one: KeptReference): boolean => one.from.row === undefined;
  if (whole === 'any') return true;
  if (whole === 'columns' || whole === 'rows') {
    return all.every((one) => isColumns(one) === (whole === 'columns'));
  }
  if (whole === undefined) return false;
  const alike = all.every(
    (one) =>
      one.sheet === first.sheet &&
      isColumns(one) === isColumns(first) &&
      width(one) === width(first),
  );
  const ranges = args.filter((_, i) => isRangePlace(takes, i, whole === 'counted'));
  if (!alike || ranges.length !== all.length) return false;
  return whole === 'alike' || args.some(isMetByNoEmptyCell);
}

/** Ids say nothing of how far it is between them: only single columns and rows are surely alike. */
const width = ({ from, to }: KeptReference): 'one' | symbol =>
  from.row === to?.row && from.column === to?.column ? 'one' : Symbol();

/** SUMIFS and its kin begin with a range more than COUNTIFS, and go on in pairs. */
function isRangePlace(takes: Computing['takes'], place: number, counted: boolean): boolean {
  const own = takes[place]?.as;
  if (own !== undefined) return own === 'range';
  return counted ? place % 2 === 0 : place % 2 === 1;
}

/** A condition that is written out, and that a cell without anything in it does not meet. */
function isMetByNoEmptyCell(node: Node): boolean {
  if (node.kind !== 'number' && node.kind !== 'text') return false;
  return conditionOf(node.value, () => undefined)?.(null) === false;
}
