import { type CellDocument, carryRead, type Place, shiftedCell } from '@kerfbook/workbook';
import { type Area, columnsOf, holds, placesOf, rowsOf } from '../session/area.ts';
import type { Session } from '../session/session.ts';

/**
 * Goes on with what stands in an area into the larger one around it (G42): numbers with an even step
 * and names that end in a number as a series, formulas as if copied, anything else over again.
 */
export function fill(session: Session, from: Area, to: Area): boolean {
  const { sheet } = session.at;
  const down = to.bottom > from.bottom || to.top < from.top;
  const back = down ? to.top < from.top : to.left < from.left;
  const lines = down ? columnsOf(from) : rowsOf(from);
  const cells: (Place & { cell: CellDocument | null })[] = [];
  for (let line = 0; line < lines; line += 1) {
    const source = placesOf([lineOf(from, down, line)]);
    const target = placesOf([lineOf(to, down, line)]).filter((place) => !holds(from, place));
    if (back) {
      source.reverse();
      target.reverse();
    }
    const next = series(session, source);
    target.forEach((place, k) => {
      const name = session.book.cell({ sheet, ...place }).name;
      const cell = { ...next(k, place), ...(name === undefined ? {} : { name }) };
      cells.push({ ...place, cell: Object.keys(cell).length === 0 ? null : cell });
    });
  }
  const result = session.apply({ do: 'place', sheet, cells });
  if (result.ok) session.select(to, session.at);
  return result.ok;
}

const lineOf = (area: Area, down: boolean, line: number): Area =>
  down
    ? { ...area, left: area.left + line, right: area.left + line }
    : { ...area, top: area.top + line, bottom: area.top + line };

type Next = (k: number, place: Place) => CellDocument;

/** What follows a line of cells. */
function series(session: Session, source: readonly Place[]): Next {
  const { sheet } = session.at;
  const cells = source.map((place) => session.book.copyOf({ sheet, ...place }) ?? {});
  const last = cells.at(-1) ?? {};
  const plain = cells.every(
    ({ formula, override }) => formula === undefined && override === undefined,
  );
  const numbers = plain
    ? cells.flatMap(({ value }) => (typeof value === 'number' ? value : []))
    : [];
  const step = numbers.length === cells.length ? evenStep(numbers, last) : undefined;
  if (step !== undefined)
    return (k) => ({ ...bare(last), value: cut((numbers.at(-1) ?? 0) + step * (k + 1)) });
  const named = plain ? counted(cells) : undefined;
  if (named !== undefined) {
    return (k) => ({ ...bare(last), value: `${named.words}${named.last + named.step * (k + 1)}` });
  }
  return (k, place) => {
    const i = k % cells.length;
    const [cell = {}, from = place] = [cells[i], source[i]];
    return shiftedCell(cell, place.row - from.row, place.column - from.column);
  };
}

/** What is said of a cell, without what it holds. */
function bare({
  value: _v,
  typed: _t,
  formula: _f,
  override: _o,
  ...traits
}: CellDocument): CellDocument {
  return traits;
}

/** The step from number to number; a single day is followed by the next. */
function evenStep(numbers: readonly number[], { quantity }: CellDocument): number | undefined {
  const [first = 0, second] = numbers;
  if (second === undefined) return quantity === 'date' && numbers.length === 1 ? 1 : undefined;
  const step = second - first;
  const size = Math.max(...numbers.map(Math.abs), 1);
  const even = numbers.every((n, i) => Math.abs(n - first - i * step) <= 1e-9 * size);
  return even ? step : undefined;
}

/** Sums of decimal steps without the noise of binary fractions. */
const cut = (n: number): number => Number(n.toPrecision(14));

/** `shelf 1`, `shelf 2`: the words, the last number and the step; undefined for anything else. */
function counted(cells: readonly CellDocument[]) {
  const endings = cells.map(({ value }) => /^(.*?)(\d{1,9})$/s.exec(String(value ?? '')));
  if (cells.some(({ value }) => typeof value !== 'string')) return undefined;
  const words = endings[0]?.[1];
  if (words === undefined || endings.some((ending) => ending?.[1] !== words)) return undefined;
  const numbers = endings.map((ending) => Number(ending?.[2]));
  const step = numbers.length === 1 ? 1 : evenStep(numbers, {});
  return step === undefined ? undefined : { words, last: numbers.at(-1) ?? 0, step };
}

/** Fills the selection from its first row or column; a single one from what is before it (G42). */
export function fillByKey(session: Session, by: 'down' | 'right'): void {
  const [area] = session.areas;
  if (area === undefined) return;
  const alone = by === 'down' ? area.top === area.bottom : area.left === area.right;
  const first = by === 'down' ? area.top - (alone ? 1 : 0) : area.left - (alone ? 1 : 0);
  if (first < 0) return;
  const to = by === 'down' ? { ...area, top: first } : { ...area, left: first };
  const from = by === 'down' ? { ...to, bottom: first } : { ...to, right: first };
  copyDown(session, from, to, area);
}

/** By key the first cell is copied, never counted on: that is what the key is for. */
function copyDown(session: Session, from: Area, to: Area, selected: Area): void {
  const { sheet } = session.at;
  const cells = placesOf([to])
    .filter((place) => !holds(from, place))
    .map((place) => {
      const source = {
        row: Math.min(place.row, from.bottom),
        column: Math.min(place.column, from.right),
      };
      const copied = session.book.copyOf({ sheet, ...source }) ?? {};
      const name = session.book.cell({ sheet, ...place }).name;
      const moved = shiftedCell(copied, place.row - source.row, place.column - source.column);
      const cell = name === undefined ? moved : carryRead(moved, { ...moved, name });
      return { ...place, cell: Object.keys(cell).length === 0 ? null : cell };
    });
  const result = session.apply({ do: 'place', sheet, cells });
  if (result.ok && cells.length > 1) session.select(selected, session.at);
}
