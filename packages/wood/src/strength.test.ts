import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stiffness } from './species.ts';
import { legSlenderness, sagPoint, sagUniform, spanForSag, tipLoad } from './strength.ts';
import { expectFault } from './testdata/faults.ts';

const spans = fc.double({ min: 20, max: 90, noNaN: true });
const loads = fc.double({ min: 0.1, max: 2, noNaN: true });

describe('sag', () => {
  // textbook: 5wL⁴/384EI and PL³/48EI, I = bh³/12, worked by hand for white oak, E = 1.78 Mpsi
  it('gives the textbook forms', () => {
    const inertia = (1.5 * 3.5 ** 3) / 12;
    expect(sagUniform(65, 2, 1.5, 3.5, 'white oak')).toBeCloseTo(
      (5 * 2 * 65 ** 4) / (384 * 1.78e6 * inertia),
      12,
    );
    expect(sagPoint(65, 150, 1.5, 3.5, 'white oak')).toBeCloseTo(
      (150 * 65 ** 3) / (48 * 1.78e6 * inertia),
      12,
    );
  });

  // an old printed test form, E = P l³ / (4 D b h³) for a centre load, solved for the deflection D
  it('gives the stiffness back when a bending test is worked backwards', () => {
    const deflection = sagPoint(28, 100, 2, 2, 'sugar maple');
    expect((100 * 28 ** 3) / (4 * deflection * 2 * 2 ** 3)).toBeCloseTo(
      stiffness('sugar maple'),
      3,
    );
  });

  it('is 5/8 of the sag that the same load gives in the middle', () => {
    fc.assert(
      fc.property(spans, loads, (span, load) => {
        const spread = sagUniform(span, load, 1, 4, 'teak');
        expect(spread / sagPoint(span, load * span, 1, 4, 'teak')).toBeCloseTo(0.625, 9);
      }),
    );
  });

  it('falls to an eighth at twice the depth and grows sixteenfold at twice the span', () => {
    fc.assert(
      fc.property(spans, loads, (span, load) => {
        const sag = sagUniform(span, load, 1, 4, 'black walnut');
        expect(sagUniform(span, load, 1, 8, 'black walnut') / sag).toBeCloseTo(1 / 8, 9);
        expect(sagUniform(span / 2, load, 1, 4, 'black walnut') / sag).toBeCloseTo(1 / 16, 9);
      }),
    );
  });

  it('refuses what would fold up rather than sag', () => {
    expectFault(() => sagPoint(90, 500, 1, 0.25, 'white pine eastern'), 'range', 'depth');
    expectFault(() => sagUniform(90, -1, 1, 4, 'teak'), 'range', 'load_per_length');
    expectFault(() => sagPoint(90, 1, 1, 4, 'apple'), 'unknown', 'species');
  });
});

describe('TIP_LOAD', () => {
  // textbook statics: 150 lb at 30 in balances 375 lbf at 12 in
  it('balances the table about its near legs', () => {
    expect(tipLoad(150, 12, 30)).toBe(375);
    fc.assert(
      fc.property(spans, spans, spans, (weight, overhang, half) => {
        expect(tipLoad(weight, overhang, half) * overhang).toBeCloseTo(weight * half, 6);
      }),
    );
  });

  it('refuses a top that does not overhang', () => {
    expectFault(() => tipLoad(150, 0, 30), 'range', 'edge_overhang');
    expectFault(() => tipLoad(150, 1e-5, 30), 'range', 'edge_overhang');
  });
});

describe('SPAN_FOR_SAG', () => {
  it('is the span at which SAG_UNIFORM gives that share', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 20, noNaN: true }),
        fc.double({ min: 0.5, max: 4, noNaN: true }),
        fc.double({ min: 1 / 1000, max: 1 / 100, noNaN: true }),
        (load, depth, share) => {
          const span = spanForSag(load, 11.25, depth, 'white oak', share);
          expect(sagUniform(span, load, 11.25, depth, 'white oak') / span).toBeCloseTo(share, 9);
        },
      ),
    );
  });

  it('is twice as long for eight times the depth’s cube', () => {
    expect(spanForSag(2, 10, 2, 'ash, white') / spanForSag(2, 10, 1, 'ash, white')).toBeCloseTo(2);
  });

  it('refuses a load of nothing: no span would be too long', () => {
    expectFault(() => spanForSag(0, 11, 1, 'white oak'), 'range', 'load_per_length');
  });
});

describe('LEG_SLENDERNESS', () => {
  it('is a ratio, the same in any unit', () => {
    expect(legSlenderness(28.5, 2.5)).toBeCloseTo(11.4, 12);
    expectFault(() => legSlenderness(28.5, 0), 'range', 'least_side');
  });
});
