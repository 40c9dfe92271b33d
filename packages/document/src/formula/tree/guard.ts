import { LIMITS } from '../../format/schema.ts';
import { type FormulaFault, formulaFault } from './sentences.ts';
import { isReference, type Token } from './tokens.ts';

/** What one formula may ask of the engine, wherever it came from (rule V2). */
const GUARD = {
  length: LIMITS.formula,
  depth: 32,
  operators: 400,
  repeats: 10_000,
} as const;

/** What may stand between `{` and `}`. The engine loses sight of cells and names there. */
const IN_BRACES = new Set(['operator', 'number', 'string', 'bool', 'error', 'func']);

const OPERATORS = new Set(['+', '-', '*', '/', '^', '&', '=', '<', '>', '<=', '>=', '<>', '%']);

/**
 * Why a formula must not reach the engine: too long, too deep, too many operators, a repetition that
 * would fill the memory; `undefined` when it may. What it reads and makes is bounded by the engine's
 * budget (rule B1).
 */
export function guardFormula(formula: readonly Token[]): FormulaFault | undefined {
  const letters = formulaLetters(formula);
  if (letters > GUARD.length) return formulaFault('F1', [letters, GUARD.length]);
  let depth = 0;
  let deepest = 0;
  let operators = 0;
  let inBraces = false;
  for (let index = 0; index < formula.length; index += 1) {
    const { type, value } = formula[index] as Token;
    if (type === 'whitespace') continue;
    if (value === '{' || inBraces) inBraces = value !== '}';
    if (inBraces && !IN_BRACES.has(type)) return formulaFault('F19', [value]);
    if (value === '(' || value === '{') deepest = Math.max(deepest, ++depth);
    else if (value === ')' || value === '}') depth -= 1;
    else if (type === 'operator' && OPERATORS.has(value)) operators += 1;
    else if (type === 'func' && value.toUpperCase() === 'REPT') {
      const count = repeatsOf(formula.slice(index).filter((one) => one.type !== 'whitespace'));
      if (count !== undefined && Number(count) > GUARD.repeats) {
        return formulaFault('F5', [count, GUARD.repeats]);
      }
    }
  }
  if (deepest > GUARD.depth) return formulaFault('F2', [deepest, GUARD.depth]);
  if (operators > GUARD.operators) return formulaFault('F3', [operators, GUARD.operators]);
  return undefined;
}

/**
 * Letters of a formula, each reference counted as two. How long a reference is written depends on
 * where its cell is and how its sheet is called; whether a formula computes must not (rule L3).
 */
export const formulaLetters = (formula: readonly Token[]): number =>
  formula.reduce((letters, token) => letters + (isReference(token) ? 2 : token.value.length), 0);

/** The number written as the second argument of a REPT call, if it is written out. */
function repeatsOf(tokens: readonly { type: string; value: string }[]): string | undefined {
  let depth = 0;
  for (const [index, { value }] of tokens.entries()) {
    if (value === '(') depth += 1;
    else if (value === ')') depth -= 1;
    else if (value === ',' && depth === 1) {
      const next = tokens[index + 1];
      return next?.type === 'number' ? next.value : undefined;
    }
    if (depth === 0 && index > 0) return undefined;
  }
  return undefined;
}
