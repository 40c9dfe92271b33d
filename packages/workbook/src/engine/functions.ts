import {
  type ArgumentDescription,
  Fault,
  FUNCTIONS,
  type FunctionDescription,
  faultSentence,
  ownFromUs,
  type UnitSystem,
  usFromOwn,
} from '@kerfbook/wood';
import {
  ArraySize,
  CellError,
  EmptyValue,
  ErrorType,
  FunctionArgumentType,
  FunctionPlugin,
  type HyperFormula,
  SimpleRangeValue,
} from 'hyperformula';
import { BUYING_FUNCTIONS, cuttingSentence, type RangeArgument } from './buying.ts';
import { spend } from './meter.ts';
import { PartMissing } from './part.ts';
import { PERSON_MARK, person } from './sentences.ts';

/** Every function of ours, described once: help, reference and registration come from here. */
export function functionReference(): readonly FunctionDescription[] {
  return ALL;
}

/** Those of the trade, and those that plan buying and cutting. */
const ALL: readonly FunctionDescription[] = [...FUNCTIONS, ...BUYING_FUNCTIONS];

/** What a call of ours costs, most of it where the answer is that there is none (rule B1). */
export const STEPS_OF_OURS = 40;
/** What it costs to guess which word was meant. */
const STEPS_OF_GUESS = 2_000;
/** What a plan for buying costs. */
export const STEPS_OF_PLAN = 5_000;

export const PLANS: ReadonlySet<string> = new Set(BUYING_FUNCTIONS.map(({ name }) => name));

type Argument = number | string | RangeArgument | undefined;
type Result = number | string | CellError | SimpleRangeValue;

const ERROR_OF: Record<Fault['detail']['class'], ErrorType> = {
  kind: ErrorType.VALUE,
  range: ErrorType.NUM,
  unknown: ErrorType.NA,
};

/**
 * Calls a function of ours with what the engine hands over: numbers in the workbook's own units,
 * words, the engine's mark for an empty cell, errors. Never throws.
 */
export function callDescribed(
  description: FunctionDescription,
  raw: readonly unknown[],
  system: UnitSystem,
): Result {
  try {
    const args = description.args.map((argument, i) => readArgument(argument, raw[i], system));
    const run = description.run as (...args: Argument[]) => number | string | readonly number[];
    const result = run(...args);
    if (typeof result === 'object') return columnOf(description, result, system);
    if (typeof result === 'string') return result;
    const converted = ownFromUs(description.result.quantity, result, system);
    // Going to inches and back leaves noise in the last digit: 38.1 mm must not be 38.09999….
    const own = system === 'us' ? converted : Number(converted.toPrecision(15));
    return Number.isFinite(own) ? own : new CellError(ErrorType.NUM, person('E9'));
  } catch (error) {
    if (error instanceof Refusal) return error.value;
    if (error instanceof Fault) return faultError(error, system);
    if (error instanceof PartMissing) return new CellError(ErrorType.ERROR, person('E21'));
    const cutting = cuttingSentence(error);
    if (cutting !== undefined) return new CellError(ErrorType.NUM, PERSON_MARK + cutting);
    return new CellError(ErrorType.ERROR, person('E17'));
  }
}

/** A column of results, as long as the range they belong to. */
function columnOf(
  { result }: FunctionDescription,
  values: readonly number[],
  system: UnitSystem,
): SimpleRangeValue {
  return SimpleRangeValue.onlyNumbers(
    values.map((value) => [ownFromUs(result.quantity, value, system)]),
  );
}

function faultError(fault: Fault, system: UnitSystem): CellError {
  const type = ERROR_OF[fault.detail.class];
  // The nearest of all known words is looked for.
  if (fault.detail.class === 'unknown') spend(STEPS_OF_GUESS);
  return new CellError(type, PERSON_MARK + faultSentence(fault.detail, system));
}

class Refusal extends Error {
  readonly value: CellError;

  constructor(value: CellError) {
    super('refused');
    this.value = value;
  }
}

function readArgument(argument: ArgumentDescription, raw: unknown, system: UnitSystem): Argument {
  if (raw instanceof CellError) throw new Refusal(raw);
  if (argument.takes === 'range') return readRange(argument, raw, system);
  if (raw === undefined || raw === EmptyValue || raw === null) {
    if (argument.optional) return undefined;
    throw kindFault(argument, undefined);
  }
  if (typeof raw === 'number' && argument.takes !== 'text') {
    return usFromOwn(argument.quantity, raw, system);
  }
  if (typeof raw === 'string' && argument.takes !== 'number') return raw;
  throw kindFault(argument, typeof raw === 'boolean' ? String(raw).toUpperCase() : raw);
}

/** Cells of a range, line by line; a single number counts as a range of one. */
function readRange(argument: ArgumentDescription, raw: unknown, system: UnitSystem): RangeArgument {
  const cells: unknown[] = raw instanceof SimpleRangeValue ? raw.data.flat() : [raw];
  return cells.map((cell) => {
    if (cell instanceof CellError) throw new Refusal(cell);
    if (cell === EmptyValue || cell === undefined || cell === null || cell === '') return undefined;
    if (typeof cell !== 'number') {
      throw kindFault(argument, typeof cell === 'boolean' ? String(cell).toUpperCase() : cell);
    }
    return usFromOwn(argument.quantity, cell, system);
  });
}

const TAKES = {
  number: 'a number',
  text: 'words',
  either: 'a number or words',
  range: 'numbers, or empty cells',
};

function kindFault(argument: ArgumentDescription, got: unknown): Fault {
  return new Fault({
    class: 'kind',
    argument: argument.name,
    got: typeof got === 'object' ? 'a range of cells' : got,
    quantity: argument.quantity,
    takes: TAKES[argument.takes],
    ...(got === undefined && argument.missing !== undefined ? { hint: argument.missing } : {}),
  });
}

type Run = FunctionPlugin['runFunction'];
type Ast = { args: Parameters<Run>[0] };
type State = Parameters<Run>[1];

const BY_NAME = new Map(ALL.map((one) => [one.name, one]));
/** Gives a column as long as its first argument. */
const COLUMNS = new Set(['STAVES_PICK']);

function methodOf(name: string): string {
  return `wood_${name.toLowerCase()}`;
}

class WoodFunctions extends FunctionPlugin {
  static override implementedFunctions = Object.fromEntries(
    ALL.map((one) => [
      one.name,
      {
        method: methodOf(one.name),
        ...(COLUMNS.has(one.name) ? { sizeOfResultArrayMethod: 'columnSize' } : {}),
        // Every argument is optional to the engine: we say ourselves, by name, which one is missing.
        parameters: one.args.map((argument) => ({
          argumentType:
            argument.takes === 'range' ? FunctionArgumentType.RANGE : FunctionArgumentType.NOERROR,
          optionalArg: true,
        })),
      },
    ]),
  );

  /** Runs one function; the named methods made below all come here. */
  described(description: FunctionDescription, ast: Ast, state: State) {
    const { name, args } = description;
    if (ast.args.length > args.length) {
      const least = args.filter((argument) => !argument.optional).length;
      const message = person('E11', name, least, args.length, ast.args.length);
      return new CellError(ErrorType.VALUE, message);
    }
    const system = (this.config.context as { units?: UnitSystem } | undefined)?.units ?? 'us';
    const steps = PLANS.has(name) ? STEPS_OF_PLAN : STEPS_OF_OURS;
    return this.runFunction(ast.args, state, this.metadata(name), (...raw: unknown[]) => {
      spend(steps);
      return raw.some((value, i) => value instanceof SimpleRangeValue && args[i]?.takes !== 'range')
        ? new CellError(ErrorType.VALUE, person('E8'))
        : callDescribed(description, raw, system);
    });
  }

  /** How many cells a column of results takes: as many as its range has. */
  columnSize(ast: Ast, state: State): ArraySize {
    const [first] = ast.args;
    if (first === undefined) return ArraySize.error();
    const { width, height } = this.arraySizeForAst(first, state);
    return new ArraySize(1, width * height);
  }
}

for (const [name, description] of BY_NAME) {
  Object.defineProperty(WoodFunctions.prototype, methodOf(name), {
    value(this: WoodFunctions, ast: Ast, state: State) {
      return this.described(description, ast, state);
    },
  });
}

/** Puts our functions beside the standard ones, once for the process. */
export function registerOurs(engine: typeof HyperFormula): void {
  const enGB = Object.fromEntries([...BY_NAME.keys()].map((name) => [name, name]));
  engine.registerFunctionPlugin(WoodFunctions, { enGB });
}
