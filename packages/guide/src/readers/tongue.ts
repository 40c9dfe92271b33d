import type { Translation } from '../words/second-language.ts';
import { element } from './element.ts';
import type { ReadersWord, SayWord } from './reader-words.ts';

/** What the page itself is written in. */
const OWN_LANGUAGE = 'en';

/** Words in the page, with their language where it is not that of the page. */
export type Put = Node | string;

/** How a page for readers speaks, in the one language or the other. */
export interface Tongue {
  /** What it speaks, a tag after BCP 47. */
  readonly language: string;
  /** One of the page's own words, for where no elements may stand. */
  readonly say: SayWord;
  /** The same for where they may. */
  readonly put: (...word: Parameters<SayWord>) => Put;
  /** Words of the plan's maker, for where no elements may stand. */
  readonly theirs: (words: string) => string;
  /** The same for where they may. */
  readonly putTheirs: (words: string) => Put;
  /** A sentence that the program made, with sizes and names in it. */
  readonly made: (sentence: string) => Put;
  /** Which language words of the maker are in, where that is not the page's: for elements that hold nothing but words. */
  readonly langOf: (words: string) => string | undefined;
}

/** How a page speaks. @param translation what its words are called; undefined: it speaks its first language */
export function tongueOf(translation: Translation | undefined, first = OWN_LANGUAGE): Tongue {
  const language = translation?.language ?? first;
  const marked = (words: string, stands: string): Put =>
    stands === language ? words : element('span', { lang: stands }, words);
  const say: SayWord = (word, fills = {}) =>
    (translation?.say(word) ?? word).replaceAll(
      /\{(\w+)\}/g,
      (whole, name: string) => fills[name] ?? whole,
    );
  const standsFor = (words: string, was: string): string =>
    translation?.has(words) === true ? language : was;
  const theirs = (words: string): string => translation?.say(words) ?? words;
  return {
    language,
    say,
    put: (word: ReadersWord, fills) => marked(say(word, fills), standsFor(word, OWN_LANGUAGE)),
    theirs,
    putTheirs: (words) => marked(theirs(words), standsFor(words, first)),
    made: (sentence) => {
      const spoken = translation?.made(sentence) ?? { words: sentence, left: 'program' as const };
      const { words, left } = spoken;
      return marked(words, left === undefined ? language : left === 'maker' ? first : OWN_LANGUAGE);
    },
    langOf: (words) => {
      const stands = standsFor(words, first);
      return stands === language ? undefined : stands;
    },
  };
}
