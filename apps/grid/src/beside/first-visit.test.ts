import { type BookHead, MemoryStore } from '@kerfbook/keeping';
import { expect, it } from 'vitest';
import { FirstVisit } from './first-visit.ts';

const looked: BookHead = {
  id: 'template-bench',
  title: 'Bench',
  origin: { kind: 'template', template: 'bench' },
  created: 1,
  updated: 1,
  revision: 0,
};

/** Whether it is said on a device that keeps these. */
async function isSaid(store: MemoryStore, heads: readonly BookHead[]): Promise<boolean> {
  for (const head of heads) await store.put({ ...head, text: '' });
  const visit = new FirstVisit(store);
  await new Promise((resolve) => setTimeout(resolve, 5));
  return visit.state.value;
}

it('is said where nothing of one’s own is kept yet, however many templates were looked at', async () => {
  expect(await isSaid(new MemoryStore(), [])).toBe(true);
  expect(await isSaid(new MemoryStore(), [looked])).toBe(true);
  expect(await isSaid(new MemoryStore(), [{ ...looked, revision: 3 }])).toBe(false);
  expect(await isSaid(new MemoryStore(), [{ ...looked, origin: { kind: 'link' } }])).toBe(false);
});

it('never comes back once it was put away or something was changed', async () => {
  const store = new MemoryStore();
  const visit = new FirstVisit(store);
  visit.over();
  expect(await isSaid(store, [])).toBe(false);
  expect(visit.state.value).toBe(false);
});

it('is said of the first workbook of the page alone', () => {
  const visit = new FirstVisit(new MemoryStore());
  const [first, other] = [{}, {}];
  expect([visit.isOf(first), visit.isOf(other), visit.isOf(first)]).toEqual([true, false, true]);
});
