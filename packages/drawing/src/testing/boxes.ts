import type { Part } from '../parts.ts';
import { around, type Piece, type Scene } from '../scene.ts';

/** Where a box begins and how far it goes along x, y and z, mm. */
export type Numbers = readonly [
  x: number,
  y: number,
  z: number,
  dx: number,
  dy: number,
  dz: number,
];

/** A scene of bare boxes: no table, no rows, only places. Each box is a part of its own. */
export function sceneOf(boxes: readonly Numbers[], names: readonly string[] = []): Scene {
  const pieces = boxes.map(
    ([x, y, z, dx, dy, dz], index): Piece => ({
      part: partAt(index + 1, names[index] ?? `Box ${index + 1}`),
      copy: 0,
      from: { x, y, z },
      to: { x: x + dx, y: y + dy, z: z + dz },
    }),
  );
  const extents = around(pieces);
  return { pieces, unplaced: [], problems: [], ...(extents === undefined ? {} : { extents }) };
}

const partAt = (row: number, name: string): Part => ({
  at: { sheet: 's1', row, column: 0 },
  countAt: { sheet: 's1', row, column: 1 },
  name,
  count: 1,
  thickness: 1,
  width: 1,
  length: 1,
});
