import { describe, expect, it } from 'vitest';
import { functionNames, functionReference, ourFunction, standardFunction } from './catalogue.ts';
import { standardComputing } from './computing/families.ts';
import { STANDARD } from './standard.ts';
import { STANDARD_PAGES, type StandardTakes, standardSays } from './standard-words.ts';

/** What a function that is worked out here may call what its words say an argument takes. */
const COMPUTED: Readonly<Record<StandardTakes, readonly string[]>> = {
  number: ['number', 'either'],
  text: ['text'],
  logical: ['logical'],
  value: ['any', 'noError', 'either'],
  condition: ['noError'],
  range: ['range'],
  complex: [],
};

/** Nothing is worked out with them. */
const AIDS = {
  spend: () => undefined,
  longest: 0,
  tooLong: '',
  outside: '',
  divides: '',
  signs: '',
  missing: '',
  wrongCount: '',
  loading: '',
};

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

  it('is worked out from the arguments that its words tell, where it is worked out here', () => {
    const computed = standardComputing(AIDS);
    let held = 0;
    for (const { name, args, again } of STANDARD_PAGES) {
      const computing = computed.get(name);
      if (computing === undefined) continue;
      held += 1;
      const { takes } = computing;
      const optional = takes.map((one) => one.optional === true || 'leftOut' in one);
      expect(
        args.map((one) => one.optional),
        name,
      ).toEqual(optional);
      // Each answer of SWITCH is taken by itself, since the last may stand alone.
      expect(name === 'SWITCH' ? 1 : again, name).toBe(computing.again ?? 0);
      for (const [i, one] of args.entries()) {
        const as = takes[i]?.as ?? '';
        expect(COMPUTED[one.takes], `${name} ${one.name}`).toContain(as);
      }
    }
    expect(held).toBeGreaterThan(200);
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
