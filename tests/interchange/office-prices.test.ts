import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { writeOds, writeXlsx } from '@kerfbook/interchange';
import { loadValue, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { type JudgedCell, judge, whyNoJudge } from './judge.ts';

/**
 * Prices of a list as LibreOffice reads them from the formulas that stand for ours: each wood in each thickness, before
 * and after one price is another. Grits and buttons stand beside them.
 */

const HEADS = ['wood', 'thickness', 'grade', 'price', 'per', 'day'];
const LIST = [
  ['white oak', 1, '', 8, 'board foot', 46300],
  ['white oak', 2, '', 9, '', 46300],
  ['white oak', '', '', 12.5, 'board foot', ''],
  ['white oak', 1, '', 8.5, 'board foot', 46310],
  ['black walnut', 1, '', 2400, 'cubic meter', 46300],
  ['black walnut', 2.25, '', 13.25, 'board foot', 46300],
  ['black walnut', 1.5, '', '', 'board foot', 46300],
  ['birch plywood', 0.75, '', 96, 'piece', 46300],
  ['birch plywood', 0.75, '', 4.25, 'board foot', 46300],
  ['Sugar maple', '', '', 7.125, 'board foot', 46299],
] as const;
const WOODS = ['white oak', 'black walnut', 'birch plywood', 'sugar maple', 'black cherry'];
const THICKNESSES = [0.75, 1, 1.06, 1.5, 50 / 25.4, 2.125, 3];
const OTHERS = [
  '=GRIT_STEPS(80,220)',
  '=GRIT_STEPS(60,600)',
  '=GRIT_STEPS(120,120)',
  '=GRIT_STEPS(40,50)',
  '=GRIT_STEPS(100,80)',
  '=BUTTON_TRAVEL(0.5,0.2)',
  '=BUTTON_TRAVEL(0.5,0.2,0.1,0.75)',
  '=BUTTON_TRAVEL(0.5,0.45)',
];

function bookOf(): Workbook {
  const cells = (line: readonly (string | number)[]) =>
    Object.fromEntries(
      line.flatMap((value, at) => (value === '' ? [] : [[`c${at + 1}`, { value }]])),
    );
  const asked = WOODS.flatMap((wood) => THICKNESSES.map((thick) => [wood, thick] as const));
  const loaded = loadValue({
    kerfbook: 8,
    title: 'Prices',
    units: 'us',
    sheets: [
      {
        id: 's1',
        name: 'Asked',
        columns: [{ id: 'c1' }, { id: 'c2' }, { id: 'c3' }, { id: 'c4' }],
        rows: [
          ...asked.map(([wood, thick], at) => ({
            id: `r${at + 1}`,
            cells: {
              c1: { value: wood },
              c2: { value: thick },
              c3: { formula: `=WOOD_PRICE([c1.r${at + 1}],[c2.r${at + 1}])` },
              c4: { formula: `=IFNA(PIECE_PRICE([c1.r${at + 1}],[c2.r${at + 1}]),-1)` },
            },
          })),
          ...OTHERS.map((formula, at) => ({ id: `q${at + 1}`, cells: { c3: { formula } } })),
        ],
      },
      {
        id: 's2',
        name: 'Price list',
        columns: HEADS.map((_, at) => ({ id: `c${at + 1}` })),
        rows: [
          { id: 'r1', cells: cells(HEADS) },
          ...LIST.map((line, at) => ({
            id: `r${at + 2}`,
            cells: {
              ...cells(line),
              ...(at === 3 ? { c4: { value: line[3], name: 'asked_last' } } : {}),
            },
          })),
        ],
      },
    ],
    checks: [],
    tables: [
      { id: 'prices', kind: 'prices', sheet: 's2', header: 'r1', last: `r${LIST.length + 1}` },
    ],
  });
  if (!loaded.ok) throw new Error(loaded.says);
  return Workbook.open(loaded.document);
}

/** What a result is, in words that both have. */
function said(book: Workbook, row: number, column: number): string {
  const value = book.value({ sheet: 's1', row, column });
  if (value.kind === 'number') return value.number.toPrecision(10);
  return value.kind === 'text' ? value.text : value.kind;
}

const saidThere = ([, , , kind, value]: JudgedCell): string =>
  kind === 'number' ? Number(value).toPrecision(10) : kind === 'text' ? String(value) : kind;

const why = whyNoJudge();
const withJudge = why === undefined ? describe : () => undefined;

describe('what this is held against', () => {
  it('answers for most woods, and for some has no price', () => {
    const book = bookOf();
    const all = WOODS.flatMap((_, wood) =>
      THICKNESSES.map((__, thick) => said(book, wood * THICKNESSES.length + thick, 2)),
    );
    expect(new Set(all).size).toBeGreaterThan(6);
    expect(all.filter((one) => one === 'error').length).toBeGreaterThan(5);
  });
});

withJudge('prices of the list in another program', () => {
  it.each([
    ['xlsx', writeXlsx],
    ['ods', writeOds],
  ] as const)('are those of the workbook, as %s', (ending, write) => {
    const book = bookOf();
    const folder = mkdtempSync(join(tmpdir(), 'kerfbook-judge-'));
    try {
      const path = join(folder, `prices.${ending}`);
      const { bytes, told } = write(book);
      expect(told.filter(({ kind }) => kind === 'frozen')).toEqual([]);
      writeFileSync(path, bytes);
      const [answer] = judge([{ path, inputs: [{ asked_last: 10.75 }] }]);
      const held = (cells: readonly JudgedCell[]): number => {
        let count = 0;
        for (const one of cells) {
          const [sheet, row, column, , , formula] = one;
          if (sheet !== 'Asked' || formula === null) continue;
          expect(saidThere(one), `${row + 1} ${column + 1} ${formula}`).toBe(
            said(book, row, column),
          );
          count += 1;
        }
        return count;
      };
      const formulas = WOODS.length * THICKNESSES.length * 2 + OTHERS.length;
      expect(held(answer?.cells ?? [])).toBe(formulas);
      const at = book.named('asked_last')?.at;
      if (at === undefined) throw new Error('asked_last');
      const cells = [{ row: at.row, column: at.column, text: '10.75' }];
      expect(book.apply({ do: 'enter', sheet: at.sheet, cells }).ok).toBe(true);
      expect(said(book, 1, 2)).toBe((10.75).toPrecision(10));
      expect(held(answer?.after[0] ?? [])).toBeGreaterThan(0);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });
});
