import type { Part } from '@kerfbook/drawing';
import { type BuiltStep, partsByName, partsNamed } from '../steps/built.ts';
import type { Stage } from './stage.ts';

/**
 * The part that a figure is about: the one that stands behind its word, else one that its step builds, else the first
 * of the workbook that is called so.
 */
export function partOf(
  { plan }: Stage,
  { figure, parts }: BuiltStep,
  called: RegExp,
  will: (part: Part) => boolean = () => true,
): Part | undefined {
  const all = plan.parts.parts;
  if (figure.of !== undefined) {
    const named = partsNamed(
      figure.of.split(',').map((one) => one.trim()),
      partsByName(plan.parts),
    ).parts;
    const found = named.find(will);
    if (found !== undefined) return found;
  }
  const own = parts.filter(will);
  return (
    own.find(({ name }) => called.test(name)) ??
    own[0] ??
    all.find((part) => will(part) && called.test(part.name))
  );
}
