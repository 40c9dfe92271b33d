import { readFileSync } from 'node:fs';
import { loadText, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { offcutsOf, SHORTEST_KEPT } from './offcuts.ts';
import { shopPlan } from './shop-plan.ts';

const planOf = (key: string) => {
  const file = new URL(`../../../../templates/${key}.json`, import.meta.url);
  const loaded = loadText(readFileSync(file, 'utf8'));
  if (!loaded.ok) throw new Error(loaded.says);
  const { plan } = shopPlan(Workbook.open(loaded.document), 'cell');
  if (plan === undefined) throw new Error('no plan');
  return plan;
};

describe('what remains of a plan', () => {
  it.each(['trestle-table', 'desk', 'plywood-cabinet'])(
    'of the %s is what its boards do not take, where it is worth keeping',
    (key) => {
      const plan = planOf(key);
      const offcuts = offcutsOf(plan);
      const area = offcuts.reduce(
        (sum, { length, width, count }) => sum + length * width * count,
        0,
      );
      // Added up anew: what each board measures, less what is cut from it, holds what remains and the saw cuts.
      let most = 0;
      for (const { boards, panels } of plan.groups) {
        for (const { stock, pieces } of boards) {
          most += stock.width * (stock.length - pieces.reduce((sum, one) => sum + one.length, 0));
        }
        for (const { stock, pieces } of panels) {
          most += stock.width * stock.length;
          most -= pieces.reduce((sum, one) => sum + one.length * one.width, 0);
        }
      }
      expect(offcuts.length).toBeGreaterThan(0);
      expect(area).toBeGreaterThan(0);
      expect(area).toBeLessThanOrEqual(most);
      for (const { length, thickness } of offcuts) {
        expect(length).toBeGreaterThanOrEqual(SHORTEST_KEPT - 0.001);
        expect(thickness).toBeGreaterThan(0);
      }
    },
  );
});
