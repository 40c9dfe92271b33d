import { describe, expect, it } from 'vitest';
import { Workbook } from '../workbook.ts';

/** An invented board in a slot: both lengths are shown in sixteenths. */
function slotBook(reach: number, need: number): Workbook {
  const length = (value: number, name: string) => ({
    value,
    quantity: 'length' as const,
    name,
    show: { as: 'fraction' as const, denominator: 16 as const },
  });
  return Workbook.open({
    kerfbook: 8,
    title: 'Slot',
    units: 'us',
    sheets: [
      {
        id: 's1',
        name: 'Slot',
        columns: [{ id: 'c1' }],
        rows: [
          { id: 'r1', cells: { c1: length(reach, 'reach') } },
          { id: 'r2', cells: { c1: length(need, 'need') } },
        ],
      },
    ],
    checks: [
      {
        id: 'k1',
        name: 'The slot is long enough',
        formula: '=reach>=need',
        severity: 'stop',
        says: 'It travels {reach}, and {need} is needed; {need} of it.',
      },
    ],
    tables: [],
  });
}

describe('the sentence of a check', () => {
  it('K5 says numbers in decimals that would be shown the same and are not', () => {
    const [check] = slotBook(0.2479, 0.2515).checks();
    expect(check?.says).toBe('It travels 0.248 in, and 0.252 in is needed; 0.252 in of it.');
  });

  it('K5 says so in fractions of a finer rule where these tell them apart: never one in each', () => {
    const says = (reach: number, need: number) => slotBook(reach, need).checks()[0]?.says;
    // 0.2604 in lies nearest to 17/64 in, 0.2656.
    expect(says(0.25, 0.2603687839)).toBe(
      'It travels 1/4 in, and 17/64 in is needed; 17/64 in of it.',
    );
    expect(says(0.25, 0.2515)).toBe('It travels 0.250 in, and 0.252 in is needed; 0.252 in of it.');
  });

  it('K5 says so with no more decimals than tell them apart', () => {
    const says = (reach: number, need: number) => slotBook(reach, need).checks()[0]?.says;
    expect(says(0.2603687838, 0.2603689)).toBe(
      'It travels 0.2603688 in, and 0.2603689 in is needed; 0.2603689 in of it.',
    );
  });

  it('K5 says numbers as they are shown where these differ, or are the same indeed', () => {
    expect(slotBook(0.19, 0.2515).checks()[0]?.says).toBe(
      'It travels 3/16 in, and 1/4 in is needed; 1/4 in of it.',
    );
  });

  it('K1 says a load in metric as makers do, as what weighs so much', () => {
    const says = (newtons: number): string | undefined =>
      Workbook.open({
        kerfbook: 8,
        title: 'Bench',
        units: 'metric',
        sheets: [
          {
            id: 's1',
            name: 'Loads',
            columns: [{ id: 'c1' }],
            rows: [
              { id: 'r1', cells: { c1: { value: newtons, quantity: 'force', name: 'tips_at' } } },
            ],
          },
        ],
        checks: [
          {
            id: 'k1',
            name: 'It stands',
            formula: '=1=2',
            severity: 'care',
            says: '{tips_at} tips it.',
          },
        ],
        tables: [],
      }).checks()[0]?.says;
    // 1 kg weighs 9.80665 N at standard gravity (NIST SP 811, appendix B).
    expect(says(9.80665)).toBe('1 kg tips it.');
    expect(says(49.1)).toBe('5 kg tips it.');
    expect(says(47.1)).toBe('4.8 kg tips it.');
    expect(says(1112)).toBe('113 kg tips it.');
  });

  it('K1 says a length in braces in the units of the workbook', () => {
    const book = Workbook.open({
      kerfbook: 8,
      title: 'Slot',
      units: 'us',
      sheets: [
        {
          id: 's1',
          name: 'Slot',
          columns: [{ id: 'c1' }],
          rows: [{ id: 'r1', cells: { c1: { value: 0.2479, quantity: 'length', name: 'gap' } } }],
        },
      ],
      checks: [
        {
          id: 'k1',
          name: 'It is as wide as it has to be',
          formula: '=gap>=IN(1/4)',
          severity: 'stop',
          says: 'It is {gap}: {1/4 in} at least, {1 1/2 in} from the end, {24 in} along, never {6 mm}.',
        },
      ],
      tables: [],
    });
    expect(book.checks()[0]?.says).toBe(
      'It is 0.248 in: 1/4 in at least, 1 1/2 in from the end, 24 in along, never 15/64 in.',
    );
    book.apply({ do: 'changeUnits', to: 'metric' });
    // 1/4 in is 6.35 mm, 0.2479 in 6.29666 mm, 1 1/2 in 38.1 mm, 24 in 609.6 mm (1 in = 25.4 mm, NIST SP 811).
    expect(book.checks()[0]?.says).toBe(
      'It is 6.3 mm: 6.4 mm at least, 38.1 mm from the end, 609.6 mm along, never 6 mm.',
    );
    expect(book.document().checks[0]?.says).toContain('{1/4 in}');
  });

  it('K5 says numbers rougher where it is asked to, and as they are shown where two would be said alike', () => {
    const book = Workbook.open({
      kerfbook: 8,
      title: 'Knee room',
      units: 'metric',
      sheets: [
        {
          id: 's1',
          name: 'Room',
          columns: [{ id: 'c1' }],
          rows: [
            { id: 'r1', cells: { c1: { value: 438.2, quantity: 'length', name: 'knees' } } },
            { id: 'r2', cells: { c1: { value: 7.21, quantity: 'mass', name: 'top' } } },
          ],
        },
      ],
      checks: [
        {
          id: 'k1',
          name: 'Knees go under it',
          formula: '=knees>609.6',
          severity: 'care',
          says: '{knees}, and {24 in} is wanted; it weighs {top}.',
        },
        {
          id: 'k2',
          name: 'It is wide enough',
          formula: '=knees>438.4',
          severity: 'care',
          says: '{knees}, and {438.4 mm} is wanted.',
        },
      ],
      tables: [],
    });
    const whole = (id: string) =>
      book.checkInWords(
        id,
        (words) => words,
        ({ text }, unit, own) => (unit === 'mm' ? String(Math.round(own)) : text),
      );
    // 24 in is 609.6 mm (1 in = 25.4 mm, NIST SP 811).
    expect(whole('k1')).toBe('438 mm, and 610 mm is wanted; it weighs 7.2 kg.');
    expect(whole('k2')).toBe('438.2 mm, and 438.4 mm is wanted.');
    expect(book.checks()[0]?.says).toBe('438.2 mm, and 609.6 mm is wanted; it weighs 7.2 kg.');
  });

  it('K5 tells a number from a length in braces that it would be shown as', () => {
    const document = slotBook(0.2479, 1).document();
    const [check] = document.checks;
    if (check === undefined) throw new Error('no check');
    const book = Workbook.open({
      ...document,
      checks: [{ ...check, says: 'It travels {reach}; {1/4 in} is needed.' }],
    });
    expect(book.checks()[0]?.says).toBe('It travels 0.248 in; 0.250 in is needed.');
  });
});
