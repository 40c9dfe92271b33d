import type { BookDocument, CellDocument } from '@kerfbook/document';
import { columnName } from '@kerfbook/document';
import { SHOP_COLUMNS } from '@kerfbook/workbook';
import type { SheetIn } from './coming-in.ts';

/** A list of parts that was found in a file. */
export interface FoundTable {
  /** Counted from 0. */
  readonly sheet: number;
  /** Its row of heads, counted from 0. */
  readonly header: number;
  /** Its last row, counted from 0. */
  readonly last: number;
  /** The heads of a parts table and the columns that they stand over, as the file calls them. */
  readonly heads: readonly {
    readonly head: string;
    readonly column: number;
    readonly called: string;
  }[];
  /** `Rows 5 to 19 of Parts look like a list of parts: Part (A), Qty (B) …` */
  readonly says: string;
}

/** What other people call the heads of a parts table, in small letters without a unit behind them. */
const CALLED: ReadonlyMap<string, string> = new Map(
  Object.entries({
    part: 'part,parts,part name,name,item,piece,component,description,what',
    count: 'count,qty,qty.,quantity,pcs,pcs.,pieces,no,no.,nos,number,#,how many,amount',
    thickness: 'thickness,thick,thk,t,th',
    width: 'width,wide,w,wd',
    length: 'length,long,l,len,lg',
    material: 'material,wood,species,stock,matl,mat',
    grain: 'grain,grain direction',
  }).flatMap(([head, words]) => words.split(',').map((word) => [word, head] as const)),
);
const NEEDED = ['part', 'length', 'width'] as const;

const plain = (text: string): string =>
  text
    .trim()
    .toLowerCase()
    .replace(/\s*[([][^)\]]*[)\]]\s*$/, '')
    .replaceAll(/\s+/g, ' ');

/** Lists of parts in a file: a row of heads that say so, with rows under it until one is blank. */
export function foundParts(sheets: readonly SheetIn[]): readonly FoundTable[] {
  return sheets.flatMap((sheet, index) => {
    const rows = new Map<number, Map<number, string>>();
    const filled = new Set<number>();
    for (const { row, column, value, formula } of sheet.cells) {
      if (value === undefined && formula === undefined) continue;
      filled.add(row);
      if (value?.kind !== 'text') continue;
      const line = rows.get(row) ?? new Map<number, string>();
      line.set(column, value.text);
      rows.set(row, line);
    }
    const found: FoundTable[] = [];
    let below = -1;
    for (const [row, line] of [...rows].sort((a, b) => a[0] - b[0])) {
      if (row <= below) continue;
      const heads = headsOf(line);
      if (heads === undefined) continue;
      let last = row;
      while (filled.has(last + 1)) last += 1;
      if (last === row) continue;
      below = last;
      const list = heads
        .map(({ called, column }) => `${called} (${columnName(column)})`)
        .join(', ');
      found.push({
        sheet: index,
        header: row,
        last,
        heads,
        says: `Rows ${row + 2} to ${last + 1} of ${sheet.name} look like a list of parts: ${list}.`,
      });
    }
    return found;
  });
}

function headsOf(line: ReadonlyMap<number, string>): FoundTable['heads'] | undefined {
  const found = new Map<string, { head: string; column: number; called: string }>();
  for (const [column, called] of [...line].sort((a, b) => a[0] - b[0])) {
    const head = CALLED.get(plain(called));
    if (head !== undefined && !found.has(head))
      found.set(head, { head, column, called: called.trim() });
  }
  const isList =
    NEEDED.every((head) => found.has(head)) && (found.has('count') || found.has('thickness'));
  return isList ? [...found.values()] : undefined;
}

/**
 * The workbook with a list that was found as its parts table: heads as the drawing reads them, what they were called
 * in their remarks, and what stands under them as what it is.
 */
export function partsTable(document: BookDocument, found: FoundTable): BookDocument {
  const quantities = new Map(SHOP_COLUMNS.parts.map(({ heads, quantity }) => [heads, quantity]));
  const sheets = document.sheets.map((sheet, index) => {
    if (index !== found.sheet) return sheet;
    return {
      ...sheet,
      rows: sheet.rows.map((row, at) => {
        if (at < found.header || at > found.last) return row;
        const cells: Record<string, CellDocument> = { ...row.cells };
        for (const { head, column, called } of found.heads) {
          const id = `c${column + 1}`;
          const cell = cells[id];
          if (at === found.header) {
            const remark =
              called.toLowerCase() === head ? {} : { remark: `In the file: ${called}` };
            cells[id] = { ...cell, value: head, role: 'heading', ...remark };
          } else if (cell !== undefined) {
            const quantity = quantities.get(head);
            cells[id] = { ...cell, ...(quantity === undefined ? {} : { quantity }) };
          }
        }
        return { ...row, cells };
      }),
    };
  });
  const sheet = document.sheets[found.sheet];
  const header = sheet?.rows[found.header]?.id;
  const last = sheet?.rows[found.last]?.id;
  if (sheet === undefined || header === undefined || last === undefined) return document;
  return {
    ...document,
    sheets,
    tables: [
      ...document.tables,
      { id: `t${document.tables.length + 1}`, kind: 'parts', sheet: sheet.id, header, last },
    ],
  };
}
