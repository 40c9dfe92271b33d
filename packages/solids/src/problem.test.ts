import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Blank } from './blank.ts';
import type { Cut } from './cuts.ts';
import { measured } from './measure.ts';
import { type ProblemCode, problemSays } from './problem.ts';
import { shaped } from './shape.ts';
import type { Facet } from './types.ts';

const BOX = { kind: 'box', length: 600, width: 60, thickness: 40 } as const;
const DISC = { kind: 'prism', outline: { kind: 'disc', diameter: 400 }, through: 30 } as const;
const TALL = Number.POSITIVE_INFINITY;

const BLANKS: readonly (readonly [blank: Blank, code: ProblemCode, says: string])[] = [
  [
    { ...BOX, width: 0 },
    'number',
    'The width is 0 mm; it has to be above zero, so make it larger.',
  ],
  [
    { ...BOX, length: Number.NaN },
    'number',
    'The length is not a number; give a length above zero.',
  ],
  [
    { ...DISC, through: TALL },
    'number',
    'The thickness is not a number; give a length above zero.',
  ],
  [
    { ...DISC, outline: { kind: 'rounded', length: 400, width: 100, radius: 51 } },
    'radius',
    'The radius is 51 mm, more than half of the side of 100 mm; make it 50 mm or less.',
  ],
  [
    { ...DISC, outline: { kind: 'superellipse', length: 400, width: 100, exponent: 0.5 } },
    'range',
    'The exponent is 0.5; it may be 1.2 to 20, so choose one in between.',
  ],
  [
    { ...DISC, outline: { kind: 'polygon', sides: 2, across: 100, measured: 'flats' } },
    'range',
    'The number of sides is 2; it may be 3 to 100, so choose one in between.',
  ],
  [
    { ...DISC, outline: { kind: 'polygon', sides: 4.5, across: 100, measured: 'flats' } },
    'range',
    'The number of sides is 4.5; give a whole number, 3 to 100.',
  ],
];

const taper = { kind: 'taper', faces: ['top'], to: 20, from: 100, towards: 'end' } as const;
const mortise = {
  kind: 'mortise',
  face: 'top',
  at: [60, 30],
  length: 80,
  width: 10,
  depth: 25,
} as const;
const groove = { kind: 'groove', face: 'top', at: 20, width: 6, depth: 8 } as const;
const tenon = { kind: 'tenon', end: 'end', length: 30, width: 40, thickness: 12 } as const;

const CUTS: readonly (readonly [cut: Cut, code: ProblemCode, says: string])[] = [
  [
    { ...taper, to: 45 },
    'taper',
    'The taper ends at 45 mm, more than the thickness of 40 mm; let it end at less.',
  ],
  [
    { ...taper, from: 600 },
    'taper',
    'The taper begins at 600 mm, which is not within the length of 600 mm; let it begin from 0 up to there.',
  ],
  [
    { ...taper, faces: ['end'] },
    'edge',
    'A taper leans faces along the piece; name one or more of front, back, bottom and top.',
  ],
  [
    { kind: 'end', end: 'end', mitre: 85 },
    'angle',
    'The mitre is 85 degrees; it may be -80 to 80, so choose one in between.',
  ],
  [
    { kind: 'chamfer', edge: ['top', 'bottom'], width: 5 },
    'edge',
    'There is no edge between top and bottom for a chamfer; name two faces that meet, or one and “around”.',
  ],
  [
    { kind: 'chamfer', edge: ['top', 'front'], width: 5, height: 41 },
    'radius',
    'The chamfer takes 41 mm of a face that is only 40 mm wide there; make it smaller.',
  ],
  [
    { kind: 'roundover', edge: ['top', 'front'], radius: 50 },
    'radius',
    'The rounded edge takes 50 mm of a face that is only 40 mm wide there; make it smaller.',
  ],
  [
    { kind: 'roundover', edge: ['top', 'around'], radius: 35 },
    'radius',
    'The rounded edge takes all of top; expected it to leave some of that face, so make it smaller.',
  ],
  [
    { kind: 'arch', face: 'front', rise: 30, chord: 50 },
    'arc',
    'The arch rises 30 mm over a chord of 50 mm, and no arc rises more than half its chord; let it rise 25 mm or less.',
  ],
  [
    { kind: 'arch', face: 'front', rise: 30, chord: 650 },
    'arc',
    'The arch is 650 mm long and the piece only 600 mm; make its chord 600 mm or less.',
  ],
  [
    { kind: 'arch', face: 'front', rise: 60 },
    'arc',
    'The arch rises 60 mm and the piece is only 60 mm wide there; let it rise less.',
  ],
  [
    { ...mortise, depth: 41 },
    'depth',
    'The mortise is 41 mm deep and the piece only 40 mm there; make it 40 mm deep or less.',
  ],
  [
    { ...mortise, at: [700, 30] },
    'outside',
    'The mortise lies outside the piece; move it onto the wood or take it away.',
  ],
  [
    { ...mortise, at: [-40, 30] },
    'outside',
    'The mortise lies outside the piece; move it onto the wood or take it away.',
  ],
  [
    { ...mortise, at: [Number.NaN, 30] },
    'number',
    'The place is not a number; give the place as a length.',
  ],
  [
    { ...mortise, length: 8, round: true },
    'radius',
    'The mortise is 8 mm long and 10 mm wide, and its round ends need as much length as width; make it longer or narrower.',
  ],
  [
    { ...groove, from: 300, to: 200 },
    'outside',
    'The cut begins at 300 mm and ends at 200 mm; let it end further on than it begins.',
  ],
  [
    { kind: 'rabbet', edge: ['top', 'front'], width: 61, depth: 5 },
    'depth',
    'The rabbet is 61 mm wide and the face only 60 mm; make it narrower.',
  ],
  [
    { kind: 'cove', edge: ['top', 'front'], radius: 41 },
    'radius',
    'The cove has a radius of 41 mm and the face is only 40 mm wide; make it 40 mm or less.',
  ],
  [
    { kind: 'cove', edge: ['top', 'bottom'], radius: 4 },
    'edge',
    'There is no edge between top and bottom; name two faces that meet.',
  ],
  [
    { kind: 'dovetail', face: 'top', run: 'across', at: 90, width: 4, depth: 20, angle: -10 },
    'angle',
    'The sides of the dovetail meet before its depth of 20 mm; make it wider or less steep.',
  ],
  [
    { ...tenon, length: 600 },
    'depth',
    'The tenon is 600 mm long and the piece only 600 mm; make it shorter.',
  ],
  [
    { ...tenon, thickness: 41 },
    'outside',
    'The tenon of 40 mm by 41 mm reaches beyond the piece of 60 mm by 40 mm; make it smaller or move it.',
  ],
  [
    { ...tenon, width: 60, thickness: 40 },
    'outside',
    'The cut around the tenon lies outside the piece; move it onto the wood or take it away.',
  ],
  [
    { ...groove, at: 0, width: 60, depth: 40 },
    'nothing',
    'The cuts take all of the piece; expected them to leave some wood, so make them smaller.',
  ],
];

describe('a shape that cannot be', () => {
  it.each(BLANKS)('tells of its blank %j', (blank, code, says) => {
    const answer = shaped({ blank });
    expect(answer).toMatchObject({ ok: false, problem: { code, cut: undefined } });
    if (!answer.ok) expect(problemSays(answer.problem)).toBe(says);
  });

  it.each(CUTS)('tells of its cut %j', (cut, code, says) => {
    const answer = shaped({ blank: BOX, cuts: [{ ...mortise, at: [400, 30] }, cut] });
    expect(answer).toMatchObject({
      ok: false,
      problem: { code, cut: code === 'nothing' ? undefined : 1 },
    });
    if (!answer.ok) expect(problemSays(answer.problem)).toBe(says);
  });

  it('is told in the lengths of whoever asks', () => {
    const answer = shaped({ blank: BOX, cuts: [{ ...mortise, depth: 50.8 }] });
    const inches = (mm: number): string => `${mm / 25.4}″`;
    if (answer.ok) throw new Error('a mortise deeper than the piece cannot be made');
    expect(problemSays(answer.problem, inches)).toMatch(/^The mortise is 2″ deep/);
  });

  it('asks for settings that can be', () => {
    for (const faceting of [
      { tolerance: 0 },
      { tolerance: Number.NaN },
      { most: 30 },
      { most: 8 },
    ]) {
      expect(shaped({ blank: DISC, faceting })).toMatchObject({ problem: { code: 'range' } });
    }
  });
});

describe('an edge told more finely than can be worked out', () => {
  const rim = (radius: number, tolerance: number, most: number) =>
    shaped({
      blank: { ...DISC, outline: { kind: 'disc', diameter: 1200 } },
      cuts: [{ kind: 'roundover', edge: ['top', 'around'], radius }],
      faceting: { tolerance, most },
    });

  it('is refused before the work is begun, and says what to allow', () => {
    const answer = rim(10, 0.001, 4000);
    expect(answer).toMatchObject({ ok: false, problem: { code: 'range', cut: 0 } });
    if (answer.ok) return;
    expect(problemSays(answer.problem)).toBe(
      'The rounded edge would be made of more than 12,000 flat facets; allow a larger tolerance or fewer facets to a full turn.',
    );
  });

  it('is made with what the sentence asks for', () => {
    expect(rim(10, 0.05, 4000).ok).toBe(true);
    expect(rim(10, 0.001, 100).ok).toBe(true);
  });
});

/** Numbers as a workbook's formulas may give them. */
const anyNumber = fc.oneof(
  { arbitrary: fc.integer({ min: 1, max: 40 }), weight: 20 },
  fc.double(),
  fc.integer({ min: -100, max: 700 }),
  fc.constantFrom(0, -0, 1e-9, 1e300, Number.NaN),
);
const anyCut = fc.record({
  kind: fc.constantFrom(
    'taper',
    'end',
    'chamfer',
    'roundover',
    'groove',
    'dado',
    'rabbet',
    'cove',
    'arch',
    'mortise',
    'hole',
    'slot',
    'pocket',
    'dovetail',
    'tenon',
  ),
  face: fc.constantFrom('top', 'front', 'end'),
  faces: fc.constant(['front', 'top']),
  edge: fc.constantFrom(['top', 'front'], ['end', 'around']),
  end: fc.constantFrom('start', 'end'),
  towards: fc.constantFrom('start', 'end'),
  run: fc.constantFrom('along', 'across'),
  to: anyNumber,
  from: anyNumber,
  mitre: anyNumber,
  bevel: anyNumber,
  width: anyNumber,
  height: anyNumber,
  length: anyNumber,
  depth: anyNumber,
  radius: anyNumber,
  diameter: anyNumber,
  rise: anyNumber,
  chord: anyNumber,
  lean: anyNumber,
  angle: anyNumber,
  turn: anyNumber,
  thickness: anyNumber,
});

describe('whatever numbers a shape is given', () => {
  it('it is made of numbers, or there is a problem', () => {
    let made = 0;
    fc.assert(
      fc.property(anyCut, anyNumber, anyNumber, (parts, first, second) => {
        const runs = ['groove', 'dado', 'dovetail', 'arch'].includes(parts.kind);
        const { edge, kind } = parts;
        // A rim is for chamfers and rounds alone.
        if (edge[1] === 'around' && (kind === 'rabbet' || kind === 'cove')) return;
        const cut = { ...parts, at: runs ? first : [first, second] } as unknown as Cut;
        const answer = shaped({ blank: BOX, cuts: [cut], faceting: { most: 16 } });
        if (!answer.ok) {
          expect(problemSays(answer.problem)).not.toMatch(/NaN|undefined|Infinity/);
          return;
        }
        made += 1;
        expect(Number.isFinite(measured(answer.solid).volume)).toBe(true);
        expect(answer.solid.facets.every(isNumbers)).toBe(true);
      }),
      { seed: 20261127, numRuns: 1500 },
    );
    expect(made).toBeGreaterThan(100);
  });
});

const isNumbers = ({ points, normal, offset }: Facet): boolean =>
  [...points.flat(), ...normal, offset].every(Number.isFinite);
