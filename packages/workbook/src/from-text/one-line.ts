import { Rest, takeCount, takeStray, takeSureCount } from './counts.ts';
import type { PlainLine } from './plain-lines.ts';
import { type FoundSize, type Side, sizeRuns } from './sizes-in.ts';
import type { FoundLine, FoundPrice, ListContext, UnreadLine } from './types.ts';
import { isSheet, woodIn } from './wood-words.ts';

const PER: readonly (readonly [NonNullable<FoundPrice['per']>, RegExp])[] = [
  ['boardfoot', /^(?:bd\.? ?ft|bf|b\.f|fbm|board ?f(?:oo|ee)t)\.?$/i],
  ['cubic meter', /^(?:m3|m³|cu\.? ?m)$/i],
  ['foot', /^(?:l\.?f|lin\.? ?ft|linear f(?:oo|ee)t|ft|foot)\.?$/i],
  ['meter', /^(?:m|lm|meter|metre)$/i],
  ['board', /^(?:each|ea|apiece|board|sheet|pc|pcs|piece|stick|length|plank)\.?$/i],
];
const PRICE =
  /(?:@ ?)?(?:([$€£¥]) ?(\d(?:[\d,]*\d)?(?:\.\d+)?)|(\d(?:[\d,]*\d)?(?:\.\d+)?) ?([$€£¥](?! ?\d)|USD\b|EUR\b|GBP\b))(?: ?(?:\/|per\b) ?(bd\.? ?ft|board ?f(?:oo|ee)t|lin\.? ?ft|linear f(?:oo|ee)t|cu\.? ?m|[a-z³]+\d?)\.?| (each|ea|apiece)\b\.?)?/iu;
const GRAIN =
  /(?<![\p{L}])(?:with )?grain(?:\s*(?:runs|along|goes|=|:|the))*\s*(length|long way|width|short way|none|any|across)?/iu;

/** Signs that a line of a list may begin with. */
const BULLET = /^(?:[-*•◦‣▪●○–—+>]\s+|\[[ xX]?\]\s*|[☐☑☒✓✔]\s*)+/u;
const HASH = /^(?:#|\/\/|;;)/u;
const SUM = /^\W*(?:sub-?\s?total|total|sum|grand total|totals)\b/iu;

const none = ({ line, text }: PlainLine, says: string, expected = false): UnreadLine => ({
  line,
  text,
  says,
  expected,
});

/** What stands at the front of a line and says nothing: bullets, boxes to tick. */
export const withoutBullet = (plain: string): string => plain.replace(BULLET, '');

/** Why a line is nothing to read; undefined where there may be something in it. */
export function notRead(one: PlainLine): UnreadLine | undefined {
  if (one.fields.length === 0) return none(one, 'The line is longer than 300 letters.');
  if (HASH.test(one.plain)) return none(one, 'A remark.', true);
  if (SUM.test(one.plain)) return none(one, 'A sum.', true);
  if (!/\d/.test(one.plain)) return none(one, 'It has no sizes.', true);
  return undefined;
}

interface Around {
  readonly context: ListContext;
  /** The wood that a heading above it names. */
  readonly wood: string;
  /** The order of sizes that a head names. */
  readonly order: readonly Side[] | undefined;
}

/** Reads a line of words and sizes. */
export function readLine(one: PlainLine, plain: string, around: Around): FoundLine | UnreadLine {
  const rest = new Rest(plain);
  const over: string[] = [];
  const doubts: string[] = [];
  const aside: string[] = [];
  const price = takePrice(rest, around.context, aside);
  const grain = takeGrain(rest, over);
  const sure = takeSureCount(rest);
  const taken = takeSizes(rest, doubts, sure !== undefined);
  if (typeof taken === 'string') return none(one, taken);
  const { sizes, counted, sizeWords } = taken;
  const count = sure ?? counted ?? takeCount(rest);
  if (sizes.some(({ number }) => !(number > 0)))
    return none(one, 'A size is 0; it takes one above 0.');
  takeStray(rest);
  const own = around.context.woods ?? [];
  const { name, material, left } = wordsOf(rest.pieces(), own);
  return {
    line: one.line,
    text: one.text,
    ...(count === undefined ? {} : { count }),
    name,
    material: material === '' ? around.wood : material,
    ...(grain === undefined ? {} : { grain }),
    sizes,
    ...(around.order === undefined ? {} : { order: around.order }),
    ...(price === undefined ? {} : { price }),
    isSheet: isSheet(plain),
    sizeWords,
    doubts,
    over: [...over, ...left],
    left: aside,
  };
}

/** A price, where the table that is read for has one, and in the workbook's money; any other is left out, and told. */
export function takePrice(
  rest: Rest,
  { kind, money }: ListContext,
  left: string[],
): FoundPrice | undefined {
  const found = rest.takeMatch(PRICE);
  if (found === undefined) return undefined;
  const [whole, before, first, second, after, unit, each] = found;
  const sign = before ?? after ?? '';
  const per = PER.find(([, pattern]) => pattern.test(unit ?? each ?? ''))?.[0];
  const isOurs = sign === money || SIGNS[sign.toUpperCase()] === money;
  if (kind === 'parts' || !isOurs || (unit !== undefined && per === undefined)) {
    left.push(whole.trim());
    return undefined;
  }
  const amount = (first ?? second ?? '').replaceAll(',', '');
  return { amount, ...(per === undefined ? {} : { per }) };
}

const SIGNS: Readonly<Record<string, string>> = { USD: '$', EUR: '€', GBP: '£' };

function takeGrain(rest: Rest, over: string[]): FoundLine['grain'] {
  const found = rest.takeMatch(GRAIN);
  if (found === undefined) return undefined;
  switch (found[1]?.toLowerCase()) {
    case 'length':
    case 'long way':
      return 'length';
    case 'width':
    case 'short way':
    case 'across':
      return 'width';
    case 'none':
    case 'any':
      return 'none';
    default:
      over.push(found[0].trim());
      return undefined;
  }
}

interface Taken {
  readonly sizes: readonly FoundSize[];
  readonly counted?: number;
  readonly sizeWords: string;
}

/** Takes the sizes of one piece out of a line; a sentence where it has none that can be told. */
function takeSizes(rest: Rest, doubts: string[], counted: boolean): Taken | string {
  const { text } = rest;
  const runs = sizeRuns(text);
  const longest = Math.max(0, ...runs.map(({ length }) => length));
  const main = runs.find(({ length }) => length === longest);
  if (main === undefined) return 'It has no sizes.';
  if (longest > 4) return `It has ${longest} sizes in a row; a piece has three.`;
  if (longest === 1) return takeLoose(rest, runs, doubts);
  const { start, end } = spanOf(main);
  const sizeWords = text.slice(start, end).trim();
  rest.take(start, end);
  if (longest === 4) return { ...withCount(main, doubts), sizeWords };
  if (longest === 2) {
    const third = runs.flat().find((one) => !main.includes(one) && isSize(one));
    if (third !== undefined) {
      rest.take(third.start, third.end);
      return { sizes: [third, ...main], sizeWords: `${third.text} × ${sizeWords}` };
    }
  }
  const [first] = main;
  if (!counted && first !== undefined && mayBeCounted(text, first, end)) {
    doubts.push(`${first.text} is read as one size, not as ${first.text.replace(' ', ' of ')}.`);
  }
  return { sizes: main, sizeWords };
}

/** `Leg 4 3/4 x 3 x 28` may be four of 3/4. */
const mayBeCounted = (text: string, { start, end, said }: FoundSize, after: number): boolean =>
  said === undefined &&
  /^\d+ \d+\//.test(text.slice(start, end)) &&
  !/\d/.test(text.slice(0, start)) &&
  !/\d/.test(text.slice(after));

/** A number that can only be a size: a fraction, quarters, or one with a unit. */
const isSize = ({ fraction, said, side, quarters }: FoundSize): boolean =>
  fraction || said !== undefined || side !== undefined || quarters !== undefined;

const spanOf = (run: readonly FoundSize[]) => ({
  start: run[0]?.start ?? 0,
  end: run.at(-1)?.end ?? 0,
});

/** Four numbers in a row: one of them says how many. */
function withCount(run: readonly FoundSize[], doubts: string[]): Omit<Taken, 'sizeWords'> {
  const [first, last] = [run[0], run.at(-1)];
  if (first !== undefined && isCount(first)) {
    if (last !== undefined && isCount(last))
      doubts.push(`${first.number} is read as how many, since it comes first.`);
    return { sizes: run.slice(1), counted: first.number };
  }
  if (last !== undefined && isCount(last)) return { sizes: run.slice(0, -1), counted: last.number };
  doubts.push(`${first?.text ?? ''} is left out: a piece has three sizes.`);
  return { sizes: run.slice(1) };
}

const isCount = ({ number, said, fraction, side }: FoundSize): boolean =>
  said === undefined &&
  !fraction &&
  side === undefined &&
  Number.isInteger(number) &&
  number <= 1000;

/** Numbers with nothing between them but spaces: `Leg 4 3.5 3.5 28.5`. */
function takeLoose(
  rest: Rest,
  runs: readonly (readonly FoundSize[])[],
  doubts: string[],
): Taken | string {
  const loose = runs.flat();
  const surely = loose.filter((one) => isSize(one));
  const chosen = surely.length === 3 ? surely : loose;
  if (chosen.length < 3) {
    return loose.length === 1
      ? 'It has one number; a piece needs a thickness, a width and a length.'
      : 'Its numbers are no sizes of one piece: put an x between them.';
  }
  if (chosen.length > 4) return 'It has too many numbers: put an x between the sizes.';
  const sizeWords = chosen.map((one) => one.text).join(' × ');
  const found = chosen.length === 4 ? withCount(chosen, doubts) : { sizes: chosen };
  for (const one of chosen) rest.take(one.start, one.end);
  if (surely.length !== 3) doubts.push('Its numbers have no x between them.');
  return { ...found, sizeWords };
}

const EDGES = /^[\s,.:;@=()[\]{}"*x×/-]+|[\s,.:;@=([{*×/-]+$/gu;
/** Words between what was understood that say nothing by themselves. */
const SMALL = /^(?:of|in|at|by|x|and|a|from|is|are)$/iu;

/** What is left of a line: the first words are the name, a wood among them is the material. */
export function wordsOf(
  pieces: readonly string[],
  own: readonly string[],
): { readonly name: string; readonly material: string; readonly left: readonly string[] } {
  const said = pieces
    .flatMap((piece) => piece.split(/\s-\s|[;:|]\s|[()[\]{}]/u))
    .map(clean)
    .filter((words) => words !== '' && !SMALL.test(words));
  let material = '';
  const names: string[] = [];
  for (const words of said) {
    const comma = words.lastIndexOf(',');
    const found =
      (comma < 0 ? undefined : wholeWood(words.slice(comma + 1), words.slice(0, comma), own)) ??
      woodIn(words, own);
    if (found === undefined || material !== '') {
      names.push(words);
      continue;
    }
    material = found.wood;
    if (found.rest !== '') names.push(clean(found.rest));
  }
  const [name = '', ...left] = names;
  return { name, material, left };
}

function wholeWood(after: string, before: string, own: readonly string[]) {
  const found = woodIn(clean(after), own);
  return found?.rest === '' ? { wood: found.wood, rest: clean(before) } : undefined;
}

function clean(words: string): string {
  const trimmed = words.replace(EDGES, '').replace(/\s+/g, ' ').trim();
  return /^[x×]$/iu.test(trimmed) ? '' : trimmed;
}
