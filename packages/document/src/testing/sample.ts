import type { BookDocument, CellDocument, RowDocument } from '../format/schema.ts';

/** A cell of a test's workbook: a plain value, a formula in saved form, or a whole cell. */
export type Sketch = string | number | boolean | null | CellDocument;

/** Rows r1, r2 … and columns c1, c2 … of one sheet from a grid of sketches. */
export function rowsOf(grid: readonly (readonly Sketch[])[]): RowDocument[] {
  return grid.map((line, row) => {
    const cells: Record<string, CellDocument> = {};
    for (const [column, sketch] of line.entries()) {
      if (sketch !== null) cells[`c${column + 1}`] = cellOf(sketch);
    }
    const id = `r${row + 1}`;
    return Object.keys(cells).length === 0 ? { id } : { id, cells };
  });
}

function cellOf(sketch: Exclude<Sketch, null>): CellDocument {
  if (typeof sketch === 'object') return sketch;
  if (typeof sketch === 'string' && sketch.startsWith('=')) return { formula: sketch };
  return { value: sketch };
}

export interface BookSketch {
  readonly units?: 'us' | 'metric';
  readonly sheets: Readonly<Record<string, readonly (readonly Sketch[])[]>>;
  readonly checks?: BookDocument['checks'];
  readonly tables?: BookDocument['tables'];
}

/** A document with sheets s1, s2 …, as wide as its widest row. */
export function documentOf(sketch: BookSketch): BookDocument {
  return {
    kerfbook: 8,
    title: 'A bench for trying things',
    units: sketch.units ?? 'us',
    sheets: Object.entries(sketch.sheets).map(([name, grid], index) => ({
      id: `s${index + 1}`,
      name,
      columns: Array.from({ length: Math.max(1, ...grid.map((line) => line.length)) }, (_, i) => ({
        id: `c${i + 1}`,
      })),
      rows: rowsOf(grid),
    })),
    checks: sketch.checks ?? [],
    tables: sketch.tables ?? [],
  };
}

/** A workbook of version 1 with former names; more cells in its first row, and other members, where asked. */
export const former = (more: object = {}, cells: object = {}): Record<string, unknown> => ({
  kerfbook: 1,
  title: 'Bench',
  units: 'us',
  sheets: [
    {
      id: 's1',
      name: 'Top',
      columns: [{ id: 'c1' }, { id: 'c2' }],
      rows: [
        { id: 'r1', cells: { c1: { value: 5.5, name: 'widest_stave' }, ...cells } },
        {
          id: 'r2',
          cells: { c1: { formula: '=STAVE_COUNT(42,widest_stave)', name: 'stave_count' } },
        },
      ],
    },
  ],
  checks: [],
  tables: [],
  ...more,
});
