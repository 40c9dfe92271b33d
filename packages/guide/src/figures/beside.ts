/**
 * Middles of things in a row, each as near as can be to where it wants to be, in their order and without meeting; they
 * want to be in that order.
 * @param gap what stays free between two of them
 */
export function inRow(
  things: readonly { readonly wants: number; readonly size: number }[],
  [from, to]: readonly [from: number, to: number],
  gap: number,
): readonly number[] {
  const middles: number[] = [];
  let free = from;
  for (const { wants, size } of things) {
    const middle = Math.max(wants, free + size / 2);
    middles.push(middle);
    free = middle + size / 2 + gap;
  }
  let end = to;
  for (let i = things.length - 1; i >= 0; i -= 1) {
    const { size } = things[i] as { readonly size: number };
    middles[i] = Math.min(middles[i] as number, end - size / 2);
    end = (middles[i] as number) - size / 2 - gap;
  }
  return middles;
}

/** How much room things take in a row. */
export const roomOf = (sizes: readonly number[], gap: number): number =>
  sizes.reduce((sum, size) => sum + size, 0) + gap * Math.max(0, sizes.length - 1);
