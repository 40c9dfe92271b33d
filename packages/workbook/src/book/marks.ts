import { type At, type BookState, type CheckDocument, cellsOfCheck } from '@kerfbook/document';
import type { CheckState } from '../api.ts';

/** What a failing check says at a cell it marks (rule K4). */
export interface Mark {
  readonly state: 'stop' | 'care';
  readonly says: string;
}

interface Area {
  readonly sheet: string;
  readonly top: number;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
  readonly check: number;
}

/** Marked cells that are painted anew one by one, at the most; beyond them all that shows is. */
const MOST_PAINTED = 20_000;

/** Where the checks of a workbook put their signs; made anew when its shape or its checks change. */
export class Marks {
  readonly #areas: readonly Area[];

  constructor(state: BookState) {
    this.#areas = state.checks.flatMap((check, index) => areasOf(state, check, index));
  }

  /** The worst that failing checks say at a cell. */
  at({ sheet, row, column }: At, states: readonly CheckState[]): Mark | undefined {
    let worst: Mark | undefined;
    for (const area of this.#areas) {
      if (area.sheet !== sheet || row < area.top || row > area.bottom) continue;
      if (column < area.left || column > area.right) continue;
      const check = states[area.check];
      if (check?.state !== 'stop' && check?.state !== 'care') continue;
      if (worst?.state !== 'stop' && worst?.state !== check.state) {
        worst = { state: check.state, says: check.says };
      }
    }
    return worst;
  }

  /** The cells that checks with these ids mark; undefined where they are too many to name. */
  cellsOf(ids: readonly string[], states: readonly CheckState[]): At[] | undefined {
    const cells: At[] = [];
    for (const { sheet, top, left, bottom, right, check } of this.#areas) {
      if (!ids.includes(states[check]?.id ?? '')) continue;
      for (let row = top; row <= bottom; row += 1) {
        for (let column = left; column <= right; column += 1) {
          if (cells.length >= MOST_PAINTED) return undefined;
          cells.push({ sheet, row, column });
        }
      }
    }
    return cells;
  }
}

/** The areas that a check marks, in the order of its formula of cells. `check`: what they are kept by. */
export function areasOf(state: BookState, document: CheckDocument, check: number): Area[] {
  const areas: Area[] = [];
  for (const { reference } of cellsOfCheck(document)?.tokens ?? []) {
    if (reference === undefined) continue;
    const { from, to = from } = reference;
    const home = reference.sheet ?? document.sheet ?? '';
    const rows = [from.row, to.row].map((id) => (id ? state.rowIndex(home, id) : undefined));
    const columns = [from.column, to.column].map((id) =>
      id ? state.columnIndex(home, id) : undefined,
    );
    const [top, bottom] = rows;
    const [left, right] = columns;
    if (top !== undefined && bottom !== undefined && left !== undefined && right !== undefined) {
      areas.push({
        sheet: home,
        top: Math.min(top, bottom),
        bottom: Math.max(top, bottom),
        left: Math.min(left, right),
        right: Math.max(left, right),
        check,
      });
    }
  }
  return areas;
}
