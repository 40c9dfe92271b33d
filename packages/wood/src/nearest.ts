import { Fault } from './fault.ts';
import type { Guarded } from './guards.ts';

/** Letters to insert, drop or change to make one word the other (Levenshtein distance). */
export function editDistance(from: string, to: string): number {
  let above = Array.from({ length: to.length + 1 }, (_, i) => i);
  for (let i = 1; i <= from.length; i += 1) {
    const line = [i];
    for (let j = 1; j <= to.length; j += 1) {
      const changed = (above[j - 1] ?? 0) + (from[i - 1] === to[j - 1] ? 0 : 1);
      line[j] = Math.min(changed, (above[j] ?? 0) + 1, (line[j - 1] ?? 0) + 1);
    }
    above = line;
  }
  return above[to.length] ?? 0;
}

/** The `most` known names nearest to a word, nearest first; the order given settles a tie. */
export function nearestNames(word: string, known: readonly string[], most = 3): readonly string[] {
  // A cell can hold a novel; only the start of it can resemble a name.
  const wanted = word.slice(0, 60).toLowerCase();
  return known
    .map((name, place) => ({ name, place, away: editDistance(wanted, name.toLowerCase()) }))
    .sort((a, b) => a.away - b.away || a.place - b.place)
    .slice(0, most)
    .map(({ name }) => name);
}

/** The fault for a text that names nothing in a table, with the nearest names that do. */
export function notKnown(
  argument: Guarded,
  asked: string,
  takes: string,
  names: readonly string[],
  problem?: string,
): Fault {
  return new Fault({
    class: 'unknown',
    argument: argument.name,
    got: asked,
    quantity: 'text',
    takes,
    hint: `Nearest: ${nearestNames(asked, names)
      .map((name) => `"${name}"`)
      .join(', ')}.`,
    ...(problem === undefined ? {} : { problem }),
  });
}
