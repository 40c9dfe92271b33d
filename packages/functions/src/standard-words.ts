import type { Quantity } from '@kerfbook/wood';
import { WORDS } from './standard-lines.ts';

/** What an argument of a standard function takes. */
export type StandardTakes =
  | 'number'
  | 'text'
  /** TRUE or FALSE, or what comes to it. */
  | 'logical'
  /** A number, text, TRUE or FALSE. */
  | 'value'
  /** A value to be equal to, or text that begins with a comparison, such as `">5"`. */
  | 'condition'
  | 'range'
  /** A complex number, written as text such as `"3+4i"`, or a number. */
  | 'complex';

/** An argument of a standard function. */
export interface StandardArgument {
  /** As a maker reads it in argument help: lower case, underscores. */
  readonly name: string;
  /** What stands there, whatever a number means. */
  readonly takes: StandardTakes;
  /** What a number stands for, `number` where any will do. A share such as an interest rate is a `ratio`: 0.05 for 5 %. */
  readonly quantity: Quantity;
  /** A range may stand in the place of a single value. */
  readonly many: boolean;
  /** One line: what to put there. */
  readonly says: string;
  /** It may be left out; all after it may be too. */
  readonly optional: boolean;
}

/** A standard function as a maker reads it. */
export interface StandardPage {
  /** In capitals, as it is typed. */
  readonly name: string;
  /** The name that comes first on the page, where this is another name of the same function. */
  readonly sameAs?: string;
  /** What kind of work it belongs to. */
  readonly task: string;
  /** What it answers, in a few words. */
  readonly answers: string;
  /** In the order in which they are typed. */
  readonly args: readonly StandardArgument[];
  /** How many of the last arguments may be given again and again, in turn; 0 where none may. */
  readonly again: number;
}

const KINDS: Readonly<Record<string, Pick<StandardArgument, 'takes' | 'quantity'>>> = {
  number: { takes: 'number', quantity: 'number' },
  whole: { takes: 'number', quantity: 'count' },
  share: { takes: 'number', quantity: 'ratio' },
  money: { takes: 'number', quantity: 'money' },
  date: { takes: 'number', quantity: 'date' },
  text: { takes: 'text', quantity: 'text' },
  logical: { takes: 'logical', quantity: 'logical' },
  value: { takes: 'value', quantity: 'number' },
  condition: { takes: 'condition', quantity: 'number' },
  range: { takes: 'range', quantity: 'number' },
  complex: { takes: 'complex', quantity: 'number' },
};

const KIND_WORDS: Readonly<Record<StandardTakes, string>> = {
  number: 'a number',
  text: 'text',
  logical: 'TRUE or FALSE',
  value: 'any value',
  condition: 'a condition',
  range: 'a range',
  complex: 'a complex number',
};

const NUMBER_WORDS: Partial<Record<Quantity, string>> = {
  count: 'a whole number',
  ratio: 'a share',
  money: 'an amount of money',
  date: 'a day',
};

/** What to put in an argument of a standard function, and of what kind it is: `where to look (a range)`. */
export function standardSays({ says, takes, quantity, many }: StandardArgument): string {
  const one = (takes === 'number' ? NUMBER_WORDS[quantity] : undefined) ?? KIND_WORDS[takes];
  const kind = many ? `${one} or a range` : one;
  // Some name their kind already.
  return says.includes(kind) || /\brange\b/.test(says) ? says : `${says} (${kind})`;
}

/** Every standard function with words for makers, by tasks, in the order of the page. */
export const STANDARD_PAGES: readonly StandardPage[] = WORDS.trim()
  .split(/\n\n+/)
  .flatMap((section) => {
    const [task = '', ...lines] = section.split('\n');
    return lines.flatMap((line) => pagesOf(line, task));
  });

/** A line's function, and the same under its other names. */
function pagesOf(line: string, task: string): readonly StandardPage[] {
  const [dots = ''] = /(?: …)*$/.exec(line) ?? [];
  const [head = '', ...args] = line.slice(0, line.length - dots.length).split(' | ');
  const [names, answers] = parted(head);
  const page = { task, answers, args: args.map(argumentOf), again: dots.length / ' …'.length };
  const [first = '', ...others] = names.split(' ');
  return [{ name: first, ...page }, ...others.map((name) => ({ name, sameAs: first, ...page }))];
}

function argumentOf(text: string): StandardArgument {
  const [head, says] = parted(text);
  const [word = '', kind = ''] = head.split(' ');
  const one = KINDS[kind] ?? KINDS[kind.replace(/s$/, '')];
  if (one === undefined) throw new Error(`No kind of argument is called "${kind}": ${text}`);
  return {
    name: word.replace(/[[\]]/g, ''),
    ...one,
    many: KINDS[kind] === undefined,
    says,
    optional: word.startsWith('['),
  };
}

function parted(text: string): readonly [string, string] {
  const at = text.indexOf(': ');
  return at < 0 ? [text, ''] : [text.slice(0, at), text.slice(at + 2)];
}
