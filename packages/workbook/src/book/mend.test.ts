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
    ['planed', 'rough_quarters'],
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
    const [at] = book.placesToMend(check);
    expect(at && book.cell(at).name).toBe(name);
  });

  // By hand from what the table's own sentence asks for then: buttons a gap, figure-8s to be turned or to swing further.
  it.each([
    [{ tongue_gap: '1/16' }, 'tongue_gap'],
    [{ fastener_long: 'figure-8' }, 'points_long'],
    [{ swivel_swing: '5' }, 'swivel_swing', 'fastenshort'],
    [{ fastener_short: 'slotted screw' }, 'points_short', 'fastenshort'],
  ])(
    'K6 of what a cell says is to be done is the input that does it: %o',
    (entries, name, check = 'fasten') => {
      const other = table();
      for (const [cell, entry] of Object.entries(entries)) {
        const { sheet, ...place } = other.named(cell)?.at ?? { sheet: '', row: 0, column: 0 };
        expect(other.apply({ do: 'enter', sheet, cells: [{ ...place, text: entry }] }).ok).toBe(
          true,
        );
      }
      expect(other.checks().find(({ id }) => id === check)?.state).toBe('stop');
      const [at] = other.placesToMend(check);
      expect(at && other.cell(at).name).toBe(name);
    },
  );

  // By hand from the sentences again: every input that is asked to be made otherwise, on whatever sheet.
  it.each([
    [
      { moisture_build: '10', top_width: '60' },
      'fasten',
      ['tongue_gap', 'tongue_length', 'groove_depth'],
    ],
    [{ swivel_swing: '5' }, 'fastenshort', ['swivel_swing', 'swivel_spacing']],
    [{ overhang_end: '29' }, 'tip', ['overhang_end', 'overhang_side']],
    [{ apron_setback: '2 1/4' }, 'legfit', ['apron_setback', 'leg_size', 'apron_thickness']],
    [{ top_length: '50', top_shape: 'round' }, 'roundtop', ['top_length', 'top_width']],
  ])('K6 are all inputs that it asks to be made otherwise: %o', (entries, check, names) => {
    const other = table();
    for (const [cell, entry] of Object.entries(entries)) {
      const { sheet, ...place } = other.named(cell)?.at ?? { sheet: '', row: 0, column: 0 };
      expect(other.apply({ do: 'enter', sheet, cells: [{ ...place, text: entry }] }).ok).toBe(true);
    }
    const { state, says } = other.checks().find(({ id }) => id === check) ?? {};
    expect(state).not.toBe('pass');
    const found = other.placesToMend(check).map((at) => other.cell(at).name);
    expect(found, says).toEqual(names);
  });

  it('K6 is an input, or the result of a table, for every check that rests on any', () => {
    for (const { id } of book.checks()) {
      const [at] = book.placesToMend(id);
      expect(at, id).toBeDefined();
      if (at === undefined) continue;
      const cell = book.cell(at);
      const isMade = cell.formula !== undefined && book.explain(at).uses.length > 12;
      expect(cell.formula === undefined || isMade, `${id}: ${cell.name}`).toBe(true);
    }
  });

  it('K6 is none for a check that is not there', () => {
    expect(book.placesToMend('no such')).toEqual([]);
  });
});
