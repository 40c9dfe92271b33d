import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Carving } from './carve.ts';
import { clipped } from './clip.ts';
import { shaped } from './shape.ts';
import type { Convex, Triple } from './types.ts';
import { unit } from './vectors.ts';

const DISC = { kind: 'prism', outline: { kind: 'disc', diameter: 120 }, through: 30 } as const;

function blank(): Convex {
  const answer = shaped({ blank: DISC, faceting: { most: 24 } });
  if (!answer.ok) throw new Error(answer.problem.says.join(''));
  return answer.solid.cells[0]!;
}

const part = fc.integer({ min: -3, max: 3 });
const planes = fc.array(
  fc
    .tuple(fc.tuple(part, part, part), fc.integer({ min: -35, max: 70 }))
    .filter(([way]) => way.some((one) => one !== 0))
    .map(([way, away]) => {
      const normal = unit(way as Triple);
      // From the middle, so that most planes cut.
      const middle = 60 * normal[0] + 60 * normal[1] + 15 * normal[2];
      return { normal, offset: middle + away };
    }),
  { minLength: 1, maxLength: 12 },
);

describe('planes that carve a body one after the other', () => {
  it('leave what they leave each by itself', () => {
    let [cuts, ends] = [0, 0];
    fc.assert(
      fc.property(planes, (all) => {
        let body = blank();
        const carving = new Carving(body);
        for (const [index, plane] of all.entries()) {
          const skin = { surface: 100 + index, curved: false };
          const left = clipped(body, plane, skin);
          expect(carving.cut(plane, skin)).toBe(left !== undefined);
          if (left === undefined) ends++;
          else if (left !== body) cuts++;
          body = left ?? body;
          expect(carving.body.facets).toEqual(body.facets);
        }
      }),
      { numRuns: 200, seed: 3 },
    );
    expect(cuts).toBeGreaterThan(300);
    expect(ends).toBeGreaterThan(50);
  });
});
