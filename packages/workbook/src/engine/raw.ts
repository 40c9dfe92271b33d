import { DetailedCellError } from 'hyperformula';

/** Whether two values that the engine hands out are one: errors are when all of them is. */
export function sameRaw(a: unknown, b: unknown): boolean {
  if (a instanceof DetailedCellError && b instanceof DetailedCellError) {
    return a.type === b.type && a.message === b.message && a.address === b.address;
  }
  return Object.is(a, b);
}
