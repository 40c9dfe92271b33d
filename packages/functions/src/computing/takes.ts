import type { Matrix } from './matrix.ts';
import { SAYS } from './says.ts';
import { fail, toLogical, toNumber, toText, type Value } from './values.ts';

/** One argument as it comes: a value, or values in rows and columns. */
export type Given = Value | Matrix;

/** What a function takes in one place. */
export interface Taken {
  /**
   * What a single value is made: `any` and `noError` leave it, errors go into `any` alone. `range` is always
   * a matrix, `either` one where several values come. Where a single value is taken and several come, the
   * function is asked for each of them.
   */
  readonly as: 'number' | 'text' | 'logical' | 'any' | 'noError' | 'range' | 'either';
  /** What it is where it is left out. */
  readonly leftOut?: Value;
  /** What is left out between two commas is left out too. */
  readonly emptyIsLeftOut?: true;
  /** It may be left out, and is nothing then. */
  readonly optional?: true;
  /** A number below it is refused. */
  readonly least?: number;
  /** A number above it is refused. */
  readonly most?: number;
  /** A number that is not above it is refused. */
  readonly above?: number;
  /** A number that is not below it is refused. */
  readonly below?: number;
  /** It has to be a whole number. */
  readonly whole?: true;
}

/** How many values there are beside and below each other. */
export interface Size {
  /** Beside each other. */
  readonly columns: number;
  /** Below each other. */
  readonly rows: number;
}

/** How a standard function is worked out, the same in every engine. */
export interface Computing {
  /** Its arguments, in order. */
  readonly takes: readonly Taken[];
  /** So many of the last arguments may come again and again. */
  readonly again?: number;
  /** Ranges are as many arguments as they have cells. Of these, what does not fit is nothing. */
  readonly spread?: true;
  /** It is not asked for each of several values where one is taken. */
  readonly once?: true;
  /**
   * How many values come of arguments of these sizes, where it is not one for each; `written` has the
   * numbers that are written out in their places. Nothing where that is not told beforehand.
   */
  readonly size?: (
    given: readonly Size[],
    written: readonly (number | undefined)[],
  ) => Size | undefined;
  /**
   * Empty cells behind the used ones change nothing, so that whole columns and rows may be given: `any` of
   * them, columns or rows alone, several that are `alike`; `counted` where the condition is one that no
   * empty cell meets.
   */
  readonly whole?: 'any' | 'columns' | 'rows' | 'alike' | 'counted';
  /** There may be fewer values than `size` says. */
  readonly varies?: true;
  /** It comes to something else each time it is asked: the day, a number by chance. */
  readonly changes?: true;
  /** Arguments are what `takes` says, or nothing where they are left out. */
  readonly run: (...args: never[]) => Given;
}

/** What functions need of those who ask them. */
export interface Aids {
  /** Counts steps before they are taken; throws where these are too many. */
  spend(steps: number): void;
  /** The longest text a cell holds. */
  readonly longest: number;
  /** What is said of a text that is longer. */
  readonly tooLong: string;
  /** What is said of a number that is outside what a function takes. */
  readonly outside: string;
  /** What is said of a division by zero. */
  readonly divides: string;
  /** What is said of a value and a step of different signs. */
  readonly signs: string;
  /** What is said of something that is looked for and not there. */
  readonly missing: string;
  /** What is said of too many or too few arguments. */
  readonly wrongCount: string;
  /** What is said while a library is still on its way. */
  readonly loading: string;
}

export type Family = Readonly<Record<string, Computing>>;

export const number: Taken = { as: 'number' };
export const text: Taken = { as: 'text' };
export const logical: Taken = { as: 'logical' };
export const any: Taken = { as: 'any' };
export const noError: Taken = { as: 'noError' };
export const range: Taken = { as: 'range' };
export const either: Taken = { as: 'either' };
export const whole: Taken = { as: 'number', whole: true };
export const least = (bound: number): Taken => ({ as: 'number', least: bound });

/** A function of so many numbers. */
export const numbers = (count: number, run: (...numbers: number[]) => Value): Computing => ({
  takes: Array.from({ length: count }, () => number),
  run,
});

/** Another name for the same. */
export const alike = (family: Family, names: Readonly<Record<string, string>>): Family =>
  Object.fromEntries(
    Object.entries(names).map(([name, as]) => [name, family[as] as Computing] as const),
  );

/** A single value as a function takes it; nothing where it cannot be that. */
export function taken(value: Value, take: Taken): Value | undefined {
  switch (take.as) {
    case 'number': {
      const given = toNumber(value);
      return typeof given === 'number' ? within(given, take) : given;
    }
    case 'text':
      return toText(value);
    case 'logical':
      return toLogical(value);
    default:
      return value;
  }
}

function within(given: number, { least, most, above, below, whole: only }: Taken): Value {
  if (most !== undefined && given > most) return fail('NUM', SAYS.tooLarge);
  if (least !== undefined && given < least) return fail('NUM', SAYS.tooSmall);
  if (below !== undefined && given >= below) return fail('NUM', SAYS.tooLarge);
  if (above !== undefined && given <= above) return fail('NUM', SAYS.tooSmall);
  if (only && !Number.isInteger(given)) return fail('NUM', SAYS.whole);
  return given;
}
