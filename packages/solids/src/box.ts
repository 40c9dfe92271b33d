import type { Edge, Facet, Solid, Triple } from './types.ts';

/** Each side of a box: its axis, whether it is the far one, and its corners anticlockwise from outside, by bits of x, y and z. */
const SIDES = [
  [0, 0, [0, 4, 6, 2]],
  [0, 1, [1, 3, 7, 5]],
  [1, 0, [0, 1, 5, 4]],
  [1, 1, [2, 6, 7, 3]],
  [2, 0, [0, 2, 3, 1]],
  [2, 1, [4, 5, 7, 6]],
] as const;

/** The solid of an upright box between two corners, mm. */
export function boxSolid(low: Triple, high: Triple): Solid {
  const corners = [0, 1, 2, 3, 4, 5, 6, 7].map(
    (bits): Triple => [
      (bits & 1) === 0 ? low[0] : high[0],
      (bits & 2) === 0 ? low[1] : high[1],
      (bits & 4) === 0 ? low[2] : high[2],
    ],
  );
  const at = (bits: number): Triple => corners[bits] as Triple;
  const facets = SIDES.map(([axis, far, bits], surface): Facet => {
    const way = far === 1 ? 1 : -1;
    const normal: Triple = [axis === 0 ? way : 0, axis === 1 ? way : 0, axis === 2 ? way : 0];
    const offset = way * ((far === 1 ? high : low)[axis] ?? 0);
    return { points: bits.map(at), normal, offset, surface, curved: false };
  });
  const edges = [0, 1, 2].flatMap((axis) => {
    const [one, other] = [(axis + 1) % 3, (axis + 2) % 3];
    return [0, 1, 2, 3].map((which): Edge => {
      const [a, b] = [which & 1, which >> 1];
      const bits = (a << one) | (b << other);
      const normals = [facets[2 * one + a], facets[2 * other + b]] as [Facet, Facet];
      return {
        from: at(bits),
        to: at(bits | (1 << axis)),
        normals: [normals[0].normal, normals[1].normal],
        smooth: false,
      };
    });
  });
  return { cells: [{ facets }], facets, edges };
}
