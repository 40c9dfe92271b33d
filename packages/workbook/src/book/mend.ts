import {
  type At,
  type BookState,
  CHECKS_SHEET,
  type CheckDocument,
  filledSentence,
  lengthSaid,
  namesInSentence,
} from '@kerfbook/document';
import type { Values } from '../port.ts';
import { labelAt } from './explain.ts';
import { areasOf } from './marks.ts';

interface Sources {
  readonly state: BookState;
  readonly values: Values;
}

/** Further from a check than this, an input is no longer what it is about. */
const FAR = 4;
/** A formula that reads more cells reads a table: what it says of that is seen best at its own cell. */
const FEW = 12;

/** What a sentence asks for, and what the numbers are called that it changes. */
const SIZES: ReadonlyMap<string, string> = new Map(
  [
    ['thickness', 'thicker thinner thick thin'],
    ['width', 'wider narrower wide narrow'],
    ['length', 'longer shorter long short larger smaller'],
    ['depth', 'deeper shallower deep shallow'],
    ['height', 'higher lower taller high low'],
    ['weight', 'heavier lighter'],
    ['price', 'charge'],
  ].flatMap(([size = '', words = '']) => words.split(' ').map((word) => [word, size] as const)),
);

/** Words that every sentence has: they tell no input from another. */
const SMALL: ReadonlySet<string> = new Set('the and its for from one ones with'.split(' '));

const lettersIn = (text: string): readonly string[] =>
  (text.toLowerCase().match(/\p{L}{3,}/gu) ?? []).filter((word) => !SMALL.has(word));

/** The words of a text, each as one thing alone would be called: `legs` as `leg`. */
const wordsIn = (text: string): readonly string[] =>
  lettersIn(text).map((word) => SIZES.get(word) ?? word.replace(/(?<=\p{L}{3})s$/u, ''));

/** So many cells a check leads to: of more none stands out. */
const MOST = 4;

/**
 * Where a maker mends what a check says (rule K6), what helps most first: the inputs that it marks, where the first
 * cell it marks is one; else, of the inputs that it rests on nearby, the one that its sentence speaks of most, else the
 * nearest, and then all others that it says by their whole label, or with their number. A result that is made of a
 * table is mended in no one cell, and stands for itself.
 */
export function placesToMend({ state, values }: Sources, id: string): readonly At[] {
  const row = state.checks.findIndex((one) => one.id === id);
  const check = state.checks[row];
  if (check === undefined) return [];
  const own = inputsMarked(state, check);
  if (own.length > 0) return own;
  const starts = values.precedents({ sheet: CHECKS_SHEET, row, column: 0 });
  const advice = adviceIn(withTexts({ state, values }, check.says));
  const [asked, letters] = [new Set(wordsIn(advice)), new Set(lettersIn(advice))];
  const spokenOf = (at: At): readonly [same: number, alike: number] => {
    const text = `${(state.cell(at)?.name ?? '').replaceAll('_', ' ')} ${labelAt(state, at)}`;
    const same = [...new Set(wordsIn(text))].filter((word) => asked.has(word));
    const alike = [...new Set(lettersIn(text))].filter((word) => letters.has(word));
    return [same.length, alike.length];
  };
  const near = nearby({ state, values }, starts);
  let best: (Near & { readonly worth: number; readonly alike: number }) | undefined;
  // What is further off has to be spoken of in as many more words; of two alike the nearer one stays, and of long and
  // short aprons the ones that are named.
  for (const { at, far } of near) {
    const [same, alike] = spokenOf(at);
    const worth = same - far;
    const isNamed = worth === best?.worth && far === best.far && alike > best.alike;
    if (best === undefined || worth > best.worth || isNamed) best = { at, far, worth, alike };
  }
  const first = best?.at ?? starts[0];
  if (first === undefined) return [];
  const named = new Set(namesInSentence(check.says));
  const others = near
    .filter(({ at }) => at !== first && state.cell(at)?.role === 'input')
    .flatMap(({ at }) => {
      const words = wordsIn(labelAt(state, at));
      const isSaid = words.length > 0 && words.every((word) => asked.has(word));
      // What is chosen from a list tells which kind it is about; a number is what can be made otherwise.
      const isNamed =
        named.has(state.cell(at)?.name ?? '') &&
        values.value(at).kind === 'number' &&
        spokenOf(at)[0] > 0;
      if (!isSaid && !isNamed) return [];
      const said = wordsIn(advice);
      return [{ at, place: Math.max(...words.map((word) => said.indexOf(word))) }];
    })
    .toSorted((a, b) => a.place - b.place);
  return [first, ...others.map(({ at }) => at)].slice(0, MOST);
}

/** The cells that a check is said to mark, where a maker enters what is in the first; none where it is worked out. */
function inputsMarked(state: BookState, check: CheckDocument): readonly At[] {
  const cells = areasOf(state, check, 0).flatMap(({ sheet, top, left, bottom, right }) =>
    // A whole column of a table is looked at for its first cells alone.
    Array.from({ length: Math.min(MOST, bottom - top + 1) }, (_, down) => down + top).flatMap(
      (row) =>
        Array.from({ length: Math.min(MOST, right - left + 1) }, (_, along) => ({
          sheet,
          row,
          column: left + along,
        })),
    ),
  );
  const isInput = (at: At): boolean => state.cell(at)?.role === 'input';
  const [first] = cells;
  return first !== undefined && isInput(first) ? cells.filter(isInput).slice(0, MOST) : [];
}

/** A sentence with the words that it shows from cells: what is to be done may stand in one. */
function withTexts({ state, values }: Sources, says: string): string {
  return filledSentence(says, (name) => {
    if (lengthSaid(name) !== undefined) return name;
    const at = state.named(name);
    const value = at && values.value(at);
    return value?.kind === 'text' ? value.text : undefined;
  });
}

/** What a sentence says is to be done: what has no numbers in it, or all of it where each part has. */
function adviceIn(says: string): string {
  const advice = says.split(/(?<=[.;])\s+/).filter((part) => !part.includes('{'));
  return advice.length > 0 ? advice.join(' ') : says.replace(/\{[^}]*\}/g, ' ');
}

interface Near {
  readonly at: At;
  /** Formulas in between. */
  readonly far: number;
}

/** The inputs near some cells, and results that are made of tables, the nearest first. */
function nearby({ state, values }: Sources, starts: readonly At[]): readonly Near[] {
  const key = ({ sheet, row, column }: At): string => `${sheet} ${row} ${column}`;
  const seen = new Set<string>();
  const found: Near[] = [];
  let edge = starts;
  for (let far = 0; far < FAR && edge.length > 0; far += 1) {
    const next: At[] = [];
    for (const at of edge) {
      if (seen.has(key(at))) continue;
      seen.add(key(at));
      const cell = state.cell(at);
      if (cell === undefined) continue;
      const before = values.precedents(at);
      const isRoot = cell.formula === undefined || cell.override !== undefined;
      if (isRoot || before.length > FEW) found.push({ at, far });
      else next.push(...before);
    }
    edge = next;
  }
  return found;
}
