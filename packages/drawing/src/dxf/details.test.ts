import { JOINT_COLUMNS } from '@kerfbook/functions/joints';
import dxfParser, { type IEntity } from 'dxf-parser';
import { describe, expect, it } from 'vitest';
import { drawDxf } from '../draw-dxf.ts';
import { jointRow, tenths } from '../testing/cut-open.ts';
import type { Fake } from '../testing/fake-book.ts';
import { joinedBook } from '../testing/joined.ts';

// Read back with dxf-parser 1.1.2 (MIT), which has nothing in common with the writer.

const Reader = dxfParser as unknown as typeof dxfParser.DxfParser;

const HEADS = 'part count thickness width length x y z turn shape'.split(' ');
const LEG = ['Leg', 1, 80, 80, 700, 0, 0, 0, 'WTL'];
const RAIL = ['Rail', 1, 30, 90, 500, 40, 25, 600, 'LTW', null];
const TENON = jointRow({ joint: 'mortise and tenon', part: 'Rail', into: 'Leg' });

/** What a file has of the joint, between a leg of such a shape and a rail that reaches to its middle. */
function read(shape: string | null, units: 'us' | 'metric' = 'metric') {
  const own = (row: readonly Fake[]): Fake[] =>
    row.map((cell) =>
      typeof cell === 'number' && cell > 1 && units === 'us' ? cell / 25.4 : cell,
    );
  const book = joinedBook(
    [HEADS, own([...LEG, shape]), own(RAIL)],
    [[...JOINT_COLUMNS], TENON],
    units,
  );
  const { dxf = '', problems } = drawDxf(book, { views: ['plan'], format: tenths });
  const file = new Reader().parseSync(dxf);
  if (file === null) throw new Error('the reader took nothing');
  return {
    file,
    problems,
    ofDetail: detailOnly(file.entities as Any[], units === 'us' ? 1 / 25.4 : 1),
  };
}

interface Any extends IEntity {
  readonly vertices?: readonly { readonly x: number; readonly y: number }[];
  readonly center?: { readonly x: number; readonly y: number };
  readonly radius?: number;
  readonly startAngle?: number;
  readonly endAngle?: number;
  readonly text?: string;
  readonly startPoint?: { readonly x: number; readonly y: number };
  readonly actualMeasurement?: number;
}

/** What stands right of the plan: the joint cut open comes last. */
function detailOnly(entities: readonly Any[], perMm: number): readonly Any[] {
  const left = Math.min(
    ...entities
      .filter(({ layer }) => layer === 'Hatch')
      .flatMap((one) => one.vertices?.map(({ x }) => x) ?? []),
  );
  const at = (one: Any): number =>
    one.center?.x ?? one.vertices?.[0]?.x ?? one.startPoint?.x ?? -Infinity;
  return entities.filter((one) => at(one) > left - 60 * perMm);
}

describe('joints cut open as DXF', () => {
  it.each([
    ['metric', 1],
    ['us', 1 / 25.4],
  ] as const)('are at full size, with their sizes as dimensions (%s)', (units, perMm) => {
    const { file, ofDetail, problems } = read(null, units);
    expect(problems).toEqual([]);
    const sizes = file.entities
      .filter(({ type }) => type === 'DIMENSION')
      .map((one) => Math.round((((one as Any).actualMeasurement ?? Number.NaN) / perMm) * 10) / 10);
    // After those of the plan: tenon 10 by 40, its shoulder, its mortise 1/8 in deeper, the wood beside and behind that.
    expect(sizes.slice(-6).sort((a, b) => a - b)).toEqual([10, 10, 35, 36.8, 40, 43.2]);
    expect(ofDetail.map(({ text }) => text)).toContain('Leg and rail: mortise and tenon');
  });

  it('are hatched at 45°, one piece against the other (ISO 128-50)', () => {
    const { ofDetail } = read(null);
    const slopes = ofDetail
      .filter(({ layer }) => layer === 'Hatch')
      .map(
        ({ vertices: [a, b] = [] }) => ((b?.y ?? 0) - (a?.y ?? 0)) / ((b?.x ?? 0) - (a?.x ?? 0)),
      );
    expect(slopes.length).toBeGreaterThan(20);
    for (const slope of slopes) expect(Math.abs(slope)).toBeCloseTo(1, 6);
    expect(Math.min(...slopes)).toBeCloseTo(-1, 6);
    expect(Math.max(...slopes)).toBeCloseTo(1, 6);
  });

  it('have round stuff that is cut across as one arc of its own radius, open where the mortise is', () => {
    const { ofDetail, problems } = read('rod');
    expect(problems).toEqual([]);
    const arcs = ofDetail.filter(({ type }) => type === 'ARC');
    expect(arcs).toHaveLength(1);
    const [arc] = arcs;
    expect(arc?.radius).toBeCloseTo(40, 5);
    // All but what the mortise, 10 wide, takes from a circle of 80; the chord that it breaks off on each side stays a line.
    const swept = ((arc?.endAngle ?? 0) - (arc?.startAngle ?? 0) + 4 * Math.PI) % (2 * Math.PI);
    const open = 2 * Math.PI - 2 * Math.asin(5 / 40);
    expect(swept).toBeLessThanOrEqual(open + 1e-6);
    expect(swept).toBeGreaterThan(open - 0.2);
  });
});
