import { BENCH } from '@kerfbook/keeping/testing';
// @vitest-environment happy-dom
import { saveText, Workbook } from '@kerfbook/workbook';
import fc from 'fast-check';
import { beforeEach, describe, expect, it } from 'vitest';
import { Session } from '../session/session.ts';
import { copySelected, paste } from './clipboard.ts';
import { CELLS_TYPE } from './copied.ts';
import { blockOf } from './copied-store.ts';
import type { PasteKind } from './pasting.ts';

/** What a clipboard may hold that someone else filled, without a browser. */

function opened(): { readonly book: Workbook; readonly session: Session } {
  const book = Workbook.open(BENCH);
  return { book, session: new Session({ book, mayChange: true, record: () => undefined }) };
}

/** A clipboard that holds what is given, and takes what is put on it. */
class Held {
  readonly parts: Map<string, string>;

  constructor(parts: Readonly<Record<string, string>> = {}) {
    this.parts = new Map(Object.entries(parts));
  }

  getData(type: string): string {
    return this.parts.get(type) ?? '';
  }

  setData(type: string, data: string): void {
    this.parts.set(type, data);
  }
}

let book: Workbook;
let session: Session;
beforeEach(() => {
  ({ book, session } = opened());
});

const FREE = 40;
const place = (row: number, column: number) => ({ sheet: session.at.sheet, row, column });

function enter(row: number, column: number, text: string): void {
  session.apply({ do: 'enter', sheet: session.at.sheet, cells: [{ row, column, text }] });
}

const entry = (row: number, column: number): string => book.cell(place(row, column)).entry;
const saved = (): string => saveText(book.document());
const formulasIn = (text: string): readonly string[] =>
  [...text.matchAll(/"formula":\s*("(?:[^"\\]|\\.)*")/g)].map(([, one = '']) => one);
const namesIn = (text: string): readonly string[] =>
  [...text.matchAll(/"name":\s*("(?:[^"\\]|\\.)*")/g)].map(([, one = '']) => one);

function pasteAt(
  row: number,
  column: number,
  parts: Readonly<Record<string, string>>,
): Promise<void> {
  session.go(place(row, column));
  return paste(session, new Held(parts));
}

/** Cells as a page that knows how the app keeps them would make them up. */
const forged = (area: object, cells: unknown = [[{ formula: '=6*7', name: 'made_up' }]]): string =>
  JSON.stringify({
    kerfbook: 'cells',
    session: session.id,
    units: book.units,
    sheet: session.at.sheet,
    area,
    cut: true,
    cells,
    values: [[42]],
  });

const OLD_TYPE = 'application/x-kerfbook-cells+json';
const UNKNOWN = '0123456789abcdef'.repeat(2);
const HUGE = { top: 0, left: 0, bottom: 1e9, right: 1e9 };

describe('a copy', () => {
  it('puts words, a table and an id on the clipboard, and neither formula nor remark', async () => {
    enter(FREE, 0, '=6*7');
    session.apply({
      do: 'describeCells',
      sheet: session.at.sheet,
      cells: [{ row: FREE, column: 0, traits: { remark: 'for nobody else' } }],
    });
    session.go(place(FREE, 0));
    const [clipboard, next] = [new Held(), new Held()];
    copySelected(session, clipboard, false);
    expect([...clipboard.parts.keys()].sort()).toEqual([CELLS_TYPE, 'text/html', 'text/plain']);
    expect(clipboard.getData(CELLS_TYPE)).toMatch(/^[0-9a-f]{32}$/);
    expect([...clipboard.parts.values()].join()).not.toMatch(/6\*7|nobody/);
    copySelected(session, next, false);
    expect(next.getData(CELLS_TYPE)).not.toBe(clipboard.getData(CELLS_TYPE));
  });

  it('comes with its formulas where its id is known', async () => {
    enter(FREE, 0, '=A1');
    session.go(place(FREE, 0));
    const clipboard = new Held();
    copySelected(session, clipboard, false);
    session.go(place(FREE + 1, 0));
    await paste(session, clipboard);
    expect(entry(FREE + 1, 0)).toBe('=A2');
  });

  it('moves what was cut once, and copies it from then on', async () => {
    enter(FREE, 0, '5');
    session.go(place(FREE, 0));
    const clipboard = new Held();
    copySelected(session, clipboard, true);
    for (const row of [FREE + 1, FREE + 2]) {
      session.go(place(row, 0));
      await paste(session, clipboard);
    }
    expect([FREE, FREE + 1, FREE + 2].map((row) => entry(row, 0))).toEqual(['', '5', '5']);
  });

  it('is no cut any more for who was told its id', async () => {
    enter(FREE, 0, '5');
    session.go(place(FREE, 0));
    const clipboard = new Held();
    copySelected(session, clipboard, true);
    session.copied(undefined);
    session.go(place(FREE + 1, 0));
    await paste(session, clipboard);
    expect([FREE, FREE + 1].map((row) => entry(row, 0))).toEqual(['5', '5']);
  });
});

describe('cells from elsewhere', () => {
  it.each([CELLS_TYPE, OLD_TYPE])('are never taken at their word under %s', async (type) => {
    enter(FREE, 0, 'stays');
    const before = saved();
    for (const area of [{ top: FREE, left: 0, bottom: FREE, right: 0 }, HUGE, { top: -1 }, {}]) {
      await pasteAt(FREE + 1, 1, { [type]: forged(area), 'text/plain': 'said\t=7*6' });
      expect([entry(FREE, 0), entry(FREE + 1, 1), entry(FREE + 1, 2)]).toEqual([
        'stays',
        'said',
        '=7*6',
      ]);
      session.undo();
      expect(saved()).toBe(before);
    }
  });

  it('come as text where their id is not known here', async () => {
    await pasteAt(FREE, 0, { [CELLS_TYPE]: UNKNOWN, 'text/plain': 'a\t=6*7' });
    expect([entry(FREE, 0), entry(FREE, 1)]).toEqual(['a', '=6*7']);
  });

  it('go where they were asked for, whatever its maker does meanwhile', async () => {
    const pasted = pasteAt(FREE, 0, { [CELLS_TYPE]: UNKNOWN, 'text/plain': 'a' });
    session.go(place(FREE + 5, 3));
    session.begin('fresh', 'cell', 'being typed');
    await pasted;
    expect(entry(FREE, 0)).toBe('a');
    expect(session.editing?.text).toBe('being typed');
    expect(session.at).toEqual(place(FREE + 5, 3));
  });

  it('come with their formulas, read as typed ones, in one step', async () => {
    const before = saved();
    await pasteAt(FREE, 0, { 'text/plain': '2\t=A41*3\n=A41*4\t' });
    expect([entry(FREE, 0), entry(FREE, 1), entry(FREE + 1, 0)]).toEqual(['2', '=A41*3', '=A41*4']);
    expect(session.settled().value(place(FREE, 1))).toMatchObject({ number: 6 });
    expect(session.state.value.offer).toBeUndefined();
    session.undo();
    expect(saved()).toBe(before);
  });

  it('keep a formula that cannot be read as words, and say so', async () => {
    await pasteAt(FREE, 0, { 'text/plain': "=1+\t=SUM(A1;B1)\t=2*3\t'=2*3\t=====" });
    expect([0, 1, 2, 3, 4].map((column) => entry(FREE, column))).toEqual([
      "'=1+",
      "'=SUM(A1;B1)",
      '=2*3',
      "'=2*3",
      "'=====",
    ]);
    expect(session.state.value.offer?.says).toBe(
      '3 formulas cannot be read here and stay as text, such as =1+',
    );
    session.answerOffer(0);
    expect(entry(FREE, 0)).toBe('');
    await pasteAt(FREE + 1, 0, { 'text/plain': `=${'1'.repeat(9000)}` });
    expect(session.state.value.refused).toMatch(/8,?192/);
    expect(entry(FREE + 1, 0)).toBe('');
  });

  it('are too many before they are laid out', async () => {
    const before = saved();
    for (const parts of [
      { 'text/plain': '\t'.repeat(5_000_000) },
      { 'text/plain': '\n'.repeat(5_000_000) },
      { 'text/plain': `${'\t'.repeat(600)}\n${'x\n'.repeat(9000)}` },
    ]) {
      await pasteAt(FREE, 0, parts);
      expect(session.state.value.refused).toMatch(/^Those are more than 200,000 cells/);
    }
    expect(saved()).toBe(before);
  });

  it('say so when there are none', async () => {
    await pasteAt(FREE, 0, { 'text/html': '<p>words of a page</p>' });
    expect(session.state.value.refused).toBe(
      'There is nothing on the clipboard that fits in cells.',
    );
  });

  const fragments = fc.constantFrom(
    ...[
      '=1+1',
      '=A1',
      "'=A1",
      ' =TOP',
      '+1',
      '-1',
      '@A1',
      '\u00a0=A1',
      '1 1/2',
      '12,5',
      'oak',
      '',
      '"',
    ],
    ...[
      '<b>=A1</b>',
      '\ufeff=A1',
      '\0',
      '<!--',
      '=HYPERLINK("https://table.example","x")',
      '{=A1}',
    ],
  );
  const spans = fc.constantFrom('', ' colspan=1e9', ' rowspan=1000000000', ' colspan=-1 rowspan=0');
  const tables = fc
    .array(fc.array(fc.tuple(spans, fragments), { maxLength: 4 }), { maxLength: 4 })
    .map((rows) =>
      rows
        .map((cells) => `<tr>${cells.map(([span, text]) => `<td${span}>${text}`).join('')}`)
        .join(''),
    )
    .map((rows) => `<table>${rows}`);
  const texts = fc
    .array(fc.tuple(fragments, fc.constantFrom('\t', '\n', '\r\n', '"', '')), { maxLength: 12 })
    .map((parts) => parts.flat().join(''));
  const numbers = fc.constantFrom(0, 1, -1, 1e9, 2 ** 53, 0.5, Number.NaN, '1', null);
  const areas = fc.record({ top: numbers, left: numbers, bottom: numbers, right: numbers });
  const made = fc.oneof(
    fc.constantFrom('', UNKNOWN, 'x'.repeat(32), '{}', 'null', '[', '__proto__'),
    fc.tuple(areas, fc.jsonValue()).map(([area, cells]) => ({ area, cells })),
  );
  const kinds = fc.constantFrom<PasteKind>('all', 'values', 'formats', 'transposed');

  it('bring no formula but what their text says, no name and no move, whatever they are', async () => {
    const before = saved();
    await fc.assert(
      fc.asyncProperty(
        made,
        fc.constantFrom(CELLS_TYPE, OLD_TYPE),
        fc.oneof(fc.constant(''), tables),
        fc.oneof(fc.constant(''), texts),
        kinds,
        async (id, type, html, text, kind) => {
          const marker = typeof id === 'string' ? id : forged(id.area, id.cells);
          session.go(place(FREE, 0));
          const clipboard = new Held({ [type]: marker, 'text/html': html, 'text/plain': text });
          await paste(session, clipboard, kind);
          const after = saved();
          expect(after).not.toContain('=6*7');
          if (!`${html}${text}`.includes('='))
            expect(formulasIn(after)).toEqual(formulasIn(before));
          expect(namesIn(after)).toEqual(namesIn(before));
          if (after === before) return;
          session.undo();
          expect(saved()).toBe(before);
        },
      ),
      { numRuns: 300 },
    );
  });
});

describe('cells as the store keeps them', () => {
  const good = () => forged({ top: 3, left: 1, bottom: 3, right: 1 });

  it('are read where they are as the app writes them', async () => {
    expect(blockOf(good())).toMatchObject({ values: [[42]] });
  });

  it.each<readonly [string, (block: Record<string, unknown>) => void]>([
    ['of another kind', (block) => Object.assign(block, { kerfbook: 'sheet' })],
    ['of unknown units', (block) => Object.assign(block, { units: 'ells' })],
    ['of a huge area', (block) => Object.assign(block, { area: HUGE })],
    [
      'of an area before the first',
      (block) => Object.assign(block, { area: { ...HUGE, top: -1 } }),
    ],
    [
      'of half an area',
      (block) => Object.assign(block, { area: { top: 3.5, left: 1, bottom: 3.5, right: 1 } }),
    ],
    ['of fewer than they say', (block) => Object.assign(block, { cells: [] })],
    ['of lines that differ', (block) => Object.assign(block, { cells: [[null, null]] })],
    ['without values', (block) => Object.assign(block, { values: undefined })],
    ['of odd values', (block) => Object.assign(block, { values: [[{}]] })],
    ['of odd cells', (block) => Object.assign(block, { cells: [['=1']] })],
    ['of odd formulas', (block) => Object.assign(block, { cells: [[{ formula: 5 }]] })],
  ])('%s are none', (_, spoil) => {
    const block = JSON.parse(good()) as Record<string, unknown>;
    spoil(block);
    expect(blockOf(JSON.stringify(block))).toBeUndefined();
  });

  it('are none where they are no JSON', async () => {
    for (const text of ['', 'null', '[]', '{', '1', good().slice(0, -1)]) {
      expect(blockOf(text)).toBeUndefined();
    }
  });
});
