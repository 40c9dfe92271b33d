// @vitest-environment happy-dom
import { type BookDocument, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { reasonsOf } from '../page/reasons.ts';
import { Session } from '../session/session.ts';
import { dress } from './face.ts';

type Cell = NonNullable<
  NonNullable<BookDocument['sheets'][number]['rows'][number]['cells']>[string]
>;

const row = (id: string, label: string, cell: Cell) => ({
  id,
  cells: { c1: { value: label }, c2: cell },
});

const check = (
  id: string,
  formula: string,
  severity: 'stop' | 'care',
  says: string,
  of: string,
) => ({
  id,
  name: says,
  sheet: 's1',
  formula,
  severity,
  says,
  cells: `=[c2.${of}]`,
});

/** An invented shelf: a length and an empty cell that checks mark, and formulas that go wrong. */
const SHELF: BookDocument = {
  kerfbook: 8,
  title: 'Shelf',
  units: 'us',
  sheets: [
    {
      id: 's1',
      name: 'Brief',
      columns: [{ id: 'c1' }, { id: 'c2' }],
      rows: [
        row('r1', 'Length', { value: 60, quantity: 'length', role: 'input', name: 'shelf' }),
        row('r2', 'Price', { value: 5, quantity: 'money', name: 'price' }),
        row('r3', 'Both', { formula: '=shelf+price', name: 'both' }),
        row('r4', 'Lost', { formula: '=shelf/0', name: 'lost' }),
        row('r5', 'Wood', { role: 'input', name: 'wood' }),
        row('r6', 'Shelves', { value: 1, remark: 'One is enough.' }),
        row('r7', 'Wood price', { formula: '=2*price', role: 'calculated', allow: { min: 0 } }),
        row('r8', 'Both prices', { formula: '=2*price', role: 'calculated' }),
      ],
    },
  ],
  checks: [
    check('k1', '=shelf<=36', 'care', 'Past 36 in it sags.', 'r1'),
    check('k2', '=shelf<=0', 'stop', 'Say which wood it is of.', 'r5'),
    check('k3', '=shelf<=48', 'care', 'The board is 48 in long.', 'r3'),
    check('k4', '=shelf<=48', 'care', 'Nobody knows how long.', 'r4'),
  ],
  tables: [],
};

/** The cell of a row as it is drawn, once everything is in it. */
async function drawn(line: number) {
  const book = Workbook.open(SHELF);
  const session = new Session({ book, mayChange: true, record: () => undefined });
  const outer = document.createElement('div');
  const cell = book.cell({ sheet: 's1', row: line, column: 1 });
  const words = dress(outer, undefined, cell, session);
  if (words !== undefined) outer.append(words);
  await Promise.resolve();
  const reason = outer.querySelector('.cell-reason');
  return {
    marked: /is-(marked|wrong|error|clashing)/.test(outer.className),
    words: words?.title ?? '',
    mark: reason?.getAttribute('title') ?? '',
    heard: reason?.getAttribute('aria-label') ?? '',
    beside: reasonsOf(cell, book, undefined)
      .map(({ says }) => says)
      .join('\n'),
  };
}

describe('a cell that bears a mark', () => {
  it.each([
    ['of a check', 0, 'Past 36 in it sags.'],
    ['of a check while it is empty', 4, 'Say which wood it is of.'],
  ])('says why, over the mark, over the words and read out: %s', async (_, line, says) => {
    expect(await drawn(line)).toEqual({
      marked: true,
      words: says,
      mark: says,
      heard: says,
      beside: says,
    });
  });

  it.each([
    ['what does not go together, and a check', 2, [/^The board is 48 in long\.$/, /money/]],
    ['an error, and a check', 3, [/zero/, /^Nobody knows how long\.$/]],
  ])('gives every reason where there are several: %s', async (_, line, patterns) => {
    const cell = await drawn(line);
    const says = cell.beside.split('\n');
    expect(says).toHaveLength(patterns.length);
    for (const [i, pattern] of patterns.entries()) expect(says[i]).toMatch(pattern);
    expect([cell.words, cell.mark, cell.heard]).toEqual([cell.beside, cell.beside, cell.beside]);
  });

  it('is one of those alone: a remark is no mark', async () => {
    expect(await drawn(5)).toEqual({
      marked: false,
      words: 'One is enough.',
      mark: '',
      heard: '',
      beside: '',
    });
  });
});

describe('a cell that may be changed', () => {
  const looks = (line: number, locked = false): string => {
    const book = Workbook.open(locked ? { ...SHELF, locked: true } : SHELF);
    const session = new Session({ book, mayChange: true, record: () => undefined });
    const outer = document.createElement('div');
    dress(outer, undefined, book.cell({ sheet: 's1', row: line, column: 1 }), session);
    return outer.className;
  };

  it('is tinted: an input, and a formula that says what may be typed over it', () => {
    expect(looks(0)).toContain('is-input');
    expect(looks(6)).toContain('is-to-type-over');
    expect(looks(7)).not.toContain('is-to-type-over');
    expect(looks(6, true)).not.toContain('is-to-type-over');
  });
});
