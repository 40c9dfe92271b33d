import { childrenOf, type KeptReference, type Node } from '@kerfbook/document';
import { standardFunction } from '@kerfbook/functions';
import type { Size } from '@kerfbook/functions/computing';
import { extraOf } from '../results/weighs.ts';
import { AGGREGATES } from './aggregates.ts';
import { cellsOf, largest, ONE } from './many.ts';
import { Sizes } from './sizes.ts';
import { isWhole } from './whole.ts';

/** What whole columns or rows cost: each cell told afterwards is held against them. */
const WHOLE = 2_000;

/**
 * At least what a formula costs among all of a workbook (rule B2), without the cells of ranges that
 * functions over ranges go through: those cost once for all formulas, and 1 each time.
 *
 * @param sizeOf the size of a range; nothing where it is gone
 */
export function costOf(root: Node, sizeOf: (reference: KeptReference) => Size | undefined): number {
  const sizes = new Sizes((node) => (node.kind === 'reference' ? (sizeOf(node.to) ?? ONE) : ONE));
  let cost = 0;
  const walk = (node: Node, summed: boolean): void => {
    if (node.kind === 'reference') {
      const cells = node.to.to === undefined ? 1 : cellsOf(sizes.of(node));
      if (node.to.to !== undefined) cost += summed ? 1 : cells;
      if (isWhole(node.to)) cost += WHOLE;
      return;
    }
    const children = childrenOf(node);
    const sums = node.kind === 'call' && AGGREGATES.has(node.name);
    for (const part of children) walk(part, sums);
    if (children.length === 0 && node.kind !== 'call') return;
    if (node.kind === 'call') {
      const over = cellsOf(largest(node.args.map((arg) => sizes.of(arg))));
      const [each, once] = extraOf(node.name);
      cost += once + each * over;
      if (over === 1 && standardFunction(node.name)?.spills === undefined) return;
    }
    // What is made on the way; the other engine goes by how it is written.
    const cells = Math.max(cellsOf(sizes.of(node)), cellsOf(sizes.fills(node)));
    if (cells > 1) cost += cells;
  };
  walk(root, false);
  return cost;
}
