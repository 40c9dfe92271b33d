import initLibrary, { type Mesh } from 'manifold-3d';
import { beforeAll, describe, expect, it } from 'vitest';
import { edgesOf } from './edges.ts';
import { areaBeside, areaOf, measured, volumeOf } from './measure.ts';
import { movedBy, placed } from './place.ts';
import { ShapeFault } from './problem.ts';
import { type Form, formOf, type Shape, solidOf } from './shape.ts';
import { Random } from './testdata/random.ts';
import { randomShape } from './testdata/shapes.ts';
import type { Convex, Facet, Solid, Triple } from './types.ts';
import { dot, lengthOf, plus } from './vectors.ts';

/** Random pieces, against a library of solids that knows nothing of ours, and against what holds of every solid. */

const SEED = 20261127;
const PIECES = 1000;

interface Piece {
  readonly shape: Shape;
  readonly form: Form;
  readonly solid: Solid;
}

const pieces: Piece[] = [];
let refused = 0;

beforeAll(() => {
  const random = new Random(SEED);
  while (pieces.length < PIECES) {
    const shape = randomShape(random);
    try {
      const form = formOf(shape);
      pieces.push({ shape, form, solid: solidOf(form) });
    } catch (error) {
      if (!(error instanceof ShapeFault)) throw error;
      refused += 1;
    }
  }
}, 120_000);

/** Checks every piece, and names the first one that fails by its shape. */
function each(check: (piece: Piece) => void): void {
  for (const piece of pieces) {
    try {
      check(piece);
    } catch (error) {
      throw new Error(`${JSON.stringify(piece.shape)}`, { cause: error });
    }
  }
}

describe(`${PIECES} random pieces with seed ${SEED}`, () => {
  it('can mostly be made; what cannot is refused, and nothing else goes wrong', () => {
    expect(refused).toBeGreaterThan(0);
    expect(refused).toBeLessThan(PIECES);
  });

  it('have the volume and the area that a library of solids finds, and balance where its meshes do', async () => {
    const library = await initLibrary();
    library.setup();
    const { Manifold } = library;
    const hull = ({ facets }: Convex) =>
      Manifold.hull(
        facets.flatMap(({ points }) => points.map(([x, y, z]) => [x, y, z] as const)) as never,
      );
    let films = 0;
    each(({ form, solid }) => {
      const blank = hull(form.body);
      const tools = form.tools.map(hull);
      // One after the other: put together first, tools that touch leave films between them there.
      const left = tools.reduce((rest, tool) => rest.subtract(tool), blank);
      const { volume, area, centroid } = measured(solid);
      const theirs = balanceOf(left.getMesh());
      for (const axis of [0, 1, 2] as const) expect(centroid[axis]).toBeCloseTo(theirs[axis], 2);
      expect(volume / left.volume()).toBeCloseTo(1, 6);
      // Tools that share a slanted plane leave such films too, in one order of them and not in the other.
      const back = tools.reduceRight((rest, tool) => rest.subtract(tool), blank);
      const [least = 0, most = 0] = [left.surfaceArea(), back.surfaceArea()].sort((a, b) => a - b);
      if (most / least > 1 + 1e-5) films++;
      expect(area / least).toBeCloseTo(1, 5);
      for (const one of new Set([blank, ...tools, left, back])) one.delete();
    });
    // 3 of these pieces: of all others both orders have one area, which is ours.
    expect(films).toBeLessThanOrEqual(3);
  });

  it('hide of each other what a library of solids says that two put into each other show less', async () => {
    const library = await initLibrary();
    library.setup();
    const { Manifold } = library;
    const made = ({ form }: Piece) => {
      const [body, ...tools] = [form.body, ...form.tools].map(({ facets }) =>
        Manifold.hull(
          facets.flatMap(({ points }) => points.map(([x, y, z]) => [x, y, z] as const)) as never,
        ),
      );
      const left = tools.reduce((rest, tool) => rest.subtract(tool), body!);
      return left;
    };
    const random = new Random(SEED);
    let meet = 0;
    for (let index = 0; index + 1 < 200; index++) {
      const [one, other] = [pieces[index]!, pieces[index + 1]!];
      // Never on whole millimetres: faces of the two that lie in one plane both stay, and the union has them once.
      const shift: Triple = [random.whole(-40, 40), random.whole(-15, 15), random.whole(-9, 9)].map(
        (part) => part + 0.437,
      ) as never;
      const there = placed(other.solid, movedBy(shift));
      const shown =
        areaBeside(one.solid.facets, there.cells) + areaBeside(there.facets, one.solid.cells);
      const union = made(one).add(made(other).translate(shift as never));
      if (union.surfaceArea() < measured(one.solid).area + measured(other.solid).area - 1) meet++;
      expect(shown / union.surfaceArea(), `pair ${index}`).toBeCloseTo(1, 5);
    }
    expect(meet).toBeGreaterThan(150);
  });

  it('are as large as their cells together', () => {
    each(({ solid }) => {
      const cells = solid.cells.reduce((sum, cell) => sum + volumeOf(cell), 0);
      expect(cells / measured(solid).volume).toBeCloseTo(1, 8);
    });
  });

  it('are closed: the areas of an outside, as vectors, come to nothing, and every side meets another', () => {
    each(({ solid }) => {
      const sum = solid.facets.reduce<Triple>(
        (all, { points }) => plus(all, areaOf(points)),
        [0, 0, 0],
      );
      expect(lengthOf(sum) / measured(solid).area).toBeLessThan(1e-9);
      expect(edgesOf(solid.facets, () => false).open).toBe(0);
    });
  });

  it('have cells that are closed and convex', () => {
    each(({ solid }) => {
      for (const { facets } of solid.cells) {
        const sum = facets.reduce<Triple>(
          (all, { points }) => plus(all, areaOf(points)),
          [0, 0, 0],
        );
        expect(lengthOf(sum)).toBeLessThan(1e-6);
        expect(reachOutside(facets)).toBeLessThan(1e-5);
      }
    });
  });
});

/**
 * Where a body between triangles balances: the middles of the tetrahedra that they make with one point, each
 * by its volume (geometry, no source).
 */
function balanceOf({ numProp, vertProperties, triVerts }: Mesh): Triple {
  const corner = (at: number): Triple => {
    const from = (triVerts[at] ?? 0) * numProp;
    return [
      vertProperties[from] ?? 0,
      vertProperties[from + 1] ?? 0,
      vertProperties[from + 2] ?? 0,
    ];
  };
  const about = corner(0);
  let whole = 0;
  let sum: Triple = [0, 0, 0];
  for (let at = 0; at < triVerts.length; at += 3) {
    const [a, b, c] = [corner(at), corner(at + 1), corner(at + 2)].map(
      (one) => one.map((part, axis) => part - (about[axis] ?? 0)) as unknown as Triple,
    ) as [Triple, Triple, Triple];
    const volume =
      (a[0] * (b[1] * c[2] - b[2] * c[1]) -
        a[1] * (b[0] * c[2] - b[2] * c[0]) +
        a[2] * (b[0] * c[1] - b[1] * c[0])) /
      6;
    whole += volume;
    const middle = plus(plus(a, b), c).map((part) => (part / 4) * volume) as unknown as Triple;
    sum = plus(sum, middle);
  }
  return plus(about, sum.map((part) => part / whole) as unknown as Triple);
}

/** How far any corner lies outside any facet's plane, mm. */
function reachOutside(facets: readonly Facet[]): number {
  const points = new Set(facets.flatMap((facet) => facet.points));
  let most = 0;
  for (const { normal, offset } of facets) {
    for (const point of points) most = Math.max(most, dot(normal, point) - offset);
  }
  return most;
}
