import type { Allow } from '@kerfbook/document';
import { nearNames, speciesCalled } from '@kerfbook/wood';
import type { Choice } from '../api.ts';
import { ALLOW_SENTENCES } from '../quantities/sentences.ts';

/** What the choices of a list are; lists that stand for nothing of ours have choices. */
const NOUNS: Readonly<Record<NonNullable<Allow['from']>, string>> = {
  woods: 'wood',
  finishes: 'finish',
};

/** The choices of a list with the other names they are found by, `more` from the maker's own table behind them. */
export function choicesOf(
  { list, from }: Allow,
  more: readonly string[],
): readonly Choice[] | undefined {
  if (list === undefined) return undefined;
  const noun = from === undefined ? 'choice' : NOUNS[from];
  const also = (text: string): readonly string[] => (from === 'woods' ? speciesCalled(text) : []);
  return [...list, ...more].map((text) => ({ text, also: also(text), noun }));
}

/** Letters without case and accents, and with single spaces: `Maple,  Sugar` and `maple, sugar` are the same. */
const plain = (text: string): string =>
  text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase().replace(/\s+/g, ' ').trim();

const wordsOf = (text: string): readonly string[] =>
  plain(text)
    .split(/[\s,;()]+/)
    .filter((word) => word !== '');

/** The words of a name in whatever order: `white oak` is `Oak, white`. */
const keyOf = (text: string): string => [...wordsOf(text)].sort().join(' ');

/** A choice that is like what was written, by the name it was found by where that is not its own. */
export interface FoundChoice {
  /** The choice. */
  readonly choice: Choice;
  /** The other name it was found by. */
  readonly by?: string;
}

/** Those that have every written word somewhere in one of their names: the likeliest first, else as listed. */
export function choicesLike(text: string, choices: readonly Choice[]): readonly FoundChoice[] {
  const wanted = wordsOf(text);
  if (wanted.length === 0) return choices.map((choice) => ({ choice }));
  const has = (name: string): boolean => wanted.every((word) => plain(name).includes(word));
  const start = plain(text);
  const begins = (name: string): boolean => plain(name).startsWith(start);
  const wordBegins = (name: string): boolean =>
    wanted.every((word) => wordsOf(name).some((one) => one.startsWith(word)));
  return choices
    .flatMap((choice, place) => {
      const by = has(choice.text) ? undefined : choice.also.find(has);
      if (by === undefined && !has(choice.text)) return [];
      const name = by ?? choice.text;
      const rank = (begins(name) ? 0 : wordBegins(name) ? 1 : 2) + (by === undefined ? 0 : 3);
      return [{ choice, place, rank, ...(by === undefined ? {} : { by }) }];
    })
    .sort((a, b) => a.rank - b.rank || a.place - b.place)
    .map(({ choice, by }) => ({ choice, ...(by === undefined ? {} : { by }) }));
}

/** The choice a text stands for: by the whole of one of its names, or as the only one that is like it. */
export function choiceMeant(text: string, choices: readonly Choice[]): Choice | undefined {
  const written = plain(text);
  const key = keyOf(text);
  const named = (is: (name: string) => boolean): readonly Choice[] => {
    const own = choices.filter((choice) => is(choice.text));
    return own.length > 0 ? own : choices.filter(({ also }) => also.some(is));
  };
  const whole = choices.find((choice) => plain(choice.text) === written);
  if (whole !== undefined) return whole;
  for (const found of [
    named((name) => keyOf(name) === key),
    choicesLike(text, choices).map(({ choice }) => choice),
  ]) {
    const [only, ...others] = found;
    if (only !== undefined && others.length === 0) return only;
  }
  return undefined;
}

/** Choices that a text may have meant, nearest first: those it is part of, else those it is a slip of. */
export function choicesNear(text: string, choices: readonly Choice[]): readonly Choice[] {
  const like = choicesLike(text, choices).map(({ choice }) => choice);
  if (like.length > 0) return like;
  const byName = new Map(
    choices.flatMap((choice) => [choice.text, ...choice.also].map((name) => [name, choice])),
  );
  // An essay among the choices is nobody's slip, and long to compare with.
  const names = [...byName.keys()].filter((name) => name.length <= 60);
  const near = nearNames(text, names, names.length).flatMap((name) => byName.get(name) ?? []);
  return [...new Set(near)];
}

/** Why a text was not taken for a choice: the nearest one, several it may mean, or that none is like it. */
export function notAChoice(text: string, choices: readonly Choice[]): string {
  const noun = choices[0]?.noun ?? 'choice';
  const near = choicesNear(text, choices).map((choice) => choice.text);
  const [nearest] = near;
  if (nearest === undefined) return ALLOW_SENTENCES.unlike(text, noun);
  return choicesLike(text, choices).length > 1
    ? ALLOW_SENTENCES.several(text, near, noun)
    : ALLOW_SENTENCES.nearest(text, nearest, noun);
}
