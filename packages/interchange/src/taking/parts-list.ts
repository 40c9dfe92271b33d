import type { BookDocument, CellDocument } from '@kerfbook/document';
import { columnName } from '@kerfbook/document';
import type { UnitSystem } from '@kerfbook/wood';
import { readEntry, SHOP_COLUMNS } from '@kerfbook/workbook';
import type { RowTexts } from '@kerfbook/workbook/from-text';
import type { CellIn, SheetIn } from './coming-in.ts';
import { shownOf, woodsIn } from './glance.ts';
import { linesOfParts } from './parts-lines.ts';
import type { KnownUnit } from './units-in.ts';

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
  /** The first of its rows: what stands under each head. */
  readonly first: readonly (readonly string[])[];
  /** How many parts it lists. */
  readonly count: number;
  /** Woods that it names, each once. */
  readonly woods: readonly string[];
  /** It was read line by line: its rows come into a parts table beside it. */
  readonly rows?: readonly RowTexts[];
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
/** What a drawing and a plan ask for beside sizes: heads for it are added where the list has none. */
const ADDED = ['material', 'boards', 'place'] as const;
/** Rows that are shown before any is taken. */
const SHOWN = 4;

const plain = (text: string): string =>
  text
    .trim()
    .toLowerCase()
    .replace(/\s*[([][^)\]]*[)\]]\s*$/, '')
    .replaceAll(/\s+/g, ' ');

const quantityOf = new Map(SHOP_COLUMNS.parts.map(({ heads, quantity }) => [heads, quantity]));

/**
 * Lists of parts in a file: a row of heads that say so, with rows under it until one is blank; where a sheet has none,
 * lines that can be read as parts. One whose sizes stayed in another unit than the workbook's is none.
 * @param bare cells whose numbers are in another unit, by `sheet row column`
 */
export function foundParts(
  sheets: readonly SheetIn[],
  units: UnitSystem,
  bare: ReadonlyMap<string, KnownUnit> = new Map(),
): readonly FoundTable[] {
  return sheets.flatMap((sheet, index) => {
    const found = underHeads(sheet, index).filter(({ heads, header, last }) =>
      heads.every(({ head, column }) => {
        if (quantityOf.get(head) !== 'length') return true;
        for (let row = header + 1; row <= last; row += 1) {
          if (bare.has(`${index} ${row} ${column}`)) return false;
        }
        return true;
      }),
    );
    if (found.length > 0) return found;
    const lines = linesOfParts(sheet, index, units);
    return lines === undefined ? [] : [lines];
  });
}

function underHeads(sheet: SheetIn, index: number): readonly FoundTable[] {
  const rows = new Map<number, Map<number, CellIn>>();
  for (const cell of sheet.cells) {
    if (cell.value === undefined && cell.formula === undefined) continue;
    const line = rows.get(cell.row) ?? new Map<number, CellIn>();
    line.set(cell.column, cell);
    rows.set(cell.row, line);
  }
  const found: FoundTable[] = [];
  let below = -1;
  for (const [row, line] of [...rows].sort((a, b) => a[0] - b[0])) {
    if (row <= below) continue;
    const heads = headsOf(line);
    if (heads === undefined) continue;
    let last = row;
    while (rows.has(last + 1)) last += 1;
    below = last;
    const isPart = (at: number): boolean =>
      NEEDED.every((head) => {
        const column = heads.find((one) => one.head === head)?.column ?? -1;
        return rows.get(at)?.get(column) !== undefined;
      });
    // A sum under the list is no part.
    while (last > row && !isPart(last)) last -= 1;
    if (last === row) continue;
    const parts = Array.from({ length: last - row }, (_, i) => row + 1 + i).filter(isPart);
    const list = heads.map(({ called, column }) => `${called} (${columnName(column)})`).join(', ');
    found.push({
      sheet: index,
      header: row,
      last,
      heads,
      first: parts
        .slice(0, SHOWN)
        .map((at) => heads.map(({ column }) => shownOf(rows.get(at)?.get(column)))),
      count: parts.length,
      woods: woodsIn(
        parts.map((at) =>
          shownOf(rows.get(at)?.get(heads.find(({ head }) => head === 'material')?.column ?? -1)),
        ),
      ),
      says: `Rows ${row + 2} to ${last + 1} of ${sheet.name} look like a list of parts: ${list}.`,
    });
  }
  return found;
}

function headsOf(line: ReadonlyMap<number, CellIn>): FoundTable['heads'] | undefined {
  const found = new Map<string, { head: string; column: number; called: string }>();
  for (const [column, { value }] of [...line].sort((a, b) => a[0] - b[0])) {
    if (value?.kind !== 'text') continue;
    const head = CALLED.get(plain(value.text));
    if (head !== undefined && !found.has(head))
      found.set(head, { head, column, called: value.text.trim() });
  }
  const isList =
    NEEDED.every((head) => found.has(head)) && (found.has('count') || found.has('thickness'));
  return isList ? [...found.values()] : undefined;
}

/**
 * The workbook with a list that was found as its parts table: heads as the drawing reads them, what they were called
 * in their remarks, what stands under them as what it is, and heads for what the list does not say. One that was read
 * line by line stays as it is.
 */
export function partsTable(document: BookDocument, found: FoundTable): BookDocument {
  if (found.rows !== undefined) return document;
  const { units = 'us', currency = 'USD' } = document;
  const added = ADDED.filter((head) => !found.heads.some((one) => one.head === head));
  const sheets = document.sheets.map((sheet, index) => {
    if (index !== found.sheet) return sheet;
    const more = added.map((head, i) => {
      const { means = '', width = 90 } =
        SHOP_COLUMNS.parts.find(({ heads }) => heads === head) ?? {};
      return { head, id: `c${sheet.columns.length + 1 + i}`, means, width };
    });
    return {
      ...sheet,
      columns: [...sheet.columns, ...more.map(({ id, width }) => ({ id, width }))],
      rows: sheet.rows.map((row, at) => {
        if (at < found.header || at > found.last) return row;
        const isHead = at === found.header;
        const cells: Record<string, CellDocument> = { ...row.cells };
        for (const { head, column, called } of found.heads) {
          const id = `c${column + 1}`;
          const cell = cells[id];
          if (isHead) {
            const remark =
              called.toLowerCase() === head ? {} : { remark: `In the file: ${called}` };
            cells[id] = { ...cell, value: head, role: 'heading', ...remark };
          } else if (cell !== undefined) {
            cells[id] = asItIs(cell, head, { system: units, currency });
          }
        }
        for (const { head, id, means } of more) {
          const quantity = quantityOf.get(head);
          cells[id] = isHead
            ? { value: head, role: 'heading', remark: means }
            : { role: 'input', ...(quantity === undefined ? {} : { quantity }) };
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

/** A cell under a head: what it is, and a size that was written in words (`28-1/2"`) as the size. */
function asItIs(
  cell: CellDocument,
  head: string,
  context: { readonly system: UnitSystem; readonly currency: string },
): CellDocument {
  const quantity = quantityOf.get(head);
  if (quantity === undefined) return cell;
  const { value, formula } = cell;
  if (quantity === 'text' || formula !== undefined || typeof value !== 'string') {
    return { ...cell, quantity };
  }
  const read = readEntry(value, { quantity, ...context });
  if (read.kind !== 'value' || typeof read.value !== 'number') return { ...cell, quantity };
  const typed = read.typed === undefined ? {} : { typed: read.typed };
  return { ...cell, value: read.value, ...typed, quantity };
}
