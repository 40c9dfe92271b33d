import type { At, OpenWorkbook, Place } from '@kerfbook/workbook';

/** A rectangle of cells, both ends included, counted from 0. */
export interface Area {
  readonly top: number;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
}

/** What is selected beside the current cell, which is the corner the last area was begun at. */
export interface Selection {
  /** The last one is the one that grows. */
  readonly areas: readonly Area[];
  /** The corner opposite the current cell: where Shift and an arrow go on from. */
  readonly lead: Place;
}

export const areaBetween = (a: Place, b: Place): Area => ({
  top: Math.min(a.row, b.row),
  left: Math.min(a.column, b.column),
  bottom: Math.max(a.row, b.row),
  right: Math.max(a.column, b.column),
});

export const areaOf = (place: Place): Area => areaBetween(place, place);

export const holds = ({ top, left, bottom, right }: Area, { row, column }: Place): boolean =>
  row >= top && row <= bottom && column >= left && column <= right;

export const rowsOf = ({ top, bottom }: Area): number => bottom - top + 1;
export const columnsOf = ({ left, right }: Area): number => right - left + 1;
export const cellsOf = (area: Area): number => rowsOf(area) * columnsOf(area);

/** The part of an area that lies on a sheet; undefined where none does. */
export function within(area: Area, rows: number, columns: number): Area | undefined {
  const bottom = Math.min(area.bottom, rows - 1);
  const right = Math.min(area.right, columns - 1);
  return bottom < area.top || right < area.left ? undefined : { ...area, bottom, right };
}

/** Every place of some areas, each once, line by line. */
export function placesOf(areas: readonly Area[]): Place[] {
  const places: Place[] = [];
  const seen = new Set<string>();
  for (const { top, left, bottom, right } of areas) {
    for (let row = top; row <= bottom; row += 1) {
      for (let column = left; column <= right; column += 1) {
        const key = `${row} ${column}`;
        if (areas.length > 1 && seen.has(key)) continue;
        seen.add(key);
        places.push({ row, column });
      }
    }
  }
  return places;
}

const isFilled = (book: OpenWorkbook, sheet: string, { row, column }: Place): boolean =>
  book.value({ sheet, row, column }).kind !== 'empty';

/**
 * Where Ctrl and an arrow go: to the edge of the filled cells, from there across the gap, and at
 * last to the edge of what is offered (G04).
 */
export function jump(
  book: OpenWorkbook,
  from: At,
  by: { readonly rows: number; readonly columns: number },
  size: { readonly rows: number; readonly columns: number },
): Place {
  const filled = (place: Place): boolean => isFilled(book, from.sheet, place);
  const next = ({ row, column }: Place): Place => ({
    row: row + by.rows,
    column: column + by.columns,
  });
  const inside = ({ row, column }: Place): boolean =>
    row >= 0 && column >= 0 && row < size.rows && column < size.columns;
  let place: Place = { row: from.row, column: from.column };
  if (!inside(next(place))) return place;
  const along = filled(place) && filled(next(place));
  place = next(place);
  while (inside(next(place)) && (along ? filled(next(place)) : !filled(place))) place = next(place);
  return place;
}

/** The filled cells that hang together around a cell, corners included (G12). */
export function regionAround(book: OpenWorkbook, at: At): Area {
  const { rows = 0, columns = 0 } = book.sheet(at.sheet) ?? {};
  let area = areaOf(at);
  const filledIn = (edge: Area): boolean => {
    const clipped = within(edge, rows, columns);
    return clipped !== undefined && placesOf([clipped]).some((p) => isFilled(book, at.sheet, p));
  };
  for (let grew = true; grew; ) {
    grew = false;
    const { top, left, bottom, right } = area;
    const [up, start] = [Math.max(0, top - 1), Math.max(0, left - 1)];
    const wide = { left: start, right: right + 1 };
    const tall = { top: up, bottom: bottom + 1 };
    if (top > 0 && filledIn({ ...wide, top: up, bottom: up })) {
      area = { ...area, top: up };
      grew = true;
    }
    if (filledIn({ ...wide, top: bottom + 1, bottom: bottom + 1 })) {
      area = { ...area, bottom: bottom + 1 };
      grew = true;
    }
    if (left > 0 && filledIn({ ...tall, left: start, right: start })) {
      area = { ...area, left: start };
      grew = true;
    }
    if (filledIn({ ...tall, left: right + 1, right: right + 1 })) {
      area = { ...area, right: right + 1 };
      grew = true;
    }
  }
  return area;
}

interface OutOfSight {
  readonly hidden: readonly number[];
  readonly hiddenRows: readonly number[];
}

/** `4 columns by 12 rows selected, 2 rows of them hidden.` */
export function sizeInWords(areas: readonly Area[], sheet?: OutOfSight): string {
  const [area, ...more] = areas;
  if (area === undefined) return '';
  if (more.length > 0) return `${areas.length} areas selected.`;
  const count = (n: number, word: string): string => `${n} ${word}${n === 1 ? '' : 's'}`;
  const { hidden = [], hiddenRows = [] } = sheet ?? {};
  const within = (at: readonly number[], from: number, to: number): number =>
    at.filter((one) => one >= from && one <= to).length;
  const away = [
    [within(hiddenRows, area.top, area.bottom), 'row'] as const,
    [within(hidden, area.left, area.right), 'column'] as const,
  ]
    .filter(([n]) => n > 0)
    .map(([n, word]) => count(n, word));
  const note = away.length === 0 ? '' : `, ${away.join(' and ')} of them hidden`;
  return `${count(columnsOf(area), 'column')} by ${count(rowsOf(area), 'row')} selected${note}.`;
}

/** What was done with how many cells: `Pasted 12 cells.` */
export const didWith = (done: string, cells: number): string =>
  `${done} ${cells.toLocaleString('en-US')} ${cells === 1 ? 'cell' : 'cells'}.`;
