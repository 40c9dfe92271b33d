import { cuttingSentence, type NoAnswer, NotLoaded } from '@kerfbook/functions';
import {
  type ArgumentDescription,
  Fault,
  type FunctionArgument,
  type FunctionDescription,
  faultSentence,
  ownFromUs,
  type RangeArgument,
  type TableArgument,
  type UnitSystem,
  usFromOwn,
} from '@kerfbook/wood';
import { spend } from './meter.ts';
import { PERSON_MARK, person } from './sentences.ts';

/** What a call of ours costs, most of it where the answer is that there is none (rule B1). */
export const STEPS_OF_OURS = 40;
/** What it costs to guess which word was meant. */
export const STEPS_OF_GUESS = 2_000;

/** Kinds of error that a call of ours ends in. */
export type CallError = 'VALUE' | 'NUM' | 'NA' | 'ERROR' | 'DIV_BY_ZERO';

/** A call that has no answer, with its sentence as it travels through an engine. */
export class CallRefused {
  readonly type: CallError;
  readonly message: string;

  constructor(type: CallError, message: string) {
    this.type = type;
    this.message = message;
  }
}

/**
 * One argument of a call: a value, nothing (left out, or an empty cell), or the cells of a range line
 * by line. Errors are told apart by the engine that hands them over.
 */
export type Given = unknown;

export class GivenRange {
  readonly cells: readonly unknown[];
  /** Cells in a line. */
  readonly width: number;

  constructor(cells: readonly unknown[], width: number) {
    this.cells = cells;
    this.width = width;
  }
}

/** Whether an argument takes cells side by side. */
export const takesCells = (argument: ArgumentDescription | undefined): boolean =>
  argument?.takes === 'range' || argument?.takes === 'table';

/** Why a function of numbers has no answer, as a refusal. */
export const refusalOf = (reason: NoAnswer): CallRefused =>
  reason === 'divided by zero'
    ? new CallRefused('DIV_BY_ZERO', person('E6'))
    : new CallRefused('NUM', person('E13'));

/** What a call comes to: a value, a column of numbers, a refusal, or the error among its arguments. */
export type CallResult<E> = number | string | readonly number[] | CallRefused | E;

const ERROR_OF: Record<Fault['detail']['class'], CallError> = {
  kind: 'VALUE',
  range: 'NUM',
  unknown: 'NA',
};

class Carried<E> extends Error {
  readonly value: E;

  constructor(value: E) {
    super('an error came with an argument');
    this.value = value;
  }
}

/**
 * Calls a function of ours with numbers in the workbook's own units, words, nothing, ranges and errors;
 * which values are errors, `isError` knows. Never throws.
 */
export function callDescribed<E>(
  description: FunctionDescription,
  raw: readonly Given[],
  system: UnitSystem,
  isError: (value: unknown) => value is E,
): CallResult<E> {
  try {
    const args = description.args.map((argument, i) =>
      readArgument(argument, raw[i], system, isError),
    );
    const result = description.run(...args);
    if (typeof result === 'object') {
      return result.map((value) => ownFromUs(description.result.quantity, value, system));
    }
    if (typeof result === 'string') return result;
    const converted = ownFromUs(description.result.quantity, result, system);
    // Going to inches and back leaves noise in the last digit: 38.1 mm must not be 38.09999….
    const own = system === 'us' ? converted : Number(converted.toPrecision(15));
    return Number.isFinite(own) ? own : new CallRefused('NUM', person('E9'));
  } catch (error) {
    if (error instanceof Carried) return error.value;
    if (error instanceof Fault) return faultError(error, system, description.name);
    if (error instanceof NotLoaded) return new CallRefused('ERROR', person('E21'));
    const cutting = cuttingSentence(error);
    if (cutting !== undefined) return new CallRefused('NUM', PERSON_MARK + cutting);
    return new CallRefused('ERROR', person('E17'));
  }
}

/** Too many arguments for a function of ours, as a sentence. */
export function tooMany({ name, args }: FunctionDescription, got: number): CallRefused {
  const least = args.filter((argument) => !argument.optional).length;
  return new CallRefused('VALUE', person('E11', name, least, args.length, got));
}

/** What calling a function of ours costs, before what it finds. */
export const stepsOf = ({ steps }: FunctionDescription): number => steps ?? STEPS_OF_OURS;

function faultError(fault: Fault, system: UnitSystem, of: string): CallRefused {
  const type = ERROR_OF[fault.detail.class];
  // The nearest of all known words is looked for.
  if (fault.detail.class === 'unknown') spend(STEPS_OF_GUESS);
  return new CallRefused(type, PERSON_MARK + faultSentence(fault.detail, system, of));
}

function readArgument<E>(
  argument: ArgumentDescription,
  raw: Given,
  system: UnitSystem,
  isError: (value: unknown) => value is E,
): FunctionArgument {
  if (isError(raw)) throw new Carried(raw);
  if (argument.takes === 'range') return readRange(argument, raw, system, isError);
  const isLeftOut = raw === undefined || raw === null;
  if (argument.takes === 'table') {
    if (isLeftOut && argument.optional) return undefined;
    return readTable(argument, raw, system, isError);
  }
  if (isLeftOut) {
    if (argument.optional) return undefined;
    throw kindFault(argument, undefined);
  }
  if (typeof raw === 'number' && argument.takes !== 'text') {
    if (system === 'metric' && argument.notInMetric !== undefined)
      throw bareInMetric(argument, raw);
    return usFromOwn(argument.quantity, raw, system);
  }
  if (typeof raw === 'string' && argument.takes !== 'number') return raw;
  throw kindFault(argument, typeof raw === 'boolean' ? String(raw).toUpperCase() : raw);
}

/** A bare number that a metric workbook would read in two ways. */
function bareInMetric(
  { name, quantity, notInMetric = '' }: ArgumentDescription,
  got: number,
): Fault {
  const takes = `in a metric workbook ${notInMetric}`;
  return new Fault({ class: 'kind', argument: name, got, quantity, takes });
}

/** Cells of a range, line by line; a single number counts as a range of one. */
function readRange<E>(
  argument: ArgumentDescription,
  raw: Given,
  system: UnitSystem,
  isError: (value: unknown) => value is E,
): RangeArgument {
  const cells = raw instanceof GivenRange ? raw.cells : [raw];
  return cells.map((cell) => {
    if (isError(cell)) throw new Carried(cell);
    if (cell === undefined || cell === null || cell === '') return undefined;
    if (typeof cell !== 'number') {
      throw kindFault(argument, typeof cell === 'boolean' ? String(cell).toUpperCase() : cell);
    }
    return usFromOwn(argument.quantity, cell, system);
  });
}

/** Rows under the heads of a table; what stands in no column that is asked for is passed over. */
function readTable<E>(
  argument: ArgumentDescription,
  raw: Given,
  system: UnitSystem,
  isError: (value: unknown) => value is E,
): TableArgument {
  if (!(raw instanceof GivenRange)) throw kindFault(argument, raw ?? undefined);
  const { cells, width } = raw;
  const heads = Array.from({ length: width }, (_, i) => headOf(cells[i]));
  const columns = (argument.columns ?? []).map((column) => ({
    ...column,
    at: heads.indexOf(column.heads),
  }));
  const lacks = columns.find(({ at, needed }) => needed === true && at < 0);
  if (lacks !== undefined) {
    throw new Fault({
      class: 'kind',
      argument: argument.name,
      got: NO_TABLE,
      quantity: 'text',
      takes: TAKES.table,
      hint: `No column is headed "${lacks.heads}". Begin the range at the line with the heads.`,
    });
  }
  const rows: Record<string, number | string>[] = [];
  for (let line = width; line < cells.length; line += width) {
    const row: Record<string, number | string> = {};
    for (const { heads: word, quantity, at } of columns) {
      const cell = at < 0 ? undefined : cells[line + at];
      if (isError(cell)) throw new Carried(cell);
      if (typeof cell === 'number') row[word] = usFromOwn(quantity, cell, system);
      else if (typeof cell === 'boolean') row[word] = String(cell).toUpperCase();
      else if (typeof cell === 'string' && cell.trim() !== '') row[word] = cell.trim();
    }
    if (Object.keys(row).length > 0) rows.push(row);
  }
  const found = columns.flatMap(({ heads: word, at }) => (at < 0 ? [] : [word]));
  return { heads: found, rows, units: system };
}

const NO_TABLE = 'a range of other cells';

const headOf = (cell: unknown): string =>
  typeof cell === 'string' ? cell.trim().replaceAll(/\s+/g, ' ').toLowerCase() : '';

const TAKES = {
  number: 'a number',
  text: 'words',
  either: 'a number or words',
  range: 'numbers, or empty cells',
  table: 'a range whose first line heads its columns',
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
