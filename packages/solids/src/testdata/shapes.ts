import type { Blank } from '../blank.ts';
import type { Cut, EdgeName } from '../cuts.ts';
import { axisOf, FACES, type Face } from '../faces.ts';
import type { Shape } from '../shape.ts';
import type { Triple } from '../types.ts';
import type { Random } from './random.ts';

/**
 * A shape as a maker might describe it. Sizes are whole millimetres, often of fives, so that faces of cuts
 * fall together often; some shapes cannot be made.
 */
export function randomShape(random: Random): Shape {
  const { blank, size } = randomBlank(random);
  const cuts: Cut[] = [];
  if (random.chance(0.4)) cuts.push(randomTaper(random, size));
  if (random.chance(0.3)) cuts.push(randomEnd(random, 'end'));
  if (random.chance(0.2)) cuts.push(randomEnd(random, 'start'));
  if (random.chance(0.3)) cuts.push(randomEdge(random, blank));
  const tools = random.whole(0, 4);
  for (let index = 0; index < tools; index++) cuts.push(randomTool(random, size));
  return { blank, cuts, faceting: { tolerance: random.pick([0.1, 0.5, 1]), most: 32 } };
}

function randomBlank(random: Random): { readonly blank: Blank; readonly size: Triple } {
  const length = 10 * random.whole(10, 60);
  const width = 5 * random.whole(8, 40);
  const thickness = 5 * random.whole(4, 12);
  if (random.chance(0.6)) {
    return { blank: { kind: 'box', length, width, thickness }, size: [length, width, thickness] };
  }
  const along = random.pick(['thickness', 'length'] as const);
  const isRod = along === 'length';
  const sizes = isRod ? { length: width, width: thickness } : { length, width };
  const through = isRod ? length : thickness;
  const outline = random.pick([
    { kind: 'disc', diameter: sizes.width },
    { kind: 'oval', ...sizes },
    { kind: 'superellipse', ...sizes, exponent: random.pick([1.5, 2.5, 4]) },
    {
      kind: 'rounded',
      ...sizes,
      radius: random.pick([5, 8, Math.min(sizes.length, sizes.width) / 2]),
    },
    { kind: 'polygon', sides: random.whole(3, 9), across: sizes.width, measured: 'flats' },
  ] as const);
  const wide = outline.kind === 'disc' || outline.kind === 'polygon' ? sizes.width : sizes.length;
  return {
    blank: { kind: 'prism', outline, through, along },
    size: isRod ? [length, wide, sizes.width] : [wide, sizes.width, thickness],
  };
}

const SIDES: readonly Face[] = ['front', 'back', 'bottom', 'top'];

function randomTaper(random: Random, [length, width, thickness]: Triple): Cut {
  return {
    kind: 'taper',
    faces: random.pick([['front'], ['front', 'top'], ['front', 'back'], SIDES] as const),
    to: Math.max(1, Math.round(Math.min(width, thickness) * (0.3 + 0.6 * random.share()))),
    from: 5 * random.whole(0, Math.floor(length / 5) - 2),
    towards: random.pick(['start', 'end'] as const),
  };
}

const randomEnd = (random: Random, end: 'start' | 'end'): Cut => ({
  kind: 'end',
  end,
  mitre: random.pick([0, 22.5, 45, -30, random.whole(-40, 40)]),
  bevel: random.pick([0, 45, -10, random.whole(-40, 40)]),
});

function randomEdge(random: Random, blank: Blank): Cut {
  const edge: EdgeName =
    blank.kind === 'prism' || random.chance(0.3)
      ? [random.pick(['top', 'bottom', 'end'] as const), 'around']
      : random.pick([
          ['top', 'front'],
          ['bottom', 'back'],
          ['end', 'top'],
        ] as const);
  const width = random.whole(2, 8);
  return random.chance(0.5)
    ? { kind: 'chamfer', edge, width, height: random.whole(2, 8) }
    : { kind: 'roundover', edge, radius: width };
}

/** Some way that is square to nothing. */
const LEANING: Triple = [12 / 13, (5 / 13) * 0.6, (5 / 13) * 0.8];

function randomTool(random: Random, size: Triple): Cut {
  const face = random.pick(FACES);
  const [first, second] = [0, 1, 2].filter((axis) => axis !== axisOf(face)) as [number, number];
  const room = size[axisOf(face)]!;
  const depth = random.chance(0.3) ? room : random.whole(1, Math.floor(room / 5)) * 5;
  const along = (axis: number): number => 5 * random.whole(0, Math.floor(size[axis]! / 5));
  const at = [along(first), along(second)] as const;
  const small = 5 * random.whole(1, 6);
  const turn = random.pick([0, 0, 90, 45, random.whole(0, 360)]);
  const edge = random.pick([
    ['top', 'front'],
    ['back', 'bottom'],
    ['top', 'end'],
    ['front', 'start'],
  ] as const);
  const stops = random.chance(0.3) ? { from: 5 * random.whole(0, 5) } : {};
  return random.pick<() => Cut>([
    () => ({ kind: 'groove', face, at: at[1], width: small, depth, ...stops }),
    () => ({ kind: 'dado', face, at: at[0], width: small, depth, ...stops }),
    () => ({ kind: 'rabbet', edge, width: small, depth: 5 * random.whole(1, 3), ...stops }),
    () => ({ kind: 'cove', edge, radius: small, ...stops }),
    () => ({ kind: 'arch', face, rise: random.whole(5, 20), chord: random.whole(40, 100) }),
    () => ({ kind: 'mortise', face, at, length: 2 * small, width: small, depth, turn }),
    () => ({ kind: 'mortise', face, at, length: 2 * small, width: small, depth, round: true }),
    () => ({ kind: 'hole', face, at, diameter: small, lean: random.pick([0, 0, 15, -30]), turn }),
    () => ({ kind: 'slot', face, at, length: 3 * small, width: small, turn }),
    () => ({ kind: 'pocket', face, at, length: 15, width: 10, lean: random.pick([15, 40]), turn }),
    () => ({
      kind: 'dovetail',
      face,
      run: random.pick(['along', 'across'] as const),
      at: at[0],
      width: 2 * small,
      depth: 5,
      angle: random.pick([0, 8, -8, 14]),
      ...stops,
    }),
    () => ({ kind: 'tenon', end: 'end', length: 25, width: size[1] / 2, thickness: size[2] - 10 }),
    () => ({
      kind: 'tenon',
      end: 'end',
      length: 25,
      width: size[1] / 2,
      thickness: size[2] - 10,
      shoulder: { normal: LEANING, offset: LEANING[0] * (size[0] - 25) },
    }),
    () => ({
      kind: 'angled mortise',
      from: [at[0], size[1] / 2, size[2] / 2],
      into: LEANING,
      along: [
        -LEANING[1] / Math.hypot(LEANING[0], LEANING[1]),
        LEANING[0] / Math.hypot(LEANING[0], LEANING[1]),
        0,
      ],
      length: 2 * small,
      width: small,
      depth: 30,
    }),
    () => ({ kind: 'angled hole', from: [at[0], 0, 0], into: LEANING, diameter: small, depth: 40 }),
  ])();
}
