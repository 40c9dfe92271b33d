import { DEFAULT_EYE } from '@kerfbook/drawing';
import { type Making, makingOf } from './page/making.ts';
import { PAGE_WORDS } from './page/page-words.ts';
import { sectionsOf } from './page/sections.ts';
import { READERS_WORDS } from './readers/reader-words.ts';
import { checksKept } from './readers-book.ts';
import type { GuideSource } from './source.ts';
import { stepTexts } from './steps/read-steps.ts';
import { translationOf } from './words/second-language.ts';

/** What a plan needs to be read in its second language. */
export interface WordsWanted {
  /** All that readers read of it, each once, in the order in which they come to it. */
  readonly all: readonly string[];
  /** What of it has no words yet. */
  readonly missing: readonly string[];
  /** What of it has no row in the table of words yet. */
  readonly rowless: readonly string[];
}

/**
 * All that readers read of a plan, and what of it is not said in its second language: what the maker wrote, the words of the
 * page and of its figures, and sentences of checks. Sentences that are made with sizes and parts in them have places for
 * those, so that one translation serves every size; those that only come at another size are not among them.
 */
export function wordsWanted(source: GuideSource & Choosing): WordsWanted {
  const translation = translationOf(source);
  // Where from does not matter to words, and looking for the best place takes long.
  const options = { second: true, ticks: true, eye: DEFAULT_EYE };
  const making = makingOf(source, options, translation);
  sectionsOf(making);
  for (const words of beside(source, making)) translation.say(words);
  const [all, missing] = [translation.asked(), translation.missing()];
  return { all, missing, rowless: missing.filter((words) => !translation.rows.has(words)) };
}

/** What an input with a list takes. */
interface Choosing {
  choices(at: {
    sheet: string;
    row: number;
    column: number;
  }): readonly { readonly text: string }[] | undefined;
}

/** What is not in the guide at this size, and what stands around it. */
function beside(source: GuideSource & Choosing, { plan }: Making): readonly string[] {
  const { guide = {}, photos = {}, results = [] } = source.head;
  const document = source.document();
  const kept = new Set(checksKept(document).map(({ id }) => id));
  const inputs = (guide.inputs ?? []).flatMap((name) => source.named(name) ?? []);
  const shown = results.flatMap((name) => source.named(name) ?? []);
  return [
    ...stepTexts(source),
    ...plan.parts.parts.flatMap(({ name, material }) => [name, material ?? []].flat()),
    ...Object.values(photos).flatMap(({ says }) => says ?? []),
    ...inputs.flatMap(({ at }) => [
      source.labelOf(at),
      ...(source.choices(at) ?? []).map(({ text }) => text),
    ]),
    ...shown.map(({ at }) => source.labelOf(at)),
    ...document.checks.filter(({ id }) => !kept.has(id)).map(({ says }) => says),
    ...PAGE_WORDS,
    ...READERS_WORDS,
  ];
}
