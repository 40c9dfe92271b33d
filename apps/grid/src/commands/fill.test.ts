import { Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { Session } from '../session/session.ts';
import { fill, fillByKey } from './fill.ts';
import { sortRows } from './sort.ts';

/** A session on an invented sheet whose first rows hold these entries. */
function sessionOf(...rows: readonly (readonly string[])[]): Session {
  const book = Workbook.open({
    kerfbook: 8,
    title: 'A bench for trying things',
    units: 'us',
    sheets: [
      {
        id: 's1',
        name: 'Sheet',
        columns: ['c1', 'c2', 'c3', 'c4', 'c5'].map((id) => ({ id })),
        rows: Array.from({ length: 8 }, (_, i) => ({ id: `r${i + 1}` })),
      },
    ],
    checks: [],
    tables: [],
  });
  const session = new Session({ book, mayChange: true, record: () => undefined });
  session.apply({
    do: 'enter',
    sheet: 's1',
    cells: rows.flatMap((line, row) => line.map((text, column) => ({ row, column, text }))),
  });
  session.go({ sheet: 's1', row: 0, column: 0 });
  return session;
}

const entries = (session: Session, column: number, count: number): string[] =>
  Array.from({ length: count }, (_, row) => session.book.cell({ sheet: 's1', row, column }).entry);

const area = (top: number, left: number, bottom: number, right: number) => ({
  top,
  left,
  bottom,
  right,
});

describe('filling', () => {
  it.each([
    [
      ['1', '2'],
      ['1', '2', '3', '4', '5'],
    ],
    [
      ['2', '4.5'],
      ['2', '4.5', '7', '9.5', '12'],
    ],
    [
      ['0.1', '0.2'],
      ['0.1', '0.2', '0.3', '0.4', '0.5'],
    ],
    [['5'], ['5', '5', '5', '5', '5']],
    [['shelf 1'], ['shelf 1', 'shelf 2', 'shelf 3', 'shelf 4', 'shelf 5']],
    [
      ['leg 10', 'leg 8'],
      ['leg 10', 'leg 8', 'leg 6', 'leg 4', 'leg 2'],
    ],
    [
      ['oak', 'ash'],
      ['oak', 'ash', 'oak', 'ash', 'oak'],
    ],
    [
      ['1', '2', '4'],
      ['1', '2', '4', '1', '2'],
    ],
    [['=B1*2'], ['=B1*2', '=B2*2', '=B3*2', '=B4*2', '=B5*2']],
    [
      ['=B$1*2', '=B2'],
      ['=B$1*2', '=B2', '=B$1*2', '=B4', '=B$1*2'],
    ],
  ])('%j goes on', (from, to) => {
    const session = sessionOf(...from.map((one) => [one]));
    fill(session, area(0, 0, from.length - 1, 0), area(0, 0, 4, 0));
    expect(entries(session, 0, 5)).toEqual(to);
  });

  it('goes back up as well, and across', () => {
    const session = sessionOf([''], [''], ['3'], ['4']);
    session.go({ sheet: 's1', row: 2, column: 0 });
    fill(session, area(2, 0, 3, 0), area(0, 0, 3, 0));
    expect(entries(session, 0, 4)).toEqual(['1', '2', '3', '4']);
    const wide = sessionOf(['1', '3']);
    fill(wide, area(0, 0, 0, 1), area(0, 0, 0, 3));
    expect([0, 1, 2, 3].map((column) => entries(wide, column, 1)[0])).toEqual(['1', '3', '5', '7']);
  });

  it('is one step of undo, and leaves names where they are', () => {
    const session = sessionOf(['1'], ['2'], ['9']);
    session.apply({ do: 'nameCell', at: { sheet: 's1', row: 2, column: 0 }, name: 'third' });
    fill(session, area(0, 0, 1, 0), area(0, 0, 2, 0));
    expect(session.book.find('third')).toEqual({ sheet: 's1', row: 2, column: 0 });
    expect(entries(session, 0, 3)).toEqual(['1', '2', '3']);
    session.undo();
    expect(entries(session, 0, 3)).toEqual(['1', '2', '9']);
  });

  it('by key copies what stands above a single cell', () => {
    const session = sessionOf(['=B1+1']);
    session.go({ sheet: 's1', row: 1, column: 0 });
    fillByKey(session, 'down');
    expect(entries(session, 0, 2)).toEqual(['=B1+1', '=B2+1']);
    session.go({ sheet: 's1', row: 0, column: 0 });
    fillByKey(session, 'down');
    expect(entries(session, 0, 2)).toEqual(['=B1+1', '=B2+1']);
  });
});

describe('sorting', () => {
  it('puts numbers before words and empty ones last, either way round', () => {
    const start = () => {
      const session = sessionOf(['oak'], ['3'], [''], ['1'], ['ash']);
      session.select(area(0, 0, 4, 0));
      return session;
    };
    const up = start();
    sortRows(up, 'last');
    expect(entries(up, 0, 5)).toEqual(['1', '3', 'ash', 'oak', '']);
    const down = start();
    sortRows(down, 'first');
    expect(entries(down, 0, 5)).toEqual(['oak', 'ash', '3', '1', '']);
  });
});
