import { HyperFormula } from 'hyperformula';
import { describe, expect, it } from 'vitest';
import { documentOf } from '../testing/sample.ts';
import { Workbook } from '../workbook.ts';
import './config.ts';

/** Far more than any takes; one that is not held to a budget takes minutes or for ever. */
const SECONDS = 3;

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
  it('V2 B1 answers at once, whatever it is given', async () => {
    const names = HyperFormula.getRegisteredFunctionNames('enGB');
    expect(names.length).toBeGreaterThan(400);
    const stock = Array.from({ length: 500 }, (_, i) => [i + 1, (i * 7) % 50, `board ${i % 50}`]);
    const book = Workbook.open(documentOf({ sheets: { Stock: stock, Out: [[0]] } }));
    for (const [at, name] of names.entries()) {
      for (const formula of calls(name, MILD[at % MILD.length] ?? '1')) {
        const began = performance.now();
        const value = book.evaluate(formula, 's2');
        const seconds = (performance.now() - began) / 1000;
        if (seconds > SECONDS) throw new Error(`${formula} took ${seconds.toFixed(1)} s.`);
        if (value.kind === 'number' && !Number.isFinite(value.number)) throw new Error(formula);
      }
      if (at % 10 === 0) await new Promise(setImmediate);
    }
  }, 300_000);
});
