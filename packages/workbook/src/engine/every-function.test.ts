import { documentOf } from '@kerfbook/document/testing';
import { HyperFormula } from 'hyperformula';
import { beforeAll, describe, expect, it } from 'vitest';
import { Workbook } from '../workbook.ts';
import './config.ts';

const HOSTILE = [
  '0',
  '-1',
  '1e9',
  '1e300',
  '-1e300',
  '1e17',
  '0.1',
  '" "',
  '',
  'Stock!A1:A500',
  'Stock!C:C',
  'REPT(" ",9000)',
];
const MILD = ['1', '0.5', 'Stock!A1:A9', '1000000'];

/** All arguments hostile, and each place in turn with the others mild. */
function* calls(name: string, mild: string): Generator<string> {
  yield `=${name}(SEQUENCE(300,300))`;
  yield `=SUM(${name}(Stock!A1:A500*TRANSPOSE(Stock!A1:A500),0.5))`;
  for (const bad of HOSTILE) {
    for (const count of [1, 2, 3]) yield `=${name}(${Array(count).fill(bad).join(',')})`;
    for (const place of [0, 1, 2, 3]) {
      yield `=${name}(${[0, 1, 2, 3].map((i) => (i === place ? bad : mild)).join(',')})`;
    }
  }
}

describe('every function', () => {
  const names = HyperFormula.getRegisteredFunctionNames('enGB');
  let book: Workbook;
  beforeAll(() => {
    const stock = Array.from({ length: 500 }, (_, i) => [i + 1, (i * 7) % 50, `board ${i % 50}`]);
    book = Workbook.open(documentOf({ sheets: { Stock: stock, Out: [[0]] } }));
  });

  it('is asked', () => {
    expect(names.length).toBeGreaterThan(400);
  });

  // One that is not held to a budget takes minutes or for ever, and so more than the time of a test.
  it.each(names)('V2 B1 answers whatever it is given: %s', (name) => {
    for (const formula of calls(name, MILD[names.indexOf(name) % MILD.length] ?? '1')) {
      const value = book.evaluate(formula, 's2');
      if (value.kind === 'number') expect(value.number, formula).toSatisfy(Number.isFinite);
      if (value.kind === 'error') expect(value.error.says, formula).toMatch(/.\.$/su);
    }
  });
});
