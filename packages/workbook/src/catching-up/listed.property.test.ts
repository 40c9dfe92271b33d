import { type BookDocument, BookState, type Change, keptByIds, replay } from '@kerfbook/document';
import { anyChange, bench } from '@kerfbook/document/testing/changes';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Workbook } from '../workbook.ts';
import { compared } from './compared.ts';
import { type Listed, listed } from './listed.ts';
import { Renewal } from './renewal.ts';

const base = keptByIds(BookState.of(bench)).document();
const after = (log: readonly Change[]): BookDocument => replay(base, log).document;
const some = fc.array(anyChange, { maxLength: 6 });

/** Entries, names and remarks of few cells, and rows that go: two of these meet often. */
const meeting = fc.array(
  fc.oneof(
    {
      weight: 5,
      arbitrary: fc
        .record({
          row: fc.constantFrom('r1', 'r2', 'r3'),
          column: fc.constantFrom('c1', 'c2'),
          value: fc.integer({ min: 20, max: 99 }),
          remark: fc.constantFrom('Dry.', 'Wet.', 'Split.'),
        })
        .map(
          ({ row, column, value, remark }): Change => ({
            change: 'cells',
            sheet: 's1',
            cells: [{ row, column, cell: { value, remark } }],
          }),
        ),
    },
    fc
      .constantFrom('r2', 'r3')
      .map((id): Change => ({ change: 'remove', list: 'rows', sheet: 's1', ids: [id] })),
    anyChange,
  ),
  { minLength: 1, maxLength: 5 },
);

/** What a maker typed into each cell, by the ids of its sheet, row and column: its entry, its name, its remark. */
function typedIn(document: BookDocument): ReadonlyMap<string, readonly string[]> {
  const book = Workbook.open(document);
  const typed = new Map<string, readonly string[]>();
  for (const { id, columns, rows } of document.sheets) {
    for (const [row, { id: rowId }] of rows.entries()) {
      for (const [column, { id: columnId }] of columns.entries()) {
        const { entry, name, remark } = book.cell({ sheet: id, row, column });
        const texts = [entry, name ?? '', remark ?? ''];
        if (texts.some((one) => one !== '')) typed.set(`${id} ${rowId} ${columnId}`, texts);
      }
    }
  }
  return typed;
}

/** Words and numbers that stand in one and not in the other one at the same place. */
function lost(from: BookDocument, to: BookDocument): readonly string[] {
  const [one, other] = [typedIn(from), typedIn(to)];
  return [...one].flatMap(([place, texts]) =>
    texts.filter((text, i) => text !== '' && other.get(place)?.[i] !== text),
  );
}

/** The same without what follows from a row or a column that moved: addresses, as formulas are written. */
const bare = (text: string): string => text.replaceAll(/[A-Z]+\d+|#REF!/g, 'X');

const saysIt = (texts: readonly string[], text: string): boolean =>
  texts.some((one) => bare(one).toLowerCase().includes(bare(text).toLowerCase()));

describe('what is otherwise between two workbooks', () => {
  it('H10 leaves out nothing that was typed in one of them and does not stand in the other', () => {
    let told = 0;
    fc.assert(
      fc.property(some, some, (a, b) => {
        const [one, other] = [after(a), after(b)];
        const all = listed({ before: Workbook.open(one), after: Workbook.open(other) });
        const says = (side: 'before' | 'after') => all.map((line) => line[side]);
        // A formula that is alike by ids may be written otherwise: rows above it came or went.
        const held = (document: BookDocument) => document.sheets.flatMap(({ rows }) => rows);
        if (JSON.stringify(held(one)) === JSON.stringify(held(other))) return;
        for (const text of lost(one, other).filter((entry) => !entry.startsWith('='))) {
          expect(saysIt(says('before'), text), text).toBe(true);
          told += 1;
        }
        for (const text of lost(other, one).filter((entry) => !entry.startsWith('='))) {
          expect(saysIt(says('after'), text), text).toBe(true);
          told += 1;
        }
      }),
      { numRuns: 300 },
    );
    expect(told).toBeGreaterThan(300);
  });

  it('H10 tells of every formula that was written otherwise', () => {
    const one = after([
      {
        change: 'cells',
        sheet: 's1',
        cells: [
          { row: 'r1', column: 'c1', cell: { formula: '=[c1.r2]+1' } },
          { row: 'r2', column: 'c2', cell: null },
        ],
      },
    ]);
    const { typed } = compared(base, one);
    expect(typed.map(({ before, after: now }) => [before, now])).toEqual(
      expect.arrayContaining([[expect.stringMatching(/^84/), expect.stringContaining('(=A2+1)')]]),
    );
    expect(typed.some(({ before }) => before.includes('(=SUM('))).toBe(true);
  });

  it('H10 loses nothing that either of two makers typed: it stands there, or it is shown', () => {
    let shown = 0;
    fc.assert(
      fc.property(meeting, meeting, fc.boolean(), (a, b, mineStays) => {
        const [mine, theirs] = [after(a), after(b)];
        const made = Renewal.of(base, theirs, mine);
        if (!made.ok) return;
        const { renewal } = made;
        const which = mineStays ? 'mine' : 'theirs';
        const choices = new Map(renewal.met.map(({ key }) => [key, which] as const));
        const done = renewal.settle(choices);
        if (!done.ok) throw new Error(done.says);
        const all = [
          ...renewal.met.flatMap((met) => [met.mine, met.theirs].map(({ entry }) => entry)),
          ...[...renewal.taken, ...renewal.kept].flatMap((line: Listed) => [
            line.before,
            line.after,
          ]),
          ...renewal.told(choices),
        ];
        for (const side of [mine, theirs]) {
          const typed = new Set(lost(side, base));
          for (const text of lost(side, done.document)) {
            if (!typed.has(text) || text.startsWith('=')) continue;
            expect(saysIt(all, text), `${text} of ${side === mine ? 'mine' : 'theirs'}`).toBe(true);
            shown += 1;
          }
        }
      }),
      { numRuns: 300 },
    );
    expect(shown).toBeGreaterThan(100);
  });
});
