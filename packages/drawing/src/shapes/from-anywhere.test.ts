import { movedBy } from '@kerfbook/solids';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chooseEye, shareSeen } from '../choose-eye.ts';
import { drawWhole } from '../draw-whole.ts';
import { type Eye, gazeOf } from '../eye.ts';
import { paperOf } from '../paper-lines.ts';
import { type ParallelView, parallelView } from '../parallel.ts';
import { parallelToSvg } from '../parallel-svg.ts';
import type { Scene } from '../scene.ts';
import { shadeOfFace } from '../shade.ts';
import { type Numbers, sceneOf } from '../testing/boxes.ts';
import { shapedScene, stool } from '../testing/shaped.ts';
import { box } from '../testing/solids.ts';
import type { Segment } from '../views.ts';
import { areaOf, woodGrain } from '../wood-grain.ts';
import { isWithin } from './silhouette.ts';

const EYE: Eye = { azimuth: 30, elevation: 20 };

function viewOf(scene: Scene, eye = EYE): ParallelView {
  const view = parallelView(scene, eye);
  if (view === undefined) throw new Error('a scene with pieces has a view');
  return view;
}

const only = (scene: Scene, name: string, copy = 0): Scene => ({
  ...scene,
  pieces: scene.pieces.filter((one) => one.part.name === name && one.copy === copy),
});

const rod = (diameter: number, length: number): Scene =>
  shapedScene([
    {
      name: 'Rod',
      shape: {
        blank: {
          kind: 'prism',
          outline: { kind: 'disc', diameter },
          through: length,
          along: 'length',
        },
      },
      stands: movedBy([0, 0, 0]),
    },
  ]);

const spot = fc.integer({ min: 0, max: 12 });
const side = fc.integer({ min: 1, max: 8 });
const boxes = fc.array(fc.tuple(spot, spot, spot, side, side, side), {
  minLength: 1,
  maxLength: 6,
});
const eyes = fc.record({
  azimuth: fc.integer({ min: -72, max: 72 }).map((steps) => steps * 5 + 2),
  elevation: fc.integer({ min: -17, max: 17 }).map((steps) => steps * 5 + 1),
});

describe('shaped pieces from anywhere', () => {
  it('are shaded as the boxes they are, and shown as much of', () => {
    fc.assert(
      fc.property(boxes, eyes, (numbers, eye) => {
        const scene = sceneOf(numbers as Numbers[]);
        const shaped: Scene = {
          ...scene,
          pieces: scene.pieces.map((piece, index) =>
            index % 2 === 0 ? { ...piece, solid: box(numbers[index] as Numbers) } : piece,
          ),
        };
        const theirs = viewOf(scene, eye);
        const ours = viewOf(shaped, eye);
        const told = ({ pieces }: ParallelView) =>
          pieces.map((piece) => ({
            shades: piece.faces
              .filter(({ outlines }) => outlines.some((one) => Math.abs(areaOf(one)) > 1e-3))
              .map((face) => `${face.axis} ${shadeOfFace(face, eye)}`)
              .sort(),
            share: Math.round(shareSeen(piece) * 1e3) / 1e3,
          }));
        expect(told(ours)).toEqual(told(theirs));
      }),
      { numRuns: 200, seed: 1 },
    );
  });

  it('go from light to dark around a rod, by small steps and never back', () => {
    const view = viewOf(rod(40, 300), { azimuth: 0, elevation: 0 });
    const shades = (view.pieces[0]?.faces ?? [])
      .map((face) => {
        const heights = face.outlines.flat().map(([, y]) => y);
        return { at: Math.max(...heights), shade: shadeOfFace(face, view.eye) };
      })
      .sort((a, b) => b.at - a.at)
      .map(({ shade }) => shade);
    expect(shades.length).toBeGreaterThan(6);
    expect(shades).toEqual([...shades].sort((a, b) => b - a));
    // No step is more than one class of the styles.
    for (const [index, shade] of shades.entries()) {
      expect((shades[index - 1] ?? shade) - shade).toBeLessThanOrEqual(0.75);
    }
  });

  it('tell what share of a rod can be seen: two thirds of the half that looks here, as a circle is seen', () => {
    const [piece] = viewOf(rod(40, 300), { azimuth: 0, elevation: 0 }).pieces;
    if (piece === undefined) throw new Error('there is one piece');
    // A half cylinder, πr wide, is drawn 2r wide.
    expect(shareSeen(piece)).toBeCloseTo(2 / Math.PI, 2);
  });

  const off = ({ x1, y1, x2, y2 }: Segment, [dx, dy]: readonly [number, number]): number =>
    Math.abs((x2 - x1) * dy - (y2 - y1) * dx) / Math.hypot(x2 - x1, y2 - y1) / Math.hypot(dx, dy);

  it('have grain along a rod and rings on its end', () => {
    const view = viewOf(rod(60, 400));
    const { along, rings } = woodGrain(view, 1);
    expect(along.length).toBeGreaterThan(8);
    for (const line of along) {
      expect(off(line, paperOf([1, 0, 0], gazeOf(EYE)))).toBeLessThan(1e-6);
    }
    expect(rings.length).toBeGreaterThan(8);
    const end = view.pieces[0]?.faces.find(({ facets }) => facets?.[0]?.curved === false);
    for (const { x1, y1, x2, y2 } of rings) {
      const [x, y] = [(x1 + x2) / 2, (y1 + y2) / 2];
      expect(end?.outlines.some((one) => isWithin(one, x, y))).toBe(true);
    }
  });

  it('have grain that leans with a leg that leans, within the taper', () => {
    const leg = only(stool(), 'Leg');
    const [piece] = leg.pieces;
    const view = viewOf(leg);
    const { along } = woodGrain(view, 0.4);
    expect(along.length).toBeGreaterThan(4);
    const way = paperOf(piece?.stands?.axes[0] ?? [], gazeOf(EYE));
    for (const line of along) expect(off(line, way)).toBeLessThan(0.03);
    // Straight up they would be off by more than that.
    expect(off(along[0] as Segment, paperOf([0, 0, 1], gazeOf(EYE)))).toBeGreaterThan(0.05);
  });

  it('are drawn with title, row and wood, and turn without moving in their frame', () => {
    const scene = stool();
    const eyesOfTurn = [0, 40, 80].map((azimuth) => ({ azimuth, elevation: 20 }));
    const drawn = eyesOfTurn.map((eye) =>
      drawWhole(scene, { eye, steady: true, format: (mm) => mm.toFixed(0) }),
    );
    const frames = drawn.map((svg) =>
      /viewBox="[^"]*"/
        .exec(svg ?? '')?.[0]
        .split(' ')
        .slice(2),
    );
    expect(frames[1]).toEqual(frames[0]);
    expect(frames[2]).toEqual(frames[0]);
    expect(drawn[0]).toContain('data-part="s1:1:0" data-copy="0"><title>Seat, ');
    expect(drawn[0]).toContain('360 long, 360 wide');
  });

  it('name in the caption what cannot be seen from there', () => {
    const below = shapedScene([
      {
        name: 'Lid',
        shape: {
          blank: { kind: 'prism', outline: { kind: 'disc', diameter: 200 }, through: 10 },
        },
        stands: movedBy([0, 0, 50]),
      },
      {
        name: 'Peg',
        shape: { blank: { kind: 'prism', outline: { kind: 'disc', diameter: 20 }, through: 10 } },
        stands: movedBy([90, 90, 30]),
      },
    ]);
    const svg = (eye: Eye) =>
      parallelToSvg(viewOf(below, eye), { name: '3D', format: String, unseen: true });
    expect(svg({ azimuth: 0, elevation: 80 })).toContain('Not seen from here: Peg');
    expect(svg({ azimuth: 0, elevation: -80 })).not.toContain('Not seen');
    expect(chooseEye(below).elevation).toBeLessThan(16);
  });
});
