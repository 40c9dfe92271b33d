import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dewPoint, indoorHumidity } from './air.ts';
import { expectFault, faultOf } from './testdata/faults.ts';

const fahrenheit = (celsius: number): number => celsius * 1.8 + 32;
const celsius = (fahrenheitDegrees: number): number => (fahrenheitDegrees - 32) / 1.8;

const temperatures = fc.double({ min: -40, max: 140, noNaN: true });
const humidities = fc.double({ min: 1, max: 100, noNaN: true });

/**
 * Vapour pressure of saturated air, psi, as ASHRAE Handbook, Fundamentals (2017), chapter 1, table 3
 * prints it; read in psychrolib's own tests, where the equations agree within 300 parts in a million.
 */
const TABLE_3: readonly (readonly [number, number])[] = [
  [-4, 0.014974],
  [23, 0.058268],
  [41, 0.12656],
  [77, 0.45973],
  [122, 1.7914],
];

describe('DEW_POINT', () => {
  // ASHRAE table 3 read across: air at the warmer row holding the colder row's vapour
  it('is the row of ASHRAE table 3 whose vapour the air holds', () => {
    for (const [dew, held] of TABLE_3)
      for (const [warm, most] of TABLE_3)
        if (warm >= dew)
          expect(Math.abs(dewPoint(warm, (100 * held) / most) - dew)).toBeLessThan(0.03);
  });

  // ASHRAE Handbook, Fundamentals (2017), chapter 1, example 1, as psychrolib's tests quote it:
  // 40 °C with a wet bulb of 20 °C has a humidity of 14 % and a dew point of 7 °C, both rounded
  it('gives the handbook’s example 1 within its rounding', () => {
    const [least, most] = [13.5, 14.5].map((rh) => celsius(dewPoint(fahrenheit(40), rh)));
    expect(least).toBeLessThan(7.5);
    expect(most).toBeGreaterThan(6.5);
  });

  // psychrolib's own example, in its source: 25 °C at 80 % gives 21.3094 °C
  it('gives the library’s published example', () => {
    expect(celsius(dewPoint(fahrenheit(25), 80))).toBeCloseTo(21.3094, 3);
  });

  it('is the temperature itself at 100 %, and lower the drier the air is', () => {
    fc.assert(
      fc.property(temperatures, humidities, humidities, (t, a, b) => {
        expect(dewPoint(t, 100)).toBeCloseTo(t, 6);
        const [dry, humid] = a < b ? [a, b] : [b, a];
        expect(dewPoint(t, dry)).toBeLessThanOrEqual(dewPoint(t, humid) + 1e-6);
        expect(dewPoint(t, humid)).toBeLessThanOrEqual(t);
      }),
    );
  });

  it('takes the air to 100 % indoors exactly when the room is at the dew point', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 140, noNaN: true }), humidities, (t, rh) => {
        expect(indoorHumidity(t, rh, dewPoint(t, rh))).toBeCloseTo(100, 2);
      }),
    );
  });

  it('refuses air without water, and says why', () => {
    expectFault(() => dewPoint(70, 0), 'range', 'humidity');
    expect(faultOf(() => dewPoint(70, 0)).message).toContain('has no dew point');
    expectFault(() => dewPoint(-76, 0.1), 'range', 'humidity');
    expectFault(() => dewPoint(70, 101), 'range', 'humidity');
    expectFault(() => dewPoint(-77, 50), 'range', 'temperature');
    expectFault(() => dewPoint(195, 50), 'range', 'temperature');
  });
});

describe('INDOOR_HUMIDITY', () => {
  // worked outside this package from the same ASHRAE equations and confirmed with psychrolib's
  // Python form: shared reference psychrometrics_checks, to 1 part in 1000
  it.each([
    [-10, 80, 21, 8.358],
    [-20, 70, 21, 2.906],
    [0, 80, 20, 20.905],
    [5, 75, 21.1, 26.143],
    [30, 60, 24, 85.344],
  ])('air of %d °C at %d %%, brought to %d °C, is at %d %%', (out, rh, inside, expected) => {
    const answer = indoorHumidity(fahrenheit(out), rh, fahrenheit(inside));
    expect(Math.abs(answer / expected - 1)).toBeLessThan(1e-3);
  });

  // ASHRAE table 3: 5 °C saturated holds 872.6 Pa, 25 °C 3169.7 Pa
  it('is the ratio of two rows of ASHRAE table 3', () => {
    const expected = (100 * 872.6) / 3169.7;
    expect(Math.abs(indoorHumidity(41, 100, 77) / expected - 1)).toBeLessThan(6e-4);
  });

  it('stays at 100 when the air is cooled below its dew point', () => {
    expect(indoorHumidity(90, 80, 60)).toBe(100);
    expect(indoorHumidity(70, 100, 69)).toBe(100);
  });

  it('leaves air alone that keeps its temperature, and dries air that is warmed', () => {
    fc.assert(
      fc.property(temperatures, temperatures, humidities, (a, b, rh) => {
        expect(indoorHumidity(a, rh, a)).toBeCloseTo(rh, 9);
        const [cold, warm] = a < b ? [a, b] : [b, a];
        expect(indoorHumidity(cold, rh, warm)).toBeLessThanOrEqual(rh + 1e-9);
        expect(indoorHumidity(a, 0, b)).toBe(0);
      }),
    );
  });

  it('comes back to where it was when the air is cooled again', () => {
    fc.assert(
      fc.property(temperatures, temperatures, humidities, (a, b, rh) => {
        const [cold, warm] = a < b ? [a, b] : [b, a];
        expect(indoorHumidity(warm, indoorHumidity(cold, rh, warm), cold)).toBeCloseTo(rh, 8);
      }),
    );
  });

  it('refuses weather there is not', () => {
    expectFault(() => indoorHumidity(-80, 50, 70), 'range', 'outdoor_temperature');
    expectFault(() => indoorHumidity(20, 120, 70), 'range', 'outdoor_humidity');
    expectFault(() => indoorHumidity(20, 50, 200), 'range', 'indoor_temperature');
  });
});
