import { Wildcards } from '@kerfbook/functions/computing';
import { ArraySize, CellError, ErrorType, type HyperFormula, SimpleRangeValue } from 'hyperformula';
import {
  BUDGET,
  beginMeter,
  endMeter,
  LONGEST_TEXT,
  spend,
  spendCells,
  TooMuch,
} from '../results/meter.ts';
import { person } from '../results/sentences.ts';
import { markSteps, spendSteps } from './costs.ts';
import {
  type Ast,
  errorOf,
  type FormulaVertex,
  type Inside,
  insideOf,
  PART,
  type Place,
  type PluginInside,
  pluginInside,
  type SumInside,
  sumInside,
} from './inside.ts';
import { TiedOnce } from './tied-once.ts';
import { FILLED, isRange, sizeOfRange, Weights } from './weight.ts';

type Range = { readonly start: Place; readonly end: Place };

const isDependencyRange = (one: object): one is Range => 'start' in one && 'end' in one;

/** Whatever reads a text of more letters as a complex number goes back over it again and again. */
const LONGEST_COMPLEX = 200;

/**
 * Keeps the formulas of an engine to what one formula may cost, and all of them together (rules B1 to
 * B3). HyperFormula takes whatever time and memory a formula asks for, and cannot be stopped.
 */
export class Budget {
  readonly #engine: Inside;
  readonly #weights: Weights;
  /** The workbook is being told: what comes is all there is. */
  #opening = true;
  /** At least what the formulas cost together. */
  #together = 0;
  #over = false;
  #stale = false;

  constructor(engine: HyperFormula) {
    this.#engine = insideOf(engine);
    const { _evaluator: evaluator, _dependencyGraph: graph } = this.#engine;
    const { arraySizePredictor: predictor } = evaluator.interpreter;
    this.#weights = new Weights(graph, (ast, address) =>
      predictor.checkArraySizeForAst(ast, { formulaAddress: address, arraysFlag: true }),
    );
    this.#meter();
    this.#boundResults();
    const tied = new TiedOnce(graph.graph);
    const process = graph.processCellDependencies.bind(graph);
    graph.processCellDependencies = (dependencies, vertex) => {
      const refused = this.#take(vertex);
      if (refused === undefined) {
        tied.within(() => process(this.#unknownOf(dependencies, vertex), vertex));
      } else vertex.formula = { type: PART.error, error: refused } as Ast;
    };
  }

  /**
   * Cells reach so far on a sheet, whose whole rows and columns have that many then. While a workbook is
   * told, this comes before its formulas, which may read sheets that follow.
   */
  reach(sheet: number, rows: number, columns: number): void {
    const more = this.#weights.reach(sheet, rows, columns);
    if (more !== undefined && !this.#opening) this.#grown(more.height, more.width);
  }

  opened(): void {
    this.#opening = false;
  }

  /** Formulas are left out since all together cost too much. */
  get over(): boolean {
    return this.#over;
  }

  /** Which formulas are left out has to be decided anew, in the order of the workbook. */
  get stale(): boolean {
    return this.#stale;
  }

  /** What is left out may be another from here on. */
  changed(): void {
    if (this.#over) this.#stale = true;
  }

  /** Ranges may have become larger by rows and columns that were put in or taken out. */
  shifted(rows: number, columns: number): void {
    this.changed();
    this.#grown(rows, columns);
  }

  #grown(rows: number, columns: number): void {
    this.#together += this.#weights.growth(rows, columns);
    if (this.#together > BUDGET.together) this.#stale = true;
  }

  /** Why a formula must not be worked out; what it costs is counted. */
  #take(vertex: FormulaVertex): CellError | undefined {
    const weight = this.#weights.weigh(vertex as never);
    if (weight.cells > BUDGET.cells) return refusal(vertex, person('E23', BUDGET.cells));
    if (weight.results > BUDGET.results) {
      const finite = Number.isFinite(weight.results);
      return refusal(
        vertex,
        finite ? person('E26', weight.results, BUDGET.results) : person('E27'),
      );
    }
    if (weight.made > BUDGET.steps) return refusal(vertex, person('E24', BUDGET.steps));
    if (weight.all === 0) return undefined;
    this.changed();
    if (this.#together + weight.all > BUDGET.together) {
      this.#over = true;
      this.#stale = !this.#opening;
      return refusal(vertex, person('E25', BUDGET.together));
    }
    this.#together += weight.all;
    return undefined;
  }

  /**
   * While a workbook is told, a range that is known has its cells already: thousands of formulas with
   * the same range are tied to it, not each to every cell anew.
   */
  #unknownOf(dependencies: readonly object[], vertex: FormulaVertex): readonly object[] {
    if (!this.#opening || vertex.idInGraph === undefined) return dependencies;
    const { _dependencyGraph: graph } = this.#engine;
    return dependencies.filter((one) => {
      const id = isDependencyRange(one) ? graph.getRange(one.start, one.end)?.idInGraph : undefined;
      if (id === undefined || vertex.idInGraph === undefined) return true;
      graph.graph.addEdge(id, vertex.idInGraph);
      return false;
    });
  }

  /** Counts what each formula costs while it is worked out. */
  #meter(): void {
    const { _evaluator: evaluator } = this.#engine;
    const evaluate = evaluator.evaluateAstToCellValue.bind(evaluator);
    evaluator.evaluateAstToCellValue = (ast, state) => {
      beginMeter();
      try {
        const value = evaluate(ast, state);
        // SPLIT of half a place, for one: whoever asked for the cell would throw.
        if (value === undefined) return refusal(state.formulaVertex, person('E17'));
        // Texts made of texts would double with every cell.
        return typeof value === 'string' && value.length > LONGEST_TEXT
          ? refusal(state.formulaVertex, person('E18', LONGEST_TEXT), ErrorType.VALUE)
          : value;
      } catch (reason) {
        if (!(reason instanceof TooMuch)) throw reason;
        return refusal(state.formulaVertex, reason.message);
      } finally {
        endMeter();
      }
    };
    const { interpreter } = evaluator;
    const binary = interpreter.binaryRangeWrapper.bind(interpreter);
    interpreter.binaryRangeWrapper = (work, left, right, state) => {
      const [a, b] = [sizeOf(left), sizeOf(right)];
      if (a !== undefined || b !== undefined) {
        spend(Math.max(a?.width ?? 1, b?.width ?? 1) * Math.max(a?.height ?? 1, b?.height ?? 1));
      }
      return binary(work, left, right, state);
    };
    const { arithmeticHelper: helper } = interpreter;
    helper.buildRegex = (pattern, whole = true) =>
      new Wildcards(helper.normalizeString(pattern), whole, spend);
    const complex = helper.coerceStringToComplex.bind(helper);
    helper.coerceStringToComplex = (text) =>
      text.length > LONGEST_COMPLEX ? new CellError(ErrorType.NUM, person('E9')) : complex(text);
  }

  /** Results that are too many are one cell to the engine, which then holds an error. */
  #boundResults(): void {
    const { arraySizePredictor: predictor } = this.#engine._evaluator.interpreter;
    const predict = predictor.checkArraySize.bind(predictor);
    predictor.checkArraySize = (ast, address) => {
      const size = predict(ast, address);
      if (size.isScalar()) return size;
      const cells = size.width * size.height;
      const fits = cells <= BUDGET.results && this.#together + FILLED * cells <= BUDGET.together;
      return fits ? size : ArraySize.error();
    };
  }
}

const sizeOf = (value: unknown): ArraySize | undefined =>
  value instanceof SimpleRangeValue ? value.size : undefined;

function refusal(
  vertex: FormulaVertex | undefined,
  says: string,
  type = ErrorType.ERROR,
): CellError {
  return errorOf(type, says, vertex);
}

/** Counts ranges, arrays and arguments in every engine of the process; called once. */
export function registerBudget(engine: typeof HyperFormula): void {
  markSteps(engine);
  const plugin = pluginInside();
  const sums = sumInside();

  for (const from of ['onlyRange', 'fromRange'] as const) {
    const make = SimpleRangeValue[from] as (...of: never[]) => SimpleRangeValue;
    SimpleRangeValue[from] = (...of: unknown[]) => {
      const range = make(...(of as never[]));
      const cells = range.width() * range.height();
      spendCells(cells);
      spend(cells);
      return range;
    };
  }
  for (const from of ['onlyValues', 'onlyNumbers'] as const) {
    const make = SimpleRangeValue[from];
    SimpleRangeValue[from] = (data: never) => {
      const range = make(data);
      spend(range.width() * range.height());
      return range;
    };
  }

  const { evaluateRange } = sums;
  sums.evaluateRange = function (this: SumInside, ast, state, ...rest) {
    // Ranges in sums are read past the others. The engine may know the sum already: it costs the same.
    if (isRange(ast)) {
      const { width, height } = sizeOfRange(ast, state.formulaAddress, this.dependencyGraph);
      spendCells(width * height);
    }
    return evaluateRange.call(this, ast, state, ...rest);
  };

  const { coerceArgumentsToRequiredTypes: coerce } = plugin;
  plugin.coerceArgumentsToRequiredTypes = function (this: PluginInside, ...of) {
    const args = (coerce as (...of: unknown[]) => unknown).apply(this, of);
    if (Array.isArray(args)) spendSteps(of[2], args);
    return args;
  };
  const { calculateSizeOfVectorizedResultArray: vectorized } = plugin;
  plugin.calculateSizeOfVectorizedResultArray = function (this: PluginInside, ...of) {
    const size = vectorized.apply(this, of);
    const cells = size[0] * size[1];
    if (cells > 1) spend((3 + 2 * (of[0] as readonly unknown[]).length) * cells);
    return size;
  };
}
