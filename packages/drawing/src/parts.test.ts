import { describe, expect, it } from 'vitest';
import { readParts } from './parts.ts';
import { buildScene, MOST_PIECES, pieceName } from './scene.ts';
import { HEADER, SAMPLE, scaled, tableRows } from './testing/dining-table.ts';
import { type Fake, fakeBook } from './testing/fake-book.ts';

const row = (changes: Readonly<Record<string, Fake>> = {}): Fake[] => {
  const whole: Record<string, Fake> = {
    Part: 'Rail',
    Count: 2,
    Thickness: 1,
    Width: 3,
    Length: 40,
    Material: 'Oak, white',
    Grain: 'length',
    X: 1,
    Y: 2,
    Z: 3,
    'Step X': 0,
    'Step Y': 5,
    'Step Z': 0,
    Turn: 'LTW',
    ...changes,
  };
  return HEADER.map((word) => whole[String(word)] ?? null);
};

const read = (...rows: Fake[][]) => readParts(fakeBook([HEADER, ...rows]));
const column = (word: string): number => HEADER.indexOf(word);

describe('reading a parts table', () => {
  it('turns inches to millimetres: 1 in is 25.4 mm exactly (NIST SP 811, appendix B)', () => {
    const { parts, problems, found } = read(row());
    expect(found).toBe(true);
    expect(problems).toEqual([]);
    expect(parts).toEqual([
      {
        at: { sheet: 's1', row: 1, column: 0 },
        countAt: { sheet: 's1', row: 1, column: 1 },
        name: 'Rail',
        count: 2,
        thickness: 25.4,
        width: 3 * 25.4,
        length: 40 * 25.4,
        material: 'Oak, white',
        grain: 'length',
        placing: {
          turn: 'LTW',
          lines: [
            { start: 25.4, step: 0, count: 2 },
            { start: 2 * 25.4, step: 5 * 25.4, count: 2 },
            { start: 3 * 25.4, step: 0, count: 2 },
          ],
          together: true,
        },
      },
    ]);
  });

  it('leaves millimetres alone, and finds columns whatever their case, spacing and order', () => {
    const book = fakeBook(
      [
        ['Shop no.', ' LENGTH ', 'Part', 'width', 'Thickness', 'COUNT', 'step   x'],
        [7, 400, 'Slat', 60, 20, 3, 90],
      ],
      'metric',
    );
    expect(readParts(book)).toMatchObject({
      problems: [],
      parts: [{ name: 'Slat', count: 3, thickness: 20, width: 60, length: 400 }],
    });
  });

  it('says so when there is no parts table', () => {
    const book = { ...fakeBook([]), tables: () => [] };
    expect(readParts(book)).toMatchObject({ found: false, parts: [], problems: [] });
  });

  it('takes blank rows, headings and counts of 0 as no piece and no problem', () => {
    const heading = row(Object.fromEntries(HEADER.map((word) => [String(word), null])));
    heading[0] = 'Base';
    const none = row({ Count: 0, Length: { word: '#DIV/0!' }, X: { word: '#DIV/0!' } });
    const blank = HEADER.map((): Fake => null);
    const sum = [...blank];
    sum[column('Count')] = 12;
    expect(read(heading, none, blank, sum)).toEqual({
      found: true,
      parts: [],
      problems: [],
      leftOut: [],
      none: ['Rail'],
    });
  });

  it('takes a name alone for a heading, and one with anything beside it for a part without sizes', () => {
    const blank = (set: Readonly<Record<string, Fake>>): Fake[] => {
      const only = HEADER.map((): Fake => null);
      for (const [name, value] of Object.entries(set)) only[column(name)] = value;
      return only;
    };
    const { parts, leftOut } = read(
      blank({ Part: 'Base' }),
      blank({ Part: 'Leg', Count: 4 }),
      blank({ Part: 'Apron', Material: 'Oak, white' }),
      blank({ Part: 'Slat', Grain: 'length' }),
      blank({ Part: 'Peg', X: 3 }),
    );
    expect(parts).toEqual([]);
    expect(leftOut.map(({ what }) => what)).toEqual(['Leg', 'Apron', 'Slat', 'Peg']);
    expect(leftOut[0]?.says).toBe('Leg still needs a thickness, a width and a length.');
  });

  it('says in one sentence what a row that is being filled in still needs', () => {
    const says = (changes: Readonly<Record<string, Fake>>): readonly string[] =>
      read(row({ X: null, Y: null, Z: null, ...changes })).problems.map((one) => one.says);
    expect(says({ Count: null, Thickness: null, Width: null, Length: null })).toEqual([
      'Rail still needs a count, a thickness, a width and a length.',
    ]);
    expect(says({ Width: null, Length: null })).toEqual(['Rail still needs a width and a length.']);
    expect(says({ Length: null })).toEqual([
      'The length of Rail is empty; it takes a size in inches above 0.',
    ]);
    // Whole but for its place it is in the cut list, and nothing is wrong.
    expect(says({})).toEqual([]);
  });

  it('places from a part counted 0, of which nothing is made and nothing is said', () => {
    const head = [...HEADER, 'Place'];
    const of = (count: number, length: Fake) => {
      const changes = { Part: 'Top', Count: count, Length: length, X: 0, Y: 0, Z: 28 };
      const top = row({ ...changes, 'Step Y': null, Turn: null });
      const blank = { X: 2, Y: 0, Z: null, 'Step Y': null, Turn: null };
      const leg = row({ Part: 'Leg', Count: 4, Width: 1, Length: 28, ...blank });
      return readParts(fakeBook([head, [...top, null], [...leg, 'four corners of Top']]));
    };
    const [whole, without, lost] = [of(1, 40), of(0, 40), of(0, { word: '#DIV/0!' })];
    expect(without.parts).toEqual(whole.parts.filter(({ name }) => name === 'Leg'));
    expect(without.none).toEqual(['Top']);
    expect([...without.problems, ...without.leftOut, ...whole.problems]).toEqual([]);
    expect(lost.problems.map(({ says }) => says)).toEqual([
      'Leg is placed from Top, which is counted 0 and has no size or no place. Give Top its sizes and a place to go by, or name another part.',
    ]);
  });

  it('places by words, and says at the cell of the place what it does not take', () => {
    const head = [...HEADER, 'Place'];
    const withPlace = (changes: Readonly<Record<string, Fake>>, place: Fake): Fake[] => [
      ...row({ X: null, Y: null, Z: null, 'Step Y': null, Turn: null, ...changes }),
      place,
    ];
    const top = withPlace({ Part: 'Top', Count: 1, X: 0, Z: 28 }, null);
    const leg = (place: Fake): Fake[] =>
      withPlace({ Part: 'Leg', Count: 4, Width: 1, Length: 28, X: 2 }, place);
    const readPlaced = (place: Fake) => readParts(fakeBook([head, top, leg(place)]));
    const { pieces } = buildScene(readPlaced('four corners of Top').parts);
    // A top 40 by 3, legs 1 square, 2 in from its ends.
    const inches = (mm: number): number => Math.round((mm / 25.4) * 1e6) / 1e6;
    expect(pieces.slice(1).map(({ from }) => [inches(from.x), inches(from.y), from.z])).toEqual([
      [2, 0, 0],
      [2, 2, 0],
      [37, 0, 0],
      [37, 2, 0],
    ]);
    expect(pieces.map(pieceName)).toEqual([
      'Top',
      'Leg 1 of 4',
      'Leg 2 of 4',
      'Leg 3 of 4',
      'Leg 4 of 4',
    ]);
    for (const [place, says] of [
      ['four cornrs', /^The place of Leg says "four cornrs", which places nothing\. Nearest:/],
      ['under Toop', /^The place of Leg names "Toop", .* Nearest: "Top"\.$/],
      [7, /^The place of Leg is 7\. It takes words/],
      [{ word: '#NUM!' }, /^The place of Leg is in error \(#NUM!\)/],
    ] as const) {
      const { parts, problems } = readPlaced(place);
      expect(problems.map(({ at }) => [at.row, at.column])).toEqual([[2, HEADER.length]]);
      expect(problems[0]?.says).toMatch(says);
      expect(parts.map(({ name, placing }) => [name, placing === undefined])).toEqual([
        ['Top', false],
        ['Leg', true],
      ]);
    }
  });

  it('says of a rail that does not reach across its gap how long that is, and draws it', () => {
    const head = ['Part', 'Count', 'Thickness', 'Width', 'Length', 'Place', 'X', 'Y', 'Z'];
    const bench = (length: number, place: string) =>
      readParts(
        fakeBook([
          head,
          ['Seat', 1, 1, 14, 48, 'on Leg', null, null, null],
          ['Leg', 4, 2, 2, 16, 'four corners of Seat', 0.5, 1, null],
          ['Long rail', 2, 0.75, 3, length, place, null, null, 12],
        ]),
      );
    const along = 'between Leg along, front and back';
    const { parts, problems, leftOut } = bench(37, along);
    expect(problems).toEqual([
      {
        at: { sheet: 's1', row: 3, column: 5 },
        says: 'Long rail is 37 long; between the pieces of Leg it has 43. Make it 43 long, or longer where it has tenons.',
      },
    ]);
    expect(leftOut).toEqual([]);
    expect(parts[2]?.placing).toBeDefined();
    expect(bench(42.99, along).problems).toHaveLength(1);
    for (const length of [42.999, 43, 44.5]) expect(bench(length, along).problems).toEqual([]);
    // Across there are 8; a piece that lies in the gap with its width is none that reaches over it.
    expect(bench(8, 'between Leg across, left and right').problems).toEqual([]);
    expect(bench(7.5, 'between Leg across, left and right').problems[0]?.says).toContain(
      'it has 8. Make it 8 long',
    );
    expect(bench(8, 'between Leg along, front and back, flat across').problems).toEqual([]);
  });

  it('says at the blank length of a rail that lies between others how long that is', () => {
    const head = ['Part', 'Count', 'Thickness', 'Width', 'Length', 'Place', 'X', 'Y', 'Z'];
    const bench = (place: string | null, width: number | null = 3) =>
      readParts(
        fakeBook([
          head,
          ['Long rail', 2, 0.75, width, null, place, null, null, 12],
          ['Seat', 1, 1, 14, 48, 'on Leg', null, null, null],
          ['Leg', 4, 2, 2, 16, 'four corners of Seat', 0.5, 1, null],
        ]),
      );
    const at = { sheet: 's1', row: 1, column: 4 };
    const { problems, leftOut, parts } = bench('between Leg along, front and back');
    // 48 less 0.5 and 2 at each end.
    const says =
      'The length of Long rail is empty; between the pieces of Leg it has 43. Type 43, or more where it has tenons.';
    expect(problems).toEqual([{ at, says }]);
    expect(leftOut).toEqual([{ at, what: 'Long rail', says }]);
    expect(parts.map(({ name }) => name)).toEqual(['Seat', 'Leg']);
    // 14 less 1 and 2 at the front and the back.
    expect(bench('between Leg across, left and right').problems[0]?.says).toContain('Type 8,');
    const plain = 'The length of Long rail is empty; it takes a size in inches above 0.';
    // A width lies in the gap, no gap is there, or nothing says which.
    for (const place of ['between Leg along, flat across', 'between Post along', 'on Leg', null]) {
      expect(
        bench(place).problems.map((one) => one.says),
        `${place}`,
      ).toContain(plain);
    }
    expect(bench('between Leg along', null).problems[0]?.says).toContain('still needs a width');
  });

  it('says of an apron between legs that it lies on the floor where nothing says how high', () => {
    const head = ['Part', 'Count', 'Thickness', 'Width', 'Length', 'Place', 'X', 'Y', 'Z'];
    const bench = (place: string, z: number | null = null, legs: number = 16) =>
      readParts(
        fakeBook([
          head,
          ['Seat', 1, 1, 14, 48, 'on Leg', null, null, null],
          ['Leg', 4, 2, 2, legs, 'four corners of Seat', 0.5, 1, null],
          ['Apron', 2, 0.75, 3, 43, place, null, null, z],
        ]),
      ).problems;
    const place = 'between the legs, front and back';
    expect(bench(place)).toEqual([
      {
        at: { sheet: 's1', row: 3, column: 5 },
        says: 'Apron lies on the floor between the pieces of Leg. Make its place "between the legs, front and back, under Seat", or type under z how far it is off the floor: 0 if it belongs there.',
      },
    ]);
    expect(bench(`${place}, under Seat`)).toEqual([]);
    for (const z of [0, 13]) expect(bench(place, z)).toEqual([]);
    // As high as its neighbours, it stands beside them.
    expect(bench(place, null, 3)).toEqual([]);
  });

  it('says of a part that has some of its numbers where it was put for want of the others', () => {
    const head = ['Part', 'Count', 'Thickness', 'Width', 'Length', 'Place', 'X', 'Y', 'Z'];
    const shelf = (...where: (number | null)[]) =>
      readParts(
        fakeBook([
          head,
          // The first is where all is counted from.
          ['Side', 1, 0.75, 12, 36, null, 0, null, null],
          ['Shelf', 1, 0.75, 11, 30, null, ...where],
        ]),
      ).problems;
    expect(shelf(0.75, null, null)).toEqual([
      {
        at: { sheet: 's1', row: 2, column: 7 },
        says: 'Shelf has its x typed and nothing under y, where it is put at 0. Type 0 if it belongs there, or how far it is from there.',
      },
    ]);
    expect(shelf(null, null, 12)[0]?.says).toMatch(
      /^Shelf has its z typed and nothing under x and y,/,
    );
    // On the floor it stands unless something else is said, and without numbers it is nowhere.
    expect(shelf(0.75, 0, null)).toEqual([]);
    expect(shelf(null, null, null)).toEqual([]);
  });

  it('leaves nothing out in silence: each row that gives no piece is named with its reason', () => {
    const error = { word: '#DIV/0!' } as const;
    const { parts, leftOut, problems } = read(
      row(),
      row({ Part: '  ' }),
      row({ Part: error }),
      row({ Part: 'Leg', Length: error, Width: null }),
      row({ Part: 'Peg', Count: null }),
      row({ Part: 'Pin', Count: error }),
      row({ Part: 'Shelf', Grain: 'across' }),
      row({ Part: 'Door', Material: error }),
      // Only the drawing needs a position.
      row({ Part: 'Knob', X: 'here' }),
    );
    expect(parts.map(({ name, unread }) => [name, unread])).toEqual([
      ['Rail', undefined],
      ['Shelf', true],
      ['Door', true],
      ['Knob', undefined],
    ]);
    expect(leftOut.map(({ what, says }) => [what, says])).toEqual([
      [
        'Row 3',
        'Row 3 of the parts table has sizes but no name, so it is left out. Name the part, or clear the row.',
      ],
      [
        'Row 4',
        "This part's name shows #DIV/0!; it takes a name, and the row is left out until then.",
      ],
      [
        'Leg',
        'The width of Leg is empty; it takes a size in inches above 0. The length of Leg is in error (#DIV/0!); it takes a size in inches above 0.',
      ],
      ['Peg', 'The count of Peg is empty; it takes a whole number, 0 for none.'],
      ['Pin', 'The count of Pin is in error (#DIV/0!); it takes a whole number, 0 for none.'],
      ['Shelf', 'The grain of Shelf is "across"; it takes length, width or none.'],
      ['Door', 'The material of Door is in error (#DIV/0!); it takes words.'],
    ]);
    expect(problems).toHaveLength(9);
  });

  it('tells what lies below the table, and a second table', () => {
    const rows = [HEADER, row(), row({ Part: 'Below' }), row({ Part: 'Note', Length: null })];
    const book = {
      ...fakeBook(rows),
      tables: () =>
        [
          { id: 't1', kind: 'parts', sheet: 's1', header: 0, last: 1 },
          { id: 't2', kind: 'parts', sheet: 's1', header: 3, last: 3 },
        ] as const,
    };
    const { parts, leftOut } = readParts(book);
    expect(parts.map(({ name }) => name)).toEqual(['Rail']);
    expect(leftOut.map(({ says }) => says)).toEqual([
      'This workbook has two parts tables; only the first, on the sheet Parts, is read. Move the rows of the one on the sheet Parts there.',
      'Below stands in row 3, below the parts table, which ends at row 2, so it is left out. Insert a row within the table and move it there.',
    ]);
  });

  it('names every part where the table lacks a column of sizes', () => {
    const { leftOut, parts } = readParts(
      fakeBook([
        ['part', 'count', 'thickness', 'width'],
        ['Leg', 4, 2, 2],
      ]),
    );
    expect(parts).toEqual([]);
    expect(leftOut).toMatchObject([{ what: 'Leg' }]);
    expect(leftOut[0]?.says).toContain('The parts table has no column headed "length"');
  });

  it('reads a part without a position as one without a place, lying flat by default', () => {
    expect(read(row({ X: null, Y: null, Z: null })).parts[0]?.placing).toBeUndefined();
    const { parts } = read(row({ X: null, Turn: null }));
    expect(parts[0]?.placing).toMatchObject({ turn: 'LWT', lines: [{ start: 0 }, {}, {}] });
  });

  it('stops at the last row of the table, and does not read past the sheet', () => {
    const rows = [HEADER, row(), row({ Part: 'Below' })];
    const table = { id: 't1', kind: 'parts', sheet: 's1', header: 0 } as const;
    const short = { ...fakeBook(rows), tables: () => [{ ...table, last: 1 }] };
    expect(readParts(short).parts.map(({ name }) => name)).toEqual(['Rail']);
    const long = { ...fakeBook(rows), tables: () => [{ ...table, last: 9999 }] };
    expect(readParts(long).parts).toHaveLength(2);
  });
});

describe('cells that cannot be read', () => {
  const cases: readonly [name: string, change: Record<string, Fake>, at: string, says: string][] = [
    [
      'text in a size',
      { Length: 'long' },
      'Length',
      'The length of Rail is "long"; it takes a size in inches above 0.',
    ],
    [
      'an empty size',
      { Width: null },
      'Width',
      'The width of Rail is empty; it takes a size in inches above 0.',
    ],
    [
      'a size of zero',
      { Thickness: 0 },
      'Thickness',
      'The thickness of Rail is 0; it takes a size in inches above 0.',
    ],
    [
      'a negative size',
      { Thickness: -2.5 },
      'Thickness',
      'The thickness of Rail is -2.5; it takes a size in inches above 0.',
    ],
    [
      'an absurd size',
      { Length: 84000 },
      'Length',
      'The length of Rail is 84000; a drawing takes up to 3937.01 in.',
    ],
    [
      'a size in error',
      { Length: { word: '#NUM!' } },
      'Length',
      'The length of Rail is in error (#NUM!); it takes a size in inches above 0.',
    ],
    [
      'a broken count',
      { Count: 2.5 },
      'Count',
      'The count of Rail is 2.5; it takes a whole number, 0 for none.',
    ],
    [
      'a negative count',
      { Count: -1 },
      'Count',
      'The count of Rail is -1; it takes a whole number, 0 for none.',
    ],
    [
      'text in a count',
      { Count: 'two' },
      'Count',
      'The count of Rail is "two"; it takes a whole number, 0 for none.',
    ],
    [
      'an empty count',
      { Count: null },
      'Count',
      'The count of Rail is empty; it takes a whole number, 0 for none.',
    ],
  ];
  it.each(cases)(
    '%s: one sentence at the cell, no part from that row, the rest read',
    (_, change, at, says) => {
      const { parts, problems } = read(row(change), row({ Part: 'Post' }));
      expect(problems).toEqual([{ at: { sheet: 's1', row: 1, column: column(at) }, says }]);
      expect(parts.map(({ name }) => name)).toEqual(['Post']);
    },
  );

  const placeless: readonly [name: string, change: Record<string, Fake>, at: string][] = [
    ['an unknown turn', { Turn: 'LLT' }, 'Turn'],
    ['a number as turn', { Turn: 3 }, 'Turn'],
    ['text in a position', { X: 'left' }, 'X'],
    ['a position in error', { Z: { word: '#NUM!' } }, 'Z'],
    ['a step that is no number', { 'Step Y': true }, 'Step Y'],
    ['a position a mile away', { Y: 63360 }, 'Y'],
  ];
  it.each(placeless)('%s: one sentence, and the part stays, without a place', (_, change, at) => {
    const { parts, problems } = read(row(change));
    expect(problems.map((problem) => problem.at.column)).toEqual([column(at)]);
    expect(parts).toHaveLength(1);
    expect(parts[0]?.placing).toBeUndefined();
  });

  it('names the turn that was meant', () => {
    expect(read(row({ Turn: 'flat' })).problems[0]?.says).toBe(
      'The turn of Rail is "flat"; it takes L, W and T once each for what runs along x, y and z, such as LWT for flat or WTL for upright.',
    );
  });

  it('says what the grain takes, also for words that objects know, and draws the part', () => {
    const { parts, problems } = read(row({ Grain: 'constructor' }));
    expect(problems[0]?.says).toBe(
      'The grain of Rail is "constructor"; it takes length, width or none.',
    );
    expect(parts[0]?.placing).toBeDefined();
    expect(parts[0]?.grain).toBeUndefined();
  });

  it('says at the header which column is missing', () => {
    const without = HEADER.map((word) => (word === 'Length' ? 'Long' : word));
    const { parts, problems } = readParts(fakeBook([without, row(), row()]));
    expect(parts).toEqual([]);
    expect(problems).toEqual([
      {
        at: { sheet: 's1', row: 0, column: 0 },
        says: 'The parts table has no column headed "length", so no part is drawn; write "length" above the column that holds it.',
      },
    ]);
  });

  it('counts each row once where the count column is missing', () => {
    const without = HEADER.map((word) => (word === 'Count' ? 'Pieces' : word));
    const { parts, problems } = readParts(fakeBook([without, row()]));
    expect(parts[0]?.count).toBe(1);
    expect(problems).toHaveLength(1);
  });

  it('uses the first of two columns with one heading, and says so at the second', () => {
    const { parts, problems } = readParts(
      fakeBook([
        [...HEADER, 'length'],
        [...row(), 99],
      ]),
    );
    expect(parts[0]?.length).toBe(40 * 25.4);
    expect(problems.map(({ at }) => at)).toEqual([{ sheet: 's1', row: 0, column: HEADER.length }]);
  });
});

describe('the scene', () => {
  it('puts copies a step apart and turns each side to its axis', () => {
    const { pieces, extents } = buildScene(read(row()).parts);
    expect(pieces.map(({ from, to, copy, grain }) => ({ from, to, copy, grain }))).toEqual([
      {
        copy: 0,
        grain: 'x',
        from: { x: 25.4, y: 2 * 25.4, z: 3 * 25.4 },
        to: { x: 25.4 + 40 * 25.4, y: 2 * 25.4 + 25.4, z: 6 * 25.4 },
      },
      {
        copy: 1,
        grain: 'x',
        from: { x: 25.4, y: 2 * 25.4 + 5 * 25.4, z: 3 * 25.4 },
        to: { x: 25.4 + 40 * 25.4, y: 2 * 25.4 + 5 * 25.4 + 25.4, z: 6 * 25.4 },
      },
    ]);
    expect(extents?.to.y).toBeCloseTo(8 * 25.4, 9);
  });

  it('is as large as the table: 84 by 42 by 30 inches', () => {
    const { extents, pieces } = buildScene(read(...tableRows(SAMPLE)).parts);
    expect(pieces).toHaveLength(1 + 4 + 4 + 3);
    expect(extents?.from).toEqual({ x: 0, y: 0, z: 0 });
    expect(extents?.to.x).toBeCloseTo(84 * 25.4, 9);
    expect(extents?.to.y).toBeCloseTo(42 * 25.4, 9);
    expect(extents?.to.z).toBeCloseTo(30 * 25.4, 9);
  });

  it('is the same from inches as from the same sizes in millimetres', () => {
    const metric = scaled(SAMPLE, 25.4);
    const us = buildScene(read(...tableRows(SAMPLE)).parts);
    const mm = buildScene(readParts(fakeBook([HEADER, ...tableRows(metric)], 'metric')).parts);
    expect(mm.pieces).toHaveLength(us.pieces.length);
    for (const [index, piece] of mm.pieces.entries()) {
      for (const axis of ['x', 'y', 'z'] as const) {
        expect(piece.from[axis]).toBeCloseTo(us.pieces[index]?.from[axis] ?? Number.NaN, 9);
        expect(piece.to[axis]).toBeCloseTo(us.pieces[index]?.to[axis] ?? Number.NaN, 9);
      }
    }
  });

  it('says so when copies lie in one place', () => {
    const { problems, pieces } = buildScene(read(row({ 'Step Y': null })).parts);
    expect(pieces).toHaveLength(2);
    expect(problems).toEqual([
      {
        at: { sheet: 's1', row: 1, column: 1 },
        says: 'The 2 pieces of Rail are drawn in one place; give a step x, step y or step z from one to the next.',
      },
    ]);
  });

  it('draws what it can of 10,000 pieces and says which were left out', () => {
    const { parts } = read(row({ Count: 4 }), row({ Part: 'Peg', Count: 10_000 }), row());
    const { pieces, problems } = buildScene(parts);
    expect(pieces).toHaveLength(MOST_PIECES);
    expect(problems.map(({ at }) => at.row)).toEqual([2]);
    expect(problems[0]?.says).toContain(
      '996 of the 10000 pieces of Peg are drawn and none of the rows below',
    );
  });

  it('says of 10,000 rows once, at the first that is not drawn, that they are too many', () => {
    const { parts } = read(...Array.from({ length: 10_000 }, () => row({ Count: 1 })));
    const { pieces, problems } = buildScene(parts);
    expect(parts).toHaveLength(10_000);
    expect(pieces).toHaveLength(MOST_PIECES);
    expect(problems.map(({ at }) => at.row)).toEqual([MOST_PIECES + 1]);
  });

  it('keeps parts without a place for the cut list', () => {
    const { pieces, unplaced } = buildScene(read(row({ X: null, Y: null, Z: null })).parts);
    expect(pieces).toEqual([]);
    expect(unplaced.map(({ name }) => name)).toEqual(['Rail']);
  });
});
