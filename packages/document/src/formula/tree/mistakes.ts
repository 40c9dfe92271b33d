import { type FormulaFault, formulaFault } from './sentences.ts';
import { type Token, textOf } from './tokens.ts';

interface Placed {
  readonly type: string;
  readonly value: string;
  readonly at: number;
}

const BINARY = new Set(['*', '/', '^', '&', '=', '<', '>', '<=', '>=', '<>', ':']);
const OPERANDS = new Set([
  'number',
  'string',
  'bool',
  'error',
  'kept',
  'address',
  'range',
  'range_named',
  'range_beam',
  'range_ternary',
]);

/**
 * Where and why a formula as it is typed cannot be read, in plain words (checklist G32). Called only
 * of what cannot, so the last answer is a general one.
 */
export function explainMistake(formula: readonly Token[]): FormulaFault {
  const tokens = placed(formula);
  return (
    openText(textOf(formula), tokens) ??
    emptyFormula(tokens) ??
    wrongSeparator(tokens) ??
    missingOperand(tokens) ??
    brackets(tokens) ??
    formulaFault('F15', [])
  );
}

function placed(formula: readonly Token[]): Placed[] {
  let at = 0;
  const all = formula.map(({ type, value }) => {
    const token = { type, value, at };
    at += value.length;
    return token;
  });
  return all.filter(
    ({ type }) => type !== 'whitespace' && type !== 'newline' && type !== 'fx_prefix',
  );
}

function openText(a1: string, tokens: readonly Placed[]): FormulaFault | undefined {
  const open = tokens.find(
    ({ type, value }) => type === 'string' && !/^"(?:[^"]|"")*"$/.test(value),
  );
  if (open !== undefined) return formulaFault('F8', [open.at + 1], open.at);
  const quotes = a1.split('"').length - 1;
  if (quotes % 2 === 0) return undefined;
  const at = a1.lastIndexOf('"');
  return formulaFault('F8', [at + 1], at);
}

function emptyFormula(tokens: readonly Placed[]): FormulaFault | undefined {
  return tokens.length === 0 ? formulaFault('F14', []) : undefined;
}

function wrongSeparator(tokens: readonly Placed[]): FormulaFault | undefined {
  let braces = 0;
  for (const { value, at } of tokens) {
    if (value === '{') braces += 1;
    else if (value === '}') braces -= 1;
    else if (value === ';' && braces === 0) return formulaFault('F9', [at + 1, 'semicolon'], at);
  }
  return undefined;
}

/** Two things side by side, or a sign with nothing where something belongs. */
function missingOperand(tokens: readonly Placed[]): FormulaFault | undefined {
  let wants = true;
  for (const { type, value, at } of tokens) {
    if (type === 'unknown') return formulaFault('F13', [at + 1, value], at);
    const operand = OPERANDS.has(type) || type === 'func';
    if (operand) {
      if (!wants) return formulaFault('F11', [at + 1, value], at);
      wants = type === 'func';
    } else if (value === '(' || value === '{') {
      wants = true;
    } else if (BINARY.has(value)) {
      if (wants) return formulaFault('F10', [at + 1, value], at);
      wants = true;
    } else if (value === '+' || value === '-' || value === ',' || value === ';') {
      wants = true;
    } else if (value === ')' || value === '}' || value === '%') {
      wants = false;
    }
  }
  const last = tokens.at(-1);
  return wants &&
    last !== undefined &&
    last.value !== '(' &&
    last.value !== ',' &&
    last.type !== 'func'
    ? formulaFault('F12', [])
    : undefined;
}

function brackets(tokens: readonly Placed[]): FormulaFault | undefined {
  const open: number[] = [];
  for (const { value, at } of tokens) {
    if (value === '(') open.push(at);
    else if (value === ')' && open.pop() === undefined) return formulaFault('F7', [at + 1], at);
  }
  const unclosed = open.at(-1);
  return unclosed === undefined ? undefined : formulaFault('F6', [unclosed + 1], unclosed);
}
