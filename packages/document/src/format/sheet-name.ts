import { LIMITS } from './schema.ts';

const FORBIDDEN = new Set(['__proto__', 'constructor', 'prototype']);

/** Why a sheet cannot have this name, as the end of a sentence; `undefined` when it can. */
export function sheetNameProblem(name: string): string | undefined {
  if (name.trim() === '') return 'it is empty';
  if (name !== name.trim()) return 'it begins or ends with a space';
  if (name.length > LIMITS.sheetName) {
    return `it has ${name.length} characters, and ${LIMITS.sheetName} is the most`;
  }
  const bad = /[[\]:*?/\\!#\u0000-\u001f\u2028\u2029]/.exec(name)?.[0];
  if (bad !== undefined) return `the character ${JSON.stringify(bad)} has a meaning in formulas`;
  if (name.startsWith("'") || name.endsWith("'")) return 'it begins or ends with an apostrophe';
  if (FORBIDDEN.has(name.toLowerCase())) return 'the word is reserved';
  return undefined;
}
