import type { Show } from '@kerfbook/document';
import type { Quantity } from '@kerfbook/wood';
import { describe, expect, it } from 'vitest';
import { type ShowContext, showValue, showWithUnit, unitShown } from './show.ts';

const US: ShowContext = { system: 'us', currency: 'USD' };
const METRIC: ShowContext = { system: 'metric', currency: 'EUR' };

const cell = (quantity: Quantity, show?: Show, book = US): ShowContext => ({
  ...book,
  quantity,
  ...(show === undefined ? {} : { show }),
});
const number = (value: number) => ({ kind: 'number', number: value }) as const;
const text = (value: number, context: ShowContext) => showValue(number(value), context).text;

describe('showing lengths', () => {
  it.each([
    [19.0625, '19 1/16'],
    [33.1875, '33 3/16'],
    [66.375, '66 3/8'],
    [0.5, '1/2'],
    [-0.5, '-1/2'],
    [-1.5, '-1 1/2'],
    [7, '7'],
    [0, '0'],
    [15.99, '16'],
    // A bit or a slip of the rule in sixty-fourths is shown as what it is.
    [1.03125, '1 1/32'],
    [-11 / 64, '-11/64'],
    [1.04, '1 1/16'],
    [-0.00001, '0'],
    // A sag of 0.049 in and one of 0.090 were both 1/16, and so was a screw of 0.190 in 3/16.
    [0.049, '0.049'],
    [0.09, '0.09'],
    [0.0049, '0.0049'],
    [-0.001, '-0.001'],
    [0.19, '0.19'],
    [3 / 16, '3/16'],
    [Math.SQRT1_2, '23/32'],
  ])('%d in is %s', (inches, wanted) => {
    expect(text(inches, cell('length'))).toBe(wanted);
  });

  it('keeps to the denominator that a cell asks for, a tie away from zero', () => {
    expect(text(1.03125, cell('length', { denominator: 16 }))).toBe('1 1/16');
    expect(text(-1.03125, cell('length', { denominator: 16 }))).toBe('-1 1/16');
  });

  it('marks a rounded fraction by its exact value, and an exact one not', () => {
    // 484.19 mm / 25.4 = 19.0625984…: arithmetic.
    expect(showValue(number(484.19 / 25.4), cell('length'))).toEqual({
      text: '19 1/16',
      fraction: { whole: '19', over: '1', under: '16' },
      exact: '19.06259843',
      align: 'end',
    });
    expect(showValue(number(19.0625), cell('length'))).not.toHaveProperty('exact');
    // Noise of binary fractions is no rounding.
    expect(showValue(number(0.1 + 0.2), cell('length', { as: 'decimal' }))).toEqual({
      text: '0.3',
      align: 'end',
    });
  });

  it('gives a fraction in its parts, for drawing', () => {
    expect(showValue(number(-0.75), cell('length')).fraction).toEqual({
      whole: '-',
      over: '3',
      under: '4',
    });
    expect(showValue(number(3), cell('length'))).not.toHaveProperty('fraction');
  });

  it.each([
    [66.375, { as: 'feet-inches' }, `5' 6 3/8"`, ''],
    [60, { as: 'feet-inches' }, `5' 0"`, ''],
    [-66.375, { as: 'feet-inches' }, `-5' 6 3/8"`, ''],
    [6.375, { as: 'feet-inches' }, `6 3/8"`, ''],
    [71.99, { as: 'feet-inches' }, `6' 0"`, ''],
    [66.375, { as: 'decimal' }, '66.375', 'in'],
    [66.375, { decimals: 1 }, '66.4', 'in'],
    [66, { decimals: 2 }, '66.00', 'in'],
    [66.375, { as: 'plain' }, '66.375', 'in'],
    [1.015625, { denominator: 64 }, '1 1/64', 'in'],
    [1.3, { as: 'fraction', denominator: 3 }, '1 1/3', 'in'],
    [66.375, { unit: 'mm' }, '1685.9', 'mm'],
    [66, { unit: 'ft' }, '5.5', 'ft'],
    [66, { unit: 'ft', as: 'fraction' }, '5 1/2', 'ft'],
    // A unit of another quantity is passed over.
    [66, { unit: 'kg' }, '66', 'in'],
  ] as const)('%d in as %o is %s', (inches, show, wanted, unit) => {
    expect(text(inches, cell('length', show))).toBe(wanted);
    expect(unitShown(cell('length', show))).toBe(unit);
  });

  it('says the exact value of feet and inches in inches', () => {
    const shown = showValue(number(66.3), cell('length', { as: 'feet-inches' }));
    expect(shown).toEqual({ text: `5' 6 5/16"`, exact: '66.3"', align: 'end' });
  });

  it('shows metric lengths in millimetres, and in inches on demand', () => {
    expect(text(1685.925, cell('length', undefined, METRIC))).toBe('1685.9');
    expect(unitShown(cell('length', undefined, METRIC))).toBe('mm');
    const inches = cell('length', { as: 'fraction' }, METRIC);
    expect(text(1685.925, inches)).toBe('66 3/8');
    expect(unitShown(inches)).toBe('in');
    expect(text(1685.925, cell('length', { as: 'feet-inches' }, METRIC))).toBe(`5' 6 3/8"`);
  });
});

describe('showing a result of a function that says how finely it is told', () => {
  it('shows it in thousandths, and a sixty-fourth as what it is', () => {
    const fine: ShowContext = { ...cell('length'), fine: true };
    expect(text(0.3125, fine)).toBe('5/16');
    expect(text(0.32, fine)).toBe('0.32');
    expect(text(1.04, fine)).toBe('1.04');
    expect(text(4.166, { ...cell('length', undefined, METRIC), fine: true })).toBe('4.17');
    // The cell's own way goes before.
    expect(text(0.32, { ...cell('length', { denominator: 16 }), fine: true })).toBe('5/16');
  });
});

describe('showing other quantities', () => {
  it.each([
    ['force', 36_750, '36,750 lb'],
    ['force', 0.4, '0.4 lb'],
    ['force', 0.04, '0.04 lb'],
    ['percent', 0.034, '0.034 %'],
    ['mass', 0.0123, '0.012 lb'],
  ] as const)('leaves two digits of a small %s: %d is %s', (quantity, value, wanted) => {
    expect(showWithUnit(number(value), cell(quantity))).toBe(wanted);
  });

  it('leaves two digits of less than a millimetre', () => {
    expect(text(0.049, cell('length', undefined, METRIC))).toBe('0.049');
    expect(text(0.54, cell('length', undefined, METRIC))).toBe('0.54');
    expect(text(0.54, cell('length', { decimals: 0 }, METRIC))).toBe('1');
  });

  it.each([
    ['area', 3456, '24 ft²'],
    ['liquid', 12.34, '12.3 fl oz'],
    ['boardfeet', 24.567, '24.57 bd ft'],
    ['mass', 85.25, '85.3 lb'],
    ['temperature', 68, '68 °F'],
    ['moisture', 8.04, '8 %'],
    ['percent', 12.5, '12.5 %'],
    ['pressure', 1_780_000, '1,780,000 psi'],
    ['coverage', 450, '400 ft²/gal'],
    ['movement_rate', 0.00369, '0.00369 per 1 %'],
    ['angle', 22.5, '22.5°'],
    ['duration', 1.25, '1.3 h'],
    ['ratio', 0.4567, '0.457'],
    ['count', 4, '4'],
    ['money', 1234.5, '$1,234.50'],
    ['money', -5, '-$5.00'],
    ['money', 1.005, '$1.01'],
    ['money_per_boardfoot', 8.5, '$8.50/bd ft'],
    ['money_per_hour', 45, '$45.00/h'],
    ['date', 46351, '2026-11-25'],
  ] as const)('%s %d is %s', (quantity, value, wanted) => {
    expect(showWithUnit(number(value), cell(quantity))).toBe(wanted);
  });

  it.each([
    ['area', 2.5e6, '2.5 m²'],
    ['volume', 5e7, '0.05 m³'],
    ['liquid', 500, '500 mL'],
    ['mass', 38.55, '38.6 kg'],
    ['pressure', 12.345, '12.35 MPa'],
    ['coverage', 10_000, '10 m²/L'],
    ['money', 1234.5, '€1,234.50'],
  ] as const)('%s %d in a metric workbook is %s', (quantity, value, wanted) => {
    expect(showWithUnit(number(value), cell(quantity, undefined, METRIC))).toBe(wanted);
  });

  it.each([
    ['liquid', 'gal', 192, '1.5'],
    ['liquid', 'L', 33.814, '1'],
    ['boardfeet', 'm³', 424, '1.00053'],
    ['mass', 'oz', 0.5, '8'],
    ['duration', 'min', 1.5, '90'],
    ['duration', 'd', 36, '1.5'],
    ['ratio', '%', 0.457, '45.7'],
    ['temperature', '°C', 68, '20'],
  ] as const)('%s in %s: %d is %s', (quantity, unit, value, wanted) => {
    expect(text(value, cell(quantity, { unit }))).toBe(wanted);
    expect(unitShown(cell(quantity, { unit }))).toBe(unit);
  });

  it('counts a currency in its own decimals (ISO 4217)', () => {
    expect(text(1234.5, cell('money', undefined, { system: 'metric', currency: 'JPY' }))).toBe(
      '¥1,235',
    );
    expect(text(12.5, cell('money', { decimals: 0 }))).toBe('$13');
    expect(text(12.5, cell('money', { as: 'decimal' }))).toBe('12.5');
  });

  it('says what rounding took from money', () => {
    expect(showValue(number(12.345678), cell('money')).exact).toBe('$12.345678');
    expect(showValue(number(12.35), cell('money'))).not.toHaveProperty('exact');
  });

  it.each([
    [1234567.891, '1234567.891'],
    [1 / 3, '0.333333'],
    [0.1 + 0.2, '0.3'],
    [-2.5, '-2.5'],
    [1e21, '1e+21'],
    [1e-7, '1e-7'],
    [0.00012345678, '0.000123457'],
    [0, '0'],
    [-0, '0'],
  ])('number %d is %s', (value, wanted) => {
    expect(text(value, US)).toBe(wanted);
    expect(text(value, cell('number'))).toBe(wanted);
  });

  it.each([
    [1 / 3, '1/3'],
    [1.5, '1 1/2'],
    [0.44, '11/25'],
    [0.005, '0'],
    [Math.PI, '3 1/8'],
  ])('number %d as a fraction is %s', (value, wanted) => {
    expect(text(value, { ...US, show: { as: 'fraction' } })).toBe(wanted);
  });

  it('shows what is no number as it is', () => {
    expect(showValue({ kind: 'empty' }, US)).toEqual({ text: '', align: 'start' });
    expect(showValue({ kind: 'text', text: 'oak' }, cell('length'))).toEqual({
      text: 'oak',
      align: 'start',
    });
    expect(showValue({ kind: 'logical', logical: true }, US).text).toBe('TRUE');
    expect(showWithUnit({ kind: 'text', text: 'oak' }, cell('length'))).toBe('oak');
    const error = { word: '#NUM!', says: 'Too large.' } as const;
    expect(showValue({ kind: 'error', error }, cell('length'))).toEqual({
      text: '#NUM!',
      align: 'centre',
    });
  });

  it('keeps the own unit of a number that the shown one cannot hold', () => {
    expect(text(1e308, cell('length', { unit: 'mm' }))).toBe('1e+308 in');
  });

  it('leaves a day that no calendar has a number', () => {
    expect(text(1e9, cell('date'))).toBe('1000000000');
    expect(showValue(number(46351.5), cell('date'))).toMatchObject({
      text: '2026-11-25',
      exact: '46351.5',
    });
  });
});
