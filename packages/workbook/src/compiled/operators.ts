import type { BinarySign } from '@kerfbook/document';
import type { Closure } from './closure.ts';
import {
  added,
  compared,
  Failure,
  finished,
  settled,
  subtracted,
  toNumber,
  toText,
  type Value,
} from './values.ts';

/** One value with a sign before or after it. */
export function signed(sign: '+' | '-' | '%', of: Closure): Closure {
  if (sign === '+') return (frame) => settled(of(frame));
  return (frame) => {
    const value = toNumber(of(frame));
    if (typeof value !== 'number') return value;
    return finished(sign === '-' ? -value : value / 100);
  };
}

type Arithmetic = (left: number, right: number) => number | Failure;

const ARITHMETIC: Partial<Record<BinarySign, Arithmetic>> = {
  '+': added,
  '-': subtracted,
  '*': (left, right) => left * right,
  '/': (left, right) => (right === 0 ? new Failure('DIV_BY_ZERO') : left / right),
  '^': (left, right) => left ** right,
};

const ORDER: Partial<Record<BinarySign, (order: number) => boolean>> = {
  '=': (order) => order === 0,
  '<>': (order) => order !== 0,
  '<': (order) => order < 0,
  '>': (order) => order > 0,
  '<=': (order) => order <= 0,
  '>=': (order) => order >= 0,
};

/** Two values with a sign between them. */
export function joinedBy(sign: BinarySign, left: Closure, right: Closure): Closure {
  const order = ORDER[sign];
  if (order !== undefined) {
    return (frame) => {
      const [a, b] = [left(frame), right(frame)];
      if (a instanceof Failure) return a;
      return b instanceof Failure ? b : order(compared(a, b));
    };
  }
  const arithmetic = ARITHMETIC[sign];
  return arithmetic === undefined ? together(left, right) : worked(arithmetic, left, right);
}

function together(left: Closure, right: Closure): Closure {
  return (frame) => {
    const [a, b] = [toText(left(frame)), toText(right(frame))];
    if (a instanceof Failure) return a;
    return b instanceof Failure ? b : a + b;
  };
}

function worked(arithmetic: Arithmetic, left: Closure, right: Closure): Closure {
  return (frame) => {
    const [a, b] = [left(frame), right(frame)];
    if (typeof a === 'number' && typeof b === 'number') {
      const result = arithmetic(a, b);
      return typeof result === 'number' ? finished(result) : result;
    }
    // An error that comes along counts before words that are no number.
    if (a instanceof Failure) return a;
    if (b instanceof Failure) return b;
    const [x, y] = [toNumber(a), toNumber(b)];
    if (typeof x !== 'number') return x;
    if (typeof y !== 'number') return y;
    const result = arithmetic(x, y);
    return typeof result === 'number' ? finished(result) : result;
  };
}

/**
 * The same for one of several values. What is too large stays so until it is a single value, and words that
 * are no number come before an error behind the sign.
 */
export function elementOf(sign: BinarySign): (left: Value, right: Value) => Value {
  const order = ORDER[sign];
  if (order !== undefined) {
    return (a, b) => {
      if (a instanceof Failure) return a;
      return b instanceof Failure ? b : order(compared(a, b));
    };
  }
  const arithmetic = ARITHMETIC[sign];
  if (arithmetic === undefined) {
    return (a, b) => {
      const [x, y] = [toText(a), toText(b)];
      if (x instanceof Failure) return x;
      return y instanceof Failure ? y : x + y;
    };
  }
  return (a, b) => {
    const [x, y] = [toNumber(a), toNumber(b)];
    if (typeof x !== 'number') return x;
    return typeof y === 'number' ? arithmetic(x, y) : y;
  };
}
