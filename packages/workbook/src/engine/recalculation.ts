import type { At } from '@kerfbook/document';
import {
  CellError,
  ErrorType,
  type ExportedChange,
  type HyperFormula,
  SimpleRangeValue,
} from 'hyperformula';
import type { Pace } from '../port.ts';
import { person } from '../results/sentences.ts';
import {
  type Differences,
  errorOf,
  type FormulaVertex,
  type Inside,
  type Into,
  insideOf,
  isSaid,
  MESSAGES,
  numberOf,
  type Vertex,
} from './inside.ts';
import { Order } from './order.ts';

/**
 * Tells that cells differ without what they come to. A range that one cell comes to (`=B1:C2`) is to
 * HyperFormula as large as results that fill cells: it forgot what it was told of the cells around.
 */
function cellByCell(all: Differences): Into {
  const differs = new CellError(ErrorType.VALUE);
  return { addChange: (_value, address) => all.addChange(differs, address) };
}

/**
 * Works out what follows from a change of an engine, in one go or in parts. Formulas are put in order
 * and worked out where something they use differs. A change that comes before the
 * last formula was reached takes over what is left of the one before.
 */
export class Recalculation {
  readonly #engine: Inside;
  readonly #order = new Order();
  #pace: Pace | undefined;
  /** Formulas, ranges and cells to be looked at, last one first. */
  #sorted: number[] | undefined;
  #pending = false;
  #seeds: readonly number[] = [];

  constructor(engine: HyperFormula) {
    this.#engine = insideOf(engine);
    this.#engine.recomputeIfDependencyGraphNeedsIt = () => this.#begin();
  }

  /** Some values are still to be worked out: what is read may be the value before. */
  get pending(): boolean {
    return this.#pending;
  }

  /** Carries a change out; what follows from it is worked out as far as the pace allows. */
  within<T>(pace: Pace | undefined, change: () => T): T {
    const before = this.#pace;
    this.#pace = pace;
    try {
      return change();
    } finally {
      this.#pace = before;
    }
  }

  /** Takes up what was left; without a pace, all of it. */
  goOn(pace?: Pace): ExportedChange[] {
    if (!this.#pending) return [];
    return this.#work(this.#engine._crudOperations.getAndClearContentChanges(), pace);
  }

  /** The formula in a cell is worked out with the next change, whatever that is. */
  markDue(address: unknown): void {
    const id = this.#engine._dependencyGraph.getCell(address)?.idInGraph;
    if (id !== undefined) this.#markDue([id]);
  }

  #markDue(ids: readonly number[]): void {
    const { dirtyAndVolatileNodeIds } = this.#engine._dependencyGraph.graph;
    for (const id of ids) dirtyAndVolatileNodeIds.rawValue.dirty.push(id);
    dirtyAndVolatileNodeIds.markAsModified();
  }

  /** The number in a cell as it is worked with; the engine rounds what it hands out. */
  exactNumber(address: unknown): number | undefined {
    const number = numberOf(this.#engine._dependencyGraph.getCellValue(address));
    return typeof number === 'number' ? number : undefined;
  }

  /** Several values stand in a cell as in one, which formulas that use it get to see. */
  holdsRange(address: unknown): boolean {
    return this.#engine._dependencyGraph.getCellValue(address) instanceof SimpleRangeValue;
  }

  /** Whether a cell has a value yet: a formula told while others wait may have none. */
  hasValue(address: unknown): boolean {
    if (!this.#pending) return true;
    return this.#engine._dependencyGraph.getCell(address)?.isComputed?.() !== false;
  }

  /** Formulas stand in it, or stood, whose results go over several cells. */
  get hasArrays(): boolean {
    return this.#engine._dependencyGraph.arrayMapping.count() > 0;
  }

  /** Results over several cells became an error: the engine no longer knows which cells they need. */
  get hasArraysInError(): boolean {
    for (const array of this.#engine._dependencyGraph.arrayMapping.arrayMapping.values()) {
      if (array.valueOrUndef() instanceof CellError) return true;
    }
    return false;
  }

  /** Cells in which formulas stand, or on which their results lie, that go over several cells. */
  *arraysAmong(cells: Iterable<At>, addressOf: (at: At) => unknown): Generator<At> {
    const { _dependencyGraph } = this.#engine;
    const arrays = new Set<unknown>(_dependencyGraph.arrayMapping.arrayMapping.values());
    for (const at of cells) if (arrays.has(_dependencyGraph.getCell(addressOf(at)))) yield at;
  }

  /** How many rows and columns the results of the formula in a cell go over; one where it has none. */
  extentOf(address: unknown): { readonly rows: number; readonly columns: number } {
    const cell = this.#engine._dependencyGraph.getCell(address);
    // Every cell of the results is the whole to the engine.
    const first = cell?.isLeftCorner?.(address) === true;
    return { rows: (first && cell?.height) || 1, columns: (first && cell?.width) || 1 };
  }

  #begin(): ExportedChange[] {
    const { _crudOperations, _dependencyGraph, _evaluationSuspended } = this.#engine;
    if (_evaluationSuspended) return [];
    const differences = _crudOperations.getAndClearContentChanges();
    this.#takeOver();
    this.#seeds = _dependencyGraph
      .verticesToRecompute()
      .flatMap(({ idInGraph }) => (idInGraph === undefined ? [] : [idInGraph]));
    _dependencyGraph.clearDirtyVertices();
    this.#engine.compactLazyTransformationsIfNeeded();
    if (this.#seeds.length === 0) return differences.exportChanges(this.#engine._exporter);
    this.#pending = true;
    this.#sorted = undefined;
    const { nodesSparseArray, edgesSparseArray } = _dependencyGraph.graph;
    this.#order.begin(this.#seeds, nodesSparseArray, edgesSparseArray);
    // Results over several cells find their room while they are worked out: that is not left half done.
    return this.#work(differences, this.hasArrays ? undefined : this.#pace);
  }

  /** What an unfinished recalculation still has to look at is work of the next one. */
  #takeOver(): void {
    if (!this.#pending) return;
    const left = this.#sorted?.filter((id) => this.#order.isDue(id)) ?? this.#seeds;
    this.#markDue(left);
    this.#pending = false;
  }

  #work(differences: Differences, pace: Pace | undefined): ExportedChange[] {
    this.#sorted ??= this.#order.goOn(pace);
    if (this.#sorted !== undefined) this.#workOut(this.#sorted, differences, pace);
    return differences.exportChanges(this.#engine._exporter);
  }

  #workOut(sorted: number[], all: Differences, pace: Pace | undefined): void {
    const differences = cellByCell(all);
    const { nodesSparseArray: nodes } = this.#engine._dependencyGraph.graph;
    const later = new Set<number>();
    for (let id = sorted.at(-1); id !== undefined; id = sorted.at(-1)) {
      sorted.pop();
      const vertex = nodes[id];
      const onCycle = this.#order.isOnCycle(id);
      if (vertex === undefined || !(onCycle || this.#order.isDue(id))) continue;
      const differs = this.#differs(vertex, onCycle, differences, !later.has(id));
      if (differs === 'later') {
        later.add(id);
        sorted.unshift(id);
      } else if (differs) this.#order.makeDue(id);
      // A cycle is told whole: of half of one, a change that breaks it would not reach the rest.
      const next = sorted.at(-1);
      if (next !== undefined && !this.#order.isOnCycle(next) && pace?.() === false) return;
    }
    this.#pending = false;
  }

  /** Works one formula out; whether its value differs from before, or it is to be tried after all others. */
  #differs(
    vertex: Vertex,
    onCycle: boolean,
    differences: Into,
    mayWait: boolean,
  ): boolean | 'later' {
    const { _evaluator: evaluator, _lazilyTransformingAstService: service } = this.#engine;
    if (onCycle) {
      evaluator.processVertexOnCycle(vertex, differences);
      return true;
    }
    try {
      return evaluator.recomputeVertex(vertex, differences);
    } catch (reason) {
      // ROW, FORMULATEXT and their like look at a name without waiting for what it stands for.
      if (mayWait && isSaid(reason, MESSAGES.notYet)) return 'later';
      // Left alone, it would be without a value, and all that uses it too.
      const formula = vertex as FormulaVertex;
      const error = errorOf(ErrorType.ERROR, person('E17'), formula);
      formula.setCellValue(error);
      differences.addChange(error, formula.getAddress(service));
      return true;
    }
  }
}
