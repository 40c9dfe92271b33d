import { describe, expect, it } from 'vitest';
import type { Cut } from './cuts.ts';
import { measured } from './measure.ts';
import { type Shape, type Shaped, shaped } from './shape.ts';

const BOX = { kind: 'box', length: 600, width: 60, thickness: 40 } as const;
const WHOLE = 600 * 60 * 40;
const FINE = { tolerance: 0.001, most: 2000 };

const made = (shape: Shape): Shaped => {
  const answer = shaped(shape);
  if (!answer.ok) throw new Error(answer.problem.says.join(''));
  return answer;
};
const volume = (cuts: readonly Cut[]): number =>
  measured(made({ blank: BOX, cuts, faceting: FINE }).solid).volume;
const roundVolume = (cut: Cut): number => {
  const blank = { kind: 'prism', outline: { kind: 'disc', diameter: 400 }, through: 30 } as const;
  return measured(made({ blank, cuts: [cut] }).solid).volume;
};

const tan = (degrees: number): number => Math.tan((degrees * Math.PI) / 180);
const cos = (degrees: number): number => Math.cos((degrees * Math.PI) / 180);

/** Between two sections and the one in the middle (Simpson's rule is exact for what flat faces close). */
const prismatoid = (long: number, start: number, middle: number, end: number): number =>
  (long / 6) * (start + 4 * middle + end);

/** A part of a circle above its chord. */
const segment = (chord: number, rise: number): number => {
  const radius = (chord ** 2 / 4 + rise ** 2) / (2 * rise);
  return radius ** 2 * Math.acos(1 - rise / radius) - (radius - rise) * (chord / 2);
};

/** Cuts, with what they take by school formulas, mm³. */
const FLAT: readonly (readonly [name: string, cut: Cut, takes: number])[] = [
  [
    'a taper of one face',
    { kind: 'taper', faces: ['front'], to: 30, from: 100, towards: 'end' },
    0.5 * 500 * 30 * 40,
  ],
  [
    'a taper of two opposite faces',
    { kind: 'taper', faces: ['front', 'back'], to: 30, from: 100, towards: 'start' },
    0.5 * 500 * 30 * 40,
  ],
  [
    'a taper of two adjacent faces',
    { kind: 'taper', faces: ['front', 'top'], to: 24, from: 100, towards: 'end' },
    500 * 60 * 40 - prismatoid(500, 60 * 40, 42 * 32, 24 * 24),
  ],
  [
    'a taper of four faces to two sizes',
    {
      kind: 'taper',
      faces: ['front', 'back', 'bottom', 'top'],
      to: [30, 20],
      from: 0,
      towards: 'end',
    },
    WHOLE - prismatoid(600, 60 * 40, 45 * 30, 30 * 20),
  ],
  ['a mitred end', { kind: 'end', end: 'end', mitre: 45 }, 0.5 * 60 * 60 * 40],
  ['a mitred start', { kind: 'end', end: 'start', mitre: -30 }, 0.5 * 60 * 60 * tan(30) * 40],
  ['a bevelled end', { kind: 'end', end: 'end', bevel: 20 }, 0.5 * 40 * 40 * tan(20) * 60],
  [
    // The cut is as long at the middle of the end as it is on average.
    'a compound end',
    { kind: 'end', end: 'end', mitre: 30, bevel: 20 },
    60 * 40 * ((60 / 2) * tan(30) + ((40 / 2) * tan(20)) / cos(30)),
  ],
  ['a chamfer', { kind: 'chamfer', edge: ['top', 'front'], width: 8, height: 5 }, 20 * 600],
  ['a groove', { kind: 'groove', face: 'front', at: 10, width: 6, depth: 8 }, 600 * 6 * 8],
  [
    'a stopped groove',
    { kind: 'groove', face: 'front', at: 10, width: 6, depth: 8, from: 50, to: 300 },
    250 * 6 * 8,
  ],
  ['a dado', { kind: 'dado', face: 'bottom', at: 100, width: 18, depth: 6 }, 60 * 18 * 6],
  ['a dado at the edge', { kind: 'dado', face: 'top', at: -5, width: 18, depth: 6 }, 60 * 13 * 6],
  ['a rabbet', { kind: 'rabbet', edge: ['top', 'back'], width: 12, depth: 9 }, 600 * 12 * 9],
  [
    'a mortise',
    { kind: 'mortise', face: 'top', at: [60, 30], length: 80, width: 10, depth: 25 },
    80 * 10 * 25,
  ],
  [
    'a mortise at an angle',
    { kind: 'mortise', face: 'end', at: [30, 20], length: 20, width: 10, depth: 30, turn: 37 },
    20 * 10 * 30,
  ],
  [
    'an open mortise',
    { kind: 'mortise', face: 'end', at: [30, 20], length: 60, width: 12, depth: 50 },
    60 * 12 * 50,
  ],
  [
    'a leaning mortise right through',
    { kind: 'pocket', face: 'top', at: [300, 30], length: 40, width: 10, lean: 20 },
    (40 / cos(20)) * 10 * 40,
  ],
  [
    'a dovetail socket',
    { kind: 'dovetail', face: 'top', run: 'across', at: 200, width: 20, depth: 10, angle: 8 },
    60 * 10 * (20 + 10 * tan(8)),
  ],
  [
    'a dovetail socket that is wide outside',
    { kind: 'dovetail', face: 'end', run: 'across', at: 30, width: 20, depth: 15, angle: -8 },
    40 * 15 * (20 - 15 * tan(8)),
  ],
  [
    'a tenon',
    { kind: 'tenon', end: 'start', length: 30, width: 40, thickness: 12 },
    30 * (60 * 40 - 40 * 12),
  ],
  [
    'a tenon to one side',
    { kind: 'tenon', end: 'end', length: 30, width: 40, thickness: 12, at: [0, 28] },
    30 * (60 * 40 - 40 * 12),
  ],
];

const ROUND: readonly (readonly [name: string, cut: Cut, takes: number])[] = [
  [
    'a rounded edge',
    { kind: 'roundover', edge: ['top', 'back'], radius: 12 },
    (1 - Math.PI / 4) * 144 * 600,
  ],
  ['a cove', { kind: 'cove', edge: ['top', 'front'], radius: 15 }, (Math.PI / 4) * 225 * 600],
  ['an arch', { kind: 'arch', face: 'front', rise: 25 }, segment(600, 25) * 40],
  [
    'an arch as steep as can be',
    { kind: 'arch', face: 'top', rise: 20, chord: 40, at: 200 },
    (Math.PI / 2) * 400 * 60,
  ],
  [
    'a mortise with round ends',
    { kind: 'mortise', face: 'top', at: [60, 30], length: 80, width: 10, depth: 25, round: true },
    (70 * 10 + Math.PI * 25) * 25,
  ],
  [
    'a slot',
    { kind: 'slot', face: 'front', at: [60, 20], length: 24, width: 8 },
    (16 * 8 + Math.PI * 16) * 60,
  ],
  ['a hole', { kind: 'hole', face: 'top', at: [300, 30], diameter: 12 }, Math.PI * 36 * 40],
  [
    'half a hole',
    { kind: 'hole', face: 'top', at: [300, 0], diameter: 12, depth: 10 },
    Math.PI * 18 * 10,
  ],
  [
    'a leaning hole',
    { kind: 'hole', face: 'top', at: [300, 30], diameter: 12, lean: 25, turn: 60 },
    (Math.PI * 36 * 40) / cos(25),
  ],
];

describe('a cut with flat sides takes what it should:', () => {
  it.each(FLAT)('%s', (_, cut, takes) => {
    expect((WHOLE - volume([cut])) / takes).toBeCloseTo(1, 9);
  });
});

describe('a round cut takes what it should:', () => {
  it.each(ROUND)('%s', (_, cut, takes) => {
    expect((WHOLE - volume([cut])) / takes).toBeCloseTo(1, 3);
  });
});

describe('a hole that asks for less', () => {
  it('is told by fewer facets, each as near to its wall as it says (area of a regular polygon)', () => {
    const hole = { kind: 'hole', face: 'top', at: [300, 30], diameter: 12 } as const;
    const sides = (cut: Cut): number =>
      made({ blank: BOX, cuts: [cut] }).solid.facets.filter(({ curved }) => curved).length;
    const coarse = { ...hole, tolerance: 0.2 };
    const count = sides(coarse);
    expect(count).toBeLessThan(0.7 * sides(hole));
    expect(6 * (1 - Math.cos(Math.PI / count))).toBeLessThanOrEqual(0.2);
    const area = (count / 2) * 36 * Math.sin((2 * Math.PI) / count);
    expect(WHOLE - volume([coarse])).toBeCloseTo(area * 40, 6);
  });
});

describe('cuts together', () => {
  it('that share no wood take what each takes', () => {
    const both: Cut[] = [
      { kind: 'hole', face: 'top', at: [300, 30], diameter: 12 },
      { kind: 'tenon', end: 'start', length: 30, width: 40, thickness: 12 },
      { kind: 'groove', face: 'back', at: 3, width: 6, depth: 8, from: 40 },
      { kind: 'taper', faces: ['front'], to: 50, from: 350, towards: 'end' },
    ];
    const each = both.reduce((sum, cut) => sum + WHOLE - volume([cut]), 0);
    expect(WHOLE - volume(both)).toBeCloseTo(each, 3);
  });

  it('that are the same take it once', () => {
    const cut: Cut = { kind: 'dado', face: 'top', at: 100, width: 18, depth: 6 };
    expect(volume([cut, cut])).toBeCloseTo(volume([cut]), 6);
    const { facets } = made({ blank: BOX, cuts: [cut, cut] }).solid;
    expect(facets).toHaveLength(made({ blank: BOX, cuts: [cut] }).solid.facets.length);
  });

  it('are the same whatever their order', () => {
    const cuts: Cut[] = [
      { kind: 'mortise', face: 'top', at: [60, 30], length: 80, width: 10, depth: 25 },
      { kind: 'mortise', face: 'front', at: [60, 20], length: 80, width: 10, depth: 40 },
      { kind: 'end', end: 'end', mitre: 10, bevel: 5 },
    ];
    expect(volume([...cuts].reverse())).toBeCloseTo(volume(cuts), 6);
  });

  it('around the rim of a disc make a cone of it', () => {
    const edge = ['bottom', 'around'] as const;
    const left = roundVolume({ kind: 'chamfer', edge, width: 50, height: 20 });
    const cone = ((Math.PI * 20) / 3) * (200 ** 2 + 200 * 150 + 150 ** 2);
    expect(left / (cone + Math.PI * 200 ** 2 * 10)).toBeCloseTo(1, 3);
  });

  it('round the rim of a disc like a turned edge', () => {
    const [whole, radius] = [200, 10];
    const left = roundVolume({ kind: 'roundover', edge: ['top', 'around'], radius });
    // What goes, turned about the middle: its area times the way of its centroid (Pappus).
    const area = (1 - Math.PI / 4) * radius ** 2;
    const inward = (radius ** 3 * (5 / 6 - Math.PI / 4)) / area;
    const goes = 2 * Math.PI * (whole - inward) * area;
    expect(left / (Math.PI * whole ** 2 * 30 - goes)).toBeCloseTo(1, 3);
  });

  it('follow a taper along its edges', () => {
    const taper: Cut = { kind: 'taper', faces: ['top'], to: 20, from: 0, towards: 'end' };
    const cut: Cut = { kind: 'chamfer', edge: ['top', 'front'], width: 6 };
    const slope = Math.hypot(600, 20);
    // Square to the edge the chamfer is the same triangle all along the leaning edge.
    expect((volume([taper]) - volume([taper, cut])) / (18 * slope)).toBeCloseTo(1, 2);
  });
});
