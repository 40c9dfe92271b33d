import {
  type BookState,
  explainMistake,
  type Formula,
  guardFormula,
  type Token,
  withoutAddresses,
  writtenTokens,
} from '@kerfbook/document';
import { REFUSED_NAME } from '../results/said.ts';
import { Failure } from './values.ts';

/** What is surely no formula to any reader, by the reason: brackets, quotes, commas, signs with nothing beside them. */
const SURELY_UNREADABLE: ReadonlySet<string> = new Set([
  'F6',
  'F7',
  'F8',
  'F9',
  'F10',
  'F12',
  'F14',
]);
/** Some readers join these with what stands beside them to something else. */
const JOINING = /[:!{}[\]]/;
const TOGETHER: ReadonlySet<string> = new Set(['string', 'address', 'kept', 'error']);
const UNSURE: ReadonlySet<string> = new Set(['range_beam', 'range_ternary', 'unknown', 'context']);

/**
 * The error of a formula that must not be worked out, or that cannot be read; nothing where it is to be
 * compiled, or where another engine may read it.
 */
export function refusedFormula(
  formula: Formula,
  home: string,
  state: BookState,
  slot: number,
): Failure | undefined {
  const { root, tokens } = formula;
  if (root !== undefined && guardFormula(tokens) === undefined) return undefined;
  const written = guarded(formula, home, state);
  if (guardFormula(written) !== undefined) return new Failure('ERROR', REFUSED_NAME, slot);
  if (root !== undefined || !isSurelyUnreadable(written)) return undefined;
  return new Failure('ERROR', 'Parsing error.');
}

function isSurelyUnreadable(tokens: readonly Token[]): boolean {
  if (!SURELY_UNREADABLE.has(explainMistake(tokens).code)) return false;
  return !tokens.some(
    ({ type, value }) => UNSURE.has(type) || (!TOGETHER.has(type) && JOINING.test(value)),
  );
}

/** Why a formula is refused. */
export const whyRefused = (formula: Formula, home: string, state: BookState): string | undefined =>
  guardFormula(guarded(formula, home, state))?.says;

const guarded = (formula: Formula, home: string, state: BookState): readonly Token[] =>
  writtenTokens(withoutAddresses(formula), home, state);
