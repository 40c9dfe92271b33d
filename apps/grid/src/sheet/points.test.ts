import { Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { Session } from '../session/session.ts';
import { shorterBy, withAligned } from './points.ts';

type Cell = { readonly value: number | string; readonly [key: string]: unknown };

/** A sheet of one column, in a session. */
function sessionOf(cells: readonly (Cell | undefined)[]): Session {
  const book = Workbook.open({
    kerfbook: 8,
    title: 'Numbers',
    units: 'us',
    sheets: [
      {
        id: 's1',
        name: 'One',
        columns: [{ id: 'c1' }],
        rows: cells.map((cell, i) => ({
          id: `r${i}`,
          ...(cell === undefined ? {} : { cells: { c1: cell } }),
        })),
      },
    ],
    checks: [],
    tables: [],
  });
  return new Session({ book, mayChange: true, record: () => undefined });
}

const at = (row: number) => ({ sheet: 's1', row, column: 0 });
const n = (value: number, more: object = {}): Cell => ({ value, ...more });
const shorter = (session: Session, count: number) =>
  Array.from({ length: count }, (_, row) => {
    const found = shorterBy(session.book.cell(at(row)), session);
    return found === undefined ? '' : `${found.digits}${found.point ? ' and the point' : ''}`;
  });

describe('numbers of one column', () => {
  it('are shorter by the decimals that they have not, with the point where they have none', () => {
    const session = sessionOf([n(12.25), n(7), n(3.5), n(100)]);
    expect(shorter(session, 4)).toEqual(['', '2 and the point', '1', '2 and the point']);
  });

  it('are of one kind, without a gap, and three or more', () => {
    expect(shorter(sessionOf([n(12.25), n(7)]), 2)).toEqual(['', '']);
    expect(shorter(sessionOf([n(1.5), n(7), undefined, n(3), n(4)]), 5)).toEqual([
      '',
      '',
      '',
      '',
      '',
    ]);
    const money = { quantity: 'money' };
    const mixed = sessionOf([n(12.25), n(7), n(3.5, money), n(4, money), n(5)]);
    expect(shorter(mixed, 5)).toEqual(['', '', '', '', '']);
  });

  it('leave fractions, words and what is set otherwise alone', () => {
    const fraction = { quantity: 'length', show: { as: 'fraction', denominator: 16 } };
    expect(shorter(sessionOf([n(1.5, fraction), n(2, fraction), n(3, fraction)]), 3)).toEqual([
      '',
      '',
      '',
    ]);
    const start = { style: { align: 'start' } };
    expect(shorter(sessionOf([n(1.5), n(7, start), n(3), n(4)]), 4)).toEqual(['', '', '', '']);
  });

  it('are painted with what changed where the column is longer behind its points now', () => {
    const session = sessionOf([n(1), n(2), n(3), n(4)]);
    expect(shorter(session, 4)).toEqual(['', '', '', '']);
    expect(withAligned(session, [at(1)])).toEqual([at(1)]);
    session.apply({ do: 'enter', sheet: 's1', cells: [{ row: 1, column: 0, text: '2.75' }] });
    const painted = withAligned(session, [at(1)]).map(({ row }) => row);
    expect([...new Set(painted)].sort()).toEqual([0, 1, 2, 3]);
    expect(shorter(session, 4)).toEqual([
      '2 and the point',
      '',
      '2 and the point',
      '2 and the point',
    ]);
  });
});
