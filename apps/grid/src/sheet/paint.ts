import type { At } from '@kerfbook/workbook';
import type { GridApi, IRowNode } from 'ag-grid-community';
import { columnId } from './context.ts';
import type { Line } from './grid-looks.ts';

/** Paints exactly those of some cells that are on the screen. */
export function paintCells(grid: GridApi<Line>, sheet: string, cells: readonly At[]): void {
  const rows = new Map<number, string[]>();
  for (const at of cells) {
    if (at.sheet !== sheet) continue;
    const columns = rows.get(at.row);
    if (columns === undefined) rows.set(at.row, [columnId(at.column)]);
    else columns.push(columnId(at.column));
  }
  if (rows.size === 0) return;
  for (const node of drawnNodes(grid)) {
    const columns = rows.get(node.data?.index ?? -1);
    if (columns !== undefined) grid.refreshCells({ rowNodes: [node], columns, force: true });
  }
}

function drawnNodes(grid: GridApi<Line>): readonly IRowNode<Line>[] {
  const above = Array.from({ length: grid.getPinnedTopRowCount() }, (_, i) =>
    grid.getPinnedTopRow(i),
  ).filter((node) => node !== undefined);
  return [...above, ...grid.getRenderedNodes()];
}
