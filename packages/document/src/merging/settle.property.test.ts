import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { replay } from '../changes/apply.ts';
import type { Change } from '../changes/types.ts';
import { saveText } from '../format/save.ts';
import type { BookDocument } from '../format/schema.ts';
import { keptByIds } from '../loading/kept-by-ids.ts';
import { loadText } from '../loading/load.ts';
import { BookState } from '../state/state.ts';
import { anyChange, bench } from '../testing/changes.ts';
import { settled, spotKey, type Which } from './settle.ts';
import type { Spot } from './sides.ts';

const names = { mine: 'my workbook', theirs: 'the template' };
const base = keptByIds(BookState.of(bench)).document();
const after = (log: readonly Change[]): BookDocument => replay(base, log).document;

function put(
  mine: BookDocument,
  theirs: BookDocument,
  choices: readonly { readonly spot: Spot; readonly which: Which }[] = [],
) {
  const done = settled({ base, mine, theirs, names }, choices);
  if (!done.ok) throw new Error(done.says);
  return done;
}

const spotsOf = ({ conflicts }: ReturnType<typeof put>): Spot[] => [
  ...new Map(
    conflicts.flatMap(({ spot }) => (spot === undefined ? [] : [[spotKey(spot), spot] as const])),
  ).values(),
];

/** Something said of cells that are there: both come to the same ones often. */
const cells = fc.array(
  fc
    .record({
      row: fc.constantFrom('r1', 'r2', 'r3'),
      column: fc.constantFrom('c1', 'c2'),
      value: fc.integer({ min: 20, max: 29 }),
    })
    .map(
      ({ row, column, value }): Change => ({
        change: 'cells',
        sheet: 's1',
        cells: [{ row, column, cell: { value } }],
      }),
    ),
  { maxLength: 4 },
);
const some = fc.oneof(cells, fc.array(anyChange, { maxLength: 5 }));

const cellAt = (document: BookDocument, spot: Spot & { readonly of: 'cell' }) =>
  document.sheets.find(({ id }) => id === spot.sheet)?.rows.find(({ id }) => id === spot.row)
    ?.cells?.[spot.column];

describe('two workbooks of one template', () => {
  it('H9 are one again where one of them is the template: nothing is told and nothing chosen', () => {
    fc.assert(
      fc.property(some, (log) => {
        const changed = after(log);
        for (const done of [put(changed, base), put(base, changed)]) {
          expect(done.conflicts).toEqual([]);
          expect(saveText(done.document)).toBe(
            saveText(keptByIds(BookState.of(changed)).document()),
          );
        }
      }),
    );
  });

  it('H9 leave no place open once each has a choice, and what comes of it opens', () => {
    fc.assert(
      fc.property(some, some, fc.array(fc.boolean(), { minLength: 1 }), (a, b, picks) => {
        const [mine, theirs] = [after(a), after(b)];
        const choices = spotsOf(put(mine, theirs)).map((spot, i) => ({
          spot,
          which: picks[i % picks.length] === true ? ('mine' as const) : ('theirs' as const),
        }));
        const done = put(mine, theirs, choices);
        const open = new Set(spotsOf(done).map(spotKey));
        for (const { spot } of choices) expect(open.has(spotKey(spot)), spotKey(spot)).toBe(false);
        expect(loadText(saveText(done.document)).ok).toBe(true);
      }),
    );
  });

  it('H9 hold at each cell that both changed what was chosen there', () => {
    let met = 0;
    fc.assert(
      fc.property(cells, cells, fc.array(fc.boolean(), { minLength: 1 }), (a, b, picks) => {
        const [mine, theirs] = [after(a), after(b)];
        const choices = spotsOf(put(mine, theirs)).map((spot, i) => ({
          spot,
          which: picks[i % picks.length] === true ? ('mine' as const) : ('theirs' as const),
        }));
        const { document } = put(mine, theirs, choices);
        for (const { spot, which } of choices) {
          if (spot.of !== 'cell' || spot.part !== 'held') continue;
          met += 1;
          const from = which === 'mine' ? mine : theirs;
          expect(cellAt(document, spot)?.value).toBe(cellAt(from, spot)?.value);
        }
      }),
    );
    expect(met).toBeGreaterThan(20);
  });
});
