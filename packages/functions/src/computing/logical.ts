import { SAYS } from './says.ts';
import { any, type Computing, type Family, logical, noError } from './takes.ts';
import { compared, Failure, fail, type Value } from './values.ts';

const none = (run: () => Value): Computing => ({ takes: [], run });
const asks = (run: (value: Value) => boolean): Computing => ({ takes: [any], run });
/** A function of all that is yes or no among its values. */
const ofAll = (run: (values: readonly boolean[]) => boolean): Computing => ({
  takes: [logical],
  again: 1,
  spread: true,
  run: (...values: (boolean | undefined)[]) => run(values.filter((one) => one !== undefined)),
});

function switched(chosen: Value, ...args: Value[]): Value {
  let i = 0;
  for (; i + 1 < args.length; i += 2) {
    const candidate = args[i] ?? null;
    if (candidate instanceof Failure || chosen instanceof Failure) continue;
    if (compared(chosen, candidate) === 0) return args[i + 1] ?? null;
  }
  return i < args.length ? (args[i] ?? null) : fail('NA', SAYS.noDefault);
}

function firstTrue(...args: (Value | undefined)[]): Value {
  for (let i = 0; i < args.length; i += 2) if (args[i] === true) return args[i + 1] ?? null;
  return fail('NA', SAYS.noCondition);
}

/** What is true or false, which of several, and what kind a value is of. */
export const LOGICAL: Family = {
  TRUE: none(() => true),
  FALSE: none(() => false),
  NOT: { takes: [logical], run: (value: boolean) => !value },
  AND: ofAll((values) => values.every((one) => one)),
  OR: ofAll((values) => values.some((one) => one)),
  XOR: ofAll((values) => values.filter((one) => one).length % 2 === 1),
  IF: {
    takes: [logical, any, { as: 'any', leftOut: false }],
    run: (holds: boolean, then: Value, otherwise: Value) => (holds ? then : otherwise),
  },
  IFERROR: {
    takes: [any, any],
    run: (value: Value, other: Value) => (value instanceof Failure ? other : value),
  },
  IFNA: {
    takes: [any, any],
    run: (value: Value, other: Value) =>
      value instanceof Failure && value.type === 'NA' ? other : value,
  },
  IFS: { takes: [logical, any], again: 2, run: firstTrue },
  SWITCH: { takes: [noError, any, any], again: 1, run: switched },
  CHOOSE: {
    takes: [{ as: 'number', whole: true, least: 1 }, any],
    again: 1,
    run: (which: number, ...args: Value[]) =>
      which > args.length ? fail('NUM', SAYS.selector) : (args[which - 1] ?? null),
  },
  ISNUMBER: asks((value) => typeof value === 'number'),
  ISTEXT: asks((value) => typeof value === 'string'),
  ISNONTEXT: asks((value) => typeof value !== 'string'),
  ISLOGICAL: asks((value) => typeof value === 'boolean'),
  ISBLANK: asks((value) => value === null),
  ISERROR: asks((value) => value instanceof Failure),
  ISERR: asks((value) => value instanceof Failure && value.type !== 'NA'),
  ISNA: asks((value) => value instanceof Failure && value.type === 'NA'),
  ISREF: {
    takes: [any],
    once: true,
    run: (value: Value) =>
      value instanceof Failure && (value.type === 'REF' || value.type === 'CYCLE'),
  },
  N: {
    // Of several values HyperFormula takes the first, but not where it is a percentage, an amount or a date.
    takes: [any],
    once: true,
    run: (value: Value) => {
      if (typeof value === 'number' || value instanceof Failure) return value;
      return value === true ? 1 : 0;
    },
  },
  T: {
    takes: [any],
    run: (value: Value) => (value instanceof Failure || typeof value === 'string' ? value : ''),
  },
};
