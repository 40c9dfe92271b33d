import type { Solid } from '@kerfbook/solids';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Eye } from '../eye.ts';
import { anySolid } from '../testing/any-solid.ts';
import { sceneOf } from '../testing/boxes.ts';
import { box } from '../testing/solids.ts';
import { prepareSolids } from './prepared.ts';
import { solidOf } from './scene-solids.ts';
import { type ViewWishes, viewSolids } from './solids-view.ts';

// In a crowded room nearly everything stands before something; apart, most of a view is kept.
const place = fc.oneof(fc.integer({ min: -25, max: 25 }), fc.integer({ min: -150, max: 150 }));
const angle = fc.oneof(fc.constantFrom(0, 90), fc.integer({ min: -179, max: 180 }));
const solid = anySolid(angle, place);

/** One part another, one more, one less, two rows changed places, or back to what was. */
type Change = readonly [kind: 'other' | 'more' | 'less' | 'swap' | 'back', at: number, by: Solid];
const change: fc.Arbitrary<Change> = fc.tuple(
  fc.constantFrom('other', 'other', 'more', 'less', 'swap', 'back'),
  fc.nat(),
  solid,
);

function after(solids: readonly Solid[], first: readonly Solid[], change: Change): Solid[] {
  const [kind, number, by] = change;
  const at = number % solids.length;
  const one = solids[at] as Solid;
  if (kind === 'other') return solids.with(at, by);
  if (kind === 'more') return solids.toSpliced(at, 0, by);
  if (kind === 'less') return solids.length > 1 ? solids.toSpliced(at, 1) : [...solids];
  if (kind === 'back') return [...first];
  const next = (at + 1) % solids.length;
  return solids.with(at, solids[next] as Solid).with(next, one);
}

const VIEWS: readonly (readonly [Eye, ViewWishes])[] = [
  [{ azimuth: 0, elevation: 90 }, { backs: true }],
  [{ azimuth: 0, elevation: 0 }, { backs: true }],
  [
    { azimuth: 90, elevation: 0 },
    { backs: true, facets: true },
  ],
  [
    { azimuth: 0, elevation: 0 },
    { facets: true, ways: [{ from: [-40, -60, 12], to: [60, 80, 30] }] },
  ],
  [{ azimuth: 33, elevation: 21 }, { facets: true }],
];

const told = (solids: readonly Solid[]): string[] => {
  const ready = prepareSolids(solids);
  return VIEWS.map(([eye, wishes]) => JSON.stringify(viewSolids(ready, eye, wishes)));
};

describe('views of which most is kept', () => {
  it('are after each edit what they are when nothing is kept', () => {
    let hidden = 0;
    fc.assert(
      fc.property(
        fc.array(solid, { minLength: 3, maxLength: 7 }),
        fc.array(change, { minLength: 2, maxLength: 4 }),
        (first, changes) => {
          let solids: readonly Solid[] = first;
          told(solids);
          for (const one of changes) {
            solids = after(solids, first, one);
            const kept = told(solids);
            expect(kept).toEqual(told(structuredClone(solids) as Solid[]));
            hidden += kept.filter((text) => !text.includes('"hidden":[]')).length;
          }
        },
      ),
      { numRuns: 200, seed: 17 },
    );
    // Else nothing would have stood before anything.
    expect(hidden).toBeGreaterThan(500);
  });

  it('of a turned eye are kept from the second time on, and change with what comes before them', () => {
    const eye = { azimuth: 20, elevation: 10 };
    const view = (...solids: Solid[]) =>
      viewSolids(prepareSolids(solids), eye, { facets: true })?.facets[0] ?? [];
    const behind = box([0, 0, 0, 100, 20, 100]);
    const beside = box([300, 0, 0, 10, 20, 10]);
    view(behind, beside);
    const second = view(behind, beside);
    // What is kept is the same object, and not only equal.
    expect(view(behind, box([320, 0, 0, 10, 20, 10]))).toBe(second);
    expect(view(behind, box([20, -60, 20, 30, 20, 30]))).not.toEqual(second);
    expect(view(behind, beside)).toEqual(second);
  });

  it('find a plain box again where an edit made its piece anew', () => {
    const [first, second, moved] = [5, 5, 6].map((x) => sceneOf([[x, 0, 0, 40, 30, 20]]).pieces[0]);
    if (first === undefined || second === undefined || moved === undefined) throw new Error('none');
    expect(second).not.toBe(first);
    expect(solidOf(second)).toBe(solidOf(first));
    expect(solidOf(moved)).not.toEqual(solidOf(first));
  });
});
