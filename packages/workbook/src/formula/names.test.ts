import { keptNameProblem, nameKey, nameProblem } from '@kerfbook/document';
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { bookOf } from '../testing/sample.ts';

// The engine tells the functions' names when it is first loaded.
beforeAll(() => {
  bookOf({ sheets: { Base: [[1]] } });
});

const offers: Record<string, string> = {
  'area_ft²': 'area_ft2',
  'area ft²': 'area_ft2',
  'm³': 'm_3',
  Leg1: 'Leg_1',
  'width (in)': 'width_in',
  '½ rail': '_1_2_rail',
  '2 rails': '_2_rails',
  'sum²': 'sum_2',
  'Σ ширина': 'Σ_ширина',
  'board-feet': 'board_feet',
  SUM: 'my_sum',
  true: 'true_',
  R1C1: 'R1C1_',
  rc: 'rc_',
  Ⅳ: 'IV',
  'zero\u200Bwidth': 'zero_width',
};

describe('names', () => {
  it.each([
    'ширина',
    '板',
    '板の厚さ',
    'größe',
    'épaisseur',
    'e\u0301paisseur',
    'लंबाई',
    'عرض',
    'ΠΛΑΤΟΣ',
    'offset_length',
    'İç_genişlik',
    'ﬁnish',
    'seat_width',
    '_2',
    'ширина2',
    'a.b',
    'x٣',
  ])('S7 %s is a name', (name) => {
    expect(nameProblem(name)).toBeUndefined();
    expect(keptNameProblem(name)).toBeUndefined();
  });

  it.each(Object.entries(offers))('S1 %s is refused, and %s is offered', (name, offer) => {
    expect(nameProblem(name)?.offer).toBe(offer);
    expect(nameProblem(offer)).toBeUndefined();
  });

  it('S1 whatever is offered is a name', () => {
    const word = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 120 }),
      fc
        .array(
          fc.constantFrom('R', 'c', 'SUM', 'x', '²', '³', '1', '_', '.', ' ', 'é', '\u0301', 'ﬁ'),
        )
        .map((parts) => parts.join('')),
    );
    fc.assert(
      fc.property(word, (name) => {
        const offer = nameProblem(name)?.offer;
        if (offer !== undefined) expect(nameProblem(offer)).toBeUndefined();
      }),
      { numRuns: 2000 },
    );
  });

  it('S8 what an earlier version took goes on being a name that a workbook may hold', () => {
    const earlier = fc.stringMatching(/^[\p{L}_][\p{L}\p{N}_.]{0,9}$/u);
    fc.assert(
      fc.property(earlier, (name) => {
        const asAddress = /^[A-Za-z]+\d+$/.test(name) || /^r\d*c\d*$/i.test(name);
        const reserved = /^(true|false|r|c|rc|__proto__|constructor|prototype)$/i.test(name);
        if (asAddress || reserved) expect(keptNameProblem(name)).toBeDefined();
        else expect(keptNameProblem(name)).toBeUndefined();
      }),
      { numRuns: 1000 },
    );
    expect(keptNameProblem('area_ft²')).toBeUndefined();
    expect(keptNameProblem('SUM')).toBeUndefined();
  });

  it('S7 capitals and how an accent is put make no other name', () => {
    expect(nameKey('Ширина')).toBe(nameKey('ШИРИНА'));
    expect(nameKey('Épaisseur')).toBe(nameKey('e\u0301paisseur'));
    expect(nameKey('ΠΛΑΤΟΣ')).toBe(nameKey('πλατος'));
    expect(nameKey('İç')).toBe(nameKey('I\u0307ç'));
    expect(nameKey('größe')).not.toBe(nameKey('grösse'));
  });
});
