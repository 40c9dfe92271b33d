import type { Format, Part } from '@kerfbook/drawing';
import type { GuideSource } from '../source.ts';
import type { BuiltStep } from '../steps/built.ts';
import { asMakersWrite } from '../text/as-written.ts';

/** `Long apron × 2` */
export const partCounted = ({ name, count }: Pick<Part, 'name' | 'count'>): string =>
  count === 1 ? name : `${name} × ${count}`;

/** Lengths as they stand in a sentence, without a unit. */
export const writer =
  (format: Format): Format =>
  (mm) =>
    asMakersWrite(format(mm));

/** The unit that a workbook writes lengths in. */
export const unitOf = ({ units }: Pick<GuideSource, 'units'>): string =>
  units === 'us' ? 'in' : 'mm';

/** More parts than these are told by their number alone. */
const MOST_LINES = 14;

/** `Long apron × 2: 3/4 × 4 1/2 × 66 in`, a line for each part, and then the sizes that a step asks for. */
export function sizeLines(source: GuideSource, step: BuiltStep, format: Format): readonly string[] {
  const write = writer(format);
  const unit = unitOf(source);
  const parts = step.parts.slice(0, MOST_LINES).map((part) => {
    const sizes = [part.thickness, part.width, part.length].map(write).join(' × ');
    return `${partCounted(part)}: ${sizes} ${unit}`;
  });
  const more = step.parts.length - parts.length;
  return [
    ...parts,
    ...(more > 0 ? [`And ${more} more ${more === 1 ? 'part' : 'parts'} of the cut list.`] : []),
    ...measureLines(step),
  ];
}

/** The sizes that a step asks for, a line each. */
export const measureLines = ({ measures }: Pick<BuiltStep, 'measures'>): readonly string[] =>
  measures.flatMap(({ label, words, isTold }) => (isTold === true ? [] : [`${label}: ${words}`]));
