import type { Format } from '../units.ts';
import type { CutItem } from './cut-list.ts';

/** A line of a cut list that another one has otherwise, or not at all. */
export interface PartDiffers {
  /** As it is called on the bench. */
  readonly name: string;
  /** `4 of 3/4 × 3 1/2 × 60, white oak`; left out where it is not there before. */
  readonly before?: string;
  /** The same as it is then; left out where it is not there any more. */
  readonly after?: string;
}

/** What of the lines of two cut lists differs, as it is written; the lines of one name stand for each other in their order. */
export function partsDiffer(
  before: readonly CutItem[],
  after: readonly CutItem[],
  format: Format,
): readonly PartDiffers[] {
  const [was, is] = [wordsOf(before, format), wordsOf(after, format)];
  const keys = new Set([...was.keys(), ...is.keys()]);
  return [...keys].flatMap((key): PartDiffers[] => {
    const [one, other] = [was.get(key), is.get(key)];
    if (one?.says === other?.says) return [];
    return [
      {
        name: one?.name ?? other?.name ?? '',
        ...(one === undefined ? {} : { before: one.says }),
        ...(other === undefined ? {} : { after: other.says }),
      },
    ];
  });
}

interface Line {
  readonly name: string;
  readonly says: string;
}

function wordsOf(items: readonly CutItem[], format: Format): ReadonlyMap<string, Line> {
  const lines = new Map<string, Line>();
  for (const { name, count, thickness, width, length, material } of items) {
    const called = name.trim().toLowerCase();
    let key = `${called} 1`;
    for (let nth = 2; lines.has(key); nth += 1) key = `${called} ${nth}`;
    const size = [thickness, width, length].map(format).join(' × ');
    lines.set(key, {
      name,
      says: `${count} of ${size}${material === '' ? '' : `, ${material}`}`,
    });
  }
  return lines;
}
