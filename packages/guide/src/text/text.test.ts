import { describe, expect, it } from 'vitest';
import { stepBook } from '../testing/step-book.ts';
import { asSaid, guideFormat, saidMm } from './as-said.ts';
import { asMakersWrite } from './as-written.ts';
import { numberWords, plainText, runsOf } from './runs.ts';
import { spoken } from './spoken.ts';

describe('numbers in sentences', () => {
  it.each([
    ['1685', '1,685'],
    ['33 3/16', '33 3/16'],
    ['1234567', '1,234,567'],
    ['0.12345', '0.12345'],
    ['999', '999'],
    ['1/1024', '1/1024'],
    ['1,685', '1,685'],
  ])('%s is written %s', (text, written) => {
    expect(asMakersWrite(text)).toBe(written);
  });

  it.each([
    ['33 3/16', { whole: '33', over: '3', under: '16' }, 'in', '33 and 3/16 inches'],
    ['3/4', { whole: '', over: '3', under: '4' }, 'in', '3/4 inch'],
    ['1', undefined, 'in', '1 inch'],
    ['1685', undefined, 'mm', '1685 millimeters'],
    [`5' 6 3/8"`, undefined, '', '5 feet 6 and 3/8 inches'],
    [`7' 0"`, undefined, '', '7 feet'],
    [`1' 1"`, undefined, '', '1 foot 1 inch'],
    ['$12.50', undefined, '', '$12.50'],
    ['8', undefined, '%', '8 percent'],
  ])('%s is read aloud as %s', (text, fraction, unit, aloud) => {
    expect(spoken({ text, ...(fraction === undefined ? {} : { fraction }) }, unit)).toBe(aloud);
  });

  it('of a cell with yes or no are said so', () => {
    const sheet = {
      id: 's',
      name: 'S',
      columns: [{ id: 'c' }],
      rows: [
        { id: 'r1', cells: { c: { value: false, quantity: 'logical' as const, name: 'shelf' } } },
        { id: 'r2', cells: { c: { formula: '=NOT(shelf)', name: 'bare' } } },
      ],
    };
    const book = stepBook({ steps: [], head: { sheets: [sheet], tables: [] } });
    expect(plainText(runsOf(book, 'A shelf: {shelf}. Bare: {bare}.'))).toBe(
      'A shelf: no. Bare: yes.',
    );
  });

  it('stand where their names stand, whatever else is in braces', () => {
    const runs = runsOf(stepBook({ steps: [] }), '{SEAT_LENGTH}, {round}{{x}} {', { round: 2 });
    expect(plainText(runs)).toBe('33 3/16 in, 2{…} {');
  });

  it.each([
    [504.6, '51 kg', '51 kilograms'],
    [20, '2 kg', '2 kilograms'],
    [12_000, '1,224 kg', '1224 kilograms'],
  ])('loads of %d N are said as what weighs so much: %s', (number, words, aloud) => {
    const cell = { value: { kind: 'number', number }, shown: { text: String(number) }, unit: 'N' };
    expect(numberWords(cell as Parameters<typeof numberWords>[0])).toEqual({ words, aloud });
  });
});

describe('sizes as a shop says them', () => {
  // Inches, exact by definition (NIST SP 811, appendix B): 3/4, 1/4, 1, 3 1/2 and 84 of them.
  it.each([
    [19.05, 19],
    [6.35, 6.5],
    [25.4, 25],
    [88.9, 89],
    [2133.6, 2134],
    // A thirty-second and less is a gap; one that was typed, such as a veneer, stays as it is.
    [0.79375, 0.8],
    [0.7583, 0.8],
    [0.97, 0.97],
    [0.25, 0.25],
    [0.0508, 0.0508],
    // Typed in halves, however long.
    [63.5, 63.5],
    [762.5, 762.5],
    [-19.05, -19],
    [0, 0],
  ])('%s mm is %s', (mm, said) => {
    expect(saidMm(mm)).toBe(said);
  });

  it.each([
    ['19.1', 'mm', 19.05, '19'],
    // Of 3/4 in a workbook in inches that shows the cell in millimeters.
    ['19.1', 'mm', 0.75, '19'],
    ['762.5', 'mm', 762.5, '762.5'],
    ['0.8', 'mm', 0.79375, '0.8'],
    ['0.47', 'mm', 0.4721, '0.5'],
    ['0.25', 'mm', 0.25, '0.25'],
    ['115.8', 'lb', 115.77, '116'],
    ['7.2', 'lb', 7.21, '7.2'],
    // Rounded once, and not what is rounded already.
    ['42.5', 'lb', 42.46, '42'],
    ['10.45', 'm²', 10.4496, '10.4'],
    // 42.5 lb in a workbook that holds kilograms.
    ['42.5', 'lb', 19.28, '43'],
    ['78.49', 'ft²', 78.49, '78.5'],
    ['8.622', 'm²', 8.622, '8.62'],
    ['12.5', 'h', 12.5, '12.5'],
    ['3', 'lb', 3, '3'],
  ])('%s %s is told as %s holds it: %s', (text, unit, own, said) => {
    expect(asSaid({ text }, unit, own).text).toBe(said);
  });

  // What is needed is said upward; what was typed, the size of a can, as it is.
  it.each([
    ['96', 'fl oz', 96.02, true, '97'],
    ['96', 'fl oz', 96, true, '96'],
    ['46.3', 'fl oz', 46.31, true, '47'],
    ['4.6', 'fl oz', 4.61, true, '4.6'],
    ['2840', 'mL', 2839.7, true, '2840'],
    ['946', 'mL', 946.353, false, '946'],
    // Of 12 fl oz in a workbook in milliliters that shows the cell in fluid ounces.
    ['12', 'fl oz', 354.9, true, '12'],
  ])('%s %s is told as %s holds it, needed: %s, %s', (text, unit, own, isNeeded, said) => {
    expect(asSaid({ text }, unit, own, isNeeded).text).toBe(said);
  });

  it('leaves fractions of an inch as their cell shows them', () => {
    const shown = { text: '33 3/16', fraction: { whole: '33', over: '3', under: '16' } };
    expect(asSaid(shown, 'in', 33.1875)).toEqual(shown);
    expect(guideFormat({ units: 'us', currency: 'USD' })(19.05)).toBe('3/4');
    expect(guideFormat({ units: 'metric', currency: 'EUR' })(19.05)).toBe('19');
  });
});
