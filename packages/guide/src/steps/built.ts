import type { Part, PartProblem, PartsReading } from '@kerfbook/drawing';
import { plainText } from '../text/runs.ts';
import type { Step, StepsReading } from './read-steps.ts';

const keyOf = (name: string): string => name.trim().toLowerCase().replaceAll(/\s+/g, ' ');

/**
 * The parts that a step builds, by their names. A name may hold a comma, as `Apron, long` does: words that are no part
 * by themselves are tried with those after them.
 */
export function partsNamed(
  names: readonly string[],
  parts: ReadonlyMap<string, readonly Part[]>,
): { readonly parts: readonly Part[]; readonly unknown: readonly string[] } {
  const found: Part[] = [];
  const unknown: string[] = [];
  for (let at = 0; at < names.length; ) {
    const end = longestFrom(names, at, (name) => parts.has(keyOf(name)));
    if (end === undefined) {
      unknown.push(names[at] ?? '');
      at += 1;
      continue;
    }
    found.push(...(parts.get(keyOf(names.slice(at, end).join(', '))) ?? []));
    at = end;
  }
  return { parts: found, unknown };
}

function longestFrom(
  names: readonly string[],
  at: number,
  isKnown: (name: string) => boolean,
): number | undefined {
  for (let end = names.length; end > at; end -= 1) {
    if (isKnown(names.slice(at, end).join(', '))) return end;
  }
  return undefined;
}

/** Parts of a workbook by their names, and names of which none are made at this size. */
export function partsByName({
  parts,
  none,
}: Pick<PartsReading, 'parts' | 'none'>): ReadonlyMap<string, readonly Part[]> {
  const named = new Map<string, readonly Part[]>(none.map((name) => [keyOf(name), []]));
  for (const part of parts) {
    const key = keyOf(part.name);
    named.set(key, [...(named.get(key) ?? []), part]);
  }
  return named;
}

/** A step with the parts that are made or put on in it. */
export interface BuiltStep extends Step {
  /** Rows of the parts table; none of them is in another step too. */
  readonly parts: readonly Part[];
}

/** Steps with their parts, and what does not go together: a part never built, or built twice. */
export function builtSteps(
  reading: StepsReading,
  parts: PartsReading,
): { readonly steps: readonly BuiltStep[]; readonly problems: readonly PartProblem[] } {
  const named = partsByName(parts);
  const problems: PartProblem[] = [];
  const built = new Map<Part, Step>();
  const steps = reading.steps.map((step): BuiltStep => {
    const { parts: of, unknown } = partsNamed(step.builds, named);
    for (const name of unknown) {
      problems.push({
        at: step.at,
        says: `Step ${step.number} builds "${name}", and the parts table has no such part. Write its name as it stands there.`,
      });
    }
    for (const part of of) {
      const before = built.get(part);
      if (before === undefined) built.set(part, step);
      else {
        problems.push({
          at: step.at,
          says: `${part.name} is built in step ${before.number} and again in step ${step.number}. Take it out of one of them.`,
        });
      }
    }
    return {
      ...step,
      parts: of.filter((part, i) => built.get(part) === step && of.indexOf(part) === i),
    };
  });
  if (reading.found && reading.rows > 0) {
    for (const part of parts.parts) {
      if (built.has(part)) continue;
      problems.push({
        at: part.at,
        says: `${part.name} is built in no step. Add it to "builds" of the step in which it is made or put on.`,
      });
    }
  }
  return { steps, problems };
}

/** Where fingers, lungs or a shop can be hurt: common practice, no source. */
const HURTS =
  /\b(?:(?:table|miter|mitre|band|circular|track|radial|jig)[ -]?saw|saw|router|jointer|planer|shaper|drum sander|finish|oil|varnish|lacquer|shellac|stain|paint|solvent)s?\b/i;

/** The first word of a step for what can hurt there; undefined where it speaks of none. */
export const hurtsIn = ({ tools, text }: Pick<Step, 'tools' | 'text'>): string | undefined =>
  HURTS.exec([tools.join(', '), ...text.map(plainText)].join(' '))?.[0].toLowerCase();

/** Steps that use a saw, another cutting machine or a finish and have no caution. */
export function cautionProblems(steps: readonly Step[]): readonly PartProblem[] {
  const told = new Set<number>();
  return steps.flatMap((step) => {
    if (step.caution !== undefined || told.has(step.at.row)) return [];
    const uses = hurtsIn(step);
    if (uses === undefined) return [];
    told.add(step.at.row);
    return [
      {
        at: step.at,
        says: `Step ${step.number} speaks of "${uses}" and has no caution. Say what can hurt there, and what prevents it.`,
      },
    ];
  });
}
