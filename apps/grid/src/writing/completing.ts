import {
  callAt,
  type FunctionHelp,
  functionHelp,
  nameKey,
  type OpenWorkbook,
  withUnit,
  wordAt,
} from '@kerfbook/workbook';
import { isFormula } from '../session/pointing.ts';
import type { Editing, Session } from '../session/session.ts';
import { jointOptions } from './joining.ts';
import { pairKey } from './pairs.ts';
import { phraseAt, placeOptions } from './placing.ts';
import { headOptions, shapeOptions } from './shaping.ts';
import type { Option } from './writing.ts';

const MOST_OPTIONS = 8;

/** What may be completed at the caret; nothing once the maker put the list away. */
export function optionsOf(book: OpenWorkbook, editing: Editing | undefined): readonly Option[] {
  if (editing === undefined || editing.hushed === true) return [];
  if (!isFormula(editing.text)) {
    const offers = [placeOptions, shapeOptions, jointOptions, headOptions];
    return offers.flatMap((offer) => offer(book, editing)).slice(0, MOST_OPTIONS);
  }
  const word = wordAt(editing.text, editing.caret);
  if (word === undefined) return [];
  const wanted = nameKey(word.text);
  const all = [...cellOptions(book), ...functionOptions(book)];
  const whole = all.filter(({ text }) => nameKey(text) === wanted);
  const longer = all.filter(({ text }) => nameKey(text) !== wanted);
  const begins = [...whole, ...longer.filter(({ text }) => nameKey(text).startsWith(wanted))];
  const holds = all.filter(
    ({ text }) => !nameKey(text).startsWith(wanted) && nameKey(text).includes(wanted),
  );
  const found = roomForBoth(begins, wanted.length > 2 ? holds : []);
  // A name written out needs no list, and Enter is to take the entry over.
  const [only] = found;
  const done = begins.some(({ text, kind }) => kind === 'cell' && nameKey(text) === wanted);
  return done || (found.length === 1 && nameKey(only?.text ?? '') === wanted) ? [] : found;
}

/**
 * As many as the list holds: where many cells begin alike they leave half of it to functions that do, the
 * shortest of these first: it is nearest to what is written.
 */
function roomForBoth(begins: readonly Option[], holds: readonly Option[]): readonly Option[] {
  if (begins.length <= MOST_OPTIONS) return [...begins, ...holds].slice(0, MOST_OPTIONS);
  const cells = begins.filter(({ kind }) => kind === 'cell');
  const functions = begins.filter(({ kind }) => kind === 'function');
  const shortest = Math.min(...functions.map(({ text }) => text.length));
  const isNear = ({ text }: Option): boolean => text.length === shortest;
  const room = Math.max(MOST_OPTIONS / 2, MOST_OPTIONS - functions.length);
  const near = [...functions.filter(isNear), ...functions.filter((one) => !isNear(one))];
  return [...cells.slice(0, room), ...near].slice(0, MOST_OPTIONS);
}

function cellOptions(book: OpenWorkbook): Option[] {
  return book.names().map(({ name, at }) => {
    const cell = book.cell(at);
    return { kind: 'cell', text: name, says: withUnit(cell.shown.text, cell.unit) };
  });
}

const helps = new Map<string, readonly FunctionHelp[]>();

function helpOf({ units }: OpenWorkbook): readonly FunctionHelp[] {
  const known = helps.get(units) ?? functionHelp(units);
  helps.set(units, known);
  return known;
}

const functionOptions = (book: OpenWorkbook): Option[] =>
  helpOf(book).map(({ name, answers }) => ({ kind: 'function', text: name, says: answers }));

/** Words of a table rather than of a formula: they stand for the whole phrase. */
export const isPhrase = ({ kind }: Option): boolean =>
  kind === 'place' || kind === 'shape' || kind === 'head' || kind === 'joint';

/** Puts a completion in the place of the half-written word. */
export function accept(session: Session, option: Option): void {
  const { editing } = session;
  if (editing !== undefined && isPhrase(option)) {
    const { text, caret } = editing;
    // A name may have commas in it: what a joint's cell says is one phrase.
    const { start, end } =
      option.kind === 'joint' ? { start: 0, end: text.length } : phraseAt(text, caret);
    const before = editing.text.slice(0, start) + option.text;
    session.write(before + editing.text.slice(end), before.length);
    return;
  }
  const word = editing === undefined ? undefined : wordAt(editing.text, editing.caret);
  if (editing === undefined || word === undefined) return;
  // A word written on in the middle is replaced whole.
  const tail = /^[\p{L}\p{M}\p{Nd}_.]*/u.exec(editing.text.slice(editing.caret))?.[0] ?? '';
  const end = editing.caret + tail.length;
  const rest = editing.text.slice(end);
  const before = editing.text.slice(0, word.start) + option.text;
  const opened = option.kind === 'function' && !rest.startsWith('(');
  const paired = opened ? pairKey(before + rest, [before.length, before.length], '(') : undefined;
  if (paired !== undefined) session.write(paired.text, paired.caret);
  else session.write(`${before}${opened ? '(' : ''}${rest}`, before.length + (opened ? 1 : 0));
}

/** What is asked for at the caret: the call and its argument, in words. */
interface ArgumentHelp {
  readonly name: string;
  readonly args: readonly { readonly name: string; readonly optional: boolean }[];
  readonly current: number;
  readonly says: string;
}

export function argumentHelp(
  book: OpenWorkbook,
  { text, caret }: Editing,
): ArgumentHelp | undefined {
  const call = isFormula(text) ? callAt(text, caret) : undefined;
  if (call === undefined) return undefined;
  const help = helpOf(book).find(({ name }) => name === call.name);
  if (help === undefined) return undefined;
  const { args, again } = help;
  const current = argumentOf(call.argument, args.length, again);
  const none = args.length === 0 ? 'nothing goes in the parentheses' : 'no more arguments';
  return { name: call.name, args, current, says: args[current]?.says ?? none };
}

/** Which of the arguments that are described one is, where the last `again` come again in turn. */
function argumentOf(place: number, count: number, again: number): number {
  if (place < count || again === 0) return place;
  return count - again + ((place - count) % again);
}
