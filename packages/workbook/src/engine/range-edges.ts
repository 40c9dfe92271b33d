import type { HyperFormula } from 'hyperformula';
import { demandInside } from './inside.ts';

/** What of HyperFormula's graph is reached beyond its public face. */
interface Inside {
  readonly _dependencyGraph: {
    readonly graph: {
      removeEdge(from: unknown, to: unknown): void;
      removeEdgeIfExists(from: unknown, to: unknown): void;
    };
  };
}

/**
 * Lets HyperFormula take away an edge of its graph that is gone already. A range that turns out to hold a
 * smaller one takes over from it and drops its edges cell by cell; cells that one formula fills share one
 * edge, and the second of them made it throw, with the range half taken over.
 */
export function letEdgesBeGone(engine: HyperFormula): void {
  const inside = engine as unknown as Inside;
  const home = '_dependencyGraph.graph';
  demandInside(inside, [`${home}.removeEdge`, `${home}.removeEdgeIfExists`], 'range-edges.ts');
  const { graph } = inside._dependencyGraph;
  graph.removeEdge = (from, to) => graph.removeEdgeIfExists(from, to);
}
