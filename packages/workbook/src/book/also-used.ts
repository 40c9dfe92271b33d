import { type At, type BookState, CHECKS_SHEET, namesInSentence } from '@kerfbook/document';
import type { Values } from '../port.ts';
import { tableViews } from './look.ts';

interface Sources {
  readonly state: BookState;
  readonly values: Values;
}

const TABLES: Readonly<Record<string, string>> = {
  parts: 'the parts table',
  stock: 'the stock table',
  joints: 'the joints table',
  steps: 'the steps table',
  words: 'the table of a second language',
};

/**
 * What uses a cell beside the formulas of other cells, as a sentence names it: checks by their formula
 * or their sentence, steps whose texts show it, a table that the cell lies in, the cutting plan for the kerf and what is trimmed off boards (rule X1).
 */
export function alsoUsing({ state, values }: Sources, at: At): readonly string[] {
  const same = (other: At | undefined): boolean =>
    other?.sheet === at.sheet && other.row === at.row && other.column === at.column;
  const rows = new Set(
    values
      .dependents(at)
      .filter(({ sheet }) => sheet === CHECKS_SHEET)
      .map(({ row }) => row),
  );
  const checks = state.checks
    .filter(
      ({ says }, row) =>
        rows.has(row) || namesInSentence(says).some((name) => same(state.named(name))),
    )
    .map(({ name }) => `the check "${name}"`);
  const all = tableViews(state);
  const tables = all
    .filter(({ sheet, header, last }) => sheet === at.sheet && at.row >= header && at.row <= last)
    .map(({ kind }) => TABLES[kind] ?? `your table of ${kind}`);
  const plans =
    all.some(({ kind }) => kind === 'stock') &&
    ['kerf', 'end_trim'].some((name) => same(state.named(name)));
  const steps = stepsShowing(state, same);
  return [...checks, ...steps, ...tables, ...(plans ? ['the cutting plan'] : [])];
}

/** Rows of a steps table in which a cell is shown by its name, as a sentence names them. */
function stepsShowing(state: BookState, same: (other: At | undefined) => boolean): string[] {
  return tableViews(state).flatMap(({ kind, sheet, header, last }) => {
    if (kind !== 'steps') return [];
    const columns = state.sheet(sheet)?.columns.length ?? 0;
    return Array.from({ length: last - header }, (_, i) => header + 1 + i).flatMap((row) => {
      const texts = Array.from(
        { length: columns },
        (_, column) => state.cell({ sheet, row, column })?.value,
      ).filter((value) => typeof value === 'string');
      const shows = texts.some((text) =>
        namesInSentence(text).some((name) => same(state.named(name))),
      );
      return shows ? [`the step "${texts[0] ?? ''}"`] : [];
    });
  });
}
