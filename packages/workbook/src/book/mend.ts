import { type At, type BookState, CHECKS_SHEET, type CheckDocument } from '@kerfbook/document';
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
    ['height', 'higher lower taller high low'],
    ['weight', 'heavier lighter'],
    ['price', 'charge'],
  ].flatMap(([size = '', words = '']) => words.split(' ').map((word) => [word, size] as const)),
);

const lettersIn = (text: string): readonly string[] =>
  text.toLowerCase().match(/\p{L}{3,}/gu) ?? [];

/** The words of a text, each as one thing alone would be called: `legs` as `leg`. */
const wordsIn = (text: string): readonly string[] =>
  lettersIn(text).map((word) => SIZES.get(word) ?? word.replace(/(?<=\p{L}{3})s$/u, ''));

/**
 * Where a maker mends what a check says (rule K6): the first cell that it marks, where that is an input; else, of the
 * inputs that it rests on nearby, the one that its sentence speaks of most, else the nearest. A result that is made of
 * a table is mended in no one cell, and stands for itself.
 */
export function placeToMend({ state, values }: Sources, id: string): At | undefined {
  const row = state.checks.findIndex((one) => one.id === id);
  const check = state.checks[row];
  if (check === undefined) return undefined;
  const own = firstMarked(state, check);
  if (own !== undefined) return own;
  const starts = values.precedents({ sheet: CHECKS_SHEET, row, column: 0 });
  const advice = adviceIn(withTexts({ state, values }, check.says));
  const [asked, letters] = [new Set(wordsIn(advice)), new Set(lettersIn(advice))];
  const spokenOf = (at: At): readonly [same: number, alike: number] => {
    const text = `${(state.cell(at)?.name ?? '').replaceAll('_', ' ')} ${labelAt(state, at)}`;
    const same = [...new Set(wordsIn(text))].filter((word) => asked.has(word));
    const alike = [...new Set(lettersIn(text))].filter((word) => letters.has(word));
    return [same.length, alike.length];
  };
  let best: (Near & { readonly worth: number; readonly alike: number }) | undefined;
  // What is further off has to be spoken of in as many more words; of two alike the nearer one stays, and of long and
  // short aprons the ones that are named.
  for (const { at, far } of nearby({ state, values }, starts)) {
    const [same, alike] = spokenOf(at);
    const worth = same - far;
    const isNamed = worth === best?.worth && far === best.far && alike > best.alike;
    if (best === undefined || worth > best.worth || isNamed) best = { at, far, worth, alike };
  }
  return best?.at ?? starts[0];
}

/** The first cell that a check is said to mark, where a maker enters what is in it. */
function firstMarked(state: BookState, check: CheckDocument): At | undefined {
  const [first] = areasOf(state, check, 0);
  if (first === undefined) return undefined;
  const at = { sheet: first.sheet, row: first.top, column: first.left };
  return state.cell(at)?.role === 'input' ? at : undefined;
}

/** A sentence with the words that it shows from cells: what is to be done may stand in one. */
function withTexts({ state, values }: Sources, says: string): string {
  return says.replace(/\{([^}]*)\}/g, (shown, name: string) => {
    const at = state.named(name);
    const value = at && values.value(at);
    return value?.kind === 'text' ? value.text : shown;
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
