import type * as z from 'zod/mini';

type Issue = z.core.$ZodIssue;

/** What a key should hold, as a person says it. */
const KINDS: Readonly<Record<string, string>> = {
  string: 'a text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list',
  object: 'a group of keys',
  record: 'a group of keys',
};

/** More words than this are no help in a sentence. */
const WORDS_LISTED = 8;

/** What the schema found wrong, as the end of a sentence: `it is missing`, `it is longer than 200 characters`. */
export function troubleInWords(issue: Issue): string {
  switch (issue.code) {
    case 'invalid_type':
      return isMissing(issue) ? 'it is missing' : `it should be ${kindOf(issue)}`;
    case 'invalid_value':
      return issue.values.length > WORDS_LISTED
        ? 'it is none of the words that may stand there'
        : `it should be ${issue.values.map(String).join(' or ')}`;
    case 'unrecognized_keys':
      return `it has ${keysInWords(issue.keys)} no place there`;
    case 'too_small':
    case 'too_big':
      return sizeInWords(issue);
    case 'invalid_format':
      return issue.format === 'starts_with' ? 'it should begin with =' : issue.message;
    case 'custom':
      return issue.message;
    case 'invalid_key':
      return `its key will not do: ${issue.issues[0]?.message ?? 'it is no id'}`;
    case 'invalid_union':
      return unionInWords(issue);
    default:
      return 'it does not fit';
  }
}

/** As much of what a file says as a sentence quotes. */
export const shortened = (text: string): string =>
  text.length > LONGEST_QUOTED ? `${text.slice(0, LONGEST_QUOTED)}…` : text;

const LONGEST_QUOTED = 40;

function keysInWords(keys: readonly string[]): string {
  const shown = keys.slice(0, WORDS_LISTED).map((key) => `"${shortened(key)}"`);
  const more = keys.length - shown.length;
  return `the key ${shown.join(', ')}${more > 0 ? ` and ${more} more` : ''}, which ${keys.length > 1 ? 'have' : 'has'}`;
}

/** `sheets`, 0, `rows`, 4 → "sheets 1, rows 5". */
export function placeInWords(path: readonly PropertyKey[]): string {
  const words: string[] = [];
  for (const step of path) {
    const last = words.length - 1;
    if (typeof step === 'number' && last >= 0) words[last] = `${words[last]} ${step + 1}`;
    else words.push(shortened(String(step)));
  }
  return words.length === 0 ? 'its outermost part' : words.join(', ');
}

/** The schema tells a missing key from a wrong one only in its own message. */
function isMissing(issue: Issue): boolean {
  return issue.message.endsWith('received undefined');
}

function kindOf(issue: z.core.$ZodIssueInvalidType): string {
  if (issue.message.endsWith('received Infinity')) return 'a number that a computer can hold';
  return KINDS[issue.expected] ?? issue.expected;
}

function sizeInWords(issue: z.core.$ZodIssueTooSmall | z.core.$ZodIssueTooBig): string {
  const bound = issue.code === 'too_small' ? issue.minimum : issue.maximum;
  const small = issue.code === 'too_small';
  switch (issue.origin) {
    case 'string':
      return small ? 'it is empty' : `it is longer than ${bound} characters`;
    case 'array':
      return small ? `it needs at least ${bound} entry` : `it has more than ${bound} entries`;
    default:
      return small ? `it is less than ${bound}` : `it is more than ${bound}`;
  }
}

function unionInWords(issue: z.core.$ZodIssueInvalidUnion): string {
  const found = issue.errors.flat();
  if (found.length > 0 && found.every(isMissing)) return 'it is missing';
  const kinds = found.flatMap((one) => (one.code === 'invalid_type' ? [kindOf(one)] : []));
  return kinds.length === 0
    ? 'it does not fit'
    : `it should be ${[...new Set(kinds)].join(' or ')}`;
}
