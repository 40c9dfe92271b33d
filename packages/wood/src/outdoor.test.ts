import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { indoorHumidity } from './air.ts';
import { OUTDOOR_ROWS } from './data/outdoor-moisture.ts';
import { outdoorEmc, outdoorHumidity, outdoorPlaces, outdoorTemperature } from './outdoor.ts';
import { expectFault, faultOf } from './testdata/faults.ts';
import { INDOOR_AT_70 } from './testdata/indoor-humidity.ts';

describe('OUTDOOR_EMC', () => {
  // Wood Handbook table 13-1, value from memory
  it.each([
    ['Denver', 7, 9.4],
    ['denver, co', 'July', 9.4],
    ['Phoenix', 'jun', 4.6],
    [' Juneau, AK ', 9, 18.1],
    ['Chicago', 12, 14.9],
  ])('%s in month %s: %d', (place, month, moisture) => {
    expect(outdoorEmc(place, month)).toBe(moisture);
  });

  it('holds twelve moisture contents that wood can have for every place', () => {
    for (const [city, , months] of OUTDOOR_ROWS) {
      expect(months, city).toHaveLength(12);
      for (const moisture of months) expect(moisture > 3 && moisture < 22, city).toBe(true);
    }
    expect(outdoorPlaces()).toHaveLength(49);
  });

  it('takes a month by number, name and the start of its name alike', () => {
    const names =
      'January February March April May June July August September October November December';
    fc.assert(
      fc.property(
        fc.constantFrom(...outdoorPlaces()),
        fc.integer({ min: 1, max: 12 }),
        (place, n) => {
          const name = names.split(' ')[n - 1] ?? '';
          expect(outdoorEmc(place, name)).toBe(outdoorEmc(place, n));
          expect(outdoorEmc(place, name.slice(0, 3).toUpperCase())).toBe(outdoorEmc(place, n));
        },
      ),
    );
  });

  it('refuses other places and months with the nearest', () => {
    expectFault(() => outdoorEmc('Atlantis', 1), 'unknown', 'place');
    expect(faultOf(() => outdoorEmc('Denvr', 1)).detail.hint).toContain('"Denver, CO"');
    expect(faultOf(() => outdoorEmc('Portland', 1)).message).toContain('more than one city');
    expect(outdoorEmc('Portland, OR', 1)).not.toBe(outdoorEmc('Portland, ME', 1));
    expectFault(() => outdoorEmc('Denver', 13), 'range', 'month');
    expectFault(() => outdoorEmc('Denver', 'ju'), 'unknown', 'month');
  });
});

describe('the weather of a place', () => {
  // Worked out apart from this code from the same hourly files, with the equations of ASHRAE at
  // 21.1 °C: the way from a place's month to the humidity of a heated room.
  it('brought indoors gives the humidity that the files give', () => {
    const wrong = Object.entries(INDOOR_AT_70).flatMap(([place, months]) =>
      months.flatMap((expected, i) => {
        const month = i + 1;
        const indoors = indoorHumidity(
          outdoorTemperature(place, month),
          outdoorHumidity(place, month),
          69.98,
        );
        return Math.abs(indoors - Math.min(100, expected)) <= 0.11
          ? []
          : [{ place, month, indoors, expected }];
      }),
    );
    expect(wrong).toEqual([]);
    expect(Object.keys(INDOOR_AT_70)).toHaveLength(27);
  });

  // National Weather Service normals 1991 to 2020, value from memory: Chicago 25 °F in January and
  // 76 °F in July; the typical years are of earlier decades.
  it('is about as warm as everyone there knows', () => {
    expect(outdoorTemperature('Chicago', 'January')).toBeGreaterThan(15);
    expect(outdoorTemperature('Chicago', 'January')).toBeLessThan(30);
    expect(Math.abs(outdoorTemperature('Chicago', 'July') - 76)).toBeLessThan(4);
  });

  it('is refused for places without a station, with the nearest', () => {
    expect(faultOf(() => outdoorHumidity('Bostn', 1)).detail.hint).toContain('"Boston, MA"');
    expectFault(() => outdoorTemperature('Boston', 0), 'range', 'month');
  });

  // IWEC file of Lyon, monthly means worked out from its 8,760 hours: January 3.16 °C, 690.9 Pa
  it('knows places outside the United States, by city or with the country', () => {
    expect(outdoorTemperature('Lyon', 'January')).toBeCloseTo(3.16 * 1.8 + 32, 9);
    expect(outdoorHumidity('Lyon, France', 1)).toBeCloseTo(90.1, 0);
    expect(outdoorTemperature('London, United Kingdom', 7)).toBeCloseTo(17.31 * 1.8 + 32, 9);
    expect(() => outdoorTemperature('London', 7)).toThrow(/more than one city/);
    // what a room of 21 °C comes to with Lyon's winter air, and what wood settles at there
    const humidity = indoorHumidity(
      outdoorTemperature('Lyon', 1),
      outdoorHumidity('Lyon', 1),
      21 * 1.8 + 32,
    );
    expect(humidity).toBeGreaterThan(24);
    expect(humidity).toBeLessThan(30);
  });
});
