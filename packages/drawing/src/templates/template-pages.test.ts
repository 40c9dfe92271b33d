import { followedBy, leaningBy, movedBy, type Shape, UPRIGHT } from '@kerfbook/solids';
import { describe, expect, it } from 'vitest';
import { shapedScene } from '../testing/shaped.ts';
import { curveTemplates } from './curve-templates.ts';
import { type TemplatePages, templatePages } from './template-pages.ts';

/** The field of a sheet of A4 or Letter that both have. */
const ROOM = { width: 180, height: 200 };

const AWAY = followedBy(followedBy(UPRIGHT, leaningBy(7, 4)), movedBy([300, -20, 40]));

function pagesOf(shape: Shape, units: 'us' | 'metric' = 'metric'): TemplatePages {
  // However it stands in the room, its template is of its own face.
  const scene = shapedScene([{ name: 'Part', shape, stands: AWAY }]);
  const [template] = curveTemplates(scene, ROOM);
  if (template === undefined) throw new Error('a curve has a template');
  return templatePages(template, { room: ROOM, units });
}

interface Sheet {
  readonly mm: readonly [number, number];
  readonly box: readonly number[];
  readonly outline: readonly (readonly number[])[];
  readonly marks: ReadonlyMap<string, string>;
  readonly square: readonly number[] | undefined;
}

/** Reads a sheet as a ruler on the paper would: lengths by the size it says it has. */
function measured(svg: string): Sheet {
  const [, wide = '', high = ''] = /width="([\d.]+)mm" height="([\d.]+)mm"/.exec(svg) ?? [];
  const box = (/viewBox="([^"]*)"/.exec(svg)?.[1] ?? '').split(' ').map(Number);
  const path = (name: string): string =>
    new RegExp(`<path class="${name}"[^>]* d="([^"]*)"`).exec(svg)?.[1] ?? '';
  const outline = [
    ...path('kb-outline').matchAll(/M([-\d.]+) ([-\d.]+)([HVL])([-\d.]+)(?: ([-\d.]+))?/g),
  ].map(([, x = '', y = '', kind, a = '', b = '']) => {
    const to = kind === 'H' ? [a, y] : kind === 'V' ? [x, a] : [a, b];
    return [x, y, ...to].map(Number);
  });
  const marks = new Map(
    [...svg.matchAll(/<text x="([-\d.]+)" y="([-\d.]+)">([A-Z]+)<\/text>/g)].map(
      ([, x, y, says = '']) => [says, `${x} ${y}`],
    ),
  );
  const square = /<rect [^>]*x="([-\d.]+)" y="([-\d.]+)" width="([-\d.]+)" height="([-\d.]+)"/
    .exec(svg)
    ?.slice(1)
    .map(Number);
  return { mm: [Number(wide), Number(high)], box, outline, marks, square };
}

const DISC: Shape = {
  blank: {
    kind: 'prism',
    outline: { kind: 'disc', diameter: 700 },
    through: 25,
  },
};

describe('a template at true size', () => {
  it('is 1 mm on the paper for each of its units, on every sheet, and fits the sheet', () => {
    const { pages } = pagesOf(DISC);
    expect(pages.length).toBeGreaterThan(3);
    for (const { svg } of pages) {
      const { mm, box } = measured(svg);
      expect(mm).toEqual(box.slice(2));
      expect(mm[0]).toBeLessThanOrEqual(ROOM.width);
      expect(mm[1]).toBeLessThanOrEqual(ROOM.height);
    }
  });

  it('has the quarter of a round top: each line at the radius from the middle, and all of it once or in a shared strip', () => {
    const { pages, template } = pagesOf(DISC);
    expect(template.printed).toBe('quarter');
    const angles = pages.flatMap(({ svg }) =>
      measured(svg).outline.flatMap(([x1 = 0, y1 = 0, x2 = 0, y2 = 0]) =>
        [
          [x1, y1],
          [x2, y2],
        ].map(([x = 0, y = 0]) => {
          // A facet of so large a circle lies up to 0.06 mm within it.
          expect(Math.abs(Math.hypot(x - 350, -y - 350) - 350)).toBeLessThan(0.07);
          return Math.atan2(-y - 350, x - 350) + 2 * Math.PI;
        }),
      ),
    );
    const sorted = angles.map((angle) => angle % (2 * Math.PI)).sort((a, b) => a - b);
    expect(sorted[0]).toBeCloseTo(Math.PI, 3);
    expect(sorted.at(-1)).toBeCloseTo(1.5 * Math.PI, 3);
    const widest = Math.max(...sorted.slice(1).map((angle, i) => angle - (sorted[i] ?? 0)));
    expect(widest).toBeLessThan(0.04);
  });

  it('is joined by marks: each is on the sheets it joins, at one place of the part', () => {
    const sheets = pagesOf(DISC).pages.map(({ svg }) => measured(svg));
    const all = new Map<string, string[]>();
    for (const { marks } of sheets) {
      for (const [says, at] of marks) all.set(says, [...(all.get(says) ?? []), at]);
    }
    expect(all.size).toBeGreaterThanOrEqual(2 * (sheets.length - 1));
    for (const places of all.values()) {
      expect(places.length).toBeGreaterThanOrEqual(2);
      expect(new Set(places).size).toBe(1);
    }
    for (const { marks } of sheets) expect(marks.size).toBeGreaterThanOrEqual(2);
  });

  it.each([
    ['metric', 100],
    ['us', 101.6],
  ] as const)('has one square to check the size by, in %s %d mm wide and high', (units, side) => {
    const sheets = pagesOf(DISC, units).pages.map(({ svg }) => measured(svg));
    const squares = sheets.flatMap(({ square }) => (square === undefined ? [] : [square]));
    expect(squares).toHaveLength(1);
    expect(squares[0]?.slice(2)).toEqual([side, side]);
  });

  it('has no line that is as thick as its units are large: they are mm here, and a square is measured at its lines', () => {
    const drawn = pagesOf(DISC).pages.flatMap(
      ({ svg }) => svg.match(/<(?:path|rect) [^>]*>/g) ?? [],
    );
    expect(drawn.some((one) => one.startsWith('<rect'))).toBe(true);
    expect(drawn.filter((one) => !one.includes('vector-effect="non-scaling-stroke"'))).toEqual([]);
  });

  it('keeps the square clear of the outline, and gives it a sheet where there is no room', () => {
    const { pages } = pagesOf({
      blank: {
        kind: 'prism',
        outline: { kind: 'rounded', length: 150, width: 60, radius: 12 },
        through: 9,
      },
    });
    expect(pages.map(({ hasSquare }) => hasSquare)).toEqual([false, true]);
    expect(measured(pages[1]?.svg ?? '').outline).toEqual([]);
    for (const { svg, hasSquare } of pagesOf(DISC).pages) {
      if (!hasSquare) continue;
      const { square = [], outline } = measured(svg);
      const [x = 0, y = 0, wide = 0, high = 0] = square;
      for (const [x1 = 0, y1 = 0] of outline) {
        expect(x1 > x && x1 < x + wide && y1 > y && y1 < y + high).toBe(false);
      }
    }
  });

  it('is half of an arch, which is the same from its middle to both ends', () => {
    const { template } = pagesOf({
      blank: { kind: 'box', length: 800, width: 110, thickness: 20 },
      cuts: [{ kind: 'arch', face: 'front', rise: 45, chord: 600 }],
    });
    expect(template.printed).toBe('left half');
    expect(template.bounds.left).toBeCloseTo(0, 9);
    expect(template.bounds.bottom).toBeCloseTo(0, 9);
    expect(template.bounds.right).toBeCloseTo(400, 9);
    // At the center line the wood begins at the rise.
    const atMiddle = template.outline
      .flatMap(({ x1, y1, x2, y2 }) => [
        [x1, y1],
        [x2, y2],
      ])
      .filter(([x = 0]) => Math.abs(x - 400) < 1e-6)
      .map(([, y = 0]) => y);
    expect(Math.min(...atMiddle)).toBeCloseTo(45, 1);
  });

  it('is there for ovals and superellipses, and for nothing that a saw and a drill make', () => {
    const oval = (kind: 'oval' | 'superellipse'): Shape => ({
      blank: {
        kind: 'prism',
        outline:
          kind === 'oval'
            ? { kind, length: 900, width: 500 }
            : { kind, length: 900, width: 500, exponent: 3 },
        through: 20,
      },
    });
    expect(pagesOf(oval('oval')).template.printed).toBe('quarter');
    expect(pagesOf(oval('superellipse')).template.printed).toBe('quarter');
    const plain: Shape[] = [
      { blank: { kind: 'box', length: 700, width: 60, thickness: 60 } },
      {
        blank: { kind: 'box', length: 700, width: 60, thickness: 60 },
        cuts: [
          {
            kind: 'taper',
            faces: ['front', 'top'],
            to: 30,
            from: 100,
            towards: 'end',
          },
        ],
      },
      {
        blank: { kind: 'box', length: 700, width: 60, thickness: 60 },
        cuts: [{ kind: 'hole', face: 'top', at: [100, 30], diameter: 20 }],
      },
      {
        blank: {
          kind: 'prism',
          outline: { kind: 'disc', diameter: 25 },
          through: 400,
          along: 'length',
        },
      },
      {
        blank: { kind: 'box', length: 700, width: 60, thickness: 60 },
        cuts: [{ kind: 'roundover', edge: ['top', 'around'], radius: 8 }],
      },
    ];
    for (const shape of plain) {
      const scene = shapedScene([{ name: 'Part', shape, stands: AWAY }]);
      expect(curveTemplates(scene, ROOM)).toEqual([]);
    }
  });

  it('is one for all pieces of a part', () => {
    const scene = shapedScene([
      { name: 'Top', shape: DISC, stands: movedBy([0, 0, 0]) },
      { name: 'Top', shape: DISC, stands: movedBy([0, 0, 100]) },
    ]);
    expect(curveTemplates(scene, ROOM)).toHaveLength(1);
  });
});
