import { type KeptReference, keptText } from '../kept.ts';
import { nameKey } from '../names.ts';
import { addressOf, type Gone, idsOf, type SheetIndex, shrunkReference } from '../references.ts';
import { type Formula, turned } from './read.ts';
import { isReference, type Token, textOf } from './tokens.ts';

const GONE: Token = { type: 'error', value: '#REF!' };

/** A formula on `sheet` with every reference by address that exists turned into ids (rules F1, F7). */
export function withIds(formula: Formula, sheet: string, index: SheetIndex): Formula {
  if (!formula.tokens.some(({ type }) => type === 'address')) return formula;
  let kept = formula;
  // Once one reference of `B$2A1` is in brackets, the rest reads as another: none may be left for the
  // next time the text is read.
  for (;;) {
    const next = turned(kept, (token, at, all) => {
      if (token.type !== 'address' || isChained(all, at)) return token;
      const reference = idsOf(token.value, sheet, index);
      return reference === undefined ? token : keptToken(reference);
    });
    if (next === kept) return kept;
    kept = next;
  }
}

const keptToken = (reference: KeptReference): Token => ({
  type: 'kept',
  value: keptText(reference),
  reference,
});

/** `A1:B2:C3`: the last would be taken for the end of a range with what stands before it. */
function isChained(tokens: readonly Token[], at: number): boolean {
  const before = tokens[at - 2];
  if (tokens[at - 1]?.value !== ':' || before === undefined) return false;
  return isReference(before);
}

/** The pieces of a formula with addresses as they are now; what is gone reads `#REF!` (rule F5). */
export function writtenTokens(
  { tokens }: Formula,
  sheet: string,
  index: SheetIndex,
): readonly Token[] {
  return tokens.map((token) =>
    token.reference === undefined ? token : writtenToken(token.reference, sheet, index),
  );
}

function writtenToken(reference: KeptReference, sheet: string, index: SheetIndex): Token {
  const address = addressOf(reference, sheet, index);
  return address === undefined ? GONE : { type: 'address', value: address };
}

/** The same as a formula of its own, for a copy. */
export const written = (formula: Formula, sheet: string, index: SheetIndex): Formula =>
  turned(formula, (token) =>
    token.reference === undefined ? token : writtenToken(token.reference, sheet, index),
  );

/** A formula as its maker reads it. */
export const writtenText = (formula: Formula, sheet: string, index: SheetIndex): string =>
  textOf(writtenTokens(formula, sheet, index));

/**
 * A formula with `#REF!` for what is kept by address: its sheet, row or column is not there. Once it is,
 * the reference becomes ids (rule F7).
 */
export const withoutAddresses = (formula: Formula): Formula =>
  turned(formula, (token) => (token.type === 'address' ? GONE : token));

/** Renames a named cell in a formula, however it is spelt there (rules S2, S7). */
export function renamed(formula: Formula, from: string, to: string): Formula {
  const wanted = nameKey(from);
  return turned(formula, (token) =>
    token.type === 'range_named' && nameKey(token.value) === wanted && token.value !== to
      ? { type: 'range_named', value: to }
      : token,
  );
}

/** A formula with references by ids replaced; `undefined` leaves one as it is, `null` makes it `#REF!`. */
export function rereferred(
  formula: Formula,
  become: (reference: KeptReference) => KeptReference | null | undefined,
): Formula {
  return turned(formula, (token) => {
    if (token.reference === undefined) return token;
    const next = become(token.reference);
    if (next === null) return GONE;
    return next === undefined ? token : keptToken(next);
  });
}

/**
 * A formula with the ends of its ranges moved off rows and columns about to be deleted (rule S3).
 * Called while they are still there. Single references are left: they may heal.
 */
export const shrinkAfterDelete = (
  formula: Formula,
  home: string,
  gone: Gone,
  index: SheetIndex,
): Formula => rereferred(formula, (reference) => shrunkReference(reference, home, gone, index));
