import type { Part } from '../parts.ts';
import type { Format } from '../units.ts';

/**
 * How long a part is between the shoulders of its tenons, mm: what has to fit between the pieces it is tenoned into.
 * @returns undefined where it has no tenon, where its shoulders are not square, and where its pieces differ
 */
export function shoulderLength({ length, cuts, count }: Part): number | undefined {
  const lengths = Array.from({ length: count }, (_, copy) => {
    const own = cuts?.[copy] ?? [];
    const tenons = own.flatMap((cut) => (cut.kind === 'tenon' ? [cut] : []));
    if (tenons.length === 0 || tenons.some(({ shoulder }) => shoulder !== undefined))
      return undefined;
    const at = (end: 'start' | 'end'): number =>
      Math.max(0, ...tenons.flatMap((one) => (one.end === end ? [one.length] : [])));
    return length - at('start') - at('end');
  });
  const [first] = lengths;
  const isAlike = lengths.every(
    (one) => one !== undefined && first !== undefined && Math.abs(one - first) <= SAME,
  );
  return isAlike ? first : undefined;
}

/** Nearer than this two lengths are one, mm. */
const SAME = 1e-3;

/** Both lengths of a tenoned part, which are easily taken for each other: `59 between shoulders, 62 with tenons`. */
export const shouldersSaid = (shoulders: number, length: number, format: Format): string =>
  `${format(shoulders)} between shoulders, ${format(length)} with tenons`;
