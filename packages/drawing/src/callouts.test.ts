import { type Cut, type Face, movedBy } from '@kerfbook/solids';
import dxfParser from 'dxf-parser';
import { describe, expect, it } from 'vitest';
import { drawSheets } from './draw.ts';
import { toDxf } from './dxf/to-dxf.ts';
import type { Label } from './layout.ts';
import type { Scene } from './scene.ts';
import { shapedScene, stool } from './testing/shaped.ts';

// Ø, R and ° as ISO 129-1 writes them; what they say is what the shape was given as.

const format = (mm: number): string => String(Math.round(mm * 10) / 10);
const VIEWS = ['plan', 'front', 'end'] as const;
const sheetsOf = (scene: Scene) => drawSheets(scene, { views: VIEWS, format });

const labelsOf = (scene: Scene, view: (typeof VIEWS)[number]): readonly Label[] =>
  sheetsOf(scene).find(({ projection }) => projection.view === view)?.layout.labels ?? [];
const texts = (labels: readonly Label[]): string[] => labels.map(({ text }) => text);

/** A top with rounded corners on an apron with an arch. */
const bench = (): Scene =>
  shapedScene([
    {
      name: 'Top',
      shape: {
        blank: {
          kind: 'prism',
          outline: { kind: 'rounded', length: 1200, width: 400, radius: 70 },
          through: 25,
        },
      },
      stands: movedBy([0, 0, 420]),
    },
    {
      name: 'Apron',
      shape: {
        blank: { kind: 'box', length: 1000, width: 150, thickness: 20 },
        cuts: [{ kind: 'arch', face: 'front', rise: 60, chord: 800 }],
      },
      // On edge, its front down.
      stands: {
        axes: [
          [1, 0, 0],
          [0, 0, 1],
          [0, -1, 0],
        ],
        shift: [100, 210, 270],
      },
    },
  ]);

describe('sizes of what is round or leans', () => {
  it('say one diameter of a round top, and none of its two ways across', () => {
    expect(texts(labelsOf(stool(), 'plan'))).toEqual(['Ø360']);
    expect(texts(labelsOf(stool(), 'end'))).not.toContain('360');
  });

  it('say the diameter of a rod seen end on, with an arrow that ends on its circle', () => {
    const end = sheetsOf(stool()).find(({ projection }) => projection.view === 'end');
    const rod = end?.layout.callouts?.find(({ label }) => label.text === 'Ø22');
    const [leader] = rod?.lines ?? [];
    const away = Math.hypot((leader?.x1 ?? 0) - 180, (leader?.y1 ?? 0) - 191);
    expect(away).toBeCloseTo(11, 6);
  });

  it('say how far legs splay, as seen from the front and from the end, each once', () => {
    expect(texts(labelsOf(stool(), 'front')).filter((text) => text.endsWith('°'))).toEqual(['8°']);
    expect(texts(labelsOf(stool(), 'end')).filter((text) => text.endsWith('°'))).toEqual(['8°']);
    // Both sides of the angle go from its corner, and one of them is upright.
    const front = sheetsOf(stool()).find(({ projection }) => projection.view === 'front');
    const [upright, slanting] =
      front?.layout.callouts?.find(({ label }) => label.text === '8°')?.lines ?? [];
    expect(upright?.x2).toBe(upright?.x1);
    const [dx, dy] = [
      (slanting?.x2 ?? 0) - (slanting?.x1 ?? 0),
      (slanting?.y2 ?? 0) - (slanting?.y1 ?? 0),
    ];
    expect((Math.atan2(Math.abs(dx), dy) * 180) / Math.PI).toBeCloseTo(8, 6);
  });

  it('say the radius of rounded corners once, and of an arch its radius and rise', () => {
    expect(texts(labelsOf(bench(), 'plan')).filter((text) => text.startsWith('R'))).toEqual([
      'R70',
    ]);
    // Half the chord squared over the rise, and the rise, halved.
    const radius = (400 ** 2 / 60 + 60) / 2;
    expect(texts(labelsOf(bench(), 'front'))).toContain(`R${format(radius)}, rise 60`);
  });

  it('say the radius of an edge that is rounded over, where its profile is seen', () => {
    expect(texts(labelsOf(stool(), 'front'))).toContain('R6');
  });

  /** A table of 800 by 500 on legs of 50 by 50 by 600 that taper to 26, from 100 below their upper end where not said. */
  const tapered = (faces: readonly Face[], from = 100, others: readonly Cut[] = []) => {
    const taper = { kind: 'taper', faces, to: 26, from, towards: 'start' } as const;
    const cuts: readonly Cut[] = [...(faces.length === 0 ? [] : [taper]), ...others];
    const leg = (x: number, isLast: boolean) => ({
      name: 'Leg',
      shape: {
        blank: { kind: 'box', length: 600, width: 50, thickness: 50 },
        cuts,
      } as const,
      // The last one is turned about the upright: what looks inside of the first does of it too.
      stands: isLast
        ? ({
            axes: [
              [0, 0, 1],
              [1, 0, 0],
              [0, 1, 0],
            ],
            shift: [x, 0, 0],
          } as const)
        : ({
            axes: [
              [0, 0, 1],
              [-1, 0, 0],
              [0, -1, 0],
            ],
            shift: [x + 50, 50, 0],
          } as const),
    });
    const top = {
      name: 'Top',
      shape: { blank: { kind: 'box', length: 950, width: 100, thickness: 20 }, cuts: [] } as const,
      stands: {
        axes: [
          [1, 0, 0],
          [0, 1, 0],
          [0, 0, 1],
        ],
        shift: [-50, -25, 600],
      } as const,
    };
    return labelsOf(shapedScene([leg(0, false), leg(800, true), top]), 'front');
  };
  const textOf = (labels: ReturnType<typeof tapered>, wanted: string) =>
    labels.find(({ key }) => key === wanted)?.text;

  it('measure legs on the floor where they taper, not the box around them', () => {
    const both = tapered(['front', 'back']);
    expect(textOf(both, 'leg')).toBe('26');
    expect(textOf(both, 'between legs')).toBe(`${800 + 12 - 50 + 12}`);
    const inside = tapered(['front']);
    expect(textOf(inside, 'leg')).toBe('26');
    expect(textOf(inside, 'between legs')).toBe(`${800 + 24 - 50 + 24}`);
  });

  it('say how far below its upper end a leg begins to taper, where it does not taper all along', () => {
    expect(textOf(tapered(['front', 'back']), 'taper start')).toBe('100');
    expect(textOf(tapered(['front']), 'taper start')).toBe('100');
    expect(textOf(tapered(['back'], 150), 'taper start')).toBe('150');
    expect(textOf(tapered(['front', 'back'], 0), 'taper start')).toBeUndefined();
    // Mortises near the upper end cut up what is seen of a leg, and are no bend of its sides.
    const mortises = (['front', 'back', 'top', 'bottom'] as const).map(
      (face): Cut => ({ kind: 'mortise', face, at: [550, 25], length: 60, width: 10, depth: 15 }),
    );
    expect(textOf(tapered(['front'], 100, mortises), 'taper start')).toBe('100');
    expect(textOf(tapered(['front', 'back'], 100, mortises), 'taper start')).toBe('100');
    expect(textOf(tapered([], 100, mortises), 'taper start')).toBeUndefined();
    expect(textOf(tapered(['front', 'back'], 0, mortises), 'taper start')).toBeUndefined();
    // Square legs, and legs that splay, have no such height.
    expect(textOf(tapered([]), 'taper start')).toBeUndefined();
    expect(textOf(labelsOf(stool(), 'front'), 'taper start')).toBeUndefined();
  });

  it('write nothing over anything else', () => {
    for (const scene of [stool(), bench()]) {
      for (const { layout, frame } of sheetsOf(scene)) {
        for (const [index, { box }] of layout.labels.entries()) {
          expect(box.left).toBeGreaterThanOrEqual(frame.left);
          expect(box.right).toBeLessThanOrEqual(frame.right);
          for (const other of layout.labels.slice(index + 1)) {
            const apart =
              box.right <= other.box.left ||
              box.left >= other.box.right ||
              box.top <= other.box.bottom ||
              box.bottom >= other.box.top;
            expect(apart).toBe(true);
          }
        }
      }
    }
  });

  it('are in the file for drafting programs too', () => {
    const Reader = dxfParser as unknown as typeof dxfParser.DxfParser;
    const file = toDxf({ sheets: sheetsOf(bench()) }, 'metric') ?? '';
    const written = (new Reader().parseSync(file)?.entities ?? []).flatMap((entity) =>
      entity.type === 'TEXT' ? [(entity as unknown as { text: string }).text] : [],
    );
    expect(written).toContain('R70');
  });
});
