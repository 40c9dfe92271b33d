import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { MONTHS, sayDate, writeDate } from './dates.ts';
import { type ReadContext, readEntry } from './read.ts';

const US: ReadContext = { system: 'us', currency: 'USD', year: 2026 };
const METRIC: ReadContext = { system: 'metric', currency: 'EUR', year: 2026 };
/** Inches and pounds: neither order can be told. */
const BRITISH: ReadContext = { system: 'us', currency: 'GBP', year: 2026 };
const asDate = (context: ReadContext): ReadContext => ({ ...context, quantity: 'date' });

/**
 * Days of the calendar by whole numbers alone: Fliegel and Van Flandern, "A machine algorithm for processing calendar
 * dates", Communications of the ACM 11 (1968), no. 10, p. 657 (value from memory), which counts Julian days; they hold
 * from March 4801 BC. 1899-12-30 is Julian day 2415019.
 */
function serial(year: number, month: number, day: number): number {
  const t = Math.trunc;
  const early = t((month - 14) / 12);
  const julian =
    day -
    32075 +
    t((1461 * (year + 4800 + early)) / 4) +
    t((367 * (month - 2 - early * 12)) / 12) -
    t((3 * t((year + 4900 + early) / 100)) / 4);
  return julian - 2_415_019;
}

function valueRead(text: string, context: ReadContext): unknown {
  const read = readEntry(text, context);
  return read.kind === 'value' ? read.value : read.kind;
}

describe('dates as people type them', () => {
  const DAY = serial(2026, 3, 14);

  it('N8 counts the days as the calendar does', () => {
    // OpenFormula 1.3 (ODF part 4), 4.3.3: days from 1899-12-30; Julian day 2440588 is 1970-01-01.
    expect(serial(1970, 1, 1)).toBe(2_440_588 - 2_415_019);
    expect(serial(1900, 1, 1)).toBe(2);
    expect(DAY).toBe(46095);
  });

  it.each([
    '2026-03-14',
    '2026/3/14',
    '3/14/2026',
    '3-14-2026',
    '3/14/26',
    '14.3.2026',
    '14.03.2026',
    '14/3/2026',
    'Mar 14 2026',
    'Mar 14, 2026',
    'mar. 14th, 2026',
    'March 14, 2026',
    '14 March 2026',
    '14 Mar 2026',
    '14. March 2026',
    '14-Mar-2026',
    '14-mar-26',
    '14 Mar',
    'Mar 14',
    '14th March',
    '14.3.',
  ])('N8 %s is a date in a cell of which nothing is said, whatever its units', (text) => {
    for (const context of [US, METRIC, BRITISH]) {
      expect(readEntry(text, context)).toMatchObject({
        kind: 'value',
        value: DAY,
        quantity: 'date',
      });
      expect(valueRead(text, asDate(context))).toBe(DAY);
    }
  });

  it.each(['3/14', '14.3', '14/3'])('N8 %s is a date where one is asked for', (text) => {
    for (const context of [US, METRIC]) expect(valueRead(text, asDate(context))).toBe(DAY);
  });

  it('N8 goes by the units and the money where either number may be the month', () => {
    expect(valueRead('3/4/2026', US)).toBe(serial(2026, 3, 4));
    expect(valueRead('3/4/2026', METRIC)).toBe(serial(2026, 4, 3));
    // With points the day is first everywhere.
    expect(valueRead('3.4.2026', US)).toBe(serial(2026, 4, 3));
    expect(valueRead('5/5/2026', BRITISH)).toBe(serial(2026, 5, 5));
  });

  it('N8 asks where they do not agree, and either answer is read', () => {
    const asked = readEntry('3/4/2026', BRITISH);
    expect(asked).toEqual({
      kind: 'unread',
      text: '3/4/2026',
      code: 'Q12',
      says: 'Is "3/4/2026" 4 March 2026 or 3 April 2026? Type 2026-03-04 or 2026-04-03.',
      choices: ['2026-03-04', '2026-04-03'],
    });
    expect(valueRead('2026-03-04', BRITISH)).toBe(serial(2026, 3, 4));
    expect(valueRead('2026-04-03', BRITISH)).toBe(serial(2026, 4, 3));
  });

  it.each(['1/2', '3/4', '5/8', '5/16', '31/32', '2/3', '1/10', '5/4', '8/4', '15/16', '17/64'])(
    'N8 %s is a fraction and no day',
    (text) => {
      const [over = 0, under = 1] = text.split('/').map(Number);
      for (const context of [US, METRIC]) {
        expect(readEntry(text, context)).toMatchObject({ value: over / under });
        expect(valueRead(text, { ...context, quantity: 'length' })).not.toBe('unread');
      }
    },
  );

  it.each([
    ['3/14', '0 3/14'],
    ['11/25', '0 11/25'],
    ['14/3', '4 2/3'],
  ])('N8 asks about %s, which is on no tape, and either answer is read', (text, fraction) => {
    const read = readEntry(text, US);
    expect(read).toMatchObject({ kind: 'unread', code: 'Q13' });
    const [first = '', second = ''] = read.kind === 'unread' ? (read.choices ?? []) : [];
    expect(first).toBe(fraction);
    const [over = 0, under = 1] = text.split('/').map(Number);
    expect(valueRead(first, US)).toBeCloseTo(over / under, 12);
    expect(readEntry(second, US)).toMatchObject({ kind: 'value', quantity: 'date' });
    // A cell that is for fractions, or for a length, is not asked about.
    expect(valueRead(text, { ...US, show: { as: 'fraction' } })).toBeCloseTo(over / under, 12);
    expect(valueRead(text, { ...US, quantity: 'length' })).toBeCloseTo(over / under, 12);
  });

  it.each([
    ['2026-02-30', 'February 2026 has 28 days'],
    ['2/30/2028', 'February 2028 has 29 days'],
    ['31 Apr 2026', 'April 2026 has 30 days'],
    ['31.6.2026', 'June 2026 has 30 days'],
  ])('N8 says that %s is no day', (text, has) => {
    for (const context of [US, METRIC, asDate(US)]) {
      expect(readEntry(text, context)).toMatchObject({
        kind: 'unread',
        code: 'Q14',
        says: `"${text}" is no day of the calendar: ${has}.`,
      });
    }
  });

  it.each([
    '1.2.3',
    '12-34-5678',
    'Mar 2026',
    'Leg 14',
    'may',
    '14 boards',
    '3/14/2026x',
    '1.5.26',
  ])('N8 leaves %s the words it is', (text) => {
    for (const context of [US, METRIC]) expect(valueRead(text, context)).toBe(text);
  });

  it('N8 opens with what was typed, or year first where no year was', () => {
    expect(readEntry('14 March 2026', US)).toHaveProperty('typed', '14 March 2026');
    expect(readEntry('14 March', US)).not.toHaveProperty('typed');
  });
});

describe('any day', () => {
  const days = fc.record({
    year: fc.integer({ min: 1583, max: 9999 }),
    month: fc.integer({ min: 1, max: 12 }),
    day: fc.integer({ min: 1, max: 28 }),
  });

  it('N8 is the same day however it is written, and what is shown is read as it', () => {
    fc.assert(
      fc.property(days, fc.constantFrom(US, METRIC, BRITISH), ({ year, month, day }, context) => {
        const wanted = serial(year, month, day);
        const [full, short] = MONTHS[month - 1] ?? ['', ''];
        const monthFirst = `${month}/${day}/${year}`;
        const dayFirst = `${day}/${month}/${year}`;
        const texts = [
          writeDate(wanted) ?? '',
          sayDate(wanted),
          `${day}.${month}.${year}`,
          `${day} ${full} ${year}`,
          `${short} ${day}, ${year}`,
          ...(context === US || day > 12 ? [monthFirst] : []),
          ...(context === METRIC || day > 12 ? [dayFirst] : []),
        ];
        for (const text of texts) {
          expect(valueRead(text, context), text).toBe(wanted);
          expect(valueRead(text, asDate(context)), text).toBe(wanted);
        }
      }),
      { numRuns: 500 },
    );
  });
});
