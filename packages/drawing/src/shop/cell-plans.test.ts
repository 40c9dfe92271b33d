import { forgetFurther, keepFurther } from '@kerfbook/cutting';
import { loadText, Workbook } from '@kerfbook/workbook';
import { afterEach, describe, expect, it } from 'vitest';
import { cellPlans, restingOn } from './cell-plans.ts';

afterEach(forgetFurther);

/** An invented job of rails, priced in two cells; one of them is in the sum. */
const RAILS = [
  [30, 6, 96, 8.5, '=BUY_COST(A1:A2,B1:B2,C1:C2,D1:D2,1/8)', '=E1*2'],
  [22, 4, 120, 11, '=BUY_BOUND(A1:A2,B1:B2,C1:C2,D1:D2,1/8)', '=F1+1'],
  [null, null, null, null, '=BUY_COST({20},{2},{96},{8.5},1/8)+1', '=SUM(A1:B2)'],
];

function book(): Workbook {
  const rows = RAILS.map((row, r) => ({
    id: `r${r + 1}`,
    cells: Object.fromEntries(
      row.flatMap((held, c) =>
        held === null
          ? []
          : [[`c${c + 1}`, typeof held === 'string' ? { formula: held } : { value: held }]],
      ),
    ),
  }));
  const columns = RAILS[0]?.map((_, c) => ({ id: `c${c + 1}` }));
  const sheets = [{ id: 's1', name: 'Rails', columns, rows }];
  const text = { kerfbook: 8, title: 'Rails', units: 'us', sheets, checks: [], tables: [] };
  const loaded = loadText(JSON.stringify(text));
  if (!loaded.ok) throw new Error(loaded.says);
  return Workbook.open(loaded.document);
}
const at = (row: number, column: number) => ({ sheet: 's1', row, column });

describe('plans that cells answer with', () => {
  it('are told once each, with their cells', () => {
    const plans = cellPlans(book());
    expect(plans.map(({ cells }) => cells)).toEqual([[at(0, 4), at(1, 4)], [at(2, 4)]]);
    expect(plans.map(({ asked }) => asked.job.parts.length)).toEqual([2, 1]);
  });

  it('are those of the cells as they stand, without what an override hides', () => {
    const rails = book();
    rails.apply({ do: 'enter', sheet: 's1', cells: [{ row: 0, column: 0, text: '31' }] });
    const [first] = cellPlans(rails);
    expect(first?.asked.job.parts[0]?.length).toBe(31);
    rails.apply({ do: 'enter', sheet: 's1', cells: [{ row: 2, column: 4, text: '12' }] });
    expect(cellPlans(rails)).toHaveLength(1);
  });

  it('are open, proven or at their end', () => {
    const rails = book();
    for (const { asked } of cellPlans(rails)) expect(asked.state).toBe('proven');
    const [first] = cellPlans(rails);
    if (first === undefined) throw new Error('no plan');
    const { job, plan } = first.asked;
    const other = { ...plan, cost: 77, bound: 70, proven: false };
    expect(keepFurther(job, other, plan)).toBe(true);
    rails.recalculate();
    expect(rails.value(at(0, 4))).toEqual({ kind: 'number', number: 77 });
    expect(rails.value(at(0, 5))).toEqual({ kind: 'number', number: 154 });
    expect(cellPlans(rails)[0]?.asked.state).toBe('ended');
  });

  it('carry on to every cell that rests on them', () => {
    const rails = book();
    const resting = restingOn(rails, [at(0, 4)]);
    expect([...resting.values()]).toEqual([at(0, 4), at(0, 5), at(1, 5)]);
  });
});
