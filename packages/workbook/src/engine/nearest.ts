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

/** Letters to insert, drop or change to make one word the other (Levenshtein). */
function editDistance(a: string, b: string): number {
  let above = Array.from({ length: b.length + 1 }, (_, i) => i);
  for (let i = 1; i <= a.length; i += 1) {
    const line = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const change = (above[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      line[j] = Math.min(change, (above[j] ?? 0) + 1, (line[j - 1] ?? 0) + 1);
    }
    above = line;
  }
  return above[b.length] ?? 0;
}
