import { describe, expect, it } from 'vitest';
import { functionNames, functionReference, ourFunction, standardFunction } from './catalogue.ts';
import { STANDARD } from './standard.ts';
import { STANDARD_PAGES } from './standard-words.ts';

describe('the catalogue of functions', () => {
  it('has every function once', () => {
    const names = functionNames();
    expect(names).toHaveLength(STANDARD.length + functionReference().length);
    expect(new Set(names).size).toBe(names.length);
    for (const name of names) {
      expect(ourFunction(name) ?? standardFunction(name)).toMatchObject({ name });
      expect(name).toMatch(/^[A-Z][A-Z0-9._]*$/);
    }
  });

  it('has words for standard functions only, and no words twice', () => {
    const pages = STANDARD_PAGES.map(({ name }) => name);
    expect(pages.filter((name) => standardFunction(name) === undefined)).toEqual([]);
    expect(new Set(pages).size).toBe(pages.length);
    expect(pages.length).toBeGreaterThanOrEqual(50);
  });

  it('gives a column only beside a range', () => {
    const columns = functionReference().filter(({ fills }) => fills === 'column');
    expect(columns.length).toBeGreaterThan(0);
    for (const { args } of columns) expect(args[0]?.takes).toBe('range');
  });
});
