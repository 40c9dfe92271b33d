import {
  type ArraySize,
  CellError,
  DetailedCellError,
  type ExportedChange,
  FunctionPlugin,
  HyperFormula,
  SimpleRangeValue,
} from 'hyperformula';
import { SAID } from '../results/said.ts';
import type { Edges, Nodes } from './order.ts';

/**
 * All that is used of HyperFormula beyond its public face: each field, method, class and message once,
 * with its type below and its name in {@link used} or {@link MESSAGES}. Nothing else reaches inside. It is
 * looked for at the start ({@link demandInside}), so that another version of the library, made differently
 * inside, fails at once and by name; `inside.test.ts` also holds the source of each method.
 */

/** A cell, a whole column (no row) or a whole row (no column). */
export interface Place {
  readonly sheet: number;
  readonly row: number;
  readonly col: number;
}

export interface Corner {
  toSimpleCellAddress(from: Place): Place;
  toSimpleColumnAddress(from: Place): Omit<Place, 'row'>;
  toSimpleRowAddress(from: Place): Omit<Place, 'col'>;
}

/** What the kinds of parts are called that are told apart. */
export const PART = {
  call: 'FUNCTION_CALL',
  brackets: 'PARENTHESES',
  array: 'ARRAY',
  cells: 'CELL_RANGE',
  columns: 'COLUMN_RANGE',
  rows: 'ROW_RANGE',
  error: 'ERROR',
} as const;

/** A formula as the engine has read it. */
export interface Ast {
  readonly type: string;
  readonly start?: Corner;
  readonly end?: Corner;
  readonly left?: Ast;
  readonly right?: Ast;
  readonly value?: unknown;
  readonly expression?: Ast;
  readonly procedureName?: string;
  readonly args?: readonly (Ast | readonly Ast[])[];
}

/** Used areas, which whole rows and columns reach to. */
export interface Sheets {
  getSheetHeight(sheet: number): number;
  getSheetWidth(sheet: number): number;
}

/** Whatever has a number in the engine's graph: a formula, a range, a cell. */
export interface Vertex {
  readonly idInGraph?: number;
}

/** A formula in the graph; one with results over several cells has a size. */
export interface FormulaVertex extends Vertex {
  formula: Ast;
  readonly width?: number;
  readonly height?: number;
  isComputed?(): boolean;
  isLeftCorner?(address: unknown): boolean;
  setCellValue(value: CellError): void;
  getAddress(service: unknown): unknown;
}

/** A formula with results over several cells. */
export interface ArrayVertex extends Vertex {
  isComputed(): boolean;
  getArrayCellValue(address: unknown): unknown;
}

export interface RangeVertex extends Vertex {
  clearCache(): void;
}

/** Where values that differ are told. */
export interface Into {
  addChange(value: unknown, address: unknown): void;
}

/** The engine's list of values that differ. */
export interface Differences extends Into {
  exportChanges(exporter: unknown): ExportedChange[];
}

export interface Inside {
  recomputeIfDependencyGraphNeedsIt(): ExportedChange[];
  compactLazyTransformationsIfNeeded(): void;
  readonly _evaluationSuspended: boolean;
  readonly _exporter: unknown;
  readonly _lazilyTransformingAstService: unknown;
  readonly _crudOperations: { getAndClearContentChanges(): Differences };
  readonly _parser: ReaderInside;
  readonly _evaluator: {
    /** Works a formula out; whether its value differs from before. */
    recomputeVertex(vertex: Vertex, into: Into): boolean;
    processVertexOnCycle(vertex: Vertex, into: Into): void;
    evaluateAstToCellValue(ast: Ast, state: { readonly formulaVertex?: FormulaVertex }): unknown;
    readonly interpreter: Interpreter;
  };
  readonly _dependencyGraph: Sheets & {
    verticesToRecompute(): readonly Vertex[];
    clearDirtyVertices(): void;
    getCell(address: unknown): Partial<FormulaVertex> | undefined;
    /** The value as it is worked with, to the last digit. */
    getCellValue(address: unknown): unknown;
    getRange(start: Place, end: Place): RangeVertex | undefined;
    /** The formula whose results are that range, wholly and alone. */
    getArray(range: unknown): { valueOrUndef(): unknown } | undefined;
    processCellDependencies(dependencies: readonly object[], vertex: FormulaVertex): void;
    /** Takes the cells back on which results lie, and tells what they were. */
    cleanAddressMappingUnderArray(array: ArrayVertex): void;
    readonly arrayMapping: {
      count(): number;
      readonly arrayMapping: ReadonlyMap<string, { valueOrUndef(): unknown }>;
    };
    readonly rangeMapping: {
      rangesInSheet(sheet: number): Iterable<RangeVertex>;
      removeVertexIfExists(range: RangeVertex): void;
    };
    readonly graph: {
      readonly nodesSparseArray: Nodes;
      readonly edgesSparseArray: Edges;
      /** What the next node gets for its number. */
      readonly nextId: number;
      addEdge(from: number | Vertex, to: number | Vertex): void;
      removeEdge(from: number | Vertex, to: number | Vertex): void;
      removeEdgeIfExists(from: number | Vertex, to: number | Vertex): void;
      readonly dirtyAndVolatileNodeIds: {
        readonly rawValue: { readonly dirty: number[] };
        markAsModified(): void;
      };
    };
  };
}

/** What reads the text of formulas. */
export interface ReaderInside {
  parse(text: string, address: Place): unknown;
  readonly resolveSheetReference: (name: string) => number;
  readonly lexerConfig: object;
  readonly lexer: {
    /** All that is worked out when one is made is worked out in what is handed to this. */
    readonly lexer: { TRACE_INIT(phase: string, work: () => unknown): unknown };
  };
  readonly formulaParser: {
    resolveSheetReference: (name: string) => number;
    parseFromTokens(tokens: unknown, address: Place): unknown;
    /** Works the grammar out. */
    performSelfAnalysis(): void;
  };
}

interface Interpreter {
  binaryRangeWrapper(work: unknown, left: unknown, right: unknown, state: unknown): unknown;
  readonly arithmeticHelper: {
    buildRegex(pattern: string, whole?: boolean): unknown;
    coerceStringToComplex(text: string): unknown;
    normalizeString(text: string): string;
  };
  readonly criterionBuilder: {
    fromCellValue(raw: unknown, arithmeticHelper: unknown): unknown;
  };
  readonly arraySizePredictor: {
    checkArraySize(ast: Ast, address: Place): ArraySize;
    checkArraySizeForAst(ast: Ast, state: object): ArraySize;
  };
}

/** What every function of the engine has. */
export interface PluginInside {
  coerceArgumentsToRequiredTypes(state: unknown, args: unknown, parameters: object[]): unknown;
  calculateSizeOfVectorizedResultArray(...of: unknown[]): readonly [number, number];
}

/** SUM and those that go over ranges as it does. */
export interface SumInside {
  readonly dependencyGraph: Sheets;
  evaluateRange(ast: Ast, state: { readonly formulaAddress: Place }, ...rest: unknown[]): unknown;
}

/** What of an engine is used inside; {@link demandInside} has seen that it is there. */
export const insideOf = (engine: HyperFormula): Inside => engine as unknown as Inside;

export const pluginInside = (): PluginInside => FunctionPlugin.prototype as unknown as PluginInside;

export const sumInside = (): SumInside =>
  HyperFormula.getFunctionPlugin('SUM')?.prototype as unknown as SumInside;

/** An error with the formula it began in. */
export const errorOf = (
  type: ConstructorParameters<typeof CellError>[0],
  says: string,
  vertex: FormulaVertex | undefined,
): CellError => new CellError(type, says, vertex as never);

/** A number of the engine's: those of money and of percent carry theirs. */
export function numberOf(value: unknown): unknown {
  return typeof value === 'object' && value !== null && 'val' in value ? value.val : value;
}

/** What is looked at: of each one specimen. */
export type Owner =
  | 'engine'
  | 'percent'
  | 'formula'
  | 'array'
  | 'array in a mapping'
  | 'range'
  | 'differences'
  | 'state'
  | 'tree'
  | 'function'
  | 'range value';

export interface Used {
  readonly of: Owner;
  /** From the owner, through dots. */
  readonly path: string;
  /** What `typeof` says of it, or the word it holds. */
  readonly is: 'function' | 'object' | 'number' | 'boolean' | { readonly word: string };
}

const all = (of: Owner, is: Used['is'], paths: string): readonly Used[] =>
  paths
    .trim()
    .split(/\s+/)
    .map((path) => ({ of, path, is }));

export const used = (): readonly Used[] => [
  ...all(
    'engine',
    'function',
    `recomputeIfDependencyGraphNeedsIt
    compactLazyTransformationsIfNeeded
    _crudOperations.getAndClearContentChanges
    _parser.constructor
    _parser.parse
    _parser.resolveSheetReference
    _parser.lexer.constructor
    _parser.lexer.lexer.constructor
    _parser.lexer.lexer.TRACE_INIT
    _parser.formulaParser.constructor
    _parser.formulaParser.resolveSheetReference
    _parser.formulaParser.parseFromTokens
    _parser.formulaParser.performSelfAnalysis
    _evaluator.recomputeVertex
    _evaluator.processVertexOnCycle
    _evaluator.evaluateAstToCellValue
    _evaluator.interpreter.binaryRangeWrapper
    _evaluator.interpreter.arithmeticHelper.buildRegex
    _evaluator.interpreter.arithmeticHelper.coerceStringToComplex
    _evaluator.interpreter.arithmeticHelper.normalizeString
    _evaluator.interpreter.criterionBuilder.fromCellValue
    _evaluator.interpreter.arraySizePredictor.checkArraySize
    _evaluator.interpreter.arraySizePredictor.checkArraySizeForAst
    _dependencyGraph.verticesToRecompute
    _dependencyGraph.clearDirtyVertices
    _dependencyGraph.getCell
    _dependencyGraph.getCellValue
    _dependencyGraph.getRange
    _dependencyGraph.getSheetHeight
    _dependencyGraph.getSheetWidth
    _dependencyGraph.processCellDependencies
    _dependencyGraph.cleanAddressMappingUnderArray
    _dependencyGraph.getArray
    _dependencyGraph.arrayMapping.count
    _dependencyGraph.arrayMapping.arrayMapping.values
    _dependencyGraph.rangeMapping.rangesInSheet
    _dependencyGraph.rangeMapping.removeVertexIfExists
    _dependencyGraph.graph.addEdge
    _dependencyGraph.graph.removeEdge
    _dependencyGraph.graph.removeEdgeIfExists
    _dependencyGraph.graph.dirtyAndVolatileNodeIds.markAsModified`,
  ),
  ...all(
    'engine',
    'object',
    `_exporter
    _lazilyTransformingAstService
    _parser.lexerConfig
    _dependencyGraph.graph.nodesSparseArray
    _dependencyGraph.graph.edgesSparseArray
    _dependencyGraph.graph.dirtyAndVolatileNodeIds.rawValue.dirty`,
  ),
  ...all('engine', 'number', '_dependencyGraph.graph.nextId'),
  ...all('engine', 'boolean', '_evaluationSuspended'),
  ...all('percent', 'number', 'val'),
  ...all('formula', 'function', 'isComputed setCellValue getAddress'),
  ...all('formula', 'object', 'formula'),
  ...all('formula', 'number', 'idInGraph'),
  ...all('array', 'function', 'isComputed isLeftCorner setCellValue getAddress getArrayCellValue'),
  ...all('array', 'object', 'formula array'),
  ...all('array', 'number', 'idInGraph width height'),
  ...all('array in a mapping', 'function', 'valueOrUndef'),
  ...all('range', 'function', 'clearCache'),
  ...all('range', 'number', 'idInGraph'),
  ...all('differences', 'function', 'addChange exportChanges'),
  ...all('state', 'object', 'formulaVertex formulaAddress'),
  ...all('tree', { word: PART.call }, 'type'),
  ...all('tree', { word: 'SUM' }, 'procedureName'),
  ...all('tree', { word: PART.brackets }, 'args.0.type'),
  ...all('tree', 'object', 'args.0.expression.left args.0.expression.right args.1.value'),
  ...all('tree', { word: PART.array }, 'args.2.type'),
  ...all('tree', 'object', 'args.2.args.0.1'),
  ...all('tree', { word: PART.cells }, 'args.3.type'),
  ...all('tree', 'function', 'args.3.start.toSimpleCellAddress args.3.end.toSimpleCellAddress'),
  ...all('tree', { word: PART.columns }, 'args.4.type'),
  ...all('tree', 'function', 'args.4.start.toSimpleColumnAddress args.4.end.toSimpleColumnAddress'),
  ...all('tree', { word: PART.rows }, 'args.5.type'),
  ...all('tree', 'function', 'args.5.start.toSimpleRowAddress args.5.end.toSimpleRowAddress'),
  ...all('tree', { word: PART.error }, 'args.6.type'),
  ...all(
    'function',
    'function',
    `evaluateRange coerceArgumentsToRequiredTypes calculateSizeOfVectorizedResultArray
    runFunction runFunctionWithReferenceArgument evaluateAst arraySizeForAst metadata`,
  ),
  ...all('function', 'object', 'dependencyGraph config'),
  ...all('range value', 'function', 'onlyRange fromRange onlyValues onlyNumbers'),
];

/** What the specimens are taken from. The formula in E1 has one part of each kind that is told apart. */
const CELLS = [
  [1, '=A1+1', '=SEQUENCE(1,2)', null, '=SUM((A1+1),-A1,{1,2},A1:B1,Other!A:A,2:2,#REF!)', '=1%'],
];

/** An engine with specimens of all that is used, and nothing of ours in it. */
export class Specimens {
  readonly engine: HyperFormula;
  readonly owners: Readonly<Record<Owner, unknown>>;

  constructor() {
    this.engine = HyperFormula.buildFromSheets(
      { Specimens: [...CELLS], Other: [] },
      { licenseKey: 'gpl-v3', useArrayArithmetic: true, undoLimit: 0 },
    );
    const inside: Partial<Inside> = insideOf(this.engine);
    const { _evaluator: evaluator, _dependencyGraph: graph } = inside;
    const cell = (col: number) => graph?.getCell?.(at(0, col));
    const [mapped] = graph?.arrayMapping?.arrayMapping?.values?.() ?? [];
    const [range] = graph?.rangeMapping?.rangesInSheet?.(0) ?? [];
    const Sum = HyperFormula.getFunctionPlugin('SUM') as unknown as new (of: unknown) => unknown;
    this.owners = {
      engine: this.engine,
      percent: graph?.getCellValue?.(at(0, 5)),
      formula: cell(1),
      array: cell(2),
      'array in a mapping': mapped,
      range,
      differences: inside._crudOperations?.getAndClearContentChanges?.(),
      state: this.#state(),
      tree: cell(4)?.formula,
      function: new Sum(evaluator?.interpreter),
      'range value': SimpleRangeValue,
    };
  }

  /** What is handed along while a formula is worked out. */
  #state(): unknown {
    const { _evaluator: evaluator } = insideOf(this.engine);
    const evaluate = evaluator?.evaluateAstToCellValue;
    let seen: unknown;
    if (evaluate === undefined) return undefined;
    evaluator.evaluateAstToCellValue = (ast, state) => {
      seen = state;
      return evaluate.call(evaluator, ast, state);
    };
    this.engine.setCellContents(at(1, 0), '=1+1');
    evaluator.evaluateAstToCellValue = evaluate;
    return seen;
  }

  /** What the engine says of a formula in a cell. */
  says(formula: string): string {
    this.engine.setCellContents(at(1, 0), formula);
    const value = this.engine.getCellValue(at(1, 0));
    return value instanceof DetailedCellError ? value.message : '';
  }
}

const at = (row: number, col: number): Place => ({ sheet: 0, row, col });

export interface Message {
  readonly means: RegExp;
  /** Brings the engine to say it. */
  readonly said: (specimens: Specimens) => string;
}

/** Messages by which is told what happened: the engine has no other sign of it. */
export const MESSAGES = {
  /** Thrown where a formula looks at one that has no value yet. */
  notYet: {
    means: /^Value of the formula cell is not computed\.$/,
    said: ({ engine }) => {
      engine.suspendEvaluation();
      engine.setCellContents(at(1, 1), '=1+1');
      const cell = insideOf(engine)._dependencyGraph.getCell(at(1, 1));
      const thrown = thrownBy(() => (cell as { getCellValue(): unknown }).getCellValue());
      engine.resumeEvaluation();
      return thrown;
    },
  },
  unreadable: { means: SAID.unreadable, said: (specimens) => specimens.says('=1+') },
  wrongCount: {
    means: SAID.wrongCount,
    said: (specimens) => specimens.says('=PI(1)'),
  },
  noFunction: {
    means: SAID.noFunction,
    said: (specimens) => specimens.says('=NO_SUCH_FUNCTION(1)'),
  },
  noName: {
    means: SAID.noName,
    said: (specimens) => specimens.says('=no_such_name'),
  },
} as const satisfies Record<string, Message>;

/** Whether what was thrown is that message. */
export const isSaid = (reason: unknown, { means }: Message): boolean =>
  reason instanceof Error && means.test(reason.message);

function thrownBy(run: () => unknown): string {
  try {
    run();
    return '';
  } catch (reason) {
    return reason instanceof Error ? reason.message : '';
  }
}

/**
 * Looks whether all that is used is there.
 *
 * @throws an Error by name where another version of the library is made differently inside
 */
export function demandInside({
  specimens = new Specimens(),
  owners = specimens.owners,
  messages = MESSAGES,
}: {
  readonly specimens?: Specimens;
  readonly owners?: Readonly<Record<Owner, unknown>>;
  readonly messages?: Readonly<Record<string, Message>>;
} = {}): void {
  for (const { of, path, is } of used()) {
    const found = partAt(owners[of], path);
    const fits = typeof is === 'object' ? found === is.word : typeof found === is && found !== null;
    if (!fits) throw missing(`${path} in its ${of}`);
  }
  for (const [name, { means, said }] of Object.entries(messages)) {
    if (!means.test(said(specimens))) throw missing(`message ${means.source} (${name})`);
  }
}

/** What stands at the end of a path. */
export function partAt(whole: unknown, path: string): unknown {
  let part = whole;
  for (const step of path.split('.')) part = (part as Record<string, unknown> | null)?.[step];
  return part;
}

const missing = (what: string): Error =>
  new Error(`this version of HyperFormula has no ${what}: see engine/inside.ts`);
