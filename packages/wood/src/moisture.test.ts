import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { emc, emcDelta, humidityForEmc, movement, movementSwing, ringAngle } from './moisture.ts';
import { moveRadial, moveTangential } from './species.ts';
import { COMPUTED_TABLE_4_2, type EmcRow, REMEMBERED_TABLE_4_2 } from './testdata/emc-table.ts';
import { expectFault } from './testdata/faults.ts';

const entries = (table: readonly EmcRow[]) =>
  table.flatMap(([temperature, row]) =>
    row.map((moisture, place) => ({ temperature, humidity: 5 * (place + 1), moisture })),
  );

const temperatures = fc.double({ min: 30, max: 270, noNaN: true });
const humidities = fc.double({ min: 0, max: 100, noNaN: true });
const moistures = fc.double({ min: 0, max: 30, noNaN: true });
const widths = fc.double({ min: 0, max: 200, noNaN: true });
const species = fc.constantFrom('white oak', 'walnut', 'western red cedar', 'teak');

describe('EMC', () => {
  // Wood Handbook equation 4-5 in its Celsius form, worked outside this package and rounded to
  // 0.1 %: half a step of rounding, and what the two forms differ by, which is most at 270 °F
  it('gives every computed entry of table 4-2', () => {
    for (const { temperature, humidity, moisture } of entries(COMPUTED_TABLE_4_2)) {
      const forms = temperature === 270 ? 0.03 : 0.013;
      expect(Math.abs(emc(temperature, humidity) - moisture)).toBeLessThan(0.05 + forms);
    }
  });

  // Wood Handbook table 4-2, value from memory: 228 entries, printed to 0.1 %
  it('is within 0.066 of every remembered entry of table 4-2', () => {
    const all = entries(REMEMBERED_TABLE_4_2);
    expect(all).toHaveLength(228);
    for (const { temperature, humidity, moisture } of all)
      expect(Math.abs(emc(temperature, humidity) - moisture)).toBeLessThan(0.066);
  });

  // encyclopaedia article on the equation: 140 °F, 55 % → 8.4
  it('gives the worked example of the equation', () => {
    expect(emc(140, 55)).toBeCloseTo(8.4, 1);
  });

  // Wood Handbook equation 4-5, Celsius constants (value from memory): an independent form
  it('agrees with the Celsius form of the equation within 0.013 from -1 to 60 °C', () => {
    const celsius = (t: number, h: number): number => {
      const w = 349 + 1.29 * t + 0.0135 * t * t;
      const k = 0.805 + 0.000736 * t - 0.00000273 * t * t;
      const k1 = 6.27 - 0.00938 * t - 0.000303 * t * t;
      const k2 = 1.91 + 0.0407 * t - 0.000293 * t * t;
      const dissolved = (k * h) / (1 - k * h);
      const above = k1 * k * h + 2 * k1 * k2 * k * k * h * h;
      const below = 1 + k1 * k * h + k1 * k2 * k * k * h * h;
      return (1800 / w) * (dissolved + above / below);
    };
    for (let t = -1; t <= 60; t += 1)
      for (let h = 5; h <= 95; h += 5)
        expect(Math.abs(emc(t * 1.8 + 32, h) - celsius(t, h / 100))).toBeLessThan(0.0135);
  });

  it('is nothing in bone-dry air, and rises with humidity', () => {
    fc.assert(
      fc.property(temperatures, humidities, humidities, (t, a, b) => {
        expect(emc(t, 0)).toBe(0);
        const [low, high] = a < b ? [a, b] : [b, a];
        expect(emc(t, high)).toBeGreaterThanOrEqual(emc(t, low));
      }),
    );
  });

  it('stays under fibre saturation and above nothing over the whole range', () => {
    fc.assert(
      fc.property(temperatures, humidities, (t, h) => {
        const answer = emc(t, h);
        expect(answer).toBeGreaterThanOrEqual(0);
        expect(answer).toBeLessThan(30);
      }),
    );
  });

  it('falls with temperature above 50 °F', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 50, max: 269, noNaN: true }),
        fc.double({ min: 1, max: 99, noNaN: true }),
        (t, h) => {
          expect(emc(t + 1, h)).toBeLessThan(emc(t, h));
        },
      ),
    );
  });

  it('refuses what the table does not cover', () => {
    expectFault(() => emc(29, 50), 'range', 'temperature');
    expectFault(() => emc(271, 50), 'range', 'temperature');
    expectFault(() => emc(70, -1), 'range', 'humidity');
    expectFault(() => emc(70, 101), 'range', 'humidity');
  });
});

describe('EMC_DELTA', () => {
  it('is the second state less the first, so turning it round turns the sign', () => {
    fc.assert(
      fc.property(temperatures, humidities, temperatures, humidities, (t1, h1, t2, h2) => {
        expect(emcDelta(t1, h1, t2, h2)).toBeCloseTo(emc(t2, h2) - emc(t1, h1), 12);
        expect(emcDelta(t1, h1, t2, h2) + emcDelta(t2, h2, t1, h1)).toBeCloseTo(0, 12);
      }),
    );
  });

  it('names the state that is out of range', () => {
    expectFault(() => emcDelta(70, 40, 70, 120), 'range', 'humidity_2');
    expectFault(() => emcDelta(0, 40, 70, 50), 'range', 'temperature_1');
  });
});

describe('HUMIDITY_FOR_EMC', () => {
  it('is the humidity that gives that moisture content', () => {
    fc.assert(
      fc.property(temperatures, humidities, (t, h) => {
        expect(humidityForEmc(t, emc(t, h))).toBeCloseTo(h, 4);
      }),
    );
  });

  // Wood Handbook table 4-2, value from memory: 70 °F, 9.2 % at 50 %
  it('reads the table backwards', () => {
    expect(Math.abs(humidityForEmc(70, 9.2) - 50)).toBeLessThan(0.5);
  });

  it('refuses more water than the air can give', () => {
    expectFault(() => humidityForEmc(270, 20), 'range', 'emc');
    expectFault(() => humidityForEmc(70, -1), 'range', 'emc');
  });
});

describe('MOVEMENT', () => {
  // Wood Handbook equation 13-2, worked example (value from memory): white fir, 0.067 in
  it('gives the handbook’s worked example', () => {
    expect(movement(9.15, 'white fir', 8, 11)).toBeCloseTo(0.06725, 4);
    // the same in millimetres: 232 mm moves 1.705 mm
    expect(movement(232 / 25.4, 'white fir', 8, 11) * 25.4).toBeCloseTo(1.705, 3);
  });

  // Missouri S&T problem 4.34 uses the flat rate 0.002 per 1 %: a softwood moves in that order
  it('is of the order of the common 0.002 per 1 % for construction softwood', () => {
    const rule = 13.25 * 0.002 * 9;
    const answer = -movement(13.25, 'western hemlock', 19, 10);
    expect(answer / rule).toBeGreaterThan(1);
    expect(answer / rule).toBeLessThan(1.5);
  });

  // Wood Handbook table 13-5: white oak 0.00365 tangential, 0.00180 radial
  it.each([
    ['flat', 42 * 4 * 0.00365],
    ['Quarter-sawn ', 42 * 4 * 0.0018],
    ['rift', (42 * 4 * (0.00365 + 0.0018)) / 2],
    [90, 42 * 4 * 0.0018],
    [0, 42 * 4 * 0.00365],
    [undefined, 42 * 4 * 0.00365],
  ])('cut %s of white oak, 42 in from 7 to 11 %, moves %d in', (cut, expected) => {
    expect(movement(42, 'white oak', 7, 11, cut)).toBeCloseTo(expected, 12);
  });

  it('adds up over widths and over moisture steps, and turns its sign with the direction', () => {
    fc.assert(
      fc.property(
        widths,
        widths,
        species,
        moistures,
        moistures,
        moistures,
        (a, b, wood, m, n, o) => {
          const go = (width: number, from: number, to: number) => movement(width, wood, from, to);
          expect(go(a + b, m, n)).toBeCloseTo(go(a, m, n) + go(b, m, n), 9);
          expect(go(a, m, o)).toBeCloseTo(go(a, m, n) + go(a, n, o), 9);
          expect(go(a, n, m)).toBeCloseTo(-go(a, m, n), 12);
        },
      ),
    );
  });

  it('lies between quarter-sawn and flat-sawn for every ring angle', () => {
    fc.assert(
      fc.property(species, fc.double({ min: 0, max: 90, noNaN: true }), (wood, angle) => {
        const answer = movement(1, wood, 0, 1, angle);
        expect(answer).toBeGreaterThanOrEqual(moveRadial(wood) - 1e-15);
        expect(answer).toBeLessThanOrEqual(moveTangential(wood) + 1e-15);
      }),
    );
  });

  it('never answers with negative zero', () => {
    expect(Object.is(movement(0, 'teak', 12, 6), 0)).toBe(true);
  });

  it('refuses cuts, moistures and widths that mean nothing', () => {
    expectFault(() => movement(42, 'teak', 7, 11, 'slab'), 'unknown', 'cut');
    expectFault(() => movement(42, 'teak', 7, 11, 91), 'range', 'cut');
    expectFault(() => movement(42, 'teak', 7, 31), 'range', 'moisture_to');
    expectFault(() => movement(42, 'teak', -1, 11), 'range', 'moisture_from');
    expectFault(() => movement(-42, 'teak', 7, 11), 'range', 'width');
  });
});

describe('MOVEMENT_SWING', () => {
  it('is the size of the movement, whichever season comes first', () => {
    fc.assert(
      fc.property(widths, species, moistures, moistures, (width, wood, m, n) => {
        const swing = movementSwing(width, wood, m, n);
        expect(swing).toBe(Math.abs(movement(width, wood, m, n)));
        expect(movementSwing(width, wood, n, m)).toBe(swing);
      }),
    );
  });

  it('names its own arguments', () => {
    expectFault(() => movementSwing(42, 'teak', 31, 11), 'range', 'moisture_dry');
    expectFault(() => movementSwing(42, 'teak', 7, 40), 'range', 'moisture_wet');
  });
});

describe('the cut of a board', () => {
  it('is known by its word, with or without "sawn"', () => {
    expect(['flat', 'Plainsawn', 'rift-sawn', 'quarter sawn', 30].map(ringAngle)).toEqual([
      0, 0, 45, 90, 30,
    ]);
  });

  // Found by the random test of CUP_DEPTH, seed -712598400.
  it.each(['__proto__', 'constructor', 'toString', 'oak'])('is not %s', (word) => {
    expectFault(() => ringAngle(word), 'unknown', 'cut');
  });
});
