import { describe, expect, it } from 'vitest';
import { chooseEye } from './choose-eye.ts';
import { type Eye, gazeOf } from './eye.ts';
import { paperOf } from './paper-lines.ts';
import { parallelView } from './parallel.ts';
import { readParts } from './parts.ts';
import { AXES, type Axis, buildScene, type Scene } from './scene.ts';
import { sceneOf } from './testing/boxes.ts';
import { HEADER, SAMPLE, tableRows } from './testing/dining-table.ts';
import { fakeBook } from './testing/fake-book.ts';
import type { Segment } from './views.ts';
import { woodGrain } from './wood-grain.ts';

const EYE: Eye = { azimuth: 40, elevation: 20 };
const UNIT = 3;

const grained = (scene: Scene, grain: Axis): Scene => ({
  ...scene,
  pieces: scene.pieces.map((piece) => ({ ...piece, grain })),
});

const grainOf = (scene: Scene, unit = UNIT, eye = EYE) => {
  const view = parallelView(scene, eye);
  if (view === undefined) throw new Error('nothing to look at');
  return { view, ...woodGrain(view, unit) };
};

const direction = (axis: Axis, eye = EYE): readonly [number, number] =>
  paperOf(
    AXES.map((one) => (one === axis ? 1 : 0)),
    gazeOf(eye),
  );

/** The sine of the angle between a line and a direction. */
const off = ({ x1, y1, x2, y2 }: Segment, [dx, dy]: readonly [number, number]): number =>
  Math.abs((x2 - x1) * dy - (y2 - y1) * dx) / Math.hypot(x2 - x1, y2 - y1) / Math.hypot(dx, dy);

describe('grain on the faces of a box', () => {
  const box = sceneOf([[0, 0, 0, 900, 600, 300]]);

  it.each(AXES)('runs along %s where it should, as the paper shows that axis', (axis) => {
    const { along } = grainOf(grained(box, axis));
    expect(along.length).toBeGreaterThan(10);
    for (const line of along) expect(off(line, direction(axis))).toBeLessThan(1e-9);
  });

  it('is rings on the end, of every direction, and nothing of them on the other faces', () => {
    const { rings, view } = grainOf(grained(box, 'x'));
    expect(rings.length).toBeGreaterThan(20);
    const turns = new Set(
      rings.map(({ x1, y1, x2, y2 }) => Math.round(Math.atan2(y2 - y1, x2 - x1) * 5)),
    );
    expect(turns.size).toBeGreaterThan(4);
    const [end] = view.pieces[0]?.faces.filter(({ axis }) => axis === 'x') ?? [];
    const [outline = []] = end?.outlines ?? [];
    const [left, right] = [
      Math.min(...outline.map(([x]) => x)),
      Math.max(...outline.map(([x]) => x)),
    ];
    for (const { x1, x2 } of rings) {
      expect(Math.min(x1, x2)).toBeGreaterThan(left - 1e-6);
      expect(Math.max(x1, x2)).toBeLessThan(right + 1e-6);
    }
  });

  it('is left out where the row does not say how it runs', () => {
    const { along, rings, joints } = grainOf(box);
    expect([along, rings, joints]).toEqual([[], [], []]);
  });

  it('grows sparser the smaller it is drawn, and is gone where it would be a smudge', () => {
    const counts = [3, 12, 40, 400].map((unit) => grainOf(grained(box, 'x'), unit).along.length);
    expect(counts).toEqual([...counts].sort((a, b) => b - a));
    expect(counts.at(-1)).toBe(0);
    expect(grainOf(grained(box, 'x'), 400).rings).toEqual([]);
  });

  it('adds lines as a board grows wider and moves none of those it has', () => {
    const overs = (width: number): number[] => {
      const wide = grained(sceneOf([[0, 0, 0, 2000, width, 20]]), 'x');
      const { along } = grainOf(wide, UNIT, { azimuth: 0, elevation: 90 });
      return [...new Set(along.map(({ y1 }) => Math.round((y1 / width) * 1e6)))];
    };
    const [narrow, wider] = [overs(100), overs(160)];
    expect(wider.length).toBeGreaterThan(narrow.length);
    expect(wider).toEqual(expect.arrayContaining(narrow));
  });
});

describe('grain behind something', () => {
  it('is drawn where the face is seen and nowhere else', () => {
    // A board standing before the middle of a wider one; looked at square on.
    const scene = grained(
      sceneOf([
        [0, 100, 0, 900, 20, 300],
        [300, 0, -10, 200, 20, 320],
      ]),
      'x',
    );
    const front = { azimuth: 0, elevation: 0 };
    const { along } = grainOf(scene, UNIT, front);
    const behind = along.filter(({ x1 }) => x1 < 300 || x1 > 500);
    expect(behind.length).toBeGreaterThan(10);
    for (const { x1, x2 } of behind) {
      const [low, high] = [Math.min(x1, x2), Math.max(x1, x2)];
      expect(high <= 300 + 1e-6 || low >= 500 - 1e-6).toBe(true);
    }
  });
});

describe('the grain of a table', () => {
  const { parts } = readParts(fakeBook([HEADER, ...tableRows(SAMPLE)]));
  const scene = buildScene(parts);

  it('runs the long way of the top, up the legs, and along each apron', () => {
    const eye = chooseEye(scene);
    const kinds = { x: 0, y: 0, z: 0 };
    for (const line of grainOf(scene, UNIT, eye).along) {
      const axis = AXES.find((one) => off(line, direction(one, eye)) < 1e-6);
      expect(axis).toBeDefined();
      if (axis !== undefined) kinds[axis] += 1;
    }
    expect(kinds.x).toBeGreaterThan(kinds.y);
    expect(kinds.y).toBeGreaterThan(0);
    expect(kinds.z).toBeGreaterThan(4);
  });

  it('shows where the boards of the top meet: one line fewer than boards, even and whole', () => {
    const boards = parts.map((part) =>
      part.name === 'Top'
        ? { ...part, panelBoards: { count: 6, width: part.width / 6, length: part.length } }
        : part,
    );
    const { joints } = grainOf(buildScene(boards), UNIT, { azimuth: 0, elevation: 90 });
    const ups = joints.map(({ y1 }) => y1).sort((a, b) => a - b);
    expect(ups).toHaveLength(5);
    for (const [k, up] of ups.entries()) expect(up).toBeCloseTo(((k + 1) * 42 * 25.4) / 6, 6);
    for (const { x1, x2 } of joints) expect(Math.abs(x2 - x1)).toBeCloseTo(84 * 25.4, 6);
  });
});
