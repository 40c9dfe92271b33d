import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { CellView, Workbook } from '@kerfbook/workbook';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { DidLine } from './digest.ts';
import { bookOf, didNow, sessionOf } from './testing.ts';

const TEXT = readFileSync(
  join(import.meta.dirname, '../../../../templates/dining-table.json'),
  'utf8',
);

/** Every cell with a formula, by its ids: what it comes to, and what it shows, whole and exactly. */
function results(book: Workbook): ReadonlyMap<string, { value: string; shows: readonly string[] }> {
  const found = new Map<string, { value: string; shows: readonly string[] }>();
  for (const sheet of book.document().sheets) {
    for (const [row, { id, cells = {} }] of sheet.rows.entries()) {
      for (const [columnId, { formula }] of Object.entries(cells)) {
        if (formula === undefined) continue;
        const column = sheet.columns.findIndex((one) => one.id === columnId);
        const { value, shown } = book.cell({ sheet: sheet.id, row, column });
        found.set(keyOf({ sheet: sheet.id, row: id, column: columnId }), {
          value: value.kind === 'error' ? value.error.word : JSON.stringify(value),
          shows: [shown.text, shown.exact ?? shown.text].map((text) => text || 'empty'),
        });
      }
    }
  }
  return found;
}

const DECIMAL = /-?\d[\d,]*(?:\.\d+)?/;
const numberIn = (text: string): string => (DECIMAL.exec(text)?.[0] ?? '').replaceAll(',', '');

/** What a cell shows, whole or exactly, or its exact number with fewer decimals and rounded. */
function isShown(told: string, shows: readonly string[]): boolean {
  if (shows.includes(told)) return true;
  const [, exact = ''] = shows;
  const [number, whole] = [numberIn(told), numberIn(exact)];
  if (number === '' || whole === '' || exact.includes('/')) return false;
  const decimals = (text: string): number => text.split('.')[1]?.length ?? 0;
  const isRounded = Math.abs(Number(number) - Number(whole)) <= 0.5001 * 10 ** -decimals(number);
  const around = (text: string): string => text.replace(DECIMAL, '');
  return decimals(number) < decimals(whole) && isRounded && around(told) === around(exact);
}

/** The same changes in every run but a long one. */
const seed = process.env.KERFBOOK_TIMES === undefined ? { seed: 20261127 } : {};

const keyOf = ({ sheet, row, column }: DidLine['ids']): string => `${sheet} ${row} ${column}`;

const inputs = (book: Workbook): readonly CellView[] =>
  book.names().flatMap(({ at }) => {
    const cell = book.cell(at);
    return cell.role === 'input' && cell.formula === undefined ? cell : [];
  });

/** Something that may be typed into an input: one of its list, or a number near its own. */
function entryFor({ allow, value }: CellView, by: number): string {
  if (allow?.list !== undefined) return allow.list[Math.floor(by * allow.list.length)] ?? '';
  if (value.kind !== 'number') return 'something else';
  return String(Math.round(value.number * (0.7 + 0.6 * by) * 16) / 16);
}

const step = fc.oneof(
  {
    weight: 5,
    arbitrary: fc.record({
      which: fc.array(fc.double({ min: 0, max: 0.999, noNaN: true }), {
        minLength: 1,
        maxLength: 3,
      }),
      by: fc.double({ min: 0, max: 0.999, noNaN: true }),
    }),
  },
  { weight: 2, arbitrary: fc.constantFrom('undo' as const, 'redo' as const) },
);

describe('random changes of the dining table', () => {
  it('are told with what each result showed before and shows now, and no result is left out', () => {
    fc.assert(
      fc.property(fc.array(step, { minLength: 1, maxLength: 5 }), (steps) => {
        const session = sessionOf(bookOf(TEXT));
        const { book } = session;
        for (const one of steps) {
          const before = results(book as Workbook);
          const last = session.effects.state.value.last?.id;
          if (typeof one === 'string') session[one]();
          else {
            const all = inputs(book as Workbook);
            const edits = one.which.map((part) => {
              const cell = all[Math.floor(part * all.length)] as CellView;
              const { sheet, row, column } = cell.at;
              const text = entryFor(cell, one.by);
              return { do: 'enter' as const, sheet, cells: [{ row, column, text }] };
            });
            session.apply({ do: 'batch', edits });
          }
          session.effects.finish();
          if (session.effects.state.value.last?.id === last) continue;
          const digest = didNow(session);
          const after = results(book as Workbook);
          const told = [...digest.lines, ...digest.others()];
          const moved = [...after].flatMap(([key, { value }]) =>
            before.get(key)?.value === value ? [] : key,
          );
          expect(told.map(({ ids }) => keyOf(ids)).sort()).toEqual(moved.sort());
          for (const { ids, was, is } of told) {
            const [old, now] = [before, after].map((all) => all.get(keyOf(ids))?.shows ?? []);
            expect(was, `was, of ${old}`).toSatisfy((told: string) => isShown(told, old ?? []));
            expect(is, `is, of ${now}`).toSatisfy((told: string) => isShown(told, now ?? []));
          }
        }
      }),
      { numRuns: 6 * Number(process.env.KERFBOOK_TIMES ?? 1), ...seed },
    );
  });
});
