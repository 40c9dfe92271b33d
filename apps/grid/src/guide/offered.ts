import { numberWords } from '@kerfbook/guide';
import { nameKey, type OpenWorkbook, wordAt } from '@kerfbook/workbook';
import { optionsOf } from '../writing/completing.ts';

/** What the word at the caret may become. */
export interface Offered {
  /** What of the text it takes the place of. */
  readonly start: number;
  readonly end: number;
  readonly options: readonly Option[];
}

interface Option {
  readonly text: string;
  /** What it shows now. */
  readonly says: string;
}

const MOST = 8;
const NAME = String.raw`[\p{L}\p{M}\p{Nd}_.]*`;
const OPENED = new RegExp(String.raw`\{(${NAME})$`, 'u');
const LISTED = new RegExp(String.raw`(?:^|,)\s*(${NAME})$`, 'u');
const REST = new RegExp(String.raw`^${NAME}\}?`, 'u');

/** A repeated step counts itself by these. */
const COUNTED: readonly Option[] = [
  { text: 'round', says: 'which time it is' },
  { text: 'rounds', says: 'how many times' },
];

/**
 * What is offered while a text is written: after `{` the names of cells, in a formula what its line offers too, and in a
 * list of names the names alone.
 */
export function offeredAt(
  book: OpenWorkbook,
  text: string,
  caret: number,
  isList: boolean,
): Offered | undefined {
  if (text.startsWith('=')) return inFormula(book, text, caret);
  const before = text.slice(0, caret);
  const found = (isList ? LISTED : OPENED).exec(before);
  const written = found?.[1];
  if (written === undefined || (isList && written === '')) return undefined;
  const start = caret - written.length;
  const rest = REST.exec(text.slice(caret))?.[0] ?? '';
  const all: readonly Option[] = [
    ...book.names().map(({ name, at }) => {
      return { text: name, says: numberWords(book.cell(at)).words };
    }),
    ...(isList ? [] : COUNTED),
  ];
  const wanted = nameKey(written);
  const begins = all.filter((one) => nameKey(one.text).startsWith(wanted));
  const holds = all.filter(
    (one) => !nameKey(one.text).startsWith(wanted) && nameKey(one.text).includes(wanted),
  );
  const options = [...begins, ...holds].slice(0, MOST);
  // A name written out needs no list, and Enter is to take the entry over.
  if (options.length === 0 || (options.length === 1 && nameKey(options[0]?.text ?? '') === wanted))
    return undefined;
  const close = isList ? '' : '}';
  return {
    start,
    end: caret + rest.length,
    options: options.map((one) => ({ ...one, text: one.text + close })),
  };
}

function inFormula(book: OpenWorkbook, text: string, caret: number): Offered | undefined {
  const word = wordAt(text, caret);
  const at = { sheet: book.sheets()[0]?.id ?? '', row: 0, column: 0 };
  const found = optionsOf(book, { at, text, caret, mode: 'edit', from: 'line' });
  if (word === undefined || found.length === 0) return undefined;
  return {
    start: word.start,
    end: caret,
    options: found.map(({ text: name, says, kind }) => ({
      text: kind === 'function' && text[caret] !== '(' ? `${name}(` : name,
      says,
    })),
  };
}
