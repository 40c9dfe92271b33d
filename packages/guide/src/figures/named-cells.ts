import { mmFromOwn } from '@kerfbook/drawing';
import type { GuideSource } from '../source.ts';
import { numberWords } from '../text/runs.ts';

/** What a named cell comes to as a number, in its own unit; undefined where there is none. */
export function numberOf(source: GuideSource, name: string): number | undefined {
  const value = source.named(name)?.value;
  return value?.kind === 'number' && Number.isFinite(value.number) ? value.number : undefined;
}

/** A named length, mm. */
export function lengthOf(source: GuideSource, name: string): number | undefined {
  const own = numberOf(source, name);
  return own === undefined ? undefined : mmFromOwn(own, source.units);
}

/** A named cell as it stands in a sentence: `3/8 in`. */
export function wordsOf(source: GuideSource, name: string): string | undefined {
  const cell = source.named(name);
  if (cell === undefined || cell.value.kind === 'error' || cell.value.kind === 'empty') {
    return undefined;
  }
  return cell.value.kind === 'number' ? numberWords(cell).words : cell.shown.text;
}

/** Which of some names no cell has with a number over 0, as they stand in a sentence. */
export const missing = (source: GuideSource, names: readonly string[]): readonly string[] =>
  names.filter((name) => !((numberOf(source, name) ?? 0) > 0));

/** Why a figure cannot be drawn that needs some named cells. */
export const needs = (what: string, names: readonly string[]): string =>
  `its figure shows ${what} and needs ${names.length === 1 ? 'a cell' : 'cells'} named ${names.join(', ')} with ${
    names.length === 1 ? 'a number' : 'numbers'
  } over 0. Name ${names.length === 1 ? 'it' : 'them'}, or write another word under figure.`;
