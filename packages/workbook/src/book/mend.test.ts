import { readFileSync } from 'node:fs';
import { loadText } from '@kerfbook/document';
import { describe, expect, it } from 'vitest';
import { Workbook } from '../workbook.ts';

const text = readFileSync(
  new URL('../../../../templates/dining-table.json', import.meta.url),
  'utf8',
);

function table(): Workbook {
  const loaded = loadText(text);
  if (!loaded.ok) throw new Error('The template does not open.');
  return Workbook.open(loaded.document);
}

describe('the cell where a maker mends what a check says', () => {
  const book = table();
  // By hand from the sentences of the checks: what each asks to be made otherwise.
  it.each([
    ['seatknee', 'table_height'],
    ['planed', 'top_thickness'],
    ['sag', 'apron_width'],
    ['lift', 'people_lifting'],
    ['legfit', 'apron_setback'],
    // Who leans on it weighs what they weigh: the overhang is what can be made shorter.
    ['tip', 'overhang_end'],
    ['climb', 'overhang_end'],
    ['legsunder', 'overhang_end'],
    // A plan is made of two tables: no one number of them is the one.
    ['planwhole', 'plan_left_out'],
    ['quote', 'quoted_price'],
  ])('K6 of %s is %s', (check, name) => {
    const at = book.placeToMend(check);
    expect(at && book.cell(at).name).toBe(name);
  });

  it('K6 is an input, or the result of a table, for every check that rests on any', () => {
    for (const { id } of book.checks()) {
      const at = book.placeToMend(id);
      expect(at, id).toBeDefined();
      if (at === undefined) continue;
      const cell = book.cell(at);
      const isMade = cell.formula !== undefined && book.explain(at).uses.length > 12;
      expect(cell.formula === undefined || isMade, `${id}: ${cell.name}`).toBe(true);
    }
  });

  it('K6 is none for a check that is not there', () => {
    expect(book.placeToMend('no such')).toBeUndefined();
  });
});
