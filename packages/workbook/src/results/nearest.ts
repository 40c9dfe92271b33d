import { editDistance } from '@kerfbook/wood';

/** The known word nearest to a misspelt one, when it is near enough to be meant. */
export function nearest(word: string, known: readonly string[]): string | undefined {
  const wanted = word.toLowerCase();
  let best: string | undefined;
  let least = Math.max(1, Math.floor(wanted.length / 3)) + 1;
  for (const candidate of known) {
    if (Math.abs(candidate.length - wanted.length) >= least) continue;
    const distance = editDistance(wanted, candidate.toLowerCase());
    if (distance < least) {
      least = distance;
      best = candidate;
    }
  }
  return best;
}
