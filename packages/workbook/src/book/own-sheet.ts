import {
  type CellDocument,
  type Edit,
  freeName,
  idOf,
  nameKey,
  type RowDocument,
  type SheetDocument,
} from '@kerfbook/document';
import { OWN_TABLES, OWN_UNITS, type OwnKind, type UnitSystem } from '@kerfbook/wood';
import type { OpenWorkbook } from '../api.ts';
import { shopTableEdit } from './shop-tables.ts';

const ROWS = 40;
const HEADER = 4;

const SAYS: Readonly<Record<Exclude<OwnKind, 'prices'>, string>> = {
  woods:
    'Figures of your own for woods: they win over the published ones. A blank leaves it to those.',
  screws: 'Screws as you measured them: they win over the standard ones.',
  finishes: 'Finishes as they cover in your hands: they win over the usual figures.',
};

/** The edit that adds a sheet with an empty table of a maker's own; undefined where there is one. */
export function ownTableEdit(book: OpenWorkbook, kind: OwnKind): Edit | undefined {
  if (kind === 'prices') return shopTableEdit(book, kind);
  if (book.tables().some((table) => table.kind === kind)) return undefined;
  const { tables } = book.document();
  const id = idOf('t', kind, new Set(tables.map((table) => table.id)));
  const sheet = ownSheet(book, kind);
  return {
    do: 'batch',
    edits: [
      { do: 'addSheet', at: book.sheets().length, sheet },
      {
        do: 'setTables',
        tables: [
          ...tables,
          { id, kind, sheet: sheet.id, header: `r${HEADER}`, last: `r${HEADER + ROWS}` },
        ],
      },
    ],
  };
}

function ownSheet(book: OpenWorkbook, kind: keyof typeof SAYS): SheetDocument {
  const sheets = book.sheets();
  const id = idOf('s', kind, new Set(sheets.map((sheet) => sheet.id)));
  const names = new Set(sheets.map(({ name }) => nameKey(name)));
  const name = freeName(`My ${kind}`, names);
  const columns = OWN_TABLES.find((one) => one.kind === kind)?.columns ?? [];
  const line = (number: number, cells: readonly (CellDocument | undefined)[]): RowDocument => ({
    id: `r${number}`,
    cells: Object.fromEntries(
      cells.flatMap((cell, i) => (cell === undefined ? [] : [[`c${i + 1}`, cell]])),
    ),
  });
  return {
    id,
    name,
    columns: columns.map((_, i) => ({ id: `c${i + 1}`, width: i === 0 ? 220 : 120 })),
    rows: [
      line(1, [{ value: name, role: 'heading' }]),
      line(2, [{ value: SAYS[kind], role: 'note' }]),
      line(
        3,
        columns.map(({ quantity }) =>
          unitCell(OWN_UNITS[quantity][book.units], quantity, book.units),
        ),
      ),
      line(
        HEADER,
        columns.map(({ heads, means }) => ({ value: heads, role: 'heading', remark: means })),
      ),
      ...Array.from({ length: ROWS }, (_, i) =>
        line(
          HEADER + 1 + i,
          columns.map(({ quantity }) => ({ quantity, role: 'input' })),
        ),
      ),
    ],
  };
}

function unitCell(unit: string, quantity: string, units: UnitSystem): CellDocument | undefined {
  // Coverage is typed as the can says it.
  const typed = quantity === 'coverage' ? (units === 'us' ? 'ft²/gal' : 'm²/L') : unit;
  return typed === '' ? undefined : { value: typed, role: 'note' };
}
