import { knownTable, type PartProblem, TableRow } from '@kerfbook/drawing';
import type { CellView } from '@kerfbook/workbook';
import { type Aim, aimsOf } from './best.ts';
import { StudyFault } from './fault.ts';
import {
  type Axis,
  axisOf,
  clausesOf,
  knownCell,
  type Span,
  type StudyBook,
  spanOf,
} from './inputs.ts';
import { type Goal, goalOf } from './seek.ts';
import { MOST_DRAWS, type Uncertain, USUAL_DRAWS, uncertainOf } from './spread.ts';

/** What a study asks. */
export type StudyQuestion =
  | { readonly kind: 'table'; readonly over: readonly Axis[]; readonly show: readonly CellView[] }
  | { readonly kind: 'seek'; readonly over: Span; readonly goal: Goal; readonly keep: boolean }
  | {
      readonly kind: 'spread';
      readonly over: readonly Uncertain[];
      readonly show: readonly CellView[];
      readonly draws: number;
      readonly seed: number;
    }
  | {
      readonly kind: 'best';
      readonly over: readonly Axis[];
      readonly aims: readonly Aim[];
      readonly seed: number;
    };

/** Kinds of studies, as their table names them. */
export const STUDY_KINDS = ['table', 'seek', 'spread', 'best'] as const;

/** A study as it is written in a workbook's table. */
export interface Study {
  /** Id of its row, which stays when it is renamed or moved. */
  readonly id: string;
  /** What its maker calls it. */
  readonly name: string;
  /** The row, counted from 0. */
  readonly row: number;
  /** What it asks; undefined where that cannot be read. */
  readonly asks: StudyQuestion | undefined;
  /** Why it cannot. */
  readonly problems: readonly PartProblem[];
}

/** How a study is written, whether in a table or on a command line. */
export interface StudyWords {
  /** One of {@link STUDY_KINDS}; a table where it is blank. */
  readonly kind: string;
  /** Inputs and what they become, clauses with semicolons between. */
  readonly over: string;
  /** Names of results, with commas between. */
  readonly show?: string | undefined;
  /** What a seek makes true, or what the best has least of. */
  readonly goal?: string | undefined;
  /** Only where no check says stop. */
  readonly keep?: boolean | undefined;
  /** How many tries a spread takes. */
  readonly draws?: number | undefined;
  /** What they are drawn from. */
  readonly seed?: number | undefined;
}

/** Reads what a study asks. @throws StudyFault with a sentence */
export function studyOf(book: StudyBook, words: StudyWords): StudyQuestion {
  const { draws = USUAL_DRAWS, seed = 1, keep = false } = words;
  const clauses = clausesOf(words.over);
  if (clauses.length === 0) {
    throw new StudyFault(
      'This study is over nothing. Name an input and what it becomes, such as top_length 60..108/6.',
    );
  }
  switch (words.kind.trim().toLowerCase() || 'table') {
    case 'table':
      return {
        kind: 'table',
        over: clauses.map(([name, rest]) => axisOf(book, name, rest)),
        show: shownOf(book, words.show),
      };
    case 'seek': {
      const [[name, rest] = ['', ''], ...more] = clauses;
      if (more.length > 0) throw new StudyFault('A seek looks for one input; this one names more.');
      return {
        kind: 'seek',
        over: spanOf(book, name, rest),
        goal: goalOf(book, words.goal ?? ''),
        keep,
      };
    }
    case 'spread':
      if (!Number.isInteger(draws) || draws < 2 || draws > MOST_DRAWS) {
        throw new StudyFault(`A spread takes 2 to ${MOST_DRAWS.toLocaleString('en-US')} tries.`);
      }
      return {
        kind: 'spread',
        over: clauses.map(([name, rest]) => uncertainOf(book, name, rest)),
        show: shownOf(book, words.show),
        draws,
        seed,
      };
    case 'best':
      return {
        kind: 'best',
        over: clauses.map(([name, rest]) => axisOf(book, name, rest)),
        aims: aimsOf(book, words.goal ?? words.show ?? ''),
        seed,
      };
    default:
      throw new StudyFault(
        `There is no study called "${words.kind.trim()}". It is a table, a seek, a spread or the best.`,
      );
  }
}

function shownOf(book: StudyBook, text = ''): readonly CellView[] {
  const names = text
    .split(',')
    .map((name) => name.trim())
    .filter((name) => name !== '');
  if (names.length === 0) {
    throw new StudyFault('This study shows nothing. Name the results, with commas between.');
  }
  return names.map((name) => knownCell(book, name));
}

/** The studies that are written in a workbook, in their order; none where it has no table of them. */
export function readStudies(book: StudyBook): readonly Study[] {
  const table = knownTable(book, 'studies');
  if (table === undefined) return [];
  const studies: Study[] = [];
  for (let row = table.first; row < table.end; row += 1) {
    const line = new TableRow(book, table, row);
    if (line.isBlank) continue;
    const words = {
      kind: line.words('kind') ?? '',
      over: line.words('over') ?? '',
      show: line.words('show'),
      goal: line.words('goal'),
      keep: line.words('keep') === undefined ? undefined : line.holds('keep'),
      draws: line.number('draws', 'how many tries there are'),
      seed: line.number('seed', 'a number'),
    };
    const asks = line.problems.length === 0 ? asked(book, line, words) : undefined;
    const at = line.at('study');
    studies.push({
      id: book.idsAt(at)?.row ?? String(row),
      name: line.words('study') ?? `Row ${row + 1}`,
      row,
      asks,
      problems: line.problems,
    });
  }
  return studies;
}

function asked(book: StudyBook, line: TableRow, words: StudyWords): StudyQuestion | undefined {
  try {
    return studyOf(book, words);
  } catch (error) {
    if (!(error instanceof StudyFault)) throw error;
    line.trouble('over', error.message);
    return undefined;
  }
}
