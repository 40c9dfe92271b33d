import { tokenize } from '@borgar/fx';

/**
 * A typed formula as HyperFormula reads it. What the maker typed is what is kept; this happens on
 * the way into the engine only: doubled quotes become CHAR(34), exponents lower case, prefixes
 * that some files put before newer functions go.
 */
export function forEngine(a1: string): string {
  return tokenize(a1)
    .map(({ type, value }) => {
      if (type === 'string') return engineText(value);
      if (type === 'number') return value.replace('E', 'e');
      if (type === 'bool') return `${value.toUpperCase()}()`;
      if (type === 'func') return value.replace(/^(_xlfn\.|_xlws\.)+/i, '');
      return value;
    })
    .join('');
}

function engineText(literal: string): string {
  const closed = literal.length > 1 && literal.endsWith('"');
  if (!closed || !literal.slice(1, -1).includes('""')) return literal;
  const parts = literal
    .slice(1, -1)
    .split('""')
    .map((part) => `"${part}"`);
  return `(${parts.join('&CHAR(34)&')})`;
}
