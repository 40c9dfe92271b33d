import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { MECHANICAL_ROWS } from './data/mechanical-properties.ts';
import { COEFFICIENT_ROWS } from './data/movement-coefficients.ts';
import { findSpecies, speciesFigure, speciesNames } from './find-species.ts';
import { expectFault, faultOf } from './testdata/faults.ts';

describe('finding a wood', () => {
  it.each([
    ['white oak', 'white oak'],
    ['Oak, white', 'white oak'],
    ['oak white', 'white oak'],
    ['  QUERCUS ALBA ', 'white oak'],
    ['White oak, commercial', 'white oak (commercial)'],
    ['red oak', 'northern red oak'],
    ['hard maple', 'sugar maple'],
    ['walnut', 'black walnut'],
    ['cherry', 'black cherry'],
    ['African mahogany', 'African mahogany'],
    ['Mahogany, true', 'mahogany'],
    ['western red cedar', 'western redcedar'],
    ['live oak', 'live oak'],
    ['Quercus pagoda', 'cherrybark oak'],
    ['douglas fir coast', 'coast Douglas-fir'],
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
    expect(detail.hint).toContain('"white oak"');
    expect(faultOf(() => findSpecies('soft maple')).detail.hint).toContain('"red maple"');
  });

  // Slips that makers made; "chery" was offered hickory first and "wallnut" apple.
  it.each([
    ['chery', 'black cherry'],
    ['cherrry', 'black cherry'],
    ['wallnut', 'black walnut'],
    ['wlanut', 'black walnut'],
    ['mapel', 'maple'],
    ['beach', 'American beech'],
    ['hikory', 'hickory'],
    ['blackwalnut', 'black walnut'],
    ['qercus alba', 'white oak'],
    ['mahagony', 'mahogany'],
  ])('offers for %s what is like it first: %s', (asked, wanted) => {
    const { hint = '' } = faultOf(() => findSpecies(asked)).detail;
    const names = [...hint.matchAll(/"([^"]+)"/g)].map(([, name = '']) => name);
    const [first = '', ...others] = names;
    expect(first).toContain(wanted);
    expect(others).not.toContain('apple');
  });

  it('offers none as near where none is', () => {
    const { hint } = faultOf(() => findSpecies('plutonium')).detail;
    expect(hint).toMatch(/^Nothing known is like it; there are ".*" and others\.$/);
  });

  it('offers the nearest names for a slip of the keys', () => {
    expect(faultOf(() => findSpecies('whte oak')).detail.hint).toMatch(/^Nearest: "white oak"/);
    expect(faultOf(() => findSpecies('Walnutt, black')).detail.hint).toMatch(/"black walnut"/);
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
    expect(detail.hint).toContain('"white oak"');
  });

  it('lists woods by what is known of them', () => {
    const whole = speciesNames('tangential', 'radial', 'specificGravity', 'stiffness', 'hardness');
    expect(whole.length).toBeGreaterThan(90);
    expect(whole).toContain('white oak');
    expect(whole).not.toContain('apple');
    expect(speciesNames()).toContain('apple');
  });
});
