/**
 * How often a random test runs: `runs` in `npm test`, as many times that as KERFBOOK_TIMES says in
 * `npm run test:long`.
 */
export function times(runs: number): number {
  const factor = Number(process.env.KERFBOOK_TIMES ?? '1');
  if (!Number.isInteger(factor) || factor < 1) {
    throw new Error(
      `KERFBOOK_TIMES is a whole number from 1 on, not "${process.env.KERFBOOK_TIMES}".`,
    );
  }
  return runs * factor;
}

/** Milliseconds that a random test may take in all: room for a slow machine, more for more runs. */
export function patience(milliseconds: number): number {
  return times(milliseconds);
}
