import { saveText } from '@kerfbook/document';
import { describe, expect, it } from 'vitest';
import { bookOf, place, shows, type } from '../testing/sample.ts';

const book = (cells: readonly string[] = []) => {
  const made = bookOf({
    sheets: {
      Plan: [
        ['', ''],
        ['', ''],
        ['', ''],
        ['', ''],
        ['', ''],
      ],
    },
  });
  cells.forEach((text, row) => {
    type(made, `A${row + 1}`, text);
  });
  return made;
};

describe('what a formula makes of a blank cell', () => {
  // Counted by hand in a calendar: March has 31 days.
  it.each([
    ['=A1+7', '2026-03-21', 'date'],
    ['=7+A1', '2026-03-21', 'date'],
    ['=A1-14', '2026-02-28', 'date'],
    ['=A1+A3', '2026-03-24', 'date'],
    ['=A2-A1', '18', 'count'],
    ['=A2-A1+1', '19', 'count'],
    ['=MAX(A1,A2)', '2026-04-01', 'date'],
    ['=EDATE(A1,1)', '2026-04-14', 'date'],
    ['=DATE(2026,3,14)', '2026-03-14', 'date'],
    ['=IF(A3>5,A1,A2)', '2026-03-14', 'date'],
    ['=A1+A2-A2', '2026-03-14', 'date'],
    ['=(A1+TODAY())+7-TODAY()', '2026-03-21', 'date'],
    ['=A4*2', '$75.00', 'money'],
    ['=A4', '$37.50', 'money'],
    ['=A3*2', '20', undefined],
    ['=A2>A1', 'TRUE', undefined],
  ])('N9 %s shows %s', (formula, shown, quantity) => {
    const made = book(['14 Mar 2026', '2026-04-01', '10', '$37.50']);
    type(made, 'B1', formula);
    expect(shows(made, 'B1')).toBe(shown);
    expect(made.cell(place(made, 'B1')).quantity).toBe(quantity);
    expect(made.cell(place(made, 'B1')).clash).toBeUndefined();
  });

  it('N9 follows the formula when it is typed anew, and what a maker said stays', () => {
    const made = book(['14 Mar 2026', '2026-04-01', '10', '$37.50']);
    type(made, 'B1', '=A1+7');
    type(made, 'B1', '=A4*3');
    expect(shows(made, 'B1')).toBe('$112.50');
    type(made, 'B1', '=A3+1');
    expect(shows(made, 'B1')).toBe('11');
    expect(made.cell(place(made, 'B1')).quantity).toBeUndefined();
    const { sheet, row, column } = place(made, 'B1');
    made.apply({
      do: 'describeCells',
      sheet,
      cells: [{ row, column, traits: { quantity: 'mass' } }],
    });
    type(made, 'B1', '=A3+2');
    expect(made.cell(place(made, 'B1')).quantity).toBe('mass');
  });

  it('N9 comes back by one step of undo', () => {
    const made = book(['14 Mar 2026']);
    const before = saveText(made.document());
    type(made, 'B1', '=A1+7');
    made.undo();
    expect(saveText(made.document())).toBe(before);
  });
});

describe('a date in a formula', () => {
  it.each([
    ['=A1+A2', 'This adds a date to a date. Check the references.'],
    ['=A1+A2+A1-A2', 'This adds a date to a date. Check the references.'],
    ['=A1+A2-A3', 'This adds a date to a date. Check the references.'],
    ['=A1+A5', 'A date counts days, and hours divided by 24 are days. Check the references.'],
    ['=A1-A4', 'This takes money from a date. Check the references.'],
  ])('M1 %s', (formula, says) => {
    const made = book(['14 Mar 2026', '2026-04-01', '10', '$37.50', '8 h']);
    type(made, 'B1', formula);
    expect(made.cell(place(made, 'B1')).clash?.says).toBe(says);
  });

  // Counted by hand: of 14 March, 1 April and 20 April 2026.
  it.each([
    ['=COUNTIF(A1:A3,">=2026-04-01")', '2'],
    ['=COUNTIF(A1:A3,"2026-03-14")', '1'],
    ['=COUNTIF(A1:A3,"<>2026-03-14")', '2'],
    ['=SUMIF(A1:A3,"<2026-4-2",B1:B3)', '3'],
    ['=COUNTIFS(A1:A3,">2026-03-14",B1:B3,"<4")', '1'],
    ['=COUNTIF(A1:A3,">=2026-02-30")', '#VALUE!'],
  ])('M1 may stand in a condition, year first: %s', (formula, shown) => {
    const made = book(['14 Mar 2026', '2026-04-01', '20 April 2026']);
    ['1', '2', '4'].forEach((text, row) => {
      type(made, `B${row + 1}`, text);
    });
    type(made, 'B5', formula);
    expect(shows(made, 'B5')).toBe(shown);
    expect(made.cell(place(made, 'B5')).clash).toBeUndefined();
  });

  it.each([
    [
      '">=3/14/2026"',
      '"3/14/2026" in a condition is no date. Write it year first: ">=2026-03-14".',
    ],
    [
      '"3/4/2026"',
      '"3/4/2026" in a condition is no date. Write it year first: "2026-03-04" or "2026-04-03".',
    ],
    [
      '"<14 Mar 2026"',
      '"14 Mar 2026" in a condition is no date. Write it year first: "<2026-03-14".',
    ],
    ['"oak"', undefined],
  ])('M1 in a condition is told how to be written: %s', (condition, says) => {
    const made = book(['14 Mar 2026', '2026-04-01']);
    type(made, 'B1', `=COUNTIF(A1:A2,${condition})`);
    expect(made.cell(place(made, 'B1')).clash?.says).toBe(says);
  });

  it('M2 is no length, and a length is no date', () => {
    const made = book(['14 Mar 2026', '12 in', '2026-04-01']);
    type(made, 'B1', '12 in');
    type(made, 'B1', '=A1');
    expect(made.cell(place(made, 'B1')).clash?.says).toMatch(
      /^The cell is for a length, and its formula gives a date\./,
    );
    type(made, 'A3', '=A2');
    expect(made.cell(place(made, 'A3')).clash?.says).toMatch(
      /^The cell is for a date, and its formula gives a length\./,
    );
  });
});
