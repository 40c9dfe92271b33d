import { type CheckDocument, LIMITS } from '@kerfbook/document';
import { CHECK_HEADS } from '../flat/checks-sheet.ts';
import { hasCheckHeads } from './added-sheets.ts';
import type { SheetIn, ToldIn } from './coming-in.ts';
import type { FormulaIn } from './formula-in.ts';

/** A check of a file of ours, and whether the file says that it holds. */
export interface CheckIn {
  readonly check: CheckDocument;
  /** Undefined where it could not be told. */
  readonly holds: boolean | undefined;
}

/** What is asked about the rest of the file. */
export interface CheckContext {
  /** A formula as it is read here. */
  formula(text: string, sheet: number): FormulaIn;
  /** The sheet of the workbook that the file calls so. */
  sheetCalled(name: string): { readonly id: string; readonly index: number } | undefined;
}

const LONGEST_NAME = 200;

/**
 * The checks of a file of ours: rows of the sheet that its checks stand on. Anybody may have written into it since;
 * what is no check is told and left out.
 */
export function checksIn(
  sheets: readonly SheetIn[],
  context: CheckContext,
  told: ToldIn[],
): readonly CheckIn[] {
  const sheet = sheets.find(hasCheckHeads);
  if (sheet === undefined) return [];
  const rows = new Map<number, Map<number, SheetIn['cells'][number]>>();
  for (const cell of sheet.cells) {
    if (cell.row === 0) continue;
    const row = rows.get(cell.row) ?? new Map<number, SheetIn['cells'][number]>();
    rows.set(cell.row, row.set(cell.column, cell));
  }
  const found: CheckIn[] = [];
  for (const [, row] of [...rows].sort((a, b) => a[0] - b[0])) {
    const text = (head: (typeof CHECK_HEADS)[number]): string => {
      const value = row.get(CHECK_HEADS.indexOf(head))?.value;
      return value?.kind === 'text' ? value.text.trim() : '';
    };
    const name = text('Check');
    if (name === '') continue;
    const made = found.length < LIMITS.checks ? checkOf(text, found.length, context) : undefined;
    if (made === undefined || typeof made === 'string') {
      told.push({
        kind: 'check',
        of: `Check "${name.slice(0, LONGEST_NAME)}"`,
        says: `${made ?? `A workbook has ${LIMITS.checks} checks at most.`} It is left out.`,
      });
      continue;
    }
    const held = row.get(CHECK_HEADS.indexOf('Holds'))?.value;
    const holds =
      held?.kind === 'logical'
        ? held.logical
        : held?.kind === 'number'
          ? held.number !== 0
          : undefined;
    found.push({ check: made, holds });
  }
  return found;
}

/** The check that a row says, or why it says none. */
function checkOf(
  text: (head: (typeof CHECK_HEADS)[number]) => string,
  number: number,
  context: CheckContext,
): CheckDocument | string {
  const severity = SEVERITIES.find((one) => one === text('How bad'));
  const says = text('Its sentence');
  const home = context.sheetCalled(text('Its sheet'));
  if (severity === undefined) return 'It does not say whether it is a warning or a problem.';
  if (says === '' || says.length > LIMITS.text) return 'It has no sentence to say.';
  const formula = formulaOf(text('What must hold'), 0, context);
  if (formula === undefined) return 'What must hold cannot be read as a formula.';
  const cells = formulaOf(text('Its cells'), home?.index ?? 0, context);
  return {
    id: `k${number + 1}`,
    name: text('Check').slice(0, LONGEST_NAME),
    ...(home === undefined ? {} : { sheet: home.id }),
    formula,
    severity,
    says,
    ...(cells === undefined || home === undefined ? {} : { cells }),
  };
}

const SEVERITIES = ['stop', 'care'] as const;

function formulaOf(text: string, sheet: number, context: CheckContext): string | undefined {
  if (!text.startsWith('=')) return undefined;
  const read = context.formula(text.slice(1), sheet);
  return read.ok ? read.a1 : undefined;
}
