import type { HyperFormula } from 'hyperformula';
import { insideOf } from './inside.ts';

/**
 * Lets HyperFormula take away an edge of its graph that is gone already. A range that turns out to hold a
 * smaller one takes over from it and drops its edges cell by cell; cells that one formula fills share one
 * edge, and the second of them made it throw, with the range half taken over.
 */
export function letEdgesBeGone(engine: HyperFormula): void {
  const { graph } = insideOf(engine)._dependencyGraph;
  graph.removeEdge = (from, to) => graph.removeEdgeIfExists(from, to);
}
