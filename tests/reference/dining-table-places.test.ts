import { buildScene, readParts } from '@kerfbook/drawing';
import type { Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { enterAll, numberIn, tableWith } from './dining-table-book.ts';

type Triple = readonly [number, number, number];

/** Exact by definition (NIST SP 811, appendix B). */
const MM = 25.4;

/**
 * The near left lower corner of every piece, in, worked out from the inputs alone: the table is
 * symmetric, legs stand in from the edges of the top, aprons run between the legs and reach their
 * tenons' length into each, supports stand at equal centers between the legs.
 */
function cornersOf(book: Workbook): Readonly<Record<string, readonly Triple[]>> {
  const at = (name: string): number => numberIn(book, name);
  const [length, width] = [at('top_length'), at('top_width')];
  const [end, side, leg] = [at('overhang_end'), at('overhang_side'), at('leg_size')];
  const [setback, thick, tenon] = [at('apron_setback'), at('apron_thickness'), at('tenon_length')];
  const under = at('table_height') - at('top_thickness');
  const legsX = [end, length - end - leg];
  const legsY = [side, width - side - leg];
  const supports = at('support_count');
  const step = (length - 2 * end - 2 * leg) / (supports + 1);
  const apronZ = under - at('apron_width');
  return {
    Top: [[0, 0, under]],
    Leg: legsX.flatMap((x) => legsY.map((y): Triple => [x, y, 0])),
    'Long apron': [side + setback, width - side - setback - thick].map(
      (y): Triple => [end + leg - tenon, y, apronZ],
    ),
    'Short apron': [end + setback, length - end - setback - thick].map(
      (x): Triple => [x, side + leg - tenon, apronZ],
    ),
    'Cross support': Array.from(
      { length: supports },
      (_, i): Triple => [
        end + leg + (i + 1) * step - at('support_thickness') / 2,
        side + setback + thick,
        under - at('support_width'),
      ],
    ),
  };
}

const drawnOf = (book: Workbook) => buildScene(readParts(book).parts);

const TABLES: readonly Readonly<Record<string, string>>[] = [
  {},
  { top_length: '96', top_width: '44', leg_size: '2 1/4', apron_setback: '1/2' },
  { top_length: '48', top_width: '24', overhang_end: '0', overhang_side: '0', support_count: '1' },
  { tenon_length: '0', support_count: '5', apron_width: '5', apron_thickness: '7/8' },
  { table_height: '36', top_thickness: '2', overhang_end: '12', support_count: '0' },
];

describe('the dining table is drawn where its inputs put each piece', () => {
  it.each(TABLES)('%o', (entries) => {
    const book = tableWith(entries);
    const { pieces, problems } = drawnOf(book);
    expect(problems).toEqual([]);
    const own = cornersOf(book);
    for (const [name, corners] of Object.entries(own)) {
      const drawn = pieces.filter(({ part }) => part.name === name);
      expect(drawn, name).toHaveLength(corners.length);
      for (const [i, { from }] of drawn.entries()) {
        const [x, y, z] = corners[i] ?? [];
        expect(from.x, `${name} ${i} x`).toBeCloseTo((x ?? Number.NaN) * MM, 6);
        expect(from.y, `${name} ${i} y`).toBeCloseTo((y ?? Number.NaN) * MM, 6);
        expect(from.z, `${name} ${i} z`).toBeCloseTo((z ?? Number.NaN) * MM, 6);
      }
    }
    expect(pieces).toHaveLength(Object.values(own).flat().length);
  });

  it('is whole at a place that is typed otherwise, and says of a slip what was meant', () => {
    const book = tableWith({});
    const place = (text: string): void => {
      const sheet = book.tables().find(({ kind }) => kind === 'parts')?.sheet ?? '';
      const row = readParts(book).parts.find(({ name }) => name === 'Leg')?.at.row ?? 0;
      const done = book.apply({ do: 'enter', sheet, cells: [{ row, column: 7, text }] });
      if (!done.ok) throw new Error(done.says);
    };
    place('at the 4 corners');
    expect(drawnOf(book).pieces).toHaveLength(drawnOf(tableWith({})).pieces.length);
    place('four corner of Top');
    expect(readParts(book).problems.map(({ says }) => says)).toContain(
      'The place of Leg says "four corner of Top", which places nothing. Nearest: "four corners of Top".',
    );
    // The number of legs is the row's own.
    expect(readParts(book).parts.find(({ name }) => name === 'Leg')?.count).toBe(4);
    enterAll(book, { top_length: '90' });
    place('four corners of Top');
    expect(drawnOf(book).problems).toEqual([]);
  });
});
