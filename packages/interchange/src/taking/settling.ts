import type { BookDocument } from '@kerfbook/document';
import type { CellValue, Workbook } from '@kerfbook/workbook';
import type { CheckIn } from './checks-in.ts';
import type { ToldIn, ValueIn } from './coming-in.ts';

/** A workbook with the value of some cells in the place of their formula; by `sheet row column`, counted from 0. */
export function withValues(
  document: BookDocument,
  values: ReadonlyMap<string, ValueIn>,
): BookDocument {
  return {
    ...document,
    sheets: document.sheets.map((sheet, index) => ({
      ...sheet,
      rows: sheet.rows.map((row, at) => {
        if (row.cells === undefined) return row;
        const cells = Object.fromEntries(
          Object.entries(row.cells).map(([id, cell]) => {
            const column = Number(id.slice(1)) - 1;
            const value = values.get(`${index} ${at} ${column}`);
            if (value === undefined) return [id, cell];
            const { formula: _formula, ...rest } = cell;
            const held =
              value.kind === 'number'
                ? value.number
                : value.kind === 'logical'
                  ? value.logical
                  : value.kind === 'text'
                    ? value.text
                    : value.word;
            return [id, { ...rest, value: held }];
          }),
        );
        return { ...row, cells };
      }),
    })),
  };
}

/** Files write fifteen digits. */
const near = (one: number, other: number): boolean =>
  one === other || Math.abs(one - other) <= 1e-9 * Math.max(Math.abs(one), Math.abs(other), 1e-6);

/** Whether a cell comes to what the file says, but for the last digits of a number. */
export function agrees(here: CellValue, file: ValueIn): boolean {
  switch (file.kind) {
    case 'number':
      if (here.kind === 'logical') return file.number === (here.logical ? 1 : 0);
      return here.kind === 'number'
        ? near(here.number, file.number)
        : here.kind === 'empty' && file.number === 0;
    case 'text':
      return here.kind === 'text'
        ? here.text === file.text
        : here.kind === 'empty' && file.text === '';
    case 'logical':
      return here.kind === 'logical' && here.logical === file.logical;
    case 'error':
      return here.kind === 'error';
  }
}

const LONGEST_SAID = 80;

/** What a cell comes to, for a sentence. */
export function said(value: CellValue): string {
  switch (value.kind) {
    case 'number':
      return String(value.number);
    case 'text':
      return `"${value.text.slice(0, LONGEST_SAID)}"`;
    case 'logical':
      return value.logical ? 'TRUE' : 'FALSE';
    case 'error':
      return value.error.word;
    case 'empty':
      return 'nothing';
  }
}

/** What a file says that a cell holds, for a sentence. */
export const saidIn = (value: ValueIn): string =>
  value.kind === 'error' ? value.word : said(value);

/** Checks that hold here and not in the file, or the other way round. */
export function tellStates(
  book: Pick<Workbook, 'checks'>,
  checks: readonly CheckIn[],
  told: ToldIn[],
): void {
  const states = book.checks();
  for (const [at, { check, holds }] of checks.entries()) {
    const state = states[at]?.state;
    const here = state === undefined || state === 'unknown' ? undefined : state === 'pass';
    if (here === holds) continue;
    const word = (one: boolean | undefined): string =>
      one === undefined ? 'cannot be told' : one ? 'holds' : 'does not hold';
    told.push({
      kind: 'differs',
      of: `Check "${check.name}"`,
      says: `It ${word(here)} here; in the file it ${word(holds)}.`,
    });
  }
}
