import type { ArgumentDescription } from './describe.ts';
import type { Quantity } from './quantity.ts';

/** A number argument of some quantity. */
export function numberOf(quantity: Quantity, name: string, means: string): ArgumentDescription {
  return { name, means, takes: 'number', quantity };
}

export const lengthOf = (name: string, means: string): ArgumentDescription =>
  numberOf('length', name, means);

export const countOf = (name: string, means: string): ArgumentDescription =>
  numberOf('count', name, means);

export const textOf = (name: string, means: string): ArgumentDescription => ({
  name,
  means,
  takes: 'text',
  quantity: 'text',
});

/** Cells of one quantity, given together. */
export const rangeOf = (quantity: Quantity, name: string, means: string): ArgumentDescription => ({
  name,
  means,
  takes: 'range',
  quantity,
});

/** The same argument, which may be left out; `leftOut` says in words what it then counts as. */
export function optional(argument: ArgumentDescription, leftOut: string): ArgumentDescription {
  return { ...argument, optional: true, leftOut };
}
