import type { At, Node } from '@kerfbook/document';
import { ourFunction, standardFunction } from '@kerfbook/functions';
import { person } from '../results/sentences.ts';
import type { CompiledBook } from './book.ts';
import { NODE } from './program.ts';
import { Failure } from './values.ts';

/**
 * Empty cells on which results of a formula that is left to another engine may lie. While there is no other
 * engine nobody knows whether they are empty, and who uses them waits (rule V3).
 */
export class Doubts {
  readonly #book: CompiledBook;
  readonly #doubted = new Map<number, Failure>();

  constructor(book: CompiledBook) {
    this.#book = book;
  }

  /** Brings them in step with what is left now; where that changes one, what follows is still to be worked out. */
  follow(): boolean {
    const filling = this.#filling();
    if (filling.length === 0 && this.#doubted.size === 0) return false;
    const { program } = this.#book.world;
    let any = false;
    for (let node = 0; node < program.count; node += 1) {
      if (program.kind[node] === NODE.cell && this.#look(node, filling)) any = true;
    }
    return any;
  }

  #filling(): readonly (At & { readonly slot: number })[] {
    return [...this.#book.left].flatMap((slot) => {
      const at = this.#book.placeOf(slot);
      const root = this.#book.entries.get(slot)?.formula.root;
      return at !== undefined && root !== undefined && mayFill(root) ? { ...at, slot } : [];
    });
  }

  #look(node: number, filling: readonly (At & { readonly slot: number })[]): boolean {
    const doubted = this.#doubted.get(node);
    const held = this.#book.valueOf(node);
    // Something was written over it, or a formula works it out.
    if (this.#book.entries.has(node) || (held !== null && held !== doubted)) {
      this.#doubted.delete(node);
      return false;
    }
    const at = this.#book.placeOf(node);
    const from = at && filling.find((one) => isBeyond(at, one));
    if (doubted?.root === from?.slot) return false;
    const now = from === undefined ? null : new Failure('ERROR', person('E21'), from.slot);
    if (now === null) this.#doubted.delete(node);
    else this.#doubted.set(node, now);
    this.#book.hold(node, now);
    return true;
  }
}

const isBeyond = (at: At, from: At): boolean =>
  at.sheet === from.sheet && at.row >= from.row && at.column >= from.column;

/** Whether a formula may come to several values, by how it is written; rather yes than no. */
function mayFill(node: Node): boolean {
  switch (node.kind) {
    case 'reference':
      return node.to.to !== undefined;
    case 'array':
      return true;
    case 'call':
      return (
        standardFunction(node.name)?.spills === true ||
        ourFunction(node.name)?.fills !== undefined ||
        node.args.some(mayFill)
      );
    case 'joined':
      return mayFill(node.left) || mayFill(node.right);
    case 'bracket':
    case 'sign':
      return mayFill(node.of);
    default:
      return false;
  }
}
