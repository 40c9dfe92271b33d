import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { emc, movement } from './moisture.ts';
import { humidityForMovement, indoorMoisture } from './room.ts';
import { expectFault } from './testdata/faults.ts';

describe('INDOOR_MOISTURE', () => {
  // Wood Handbook table 13-2, averages
  it.each([
    ['most areas', 8],
    ['Dry Southwest', 6],
    [' damp coast ', 11],
  ])('%s: %d %%', (region, moisture) => {
    expect(indoorMoisture(region)).toBe(moisture);
  });

  it('says what it knows when it does not know', () => {
    expectFault(() => indoorMoisture('moon'), 'unknown', 'region');
    expect(() => indoorMoisture('moon')).toThrow(/most areas/);
  });
});

describe('HUMIDITY_FOR_MOVEMENT', () => {
  it('is where the equations it inverts come back to the movement', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 10, max: 60, noNaN: true }),
        fc.double({ min: 7, max: 11, noNaN: true }),
        fc.double({ min: -0.1, max: 0.1, noNaN: true }),
        fc.double({ min: 40, max: 100, noNaN: true }),
        (width, now, move, temperature) => {
          const humidity = humidityForMovement(width, 'white oak', now, move, temperature);
          const moved = movement(width, 'white oak', now, emc(temperature, humidity));
          expect(moved).toBeCloseTo(move, 3);
        },
      ),
    );
  });

  // Wood Handbook table 4-2: 50 % at 70 °F is 9.2 %; table 13-5: white oak, flat, 0.00365
  it('is 50 % where the handbook says so', () => {
    const humidity = humidityForMovement(40, 'white oak', 8, 40 * 0.00365 * 1.2, 70);
    expect(humidity).toBeGreaterThan(49.5);
    expect(humidity).toBeLessThan(50.5);
  });

  it('refuses what no air brings about, and says how far it goes', () => {
    expectFault(() => humidityForMovement(42, 'white oak', 8, 10, 70), 'range', 'movement');
    expectFault(() => humidityForMovement(42, 'white oak', 8, -10, 70), 'range', 'movement');
  });
});
