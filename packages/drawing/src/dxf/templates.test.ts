import { readdirSync, readFileSync } from 'node:fs';
import { loadText, Workbook } from '@kerfbook/workbook';
import dxfParser, { type IEntity } from 'dxf-parser';
import { describe, expect, it } from 'vitest';
import { drawSheets } from '../draw.ts';
import { drawDxf } from '../draw-dxf.ts';
import { readParts } from '../parts.ts';
import { buildScene, type Scene } from '../scene.ts';
import { curveTemplates } from '../templates/curve-templates.ts';
import { bookFormat } from '../units.ts';
import { DIRECTIONS, type View } from '../views.ts';
import { LAYERS } from './layers.ts';
import { patternToDxf, toDxf } from './to-dxf.ts';

// Every template that ships and has a drawing, at two sizes and in both units, read back with dxf-parser 1.1.2 (MIT),
// which has nothing in common with the writer. How large a drawing is to be is told by the parts of the workbook, and
// by its named cells where these say it.

const Reader = dxfParser as unknown as typeof dxfParser.DxfParser;

const FOLDER = new URL('../../../../templates/', import.meta.url);
const VIEWS: readonly View[] = ['plan', 'front', 'end'];
/** mm */
const CLOSE = 0.01;

/** What is typed for the second size, and the names that say how long, wide and high the furniture is. */
const TEMPLATES: Readonly<
  Record<string, readonly [type: Readonly<Record<string, number>>, over: readonly string[]]>
> = {
  base: [{ top_length: 60, top_width: 32 }, []],
  bench: [{ seat_length: 60 }, ['seat_length', 'seat_width', 'seat_height']],
  bookcase: [{ case_width: 30, case_height: 60 }, []],
  breadboard: [{ top_length: 60 }, []],
  'cabinet-door': [{ opening_width: 24, opening_height: 40 }, []],
  'coffee-table': [
    { top_length: 40, table_height: 16 },
    ['top_length', 'top_width', 'table_height'],
  ],
  desk: [{ top_length: 60 }, ['top_length', 'top_width', 'desk_height']],
  'dining-table': [{ top_length: 72, top_width: 38 }, ['top_length', 'top_width', 'table_height']],
  movement: [{ panel_width: 30 }, []],
  'plywood-cabinet': [{ case_width: 24 }, []],
  'round-table': [{ top_diameter: 42 }, ['top_diameter', 'top_diameter', 'table_height']],
  top: [{ top_length: 60 }, []],
  'trestle-table': [{ top_length: 72 }, ['top_length', 'top_width', 'table_height']],
};

/** Templates without parts: nothing to draw. */
const WITHOUT = ['cost'];

function opened(
  name: string,
  type: Readonly<Record<string, number>>,
  units: 'us' | 'metric',
): Workbook {
  const loaded = loadText(readFileSync(new URL(`${name}.json`, FOLDER), 'utf8'));
  if (!loaded.ok) throw new Error(loaded.says);
  const book = Workbook.open(loaded.document);
  for (const [cell, inches] of Object.entries(type)) {
    const at = book.find(cell);
    if (at === undefined) throw new Error(`${name} has no ${cell}`);
    const { sheet, row, column } = at;
    expect(
      book.apply({ do: 'enter', sheet, cells: [{ row, column, text: `${inches} in` }] }),
    ).toMatchObject({ ok: true });
  }
  if (units === 'metric')
    expect(book.apply({ do: 'changeUnits', to: 'metric' })).toMatchObject({ ok: true });
  return book;
}

interface Any extends IEntity {
  readonly vertices?: readonly { readonly x: number; readonly y: number }[];
  readonly center?: { readonly x: number; readonly y: number };
  readonly radius?: number;
  readonly startAngle?: number;
  readonly endAngle?: number;
  readonly majorAxisEndPoint?: { readonly x: number; readonly y: number };
  readonly axisRatio?: number;
  readonly text?: string;
  readonly actualMeasurement?: number;
}

function read(text: string) {
  const file = new Reader().parseSync(text);
  if (file === null) throw new Error('the reader took nothing');
  return { ...file, entities: file.entities as Any[] };
}

/** Points of a line, or of a curve, so many that none lies farther out than 0.001 of a mm. */
function spotsOf(one: Any): readonly (readonly [number, number])[] {
  if (one.vertices !== undefined) return one.vertices.map(({ x, y }) => [x, y] as const);
  const { center } = one;
  if (center === undefined) return [];
  const major = one.majorAxisEndPoint ?? { x: one.radius ?? 0, y: 0 };
  const ratio = one.axisRatio ?? 1;
  const [from, whole] = [one.startAngle ?? 0, one.endAngle ?? 2 * Math.PI];
  const to = whole <= from ? whole + 2 * Math.PI : whole;
  const many = 20_000;
  return Array.from({ length: many + 1 }, (_, i) => {
    const at = from + ((to - from) * i) / many;
    const [c, s] = [Math.cos(at), Math.sin(at) * ratio];
    return [center.x + major.x * c - major.y * s, center.y + major.y * c + major.x * s] as const;
  });
}

function extentsOf(entities: readonly Any[]): readonly [wide: number, high: number] {
  const box = [Infinity, -Infinity, Infinity, -Infinity];
  for (const [x, y] of entities.flatMap(spotsOf)) {
    box[0] = Math.min(box[0] ?? x, x);
    box[1] = Math.max(box[1] ?? x, x);
    box[2] = Math.min(box[2] ?? y, y);
    box[3] = Math.max(box[3] ?? y, y);
  }
  const [left = 0, right = 0, bottom = 0, top = 0] = box;
  return [right - left, top - bottom];
}

/** How many entities the file has, counted line by line and not by the reader. */
function countedIn(text: string): number {
  const lines = text.split('\r\n');
  const start = lines.findIndex(
    (line, i) => line === 'ENTITIES' && (lines[i - 1] ?? '').trim() === '2',
  );
  let many = 0;
  for (let i = start + 1; i + 1 < lines.length; i += 2) {
    if ((lines[i] ?? '').trim() !== '0') continue;
    if (lines[i + 1] === 'ENDSEC') return many;
    many += 1;
  }
  throw new Error('the entities have no end');
}

const sceneOf = (book: Workbook): Scene => buildScene(readParts(book).parts);

const cases = Object.entries(TEMPLATES).flatMap(([name, [type, over]]) =>
  (['us', 'metric'] as const).flatMap((units) =>
    [{}, type].map((typed, i) => ({
      name,
      units,
      size: ['as it ships', 'at another size'][i] ?? '',
      typed,
      over,
    })),
  ),
);

describe('the drawing of each template as DXF', () => {
  it('is of every template that ships', () => {
    const shipped = readdirSync(FOLDER).map((file) => file.replace(/\.json$/, ''));
    expect([...Object.keys(TEMPLATES), ...WITHOUT].sort()).toEqual(shipped.sort());
    for (const name of WITHOUT) {
      const { dxf, says } = drawDxf(opened(name, {}, 'us'), { views: VIEWS, format: String });
      expect(dxf).toBeUndefined();
      expect(says).toMatch(/\.$/);
    }
  });

  it.each(cases)(
    '$name $size in $units is read whole, each kind of line on its layer',
    ({ name, units, typed }) => {
      const book = opened(name, typed, units);
      const { dxf = '', problems } = drawDxf(book, {
        views: VIEWS,
        format: bookFormat(book),
        whole: {},
        exploded: {},
      });
      expect(problems).toEqual([]);
      const file = read(dxf);
      // DXF reference, $INSUNITS: 1 inches, 4 millimeters.
      expect(file.header).toMatchObject({
        $INSUNITS: units === 'us' ? 1 : 4,
        $MEASUREMENT: units === 'us' ? 0 : 1,
      });
      expect(file.entities.length).toBe(countedIn(dxf));
      const known = new Set<string>(Object.values(LAYERS).map((layer) => layer.name));
      const layers = Object.keys(file.tables.layer.layers);
      for (const { layer } of file.entities) {
        expect(known.has(layer)).toBe(true);
        expect(layers).toContain(layer);
      }
      const sizes = file.entities.filter(({ type }) => type === 'DIMENSION');
      expect(sizes.length).toBeGreaterThan(1);
      for (const { actualMeasurement = Number.NaN } of sizes)
        expect(actualMeasurement).toBeGreaterThan(0);
      expect(dxf).not.toMatch(/NaN|Infinity|undefined/);
    },
  );

  it.each(cases)(
    '$name $size in $units is as large as its parts',
    ({ name, units, typed, over }) => {
      const book = opened(name, typed, units);
      const scene = sceneOf(book);
      const perUnit = units === 'us' ? 25.4 : 1;
      const outer = {
        x: [Infinity, -Infinity],
        y: [Infinity, -Infinity],
        z: [Infinity, -Infinity],
      };
      for (const piece of scene.pieces) {
        for (const axis of ['x', 'y', 'z'] as const) {
          const [least = 0, most = 0] = outer[axis];
          outer[axis] = [Math.min(least, piece.from[axis]), Math.max(most, piece.to[axis])];
        }
      }
      const sides = (['x', 'y', 'z'] as const).map(
        (axis) => (outer[axis][1] ?? 0) - (outer[axis][0] ?? 0),
      );
      const [along = 0, across = 0, up = 0] = sides;
      over.forEach((cell, i) => {
        const value = book.named(cell)?.value;
        const mm = value?.kind === 'number' ? value.number * perUnit : Number.NaN;
        expect(sides[i], cell).toBeCloseTo(mm, 6);
      });
      const expected = { plan: [along, across], front: [along, up], end: [across, up] } as const;
      for (const view of VIEWS) {
        const sheets = drawSheets(scene, { views: [view], format: String });
        const { entities } = read(toDxf({ sheets }, units) ?? '');
        const drawn = entities.filter(({ layer }) => layer === 'Visible');
        const [wide, high] = extentsOf(drawn);
        const [wanted, tall] = expected[view];
        expect(
          Math.abs(wide * perUnit - wanted),
          `${view} across, ${DIRECTIONS[view].across}`,
        ).toBeLessThan(CLOSE);
        expect(Math.abs(high * perUnit - tall), `${view} up`).toBeLessThan(CLOSE);
      }
    },
  );
});

/** Larger than any part, mm. */
const ROOM = { width: 1e6, height: 1e6 };

describe('full-size patterns as DXF', () => {
  const PATTERNS: readonly (readonly [
    name: string,
    type: Readonly<Record<string, string>>,
    parts: readonly string[],
  ])[] = [
    ['round-table', {}, []],
    ['round-table', { top_diameter: '42 in' }, []],
    ['dining-table', { top_shape: 'round', top_length: '42' }, ['Top']],
    ['dining-table', { top_shape: 'oval' }, ['Top']],
    ['dining-table', { top_shape: 'rounded corners' }, ['Top']],
  ];

  it.each(
    PATTERNS.flatMap((one) => (['us', 'metric'] as const).map((units) => [...one, units] as const)),
  )('of %s with %j are as large as their parts (%j, %s)', (name, type, parts, units) => {
    const book = opened(name, {}, 'us');
    for (const [cell, text] of Object.entries(type)) {
      const at = book.find(cell);
      if (at === undefined) throw new Error(cell);
      const { sheet, row, column } = at;
      expect(book.apply({ do: 'enter', sheet, cells: [{ row, column, text }] })).toMatchObject({
        ok: true,
      });
    }
    if (units === 'metric') book.apply({ do: 'changeUnits', to: 'metric' });
    const patterns = curveTemplates(sceneOf(book), ROOM);
    const perUnit = units === 'us' ? 25.4 : 1;
    expect(patterns.length).toBeGreaterThan(0);
    if (parts.length > 0) expect(patterns.map(({ part }) => part.name)).toEqual(parts);
    for (const pattern of patterns) {
      const text = patternToDxf(pattern, units);
      const { entities, header } = read(text);
      expect(header).toMatchObject({ $INSUNITS: units === 'us' ? 1 : 4 });
      expect(entities.length).toBe(countedIn(text));
      expect(new Set(entities.map(({ layer }) => layer))).toEqual(new Set(['Visible']));
      const [wide, high] = extentsOf(entities);
      expect(Math.abs(wide * perUnit - pattern.part.length), pattern.part.name).toBeLessThan(CLOSE);
      expect(Math.abs(high * perUnit - pattern.part.width), pattern.part.name).toBeLessThan(CLOSE);
      expect(
        entities.some(
          ({ type: kind }) => kind === 'CIRCLE' || kind === 'ARC' || kind === 'ELLIPSE',
        ),
      ).toBe(true);
    }
  });
});
