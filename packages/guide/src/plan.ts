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
export function readPlan(source: GuideSource, inSecond = false, translation?: Translation): Plan {
  return new ReadPlan(source, inSecond, translation);
}

/** Each of it is read when it is first asked for: a page that follows a pulled number draws but what is in sight. */
class ReadPlan implements Plan {
  readonly #source: GuideSource;
  readonly inSecond: boolean;
  #built: Pick<Plan, 'found' | 'steps' | 'problems'> | undefined;
  #parts: PartsReading | undefined;
  #translation: { readonly is: Translation | undefined } | undefined;

  constructor(source: GuideSource, inSecond: boolean, translation: Translation | undefined) {
    this.#source = source;
    this.inSecond = inSecond;
    if (translation !== undefined) this.#translation = { is: translation };
  }

  get parts(): PartsReading {
    this.#parts ??= readParts(this.#source);
    return this.#parts;
  }

  get translation(): Translation | undefined {
    // It is told the names of parts and sizes, which it finds in the midst of sentences.
    if (this.inSecond) this.#read();
    return this.#words();
  }

  get found(): boolean {
    return this.#read().found;
  }

  get steps(): readonly BuiltStep[] {
    return this.#read().steps;
  }

  get problems(): readonly PartProblem[] {
    return this.#read().problems;
  }

  #read(): Pick<Plan, 'found' | 'steps' | 'problems'> {
    this.#built ??= this.#readSteps();
    return this.#built;
  }

  #words(): Translation | undefined {
    this.#translation ??= { is: readTranslation(this.#source) };
    return this.#translation.is;
  }

  #readSteps(): Pick<Plan, 'found' | 'steps' | 'problems'> {
    const { parts } = this;
    const translation = this.#words();
    const reading = readSteps(this.#source, this.inSecond ? translation?.say : undefined);
    const { steps, problems } = builtSteps(reading, parts);
    if (translation !== undefined) tellNames(translation, parts, steps, this.inSecond);
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
    return { found: reading.found, steps, problems: all };
  }
}

/** Sentences of the program have names of parts and sizes in their midst. */
function tellNames(
  translation: Translation,
  parts: PartsReading,
  steps: readonly BuiltStep[],
  inSecond: boolean,
): void {
  translation.know([
    ...parts.none,
    ...parts.parts.flatMap(({ name, material = '' }) => [name, material, capital(material)]),
  ]);
  translation.know(
    steps.flatMap(({ measures }) => measures.map(({ label }) => label)),
    true,
  );
  if (!inSecond) return;
  for (const { name, material = '', panelBoards, layers = 1 } of parts.parts) {
    // Where it begins a line.
    if (translation.has(material)) {
      translation.knowAs(capital(material), capital(translation.say(material)));
    }
    for (const what of panelBoards === undefined && layers === 1 ? [] : PIECES) {
      translation.knowAs(`${name}, ${what}`, `${translation.say(name)}, ${translation.say(what)}`);
    }
  }
}

/** What the pieces of a panel, or of what is glued up in layers, are called on the bench, behind its name. */
const PIECES = ['board', 'layer', 'board of a layer'] as const;

const capital = (words: string): string => words.slice(0, 1).toUpperCase() + words.slice(1);
