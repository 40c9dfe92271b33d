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

/**
 * The seed of a random test in `npm test`: always the same, so that a red run comes of a change and not
 * of chance. The long run searches with a new one each time, which fast-check prints with what it finds.
 */
export function seedOf(fixed: number): { readonly seed?: number } {
  return times(1) === 1 ? { seed: fixed } : {};
}
