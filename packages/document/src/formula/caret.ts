import { typedTokens } from './typed.ts';

/** The innermost function whose brackets a place in a formula lies in, and which argument it is. */
export function callAt(
  a1: string,
  caret: number,
): { readonly name: string; readonly argument: number } | undefined {
  const open: { name: string | undefined; argument: number }[] = [];
  let name: string | undefined;
  for (const { kind, text, start, end } of typedTokens(a1)) {
    if (start >= caret) break;
    // Within words in quotes, commas are no commas.
    if (end > caret && kind === 'text') break;
    if (kind === 'function') name = text.toUpperCase();
    else if (text === '(') {
      open.push({ name, argument: 0 });
      name = undefined;
    } else if (text === '{') open.push({ name: undefined, argument: 0 });
    else if (text === ')' || text === '}') open.pop();
    else if (text === ',' || text === ';') {
      const last = open.at(-1);
      if (last !== undefined) last.argument += 1;
    }
  }
  const call = open.findLast((one) => one.name !== undefined);
  return call?.name === undefined ? undefined : { name: call.name, argument: call.argument };
}

/** The word being written in front of a place: what a completion would replace. */
export function wordAt(
  a1: string,
  caret: number,
): { readonly start: number; readonly text: string } | undefined {
  const token = typedTokens(a1).find(({ start, end }) => start < caret && caret <= end);
  if (token === undefined || token.kind === 'text') return undefined;
  const text = /[\p{L}_\\][\p{L}\p{M}\p{Nd}_.]*$/u.exec(a1.slice(token.start, caret))?.[0];
  if (text === undefined) return undefined;
  const start = caret - text.length;
  // `B3` and `$B$3` are addresses, and what follows a sheet's name is one too.
  if (/[\p{L}\p{M}\p{Nd}_$.!]/u.test(a1[start - 1] ?? '') || token.kind === 'reference')
    return undefined;
  return { start, text };
}
