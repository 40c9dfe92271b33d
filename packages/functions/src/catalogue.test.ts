import { describe, expect, it } from 'vitest';
import { functionNames, functionReference, ourFunction, standardFunction } from './catalogue.ts';
import { STANDARD } from './standard.ts';
import { STANDARD_PAGES, standardSays } from './standard-words.ts';

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

  it('has words for every standard function once, and for no other', () => {
    const named = STANDARD_PAGES.map(({ name }) => name);
    expect([...named].sort()).toEqual(STANDARD.map(({ name }) => name).sort());
  });

  it('tells of each argument what it is for, under a name of its own', () => {
    for (const { name, task, answers, args, again } of STANDARD_PAGES) {
      expect(
        [task, answers].every((text) => /\S/.test(text)),
        name,
      ).toBe(true);
      const names = args.map((one) => one.name);
      expect(new Set(names).size, name).toBe(names.length);
      expect(again, name).toBeLessThanOrEqual(args.length);
      for (const one of args) {
        expect(one.name, name).toMatch(/^[a-z][a-z_]*$/);
        expect(one.says, `${name} ${one.name}`).toMatch(/\S/);
      }
      // What may be left out stands last.
      const optional = args.map((one) => one.optional);
      expect([...optional].sort(), name).toEqual(optional);
    }
  });

  it('says in words what an argument takes', () => {
    const said = (name: string) =>
      STANDARD_PAGES.find((page) => page.name === name)?.args.map(standardSays);
    expect(said('SUM')).toEqual(['numbers or a range']);
    expect(said('COUNTIFS')).toEqual([
      'where to look (a range)',
      'a value, or words such as ">5" (a condition)',
    ]);
    expect(said('PV')).toEqual([
      'interest for one period, 0.01 for 1 % (a share)',
      'how many payments (a number)',
      'each of them (an amount of money)',
      'what comes at the end (an amount of money)',
      '1 where paid at the start of each period (a whole number)',
    ]);
    expect(said('EDATE')).toEqual(['a day', 'how many, under 0 for earlier (a whole number)']);
    expect(said('PI')).toEqual([]);
  });

  it('gives a column only beside a range', () => {
    const columns = functionReference().filter(({ fills }) => fills === 'column');
    expect(columns.length).toBeGreaterThan(0);
    for (const { args } of columns) expect(args[0]?.takes).toBe('range');
  });
});
