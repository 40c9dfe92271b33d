import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { importFile, writeOds, writeXlsx } from '@kerfbook/interchange';
import { type CellValue, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { goesAlongPage } from '../scripts/goes-along-page.mjs';
import { openTemplate, TEMPLATES } from './templates.ts';

const PAGE = fileURLToPath(new URL('../../packages/interchange/GOES-ALONG.md', import.meta.url));

const near = (one: CellValue, other: CellValue): boolean =>
  one.kind === 'number' && other.kind === 'number'
    ? Math.abs(one.number - other.number) <=
      1e-9 * Math.max(Math.abs(one.number), Math.abs(other.number))
    : one.kind === 'error' && other.kind === 'error'
      ? one.error.word === other.error.word
      : JSON.stringify(one) === JSON.stringify(other);

/** Words that are none, and nothing at all, look alike in a file. */
const isBlank = (value: CellValue): boolean =>
  value.kind === 'empty' || (value.kind === 'text' && value.text === '');

/** What each check says of itself and now, and which cells bear its sign. */
const checksOf = (book: Workbook) => {
  const { checks, sheets } = book.document();
  const marked = book.checks();
  return checks.map(({ name, severity, says, sheet, cells }, at) => ({
    name,
    severity,
    says,
    sheet: sheets.findIndex(({ id }) => id === sheet),
    hasCells: cells !== undefined,
    state: marked[at]?.state,
    now: marked[at]?.says,
  }));
};

const WRITERS = { xlsx: writeXlsx, ods: writeOds } as const;

const CASES = (['xlsx', 'ods'] as const).flatMap((ending) =>
  TEMPLATES.map((name) => ({ name, ending })),
);

describe('every template, out and in again', () => {
  it.each(CASES)(
    '$name comes to the same in every cell as $ending, formulas and names kept',
    ({ name, ending }) => {
      const book = openTemplate(name);
      const { bytes } = WRITERS[ending](book);
      const read = importFile(bytes, `${name}.${ending}`);
      if (!read.ok) throw new Error(read.says);
      const back = Workbook.open(read.document);
      expect(back.units).toBe(book.units);
      expect(back.sheets().map((sheet) => sheet.name)).toEqual(
        book.sheets().map((sheet) => sheet.name),
      );
      const different: string[] = [];
      let cells = 0;
      let formulas = 0;
      for (const [index, sheet] of book.sheets().entries()) {
        const there = back.sheets()[index]?.id ?? '';
        for (let row = 0; row < sheet.rows; row += 1) {
          for (let column = 0; column < sheet.columns; column += 1) {
            const at = { row, column };
            const one = book.cell({ sheet: sheet.id, ...at });
            const other = back.cell({ sheet: there, ...at });
            const where = `${sheet.name}!${one.address}`;
            if (!isBlank(one.value)) cells += 1;
            if (one.formula !== undefined) formulas += 1;
            if (!near(one.value, other.value) && !(isBlank(one.value) && isBlank(other.value))) {
              different.push(
                `${where}: ${JSON.stringify(one.value)} ${JSON.stringify(other.value)}`,
              );
            }
            if ((one.formula === undefined) !== (other.formula === undefined)) {
              different.push(`${where}: ${one.formula} ${other.formula}`);
            }
            if (one.role !== other.role) different.push(`${where}: ${one.role} ${other.role}`);
          }
        }
      }
      expect(different).toEqual([]);
      expect(cells).toBeGreaterThan(100);
      expect(formulas).toBeGreaterThan(20);
      expect(back.tables().map(({ kind, header, last }) => ({ kind, header, last }))).toEqual(
        book.tables().map(({ kind, header, last }) => ({ kind, header, last })),
      );
      expect(back.names().map((one) => one.name)).toEqual(book.names().map((one) => one.name));
      expect(checksOf(back)).toEqual(checksOf(book));
      expect(checksOf(back).length).toBe(book.document().checks.length);
    },
  );

  it('are counted on the page, a line for each (node tests/scripts/goes-along-page.mjs)', () => {
    expect(readFileSync(PAGE, 'utf8')).toBe(goesAlongPage());
  });
});
