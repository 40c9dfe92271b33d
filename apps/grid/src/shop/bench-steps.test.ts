import { readFileSync } from 'node:fs';
import { bookFormat, shopPlan } from '@kerfbook/drawing';
import { loadText, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { benchBoards } from './bench-boards.ts';
import { benchSteps } from './bench-steps.ts';
import { reckon } from './reckoned.ts';
import { ticked, tickKey } from './ticks.ts';

/** The dining table that ships, with some of its cells typed over. */
function table(entries: Readonly<Record<string, string>> = {}) {
  const file = new URL('../../../../templates/dining-table.json', import.meta.url);
  const loaded = loadText(readFileSync(file, 'utf8'));
  if (!loaded.ok) throw new Error(loaded.says);
  const book = Workbook.open(loaded.document);
  for (const [name, text] of Object.entries(entries)) {
    const { sheet, ...place } = book.named(name)?.at ?? { sheet: '', row: 0, column: 0 };
    expect(book.apply({ do: 'enter', sheet, cells: [{ ...place, text }] }).ok, name).toBe(true);
  }
  const shop = shopPlan(book, 'cell');
  const write = bookFormat(book);
  const { items } = benchBoards(shop, write, ({ row }) => `row ${row}`);
  return { items, write, steps: benchSteps(items, shop, write) };
}
const said = ({ steps }: ReturnType<typeof table>) =>
  steps.map(({ name, count }) => `${count} × ${name}`);

describe('what is ticked off once pieces are cut', () => {
  it('is the second rip of legs from thicker blanks, their mortises, and then their taper', () => {
    expect(said(table())).toEqual(['4 × Leg: turn it a quarter and rip to 3 1/2']);
    const made = table({ tenon_length: '1 1/2', leg_shape: 'tapered on two inside faces' });
    expect(said(made)).toEqual([
      '4 × Leg: turn it a quarter and rip to 3 1/2',
      '4 × Leg: cut its mortises while it is square',
      '4 × Leg: taper the two inside faces, those with mortises, to 2, beginning 4 1/2 from the top end',
    ]);
    expect(new Set(made.steps.map(tickKey)).size).toBe(3);
  });

  it('of a top that is glued up is done to the top, not to each of its boards', () => {
    const round = table({ top_shape: 'oval' });
    expect(said(round)).toContain('1 × Top: cut oval, 84 by 42');
  });

  it('is told as gone, and not kept, where it is another step now', () => {
    const tapered = { tenon_length: '1 1/2', leg_shape: 'tapered on two inside faces' };
    const before = table(tapered);
    const taper = before.steps.at(-1)!;
    const kept = ticked({}, taper, 2, true);
    const same = reckon(kept, [...before.items, ...before.steps], before.write);
    expect(same).toMatchObject({ gone: [], wrong: [], ticks: kept });
    const after = table({ ...tapered, leg_foot: '1 3/4' });
    const now = reckon(kept, [...after.items, ...after.steps], after.write);
    expect(now.gone.map(({ name, pieces }) => [name, pieces])).toEqual([[taper.name, [2]]]);
    expect(now.ticks[tickKey(after.steps.at(-1)!)]).toBeUndefined();
  });
});
