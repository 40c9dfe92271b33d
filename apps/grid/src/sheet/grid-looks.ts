import { columnName, type RowGroup, type SheetView } from '@kerfbook/workbook';
import {
  CellStyleModule,
  ClientSideRowModelApiModule,
  ClientSideRowModelModule,
  type ColDef,
  ColumnApiModule,
  CustomEditorModule,
  colorSchemeVariable,
  createTheme,
  type GridOptions,
  ModuleRegistry,
  PinnedRowModule,
  RenderApiModule,
  RowApiModule,
  ScrollApiModule,
} from 'ag-grid-community';
import { offered } from '../session/offered.ts';
import { columnWidth, NUMBERS_WIDTH, pinnedColumns, USUAL_WIDTH } from '../session/on-screen.ts';
import { CellEditor } from './cell-editor.ts';
import { CellRenderer } from './cell-renderer.ts';
import { columnId } from './context.ts';
import { depthClass, groupsByHead, rowNumber } from './row-number.ts';

ModuleRegistry.registerModules([
  ClientSideRowModelApiModule,
  ClientSideRowModelModule,
  CellStyleModule,
  ColumnApiModule,
  CustomEditorModule,
  PinnedRowModule,
  RenderApiModule,
  RowApiModule,
  ScrollApiModule,
]);

/** A line of the grid: it knows where it is and nothing of what stands in it. */
export interface Line {
  readonly index: number;
}

/** How many rows and columns are offered, and how wide the columns are. */
export interface Size {
  readonly rows: number;
  readonly columns: number;
  /** `null`: as wide as any column. */
  readonly widths: readonly (number | null)[];
  readonly hidden: readonly number[];
  readonly hiddenRows: readonly number[];
  readonly frozenColumns: number;
  readonly frozenRows: number;
  readonly groups: readonly RowGroup[];
}

/** For fingers a row is as high as a fingertip, px. */
const coarse = typeof matchMedia === 'function' && matchMedia('(pointer: coarse)').matches;
export const ROW_HEIGHT = coarse ? 44 : 28;
const HEAD_HEIGHT = coarse ? 44 : 26;

// Of the grid's own parts only the colours: it shows no icon, button or box of its own.
const THEME = createTheme()
  .withPart(colorSchemeVariable)
  .withParams({
    // Its scroll bars as those of the page: by itself it asks for light ones.
    browserColorScheme: 'inherit',
    backgroundColor: 'var(--paper)',
    foregroundColor: 'var(--ink)',
    borderColor: 'var(--rule)',
    headerBackgroundColor: 'var(--paper-sunk)',
    headerTextColor: 'var(--quiet)',
    headerFontWeight: 400,
    fontFamily: 'var(--sans)',
    fontSize: '0.9375rem',
    rowHeight: ROW_HEIGHT,
    headerHeight: HEAD_HEIGHT,
    cellHorizontalPadding: 8,
    wrapperBorder: false,
    wrapperBorderRadius: 0,
    columnBorder: true,
    // Half of the line is outside the cell: within, its room is a fingertip's.
    cellEditingBorder: { style: 'solid', width: 1, color: 'var(--focus)' },
    cellEditingShadow: '0 0 0 1px var(--focus)',
    // A line says what is pinned, and nothing else about it differs.
    pinnedRowFontWeight: 400,
    pinnedRowBackgroundColor: 'var(--paper)',
    pinnedRowTextColor: 'var(--ink)',
    pinnedRowBorder: { style: 'solid', width: 1, color: 'var(--pinned-row-line)' },
    pinnedColumnBorder: { style: 'solid', width: 1, color: 'var(--pinned-column-line)' },
    rowHoverColor: 'transparent',
    selectedRowBackgroundColor: 'transparent',
  });

const ANY_COLUMN: ColDef<Line> = {
  editable: true,
  resizable: true,
  sortable: false,
  suppressHeaderMenuButton: true,
  // The grid's own keys do not behave like a spreadsheet's: ours alone count.
  suppressKeyboardEvent: () => true,
  suppressHeaderKeyboardEvent: () => false,
  cellEditor: CellEditor,
  // The workbook holds the values; the grid is never given any.
  valueGetter: ({ data }) => data?.index,
  valueSetter: () => false,
};

const ROW_NUMBERS: ColDef<Line> = {
  colId: 'row',
  headerName: 'Row',
  headerClass: 'row-heading',
  pinned: 'left',
  lockPosition: true,
  width: NUMBERS_WIDTH,
  resizable: false,
  editable: false,
  suppressNavigable: true,
  cellAriaRole: 'rowheader',
  // Plain text without a renderer, which would make an element more with every row that scrolls in.
  valueGetter: ({ data }) => (data === undefined ? '' : String(data.index + 1)),
};

/** What every sheet's grid is like. */
export const LOOKS: GridOptions<Line> = {
  theme: THEME,
  defaultColDef: ANY_COLUMN,
  getRowId: ({ data }) => String(data.index),
  animateRows: false,
  ensureDomOrder: true,
  suppressColumnMoveAnimation: true,
  suppressMovableColumns: true,
  stopEditingWhenCellsLoseFocus: true,
  suppressClickEdit: true,
};

/** As large as the sheet and somewhat more, to type on; grows by steps, not with every entry. */
export function sizeOf(sheet: SheetView | undefined): Size {
  const { widths = [], hidden = [] } = sheet ?? {};
  const { hiddenRows = [], frozenRows = 0, groups = [] } = sheet ?? {};
  return {
    ...offered(sheet),
    widths: widths.map((width, column) =>
      width === undefined ? null : columnWidth(sheet, column),
    ),
    hidden,
    hiddenRows,
    frozenColumns: pinnedColumns(sheet),
    frozenRows,
    groups,
  };
}

/** Whether two sizes show the same lines and columns. */
export const alike = (a: Size, b: Size): boolean =>
  a.rows === b.rows &&
  a.columns === b.columns &&
  a.widths.length === b.widths.length &&
  a.frozenColumns === b.frozenColumns &&
  a.frozenRows === b.frozenRows &&
  a.hidden.join() === b.hidden.join() &&
  a.hiddenRows.join() === b.hiddenRows.join() &&
  JSON.stringify(a.groups) === JSON.stringify(b.groups) &&
  a.widths.every((width, column) => width === b.widths[column]);

/** Where a row is drawn: its number among those of its section of the grid. */
export interface Drawn {
  readonly index: number;
  /** It stays in view above those that scroll. */
  readonly pinned: 'top' | null;
}

/** Where each row is drawn; a hidden one is not. */
export function drawnRows({ rows, hiddenRows, frozenRows }: Size): ReadonlyMap<number, Drawn> {
  const hidden = new Set(hiddenRows);
  const drawn = new Map<number, Drawn>();
  let [above, below] = [0, 0];
  for (let row = 0; row < rows; row += 1) {
    if (hidden.has(row)) continue;
    if (row < frozenRows) drawn.set(row, { index: above++, pinned: 'top' });
    else drawn.set(row, { index: below++, pinned: null });
  }
  return drawn;
}

/** The lines and columns of a size. */
export function contentOf(
  size: Size,
): Required<Pick<GridOptions<Line>, 'rowData' | 'pinnedTopRowData' | 'columnDefs'>> {
  const { columns, widths, hidden, frozenColumns, hiddenRows } = size;
  const afterHidden = new Set(hiddenRows.map((row) => row + 1));
  const defs = Array.from(
    { length: columns },
    (_, column): ColDef<Line> => ({
      colId: columnId(column),
      headerName: columnName(column),
      cellRenderer: CellRenderer,
      width: widths[column] ?? USUAL_WIDTH,
      hide: hidden.includes(column),
      pinned: column < frozenColumns ? 'left' : null,
      headerClass: hidden.includes(column - 1) ? 'is-after-hidden' : '',
    }),
  );
  const heads = groupsByHead(size.groups);
  const numbers: ColDef<Line> = {
    ...ROW_NUMBERS,
    cellClass: ({ data }) => [
      'row-number',
      ...(data !== undefined && afterHidden.has(data.index) ? ['is-after-hidden'] : []),
      ...(data === undefined ? [] : depthClass(data.index, size.groups)),
    ],
    ...(heads.size === 0
      ? {}
      : {
          cellRenderer: ({ data }: { data: Line }) => rowNumber(data.index, heads.get(data.index)),
        }),
  };
  const lines = [...drawnRows(size)];
  const section = (pinned: Drawn['pinned']): Line[] =>
    lines.filter(([, at]) => at.pinned === pinned).map(([index]) => ({ index }));
  return {
    rowData: section(null),
    pinnedTopRowData: section('top'),
    columnDefs: [numbers, ...defs],
  };
}
