import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { replay } from '../changes/apply.ts';
import { documentChanges } from '../changes/between.ts';
import type { Change } from '../changes/types.ts';
import { saveText } from '../format/save.ts';
import { loadText } from '../loading/load.ts';
import { anyChange, bench } from '../testing/changes.ts';
import { mergeLogs } from './merge.ts';

/** Something else about a cell that is there, as both may think of it. */
const near = fc
  .tuple(
    fc.constantFrom(
      ...bench.sheets.flatMap(({ id, rows }) =>
        rows.flatMap((row) =>
          Object.entries(row.cells ?? {}).map(([column, cell]) => ({
            id,
            row: row.id,
            column,
            cell,
          })),
        ),
      ),
    ),
    fc.constantFrom({ remark: 'Wet.' }, { value: 9 }, { style: { bold: true } as const }),
  )
  .map(
    ([{ id, row, column, cell }, other]): Change => ({
      change: 'cells',
      sheet: id,
      cells: [{ row, column, cell: { ...cell, ...other } }],
    }),
  );
const some = fc.array(fc.oneof({ weight: 3, arbitrary: anyChange }, near), { maxLength: 5 });
const bytes = (...logs: (readonly Change[])[]): string =>
  saveText(logs.reduce((document, log) => replay(document, log).document, bench));

function merged(mine: readonly Change[], theirs: readonly Change[], turn?: 'turned') {
  const logs = [
    { name: 'Ann', changes: mine },
    { name: 'Bea', changes: theirs },
  ] as const;
  const done = mergeLogs(bench, turn === undefined ? logs : [logs[1], logs[0]]);
  if (!done.ok) throw new Error(done.says);
  return done;
}

describe('two logs', () => {
  it('H7 are merged to the same bytes and told alike whoever merges, and what comes of it opens', () => {
    fc.assert(
      fc.property(some, some, (mine, theirs) => {
        const one = merged(mine, theirs);
        const other = merged(theirs, mine, 'turned');
        const swapped = mergeLogs(bench, [
          { name: 'Bea', changes: theirs },
          { name: 'Ann', changes: mine },
        ]);
        const text = saveText(one.document);
        expect(saveText(other.document)).toBe(text);
        expect(swapped).toMatchObject({ ok: true, document: one.document });
        expect(swapped.ok && swapped.conflicts).toEqual(one.conflicts);
        const loaded = loadText(text);
        expect(loaded.ok && saveText(loaded.document)).toBe(text);
        for (const [i, log] of [mine, theirs].entries()) {
          const done = replay(replay(bench, log).document, one.changes[i as 0 | 1]);
          expect(done.conflicts).toEqual([]);
          expect(saveText(done.document)).toBe(text);
        }
        for (const { says } of one.conflicts) expect(says).toMatch(/^[^a-z].{20,}\.$/su);
      }),
      { numRuns: 2_000 },
    );
  });

  it('H8 commute where nothing is told: one after the other they give the merged workbook', () => {
    let quiet = 0;
    fc.assert(
      fc.property(some, some, (raw, alsoRaw) => {
        const [mine, theirs] = [raw, alsoRaw].map((log) =>
          documentChanges(bench, replay(bench, log).document),
        ) as [readonly Change[], readonly Change[]];
        const { document, conflicts } = merged(mine, theirs);
        if (conflicts.length > 0) return;
        quiet += 1;
        expect(bytes(mine, theirs)).toBe(bytes(theirs, mine));
        expect(bytes(mine, theirs)).toBe(saveText(document));
        // And nothing was left out: said once more, it is all there already.
        for (const log of [mine, theirs]) {
          const said = log.filter(({ change }) => change === 'cells' || change === 'set');
          const again = replay(document, said);
          expect(again.conflicts).toEqual([]);
          expect(saveText(again.document)).toBe(saveText(document));
        }
      }),
      { numRuns: 3_000 },
    );
    expect(quiet).toBeGreaterThan(300);
  });

  it('H8 alone are what they are: merged with nothing, or with themselves, nothing is told', () => {
    fc.assert(
      fc.property(some, (mine) => {
        const own = bytes(mine);
        for (const theirs of [[], mine]) {
          const { document, conflicts } = merged(mine, theirs);
          expect(conflicts).toEqual([]);
          expect(saveText(document)).toBe(own);
        }
      }),
      { numRuns: 1_000 },
    );
  });
});
