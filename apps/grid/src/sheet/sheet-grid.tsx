import { type At, columnName } from '@kerfbook/workbook';
import {
  type CellFocusedEvent,
  CellStyleModule,
  ClientSideRowModelModule,
  type ColDef,
  ColumnApiModule,
  CustomEditorModule,
  type GridApi,
  ModuleRegistry,
  RenderApiModule,
  RowApiModule,
  ScrollApiModule,
  themeQuartz,
} from 'ag-grid-community';
import { AgGridReact } from 'ag-grid-react';
import { useCallback, useEffect, useMemo, useRef } from 'react';
import type { Session } from '../session.ts';
import { CellEditor } from './cell-editor.ts';
import { CellRenderer } from './cell-renderer.ts';
import { columnId, type GridContext, type Leave, placeOf } from './context.ts';
import { keyAction } from './keys.ts';
import { lastUsed, nextPlace } from './moves.ts';
import './sheet.css';

ModuleRegistry.registerModules([
  ClientSideRowModelModule,
  CellStyleModule,
  ColumnApiModule,
  CustomEditorModule,
  RenderApiModule,
  RowApiModule,
  ScrollApiModule,
]);

const THEME = themeQuartz.withParams({
  backgroundColor: 'var(--paper)',
  foregroundColor: 'var(--ink)',
  borderColor: 'var(--rule)',
  headerBackgroundColor: 'var(--paper-sunk)',
  headerTextColor: 'var(--quiet)',
  headerFontWeight: 400,
  fontFamily: 'var(--sans)',
  fontSize: '0.9375rem',
  rowHeight: 28,
  headerHeight: 26,
  cellHorizontalPadding: 8,
  wrapperBorder: false,
  wrapperBorderRadius: 0,
  columnBorder: true,
  rowHoverColor: 'transparent',
  selectedRowBackgroundColor: 'transparent',
});

/** Empty rows and columns beyond the sheet's edge, to type on. */
const SPARE = { rows: 20, columns: 4, leastRows: 40, leastColumns: 8 };
const MOST = { rows: 10_000, columns: 702 };

interface SheetGridProps {
  readonly session: Session;
  readonly sheet: string;
  /** Rows, columns, sheets or names changed this often. */
  readonly structures: number;
}

interface Line {
  readonly index: number;
}

/** The cells of one sheet. Values come from the workbook; the grid keeps none. */
export function SheetGrid({ session, sheet, structures }: SheetGridProps) {
  const api = useRef<GridApi<Line>>(undefined);
  const home = useRef<HTMLDivElement>(null);
  const view = session.book.sheet(sheet);
  // The open workbook changes within; `structures` says when its shape may have.
  const size = useMemo(() => sizeOf(session, sheet, structures), [session, sheet, structures]);
  const rowData = useMemo(
    () => Array.from({ length: size.rows }, (_, index) => ({ index })),
    [size],
  );
  const columnDefs = useMemo(() => columnsOf(size), [size]);

  const focus = useCallback(
    (at: At) => {
      const grid = api.current;
      if (grid === undefined || at.sheet !== sheet) return;
      grid.ensureIndexVisible(at.row);
      grid.ensureColumnVisible(columnId(at.column));
      grid.setFocusedCell(at.row, columnId(at.column));
    },
    [sheet],
  );

  const moveTo = useCallback(
    (at: At) => {
      session.go(at);
      focus(at);
    },
    [session, focus],
  );

  const leave = useCallback(
    (by: Leave) => {
      api.current?.stopEditing(true);
      moveTo(nextPlace(session, by, size));
    },
    [session, moveTo, size],
  );
  const context = useMemo<GridContext>(() => ({ session, leave }), [session, leave]);

  useEffect(
    () =>
      session.onRepaint((cells) => {
        const grid = api.current;
        if (grid !== undefined) repaint(grid, sheet, cells);
      }),
    [session, sheet],
  );

  // Elsewhere in the app the maker was taken to another cell: the grid follows.
  useEffect(
    () =>
      session.state.watch(() => {
        const grid = api.current;
        const { at, editing } = session.state.value;
        if (grid === undefined || at.sheet !== sheet || editing !== undefined) return;
        const focused = grid.getFocusedCell();
        if (focused?.rowIndex !== at.row || focused.column.getColId() !== columnId(at.column)) {
          focus(at);
        }
      }),
    [session, sheet, focus],
  );

  useEffect(() => {
    if (structures > 0) api.current?.refreshCells({ force: true });
  }, [structures]);

  const edit = useCallback(
    (mode: 'fresh' | 'edit', text?: string) => {
      if (!session.begin(mode, 'cell', text)) return;
      const { at } = session;
      api.current?.startEditingCell({ rowIndex: at.row, colKey: columnId(at.column) });
    },
    [session],
  );

  const onKeyDown = (event: React.KeyboardEvent) => {
    if (session.editing !== undefined) return;
    const action = keyAction(event.nativeEvent);
    if (action === undefined) return;
    if (action.do === 'type') {
      // Without preventDefault the key lands in the editor that just took the focus, whatever an
      // input method makes of it.
      edit('fresh', '');
      return;
    }
    event.preventDefault();
    event.stopPropagation();
    switch (action.do) {
      case 'edit':
        return edit('edit');
      case 'clear':
        return clear(session);
      case 'page':
        return moveTo(pageFrom(session.at, action.by, home.current, size.rows));
      case 'first':
        return moveTo({ ...session.at, column: 0, ...(action.sheet ? { row: 0 } : {}) });
      case 'last':
        return moveTo(lastUsed(session, action.sheet));
      case 'move':
        return moveTo(nextPlace(session, action.by, size));
    }
  };

  const onFocused = useCallback(
    (event: CellFocusedEvent) => {
      const column = event.column;
      const id = column === null || typeof column === 'string' ? column : column.getColId();
      const at = placeOf(sheet, event.rowIndex, id ?? undefined);
      if (at === undefined || session.editing?.from === 'cell') return;
      session.go(at);
    },
    [session, sheet],
  );

  if (view === undefined) return null;
  return (
    <div
      className="sheet-grid"
      ref={home}
      onKeyDownCapture={onKeyDown}
      onMouseDownCapture={(event) => {
        // A click on a row number or a header leaves the current cell where it is.
        if (session.editing?.from === 'line' && inCell(event.target)) session.commit();
        session.moved();
      }}
    >
      <AgGridReact<Line>
        theme={THEME}
        rowData={rowData}
        columnDefs={columnDefs}
        defaultColDef={DEFAULT_COLUMN}
        context={context}
        getRowId={({ data }) => String(data.index)}
        animateRows={false}
        ensureDomOrder
        suppressColumnMoveAnimation
        suppressMovableColumns
        stopEditingWhenCellsLoseFocus
        suppressClickEdit
        onCellDoubleClicked={() => edit('edit')}
        onCellFocused={onFocused}
        onGridReady={({ api: grid }) => {
          api.current = grid;
          grid.setGridAriaProperty('label', `Sheet ${view.name}`);
        }}
        onFirstDataRendered={() => focus(session.at)}
        onColumnResized={({ finished, source, column }) => {
          const at = placeOf(sheet, 0, column?.getColId());
          if (!finished || source !== 'uiColumnResized' || at === undefined) return;
          if (at.column >= (session.book.sheet(sheet)?.columns ?? 0)) return;
          const width = Math.round(column?.getActualWidth() ?? 0);
          session.apply({ do: 'setColumn', sheet, column: at.column, width });
        }}
      />
    </div>
  );
}

const DEFAULT_COLUMN: ColDef<Line> = {
  editable: true,
  resizable: true,
  sortable: false,
  suppressHeaderMenuButton: true,
  // The grid's own keys do not behave like a spreadsheet's: ours alone count.
  suppressKeyboardEvent: () => true,
  suppressHeaderKeyboardEvent: () => false,
  cellRenderer: CellRenderer,
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
  width: 46,
  resizable: false,
  editable: false,
  suppressNavigable: true,
  cellClass: 'row-number',
  cellAriaRole: 'rowheader',
  cellRenderer: ({ node }: { node: { rowIndex: number | null } }) =>
    String((node.rowIndex ?? 0) + 1),
};

interface Size {
  readonly rows: number;
  readonly columns: number;
  readonly widths: readonly (number | undefined)[];
  /** Which state of the workbook this is the size of. */
  readonly structures: number;
}

/** As large as the sheet and somewhat more, to type on. */
function sizeOf(session: Session, sheet: string, structures: number): Size {
  const { rows = 0, columns = 0, widths = [] } = session.book.sheet(sheet) ?? {};
  return {
    rows: Math.min(MOST.rows, Math.max(SPARE.leastRows, rows + SPARE.rows)),
    columns: Math.min(MOST.columns, Math.max(SPARE.leastColumns, columns + SPARE.columns)),
    widths,
    structures,
  };
}

function columnsOf({ columns, widths }: Size): ColDef<Line>[] {
  const defs = Array.from(
    { length: columns },
    (_, column): ColDef<Line> => ({
      colId: columnId(column),
      headerName: columnName(column),
      width: widths[column] ?? 100,
    }),
  );
  return [ROW_NUMBERS, ...defs];
}

/** Paints exactly those of the cells that are on the screen. */
function repaint(grid: GridApi<Line>, sheet: string, cells: readonly At[]): void {
  const rows = new Map<number, string[]>();
  for (const at of cells) {
    if (at.sheet !== sheet) continue;
    const columns = rows.get(at.row);
    if (columns === undefined) rows.set(at.row, [columnId(at.column)]);
    else columns.push(columnId(at.column));
  }
  if (rows.size === 0) return;
  for (const node of grid.getRenderedNodes()) {
    const columns = rows.get(node.rowIndex ?? -1);
    if (columns !== undefined) grid.refreshCells({ rowNodes: [node], columns, force: true });
  }
}

function clear(session: Session): void {
  const { sheet, row, column } = session.at;
  session.apply({ do: 'clear', sheet, cells: [{ row, column }] });
}

function pageFrom(at: At, by: 1 | -1, home: HTMLElement | null, rows: number): At {
  const height = home?.querySelector('.ag-grid-viewport, .ag-body-viewport')?.clientHeight ?? 560;
  const lines = Math.max(1, Math.floor(height / 28) - 2);
  return { ...at, row: Math.max(0, Math.min(rows - 1, at.row + by * lines)) };
}

const inCell = (target: EventTarget): boolean =>
  target instanceof Element && target.closest('.ag-cell') !== null;
