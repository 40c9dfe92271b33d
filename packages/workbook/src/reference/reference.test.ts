import { readFormula } from '@kerfbook/document';
import { functionReference } from '@kerfbook/functions';
import { describe, expect, it } from 'vitest';
import { workOut } from './alone.ts';
import { outermostFunction } from './outermost.ts';
import { exampleResults, findPages, functionPages } from './pages.ts';

describe('functionPages', () => {
  const pages = functionPages('us');

  it('has a page for every function, and a result for every example', () => {
    expect(pages.map(({ name }) => name)).toEqual(functionReference().map(({ name }) => name));
    const results = exampleResults(pages);
    for (const { name } of pages)
      expect([name, results.get(name)]).not.toEqual([name, expect.stringMatching(/^(#|$)/)]);
  });

  it('tells the units of the workbook', () => {
    const emc = (system: 'us' | 'metric') =>
      functionPages(system).find(({ name }) => name === 'EMC')?.args[0]?.says;
    expect(emc('us')).toBe('temperature of the air around the wood (°F)');
    expect(emc('metric')).toBe('temperature of the air around the wood (°C)');
  });

  it('says which arguments may be left out, and what they then are', () => {
    const page = pages.find(({ name }) => name === 'CLAMP_COUNT');
    expect(page?.call).toMatch(/^CLAMP_COUNT\(length, .*\[/);
    const optional = page?.args.find(({ says }) => says.includes('left out'));
    expect(optional).toBeDefined();
  });

  it('finds by name, task and words of the description', () => {
    const names = (asked: string) => findPages(pages, asked).map(({ name }) => name);
    expect(names('emc')[0]).toBe('EMC');
    expect(names('board feet')).toContain('BOARDFEET');
    expect(names('clamp pressure')).toContain('CLAMP_FORCE');
    expect(names('zebra')).toEqual([]);
    expect(names(' ')).toHaveLength(pages.length);
  });
});

describe('workOut', () => {
  it('works each formula out on its own, in the units asked for', () => {
    const [one, two] = workOut(['=APRON_LENGTH(2134, 150, 90)', '=A1'], 'metric');
    expect(one?.rows).toEqual([[{ kind: 'number', number: 1654 }]]);
    expect(one?.context.quantity).toBe('length');
    expect(two?.rows).toEqual([[{ kind: 'number', number: 0 }]]);
  });
});

describe('the function whose result a formula is', () => {
  it.each([
    ['=SEATS(1)', 'SEATS'],
    ['= seats(1, (2), ")") ', 'SEATS'],
    // No engine reads a space there.
    ['=SEATS (1)', undefined],
    ['=SEATS(1)+1', undefined],
    ['=SEATS(1)*SEATS(2)', undefined],
    ['=-SEATS(1)', undefined],
    ['=(SEATS(1))', undefined],
    ['=SEATS(1', undefined],
    ['=SEATS', undefined],
  ])('%s', (formula, name) => {
    expect(outermostFunction(readFormula(formula))).toBe(name);
  });
});
