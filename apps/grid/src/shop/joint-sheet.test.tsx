import { readFileSync } from 'node:fs';
import { bookFormat, readParts, shopPlan } from '@kerfbook/drawing';
import { loadText, readEntry, shopTableEdit, Workbook } from '@kerfbook/workbook';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { optionsOf } from '../writing/completing.ts';
import { buyingSheet } from './buying-sheet.tsx';
import { cutListSheet } from './cut-list-sheet.tsx';
import { jointSheet, markSaid, piecesSaid } from './joint-sheet.tsx';
import { labelSheet } from './label-sheet.tsx';

/** Of an upright page of A4, mm. */
const FIELD = { width: 184, height: 250 };

/** An invented frame of two stiles and a rail between, with a joints table that is typed into. */
function frame(...joints: readonly (readonly string[])[]) {
  const line = (id: string, values: readonly (string | number)[]) => ({
    id,
    cells: Object.fromEntries(values.map((value, i) => [`c${i + 1}`, { value }])),
  });
  const heads = ['part', 'count', 'thickness', 'width', 'length', 'x', 'y', 'z', 'turn'];
  const book = Workbook.open({
    kerfbook: 8,
    title: 'Frame',
    units: 'us',
    sheets: [
      {
        id: 's1',
        name: 'Parts',
        columns: heads.map((_, i) => ({ id: `c${i + 1}` })),
        rows: [
          line('r1', heads),
          line('r2', ['Left stile', 1, 0.75, 2, 20, 0, 0, 0, 'WTL']),
          line('r3', ['Right stile', 1, 0.75, 2, 20, 12, 0, 0, 'WTL']),
          line('r4', ['Rail', 1, 0.75, 2, 10, 2, 0, 9, 'LTW']),
        ],
      },
    ],
    checks: [],
    tables: [{ id: 't1', kind: 'parts', sheet: 's1', header: 'r1', last: 'r4' }],
  });
  const begun = shopTableEdit(book, 'joints');
  if (begun === undefined) throw new Error('there is a joints table');
  book.apply(begun);
  const table = book.tables().find(({ kind }) => kind === 'joints');
  const at = (row: number, column: number) => ({
    sheet: table?.sheet ?? '',
    row: (table?.header ?? 0) + 1 + row,
    column,
  });
  joints.forEach((cells, row) => {
    cells.forEach((text, column) => {
      const { sheet, ...place } = at(row, column);
      expect(book.apply({ do: 'enter', sheet, cells: [{ ...place, text }] }).ok).toBe(true);
    });
  });
  return { book, at };
}

const shown = (blocks: ReturnType<typeof jointSheet>): string =>
  (blocks ?? [])
    .map(({ node }) => renderToStaticMarkup(node))
    .join(' ')
    .replaceAll(/<[^>]+>/g, ' ')
    .replaceAll(/\s+/g, ' ');

describe('the sheet of joints', () => {
  it('tells for each piece what is cut into it, from where it is measured, and what is bought', () => {
    const { book } = frame(
      ['dowels', 'Rail', 'Left stile', '', '', '', '2', '', '3/8'],
      ['dowels', 'Rail', 'Right stile', '', '', '', '2', '', '3/8'],
    );
    const text = shown(jointSheet(book, FIELD));
    expect(text).toContain(
      'Marked out from one end and one face of each piece. Sizes in inches. Left, right, front and back as you face the front of the piece of furniture.',
    );
    // The rail lies from 9 to 11; its dowels stand half an inch in from its edges.
    expect(text).toContain(
      'Dowel hole for Rail, 3/8 across inside face 9 1/2 from the top end 3/8 from the back face',
    );
    expect(text).toContain('Dowel hole for Left stile, 3/8 across left end 1/2 from the top edge');
    expect(text).toContain('Dowels, 3/8 × 2 4');
    expect(shown(buyingSheet(book, shopPlan(book, 'cell'), false))).toContain('Dowels, 3/8 × 2 4');
  });

  it('has one row for a pocket hole, its slope beside its diameter and its place where the bit goes in', () => {
    // In which face, how long the screw and how many: columns 4, 7 and 12 of a joints table.
    const pockets = [
      'pocket holes',
      'Rail',
      'Left stile',
      '',
      '',
      '',
      '1 1/4',
      '',
      '',
      '',
      '',
      '2',
    ];
    const { book } = frame(pockets.with(3, 'back'));
    const text = shown(jointSheet(book, FIELD));
    const rows = [...text.matchAll(/Pocket hole for Left stile.*?from the top edge/g)];
    expect(rows).toHaveLength(2);
    expect(text).not.toMatch(/on from the pocket|(edge|end) at \d+°/);
    // Out in the middle of 3/4 at the end: in 3/8 / tan 15° = 1.400 from there, to the nearest sixteenth 1 3/8.
    expect(rows[0]?.[0]).toMatch(
      /^Pocket hole for Left stile, 3\/8 across, 15° to the face back face 1 3\/8 from the left end 1 1\/2 from the top edge$/,
    );
  });

  it('shows each joint cut open before its numbers, two to a line', () => {
    const { book } = frame(
      ['dowels', 'Rail', 'Left stile', '', '', '', '2', '', '3/8'],
      ['dowels', 'Rail', 'Right stile', '', '', '', '2', '', '3/8'],
    );
    const blocks = jointSheet(book, FIELD) ?? [];
    const keys = blocks.map(({ key }) => key);
    const details = keys.filter((key) => key.startsWith('joints detail '));
    expect(details).toHaveLength(1);
    expect(keys.indexOf(details[0] ?? '')).toBeLessThan(keys.indexOf('joints 0 heading'));
    const text = shown(blocks);
    expect(text).toContain('Sections through the joints Left stile and rail: dowels, half size.');
    expect(text).toContain('Right stile and rail: dowels, half size. Seen from the top. 2 dowels.');
  });

  it('tells where ends meet the sides of others, but not where a joint marks that out', () => {
    const says = 'Where parts meet the side of others';
    // Nothing holds the rail by a joint: 9 to 11 of 20 from the floor, as thick as the stiles.
    const butt = shown(jointSheet(frame().book, FIELD));
    const where = 'inside face Rail 9 to 11 from the top end the whole width';
    expect(butt).toContain(`${says} Left stile ${where} Right stile ${where}`);
    const { book } = frame(['dowels', 'Rail', 'Left stile', '', '', '', '2', '', '3/8']);
    const half = shown(jointSheet(book, FIELD));
    expect(half.split(says)).toHaveLength(2);
    expect(half).toContain(`${says} Right stile ${where}`);
    const both = frame(
      ['dowels', 'Rail', 'Left stile', '', '', '', '2', '', '3/8'],
      ['dowels', 'Rail', 'Right stile', '', '', '', '2', '', '3/8'],
    );
    expect(shown(jointSheet(both.book, FIELD))).not.toContain(says);
  });

  it('says first what is wrong, at its row, and is left out where nothing meets', () => {
    const { book } = frame(['dado', 'Rail', 'Left stile']);
    expect(shown(jointSheet(book, FIELD))).toMatch(
      /▲ Look at these first Row \d+ \(Joints!A\d+\): Rail only touches Left stile/,
    );
    const apart = frame().book;
    // Moved up and away from both stiles.
    const z = { row: 3, column: 7 };
    expect(apart.apply({ do: 'enter', sheet: 's1', cells: [{ ...z, text: '30' }] }).ok).toBe(true);
    expect(jointSheet(apart, FIELD)).toBeUndefined();
  });
});

/** The dining table that ships, its aprons tenoned, and how to type into its cells by name. */
function tenoned(units: 'us' | 'metric') {
  const text = readFileSync(
    new URL('../../../../templates/dining-table.json', import.meta.url),
    'utf8',
  );
  const loaded = loadText(text);
  if (!loaded.ok) throw new Error(loaded.says);
  const book = Workbook.open(loaded.document);
  if (units === 'metric') expect(book.apply({ do: 'changeUnits', to: units }).ok).toBe(true);
  const enter = (entries: Readonly<Record<string, string>>): void => {
    for (const [name, entry] of Object.entries(entries)) {
      const { sheet, ...place } = book.named(name)?.at ?? { sheet: '', row: 0, column: 0 };
      const result = book.apply({ do: 'enter', sheet, cells: [{ ...place, text: entry }] });
      expect(result.ok, name).toBe(true);
    }
  };
  enter(
    units === 'us'
      ? { tenon_length: '1 1/4', leg_size: '4' }
      : { tenon_length: '32', leg_size: '100' },
  );
  return { book, enter };
}

/** What is printed of every mark of a workbook's joints, beside the size that is shown of it. */
function marksOf(book: Workbook) {
  const write = bookFormat(book);
  const cuts = (readParts(book).joints?.marked ?? []).flatMap((one) => one.cuts);
  return cuts.flatMap(({ what, marks }) =>
    marks.map((mark) => ({ what, said: markSaid(book, mark), size: write(mark.to - mark.from) })),
  );
}

/** The width of its tenons, as it is shown. */
const width = (book: Workbook): string => book.named('tenon_width')?.shown.text ?? '';

const inShown = (book: Workbook, text: string): number => {
  const read = readEntry(text, { quantity: 'length', system: book.units, currency: '' });
  if (read.kind !== 'value' || typeof read.value !== 'number') throw new Error(`${text} is none`);
  return read.value;
};

describe('the marks of a cut', () => {
  it.each([
    ['us', ['3 1/2', '4', '3 3/16', '1', '7.9'], ['3/4', '7/8']],
    ['metric', ['90', '100', '62', '30', '88.5'], ['20', '22']],
  ] as const)('lie as far apart as the size that is shown, %s', (units, widths, thicks) => {
    const { book, enter } = tenoned(units);
    for (const apron_width of widths) {
      for (const apron_thickness of thicks) {
        enter({ apron_width, apron_thickness });
        const marks = marksOf(book);
        expect(marks.length).toBeGreaterThanOrEqual(24);
        for (const { said, size } of marks) {
          const [, first = '', last] = /^(\S.*?)(?: to (.*?))? from the /.exec(said) ?? [];
          const [, then] = /, then (.*)$/.exec(said) ?? [];
          if (last === undefined) expect(then, said).toBe(size);
          else {
            const apart = inShown(book, last) - inShown(book, first);
            expect(apart, said).toBeCloseTo(inShown(book, size), 6);
          }
        }
        // The usual tenon is as wide as a rule can mark it out; one that is split is so as a whole.
        const whole = /^(?:tenon|mortise) for /;
        const across = marks.filter(
          ({ what, said, size }) =>
            whole.test(what) && / top (edge|end)/.test(said) && size === width(book),
        );
        expect(across.length).toBeGreaterThanOrEqual(4);
        if (apron_width === '7.9' || apron_width === '88.5') continue;
        for (const { said } of across) {
          expect(said).toMatch(/ to /);
          expect(said).toMatch(units === 'us' ? /^(?!.*\/(32|64|128) )[^.]*$/ : /^[^.]*$/);
        }
      }
    }
  });

  it('are told from the first one where a typed size cannot be marked out to the hair', () => {
    const book = frame(['mortise and tenon', 'Rail', 'Left stile', '', '1/4', '1.3']).book;
    const at = { reference: 'top edge', from: 0.35 * 25.4, to: 1.65 * 25.4 };
    // 0.35 and 1.65 are 11/32 and 1 5/8 to the nearest mark, 1 9/32 apart; 1.3 is shown as 1 5/16.
    expect(markSaid(book, at)).toBe('11/32 from the top edge, then 1 5/16');
    expect(markSaid(book, { ...at, from: 0.25 * 25.4, to: 1.5 * 25.4 })).toBe(
      '1/4 to 1 1/2 from the top edge',
    );
  });
});

describe('while a cell of the joints table is written', () => {
  it('joints and names of parts are offered, whole, and none once one is written out', () => {
    const { book, at } = frame();
    const offered = (column: number, text: string) =>
      optionsOf(book, {
        at: at(0, column),
        text,
        mode: 'fresh',
        from: 'cell',
        caret: text.length,
      }).map((option) => option.text);
    expect(offered(0, 'mor')).toEqual([
      'mortise and tenon',
      'through mortise and tenon',
      'haunched mortise and tenon',
    ]);
    expect(offered(1, 'r')).toEqual(['Right stile', 'Rail']);
    expect(offered(2, 'rail')).toEqual([]);
    expect(offered(3, 'in')).toEqual(['inside']);
    expect(offered(4, '1')).toEqual([]);
  });
});

describe('the sheets of a table with tenons and tapers', () => {
  it('say which leg is which, what comes before the taper, and how long aprons are between shoulders', () => {
    const { book, enter } = tenoned('us');
    enter({ tenon_length: '1 1/2', leg_size: '3 1/2', leg_shape: 'tapered on two inside faces' });
    const joints = shown(jointSheet(book, FIELD));
    const heads = ['Leg, front left', 'Leg, back left', 'Leg, front right', 'Leg, back right'];
    for (const head of [...heads, 'Long apron, both', 'Short apron, both']) {
      expect(joints.split('Where parts meet')[0]?.split(head)).toHaveLength(2);
    }
    const order =
      'cut its mortises while it is square; taper the two inside faces, those with mortises, to 2, beginning 4 1/2 from the top end';
    // Told once, at the first of the legs.
    expect(joints.split(`In this order: ${order}.`)).toHaveLength(2);
    // Between the legs 59 and 29 (84 and 42, less twice the overhang of 9 and 3 and twice the leg), and 1 1/2 in each.
    expect(joints).toContain('Long apron, both 59 between shoulders, 62 with tenons.');
    expect(joints).toContain('Short apron, both 29 between shoulders, 32 with tenons.');
    const shop = shopPlan(book, 'cell');
    const list = shown(cutListSheet(book, shop));
    expect(list).toContain(
      `one each front left, back left, front right and back right, not alike; ${order}`,
    );
    expect(list).toContain('59 between shoulders, 62 with tenons');
    const labels = shown(labelSheet(book, shop, FIELD.width));
    for (const which of ['Leg, front left 1 of 4', 'Leg, back right 4 of 4']) {
      expect(labels).toContain(which);
    }
    expect(labels).toMatch(/Long apron 1 of 2 1 1\/2/);
  });

  it('say nothing of which is which where all pieces of a part are alike', () => {
    const { book, enter } = tenoned('us');
    enter({ tenon_length: '0' });
    const list = shown(cutListSheet(book, shopPlan(book, 'cell')));
    expect(list).not.toMatch(/one each|shoulders/);
  });
});

describe('pieces that are cut alike', () => {
  it.each([
    [1, [0], 'Leg'],
    [4, [1], 'Leg 2 of 4'],
    [4, [0, 3], 'Leg 1 and 4 of 4'],
    [4, [0, 1, 3], 'Leg 1, 2 and 4 of 4'],
    [2, [0, 1], 'Leg, both'],
    [4, [0, 1, 2, 3], 'Leg, all 4'],
  ])('of %i are called by their numbers: %j', (count, copies, says) => {
    expect(piecesSaid({ part: 'Leg', count, copies })).toBe(says);
  });

  it('are called by where they stand where that tells them apart', () => {
    const places = ['front left', 'back right'];
    expect(piecesSaid({ part: 'Leg', count: 4, copies: [0, 3], places })).toBe(
      'Leg, front left and back right',
    );
    const all = ['left', 'right'];
    expect(piecesSaid({ part: 'Rail', count: 2, copies: [0, 1], places: all })).toBe('Rail, both');
  });
});
