import { describe, expect, it } from 'vitest';
import { bookOf } from '../testing/sample.ts';

type Row = Readonly<Record<string, string | number>>;

/** What a formula over a parts table, {0} in it, comes to. */
function ask(formula: string, rows: readonly Row[], units: 'us' | 'metric' = 'us') {
  const heads = [...new Set(rows.flatMap((row) => Object.keys(row)))];
  const cells = rows.map((row) => heads.map((head) => row[head] ?? null));
  const book = bookOf({ units, sheets: { Parts: [heads, ...cells] } });
  const last = String.fromCharCode(64 + heads.length);
  const result = book.evaluate(`=${formula.replace('{0}', `A1:${last}${rows.length + 1}`)}`, 's1');
  if (result.kind === 'number') return result.number;
  return result.kind === 'error' ? `${result.error.word} ${result.error.says}` : result.kind;
}

const part = (name: string, count: number, [thickness, width, length]: readonly number[]) => ({
  part: name,
  count,
  thickness: thickness ?? 0,
  width: width ?? 0,
  length: length ?? 0,
});
const TOP = { ...part('Top', 1, [1, 36, 36]), x: 0, y: 0, z: 28, shape: 'round' };
const disc = Math.PI * 18 ** 2;

describe('what shaped parts of a table measure', () => {
  it('is by formula where one tells it: a disk, an oval, a pyramid cut off', () => {
    expect(ask('PARTS_VOLUME({0})', [TOP])).toBeCloseTo(disc, 9);
    expect(ask('PARTS_AREA({0})', [TOP])).toBeCloseTo(2 * disc + 36 * Math.PI, 9);
    const oval = { ...part('Top', 2, [1, 30, 40]), shape: 'oval' };
    expect(ask('PARTS_VOLUME({0})', [oval])).toBeCloseTo(2 * Math.PI * 20 * 15, 9);
    const leg = { ...part('Leg', 4, [2, 2, 24]), taper: 'four faces', 'taper to': 1 };
    // (A1 + A2 + √(A1 A2)) h / 3
    expect(ask('PARTS_VOLUME({0})', [leg])).toBeCloseTo((4 * (4 + 1 + 2) * 24) / 3, 6);
  });

  it('is that of boxes where nothing is shaped, in the unit of the workbook', () => {
    const box = { ...part('Shelf', 3, [1, 10, 30]), x: 0, y: 0, z: 5 };
    expect(ask('PARTS_VOLUME({0})', [box])).toBeCloseTo(900, 9);
    expect(ask('PARTS_AREA({0})', [box])).toBeCloseTo(3 * 2 * (10 + 30 + 300), 9);
    expect(ask('PARTS_VOLUME({0})', [box], 'metric')).toBeCloseTo(900, 9);
    expect(ask('PARTS_AREA({0})', [box], 'metric')).toBeCloseTo(2040, 9);
    expect(ask('PARTS_CENTER({0}, "up")', [box], 'metric')).toBeCloseTo(5.5, 9);
  });

  it('takes one part by its name, and says which there are', () => {
    const shelf = part('Shelf', 1, [1, 10, 30]);
    expect(ask('PARTS_VOLUME({0}, "shelf")', [TOP, shelf])).toBeCloseTo(300, 9);
    expect(ask('PARTS_VOLUME({0}, "Shelv")', [TOP, shelf])).toMatch(/Nearest: "Shelf"/);
  });

  it('finds by its place which faces of a part are the inside ones, without joints too', () => {
    const top = { ...part('Top', 1, [1, 36, 48]), x: 0, y: 0, z: 28 };
    const leg = { ...part('Leg', 4, [2, 2, 24]), place: 'four corners of Top', x: 3, y: 3, z: 0 };
    const inside = { ...leg, taper: 'two inside faces', 'taper to': 1 };
    // (A1 + A2 + √(A1 A2)) h / 3: a frustum, wherever its axis leans.
    const legs = (4 * (4 + 1 + 2) * 24) / 3;
    expect(ask('PARTS_VOLUME({0}, "Leg")', [top, inside])).toBeCloseTo(legs, 6);
    expect(ask('PARTS_VOLUME({0})', [top, inside])).toBeCloseTo(legs + 36 * 48, 6);
    const shelf = part('Shelf', 1, [1, 10, 30]);
    expect(ask('PARTS_VOLUME({0})', [top, inside, shelf])).toBeCloseTo(legs + 36 * 48 + 300, 6);
    // What is not asked for need not be found, and what stands nowhere has no inside.
    const lost = { ...inside, place: 'four corners of Lid' };
    expect(ask('PARTS_VOLUME({0}, "Top")', [top, lost])).toBeCloseTo(36 * 48, 6);
    expect(ask('PARTS_VOLUME({0}, "Leg")', [top, lost])).toMatch(/Lid/);
    const { place: _place, x: _x, y: _y, z: _z, ...nowhere } = inside;
    expect(ask('PARTS_VOLUME({0}, "Leg")', [top, nowhere])).toMatch(
      /inside faces of Leg cannot be told/,
    );
  });

  it('finds the center of gravity of what stands', () => {
    // Of a pyramid cut off, from its wide end: h (A1 + 2 √(A1 A2) + 3 A2) / 4 (A1 + √(A1 A2) + A2).
    const leg = {
      ...part('Leg', 1, [2, 2, 24]),
      x: 0,
      y: 0,
      turn: 'WTL',
      taper: 'four',
      'taper to': 1,
    };
    const from = (24 * (4 + 2 * 2 + 3)) / (4 * (4 + 2 + 1));
    expect(ask('PARTS_CENTER({0}, "up")', [leg])).toBeCloseTo(24 - from, 6);
    expect(ask('PARTS_CENTER({0}, "along")', [leg])).toBeCloseTo(1, 6);
    const foot = { ...part('Foot', 1, [2, 36, 36]), x: 0, y: 0, z: 0, shape: 'round' };
    expect(ask('PARTS_CENTER({0}, "up")', [TOP, foot])).toBeCloseTo((28.5 + 2 * 1) / 3, 9);
    expect(ask('PARTS_CENTER({0}, "down")', [TOP])).toMatch(/"along", "across" or "up"/);
  });

  it('says what cannot be as it is said', () => {
    expect(ask('PARTS_VOLUME({0})', [{ ...TOP, shape: 'rund' }])).toMatch(/Nearest: "round"/);
    expect(ask('PARTS_VOLUME({0})', [{ ...TOP, width: 35 }])).toMatch(
      /Make both alike, or write oval/,
    );
    const leg = { ...part('Leg', 4, [2, 2, 24]), taper: 'four faces', 'taper to': 3 };
    expect(ask('PARTS_VOLUME({0})', [leg])).toMatch(/ends at 3 in, more than the width of 2 in/);
  });
});

describe('shaped parts held against one another', () => {
  it('overlap by what they are, not by the boxes around them', () => {
    // Two disks of 36 whose middles lie 50 apart on the diagonal: their boxes meet, they do not.
    const other = (by: number) => ({ ...TOP, part: 'Other', x: by, y: by });
    expect(ask('PARTS_OVERLAPS({0})', [TOP, other(50 / Math.SQRT2)])).toBe(0);
    expect(ask('PARTS_OVERLAPS({0})', [TOP, other(35 / Math.SQRT2)])).toBe(1);
    expect(ask('PARTS_OVERLAPS({0})', [TOP, { ...other(31), shape: 'box' }])).toBe(0);
  });

  it('hold where they lie against each other: a seat on four splayed legs', () => {
    const seat = { ...part('Seat', 1, [1, 14, 18]), place: 'on Leg' };
    const legs = (at: number) => ({
      ...part('Leg', 4, [1.5, 1.5, 18]),
      place: 'four corners of Seat',
      x: at,
      y: at,
      'splay along': 10,
      'splay across': 7,
    });
    expect(ask('PARTS_LOOSE({0})', [seat, legs(1)])).toBe(0);
    expect(ask('PARTS_OVERLAPS({0})', [seat, legs(1)])).toBe(0);
    // A rail at the height of the feet, where the legs were if they stood plumb: nothing holds it.
    const rail = { ...part('Rail', 1, [1, 1, 4]), x: 7, y: 1, z: 4 };
    expect(ask('PARTS_LOOSE({0})', [seat, legs(1), rail])).toBe(1);
  });
});

describe('parts that are joined', () => {
  const parts = [
    ['part', 'count', 'thickness', 'width', 'length', 'x', 'y', 'z', 'turn', 'shape'],
    ['Leg', 1, 80, 80, 700, 0, 0, 0, 'WTL'],
    ['Rail', 1, 30, 90, 500, 40, 25, 600, 'LTW'],
    ['Round top', 1, 20, 600, 600, 0, 0, 700, 'LWT', 'round'],
  ];
  const joints = [
    ['joint', 'part', 'into', 'thickness', 'width'],
    ['mortise and tenon', 'Rail', 'Leg', 10, 60],
  ];
  const over = (formula: string, cells: readonly (readonly (string | number)[])[] = joints) => {
    const wide = (rows: readonly (readonly (string | number)[])[]) =>
      rows.map((row) => Array.from({ length: 10 }, (_, i) => row[i] ?? null));
    const book = bookOf({ units: 'metric', sheets: { Shop: [...wide(parts), ...wide(cells)] } });
    const [first, last] = [parts.length + 1, parts.length + cells.length];
    const ranges = formula
      .replace('{P}', `A1:J${parts.length}`)
      .replace('{J}', `A${first}:E${last}`);
    const result = book.evaluate(`=${ranges}`, 's1');
    if (result.kind === 'number') return result.number;
    return result.kind === 'error' ? `${result.error.word} ${result.error.says}` : result.kind;
  };
  // Glue room below a tenon: 1/8 in.
  const mortise = 60 * 10 * (40 + 3.175);
  const [leg, rail] = [80 * 80 * 700 - mortise, 30 * 90 * 500 - 40 * (30 * 90 - 60 * 10)];

  it('are as heavy as what joints leave of them (box less mortise)', () => {
    expect(over('PARTS_VOLUME({P}, "Leg", {J})')).toBeCloseTo(leg, 3);
    expect(over('PARTS_VOLUME({P}, "Rail", {J})')).toBeCloseTo(rail, 3);
    expect(over('PARTS_VOLUME({P}, "Leg")')).toBeCloseTo(80 * 80 * 700, 3);
    const top = Math.PI * 300 ** 2 * 20;
    expect(over('PARTS_VOLUME({P}, , {J})')).toBeCloseTo(leg + rail + top, 3);
  });

  it('are finished where they are seen: no tenon, no mortise, nothing below a shoulder', () => {
    const box = 2 * 80 * 80 + 4 * 80 * 700;
    expect(over('PARTS_AREA({P}, "Leg", {J})')).toBeCloseTo(box - 30 * 90, 3);
    expect(over('PARTS_AREA({P}, "Rail", {J})')).toBeCloseTo((2 * 30 + 2 * 90) * 460 + 30 * 90, 3);
    const dowels = [
      ['joint', 'part', 'into'],
      ['dowels', 'Rail', 'Leg'],
    ];
    expect(over('PARTS_AREA({P}, "Rail", {J})', dowels)).toMatch(/Rail reaches 30 mm into Leg/);
  });

  it('balance where what is left of them does', () => {
    const top = Math.PI * 300 ** 2 * 20;
    const tenon = 60 * 10 * 40;
    // The mortise reaches from 80 back to 36.825: its middle is half way.
    const exact =
      80 * 80 * 700 * 40 -
      mortise * (80 - 43.175 / 2) +
      30 * 90 * 460 * (80 + 230) +
      tenon * 60 +
      top * 300;
    expect(over('PARTS_CENTER({P}, "along", {J})')).toBeCloseTo(exact / (leg + rail + top), 6);
  });

  it('do not overlap where one lies in what is cut for it', () => {
    expect(over('PARTS_OVERLAPS({P})')).toBe(1);
    expect(over('PARTS_OVERLAPS({P}, {J})')).toBe(0);
    const wrong = [
      ['joint', 'part', 'into'],
      ['mortise and tenon', 'Rial', 'Leg'],
    ];
    expect(over('PARTS_OVERLAPS({P}, {J})', wrong)).toMatch(
      /No part is called "Rial". Nearest: "Rail"/,
    );
    expect(
      over('PARTS_OVERLAPS({P}, {J})', [
        ['joint', 'into'],
        ['dado', 'Leg'],
      ]),
    ).toMatch(/No column is headed "part"/);
  });
});
