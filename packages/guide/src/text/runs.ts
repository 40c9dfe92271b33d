import { type At, type CellView, filledSentence, withUnit } from '@kerfbook/workbook';
import type { GuideSource } from '../source.ts';
import { asSaid } from './as-said.ts';
import { asMakersWrite } from './as-written.ts';
import { spoken } from './spoken.ts';

/** A stretch of a text: words, a number that a cell shows, or the sign that there is none. */
export type Run =
  | { readonly kind: 'words'; readonly words: string }
  | {
      readonly kind: 'number';
      /** The cell's name, as the text has it. */
      readonly name: string;
      /** As it stands in a sentence: `33 3/16 in`, `1,685 mm`. */
      readonly words: string;
      /** As it is read aloud: `33 and 3/16 inches`. */
      readonly aloud: string;
      /** The cell it comes from; left out of what a step counts itself. */
      readonly at?: At;
    }
  | {
      readonly kind: 'lost';
      /** What stands in the braces. */
      readonly name: string;
      /** Why there is no number. */
      readonly says: string;
      /** The cell that is in error, where it is one. */
      readonly at?: At;
    };

/** Numbers of a step's own, by the words that stand for them. */
export type OwnNumbers = Readonly<Record<string, number>>;

/** Between braces stands what no text has of itself. */
const MARK = '\u0000';

/**
 * A text with its numbers: `{apron_long}` stands for the cell of that name as it shows, with its unit. What is no name of
 * a cell, or is in error at this size, is lost: the rest of the text stands.
 * @param own numbers that are no cell's, such as which round of a repeated step it is
 * @param say puts words that a cell holds into another language
 */
export function runsOf(
  source: GuideSource,
  text: string,
  own: OwnNumbers = {},
  say: (words: string) => string = (words) => words,
): readonly Run[] {
  const found: Run[] = [];
  const marked = filledSentence(text.replaceAll(MARK, ''), (name) => {
    found.push(runOf(source, name, own, say));
    return MARK;
  });
  return marked.split(MARK).flatMap((words, i): readonly Run[] => {
    const before = i === 0 ? undefined : found[i - 1];
    return [
      ...(before === undefined ? [] : [before]),
      ...(words === '' ? [] : [{ kind: 'words', words } as const]),
    ];
  });
}

function runOf(
  source: GuideSource,
  name: string,
  own: OwnNumbers,
  say: (words: string) => string,
): Run {
  const counted = Object.hasOwn(own, name) ? own[name] : undefined;
  if (counted !== undefined) {
    return { kind: 'number', name, words: String(counted), aloud: String(counted) };
  }
  const cell = source.named(name);
  if (cell === undefined) {
    return {
      kind: 'lost',
      name,
      says: `No cell is named "${name}". Name one so, or take {${name}} out of the text.`,
    };
  }
  const { value, at } = cell;
  if (value.kind === 'error') {
    return { kind: 'lost', name, at, says: `${name} is ${value.error.word}: ${value.error.says}` };
  }
  if (value.kind === 'empty') {
    return { kind: 'lost', name, at, says: `${name} is blank. Fill it in.` };
  }
  if (value.kind === 'number') return { kind: 'number', name, at, ...numberWords(cell) };
  const words = say(numberWords(cell).words);
  return { kind: 'number', name, at, words, aloud: words };
}

/** How a cell's number stands in a sentence, and how it is read aloud. */
export function numberWords({
  value,
  shown,
  unit,
  role,
}: Pick<CellView, 'value' | 'shown' | 'unit' | 'role'>): Pick<
  Run & { readonly kind: 'number' },
  'words' | 'aloud'
> {
  if (value.kind !== 'number') {
    const said = value.kind === 'logical' ? (value.logical ? 'yes' : 'no') : shown.text;
    return { words: said, aloud: said };
  }
  if (unit === 'N' || unit === 'kN') return weightWords(value.number);
  const said = asSaid(shown, unit, value.number, role === 'calculated');
  return { words: withUnit(asMakersWrite(said.text), unit), aloud: spoken(said, unit) };
}

/** Standard gravity, m/s²: exact by definition (NIST SP 811, appendix B). */
const GRAVITY = 9.80665;

/** A load in newtons as makers say it: as what would weigh so much. */
function weightWords(newtons: number): { readonly words: string; readonly aloud: string } {
  const kg = newtons / GRAVITY;
  const text = kg < 10 ? String(Number(kg.toFixed(1))) : String(Math.round(kg));
  return { words: `${asMakersWrite(text)} kg`, aloud: spoken({ text }, 'kg') };
}

/** The text as plain words, a sign where a number is lost. */
export const plainText = (runs: readonly Run[]): string =>
  runs.map((run) => (run.kind === 'lost' ? '…' : run.words)).join('');
