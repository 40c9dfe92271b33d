import type { BookDocument, CellDocument, RowDocument } from '../document/schema.ts';
import { Workbook } from '../workbook.ts';

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
    kerfbook: 1,
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

/** An open workbook whose new ids count up, so that a test reads the same every time. */
export function bookOf(sketch: BookSketch): Workbook {
  let next = 0;
  return Workbook.open(documentOf(sketch), {
    makeId: (kind) => {
      next += 1;
      return `${kind}new${next}`;
    },
  });
}

/** What the cell at an address shows: `'A1'` on the first sheet, `'Cuts!B2'` elsewhere. */
export function shows(book: Workbook, address: string): string {
  return book.cell(place(book, address)).shown.text;
}

export function place(book: Workbook, address: string) {
  const at = book.find(address, book.sheets()[0]?.id);
  if (at === undefined) throw new Error(`no such place: ${address}`);
  return at;
}

/** Types into one cell as a maker does and fails the test when the edit is refused. */
export function type(book: Workbook, address: string, text: string) {
  const { sheet, row, column } = place(book, address);
  const result = book.apply({ do: 'enter', sheet, cells: [{ row, column, text }] });
  if (!result.ok) throw new Error(result.says);
  return result;
}
