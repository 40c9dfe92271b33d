import type { At, BookDocument, CellDocument } from '@kerfbook/document';
import { type CellValue, namesInSentence, Workbook } from '@kerfbook/workbook';
import { cellsOf } from '../tables/stated.ts';
import type { Outcome, Trial, Values } from '../tables/trial.ts';

/** What is never less than nothing, whatever is made. */
const NEVER_BELOW_ZERO: ReadonlySet<string> = new Set([
  'area',
  'boardfeet',
  'count',
  'duration',
  'liquid',
  'mass',
  'money',
  'volume',
]);

/** Whether a check forbids what these inputs make; one that cannot tell forbids nothing. */
export const isStopped = ({ standings }: Outcome): boolean => standings.includes('stop');

/**
 * What is wrong with a workbook whose checks let its inputs pass: errors, parts that overlap, hang loose or
 * cannot be read, sizes that are none, and, where it is planned, pieces that fit no board.
 */
export function faultsOf(trial: Trial, outcome: Outcome, planned: boolean): readonly string[] {
  const { checks } = trial.document;
  const unsure = checks.filter((_, i) => outcome.standings[i] === 'unknown');
  const stated = trial.stated(outcome, planned);
  const isStocked = trial.document.tables.some(({ kind }) => kind === 'stock');
  const sizes = stated.parts
    .filter(({ part, count }) => part !== '' && count > 0)
    .flatMap(({ part, ...row }) =>
      (['thickness', 'width', 'length'] as const).flatMap((side) =>
        row[side] > 0 && Number.isFinite(row[side]) ? [] : [`${part}: ${side} is ${row[side]}`],
      ),
    );
  const below = cellsOf(trial.document).flatMap(({ at, cell }) => belowZero(cell, outcome, at));
  return [
    ...unsure.map(({ name }) => `the check "${name}" can't tell`),
    ...stated.errors.map((says) => `error in ${says}`),
    ...(stated.troubles ?? []),
    ...sizes,
    ...below,
    ...(isStocked ? (stated.leftOut ?? []) : []),
  ];
}

function belowZero(cell: CellDocument, { valueAt }: Outcome, at: At): readonly string[] {
  const { quantity, formula } = cell;
  if (formula === undefined || quantity === undefined || !NEVER_BELOW_ZERO.has(quantity)) return [];
  const value = valueAt(at);
  if (value.kind !== 'number' || value.number >= 0) return [];
  return [`${cell.name ?? `${at.sheet}!${at.row + 1}`} is ${value.number}`];
}

/** Names in a check's sentence that show nothing a maker can read, of the checks that fire. */
export function holesOf(trial: Trial, outcome: Outcome): readonly string[] {
  const named = new Map(
    cellsOf(trial.document).flatMap(({ at, cell }) =>
      cell.name === undefined ? [] : [[cell.name, at] as const],
    ),
  );
  return trial.document.checks.flatMap(({ name, says }, i) => {
    const standing = outcome.standings[i];
    if (standing !== 'stop' && standing !== 'care') return [];
    // A length in braces is said as it is.
    return namesInSentence(says).flatMap((cell) => {
      const at = named.get(cell);
      const value: CellValue = at === undefined ? { kind: 'empty' } : outcome.valueAt(at);
      const isSaid = value.kind === 'number' || (value.kind === 'text' && value.text !== '');
      return isSaid ? [] : [`"${name}" has nothing to say for {${cell}}: ${value.kind}`];
    });
  });
}

/** The template with these inputs. */
export function filledIn(trial: Trial, values: Values): BookDocument {
  const document = structuredClone(trial.document);
  const cells = new Map(cellsOf(document).map(({ at, cell }) => [keyOf(at), cell]));
  trial.drawn.forEach(({ placed: { at } }, i) => {
    const cell = cells.get(keyOf(at));
    const value = values[i] ?? null;
    if (cell === undefined) return;
    delete cell.typed;
    if (value === null) delete cell.value;
    else cell.value = value;
    // A percentage under one is asked about unless it was typed with its sign.
    if (cell.quantity === 'percent' && value !== null) cell.typed = `${value}%`;
  });
  return document;
}

/** The sentences of the checks that fire, by the checks' ids, as a maker reads them. */
export function sentencesOf(trial: Trial, values: Values): ReadonlyMap<string, string> {
  const fires = Workbook.open(filledIn(trial, values))
    .checks()
    .filter(({ state }) => state === 'stop' || state === 'care');
  return new Map(fires.map(({ id, says }) => [id, says]));
}

const keyOf = ({ sheet, row, column }: At): string => `${sheet} ${row} ${column}`;
