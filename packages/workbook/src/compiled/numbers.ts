import type { KeptReference, Node } from '@kerfbook/document';
import { ourFunction } from '@kerfbook/functions';
import type { FunctionDescription, UnitSystem } from '@kerfbook/wood';
import { STEPS_OF_GUESS, stepsOf } from '../results/described.ts';
import { AGGREGATES } from './aggregates.ts';
import type { Around, Compiled, Rectangle } from './around.ts';
import { fastOf, type Slots } from './fast.ts';
import { isWhole } from './whole.ts';

/** So many cells in ranges and steps cost nothing worth counting (rule B1). */
const MOST_CELLS = 10_000;
const MOST_STEPS = 100_000;

/**
 * A formula of numbers alone, as most are: what works it out with all there may be is made when it is
 * needed first.
 *
 * @returns nothing where it is of another kind, looks at whole columns or rows, or goes over many cells
 */
export function ofNumbers(root: Node, around: Around): Compiled | undefined {
  const asking = new Asking(around);
  const fast = fastOf(root, asking, around.runs);
  if (fast === undefined || asking.isHeavy) return undefined;
  return {
    work: undefined,
    fast,
    cells: [...asking.cells],
    ranges: [...asking.ranges.values()],
    looksAt: undefined,
    changes: false,
  };
}

/** Asks where numbers are, and keeps what was asked for. */
class Asking implements Slots {
  readonly cells = new Set<number>();
  readonly ranges = new Map<string, Rectangle>();
  isHeavy = false;
  #rangeCells = 0;
  #steps = 0;
  readonly #around: Around;

  constructor(around: Around) {
    this.#around = around;
  }

  get system(): UnitSystem {
    return this.#around.system;
  }

  oursOf(name: string): FunctionDescription | undefined {
    const ours = ourFunction(name);
    if (ours === undefined) return undefined;
    this.#steps += stepsOf(ours) + STEPS_OF_GUESS;
    this.isHeavy ||= this.#steps > MOST_STEPS;
    return ours;
  }

  constant(value: number): number {
    return this.#around.constant(value);
  }

  slotOf(node: Node): number | undefined {
    const slot = slotOf(node, this.#around);
    if (slot !== undefined) this.cells.add(slot);
    return slot;
  }

  cellsOf(node: Node): Int32Array | undefined {
    return node.kind === 'reference' && node.to.to !== undefined
      ? this.#range(node.to)?.cells
      : undefined;
  }

  sharedOf(name: string, node: Node): number | undefined {
    const aggregate = AGGREGATES.get(name);
    if (aggregate === undefined || node.kind !== 'reference' || node.to.to === undefined)
      return undefined;
    const range = this.#around.range(node.to);
    if (typeof range === 'string') return undefined;
    const shared = this.#around.shared(name, aggregate, range);
    if (shared === undefined) return undefined;
    this.#range(node.to);
    this.cells.add(shared);
    return shared;
  }

  #range(reference: KeptReference): Rectangle | undefined {
    const range = this.#around.range(reference);
    if (typeof range === 'string') return undefined;
    this.ranges.set(range.key, range);
    this.#rangeCells += range.cells.length;
    this.isHeavy ||= isWhole(reference) || this.#rangeCells > MOST_CELLS;
    return range;
  }
}

/** The slot of a cell or a name by itself; nothing where there is none, or the name lies in a loop. */
export function slotOf(node: Node, around: Around): number | undefined {
  if (node.kind === 'reference' && node.to.to === undefined) return around.cell(node.to);
  if (node.kind !== 'name' || around.inLoop(node.name)) return undefined;
  return around.named(node.name);
}
