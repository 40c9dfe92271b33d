import { JOINT_COLUMNS } from '@kerfbook/functions/joints';
import { compoundBevel, compoundMitre, splayAngle } from '@kerfbook/wood';
import { describe, expect, it } from 'vitest';
import { cutAngles } from '../cut-angles.ts';
import { type Part, readParts } from '../parts.ts';
import { type Fake, fakeBook } from '../testing/fake-book.ts';
import { joinedBook } from '../testing/joined.ts';
import { cutList } from './cut-list.ts';
import { shapingSteps } from './shaping-steps.ts';

type Row = Readonly<Record<string, Fake>>;
const partsOf = (...rows: readonly Row[]): readonly Part[] => {
  const heads = [...new Set(rows.flatMap((row) => Object.keys(row)))];
  const cells = rows.map((row) => heads.map((head) => row[head] ?? null));
  const { parts, problems } = readParts(fakeBook([heads, ...cells], 'metric'));
  expect(problems).toEqual([]);
  return parts;
};
const TOP: Row = { part: 'Top', count: 1, thickness: 25, width: 600, length: 900, place: 'on Leg' };
const leg = (row: Row): Row => ({
  part: 'Leg',
  count: 4,
  thickness: 50,
  width: 50,
  length: 700,
  place: 'four corners of Top',
  ...row,
});
const format = (mm: number): string => `${Math.round(mm * 10) / 10}`;
const stepsOf = (row: Row): readonly string[] => shapingSteps(partsOf(TOP, leg(row))[1]!, format);

describe('how a part is shaped, step by step', () => {
  it('says nothing of a box', () => {
    expect(stepsOf({})).toEqual([]);
    expect(cutList(partsOf({ ...TOP, place: null, x: 0 })).items[0]).not.toHaveProperty('shaped');
  });

  it('levels splayed legs before it tapers them, edges last', () => {
    const steps = stepsOf({
      'splay along': 5,
      'splay across': 5,
      taper: 'two inside faces',
      'taper to': 30,
      'taper from': 100,
      edge: 'chamfer',
      'edge size': 3,
    });
    expect(steps).toEqual([
      'level both ends: miter 5°, bevel 5°, in mirrored pairs',
      'taper the two inside faces to 30, beginning 100 from the top end',
      'chamfer all edges, 3',
    ]);
  });

  it('cuts mortises while faces are square, before the taper, and names the faces that taper by them', () => {
    const heads = ['part', 'count', 'thickness', 'width', 'length', 'place', 'x', 'y', 'z'];
    const stepsWith = (taper: string, joints: readonly Fake[][], shape: Fake = null) => {
      const book = joinedBook(
        [
          [...heads, 'taper', 'taper to', 'shape'],
          ['Top', 1, 25, 800, 1600, null, 0, 0, 700, null, null],
          [
            'Leg',
            4,
            80,
            80,
            700,
            'four corners of Top',
            100,
            100,
            null,
            ...(shape ? [null, null, shape] : [taper, 40]),
          ],
          ['Long apron', 2, 30, 90, 1320, 'between Leg along, front and back, under Top', null, 15],
          ['Short apron', 2, 30, 90, 520, 'between Leg across, left and right, under Top', 15],
        ],
        [[...JOINT_COLUMNS], ...joints],
        'metric',
      );
      const { parts } = readParts(book);
      return shapingSteps(parts.find(({ name }) => name === 'Leg')!, format);
    };
    const tenons = (...parts: readonly string[]): Fake[][] =>
      parts.map((part) => ['mortise and tenon', part, 'Leg', null, 10]);
    const both = tenons('Long apron', 'Short apron');
    expect(stepsWith('two inside faces', both)).toEqual([
      'cut its mortises while it is square',
      'taper the two inside faces, those with mortises, to 40',
    ]);
    expect(stepsWith('four faces', both)).toEqual([
      'cut its mortises while it is square',
      'taper all four faces to 40',
    ]);
    expect(stepsWith('front and back', tenons('Long apron'))).toEqual([
      'cut its mortise while it is square',
      'taper the front and back faces to 40',
    ]);
    expect(stepsWith('outside faces', [])).toEqual(['taper the two outside faces to 40']);
    expect(stepsWith('', tenons('Long apron'), 'rod')).toEqual([
      'cut its mortise while it is square',
      'turn round, 80 across',
    ]);
  });

  it('names outlines, arches, and ends that differ', () => {
    const round = partsOf({
      ...TOP,
      place: null,
      x: 0,
      width: 900,
      shape: 'round',
      edge: 'round-over top',
      'edge size': 6,
    });
    expect(shapingSteps(round[0]!, format)).toEqual([
      'cut round, 900 across',
      'round over the edges around top, 6',
    ]);
    const rail = { ...TOP, part: 'Rail', place: null, x: 0, turn: 'LTW', arch: 40 };
    const [one] = partsOf({ ...rail, width: 100, ends: 'mitered 10 left, beveled 45 right' });
    expect(shapingSteps(one!, format)).toEqual([
      'cut the left end: miter 10°',
      'cut the right end: bevel 45°',
      'saw the arch, 40 high',
    ]);
    expect(stepsOf({ shape: 'rod' })).toEqual(['turn round, 50 across']);
    expect(stepsOf({ corner: 5, ends: 'beveled 3 bottom' })).toEqual([
      'round the corners, radius 5',
      'cut the foot: bevel 3°, in mirrored pairs',
    ]);
  });

  it('tells the angles of the textbook: legs by two splays, sides of a tray by their slope', () => {
    const [, splayed] = partsOf(TOP, leg({ 'splay along': 10, 'splay across': 7 }));
    for (const { mitre, bevel, isMirrored } of cutAngles(splayed!)) {
      const [m, b] = [mitre, bevel].map((angle) => Math.cos((angle * Math.PI) / 180)) as [
        number,
        number,
      ];
      // Geometry of a line in space: both settings together are what the leg is off plumb.
      expect((Math.acos(m * b) * 180) / Math.PI).toBeCloseTo(splayAngle(10, 7), 6);
      expect(isMirrored).toBe(true);
    }
    const side = { ...TOP, part: 'Side', count: 2, thickness: 12, width: 100, length: 400 };
    const [base, tray] = partsOf(
      { ...TOP, place: null, x: 0 },
      { ...side, place: 'front and back of Top, on edge', ends: 'beveled 45', 'splay across': -15 },
    );
    expect(base?.name).toBe('Top');
    const [angle] = cutAngles(tray!);
    // Spherical trigonometry: COMPOUND_MITRE and COMPOUND_BEVEL.
    expect(angle?.mitre).toBeCloseTo(compoundMitre(4, 15), 6);
    expect(angle?.bevel).toBeCloseTo(compoundBevel(4, 15), 6);
    expect(angle?.says).toBe('miter 14.5°, bevel 43.1°');
  });

  it('adds up what finished parts measure, and cuts their blanks', () => {
    const parts = partsOf({
      ...TOP,
      place: null,
      x: 0,
      width: 900,
      shape: 'round',
      material: 'Oak, white',
    });
    const { items, materials } = cutList(parts);
    expect(items[0]).toMatchObject({ width: 900, length: 900, shaped: { name: 'Top' } });
    expect(materials[0]?.volume).toBeCloseTo(Math.PI * 450 ** 2 * 25, 3);
    expect(materials[0]?.area).toBeCloseTo(2 * Math.PI * 450 ** 2 + 900 * Math.PI * 25, 3);
    // The board feet are those of the square it is cut from (NHLA: under 1 in as 1 in).
    expect(materials[0]?.boardFeet).toBeCloseTo((900 / 25.4) ** 2 / 144, 6);
  });
});
