import fc from 'fast-check';
import type { HyperFormula } from 'hyperformula';
import { describe, expect, it, vi } from 'vitest';
import { engineConfig, prepareEngine } from './config.ts';
import { insideOf } from './inside.ts';
import { askNoEmptyArrays, letEdgesBeGone } from './range-edges.ts';
import { emptyEngine } from './reader.ts';
import { TiedOnce } from './tied-once.ts';

function engineWithSheet(): HyperFormula {
  prepareEngine();
  const engine = emptyEngine(engineConfig('us', {}));
  engine.addSheet('S');
  letEdgesBeGone(engine);
  engine.suspendEvaluation();
  return engine;
}

function tieOnce(engine: HyperFormula): void {
  const { _dependencyGraph: graph } = insideOf(engine);
  const tied = new TiedOnce(graph.graph);
  const process = graph.processCellDependencies.bind(graph);
  graph.processCellDependencies = (...of) => tied.within(() => process(...of));
}

const address = fc.tuple(fc.constantFrom(...'ABC'), fc.integer({ min: 1, max: 6 }));
const range = fc.oneof(
  { weight: 5, arbitrary: fc.tuple(address, address).map((ends) => ends.flat().join('')) },
  { weight: 1, arbitrary: fc.constantFrom('A:A', 'A:B', '2:3') },
  // Each holds the one before it, which takes over from it what they share.
  { weight: 6, arbitrary: fc.integer({ min: 2, max: 4 }).map((last) => `A1:A${last}`) },
);
const ordered = range.map((text) => text.replace(/^([A-C]\d)([A-C]\d)$/, '$1:$2'));
const formula = fc
  .array(ordered, { minLength: 1, maxLength: 6 })
  .map((ranges) => `=${ranges.map((one) => `SUM(${one})`).join('+')}`);
const told = fc.record({
  row: fc.integer({ min: 0, max: 5 }),
  col: fc.integer({ min: 3, max: 5 }),
  what: fc.oneof({ weight: 4, arbitrary: formula }, { weight: 1, arbitrary: fc.constant(1) }),
});

describe('what is tied to ranges that are new', () => {
  it('E3 is what HyperFormula ties, in the same order', () => {
    fc.assert(
      fc.property(fc.array(told, { maxLength: 12 }), (cells) => {
        const [own, other] = [engineWithSheet(), engineWithSheet()];
        tieOnce(other);
        for (const engine of [own, other]) {
          for (const { row, col, what } of cells) {
            engine.setCellContents({ sheet: 0, row, col }, [[what]]);
          }
        }
        const [is, was] = [other, own].map(
          (engine) => insideOf(engine)._dependencyGraph.graph.edgesSparseArray,
        );
        expect(is).toEqual(was);
      }),
      { numRuns: 300 },
    );
  });
});

describe('results that have no room before they are worked out', () => {
  it('E3 are not asked cell by cell what they were', () => {
    const engine = engineWithSheet();
    askNoEmptyArrays(engine);
    engine.setCellContents({ sheet: 0, row: 0, col: 0 }, [['=SEQUENCE(3,3)']]);
    const vertex = insideOf(engine)._dependencyGraph.getCell({ sheet: 0, row: 0, col: 0 });
    const { array } = vertex as unknown as { array: { get(...of: number[]): unknown } };
    const asked = vi.spyOn(array, 'get');
    engine.setCellContents({ sheet: 0, row: 1, col: 1 }, [[7]]);
    expect(asked).not.toHaveBeenCalled();
    expect(Object.hasOwn(vertex as object, 'getArrayCellValue')).toBe(false);
    engine.resumeEvaluation();
    expect(engine.getCellValue({ sheet: 0, row: 1, col: 1 })).toBe(7);
    expect(engine.getCellValue({ sheet: 0, row: 0, col: 0 })).toMatchObject({ type: 'SPILL' });
  });
});
