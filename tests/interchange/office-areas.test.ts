import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { writeOds, writeXlsx } from '@kerfbook/interchange';
import type { Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { judge, whyNoJudge } from './judge.ts';
import { openTemplate } from './templates.ts';

/**
 * The surface that gets finish, as LibreOffice works it out from the sum that stands for ours: each input that moves it
 * is changed by itself, also to other words. Where parts or joints are others then, the sum is #N/A, and never another
 * area.
 */

type Change = Readonly<Record<string, number | string>>;

/** Every input by itself, in two places of its range and as the words that its cell offers. */
function changesOf(book: Workbook): readonly Change[] {
  return book.names().flatMap(({ name, at }): Change[] => {
    const cell = book.named(name);
    if (cell?.role !== 'input') return [];
    if (cell.value.kind === 'text') {
      return (book.choices(at) ?? []).slice(0, 4).map(({ text }) => ({ [name]: text }));
    }
    const { min, max, whole } = cell.allow ?? {};
    if (min === undefined || max === undefined) return [];
    return [0.25, 0.75].map((share) => {
      const value = min + share * (max - min);
      return { [name]: whole === true ? Math.round(value) : Number(value.toPrecision(6)) };
    });
  });
}

const areaIn = (book: Workbook): number | undefined => {
  const value = book.named('area_finish')?.value;
  return value?.kind === 'number' ? value.number : undefined;
};

/** The surface after a change that can be built; undefined where nothing of it moves, or it cannot be built. */
function areaAfter(book: Workbook, change: Change): number | undefined {
  const before = areaIn(book);
  let typed = 0;
  for (const [name, value] of Object.entries(change)) {
    const at = book.named(name)?.at;
    if (at === undefined) throw new Error(name);
    const cells = [{ row: at.row, column: at.column, text: String(value) }];
    if (book.apply({ do: 'enter', sheet: at.sheet, cells }).ok) typed += 1;
  }
  const severities = new Map(book.document().checks.map(({ id, severity }) => [id, severity]));
  const isBuilt = book
    .checks()
    .every(({ id, state }) => state === 'pass' || severities.get(id) === 'care');
  const after = areaIn(book);
  for (let step = 0; step < typed; step += 1) book.undo();
  return isBuilt && after !== before ? after : undefined;
}

const why = whyNoJudge();
const withJudge = why === undefined ? describe : () => undefined;

withJudge('the surface of joined parts in another program', () => {
  it.each([
    ['bookcase', 'xlsx', writeXlsx],
    ['cabinet-door', 'ods', writeOds],
    ['plywood-cabinet', 'xlsx', writeXlsx],
  ] as const)(
    'follows sizes and counts of %s, as %s, and is #N/A with other joints',
    (name, ending, write) => {
      const book = openTemplate(name);
      const at = book.named('area_finish')?.at;
      const sheet = book.sheets().find(({ id }) => id === at?.sheet)?.name;
      const moves = changesOf(book).flatMap((change) => {
        const area = areaAfter(book, change);
        return area === undefined ? [] : [{ change, area }];
      });
      const folder = mkdtempSync(join(tmpdir(), 'kerfbook-judge-'));
      try {
        const path = join(folder, `${name}.${ending}`);
        const { bytes, told } = write(book);
        expect(told.filter(({ says }) => says.includes('PARTS_AREA'))).toEqual([]);
        writeFileSync(path, bytes);
        const [answer] = judge([{ path, inputs: moves.map(({ change }) => change) }]);
        const counts = { same: 0, unknown: 0 };
        for (const [which, { change, area }] of moves.entries()) {
          const [, , , kind, value] =
            answer?.after[which]?.find(
              (one) => one[0] === sheet && one[1] === at?.row && one[2] === at.column,
            ) ?? [];
          if (kind === 'error') counts.unknown += 1;
          else {
            counts.same += 1;
            const off = Math.abs(Number(value) - area);
            expect(off, `${JSON.stringify(change)}: ${value} for ${area}`).toBeLessThan(
              1e-8 * area,
            );
          }
        }
        console.log(
          `${name}.${ending}: ${counts.same} surfaces the same, ${counts.unknown} not known there`,
        );
        expect(counts.same).toBeGreaterThan(15);
        expect(counts.unknown).toBeGreaterThan(0);
        expect(counts.unknown).toBeLessThan(counts.same / 3);
      } finally {
        rmSync(folder, { recursive: true, force: true });
      }
    },
  );
});
