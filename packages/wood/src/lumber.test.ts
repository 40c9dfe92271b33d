import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { QUARTERS_ROWS } from './data/lumber-sizes.ts';
import {
  boardFeet,
  gradeYield,
  laminatedThickness,
  plies,
  quartersFor,
  quartersPlaned,
  quartersRough,
  surfaceMeasure,
} from './lumber.ts';
import { expectFault, faultOf } from './testdata/faults.ts';

const sizes = fc.double({ min: 0.01, max: 500, noNaN: true });

describe('BOARDFEET', () => {
  // NHLA measuring, worked example read: 2 x 6-1/4 in x 8 ft has 4-1/6 ft² of surface, 8-1/3 bd ft
  // before the tally's rounding to 8
  it('gives the measuring rule’s example before rounding', () => {
    expect(boardFeet(2, 6.25, 96)).toBeCloseTo(2 * 4.166666666666667, 12);
    expect(Math.floor(boardFeet(2, 6.25, 96))).toBe(8);
  });

  // definition: a board foot is 144 in³
  it.each([
    [1, 12, 12, 1, 1],
    [2, 6, 12, 1, 1],
    [1.75, 8, 96, 3, 28],
    [1, 8, 144, 1, 8],
    [2, 6, 12, 0, 0],
  ])('%d x %d x %d in, %i of them: %d bd ft', (t, w, l, n, answer) => {
    expect(boardFeet(t, w, l, n)).toBeCloseTo(answer, 12);
  });

  // hardwood trade rule: under 1 in is counted as 1 in
  it('counts a thickness under an inch as an inch', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 1, noNaN: true }), sizes, sizes, (t, w, l) => {
        expect(boardFeet(t, w, l)).toBe(boardFeet(1, w, l));
      }),
    );
  });

  it('adds up over boards and over length', () => {
    fc.assert(
      fc.property(sizes, sizes, sizes, sizes, fc.integer({ min: 0, max: 99 }), (t, w, a, b, n) => {
        expect(boardFeet(t, w, a + b)).toBeCloseTo(boardFeet(t, w, a) + boardFeet(t, w, b), 6);
        expect(boardFeet(t, w, a, n)).toBeCloseTo(n * boardFeet(t, w, a), 6);
      }),
    );
  });

  it('refuses a size or a count that no board has', () => {
    expectFault(() => boardFeet(0, 8, 96), 'range', 'thickness');
    expectFault(() => boardFeet(1, -8, 96), 'range', 'width');
    expectFault(() => boardFeet(1, 8, 96, 1.5), 'range', 'count');
    expectFault(() => boardFeet(1, 8, 96, -1), 'range', 'count');
  });
});

describe('SURFACE_MEASURE', () => {
  // NHLA measuring, worked examples read
  it.each([
    [6.25, 96, 4],
    [6.5, 96, 4],
    [8, 144, 8],
    [10, 156, 11],
  ])('%d in wide, %d in long: %i ft²', (width, length, measure) => {
    expect(surfaceMeasure(width, length)).toBe(measure);
  });

  it('rounds a half up and drops a part of a foot', () => {
    expect(surfaceMeasure(9, 72)).toBe(5);
    expect(surfaceMeasure(6, 107.9)).toBe(surfaceMeasure(6, 96));
  });

  it('is within half a square foot of the face over whole feet', () => {
    fc.assert(
      fc.property(sizes, fc.integer({ min: 1, max: 20 }), (width, wholeFeet) => {
        const exact = (width * wholeFeet) / 12;
        expect(Math.abs(surfaceMeasure(width, 12 * wholeFeet) - exact)).toBeLessThanOrEqual(
          0.5 + 1e-9,
        );
      }),
    );
  });
});

describe('quarters', () => {
  // NHLA rules, standard thickness of rough and surfaced hardwood (read; 10/4 from memory)
  it.each([
    ['4/4', 1, 13 / 16],
    ['5/4', 1.25, 1 + 1 / 16],
    ['6/4', 1.5, 1 + 5 / 16],
    ['7/4', 1.75, 1.5],
    ['8/4', 2, 1.75],
    ['10/4', 2.5, 2.25],
    ['12/4', 3, 2.75],
    ['14/4', 3.5, 3.25],
    ['16/4', 4, 3.75],
  ])('%s is %d in rough and %d in planed', (quarters, rough, planed) => {
    expect(quartersRough(quarters)).toBe(rough);
    expect(quartersPlaned(` ${quarters} `)).toBe(planed);
  });

  it('are quarters of an inch, and planing always takes some', () => {
    for (const [name, rough, planed] of QUARTERS_ROWS) {
      expect(rough).toBe(Number(name.split('/')[0]) / 4);
      expect(planed).toBeLessThan(rough);
    }
  });

  it('refuses what the rule does not list, with the nearest', () => {
    expectFault(() => quartersRough('9/4'), 'unknown', 'quarters');
    expect(faultOf(() => quartersPlaned('18/4')).detail.hint).toContain('"8/4"');
  });
});

describe('QUARTERS_FOR', () => {
  it.each([
    [0.8125, 0, '4/4'],
    [0.82, 0, '5/4'],
    [1, 0, '5/4'],
    [1.75, 0, '8/4'],
    [1.75, 0.0625, '10/4'],
    [3.75, 0, '16/4'],
  ])('%d in with %d to spare needs %s', (finished, allowance, quarters) => {
    expect(quartersFor(finished, allowance)).toBe(quarters);
  });

  it('is the least that leaves enough', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 3, noNaN: true }),
        fc.double({ min: 0, max: 0.7, noNaN: true }),
        (finished, allowance) => {
          const pick = quartersFor(finished, allowance);
          expect(quartersPlaned(pick)).toBeGreaterThanOrEqual(finished + allowance - 1e-9);
          for (const [name, rough, planed] of QUARTERS_ROWS)
            if (rough < quartersRough(pick))
              expect(planed, name).toBeLessThan(finished + allowance);
        },
      ),
    );
  });

  it('says to laminate past the thickest', () => {
    expectFault(() => quartersFor(3.76), 'unknown', 'finished_thickness');
    expect(faultOf(() => quartersFor(3.7, 0.1)).detail.hint).toMatch(/[Ll]aminate/);
  });
});

describe('PLIES', () => {
  it.each([
    [3.5, 0.8125, 5],
    [3.25, 0.8125, 4],
    [1.5, 0.75, 2],
    [0.5, 0.75, 1],
  ])('%d in out of layers of %d in takes %i', (finished, ply, count) => {
    expect(plies(finished, ply)).toBe(count);
  });

  it('is the least count that reaches the thickness', () => {
    fc.assert(
      fc.property(sizes, fc.double({ min: 0.1, max: 5, noNaN: true }), (finished, ply) => {
        const count = plies(finished, ply);
        expect(count * ply).toBeGreaterThanOrEqual(finished * (1 - 1e-11));
        expect((count - 1) * ply).toBeLessThan(finished);
      }),
    );
  });
});

describe('GRADE_YIELD', () => {
  // NHLA rules, summary of grades: 10, 8, 6, 4, 3 cutting units out of 12
  it.each([
    ['FAS', 0.8333],
    ['fas', 0.8333],
    ['F1F', 0.8333],
    ['Selects', 0.8333],
    ['1C', 0.6667],
    ['No. 1 Common', 0.6667],
    ['#1 common', 0.6667],
    ['2C', 0.5],
    ['No. 2A Common', 0.5],
    ['3A', 0.3333],
    ['No. 3B Common', 0.25],
  ])('%s promises %d', (grade, share) => {
    expect(gradeYield(grade)).toBeCloseTo(share, 4);
  });

  it('never rises as the grade falls', () => {
    const falling = ['FAS', '1C', '2C', '3A', '3B'].map(gradeYield);
    expect(falling).toEqual([...falling].sort((a, b) => b - a));
  });

  it('refuses other words with the nearest grades', () => {
    expectFault(() => gradeYield('4C'), 'unknown', 'grade');
    expect(faultOf(() => gradeYield('FSA')).detail.hint).toContain('"FAS"');
  });
});

describe('LAMINATED_THICKNESS', () => {
  // by hand: four layers of 13/16 in less 1/8 in
  it('is the layers less what flattening takes', () => {
    expect(laminatedThickness(4, 13 / 16, 1 / 8)).toBeCloseTo(3.125, 12);
    expect(laminatedThickness(2, 0.75)).toBeCloseTo(1.5, 12);
  });

  it('refuses taking off the whole stack', () => {
    expectFault(() => laminatedThickness(2, 0.75, 2), 'range', 'flattening');
  });
});
