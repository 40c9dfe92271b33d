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
  /** Its texts are in its second language, as far as it has words for it. */
  readonly inSecond: boolean;
}

/**
 * Reads the plan that others build from.
 * @param inSecond true: in the workbook's second language, as far as it has words for it
 * @param translation what its words are called there; as its table says where left out
 */
export function readPlan(
  source: GuideSource,
  inSecond = false,
  translation: Translation | undefined = readTranslation(source),
): Plan {
  const say = inSecond ? translation?.say : undefined;
  const parts = readParts(source);
  const reading = readSteps(source, say);
  const { steps, problems } = builtSteps(reading, parts);
  // Sentences of the program have them in their midst.
  translation?.know([
    ...parts.none,
    ...parts.parts.flatMap(({ name, material = '' }) => [name, material, capital(material)]),
  ]);
  translation?.know(
    steps.flatMap(({ measures }) => measures.map(({ label }) => label)),
    true,
  );
  if (inSecond && translation !== undefined) {
    for (const { name, material = '', panelBoards } of parts.parts) {
      // Where it begins a line.
      if (translation.has(material)) {
        translation.knowAs(capital(material), capital(translation.say(material)));
      }
      for (const what of panelBoards === undefined ? [] : PIECES) {
        translation.knowAs(
          `${name}, ${what}`,
          `${translation.say(name)}, ${translation.say(what)}`,
        );
      }
    }
  }
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
  return { found: reading.found, steps, parts, problems: all, translation, inSecond };
}

/** What the pieces of a panel are called on the bench, behind its name. */
const PIECES = ['board', 'layer', 'board of a layer'] as const;

const capital = (words: string): string => words.slice(0, 1).toUpperCase() + words.slice(1);
