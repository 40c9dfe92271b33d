import { describe, expect, it } from 'vitest';
import { colourOf, LIGHTEST, type Look, shadeOf } from './shade.ts';
import { contrast, luminance } from './testing/contrast.ts';
import { WOOD_TONES, type WoodTone, woodTone } from './wood-tone.ts';

describe('the light', () => {
  const around = Array.from({ length: 72 }, (_, k) => k * 5 + 2);

  it('falls on what faces up most, whichever way a thing is turned', () => {
    for (const azimuth of around) {
      const eye = { azimuth, elevation: 20 };
      expect(shadeOf('z', eye)).toBe(LIGHTEST);
      expect(shadeOf('x', eye)).toBeLessThan(LIGHTEST);
      expect(shadeOf('y', eye)).toBeLessThan(LIGHTEST);
    }
  });

  it('leaves of two sides in view the right one darker', () => {
    // Up to 90° the front is at the left and the right end at the right; then they change places.
    for (const azimuth of [20, 40, 55, 70]) {
      const eye = { azimuth, elevation: 15 };
      expect(shadeOf('y', eye)).toBeGreaterThan(shadeOf('x', eye));
      const on = { azimuth: azimuth + 90, elevation: 15 };
      expect(shadeOf('x', on)).toBeGreaterThan(shadeOf('y', on));
    }
  });

  it('turns by one shade at a time at the most while a thing is turned a degree at a time', () => {
    const right = Array.from({ length: 89 }, (_, k) =>
      shadeOf('x', { azimuth: k + 1, elevation: 9 }),
    );
    for (const [k, shade] of right.entries()) {
      expect(Math.abs(shade - (right[k - 1] ?? shade))).toBeLessThanOrEqual(1);
    }
  });

  it('leaves what faces down darkest', () => {
    expect(shadeOf('z', { azimuth: 40, elevation: -20 })).toBe(0);
  });
});

describe('the woods', () => {
  const woods = Object.keys(WOOD_TONES) as WoodTone[];
  const shades = Array.from({ length: LIGHTEST + 1 }, (_, shade) => shade);
  /** What lines are drawn in: the ink and the chalk of the app, and black in print. */
  const lines: readonly (readonly [Look, string])[] = [
    ['light', '#23211d'],
    ['dark', '#ebe7dc'],
    ['print', '#000000'],
  ];

  it.each(lines)('leave edges to be seen, 3 : 1 after WCAG 2.2, 1.4.11: %s', (look, ink) => {
    for (const wood of woods) {
      for (const shade of shades) {
        const ratio = contrast(colourOf(wood, shade, look), ink);
        expect([wood, shade, ratio >= 3]).toEqual([wood, shade, true]);
      }
    }
  });

  it('grow lighter from shade to shade', () => {
    for (const [look] of lines) {
      for (const wood of woods) {
        const steps = shades.map((shade) => luminance(colourOf(wood, shade, look)));
        expect(steps).toEqual([...steps].sort((a, b) => a - b));
        expect(new Set(steps).size).toBe(steps.length);
      }
    }
  });

  it.each([
    ['Sugar maple', 'pale'],
    ['Maple, sugar', 'pale'],
    ['white oak', 'tan'],
    ['Oak, northern red', 'rose'],
    ['Northern red oak', 'rose'],
    ['Black walnut', 'brown'],
    ['Juglans nigra', 'brown'],
    ['Cherry, black', 'red'],
    ['Eastern white pine', 'straw'],
    ['Yellow-poplar', 'green'],
    ['Western red cedar', 'red'],
    ['Birch plywood', 'pale'],
    ['MDF', 'plain'],
    ['Unobtainium', 'plain'],
    [undefined, 'plain'],
  ] as const)('%s is %s', (material, tone) => {
    expect(woodTone(material)).toBe(tone);
  });
});
