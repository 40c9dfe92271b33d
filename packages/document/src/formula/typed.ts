import { type Token, tokensOf } from './tree/tokens.ts';

/** A token of a formula as typed, with addresses, for those who show or change it letter by letter. */
export interface TypedToken {
  /** What it is; `reference` is by address, `other` what is none of these. */
  readonly kind: 'reference' | 'name' | 'function' | 'text' | 'number' | 'sign' | 'space' | 'other';
  /** Its letters as typed. */
  readonly text: string;
  /** Index of its first letter. */
  readonly start: number;
  /** Index after its last letter. */
  readonly end: number;
}

/** The text that is being written: colours, completion and help all ask for it after each letter. */
let latest: { readonly text: string; readonly tokens: readonly TypedToken[] } | undefined;

/** The tokens of a formula as typed, one after the other, nothing left out. */
export function typedTokens(a1: string): readonly TypedToken[] {
  if (latest?.text !== a1) latest = { text: a1, tokens: tokensWithPlaces(a1) };
  return latest.tokens;
}

function tokensWithPlaces(a1: string): readonly TypedToken[] {
  let start = 0;
  return tokensOf(a1).map((token) => {
    const one = { kind: kindOf(token), text: token.value, start, end: start + token.value.length };
    start = one.end;
    return one;
  });
}

function kindOf({ type }: Token): TypedToken['kind'] {
  switch (type) {
    case 'address':
      return 'reference';
    case 'range_named':
      return 'name';
    case 'func':
      return 'function';
    case 'string':
      return 'text';
    case 'number':
      return 'number';
    case 'operator':
    case 'fx_prefix':
      return 'sign';
    case 'whitespace':
      return 'space';
    default:
      return 'other';
  }
}

/** Whether a reference may be put at a place: after a sign, a bracket or a comma (G27). */
export function takesReference(a1: string, caret: number): boolean {
  if (!/^\s*=/.test(a1)) return false;
  const before = a1.slice(0, caret).trimEnd();
  if (!/[=+\-*/^&(,;<>:]$/.test(before)) return false;
  if (/[\p{L}\p{Nd}_"'$.]/u.test(a1[caret] ?? '')) return false;
  return !typedTokens(a1).some(
    ({ kind, start, end }) => kind === 'text' && start < caret && caret < end,
  );
}
