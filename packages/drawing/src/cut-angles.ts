import { madePiece, sideOf } from '@kerfbook/functions/shaped';
import type { Side } from '@kerfbook/wood';
import type { Part } from './parts.ts';

/** How the saw is set for an end that is not square. */
export interface CutAngle {
  /** Where the end is as the part stands. */
  readonly end: Side;
  /** Degrees of the miter gauge away from square. */
  readonly mitre: number;
  /** Degrees the blade leans. */
  readonly bevel: number;
  /** In words: `miter 4.9°, bevel 4.9°`. */
  readonly says: string;
  /** Some of the row's pieces are cut the other way around. */
  readonly isMirrored: boolean;
}

/** No more pieces differ in how their ends are cut: to each side of the middle, along and across. */
const MOST_LOOKED_AT = 8;

/** How the ends of a part are sawn, as far as they are not square; empty where both are. */
export function cutAngles(part: Part): readonly CutAngle[] {
  const { placing, count } = part;
  const copies = placing === undefined ? 1 : Math.min(count, MOST_LOOKED_AT);
  const settings = Array.from(
    { length: copies },
    (_, copy) => madePiece(part, placing, copy, String)?.ends ?? {},
  );
  return (['start', 'end'] as const).flatMap((end) => {
    const all = settings.flatMap((ends) => ends[end] ?? []);
    const [first] = all;
    if (first === undefined) return [];
    const [mitre, bevel] = [Math.abs(first.mitre), Math.abs(first.bevel)];
    const isMirrored = all.some((one) => one.mitre !== first.mitre || one.bevel !== first.bevel);
    return [
      {
        end: sideOf(placing?.turn ?? 'LWT', end),
        mitre,
        bevel,
        says: inWords(mitre, bevel),
        isMirrored,
      },
    ];
  });
}

/** Tenths of a degree: finer than a saw is set. */
const tenths = (degrees: number): number => Math.round(degrees * 10) / 10;

function inWords(mitre: number, bevel: number): string {
  const said = [
    ...(tenths(mitre) === 0 ? [] : [`miter ${tenths(mitre)}°`]),
    ...(tenths(bevel) === 0 ? [] : [`bevel ${tenths(bevel)}°`]),
  ];
  return said.length === 0 ? 'square' : said.join(', ');
}
