import { type Edit, refuse } from '@kerfbook/document';
import { notePutBack, overLimit } from '../book/over-limit.ts';
import { adoptLoose } from './adopt.ts';
import { clearCells, describeCells, liftCells, setCells } from './cells.ts';
import type { Desk, Done, Outcome } from './desk.ts';
import { enterCells, joined } from './enter.ts';
import { groupRows } from './groups.ts';
import { moveCells } from './move.ts';
import { nameCell, renameName } from './names.ts';
import { placeCells } from './place.ts';
import {
  addSheet,
  freeze,
  hideColumns,
  hideRows,
  moveSheet,
  removeSheet,
  renameSheet,
  setBook,
  setChecks,
  setColumn,
  setTables,
} from './sheets.ts';
import { deleteColumns, deleteRows, insertColumns, insertRows } from './structure.ts';

/** A state taken over whole is the workbook's own to carry out. */
type Carry = {
  readonly [K in Exclude<Edit['do'], 'become'>]: (desk: Desk, edit: Edit & { do: K }) => Outcome;
};

const CARRY: Carry = {
  enter: enterCells,
  clear: clearCells,
  setCells,
  place: placeCells,
  moveCells,
  lift: liftCells,
  describeCells,
  nameCell,
  renameName,
  insertRows,
  deleteRows,
  insertColumns,
  deleteColumns,
  setColumn,
  freeze,
  hideColumns,
  hideRows,
  groupRows,
  addSheet,
  removeSheet,
  renameSheet,
  moveSheet,
  setChecks,
  setTables,
  setBook,
  several,
};

/**
 * An edit as a whole, with all that comes of it (rule F7), held against what can be opened again: what
 * would be too much then is refused (rule L1). What comes `again` was there before, and fits.
 */
export function applyWhole(desk: Desk, edit: Edit, again?: 'again'): Outcome {
  const outcome = withAdopted(desk, applyEdit(desk, edit));
  if (!outcome.ok) return outcome;
  if (again === undefined) return overLimit(desk.state, outcome) ?? outcome;
  notePutBack(desk.state, outcome.edit);
  return outcome;
}

function withAdopted(desk: Desk, outcome: Outcome): Outcome {
  if (!outcome.ok) return outcome;
  const [last, ...others] = adoptLoose(desk, outcome.edit).reverse();
  return last === undefined ? outcome : joined([outcome, ...others.reverse()], last);
}

/**
 * Carries an edit out whole, or refuses it with a sentence. What was done before it was refused is
 * taken back by the workbook (rule E1).
 */
function applyEdit(desk: Desk, edit: Edit): Outcome {
  if (!Object.hasOwn(CARRY, edit.do)) return refuse('W14', String(edit.do));
  const carry = CARRY[edit.do as keyof Carry] as (desk: Desk, edit: Edit) => Outcome;
  return carry(desk, edit);
}

function several(desk: Desk, edit: Edit & { do: 'several' }): Outcome {
  const done: Done[] = [];
  for (const one of edit.edits) {
    const outcome = applyEdit(desk, one);
    if (outcome.ok) {
      done.push(outcome);
      continue;
    }
    return outcome;
  }
  return {
    ok: true,
    edit: { do: 'several', edits: done.map((one) => one.edit) },
    inverse: { do: 'several', edits: done.map((one) => one.inverse).reverse() },
  };
}
