import { shopTableEdit, type Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { HereAsker } from './ask.ts';
import { axisOf, clausesOf, entryFor, takeEdit } from './inputs.ts';
import { readStudies, studyOf } from './studies.ts';
import { runTable, setsOf, shades } from './table.ts';
import { shelf, template } from './testing/shelf.ts';
import { readVariants, runVariants } from './variants.ts';

function withTable(
  kind: 'studies' | 'variants',
  rows: readonly (readonly string[])[],
  heads?: readonly string[],
): Workbook {
  const book = shelf();
  const begin = shopTableEdit(book, kind);
  if (begin === undefined) throw new Error('there is one already');
  book.apply(begin);
  const { sheet = '', header = 0 } = book.tables().find((one) => one.kind === kind) ?? {};
  const cells = rows.flatMap((texts, i) =>
    texts.map((text, column) => ({ row: header + 1 + i, column, text })),
  );
  for (const [i, text] of (heads ?? []).entries()) cells.push({ row: header, column: i + 1, text });
  const applied = book.apply({ do: 'enter', sheet, cells });
  if (!applied.ok) throw new Error(applied.says);
  return book;
}

describe('studies of a workbook', () => {
  it('are read from their table, follow a rename, and say what cannot be read', () => {
    const book = withTable('studies', [
      ['Price by length', 'table', 'long 24..48/6; wood oak, ash', 'price, sag'],
      ['How long', 'seek', 'long', '', 'price at most 300', 'yes'],
      ['Hours', 'Spread', 'hours 4, 6, 12', 'price', '', '', '500', '3'],
      ['Cheapest', 'best', 'long 24..48/6', '', 'price'],
      ['Wrong', 'table', 'area 1..2/1', 'price'],
      ['Odd', 'guess', 'long 1..2/1', 'price'],
      ['Empty', 'table', '', 'price'],
    ]);
    const studies = readStudies(book);
    expect(studies.map(({ asks }) => asks?.kind)).toEqual([
      'table',
      'seek',
      'spread',
      'best',
      undefined,
      undefined,
      undefined,
    ]);
    expect(studies[1]?.asks).toMatchObject({ keep: true, goal: { is: 'at most', than: 300 } });
    expect(studies[2]?.asks).toMatchObject({ draws: 500, seed: 3 });
    expect(studies.slice(4).map(({ problems }) => problems[0]?.says)).toEqual([
      expect.stringContaining('area is calculated'),
      expect.stringContaining('no study called "guess"'),
      expect.stringContaining('over nothing'),
    ]);
    book.apply({ do: 'renameName', from: 'long', to: 'shelf_long' });
    const [after] = readStudies(book);
    expect(after?.asks).toMatchObject({ over: [{ cell: { name: 'shelf_long' } }, {}] });
    expect(after?.id).toBe(studies[0]?.id);
  });

  it('are over lists and ranges, each as it is typed', () => {
    const book = shelf();
    expect(axisOf(book, 'long', "2'..4'/1'").values).toEqual([24, 36, 48]);
    expect(axisOf(book, 'long', '48..24/12').values).toEqual([48, 36, 24]);
    expect(axisOf(book, 'long', '24, 30 1/2, 36').values).toEqual([24, 30.5, 36]);
    expect(axisOf(book, 'long', '24:48:1/2').values).toHaveLength(49);
    expect(axisOf(book, 'long', '24,30 1/2,36').values).toEqual([24, 30.5, 36]);
    expect(() => axisOf(book, 'long', '24,5, 36,5')).toThrow(/24,5/);
    expect(axisOf(book, 'wood', 'oak, pine').values).toEqual(['oak', 'pine']);
    expect(clausesOf(' long = 1..2/1 ;wood oak;; ')).toEqual([
      ['long', '1..2/1'],
      ['wood', 'oak'],
    ]);
    expect(() => axisOf(book, 'wood', 'oak, elm')).toThrow(/wood/);
    expect(() => axisOf(book, 'long', '12..120/0.001')).toThrow(/10000 is the most/);
    const many = axisOf(book, 'long', '12..120/0.125');
    expect(() => setsOf([many, many, many])).toThrow(/647,214,625 sets .* 100,000 is the most/);
    expect(() => studyOf(book, { kind: 'table', over: 'long 24..48/6' })).toThrow(/shows nothing/);
  });

  it('of tables shade each number between the least and the most', async () => {
    const book = shelf();
    const asker = new HereAsker(book.document());
    const price = book.named('smooth');
    const run = await runTable(
      book,
      asker,
      [axisOf(book, 'long', '24, 36, 48')],
      price === undefined ? [] : [price],
    );
    expect(shades(run.rows, 0).map((one) => Number(one?.toFixed(9)))).toEqual([0, 0.5, 1]);
    expect(shades(run.rows, 7)).toEqual([undefined, undefined, undefined]);
  });

  it('stop when they are told to, and keep what was done', async () => {
    const book = shelf();
    const asker = new HereAsker(book.document());
    const stop = new AbortController();
    const axes = [axisOf(book, 'long', '12..120/0.125'), axisOf(book, 'deep', '6..16/1')];
    const hear = (done: number): void => {
      if (done >= 512) stop.abort();
    };
    const run = await runTable(book, asker, axes, [], { hear, signal: stop.signal });
    expect(run.of).toBe(865 * 11);
    expect(run.rows.length).toBe(512);
  });
});

describe('an input of any template', () => {
  it.each(['dining-table', 'movement', 'cost', 'round-table'])(
    'of %s holds just what it is given',
    (name) => {
      const book = template(name);
      for (const { name: called } of book.names()) {
        const cell = book.named(called);
        if (cell === undefined || cell.formula !== undefined || cell.value.kind !== 'number')
          continue;
        const { sheet, row, column } = cell.at;
        const text = entryFor(book, cell, cell.value.number);
        const applied = book.apply({ do: 'enter', sheet, cells: [{ row, column, text }] });
        expect(applied.ok, called).toBe(true);
        expect(book.value(cell.at), called).toEqual(cell.value);
      }
    },
  );
});

describe('variants of a workbook', () => {
  it('are sets of changes, compared with the workbook as it stands, and switched to in one step', async () => {
    const book = withTable(
      'variants',
      [
        ['Oak, 6 ft', '72', ''],
        ['Pine', '', 'pine'],
        ['', '30', ''],
        ['Wrong', '500', 'elm'],
      ],
      ['long', 'wood', 'price', 'nothing_here'],
    );
    const { variants, problems } = readVariants(book);
    expect(variants.map(({ name, inputs }) => [name, inputs.map(({ value }) => value)])).toEqual([
      ['Oak, 6 ft', [72]],
      ['Pine', ['pine']],
    ]);
    expect(problems.map(({ says }) => says)).toEqual([
      expect.stringContaining('price is calculated'),
      expect.stringContaining('nothing_here'),
      expect.stringContaining('no name'),
      expect.stringContaining('outside what this cell takes'),
      expect.stringContaining('wood'),
    ]);
    const results = [book.named('price')].filter((cell) => cell !== undefined);
    const asker = new HereAsker(book.document());
    const run = await runVariants(book, asker, variants.slice(0, 2), results);
    const prices = run.outcomes.map(({ values: [price] }) =>
      price?.kind === 'number' ? price.number : 0,
    );
    // As it stands 4 square feet at 9, 6 hours at 40; at 72 in 5; in pine 4 at 4.
    expect(prices).toEqual([276, 285, 256]);
    const [oak, pine] = variants;
    if (oak === undefined || pine === undefined) throw new Error('no variants');
    const before = JSON.stringify(book.document());
    expect(book.apply(takeEdit(book, oak.inputs))).toMatchObject({ ok: true });
    expect(book.value(results[0]?.at ?? { sheet: '', row: 0, column: 0 })).toMatchObject({
      number: 285,
    });
    book.undo();
    expect(JSON.stringify(book.document())).toBe(before);
    book.apply({ do: 'renameName', from: 'long', to: 'shelf_long' });
    expect(readVariants(book).variants[0]?.inputs[0]?.cell.name).toBe('shelf_long');
  });

  it('are none where there is no table of them', () => {
    expect(readVariants(template('bench'))).toEqual({ variants: [], problems: [] });
  });
});
