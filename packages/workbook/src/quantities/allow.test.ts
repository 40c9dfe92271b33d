import { describe, expect, it } from 'vitest';
import { allowProblem, type ShowContext } from './show.ts';

const US: ShowContext = { system: 'us', currency: 'USD' };
const LENGTH: ShowContext = { ...US, quantity: 'length' };

describe('what a cell allows', () => {
  it.each([
    [-84, { min: 12, max: 240 }, LENGTH, '-84 in', '12 to 240 in'],
    [300, { min: 12, max: 240 }, LENGTH, '300 in', '12 to 240 in'],
    [0.5, { min: 1.5 }, LENGTH, '1/2 in', '1 1/2 in or more'],
    [84, { max: 48 }, { ...LENGTH, show: { unit: 'ft' } }, '7 ft', '4 ft or less'],
    [240.001, { max: 240 }, LENGTH, '240.001 in', '240 in or less'],
    [0.5, { min: 1 }, { ...US, quantity: 'money' }, '$0.50', '$1.00 or more'],
    [60, { min: 0, max: 30 }, { ...US, quantity: 'moisture' }, '60 %', '0 to 30 %'],
    [95, { max: 90 }, { ...US, quantity: 'angle' }, '95°', '90° or less'],
  ] as const)('N4 %d with %o: names the number and the range in the shown unit', (...row) => {
    const [value, allow, context, told, range] = row;
    expect(allowProblem(value, allow, context)).toBe(
      `${told} is outside what this cell takes: ${range}.`,
    );
  });

  it('N4 takes the bounds themselves, noise of binary fractions aside', () => {
    const allow = { min: 12, max: 240 };
    expect(allowProblem(12, allow, LENGTH)).toBeUndefined();
    expect(allowProblem(304.8 / 25.4 - 1e-12, allow, LENGTH)).toBeUndefined();
    expect(allowProblem(240, allow, LENGTH)).toBeUndefined();
  });

  it('N4 tells a number that is not whole', () => {
    expect(allowProblem(2.5, { whole: true }, US)).toBe(
      '2.5 is not a whole number; this cell takes whole numbers.',
    );
    expect(allowProblem(3, { whole: true }, US)).toBeUndefined();
  });

  it('N4 compares words without regard to case and spaces', () => {
    const allow = { list: ['Oak, white', 'Cherry'] };
    expect(allowProblem(' oak,  WHITE ', allow, US)).toBeUndefined();
    expect(allowProblem('pine', allow, US)).toBe(
      '"pine" is not one of the choices of this cell: Oak, white; Cherry.',
    );
    expect(allowProblem(4, { list: ['4', '5'] }, US)).toBeUndefined();
  });

  it('N4 takes any name of a wood where the choices are woods, and of no other list', () => {
    const list = ['sugar maple', 'Walnut, black'];
    const allow = { list, from: 'woods' as const };
    for (const name of ['Maple, sugar', 'hard maple', 'Acer saccharum', 'black walnut'])
      expect(allowProblem(name, allow, US), name).toBeUndefined();
    expect(allowProblem('white oak', allow, US)).toMatch(/^"white oak" is not one of the choices/);
    expect(allowProblem('hard maple', { list }, US)).toMatch(/is not one/);
  });

  it('N4 names the nearest of many choices', () => {
    const list = ['Ash', 'Beech', 'Birch', 'Cherry', 'Elm', 'Maple', 'Oak', 'Walnut'];
    const says = allowProblem('walnutt', { list }, US);
    expect(says).toContain('this cell: Walnut; ');
    expect(says).toContain('and 2 more.');
  });

  it('N4 says nothing of words where a range of numbers is allowed', () => {
    expect(allowProblem('oak', { min: 1 }, LENGTH)).toBeUndefined();
  });
});
