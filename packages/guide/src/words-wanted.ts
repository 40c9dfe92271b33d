import { DEFAULT_EYE, type ShopPlan, shopPlan } from '@kerfbook/drawing';
import { type Choosing, otherSizes } from './other-sizes.ts';
import { type Making, makingOf } from './page/making.ts';
import { GUIDE_PARTS, type GuidePart } from './page/options.ts';
import { PAGE_WORDS } from './page/page-words.ts';
import { sectionsOf } from './page/sections.ts';
import { READERS_WORDS } from './readers/reader-words.ts';
import { checksKept } from './readers-book.ts';
import type { GuideSource } from './source.ts';
import { stepTexts } from './steps/read-steps.ts';
import { type Translation, translationOf } from './words/second-language.ts';

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
 * those, so that one translation serves every size. Those that come at another size ({@link otherSizes}) are among them, but
 * for how boards are cut, which is told piece by piece.
 */
export function wordsWanted(source: GuideSource & Choosing): WordsWanted {
  let found: WordsWanted = { all: [], missing: [], rowless: [] };
  for (const one of wordsSought(source)) found = one;
  return found;
}

/**
 * What is read at the size at hand alone, which is found at once.
 * @param also what else is known to be read, such as at sizes that were looked at before
 */
export function wordsHere(
  source: GuideSource & Choosing,
  also: readonly string[] = [],
): WordsWanted {
  const seeker = new Seeker(source);
  for (const words of also) seeker.translation.say(words);
  return seeker.found();
}

/** The same as it is found: at the size at hand first, then with each other one, so that whoever looks can pause between. */
export function* wordsSought(source: GuideSource & Choosing): Generator<WordsWanted> {
  const seeker = new Seeker(source);
  yield seeker.found();
  for (const book of otherSizes(source)) {
    seeker.read(book, ELSEWHERE);
    yield seeker.found();
  }
}

/** Makes guides and notes what is said in them. */
class Seeker {
  readonly translation: Translation;
  readonly #plan: ShopPlan;

  constructor(source: GuideSource & Choosing) {
    this.translation = translationOf(source);
    // How boards are cut at the size at hand stands for how they are at any other.
    this.#plan = shopPlan(source, 'cell');
    const making = this.read(source, GUIDE_PARTS);
    for (const words of beside(source, making)) this.translation.say(words);
  }

  read(source: GuideSource, parts: readonly GuidePart[]): Making {
    // Where from does not matter to words, and looking for the best place takes long.
    const options = { second: true, ticks: true, eye: DEFAULT_EYE, plan: this.#plan, parts };
    const making = makingOf(source, options, this.translation);
    sectionsOf(making);
    return making;
  }

  found(): WordsWanted {
    const [all, missing] = [this.translation.asked(), this.translation.missing()];
    const { rows } = this.translation;
    return { all, missing, rowless: missing.filter((words) => !rows.has(words)) };
  }
}

/** Parts of a guide that have sentences of their own at other sizes. */
const ELSEWHERE = GUIDE_PARTS.filter((part) => part !== 'cutting-plan');

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
