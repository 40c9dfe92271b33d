import { boundsOf, measured, type Solid, type Triple, turnedBy } from '@kerfbook/solids';
import {
  alongAxes,
  compoundBevel,
  compoundMitre,
  cornerOf,
  leanRoom,
  type PlacedPart,
  readForm,
  type ShapeCells,
  splayAngle,
  splayLength,
  type Turn,
} from '@kerfbook/wood';
import { describe, expect, it } from 'vitest';
import { madePiece, pieceStanding } from './made.ts';
import { shapeOf } from './shape-of.ts';
import { type FormedPart, placementOf, roomOf } from './standing.ts';
import { faceTowards, sideOf, TURNED } from './turned.ts';

const TURNS: readonly Turn[] = ['LWT', 'LTW', 'WLT', 'WTL', 'TLW', 'TWL'];

const partOf = (
  [thickness, width, length]: Triple,
  cells: ShapeCells = {},
  count = 4,
): FormedPart => {
  const { form, lean } = readForm('Leg', cells);
  return {
    name: 'Leg',
    count,
    thickness,
    width,
    length,
    ...(form === undefined ? {} : { form }),
    ...(lean === undefined ? {} : { lean }),
  };
};
/** Two by two, as legs at corners. */
const corners = (turn: Turn): PlacedPart => ({
  turn,
  together: false,
  lines: [
    { start: 0, step: 1000, count: 2 },
    { start: 0, step: 600, count: 2 },
    { start: 0, step: 0, count: 1 },
  ],
});
const alone = (turn: Turn): PlacedPart => ({
  turn,
  together: false,
  lines: [
    { start: 5, step: 0, count: 1 },
    { start: 6, step: 0, count: 1 },
    { start: 7, step: 0, count: 1 },
  ],
});
const mm = (length: number): string => `${Math.round(length * 100) / 100} mm`;
const made = (part: FormedPart, placing?: PlacedPart, copy = 0) => {
  const piece = madePiece(part, placing, copy, mm);
  if (piece === undefined) throw new Error('not made');
  return piece;
};
const standing = (part: FormedPart, placing: PlacedPart, copy: number): Solid => {
  const solid = pieceStanding(part, placing, copy);
  if (solid === undefined) throw new Error('not shaped');
  return solid;
};
const pointsOf = (solid: Solid): readonly Triple[] => solid.facets.flatMap(({ points }) => points);
const spanAt = (solid: Solid, z: number, axis: 0 | 1): readonly [number, number] => {
  const there = pointsOf(solid).filter((point) => Math.abs(point[2] - z) < 1e-6);
  return [Math.min(...there.map((p) => p[axis])), Math.max(...there.map((p) => p[axis]))];
};
const radians = (degrees: number): number => (degrees * Math.PI) / 180;

describe('a turned piece', () => {
  it.each(TURNS)('%s is a rotation, and its faces look where they are said to', (turn) => {
    const [[a, b, c], [d, e, f], [g, h, i]] = TURNED[turn];
    expect(a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g)).toBe(1);
    for (const side of ['left', 'right', 'front', 'back', 'bottom', 'top'] as const) {
      expect(sideOf(turn, faceTowards(turn, side))).toBe(side);
    }
  });

  it('has its foot at its end, and its lower edge at its front', () => {
    expect(faceTowards('WTL', 'bottom')).toBe('end');
    expect(faceTowards('TWL', 'bottom')).toBe('end');
    expect(faceTowards('LTW', 'bottom')).toBe('front');
    expect(faceTowards('TLW', 'bottom')).toBe('front');
  });
});

describe('four legs tapered on two inside faces', () => {
  const part = partOf([50, 60, 700], {
    taper: 'two inside faces',
    'taper to': 30,
    'taper from': 100,
  });

  it.each(['WTL', 'TWL'] as const)('keep their outer corner plumb, %s', (turn) => {
    for (const copy of [0, 1, 2, 3]) {
      const leg = standing(part, corners(turn), copy);
      const [x, y] = cornerOf(corners(turn), copy);
      const [alongX, alongY] = alongAxes(turn, part);
      // At the foot: what is left stands at the outer corner.
      expect(spanAt(leg, 0, 0)[0]).toBeCloseTo(x === 0 ? 0 : x + alongX - 30, 6);
      expect(spanAt(leg, 0, 1)[0]).toBeCloseTo(y === 0 ? 0 : y + alongY - 30, 6);
      for (const axis of [0, 1] as const) {
        const [low, high] = spanAt(leg, 0, axis);
        expect(high - low).toBeCloseTo(30, 6);
      }
    }
  });

  it('is 30 x 30 at the foot by the formula of a frustum below a straight piece', () => {
    const square = partOf([60, 60, 700], { taper: 'inside', 'taper to': 30, 'taper from': 100 });
    const { solid } = made(square, corners('WTL'));
    // Straight: 60 x 60 x 100; below: (A1 + A2 + sqrt(A1 A2)) h / 3 for a pyramid cut off, leaning or not.
    const below = ((60 ** 2 + 30 ** 2 + 60 * 30) * 600) / 3;
    expect(measured(solid).volume).toBeCloseTo(60 * 60 * 100 + below, 3);
  });

  it('says where there is no inside, and what cannot be cut', () => {
    expect(made(part, alone('WTL')).wrong).toEqual([
      {
        column: 'taper',
        says: 'The inside faces of Leg cannot be told: it stands in the middle. Name the faces, such as front and back.',
      },
    ]);
    const thick = partOf([50, 60, 700], {
      taper: 'four',
      'taper to': 80,
      edge: 'chamfer',
      'edge size': 4,
    });
    const { wrong, shape } = made(thick, corners('WTL'));
    expect(wrong.map(({ column, says }) => `${column}: ${says}`)).toEqual([
      'taper to: Leg: The taper ends at 80 mm, more than the width of 60 mm; let it end at less.',
    ]);
    expect(shape.cuts?.map(({ kind }) => kind)).toEqual([
      'chamfer',
      'chamfer',
      'chamfer',
      'chamfer',
    ]);
  });
});

describe('legs that splay', () => {
  const splayed = (along: number, across: number, ends?: string): FormedPart =>
    partOf([40, 50, 600], {
      'splay along': along,
      'splay across': across,
      ...(ends === undefined ? {} : { ends }),
    });

  it.each([
    [10, 7],
    [5, 5],
    [12, 0],
    [-6, 3],
  ])('by %d and %d stand on the floor level, out from their corner, whichever they are', (a, b) => {
    for (const turn of ['WTL', 'TWL'] as const) {
      const part = splayed(a, b);
      const room = roomOf(part, turn);
      for (const copy of [0, 1, 2, 3]) {
        const placing = corners(turn);
        const leg = standing(part, placing, copy);
        const { low, high } = boundsOf(leg);
        expect(low[2]).toBeCloseTo(0, 6);
        expect(high[2]).toBeCloseTo(room[2], 6);
        const corner = cornerOf(placing, copy);
        for (const axis of [0, 1] as const) {
          const upper = spanAt(leg, high[2], axis);
          expect(upper[0]).toBeCloseTo(corner[axis], 6);
          expect(upper[1]).toBeCloseTo(corner[axis] + room[axis], 6);
          const foot = spanAt(leg, 0, axis);
          const out = corner[axis] === 0 ? -1 : 1;
          const angle = axis === 0 ? a : b;
          expect(foot[0] - upper[0]).toBeCloseTo(out * Math.tan(radians(angle)) * room[2], 6);
        }
      }
    }
  });

  it('are as long along their middle as SPLAY_LENGTH says (geometry of a line in space)', () => {
    const part = splayed(10, 7);
    const [, , height] = roomOf(part, 'WTL');
    // Both ends are level: each corner line of the leg is as long as its middle.
    const { solid } = made(part, corners('WTL'));
    const starts = pointsOf(solid)
      .filter(([, y, z]) => y === 0 && z === 0)
      .map(([x]) => x);
    const long = Math.max(...starts) - Math.min(...starts);
    expect(long).toBeCloseTo(splayLength(height, 10, 7), 6);
  });

  it('have ends whose settings together are the angle of SPLAY_ANGLE', () => {
    const { ends } = shapeOf(splayed(10, 7), corners('WTL'), 0);
    for (const end of ['start', 'end'] as const) {
      const { mitre, bevel } = ends[end]!;
      const off = Math.acos(Math.cos(radians(mitre)) * Math.cos(radians(bevel)));
      expect((off * 180) / Math.PI).toBeCloseTo(splayAngle(10, 7), 6);
    }
    expect(shapeOf(splayed(10, 7, 'square'), corners('WTL'), 0).ends).toEqual({});
  });

  it('stand on a corner where their ends are square', () => {
    const part = splayed(10, 7, 'square');
    const leg = standing(part, corners('WTL'), 3);
    const { low, high } = boundsOf(leg);
    expect(low[2]).toBeCloseTo(0, 6);
    expect(high[2]).toBeCloseTo(leanRoom(part, 'WTL', { along: 10, across: 7 }, 'square')[2], 6);
    expect(measured(leg).volume).toBeCloseTo(40 * 50 * 600, 3);
  });

  it('say where they cannot lean', () => {
    expect(made(splayed(10, 0), alone('WTL')).wrong[0]?.says).toContain(
      'stands in the middle along',
    );
    expect(made(splayed(10, 0), corners('LWT')).wrong[0]?.says).toContain('lies flat');
    expect(made(splayed(10, 5), corners('LTW')).wrong[0]).toEqual({
      column: 'splay along',
      says: 'Leg lies on edge and leans to one side only. Clear its splay along, and write the angle under splay across.',
    });
  });
});

describe('sides of a box that lean', () => {
  // Spherical trigonometry, as COMPOUND_MITRE and COMPOUND_BEVEL have it: a tray whose sides flare out.
  it.each([15, 5, 30])('by %d degrees meet at the angles of the textbook', (slope) => {
    const placing: PlacedPart = {
      ...corners('LTW'),
      lines: [
        { start: 0, step: 0, count: 1 },
        { start: 0, step: 300, count: 2 },
        { start: 0, step: 0, count: 1 },
      ],
    };
    const side = partOf([12, 100, 400], { ends: 'beveled 45', 'splay across': -slope }, 2);
    for (const copy of [0, 1]) {
      const { ends } = shapeOf(side, placing, copy);
      expect(Math.abs(ends.end!.mitre)).toBeCloseTo(compoundMitre(4, slope), 6);
      expect(Math.abs(ends.end!.bevel)).toBeCloseTo(compoundBevel(4, slope), 6);
      expect(ends.start).toEqual(ends.end);
    }
  });

  it('upright are beveled by what they say', () => {
    const side = partOf([12, 100, 400], { ends: 'beveled 45' }, 1);
    expect(shapeOf(side, alone('LTW')).ends.end).toEqual({ mitre: 0, bevel: -45 });
  });
});

describe('other shapes', () => {
  const volume = (part: FormedPart, placing?: PlacedPart): number =>
    measured(made(part, placing).solid).volume;

  it('are made from the words', () => {
    expect(made(partOf([20, 800, 800], { shape: 'round' })).exact?.volume).toBeCloseTo(
      Math.PI * 400 ** 2 * 20,
      3,
    );
    expect(made(partOf([20, 600, 800], { shape: 'oval' })).exact?.volume).toBeCloseTo(
      Math.PI * 400 * 300 * 20,
      3,
    );
    expect(made(partOf([20, 600, 800], { corner: 50 })).exact?.volume).toBeCloseTo(
      (800 * 600 - (4 - Math.PI) * 50 ** 2) * 20,
      3,
    );
    expect(made(partOf([40, 40, 700], { shape: 'rod' })).exact?.volume).toBeCloseTo(
      Math.PI * 20 ** 2 * 700,
      3,
    );
    // A chamfer takes half of its square along each of four edges, none at a corner twice.
    const chamfered = partOf([40, 60, 700], { edge: 'chamfer', 'edge size': 4 });
    expect(volume(chamfered, corners('WTL'))).toBeCloseTo(40 * 60 * 700 - 4 * 8 * 700, 3);
    // A segment of a circle, by its rise and chord (Euclid): r = (c²/4 + h²) / 2h; the arc is told by chords.
    const arched = partOf([20, 100, 600], { arch: 40 });
    const radius = (300 ** 2 + 40 ** 2) / 80;
    const turn = 2 * Math.asin(300 / radius);
    const segment = (radius ** 2 / 2) * (turn - Math.sin(turn));
    expect(volume(arched, alone('LTW')) / ((600 * 100 - segment) * 20)).toBeCloseTo(1, 2);
  });

  it('say what does not go together, each at its head', () => {
    const says = (cells: ShapeCells, sizes: Triple = [20, 600, 600], placing?: PlacedPart) =>
      made(partOf(sizes, cells), placing).wrong.map(({ column, says: it }) => `${column}: ${it}`);
    expect(says({ shape: 'round' }, [20, 600, 610])).toEqual([
      'shape: Leg is round and its width and length differ. Make both alike, or write oval.',
    ]);
    expect(says({ shape: 'round', taper: 'four', 'taper to': 10 })[0]).toContain(
      'taper: Leg is round',
    );
    expect(says({ shape: 'oval', arch: 10 })[0]).toContain('arch: Leg is oval');
    expect(says({ shape: 'oval', ends: 'mitered 45' })[0]).toContain('ends: Leg is oval');
    expect(says({ shape: 'round', edge: 'cove', 'edge size': 5 })[0]).toContain(
      'edge: Leg is round',
    );
    expect(says({ corner: 400 })[0]).toContain('corner: Leg: The radius is 400 mm, more than half');
    expect(says({ arch: 10 }, [20, 60, 700], corners('WTL'))[0]).toContain('stands upright');
    expect(says({ arch: 900 }, [20, 60, 700], alone('LTW'))).toHaveLength(1);
    expect(says({ edge: 'round-over', 'edge size': 90 }, [20, 60, 700])[0]).toContain(
      'edge size: Leg: ',
    );
    expect(says({ ends: 'mitered 45 top' })[0]).toBe(
      'ends: The ends of Leg name its top, where it has no end as it lies. Its ends are left and right.',
    );
    expect(says({ ends: 'mitered 45 left, mitered 10 right top longer' })[0]).toContain(
      'top longer',
    );
    expect(says({ taper: 'left and front', 'taper to': 10 })[0]).toContain('names its left');
  });

  it('miter the outer side of a frame longer, and bevel the lower one', () => {
    const rail = partOf([20, 60, 600], { ends: 'mitered 45' }, 2);
    const pair: PlacedPart = {
      ...corners('LWT'),
      lines: [
        { start: 0, step: 0, count: 1 },
        { start: 0, step: 540, count: 2 },
        { start: 0, step: 0, count: 1 },
      ],
    };
    expect(shapeOf(rail, pair, 0).ends.end).toEqual({ mitre: 45, bevel: 0 });
    expect(shapeOf(rail, pair, 1).ends.end).toEqual({ mitre: -45, bevel: 0 });
    const [front] = [standing(rail, pair, 0)];
    const lengthAt = (y: number): number => {
      const there = pointsOf(front)
        .filter((p) => Math.abs(p[1] - y) < 1e-6)
        .map(([x]) => x);
      return Math.max(...there) - Math.min(...there);
    };
    expect([lengthAt(0), lengthAt(60)].map(Math.round)).toEqual([600, 480]);
  });

  it('have cut from them what joints take besides', () => {
    const hole = {
      kind: 'mortise',
      face: 'top',
      at: [100, 30],
      length: 40,
      width: 10,
      depth: 20,
    } as const;
    const box = pieceStanding(partOf([40, 60, 700]), corners('WTL'), 0, [hole]);
    expect(box && measured(box).volume).toBeCloseTo(40 * 60 * 700 - 40 * 10 * 20, 6);
    const tapered = partOf([60, 60, 700], { taper: 'inside', 'taper to': 30, 'taper from': 200 });
    const [plain, cut] = [[], [hole]].map((joints) =>
      pieceStanding(tapered, corners('WTL'), 0, joints),
    );
    const volume = (solid: Solid | undefined) => (solid === undefined ? 0 : measured(solid).volume);
    expect(volume(plain) - volume(cut)).toBeCloseTo(40 * 10 * 20, 6);
    const deep = { ...hole, depth: 900 };
    expect(volume(pieceStanding(tapered, corners('WTL'), 0, [deep]))).toBeCloseTo(volume(plain), 6);
  });

  it('keep pieces alike the same object where they stand in the same place', () => {
    const part = partOf([40, 60, 700], { edge: 'chamfer', 'edge size': 4 });
    expect(standing(part, corners('WTL'), 1)).toBe(standing({ ...part }, corners('WTL'), 1));
    expect(pieceStanding(partOf([40, 60, 700]), corners('WTL'), 1)).toBeUndefined();
    expect(turnedBy(placementOf(part, corners('WTL'), 1), [1, 0, 0])).toEqual([0, 0, -1]);
  });
});
