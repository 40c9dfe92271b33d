import {
  type Allow,
  type CellDocument,
  type Edit,
  extentOf,
  type Formula,
  formulaOf,
  LIMITS,
  type Place,
  readTyped,
  refuse,
  type Scalar,
  withFormula,
  withIds,
} from '@kerfbook/document';
import { readContext } from '../book/context.ts';
import { Meanings } from '../meaning/book.ts';
import { quantityBy } from '../meaning/measure.ts';
import { asListed } from '../quantities/allow.ts';
import { type Reading, readEntry } from '../quantities/read.ts';
import { emptied, limitProblem, putCells, type Write } from './cells.ts';
import type { Desk, Refusal } from './desk.ts';
import { grow } from './structure.ts';

interface Typed extends Place {
  readonly reading: Exclude<Reading, { readonly kind: 'formula' }> | Typing;
}

/** A formula as it is typed. */
interface Typing {
  readonly kind: 'typed';
  readonly formula: Formula;
}

/**
 * `enter`: text as a maker types it. What is carried out is the growth of the sheet, where the
 * place or a reference lies beyond it, and the cells that came of reading the text (rule N1).
 */
export function enterCells(desk: Desk, edit: Edit & { do: 'enter' }): Refusal {
  if (desk.state.sheet(edit.sheet) === undefined) return refuse('W1', edit.sheet);
  const typed: Typed[] = [];
  const need = new Extents(desk);
  for (const { row, column, text } of edit.cells) {
    const outside = limitProblem({ row, column });
    if (outside !== undefined) return outside;
    if (text.length > LIMITS.text) return refuse('W13');
    const reading = asFormula(readEntry(text, readContext(desk, edit.sheet, { row, column })));
    typed.push({ row, column, reading });
    if (reading.kind === 'empty') continue;
    need.reach(edit.sheet, row + 1, column + 1);
    if (reading.kind === 'typed') need.reachOf(reading.formula, edit.sheet);
  }
  const tooLarge = need.grow();
  if (tooLarge !== undefined) return tooLarge;
  const { rows = [], columns = [] } = desk.state.sheet(edit.sheet) ?? {};
  const meanings = new Meanings({ state: desk.state });
  const writes = typed
    .filter(({ row, column }) => row < rows.length && column < columns.length)
    .map(({ reading, ...place }) => write(desk, meanings, edit.sheet, place, reading));
  putCells(desk, edit.sheet, writes);
  return undefined;
}

/** A formula is read when it is met, once. */
const asFormula = (reading: Reading): Typed['reading'] =>
  reading.kind === 'formula' ? { kind: 'typed', formula: readTyped(reading.formula) } : reading;

function write(
  desk: Desk,
  meanings: Meanings,
  sheet: string,
  place: Place,
  reading: Typed['reading'],
): Write {
  const old = desk.state.cell({ sheet, ...place });
  if (reading.kind === 'empty') return { ...place, cell: emptied(old) };
  const { value: _v, typed: _t, formula: _f, override: _o, other: _u, ...traits } = old ?? {};
  if (reading.kind === 'typed') {
    const formula = withIds(reading.formula, sheet, desk.state);
    const { quantity: _q, ...others } = traits;
    const quantity = quantityFor(old, formula, meanings, sheet);
    const said = quantity === undefined ? others : { ...others, quantity };
    return { ...place, cell: sameAsBefore(old, withFormula(said, formula)) };
  }
  const held = heldOf(reading, old?.allow);
  if (isCalculated(old)) return { ...place, cell: { ...old, override: held } };
  return { ...place, cell: sameAsBefore(old, { ...suggested(reading), ...traits, ...held }) };
}

/** What a cell holds once an entry is read: of a list of woods, the word that stands in it. */
export function heldOf(
  reading: Extract<Reading, { readonly kind: 'value' | 'unread' }>,
  allow: Allow | undefined,
): { readonly value: Scalar; readonly typed?: string } {
  if (reading.kind === 'unread') return { value: reading.text };
  const value = asListed(reading.value, allow);
  const { typed } = reading;
  return value === reading.value && typed !== undefined ? { value, typed } : { value };
}

/** What a cell is for under a formula: what that says, where nothing else or the formula before it said so (N9). */
function quantityFor(
  old: CellDocument | undefined,
  formula: Formula,
  meanings: Meanings,
  sheet: string,
): CellDocument['quantity'] {
  const { quantity, show } = old ?? {};
  if (show !== undefined) return quantity;
  const said = (one: Formula): CellDocument['quantity'] => quantityBy(meanings.comesTo(one, sheet));
  if (quantity === undefined) return said(formula);
  const before = old && formulaOf(old);
  return before !== undefined && said(before) === quantity ? said(formula) : quantity;
}

/** What is typed once more as it is leaves what a cell held in other units (rule N7). */
function sameAsBefore(old: CellDocument | undefined, cell: CellDocument): CellDocument {
  const isSame =
    old?.formula === cell.formula && old?.value === cell.value && old?.typed === cell.typed;
  return isSame && old?.other !== undefined ? { ...cell, other: old.other } : cell;
}

/** A formula that its author marked as a result keeps its place under what is typed over it. */
export function isCalculated(cell: CellDocument | undefined): cell is CellDocument {
  return cell?.formula !== undefined && cell.role === 'calculated';
}

/** What a unit or a sign in the entry says of a cell that nothing was said of yet. */
function suggested(reading: Typed['reading']): CellDocument {
  if (reading.kind !== 'value') return {};
  return {
    ...(reading.quantity === undefined ? {} : { quantity: reading.quantity }),
    ...(reading.show === undefined ? {} : { show: reading.show }),
  };
}

/** How far sheets must reach so that every cell that is written or referred to exists. */
export class Extents {
  readonly #desk: Desk;
  readonly #need = new Map<string, { rows: number; columns: number }>();

  constructor(desk: Desk) {
    this.#desk = desk;
  }

  reach(sheet: string, rows: number, columns: number): void {
    const known = this.#need.get(sheet);
    this.#need.set(sheet, {
      rows: Math.max(rows, known?.rows ?? 0),
      columns: Math.max(columns, known?.columns ?? 0),
    });
  }

  reachOf(formula: Formula, sheet: string): void {
    for (const [id, { rows, columns }] of extentOf(formula, sheet, this.#desk.state)) {
      if (rows <= LIMITS.rows && columns <= LIMITS.columns) this.reach(id, rows, columns);
    }
  }

  grow(): Refusal {
    for (const [sheet, { rows, columns }] of this.#need) {
      const refused = grow(this.#desk, sheet, rows, columns);
      if (refused !== undefined) return refused;
    }
    return undefined;
  }
}
