import { type Edit, LIMITS } from '@kerfbook/workbook';
import { insertLines, type Line, linesInWords } from '../commands/structure.ts';
import { fitColumns } from '../commands/widths.ts';
import type { Area } from '../session/area.ts';
import type { Session } from '../session/session.ts';
import type { Question } from '../session/types.ts';
import type { Item } from './menu-list.tsx';

/** Putting in and deleting the lines that are selected. */
export function insertItems(session: Session, area: Area, line: Line): readonly Item[] {
  const [before, after] = line === 'row' ? ['above', 'below'] : ['before', 'after'];
  const words = linesInWords(area, line);
  return [
    {
      says: `Insert ${before} ${words}`,
      does: () => insertLines(session, line, 'before'),
    },
    {
      says: `Insert ${after} ${words}`,
      does: () => insertLines(session, line, 'after'),
    },
  ];
}

export function deleteItem(session: Session, area: Area, line: Line): Item {
  return {
    says: `Delete ${linesInWords(area, line)}`,
    does: () => session.ask(line === 'row' ? 'removeRows' : 'removeColumns'),
    removes: true,
  };
}

/** The width of the columns that are selected. */
export function widthItems(session: Session, area: Area): readonly Item[] {
  const { columns = 0 } = session.book.sheet(session.at.sheet) ?? {};
  if (area.left >= columns) return [];
  return [
    { says: 'Fit width', does: () => fitColumns(session, area.left, area.right) },
    { says: 'Width …', does: () => session.ask('width' satisfies Question) },
  ];
}

/** Lines out of sight, and lines that stay while the others scroll. */
export function sightItems(session: Session, area: Area, line: Line): readonly Item[] {
  const { sheet } = session.at;
  const view = session.book.sheet(sheet);
  if (view === undefined) return [];
  const isRow = line === 'row';
  const [first, last] = isRow ? [area.top, area.bottom] : [area.left, area.right];
  const hidden = isRow ? view.hiddenRows : view.hidden;
  const pinned = isRow ? view.frozenRows : view.frozenColumns;
  const hide = (lines: readonly number[], away: boolean): Edit =>
    isRow
      ? { do: 'hideRows', sheet, rows: lines, hidden: away }
      : { do: 'hideColumns', sheet, columns: lines, hidden: away };
  const pin = (count: number): void => {
    session.apply({ do: 'freeze', sheet, ...(isRow ? { rows: count } : { columns: count }) });
  };
  const items: Item[] = [];
  if (last < (isRow ? view.rows : view.columns)) {
    const lines = Array.from({ length: last - first + 1 }, (_, i) => first + i);
    items.push({
      says: `Hide ${linesInWords(area, line)}`,
      does: () => session.apply(hide(lines, true)),
    });
  }
  if (hidden.length > 0) {
    const many = `${hidden.length} hidden ${line}${hidden.length === 1 ? '' : 's'}`;
    items.push({ says: `Show ${many}`, does: () => session.apply(hide(hidden, false)) });
  }
  if (last < LIMITS.frozen && last + 1 !== pinned) {
    const all = isRow
      ? { top: 0, bottom: last, left: 0, right: 0 }
      : { top: 0, bottom: 0, left: 0, right: last };
    items.push({ says: `Pin ${linesInWords(all, line)}`, does: () => pin(last + 1) });
  }
  if (pinned > 0) items.push({ says: `Unpin ${line}s`, does: () => pin(0) });
  return items;
}
