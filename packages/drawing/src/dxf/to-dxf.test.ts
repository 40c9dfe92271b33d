import dxfParser, { type IEntity, type ILineEntity } from 'dxf-parser';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drawSheets } from '../draw.ts';
import { drawDxf } from '../draw-dxf.ts';
import { readParts } from '../parts.ts';
import { buildScene } from '../scene.ts';
import { HEADER, SAMPLE, scaled, tableRows } from '../testing/dining-table.ts';
import { fakeBook } from '../testing/fake-book.ts';
import { ownFormat } from '../units.ts';
import type { Segment } from '../views.ts';
import { formattedText, plainText, real } from './tags.ts';
import { toDxf } from './to-dxf.ts';

// Files are read back with dxf-parser 1.1.2 (MIT), which has nothing in common with the writer.

/** Its types describe a bundler's view; loaded by Node, the package is the class itself. */
const Reader = dxfParser as unknown as typeof dxfParser.DxfParser;

const book = (units: 'us' | 'metric' = 'us') =>
  fakeBook([HEADER, ...tableRows(units === 'us' ? SAMPLE : scaled(SAMPLE, 25.4))], units);
const format = (units: 'us' | 'metric') => ownFormat(units, (own) => `${own}`);

function read(text: string) {
  const drawing = new Reader().parseSync(text);
  if (drawing === null) throw new Error('the reader took nothing');
  return drawing;
}

const VIEWS = ['plan', 'front', 'end'] as const;
const fileOf = (units: 'us' | 'metric'): string =>
  drawDxf(book(units), {
    views: VIEWS,
    format: format(units),
    whole: {},
    exploded: {},
    movement: { dry: -4, humid: 3 },
  }).dxf ?? '';

const isLine = (entity: IEntity): entity is ILineEntity => entity.type === 'LINE';

function linesOn(text: string, layer: string): number[][] {
  return read(text)
    .entities.filter((entity) => isLine(entity) && entity.layer === layer)
    .map((entity) => (entity as ILineEntity).vertices.flatMap(({ x, y }) => [x, y]));
}

describe('a table as DXF', () => {
  it('says its unit in the header: 1 inches, 4 millimetres (DXF reference, $INSUNITS)', () => {
    expect(read(fileOf('us')).header).toMatchObject({ $INSUNITS: 1, $MEASUREMENT: 0 });
    expect(read(fileOf('metric')).header).toMatchObject({ $INSUNITS: 4, $MEASUREMENT: 1 });
  });

  it('has the edges of the view from the side where the scene has them, in either unit', () => {
    for (const [units, perMm] of [
      ['us', 1 / 25.4],
      ['metric', 1],
    ] as const) {
      const sheets = drawSheets(buildScene(readParts(book(units)).parts), {
        views: ['front'],
        format: format(units),
      });
      const text = toDxf({ sheets }, units) ?? '';
      for (const [layer, kind] of [
        ['Visible', 'visible'],
        ['Hidden', 'hidden'],
      ] as const) {
        const expected = (sheets[0]?.projection[kind] ?? []).map(({ x1, y1, x2, y2 }: Segment) =>
          [x1, y1, x2, y2].map((mm) => expect.closeTo(mm * perMm, 7)),
        );
        expect(expected.length).toBeGreaterThan(3);
        expect(linesOn(text, layer)).toEqual(expected);
      }
    }
  });

  it('is 84 by 30 inches from the side, measured on the visible lines of the file', () => {
    const sheets = drawSheets(buildScene(readParts(book()).parts), {
      views: ['front'],
      format: format('us'),
    });
    const drawn = linesOn(toDxf({ sheets }, 'us') ?? '', 'Visible');
    const xs = drawn.flatMap(([x1 = 0, , x2 = 0]) => [x1, x2]);
    const ys = drawn.flatMap(([, y1 = 0, , y2 = 0]) => [y1, y2]);
    expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(84, 7);
    expect(Math.max(...ys) - Math.min(...ys)).toBeCloseTo(30, 7);
  });

  it('has its sizes as dimensions that measure what they say', () => {
    const dimensions = read(fileOf('us')).entities.filter(
      ({ type }) => type === 'DIMENSION',
    ) as (IEntity & {
      text: string;
      actualMeasurement: number;
      block: string;
    })[];
    const { sizes } = {
      sizes: dimensions.map(({ text, actualMeasurement }) => [Number(text), actualMeasurement]),
    };
    expect(sizes.map(([said]) => said)).toEqual(expect.arrayContaining([84, 42, 30, 9, 61, 24.25]));
    for (const [said = 0, measured] of sizes) expect(measured).toBeCloseTo(said, 7);
    const { blocks } = read(fileOf('us'));
    for (const { block } of dimensions) expect(blocks[block]?.entities?.length).toBeGreaterThan(3);
  });

  it('keeps each kind of line on a layer with its own line type', () => {
    const { tables } = read(fileOf('us'));
    const { layers } = tables.layer;
    expect(Object.keys(layers)).toEqual(
      expect.arrayContaining([
        'Visible',
        'Hidden',
        'Dimension',
        'Grain',
        'Movement',
        'Trace',
        'Text',
      ]),
    );
    const { lineTypes } = tables.lineType;
    expect(lineTypes.HIDDEN?.pattern).toHaveLength(2);
    // Long dash and two short ones (ISO 128, type 05.1), long dash and one (04.1).
    expect(lineTypes.PHANTOM?.pattern).toHaveLength(6);
    expect(lineTypes.CENTER?.pattern).toHaveLength(4);
    expect(linesOn(fileOf('us'), 'Movement')).toHaveLength(4);
    expect(linesOn(fileOf('us'), 'Trace').length).toBeGreaterThan(4);
  });

  it('stands each view clear of the others, plan and front in line', () => {
    const sheets = drawSheets(buildScene(readParts(book()).parts), {
      views: VIEWS,
      format: format('us'),
    });
    const text = toDxf({ sheets }, 'us') ?? '';
    const wide = linesOn(text, 'Visible').filter(
      ([x1 = 0, y1, x2 = 0, y2]) => y1 === y2 && Math.abs(x2 - x1 - 84) < 1e-6,
    );
    expect(wide.length).toBe(4);
    expect(new Set(wide.map(([x1 = 0]) => Math.round(x1 * 1e6)))).toEqual(new Set([0]));
    const heights = wide.map(([, y = 0]) => y).sort((a, b) => a - b);
    expect((heights[2] ?? 0) - (heights[1] ?? 0)).toBeGreaterThan(10);
    const header = read(text).header as Record<string, { x: number; y: number }>;
    for (const [x1 = 0, y1 = 0] of linesOn(text, 'Visible')) {
      expect(x1).toBeGreaterThan(header.$EXTMIN?.x ?? Infinity);
      expect(x1).toBeLessThan(header.$EXTMAX?.x ?? -Infinity);
      expect(y1).toBeGreaterThan(header.$EXTMIN?.y ?? Infinity);
    }
  });

  it('gives each handle once, and none beyond the seed', () => {
    const pairs = fileOf('us').split('\r\n');
    const handles: string[] = [];
    for (let line = 0; line + 1 < pairs.length; line += 2) {
      const code = (pairs[line] ?? '').trim();
      if ((code === '5' || code === '105') && pairs[line - 1] !== '$HANDSEED')
        handles.push(pairs[line + 1] ?? '');
    }
    expect(handles.length).toBeGreaterThan(100);
    expect(new Set(handles).size).toBe(handles.length);
    const seed = Number.parseInt(/\$HANDSEED\r\n\s+5\r\n(\w+)/.exec(fileOf('us'))?.[1] ?? '0', 16);
    expect(Math.max(...handles.map((handle) => Number.parseInt(handle, 16)))).toBeLessThan(seed);
  });

  it('is ASCII and the same text every time', () => {
    expect(fileOf('us')).toBe(fileOf('us'));
    expect(fileOf('us')).toMatch(/^[\r\n\u0020-\u007e]*$/);
    expect(fileOf('us')).not.toMatch(/NaN|Infinity|undefined/);
  });

  it('says why there is none when there is nothing to draw', () => {
    const none = drawDxf(fakeBook([HEADER]), { views: VIEWS, format: format('us') });
    expect(none.dxf).toBeUndefined();
    expect(none.says).toContain('no pieces yet');
  });
});

describe('values', () => {
  it('are written without exponents, signs of nothing or dead noughts', () => {
    expect([1e-12, -1e-12, 84, 0.125, 1e9, -2.5].map((value) => real(10, value)[1])).toEqual([
      '0',
      '0',
      '84',
      '0.125',
      '1000000000',
      '-2.5',
    ]);
  });

  it('keep what a maker writes on one line, whatever it is', () => {
    expect(plainText('33\u00a03/16″\n0')).toBe('33\\U+00A03/16\\U+2033 0');
    expect(plainText('50%%c \u{1fab5}')).toBe('50% %c ?');
    expect(formattedText('a\\b{c}')).toBe('a\\\\b\\{c\\}');
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (any) => {
        expect(plainText(any)).toMatch(/^[\u0020-\u007e]*$/);
      }),
    );
  });

  it('read back as the fractions they were', () => {
    const text = drawDxf(book(), { views: ['front'], format: () => '5 ½' }).dxf ?? '';
    const [first] = read(text).entities.filter(({ type }) => type === 'DIMENSION') as (IEntity & {
      text: string;
    })[];
    expect(first?.text).toMatch(/^5 (½|\\U\+00BD)$/);
  });
});
