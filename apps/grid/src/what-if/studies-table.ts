import { knownTable } from '@kerfbook/drawing';
import { contextOf, readStudies, type Study, type StudyQuestion } from '@kerfbook/studies';
import {
  type CellView,
  type Edit,
  type OpenWorkbook,
  pullOf,
  SHOP_COLUMNS,
  shopTableEdit,
} from '@kerfbook/workbook';
import { blankRowEdits, fieldEdit, isBlankRow } from '../commands/table-fields.ts';
import type { Session } from '../session/session.ts';

/** A column of the studies table. */
export type StudyHead = 'study' | 'kind' | 'over' | 'show' | 'goal' | 'keep' | 'draws' | 'seed';

/** Kinds of studies as a maker is asked about them. */
export const KINDS: readonly (readonly [
  kind: StudyQuestion['kind'],
  says: string,
  means: string,
])[] = [
  ['table', 'Results over inputs', 'What it comes to at every size, wood or price of a list.'],
  ['seek', 'Find an input', 'How long it can be for an amount, or which rate gives a price.'],
  ['spread', 'What is uncertain', 'How far hours, waste or humidity move the result.'],
  ['best', 'The best of many', 'The cheapest or lightest that keeps every check.'],
];

/** What stands in a study's row under a head, as its editor would show it. */
export function entryUnder(book: OpenWorkbook, study: Study, head: StudyHead): string {
  const table = knownTable(book, 'studies');
  const column = table?.columns.get(head);
  if (table === undefined || column === undefined) return '';
  return book.cell({ sheet: table.sheet, row: study.row, column }).entry;
}

/** Writes something into a study's row; why it was not taken. */
export function enterUnder(
  session: Session,
  study: Pick<Study, 'row'>,
  entries: readonly (readonly [head: StudyHead, text: string])[],
): string | undefined {
  const { book } = session;
  const table = knownTable(book, 'studies');
  if (table === undefined) return undefined;
  const edits = entries.map(([head, text]) =>
    fieldEdit(book, { kind: 'studies', table, row: study.row, head }, text),
  );
  return applied(session, edits);
}

function applied(session: Session, edits: readonly Edit[]): string | undefined {
  const [only] = edits;
  if (only === undefined) return undefined;
  const done = session.apply(edits.length === 1 ? only : { do: 'batch', edits });
  if (done.ok) return undefined;
  session.hush();
  return done.says;
}

/** Begins a study of a kind, with inputs and results that most ask about; its id, or why there is none. */
export function beginStudy(
  session: Session,
  kind: StudyQuestion['kind'],
): { readonly id: string } | { readonly says: string } {
  const { book } = session;
  const start = session.mayShape() ? shopTableEdit(book, 'studies') : undefined;
  if (start !== undefined) {
    const done = session.apply(start);
    if (!done.ok) return { says: done.says };
  }
  const table = knownTable(book, 'studies');
  if (table === undefined) return { says: 'This workbook cannot be changed here.' };
  let row = table.first;
  while (row < table.end && !isBlankRow(book, table, row)) row += 1;
  const column = (head: StudyHead): number =>
    table.columns.get(head) ?? SHOP_COLUMNS.studies.findIndex(({ heads }) => heads === head);
  const edits: Edit[] = row < table.end ? [] : [...blankRowEdits(book, 'studies', table, row)];
  const cells = Object.entries(firstWords(book, kind)).map(([head, text]) => ({
    row,
    column: column(head as StudyHead),
    text,
  }));
  edits.push({ do: 'enter', sheet: table.sheet, cells });
  const says = applied(session, edits);
  if (says !== undefined) return { says };
  const id = book.idsAt({ sheet: table.sheet, row, column: 0 })?.row;
  return id === undefined ? { says: 'The study is not there.' } : { id };
}

/** Numbers of steps that a table goes through at first. */
const FIRST_STEPS = 6;

function firstWords(
  book: OpenWorkbook,
  kind: StudyQuestion['kind'],
): Readonly<Partial<Record<StudyHead, string>>> {
  const says = KINDS.find(([one]) => one === kind)?.[1] ?? kind;
  const known = new Set(readStudies(book).map(({ name }) => name));
  let name = says;
  for (let i = 2; known.has(name); i += 1) name = `${says} ${i}`;
  const ranged = inputsOf(book).filter((cell) => rangeOf(book, cell) !== undefined);
  // Hours are what is known least of a job.
  const input =
    (kind === 'spread'
      ? (ranged.find(({ name = '' }) => name.startsWith('hours_')) ??
        ranged.find(({ quantity }) => quantity === 'duration'))
      : undefined) ?? ranged[0];
  const called = input?.name ?? '';
  const range = input === undefined ? undefined : rangeOf(book, input);
  const result = book.named('price')?.name ?? book.results[0] ?? '';
  const over = range === undefined ? called : `${called} ${range}`;
  switch (kind) {
    case 'table':
      return { study: name, kind, over, show: result };
    case 'seek':
      return {
        study: name,
        kind,
        over: called,
        goal: `${result} at most ${amount(book, result)}`,
        keep: 'yes',
      };
    case 'spread':
      return {
        study: name,
        kind,
        over: input === undefined ? '' : `${called} ${around(book, input)}`,
        show: result,
      };
    case 'best':
      return { study: name, kind, over, goal: result };
  }
}

/** What a result comes to now, as it may be typed. */
function amount(book: OpenWorkbook, name: string): string {
  const value = book.named(name)?.value;
  return value?.kind === 'number' ? String(Number(value.number.toPrecision(3))) : '0';
}

/** A range about what an input holds now, in steps that a tape has. */
export function rangeOf(book: OpenWorkbook, cell: CellView): string | undefined {
  const pull = pullOf(cell, contextOf(book, cell));
  if (pull === undefined) return undefined;
  const wide = Math.abs(pull.value) / 4 || pull.step * FIRST_STEPS;
  const step = Math.max(pull.step, Math.round(wide / (FIRST_STEPS / 2) / pull.step) * pull.step);
  const low = Math.max(pull.low ?? Number.NEGATIVE_INFINITY, pull.value - (step * FIRST_STEPS) / 2);
  const high = Math.min(pull.high ?? Number.POSITIVE_INFINITY, low + step * FIRST_STEPS);
  if (!(high > low)) return undefined;
  return `${pull.entry(low)}..${pull.entry(high)} /${pull.entry(step)}`;
}

/** Low, likely and high about what an input holds now. */
function around(book: OpenWorkbook, cell: CellView): string {
  const pull = pullOf(cell, contextOf(book, cell));
  if (pull === undefined) return '';
  const by = Math.max(pull.step, Math.round((Math.abs(pull.value) * 0.1) / pull.step) * pull.step);
  const low = Math.max(pull.low ?? Number.NEGATIVE_INFINITY, pull.value - by);
  const high = Math.min(pull.high ?? Number.POSITIVE_INFINITY, pull.value + by);
  return [low, pull.value, high].map((one) => pull.entry(one)).join(', ');
}

/** Named cells that hold a value a maker chooses, in the order of the workbook. */
export const inputsOf = (book: OpenWorkbook): readonly CellView[] =>
  book.names().flatMap(({ name }) => {
    const cell = book.named(name);
    return cell !== undefined && cell.formula === undefined && cell.role === 'input' ? [cell] : [];
  });

/** Named cells that are calculated, those that matter most first. */
export function resultsOf(book: OpenWorkbook): readonly CellView[] {
  const all = book.names().flatMap(({ name }) => {
    const cell = book.named(name);
    return cell !== undefined && cell.formula !== undefined ? [cell] : [];
  });
  const rank = ({ name = '' }: CellView): number => {
    const at = book.results.indexOf(name);
    return at < 0 ? book.results.length : at;
  };
  return all.toSorted((one, other) => rank(one) - rank(other));
}

/** Clauses as a study's cell holds them. */
export const joined = (clauses: readonly (readonly [name: string, rest: string])[]): string =>
  clauses.map(([name, rest]) => `${name} ${rest}`.trim()).join('; ');
