import { type Complaint, complaint } from '../faults/catalogue.ts';
import type { BookDocument } from '../format/schema.ts';
import { BookState } from '../state/state.ts';
import { applyCells } from './cells.ts';
import { applyHead, insert, order, remove, set } from './lists.ts';
import type { Change } from './types.ts';

/** Why a change, or a part of it, could not be carried out as it is meant. */
export interface Conflict extends Complaint {
  /** What was meant: nothing of it is lost. */
  readonly change: Change;
}

/** What came of one change. */
export interface Outcome {
  readonly state: BookState;
  /** What was carried out; less than the change where something of it was in conflict. */
  readonly changes: readonly Change[];
  /** Takes it back, in this order. */
  readonly inverse: readonly Change[];
  readonly conflicts: readonly Conflict[];
}

/** A change with the states before and after it. */
export interface Step {
  /** What was done, by ids. */
  readonly change: Change;
  /** The workbook it was done to. */
  readonly before: BookState;
  /** The workbook that came of it. */
  readonly after: BookState;
}

export interface Changed {
  readonly state: BookState;
  readonly steps: readonly Step[];
  readonly inverse: readonly Change[];
  readonly conflicts: readonly Conflict[];
}

/**
 * Carries changes out one after the other on a state, which stays as it is (rules H1 to H4). What
 * cannot be carried out is reported and passed over, never thrown.
 */
export function applyChanges(state: BookState, changes: readonly Change[]): Changed {
  const work: Work = { state, steps: [], inverses: [], conflicts: [] };
  const comes = changes.findLastIndex(isNewSheet);
  for (const [at, change] of changes.entries()) carry(work, change, at < comes);
  if (changes.some(mayLeaveLoose)) settle(work);
  return {
    state: work.state,
    steps: work.steps,
    inverse: work.inverses.reverse().flat(),
    conflicts: work.conflicts,
  };
}

interface Work {
  state: BookState;
  readonly steps: Step[];
  readonly inverses: (readonly Change[])[];
  readonly conflicts: Conflict[];
}

/** `sheetComes`: the last sheet may go, since another one comes after it. */
function carry(work: Work, change: Change, sheetComes = false): void {
  const outcome = applyOne(work.state, change, sheetComes);
  const [only] = outcome.changes;
  if (only !== undefined) {
    work.steps.push({ change: only, before: work.state, after: outcome.state });
  }
  work.inverses.push(outcome.inverse);
  work.conflicts.push(...outcome.conflicts);
  work.state = outcome.state;
}

function applyOne(state: BookState, change: Change, sheetComes: boolean): Outcome {
  switch (change.change) {
    case 'cells':
      return applyCells(state, change);
    case 'insert':
      return insert(state, change);
    case 'remove':
      return remove(state, change, sheetComes);
    case 'order':
      return order(state, change);
    case 'set':
      return set(state, change);
    case 'head':
      return applyHead(state, change);
  }
}

const isNewSheet = (change: Change): boolean =>
  change.change === 'insert' && change.list === 'sheets' && change.items.length > 0;

/** Whether tables and checks may name what is not there afterwards. */
const mayLeaveLoose = (change: Change): boolean =>
  change.change !== 'cells' &&
  change.change !== 'head' &&
  (change.change !== 'insert' || change.list === 'tables' || change.list === 'checks');

/** Tables need their rows and checks on a sheet need it: without them they would not open again. */
function settle(work: Work): void {
  for (const table of work.state.tables) {
    const sheet = work.state.sheet(table.sheet);
    const [header, last] = [sheet?.rowIndex(table.header), sheet?.rowIndex(table.last)];
    if (header !== undefined && last !== undefined && header <= last) continue;
    const change: Change = { change: 'remove', list: 'tables', ids: [table.id] };
    carry(work, change);
    work.conflicts.push({ ...complaint('W26', `the table of ${table.kind}`), change });
  }
  for (const { id, name, sheet } of work.state.checks) {
    if (sheet === undefined || work.state.sheet(sheet) !== undefined) continue;
    const change: Change = { change: 'set', list: 'checks', id, set: { sheet: null } };
    carry(work, change);
    work.conflicts.push({ ...complaint('W26', `the sheet of the check "${name}"`), change });
  }
}

/**
 * A document with logs of changes carried out on it, and no engine (rule H3): `inverse` takes all of
 * them back.
 */
export function replay(
  document: BookDocument,
  changes: readonly Change[],
): {
  readonly document: BookDocument;
  readonly inverse: readonly Change[];
  readonly conflicts: readonly Conflict[];
} {
  const { state, inverse, conflicts } = applyChanges(BookState.of(document), changes);
  return { document: state.document(), inverse, conflicts };
}
