import { CellError, type HyperFormula } from 'hyperformula';
import { insideOf } from './inside.ts';

/**
 * Lets a range that is wholly the results of another formula be read cell by cell where these became an
 * error. HyperFormula looks for the results as a whole there, and threw where they are none.
 */
export function readFailedResults(engine: HyperFormula): void {
  const graph = insideOf(engine)._dependencyGraph;
  const resultsIn = graph.getArray.bind(graph);
  graph.getArray = (range) => {
    const results = resultsIn(range);
    return results?.valueOrUndef() instanceof CellError ? undefined : results;
  };
}
