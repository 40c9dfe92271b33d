import { notePutBack, overLimit } from '../book/over-limit.ts';
import { refuse } from '../faults/catalogue.ts';
import { clearCells, describeCells, liftCells, setCells } from './cells.ts';
import type { Desk, Done, Outcome } from './desk.ts';
import { enterCells } from './enter.ts';
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
import type { Edit } from './types.ts';

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

/** Carries an edit out whole, or refuses it whole with a sentence (rule E1). */
function applyEdit(desk: Desk, edit: Edit): Outcome {
  if (!Object.hasOwn(CARRY, edit.do)) return refuse('W14', String(edit.do));
  const carry = CARRY[edit.do as keyof Carry] as (desk: Desk, edit: Edit) => Outcome;
  return carry(desk, edit);
}

/** The same, held against what can be opened again: what would be too much then is refused (rule L1). */
export function applyWithinLimits(desk: Desk, edit: Edit): Outcome {
  const outcome = applyEdit(desk, edit);
  const over = outcome.ok ? overLimit(desk.state, outcome) : undefined;
  if (!outcome.ok || over === undefined) return outcome;
  undoNow(desk, outcome.inverse);
  notePutBack(desk.state, outcome.inverse);
  return over;
}

/** The same of what was there before: it fits. */
export function applyAgain(desk: Desk, edit: Edit): Outcome {
  const outcome = applyEdit(desk, edit);
  if (outcome.ok) notePutBack(desk.state, outcome.edit);
  return outcome;
}

function several(desk: Desk, edit: Edit & { do: 'several' }): Outcome {
  const done: Done[] = [];
  for (const one of edit.edits) {
    const outcome = applyEdit(desk, one);
    if (outcome.ok) {
      done.push(outcome);
      continue;
    }
    for (const past of done.reverse()) undoNow(desk, past.inverse);
    return outcome;
  }
  return {
    ok: true,
    edit: { do: 'several', edits: done.map((one) => one.edit) },
    inverse: { do: 'several', edits: done.map((one) => one.inverse).reverse() },
  };
}

/** An inverse that is refused would leave half an edit behind: that is a broken promise of ours. */
function undoNow(desk: Desk, inverse: Edit): void {
  const outcome = applyEdit(desk, inverse);
  if (!outcome.ok) throw new Error(`an edit could not be taken back: ${outcome.says}`);
}
