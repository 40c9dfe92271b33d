import { shapeOf } from '@kerfbook/functions/shaped';
import { cornerOf } from '@kerfbook/wood';
import type { Part } from './parts.ts';
import { TOLERANCE } from './units.ts';

/** Which piece is meant where a part has few along an axis: its first, its last, and the one between. */
const ENDS = [
  ['left', 'right'],
  ['front', 'back'],
  ['lower', 'upper'],
] as const;

/** Where one counts from where there are more of them. */
const FROM = ['left', 'front', 'bottom'] as const;

type AxisOf = 0 | 1 | 2;

/**
 * Which piece of a part each is, by where it stands as the maker faces the front: `front left`, `2nd from the left`.
 * @returns one for each copy; undefined for a part of one, and where no words tell its pieces apart
 */
export function pieceWords({
  count,
  placing,
}: Pick<Part, 'count' | 'placing'>): readonly string[] | undefined {
  if (placing === undefined || count === 1) return undefined;
  const corners = Array.from({ length: count }, (_, copy) => cornerOf(placing, copy));
  const levels = ([0, 1, 2] as const).map((axis) => levelsOf(corners.map((at) => at[axis])));
  const many = (axis: AxisOf): number => new Set(levels[axis]).size;
  const axes: readonly AxisOf[] = [2, 1, 0];
  const alone = ([0, 1, 2] as const).find((axis) => many(axis) === count);
  const told = alone === undefined ? axes.filter((axis) => many(axis) > 1) : [alone];
  const words = corners.map((_, copy) =>
    told
      .map((axis) => wordOf(axis, levels[axis]?.[copy] ?? 0, many(axis)))
      .reduce((said, word) => (said === '' ? word : joinedWords(said, word)), ''),
  );
  return new Set(words).size === count ? words : undefined;
}

/** At which of the places along an axis each stands, from 0. */
function levelsOf(at: readonly number[]): readonly number[] {
  const places: number[] = [];
  for (const one of [...at].sort((a, b) => a - b)) {
    if (one - (places.at(-1) ?? Number.NEGATIVE_INFINITY) > TOLERANCE) places.push(one);
  }
  return at.map((one) => places.findLastIndex((place) => place <= one));
}

function wordOf(axis: AxisOf, level: number, many: number): string {
  const [first, last] = ENDS[axis];
  if (level === 0) return first;
  if (level === many - 1) return last;
  return many === 3 ? 'middle' : `${ordinal(level + 1)} from the ${FROM[axis]}`;
}

const joinedWords = (said: string, word: string): string =>
  word.includes(' from ') || said.includes(' from ') ? `${said}, ${word}` : `${said} ${word}`;

/** 2nd, 3rd, 4th, 11th, 22nd. */
function ordinal(number: number): string {
  const [tens, ones] = [Math.floor(number / 10) % 10, number % 10];
  return `${number}${(tens === 1 ? undefined : ['th', 'st', 'nd', 'rd'][ones]) ?? 'th'}`;
}

/** Whether pieces of a part are shaped or joined otherwise than others of it: then it matters which is which. */
export function piecesDiffer(part: Part): boolean {
  const [first, ...others] = Array.from({ length: part.count }, (_, copy) =>
    roundedKey([shapeOf(part, part.placing, copy).shape, part.cuts?.[copy] ?? []]),
  );
  return others.some((one) => one !== first);
}

/** Sizes that people choose have few decimals: rounded from here none lies where its last digits turn it over. */
const OFF = 0.137;

/** What is the same to a thousandth of a millimetre has the same key, whatever sums it came from. */
export const roundedKey = (plain: unknown): string =>
  JSON.stringify(plain, (_, value: unknown) =>
    typeof value === 'number' ? Math.round(value * 1000 + OFF) : value,
  );
