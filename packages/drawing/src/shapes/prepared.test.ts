import type { Solid } from '@kerfbook/solids';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { anySolid } from '../testing/any-solid.ts';
import { type PreparedSolids, prepareSolids } from './prepared.ts';
import type { ReadySolid } from './ready-solid.ts';

const place = fc.integer({ min: -30, max: 30 });
const angle = fc.integer({ min: -179, max: 180 });
const solid = anySolid(angle, place);
const scene = fc.array(solid, { minLength: 2, maxLength: 8 });

/** What is not put together for all solids. */
const ofItsOwn = ({
  edgePoints,
  edgeNormals,
  edgeSmooth,
  facetItems,
  facetPlanes,
}: ReadySolid) => ({
  edgePoints,
  edgeNormals,
  edgeSmooth,
  facetItems,
  facetPlanes,
});

/** All numbers as texts: to compare long lists one number after the other takes a test minutes. */
const lists = ({
  solids,
  ready,
  creases,
  cellPoints,
  edgeCount,
  ...rest
}: PreparedSolids): string[] => [
  `edges ${edgeCount}`,
  ...[{ ...cellPoints, ...rest }, ...ready.map(ofItsOwn)]
    .flatMap((one) => Object.entries<ArrayLike<number>>(one))
    .map(([name, list]) => `${name} ${Array.from(list).join(' ')}`),
];

describe('solids made ready', () => {
  it('are after each change what they are when nothing is remembered', () => {
    let creases = 0;
    fc.assert(
      fc.property(
        scene,
        fc.array(fc.tuple(fc.nat(), fc.nat(), solid), { minLength: 1, maxLength: 5 }),
        (first, changes) => {
          let solids = first;
          prepareSolids(solids);
          for (const [at, other, instead] of changes) {
            // Another solid in place of one, and two that change places.
            const [i, j] = [at % solids.length, other % solids.length];
            solids = solids.with(i, instead);
            solids = solids.with(i, solids[j] as Solid).with(j, instead);
            const ready = prepareSolids(solids);
            creases += ready.creasePoints.length;
            expect(lists(ready)).toEqual(lists(prepareSolids(structuredClone(solids))));
          }
        },
      ),
      { numRuns: 100, seed: 7 },
    );
    expect(creases).toBeGreaterThan(500);
  });
});
