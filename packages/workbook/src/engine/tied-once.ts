import type { Inside, Vertex } from './inside.ts';

type Graph = Inside['_dependencyGraph']['graph'];

/**
 * Ties cells to ranges that are new. HyperFormula goes through all that uses a cell before it notes another
 * user: where thousands of sums go over the same cells, each of them through the others at every cell.
 * Nothing is tied to a range that is new except by the formula that brings it.
 */
export class TiedOnce {
  readonly #graph: Graph;
  /** Nodes from here on are new; all are old outside of {@link within}. */
  #new = Number.POSITIVE_INFINITY;
  /** What is tied to each of the new ones. */
  readonly #tied = new Map<number, Set<number>>();

  constructor(graph: Graph) {
    this.#graph = graph;
    const add = graph.addEdge.bind(graph);
    graph.addEdge = (from, to) => {
      const [source, user] = [idOf(from), idOf(to)];
      const edges = source === undefined ? undefined : graph.edgesSparseArray[source];
      if (source === undefined || user === undefined || edges === undefined || user < this.#new) {
        add(from, to);
      } else if (!this.#of(user).has(source)) {
        this.#of(user).add(source);
        (edges as number[]).push(user);
      }
    };
    const remove = graph.removeEdgeIfExists.bind(graph);
    graph.removeEdgeIfExists = (from, to) => {
      remove(from, to);
      const [source, user] = [idOf(from), idOf(to)];
      if (source !== undefined && user !== undefined) this.#tied.get(user)?.delete(source);
    };
  }

  /** Brings a formula with the ranges that it uses. */
  within(bring: () => void): void {
    this.#new = this.#graph.nextId;
    try {
      bring();
    } finally {
      this.#new = Number.POSITIVE_INFINITY;
      this.#tied.clear();
    }
  }

  #of(user: number): Set<number> {
    const known = this.#tied.get(user);
    if (known !== undefined) return known;
    const tied = new Set<number>();
    this.#tied.set(user, tied);
    return tied;
  }
}

const idOf = (node: number | Vertex): number | undefined =>
  typeof node === 'number' ? node : node.idInGraph;
