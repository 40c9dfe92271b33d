import type { At, Scalar } from '@kerfbook/document';
import { isBlank, knownTable, type PartProblem } from '@kerfbook/drawing';
import type { CellView } from '@kerfbook/workbook';
import { type Asker, type Given, type Outcome, outcomes, type Waiting } from './ask.ts';
import { StudyFault } from './fault.ts';
import { inputCell, type StudyBook, scalarIn, takes } from './inputs.ts';

/** What a variant has in one input. */
export interface VariantInput {
  /** The input. */
  readonly cell: CellView;
  /** In the workbook's own units. */
  readonly value: Scalar;
}

/** A set of changes under a name. */
export interface Variant {
  /** Id of its row, which stays when it is renamed or moved. */
  readonly id: string;
  /** What its maker calls it. */
  readonly name: string;
  /** Where its name stands. */
  readonly at: At;
  /** What it changes. */
  readonly inputs: readonly VariantInput[];
}

/** The variants of a workbook, and what is wrong with their table. */
export interface Variants {
  /** In the order of the table. */
  readonly variants: readonly Variant[];
  /** Each at the cell to look at. */
  readonly problems: readonly PartProblem[];
}

/** Reads the table of variants; empty where a workbook has none. */
export function readVariants(book: StudyBook): Variants {
  const table = knownTable(book, 'variants');
  if (table === undefined) return { variants: [], problems: [] };
  const { sheet, first, end, columns } = table;
  const problems: PartProblem[] = [...table.problems];
  const names = columns.get('variant') ?? 0;
  const inputs = headsOf(book, { sheet, row: first - 1, column: names }, problems);
  const variants: Variant[] = [];
  for (let row = first; row < end; row += 1) {
    const at = { sheet, row, column: names };
    const isNamed = !isBlank(book.value(at));
    const before = problems.length;
    const has = inputs.flatMap(({ column, cell }) =>
      inputOf(book, cell, { sheet, row, column }, problems),
    );
    // With one of its changes left out it would be another variant than the one it is called.
    const isWhole = problems.length === before;
    if (!isNamed && has.length > 0) {
      problems.push({ at, says: 'This variant has no name. Give it one.' });
    }
    if (!isNamed || !isWhole) continue;
    variants.push({
      id: book.idsAt(at)?.row ?? String(row),
      name: book.cell(at).shown.text.trim(),
      at,
      inputs: has,
    });
  }
  return { variants, problems };
}

interface Head {
  readonly column: number;
  readonly cell: CellView;
}

function headsOf(book: StudyBook, at: At, problems: PartProblem[]): readonly Head[] {
  const wide = book.sheet(at.sheet)?.columns ?? 0;
  const heads: Head[] = [];
  for (let column = 0; column < wide; column += 1) {
    const head = { ...at, column };
    const value = book.value(head);
    if (column === at.column || value.kind !== 'text' || value.text.trim() === '') continue;
    try {
      heads.push({ column, cell: inputCell(book, value.text.trim()) });
    } catch (error) {
      if (!(error instanceof StudyFault)) throw error;
      problems.push({ at: head, says: error.message });
    }
  }
  return heads;
}

function inputOf(
  book: StudyBook,
  cell: CellView,
  at: At,
  problems: PartProblem[],
): readonly VariantInput[] {
  const held = book.value(at);
  try {
    switch (held.kind) {
      case 'empty':
        return [];
      case 'number':
        takes(book, cell, held.number);
        return [{ cell, value: held.number }];
      case 'logical':
        takes(book, cell, held.logical);
        return [{ cell, value: held.logical }];
      case 'text': {
        if (held.text.trim() === '') return [];
        const value = scalarIn(book, cell, held.text);
        takes(book, cell, value);
        return [{ cell, value }];
      }
      case 'error':
        throw new StudyFault(held.error.says);
    }
  } catch (error) {
    if (!(error instanceof StudyFault)) throw error;
    problems.push({ at, says: error.message });
    return [];
  }
}

/** What every variant comes to, the workbook as it stands first. */
export interface VariantRun {
  /** Inputs that at least one variant changes. */
  readonly inputs: readonly CellView[];
  /** What is compared, in its order. */
  readonly results: readonly CellView[];
  /** As it stands, then the variants in their order; fewer where it was stopped. */
  readonly outcomes: readonly Outcome[];
}

/** Works every variant out beside the workbook as it stands. */
export async function runVariants(
  book: StudyBook,
  asker: Asker,
  variants: readonly Variant[],
  results: readonly CellView[],
  waiting: Waiting = {},
): Promise<VariantRun> {
  const inputs = [
    ...new Map(
      variants.flatMap((one) => one.inputs).map(({ cell }) => [placeKey(cell.at), cell] as const),
    ).values(),
  ];
  const sets: readonly Given[] = [undefined, ...variants].map((variant) =>
    inputs.map((cell) => {
      const own = variant?.inputs.find((one) => placeKey(one.cell.at) === placeKey(cell.at));
      return own === undefined ? heldIn(cell) : own.value;
    }),
  );
  const all = await outcomes(book, asker, { inputs, results, sets }, waiting);
  return { inputs, results, outcomes: all.filter((one) => one !== undefined) };
}

const placeKey = ({ sheet, row, column }: At): string => `${sheet} ${row} ${column}`;

/** What an input holds, as a set gives it. */
export function heldIn({ value }: CellView): Scalar | null {
  switch (value.kind) {
    case 'number':
      return value.number;
    case 'text':
      return value.text;
    case 'logical':
      return value.logical;
    default:
      return null;
  }
}
