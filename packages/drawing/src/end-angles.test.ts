import { compoundBevel, compoundMitre, splayAngle } from '@kerfbook/wood';
import { describe, expect, it } from 'vitest';
import { drawSheets } from './draw.ts';
import { readParts } from './parts.ts';
import { buildScene } from './scene.ts';
import { type Fake, fakeBook } from './testing/fake-book.ts';
import type { View } from './views.ts';

type Row = Readonly<Record<string, Fake>>;

/** What is written of angles in each view of parts, mm. */
function anglesIn(...rows: readonly Row[]): Record<View, string[]> {
  const heads = [...new Set(rows.flatMap((row) => Object.keys(row)))];
  const cells = rows.map((row) => heads.map((head) => row[head] ?? null));
  const { parts, problems } = readParts(fakeBook([heads, ...cells], 'metric'));
  expect(problems).toEqual([]);
  const sheets = drawSheets(buildScene(parts), {
    views: ['plan', 'front', 'end'],
    format: (mm) => `${Math.round(mm * 10) / 10}`,
  });
  const angles = (view: View): string[] =>
    sheets
      .filter(({ projection }) => projection.view === view)
      .flatMap(({ layout }) => layout.labels.map(({ text }) => text))
      .filter((text) => text.endsWith('°'))
      .sort();
  return { plan: angles('plan'), front: angles('front'), end: angles('end') };
}

const RAIL: Row = {
  part: 'Rail',
  count: 1,
  thickness: 20,
  width: 80,
  length: 600,
  x: 0,
  turn: 'LWT',
};
const TOP: Row = { part: 'Top', count: 1, thickness: 25, width: 600, length: 900, place: 'on Leg' };
const LEG: Row = {
  part: 'Leg',
  count: 4,
  thickness: 50,
  width: 50,
  length: 700,
  place: 'four corners of Top',
};

describe('angles of sawn ends', () => {
  it('stand where a view shows them in their true size, each once', () => {
    expect(anglesIn({ ...RAIL, ends: 'mitered 45' })).toEqual({
      plan: ['45°'],
      front: [],
      end: [],
    });
    expect(anglesIn({ ...RAIL, ends: 'mitered 10 left, beveled 6.5 right' })).toEqual({
      plan: ['80°'],
      front: ['83.5°'],
      end: [],
    });
  });

  it('are not told of what is sawn square, chamfered all around, or has sides that slant', () => {
    const none = { plan: [], front: [], end: [] };
    expect(anglesIn({ ...RAIL, ends: 'square', corner: 10 })).toEqual(none);
    expect(anglesIn({ ...RAIL, edge: 'chamfer', 'edge size': 4 })).toEqual(none);
  });

  it('are what a leg is off plumb less than a quarter turn, where it splays one way', () => {
    const { front, end } = anglesIn(TOP, { ...LEG, 'splay along': 12 });
    expect(front).toEqual(['12°', '78°']);
    expect(end).toEqual([]);
  });

  it('are how the saw is set where no view shows them: what the formulas of compound angles say', () => {
    const side: Row = { ...TOP, part: 'Side', count: 2, thickness: 12, width: 300, length: 1200 };
    const tray = anglesIn(
      { ...TOP, length: 1600, place: null, x: 0 },
      { ...side, place: 'front and back of Top, on edge', ends: 'beveled 45', 'splay across': -15 },
    );
    const tenths = (degrees: number): number => Math.round(degrees * 10) / 10;
    const set = `miter ${tenths(compoundMitre(4, 15))}°, bevel ${tenths(compoundBevel(4, 15))}°`;
    expect([...tray.front, ...tray.end]).toContain(set);

    const legs = anglesIn(TOP, { ...LEG, 'splay along': 10, 'splay across': 7 });
    const told = legs.front.find((text) => text.startsWith('miter'));
    const [mitre = Number.NaN, bevel = Number.NaN] = (told?.match(/[\d.]+/g) ?? []).map(
      (angle) => (Number(angle) * Math.PI) / 180,
    );
    // Geometry of a line in space: both settings together are what the leg is off plumb, here to a tenth of a degree.
    const off = (Math.acos(Math.cos(mitre) * Math.cos(bevel)) * 180) / Math.PI;
    expect(Math.abs(off - splayAngle(10, 7))).toBeLessThan(0.1);
  });
});
