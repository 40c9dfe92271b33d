import { movedBy, type Shape } from '@kerfbook/solids';
import dxfParser, { type IEntity } from 'dxf-parser';
import { describe, expect, it } from 'vitest';
import { drawSheets } from '../draw.ts';
import { pictureOf } from '../draw-whole.ts';
import type { Scene } from '../scene.ts';
import { shapedScene } from '../testing/shaped.ts';
import type { View } from '../views.ts';
import { toDxf } from './to-dxf.ts';

// Read back with dxf-parser 1.1.2 (MIT), which has nothing in common with the writer. What is expected of a curve is
// what its shape was given as, not what its facets are.

const Reader = dxfParser as unknown as typeof dxfParser.DxfParser;

interface Curved extends IEntity {
  readonly center: { readonly x: number; readonly y: number };
  readonly radius: number;
  readonly startAngle: number;
  readonly endAngle: number;
  readonly majorAxisEndPoint: { readonly x: number; readonly y: number };
  readonly axisRatio: number;
}

const only = (shape: Shape, stands = movedBy([0, 0, 0])): Scene =>
  shapedScene([{ name: 'Part', shape, stands }]);

function drawn(scene: Scene, view: View): Curved[] {
  const sheets = drawSheets(scene, { views: [view], format: String });
  const file = toDxf({ sheets }, 'metric') ?? '';
  return (new Reader().parseSync(file)?.entities ?? []).filter(
    ({ layer }) => layer === 'Visible' || layer === 'Hidden',
  ) as Curved[];
}

const kinds = (entities: readonly Curved[]): Record<string, number> => {
  const counts: Record<string, number> = {};
  for (const { type } of entities) counts[type] = (counts[type] ?? 0) + 1;
  return counts;
};

const swept = ({ startAngle, endAngle }: Curved): number =>
  (endAngle - startAngle + 4 * Math.PI) % (2 * Math.PI);

describe('curves as a drafting program has them', () => {
  it.each([90, 360, 1500])('a round top of %i mm is one circle from above', (diameter) => {
    const entities = drawn(
      only({ blank: { kind: 'prism', outline: { kind: 'disc', diameter }, through: 25 } }),
      'plan',
    );
    expect(kinds(entities)).toEqual({ CIRCLE: 1 });
    expect(entities[0]?.radius).toBeCloseTo(diameter / 2, 6);
    expect(entities[0]?.center.x).toBeCloseTo(diameter / 2, 6);
    expect(entities[0]?.center.y).toBeCloseTo(diameter / 2, 6);
  });

  it('sixteen sides are lines, though their corners lie on a circle', () => {
    const entities = drawn(
      only({
        blank: {
          kind: 'prism',
          outline: { kind: 'polygon', sides: 16, across: 300, measured: 'corners' },
          through: 25,
        },
      }),
      'plan',
    );
    expect(kinds(entities)).toEqual({ LINE: 16 });
  });

  it('rounded corners are four arcs of a quarter turn, with four lines between', () => {
    const entities = drawn(
      only({
        blank: {
          kind: 'prism',
          outline: { kind: 'rounded', length: 800, width: 400, radius: 60 },
          through: 25,
        },
      }),
      'plan',
    );
    expect(kinds(entities)).toEqual({ LINE: 4, ARC: 4 });
    const arcs = entities.filter(({ type }) => type === 'ARC');
    for (const arc of arcs) {
      expect(arc.radius).toBeCloseTo(60, 6);
      expect(swept(arc)).toBeCloseTo(Math.PI / 2, 6);
    }
    const middles = arcs.map(({ center }) => `${Math.round(center.x)} ${Math.round(center.y)}`);
    expect(middles.sort()).toEqual(['60 340', '60 60', '740 340', '740 60']);
  });

  it('an arch is one arc, with the radius of its chord and rise', () => {
    const [chord, rise] = [700, 50];
    const entities = drawn(
      only(
        {
          blank: { kind: 'box', length: 900, width: 120, thickness: 20 },
          cuts: [{ kind: 'arch', face: 'front', rise, chord }],
        },
        movedBy([0, 0, 0]),
      ),
      'plan',
    );
    const arcs = entities.filter(({ type }) => type === 'ARC');
    expect(arcs).toHaveLength(1);
    // Half chord squared over the rise, and the rise: the intersecting chords of Euclid III.35.
    const radius = ((chord / 2) ** 2 / rise + rise) / 2;
    expect(arcs[0]?.radius).toBeCloseTo(radius, 4);
    expect(arcs[0]?.center.x).toBeCloseTo(450, 6);
    expect(arcs[0]?.center.y).toBeCloseTo(rise - radius, 4);
    expect(kinds(entities)).toEqual({ ARC: 1, LINE: 5 });
  });

  it('an oval is one ellipse, and a disc that is tilted too', () => {
    const [oval, ...more] = drawn(
      only({
        blank: { kind: 'prism', outline: { kind: 'oval', length: 900, width: 500 }, through: 20 },
      }),
      'plan',
    );
    expect(more).toEqual([]);
    expect(oval?.type).toBe('ELLIPSE');
    expect(Math.abs(oval?.majorAxisEndPoint.x ?? 0)).toBeCloseTo(450, 5);
    expect(oval?.axisRatio).toBeCloseTo(5 / 9, 7);
    const scene = only({
      blank: { kind: 'prism', outline: { kind: 'disc', diameter: 200 }, through: 20 },
    });
    const picture = pictureOf(scene, { eye: { azimuth: 0, elevation: 30 } });
    const file = toDxf({ sheets: [], pictures: picture ? [picture] : [] }, 'metric') ?? '';
    const entities = (new Reader().parseSync(file)?.entities ?? []).filter(
      ({ layer }) => layer === 'Visible',
    ) as Curved[];
    // The whole rim above, half of the one below, and the two outlines of the wall.
    expect(kinds(entities)).toEqual({ ELLIPSE: 2, LINE: 2 });
    for (const ellipse of entities.filter(({ type }) => type === 'ELLIPSE')) {
      expect(Math.hypot(ellipse.majorAxisEndPoint.x, ellipse.majorAxisEndPoint.y)).toBeCloseTo(
        100,
        4,
      );
      expect(ellipse.axisRatio).toBeCloseTo(0.5, 6);
    }
  });

  it('an edge rounded over along a round top is two arcs from the side', () => {
    const entities = drawn(
      only({
        blank: { kind: 'prism', outline: { kind: 'disc', diameter: 360 }, through: 30 },
        cuts: [{ kind: 'roundover', edge: ['top', 'around'], radius: 6 }],
      }),
      'front',
    );
    const arcs = entities.filter(({ type, layer }) => type === 'ARC' && layer === 'Visible');
    expect(arcs).toHaveLength(2);
    for (const arc of arcs) {
      expect(arc.radius).toBeCloseTo(6, 2);
      expect(swept(arc)).toBeCloseTo(Math.PI / 2, 2);
    }
  });

  it('a superellipse stays lines: no arc and no ellipse is one', () => {
    const entities = drawn(
      only({
        blank: {
          kind: 'prism',
          outline: { kind: 'superellipse', length: 900, width: 500, exponent: 3 },
          through: 20,
        },
      }),
      'plan',
    );
    expect(Object.keys(kinds(entities))).toEqual(['LINE']);
  });

  it('what something stands before is the rest of its circle', () => {
    const disc = (name: string, diameter: number, at: readonly [number, number, number]) => ({
      name,
      shape: {
        blank: { kind: 'prism', outline: { kind: 'disc', diameter }, through: 20 },
      } as const,
      stands: movedBy(at),
    });
    const entities = drawn(
      shapedScene([disc('Under', 300, [0, 0, 0]), disc('Over', 200, [150, 50, 20])]),
      'plan',
    );
    const round = entities.filter(({ type }) => type !== 'LINE');
    expect(round.map(({ type, layer }) => `${type} ${layer}`).sort()).toEqual([
      'ARC Hidden',
      'ARC Visible',
      'CIRCLE Visible',
    ]);
    const arcs = round.filter(({ type }) => type === 'ARC');
    for (const { radius } of arcs) expect(radius).toBeCloseTo(150, 5);
    // Together they are the whole circle.
    expect(arcs.reduce((sum, arc) => sum + swept(arc), 0)).toBeCloseTo(2 * Math.PI, 3);
    expect(kinds(entities).LINE ?? 0).toBe(0);
  });
});
