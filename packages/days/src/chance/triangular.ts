/**
 * A number of a triangular distribution: least, likely and most, and nothing known beyond that.
 * @param share where it stands among all, from 0 to 1 (the inverse of the cumulative distribution)
 */
export function triangular(
  {
    least,
    likely,
    most,
  }: { readonly least: number; readonly likely: number; readonly most: number },
  share: number,
): number {
  const wide = most - least;
  if (!(wide > 0)) return likely;
  const turn = (likely - least) / wide;
  return share < turn
    ? least + Math.sqrt(share * wide * (likely - least))
    : most - Math.sqrt((1 - share) * wide * (most - likely));
}
