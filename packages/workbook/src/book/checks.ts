import {
  type At,
  type BookState,
  CHECKS_SHEET,
  type CheckDocument,
  filledSentence,
  namesInSentence,
} from '@kerfbook/document';
import type { CellValue, CheckState } from '../api.ts';
import type { Values } from '../port.ts';
import { showWithUnit } from '../quantities/show.ts';
import { readContext } from './context.ts';

interface Sources {
  readonly state: BookState;
  readonly values: Values;
}

/** The state of every check now, in the order of the document. */
export function checkStates(sources: Sources): readonly CheckState[] {
  return sources.state.checks.map((check, row) => checkState(sources, check, row));
}

/**
 * The same after an edit that changed these cells, and the results of the checks in these rows. A
 * check stands as it was when neither its result nor a number in its sentence changed.
 */
export function checkStatesAfter(
  sources: Sources,
  before: readonly CheckState[],
  rows: ReadonlySet<number>,
  cells: readonly At[],
): readonly CheckState[] {
  const touched = placesByKey(cells);
  return sources.state.checks.map((check, row) => {
    const was = before[row];
    if (was?.id !== check.id || rows.has(row)) return checkState(sources, check, row);
    if (was.state === 'pass' || !showsOneOf(sources.state, check, touched)) return was;
    return checkState(sources, check, row);
  });
}

const keyOf = ({ sheet, row, column }: At): string => `${sheet} ${row} ${column}`;

/** Where a long list of changes is not worth sorting: any sentence may show one of them. */
const SORTED = 1_000;

function placesByKey(cells: readonly At[]): ReadonlySet<string> | undefined {
  return cells.length > SORTED ? undefined : new Set(cells.map(keyOf));
}

function showsOneOf(
  state: BookState,
  check: CheckDocument,
  touched: ReadonlySet<string> | undefined,
): boolean {
  if (touched === undefined) return true;
  for (const name of namesInSentence(check.says)) {
    const at = state.named(name);
    if (at !== undefined && touched.has(keyOf(at))) return true;
  }
  return false;
}

function checkState({ state, values }: Sources, check: CheckDocument, row: number): CheckState {
  const about = {
    id: check.id,
    name: check.name,
    ...(check.sheet === undefined ? {} : { sheet: check.sheet }),
  };
  const value = values.value({ sheet: CHECKS_SHEET, row, column: 0 });
  const standing = checkStanding(value, check);
  switch (standing) {
    case 'pass':
      return { ...about, state: standing, says: check.name };
    case 'unknown':
      return { ...about, state: standing, says: `This check cannot tell: ${whyUnknown(value)}` };
    default:
      return { ...about, state: standing, says: sentence({ state, values }, check.says) };
  }
}

/** How a check stands whose formula comes to this. */
export function checkStanding(
  value: CellValue,
  { severity }: Pick<CheckDocument, 'severity'>,
): CheckState['state'] {
  switch (value.kind) {
    case 'logical':
      return value.logical ? 'pass' : severity;
    case 'number':
      return value.number === 0 ? severity : 'pass';
    default:
      return 'unknown';
  }
}

const whyUnknown = (value: CellValue): string =>
  value.kind === 'error' ? value.error.says : 'it is not yes or no.';

/** Puts the named cells into a sentence as they are shown, with their units. */
function sentence({ state, values }: Sources, says: string): string {
  return filledSentence(says, (name) => {
    const at = state.named(name);
    return at === undefined ? undefined : shownAt({ state, values }, at);
  });
}

/** A cell's value as it is shown, with its unit: `1 1/2 in`, `30 %`, `$12.50`. */
function shownAt({ state, values }: Sources, at: At): string {
  return showWithUnit(values.value(at), readContext({ state }, at.sheet, at));
}

/** Ids of checks that changed their state or sentence. */
export function changedChecks(
  before: readonly CheckState[],
  after: readonly CheckState[],
): readonly string[] {
  if (after.length === before.length && after.every((check, i) => check === before[i])) return [];
  const old = new Map(before.map((check) => [check.id, check]));
  return after
    .filter((check) => {
      const was = old.get(check.id);
      return was === undefined || was.state !== check.state || was.says !== check.says;
    })
    .map((check) => check.id);
}
