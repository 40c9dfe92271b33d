/**
 * Long workbooks for benchmarks and tests: many rows alike, written as the saved text.
 */

/**
 * @typedef {string | number | undefined} Content an entry, or a formula in saved form
 * @typedef {object} LongBook
 * @property {string} title
 * @property {readonly string[]} sheets their names; their ids are s1, s2 and so on
 * @property {number} rows of each sheet; their ids are r1, r2 and so on
 * @property {(row: number, sheet: number) => readonly Content[]} line a row counted from 1, its cells from
 *   the first column on
 */

/** @param {LongBook} book */
export function longBook({ title, sheets, rows, line }) {
  const lines = sheets.map((_, sheet) =>
    Array.from({ length: rows }, (__, row) => ({ id: `r${row + 1}`, cells: line(row + 1, sheet) })),
  );
  const width = Math.max(...lines.flatMap((all) => all.map(({ cells }) => cells.length)));
  const columns = Array.from({ length: width }, (_, i) => ({ id: `c${i + 1}` }));
  return JSON.stringify({
    kerfbook: 8,
    title,
    units: 'us',
    sheets: sheets.map((name, i) => ({
      id: `s${i + 1}`,
      name,
      columns,
      rows: lines[i]?.map(({ id, cells }) => ({ id, cells: cellsOf(cells) })),
    })),
    checks: [],
    tables: [],
  });
}

/** @param {readonly Content[]} line */
function cellsOf(line) {
  return Object.fromEntries(
    line.flatMap((content, i) => {
      if (content === undefined) return [];
      const formula = typeof content === 'string' && content.startsWith('=');
      return [[`c${i + 1}`, formula ? { formula: content } : { value: content }]];
    }),
  );
}

/** How many formulas a row of a chain has. */
const EACH = 5;

/**
 * Formulas that all rest on the first cell: a chain, IF, a sum of up to ten, products, a rounding. In the
 * first row stands besides an input of two more formulas.
 * @param {number} formulas a multiple of five
 */
export const chain = (formulas) =>
  longBook({
    title: 'A chain for measuring',
    sheets: ['Chain'],
    rows: 1 + formulas / EACH,
    line(row) {
      if (row === 1) return [84, 7, '=[c2.r1]*2', '=[c3.r1]+1'];
      const before = row % 50 === 2 ? '[$c1.$r1]' : `[c2.r${row - 1}]`;
      const first = Math.max(2, row - 9);
      return [
        row - 2,
        `=${before}+[$c1.$r1]*0.5`,
        `=IF([c2.r${row}]>10,[c2.r${row}]*2,[c2.r${row}])`,
        `=SUM([c2.r${first}]:[c2.r${row}])`,
        `=[c3.r${row}]*1.5+[$c1.$r1]`,
        `=ROUND([c5.r${row}]/3,2)`,
      ];
    },
  });
