import {
  followedBy,
  leaningBy,
  movedBy,
  type Placement,
  placed,
  type Shape,
  shaped,
  UPRIGHT,
} from '@kerfbook/solids';
import type { Part } from '../parts.ts';
import { around, type Piece, type Scene } from '../scene.ts';

/** One piece of a hand-built scene: how it is shaped and where its own corner 0, 0, 0 stands. */
export interface Shaping {
  readonly name: string;
  readonly shape: Shape;
  readonly stands: Placement;
  /** True: it is drawn as the upright box around it, as pieces without a shape are. */
  readonly plain?: boolean;
}

/** A scene of shaped pieces; those of one name are copies of one part. */
export function shapedScene(all: readonly Shaping[]): Scene {
  const names = [...new Set(all.map(({ name }) => name))];
  const parts = new Map(
    names.map((name, index): [string, Part] => {
      const { shape } = all.find((one) => one.name === name) as Shaping;
      const count = all.filter((one) => one.name === name).length;
      return [name, partOf(index + 1, name, count, shape)];
    }),
  );
  const copies = new Map<string, number>();
  const pieces = all.map(({ name, shape, stands, plain = false }): Piece => {
    const made = shaped(shape);
    if (!made.ok) throw new Error(`${name} cannot be made: ${made.problem.code}`);
    const solid = placed(made.solid, stands);
    const copy = copies.get(name) ?? 0;
    copies.set(name, copy + 1);
    const points = solid.facets.flatMap((facet) => facet.points);
    const [x, y, z] = [0, 1, 2].map((k) => points.map((point) => point[k] ?? 0)) as [
      number[],
      number[],
      number[],
    ];
    const least = { x: Math.min(...x), y: Math.min(...y), z: Math.min(...z) };
    const most = { x: Math.max(...x), y: Math.max(...y), z: Math.max(...z) };
    const part = parts.get(name) as Part;
    const [along] = stands.axes.map((axis) => axis.map(Math.abs));
    const grain = (['x', 'y', 'z'] as const)[along?.indexOf(Math.max(...along)) ?? 0] ?? 'x';
    return { part, copy, from: least, to: most, grain, ...(plain ? {} : { solid, stands }) };
  });
  const extents = around(pieces);
  return { pieces, unplaced: [], problems: [], ...(extents === undefined ? {} : { extents }) };
}

function partOf(row: number, name: string, count: number, { blank }: Shape): Part {
  const [length, width, thickness] =
    blank.kind === 'box'
      ? [blank.length, blank.width, blank.thickness]
      : [blank.through, blank.through, blank.through];
  return {
    at: { sheet: 's1', row, column: 0 },
    countAt: { sheet: 's1', row, column: 1 },
    name,
    count,
    thickness,
    width,
    length,
    grain: 'length',
  };
}

/** A stool: a round seat on four legs that splay 8° both ways and taper to the foot, with a rod between two. */
export function stool(): Scene {
  const [seat, height, leg] = [360, 450, 34];
  const under = height - 30;
  const legs = [-1, 1].flatMap((x) =>
    [-1, 1].map((y): Shaping => {
      // The foot goes out, so the top leans in.
      const lean = leaningBy(-8 * x, -8 * y);
      const long = 440;
      const upright = followedBy(UPRIGHT, lean);
      const top = upright.axes[0].map((part) => part * long);
      const at = [seat / 2 + x * 90, seat / 2 + y * 90] as const;
      return {
        name: 'Leg',
        shape: {
          blank: { kind: 'box', length: long, width: leg, thickness: leg },
          cuts: [
            {
              kind: 'taper',
              faces: ['front', 'back', 'bottom', 'top'],
              to: 22,
              from: 0,
              towards: 'start',
            },
          ],
        },
        stands: followedBy(
          upright,
          movedBy([at[0] - (top[0] ?? 0), at[1] - (top[1] ?? 0), under - 10 - (top[2] ?? 0)]),
        ),
      };
    }),
  );
  return shapedScene([
    {
      name: 'Seat',
      shape: {
        blank: { kind: 'prism', outline: { kind: 'disc', diameter: seat }, through: 30 },
        cuts: [{ kind: 'roundover', edge: ['top', 'around'], radius: 6 }],
      },
      stands: movedBy([0, 0, under]),
    },
    ...legs,
    {
      name: 'Rod',
      shape: {
        blank: {
          kind: 'prism',
          outline: { kind: 'disc', diameter: 22 },
          through: 220,
          along: 'length',
        },
      },
      stands: movedBy([seat / 2 - 110, seat / 2 - 11, 180]),
    },
  ]);
}
