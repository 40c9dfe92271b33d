import {
  type BookState,
  type Change,
  type Edit,
  type MakeId,
  readChanges,
  refuse,
} from '@kerfbook/document';
import { notePutBack, overLimit } from '../book/over-limit.ts';
import { adoptLoose } from './adopt.ts';
import { becomeBook } from './become.ts';
import { clearCells, describeCells, restoreFormulas, setCells } from './cells.ts';
import { Plan, type Planning, type Refusal } from './desk.ts';
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
  hideSheet,
  moveSheet,
  removeSheet,
  renameSheet,
  setBook,
  setChecks,
  setColumn,
  setTables,
} from './sheets.ts';
import { deleteColumns, deleteRows, insertColumns, insertRows } from './structure.ts';
import { changeUnits } from './units.ts';

type Planners = {
  readonly [K in Edit['do']]: (desk: Plan, edit: Edit & { do: K }) => Refusal;
};

const PLANNERS: Planners = {
  enter: enterCells,
  clear: clearCells,
  setCells,
  place: placeCells,
  moveCells,
  restore: restoreFormulas,
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
  hideSheet,
  setChecks,
  setTables,
  setBook,
  changeUnits,
  become: becomeBook,
  change: takeChanges,
  batch,
};

export type Planned = { readonly ok: true; readonly plan: Planning } | (Refusal & object);

/**
 * Plans an edit as a whole, with all that comes of it (rule F7), held against what can be opened again:
 * what would be too much then is refused (rule L1). What comes `again` was there before, and fits.
 * The state it is planned on stays as it is, and no engine is asked.
 */
export function planEdit(state: BookState, edit: Edit, makeId: MakeId, again?: 'again'): Planned {
  const plan = new Plan(state, makeId);
  const refused = planOne(plan, edit);
  if (refused !== undefined) return refused;
  adoptLoose(plan);
  if (again === undefined) {
    const over = overLimit(state, plan.state, plan.changes);
    if (over !== undefined) return over;
  } else notePutBack(state, plan.state, plan.changes);
  return { ok: true, plan };
}

/** Plans what was done or undone before: it fits the state that it is for, which is checked no more. */
export function planAgain(state: BookState, changes: readonly Change[], makeId: MakeId): Planned {
  const plan = new Plan(state, makeId);
  plan.change(...changes);
  notePutBack(state, plan.state, plan.changes);
  return { ok: true, plan };
}

/**
 * Plans an edit, or none, in the place of the last one, which `inverse` takes back to the state of before it.
 * What comes of it is what would have come of the edit alone; the engine is told of both ways at once.
 */
export function planInstead(
  state: BookState,
  inverse: readonly Change[],
  before: BookState,
  edit: Edit | undefined,
  makeId: MakeId,
): Planned {
  const back = new Plan(state, makeId);
  back.change(...inverse);
  if (edit === undefined) {
    const { steps, changes } = back;
    return { ok: true, plan: { state: before, steps, changes, inverse: back.inverse } };
  }
  const planned = planEdit(before, edit, makeId);
  if (!planned.ok) return planned;
  const { state: after, steps, changes, inverse: takesBack } = planned.plan;
  const plan = { state: after, steps: [...back.steps, ...steps], changes, inverse: takesBack };
  return { ok: true, plan };
}

function planOne(plan: Plan, edit: Edit): Refusal {
  if (!Object.hasOwn(PLANNERS, edit.do)) return refuse('W14', String(edit.do));
  const planner = PLANNERS[edit.do] as (plan: Plan, edit: Edit) => Refusal;
  return planner(plan, edit);
}

function batch(plan: Plan, { edits }: Edit & { do: 'batch' }): Refusal {
  for (const one of edits) {
    const refused = one.do === 'become' ? refuse('W14', one.do) : planOne(plan, one);
    if (refused !== undefined) return refused;
  }
  return undefined;
}

/** `change`: what another edit came to, from a log. It is refused whole where part of it does not fit. */
function takeChanges(plan: Plan, { changes }: Edit & { do: 'change' }): Refusal {
  const read = readChanges(changes);
  if (!('changes' in read)) return refuse('W12', read.where, read.why);
  const [conflict] = plan.take(read.changes);
  return conflict === undefined ? undefined : refusedFor(conflict);
}

const refusedFor = ({ code, says }: { code: string; says: string }): Refusal & object => ({
  ok: false,
  code,
  says,
});
