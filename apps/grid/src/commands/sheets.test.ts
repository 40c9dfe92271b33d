import { Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { Session } from '../session/session.ts';
import { copySheet } from './sheets.ts';

const sessionOn = (name: string): Session => {
  const book = Workbook.open({
    kerfbook: 8,
    title: 'A bench for trying things',
    units: 'us',
    sheets: [{ id: 's1', name, columns: [{ id: 'c1' }], rows: [{ id: 'r1' }] }],
    checks: [],
    tables: [],
  });
  const session = new Session({ book, mayChange: true, record: () => undefined });
  session.go({ sheet: 's1', row: 0, column: 0 });
  return session;
};

describe('a copy of a sheet', () => {
  it.each([
    ['Base', 'Base 2'],
    ['Base 2', 'Base 3'],
    ['A name of thirty-one letters xyz', 'A name of thirty-one letters 2'],
    [`${'x'.repeat(28)}🪵y`, `${'x'.repeat(28)} 2`],
  ])('of %j is called %j', (name, copy) => {
    const start = name.slice(0, 31);
    const session = sessionOn(start);
    copySheet(session);
    expect(session.state.value.refused).toBeUndefined();
    expect(session.book.sheets().map((sheet) => sheet.name)).toEqual([start, copy]);
  });
});
