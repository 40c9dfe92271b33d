import { CellError, ErrorType, type HyperFormula } from 'hyperformula';
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

/**
 * Where results have no room, HyperFormula asks each cell they would have filled what it was: of a formula
 * that has no results yet, by throwing and catching an error for each. There the answer is given at once.
 */
export function askNoEmptyArrays(engine: HyperFormula): void {
  const graph = insideOf(engine)._dependencyGraph;
  const clean = graph.cleanAddressMappingUnderArray.bind(graph);
  graph.cleanAddressMappingUnderArray = (array) => {
    if (array.isComputed()) {
      clean(array);
      return;
    }
    const none = new CellError(ErrorType.REF);
    array.getArrayCellValue = () => none;
    try {
      clean(array);
    } finally {
      // The method of its class again.
      Reflect.deleteProperty(array, 'getArrayCellValue');
    }
  };
}
