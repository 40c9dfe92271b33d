import type { Plan } from '../plan.ts';
import type { GuideSource } from '../source.ts';

/** A writing in the language of the plan; `lang`: which language it is in where that is another one. */
export interface SpokenWords {
  readonly words: string;
  readonly lang?: string;
}

/** Puts writings of a figure into the language of its plan. */
export type Speak = (words: string) => SpokenWords;

/** As it is written. */
export const asWritten: Speak = (words) => ({ words });

/** What figures themselves are written in. */
const OWN_LANGUAGE = 'en';

/** How a plan's figures speak. */
export function speakOf({ head }: GuideSource, { translation, inSecond }: Plan): Speak {
  if (!inSecond || translation === undefined) return asWritten;
  const first = head.guide?.language ?? OWN_LANGUAGE;
  const language = translation.language ?? first;
  return (text) => {
    const { words, left } = translation.made(text);
    const stands = left === undefined ? language : left === 'maker' ? first : OWN_LANGUAGE;
    return stands === language ? { words } : { words, lang: stands };
  };
}
