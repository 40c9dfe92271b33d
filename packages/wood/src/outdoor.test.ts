import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { OUTDOOR_ROWS } from './data/outdoor-moisture.ts';
import { outdoorEmc, outdoorPlaces } from './outdoor.ts';
import { expectFault, faultOf } from './testdata/faults.ts';

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
