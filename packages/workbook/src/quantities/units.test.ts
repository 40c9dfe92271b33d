import type { Quantity } from '@kerfbook/wood';
import { OWN_UNITS, QUANTITIES } from '@kerfbook/wood';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fromOwn, ownUnit, toOwn, unitOf, unitsOf } from './units.ts';

/**
 * One us unit in the metric own unit (mm, mm², mm³, mL, kg, N, MPa, N/mm, mm²/mL) as a fraction of
 * whole numbers. NIST SP 811 (2008), appendix B.8, and NIST Handbook 44, appendix C, where these
 * follow from exact definitions (inch, pound, gallon of 231 in³, standard gravity); the fractions
 * were compared with the exact ones of the open-source unit library Pint 0.25.3.
 */
const METRIC: readonly [Quantity, string, bigint, bigint][] = [
  ['length', 'in', 127n, 5n],
  ['length', 'ft', 1524n, 5n],
  ['length', 'yd', 4572n, 5n],
  ['area', 'in²', 16129n, 25n],
  ['area', 'ft²', 2322576n, 25n],
  ['area', 'yd²', 20903184n, 25n],
  ['volume', 'in³', 2048383n, 125n],
  ['volume', 'ft³', 3539605824n, 125n],
  ['liquid', 'fl oz', 473176473n, 16000000n],
  ['liquid', 'pt', 473176473n, 1000000n],
  ['liquid', 'qt', 473176473n, 500000n],
  ['liquid', 'gal', 473176473n, 125000n],
  ['mass', 'lb', 45359237n, 100000000n],
  ['mass', 'oz', 45359237n, 1600000000n],
  ['force', 'lb', 8896443230521n, 2000000000000n],
  ['pressure', 'psi', 8896443230521n, 1290320000000000n],
  ['load_per_length', 'lb/in', 8896443230521n, 50800000000000n],
  ['load_per_length', 'lb/ft', 8896443230521n, 609600000000000n],
  ['coverage', 'ft²/gal', 240000n, 9779n],
  ['coverage', 'ft²/qt', 960000n, 9779n],
];

/** Metric units in the metric own unit: powers of ten, by the SI prefixes. */
const POWERS: readonly [Quantity, string, number][] = [
  ['length', 'mm', 1],
  ['length', 'cm', 10],
  ['length', 'm', 1000],
  ['area', 'mm²', 1],
  ['area', 'cm²', 100],
  ['area', 'm²', 1e6],
  ['volume', 'mm³', 1],
  ['volume', 'cm³', 1000],
  ['volume', 'm³', 1e9],
  ['liquid', 'mL', 1],
  ['liquid', 'L', 1000],
  ['mass', 'kg', 1],
  ['mass', 'g', 0.001],
  ['force', 'N', 1],
  ['force', 'kN', 1000],
  ['pressure', 'MPa', 1],
  ['pressure', 'kPa', 0.001],
  ['pressure', 'GPa', 1000],
  ['load_per_length', 'N/mm', 1],
  ['load_per_length', 'N/m', 0.001],
  ['coverage', 'mm²/mL', 1],
  ['coverage', 'm²/L', 1000],
];

const unit = (quantity: Quantity, word: string) => {
  const found = unitOf(quantity, word);
  if (found === undefined) throw new Error(`no unit ${word} of ${quantity}`);
  return found;
};

/** A part in 2^51: two roundings of a binary fraction. */
const CLOSE = 2 ** -51;
const off = (got: number, wanted: number) => Math.abs(got / wanted - 1);

describe('units', () => {
  it.each(METRIC)('%s: 1 %s in metric', (quantity, word, over, under) => {
    const wanted = Number(over) / Number(under);
    expect(off(toOwn(1, unit(quantity, word), quantity, 'metric'), wanted)).toBeLessThan(CLOSE);
  });

  it.each(METRIC)('%s: from metric to 1 %s', (quantity, word, over, under) => {
    const own = Number(over) / Number(under);
    expect(off(fromOwn(own, unit(quantity, word), quantity, 'metric'), 1)).toBeLessThan(CLOSE);
  });

  it.each(POWERS)('%s: 1 %s is %d in metric', (quantity, word, wanted) => {
    expect(toOwn(1, unit(quantity, word), quantity, 'metric')).toBe(wanted);
  });

  it.each([
    ['length', 'ft', 12],
    ['length', 'yd', 36],
    ['area', 'ft²', 144],
    ['area', 'yd²', 1296],
    ['volume', 'ft³', 1728],
    ['liquid', 'pt', 16],
    ['liquid', 'qt', 32],
    ['liquid', 'gal', 128],
    ['mass', 'oz', 1 / 16],
    ['load_per_length', 'lb/ft', 1 / 12],
    ['coverage', 'ft²/gal', 1.125],
    ['duration', 'min', 1 / 60],
    ['duration', 'd', 24],
    ['ratio', '%', 0.01],
  ] as const)('%s: 1 %s is exactly %d in a us workbook', (quantity, word, wanted) => {
    // NIST Handbook 44, appendix C, section 2 (tables of US customary units).
    expect(toOwn(1, unit(quantity, word), quantity, 'us')).toBe(wanted);
  });

  it('takes a board foot as 144 in³: 0.002359737216 m³', () => {
    // NIST SP 811, appendix B.8: board foot 2.359 737 E-03 m³.
    const perFoot = fromOwn(1, unit('boardfeet', 'm³'), 'boardfeet', 'us');
    expect(off(perFoot, (144 * 2048383) / 125 / 1e9)).toBeLessThan(CLOSE);
  });

  it.each([
    [32, 0],
    [212, 100],
    [68, 20],
    [-40, -40],
  ])('takes %d °F as %d °C', (fahrenheit, celsius) => {
    // Fixed points of both scales; NIST SP 811, appendix B.8: t/°C = (t/°F - 32)/1.8.
    expect(toOwn(fahrenheit, unit('temperature', 'F'), 'temperature', 'metric')).toBe(celsius);
    expect(toOwn(celsius, unit('temperature', '°C'), 'temperature', 'us')).toBe(fahrenheit);
  });

  it('knows the own unit of every quantity that has one to convert', () => {
    const missing = QUANTITIES.flatMap((quantity) =>
      (['us', 'metric'] as const)
        .filter((system) => OWN_UNITS[quantity][system] !== '')
        .filter((system) => ownUnit(quantity, system) === undefined)
        .map(() => quantity),
    );
    // Money and rates carry a "per" that no factor changes.
    expect([...new Set(missing)]).toEqual([
      'movement_rate',
      'money_per_boardfoot',
      'money_per_hour',
    ]);
  });

  it('gives every unit back from its sign and from each of its words', () => {
    for (const quantity of QUANTITIES) {
      for (const one of unitsOf(quantity)) {
        for (const word of [one.sign, ...one.also]) {
          expect(unitOf(quantity, word.toUpperCase()), `${quantity} ${word}`).toBe(one);
        }
      }
    }
  });

  it('turns a number into a unit and back', () => {
    const some = QUANTITIES.flatMap((quantity) =>
      unitsOf(quantity).map((one) => ({ quantity, one })),
    );
    fc.assert(
      fc.property(
        fc.constantFrom(...some),
        fc.constantFrom('us' as const, 'metric' as const),
        fc.double({ min: -1e9, max: 1e9, noNaN: true }),
        ({ quantity, one }, system, value) => {
          const back = toOwn(fromOwn(value, one, quantity, system), one, quantity, system);
          // Temperatures add 32: the error is that of the larger number.
          expect(Math.abs(back - value)).toBeLessThanOrEqual(1e-14 * (Math.abs(value) + 50));
        },
      ),
    );
  });
});
