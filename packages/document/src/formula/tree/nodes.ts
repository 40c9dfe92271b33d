import type { KeptReference } from '../kept.ts';

/** A sign between two values. */
export type BinarySign = '+' | '-' | '*' | '/' | '^' | '&' | '=' | '<>' | '<' | '>' | '<=' | '>=';

/** An error as it is written in a formula. */
export type ErrorWord =
  | '#DIV/0!'
  | '#NAME?'
  | '#VALUE!'
  | '#NUM!'
  | '#N/A'
  | '#CYCLE!'
  | '#REF!'
  | '#SPILL!'
  | '#ERROR!';

/** What a formula says, without its spaces: numbers, references by id, names, signs, calls. */
export type Node =
  | { readonly kind: 'number'; readonly value: number }
  | { readonly kind: 'text'; readonly value: string }
  | { readonly kind: 'logical'; readonly value: boolean }
  /** An error as it was typed. */
  | { readonly kind: 'error'; readonly word: ErrorWord }
  /** One cell, a range, or whole rows or columns. */
  | { readonly kind: 'reference'; readonly to: KeptReference }
  /** A reference that is kept as it was typed: what it names is not there. */
  | { readonly kind: 'lost'; readonly text: string }
  | { readonly kind: 'name'; readonly name: string }
  /** The function's name in capitals, without what some programs put before newer ones. */
  | { readonly kind: 'call'; readonly name: string; readonly args: readonly Node[] }
  /** An argument that is left out between commas. */
  | { readonly kind: 'nothing' }
  | { readonly kind: 'sign'; readonly sign: '+' | '-' | '%'; readonly of: Node }
  | {
      readonly kind: 'joined';
      readonly sign: BinarySign;
      readonly left: Node;
      readonly right: Node;
    }
  | { readonly kind: 'bracket'; readonly of: Node }
  | { readonly kind: 'array'; readonly rows: readonly (readonly Node[])[] };

/** The nodes right below one, in the order of the text. */
export function childrenOf(node: Node): readonly Node[] {
  switch (node.kind) {
    case 'call':
      return node.args;
    case 'sign':
    case 'bracket':
      return [node.of];
    case 'joined':
      return [node.left, node.right];
    case 'array':
      return node.rows.flat();
    default:
      return [];
  }
}

/** Every node of a tree, each before those below it, in the order of the text. */
export function* nodesOf(root: Node): Generator<Node> {
  const waiting: Node[] = [root];
  for (let node = waiting.pop(); node !== undefined; node = waiting.pop()) {
    yield node;
    waiting.push(...[...childrenOf(node)].reverse());
  }
}
