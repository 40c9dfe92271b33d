import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { MECHANICAL_ROWS } from './data/mechanical-properties.ts';
import { COEFFICIENT_ROWS } from './data/movement-coefficients.ts';
import { findSpecies, speciesFigure, speciesNames } from './find-species.ts';
import { expectFault, faultOf } from './testdata/faults.ts';

describe('finding a wood', () => {
  it.each([
    ['white oak', 'Oak, white'],
    ['Oak, white', 'Oak, white'],
    ['oak white', 'Oak, white'],
    ['  QUERCUS ALBA ', 'Oak, white'],
    ['White oak, commercial', 'Oak, white (commercial)'],
    ['red oak', 'Oak, northern red'],
    ['hard maple', 'Maple, sugar'],
    ['walnut', 'Walnut, black'],
    ['cherry', 'Cherry, black'],
    ['African mahogany', 'Khaya (African mahogany)'],
    ['Mahogany, true', 'Mahogany'],
    ['western red cedar', 'Cedar, western redcedar'],
    ['live oak', 'Oak, live'],
    ['Quercus pagoda', 'Oak, cherrybark'],
    ['douglas fir coast', 'Douglas-fir, coast'],
  ])('%s is %s', (asked, name) => {
    expect(findSpecies(asked).name).toBe(name);
  });

  it('finds every row of the tables by its own name', () => {
    for (const [row] of [...COEFFICIENT_ROWS, ...MECHANICAL_ROWS])
      expect(findSpecies(row).name.length, row).toBeGreaterThan(0);
  });

  it('finds every listed wood by its name in any case and order of words', () => {
    fc.assert(
      fc.property(fc.constantFrom(...speciesNames()), fc.boolean(), (name, upper) => {
        const turned = name
          .split(/[ ,()]+/)
          .reverse()
          .join(' ');
        expect(findSpecies(upper ? turned.toUpperCase() : ` ${turned} `).name).toBe(name);
      }),
    );
  });

  it('asks which wood is meant when several fit', () => {
    for (const asked of ['oak', 'soft maple', 'pine', 'Quercus', 'douglas fir'])
      expectFault(() => findSpecies(asked), 'unknown', 'species');
    const { detail, message } = faultOf(() => findSpecies('oak'));
    expect(message).toContain('names more than one wood');
    expect(detail.hint).toContain('"Oak, white"');
    expect(faultOf(() => findSpecies('soft maple')).detail.hint).toContain('"Maple, red"');
  });

  // Slips that makers made; "chery" was offered hickory first and "wallnut" apple.
  it.each([
    ['chery', 'Cherry, black'],
    ['cherrry', 'Cherry, black'],
    ['wallnut', 'Walnut, black'],
    ['wlanut', 'Walnut, black'],
    ['mapel', 'Maple'],
    ['beach', 'Beech, American'],
    ['hikory', 'Hickory'],
    ['blackwalnut', 'Walnut, black'],
    ['qercus alba', 'Oak, white'],
    ['mahagony', 'Mahogany'],
  ])('offers for %s what is like it first: %s', (asked, wanted) => {
    const { hint = '' } = faultOf(() => findSpecies(asked)).detail;
    const names = [...hint.matchAll(/"([^"]+)"/g)].map(([, name = '']) => name);
    const [first = '', ...others] = names;
    expect(first.startsWith(wanted)).toBe(true);
    expect(others).not.toContain('Apple');
  });

  it('offers none as near where none is', () => {
    const { hint } = faultOf(() => findSpecies('plutonium')).detail;
    expect(hint).toMatch(/^Nothing known is like it; there are ".*" and others\.$/);
  });

  it('offers the nearest names for a slip of the keys', () => {
    expect(faultOf(() => findSpecies('whte oak')).detail.hint).toMatch(/^Nearest: "Oak, white"/);
    expect(faultOf(() => findSpecies('Walnutt, black')).detail.hint).toMatch(/"Walnut, black"/);
  });

  it('takes any text without a failure of its own', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 200 }), (text) => {
        try {
          expect(speciesNames()).toContain(findSpecies(text).name);
        } catch (error) {
          expect(error).toHaveProperty('detail.argument', 'species');
        }
      }),
    );
  });
});

describe('one property of a wood', () => {
  it('is refused with woods that have it when the tables hold none', () => {
    const { detail } = faultOf(() => speciesFigure('White oak, commercial', 'specificGravity'));
    expect(detail.class).toBe('unknown');
    expect(detail.problem).toBe('has no published specific gravity');
    expect(detail.hint).toContain('"Oak, white"');
  });

  it('lists woods by what is known of them', () => {
    const whole = speciesNames('tangential', 'radial', 'specificGravity', 'stiffness', 'hardness');
    expect(whole.length).toBeGreaterThan(90);
    expect(whole).toContain('Oak, white');
    expect(whole).not.toContain('Apple');
    expect(speciesNames()).toContain('Apple');
  });
});
