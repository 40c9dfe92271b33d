import { type PartProblem, type PartsReading, readParts } from '@kerfbook/drawing';
import type { GuideSource } from './source.ts';
import { type BuiltStep, builtSteps, cautionProblems } from './steps/built.ts';
import { readSteps } from './steps/read-steps.ts';
import { readTranslation, type Translation } from './words/second-language.ts';

/** The steps of a workbook at the size it has now, with all that is known against them. */
export interface Plan {
  /** False: the workbook has no steps table. */
  readonly found: boolean;
  /** Those that are done at this size, in their order. */
  readonly steps: readonly BuiltStep[];
  /** What the parts table says. */
  readonly parts: PartsReading;
  /** What its maker should look at, each at its cell, each once. */
  readonly problems: readonly PartProblem[];
  /** What its words are called in a second language; undefined where it has no such table. */
  readonly translation: Translation | undefined;
}

/**
 * Reads the plan that others build from.
 * @param inSecond true: in the workbook's second language, as far as it has words for it
 */
export function readPlan(source: GuideSource, inSecond = false): Plan {
  const translation = readTranslation(source);
  const say = inSecond ? translation?.say : undefined;
  const reading = readSteps(source, say);
  const parts = readParts(source);
  const { steps, problems } = builtSteps(reading, parts);
  const seen = new Set<string>();
  const all = [
    ...reading.problems,
    ...problems,
    ...cautionProblems(reading.steps),
    ...(translation?.problems ?? []),
  ].filter(({ at, says }) => {
    const key = `${at.sheet} ${at.row} ${at.column} ${says}`;
    return !seen.has(key) && seen.add(key) !== undefined;
  });
  return { found: reading.found, steps, parts, problems: all, translation };
}
