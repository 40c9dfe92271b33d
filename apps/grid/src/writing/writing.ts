import {
  columnName,
  nameKey,
  nextForm,
  type OpenWorkbook,
  type Place,
  readWritten,
  typedTokens,
  writtenSheet,
} from '@kerfbook/workbook';
import { type Area, areaBetween, areaOf } from '../session/area.ts';
import { STEPS } from '../session/places.ts';
import { isFormula, pointRange } from '../session/pointing.ts';
import type { Editing, Session } from '../session/session.ts';
import { pairKey } from './pairs.ts';

/** What completes half-written words; there as soon as its list can be shown. */
interface Completer {
  readonly optionsOf: (book: OpenWorkbook, editing: Editing | undefined) => readonly Option[];
  readonly accept: (session: Session, option: Option) => void;
}

/** Something that a half-written word may become. */
export interface Option {
  readonly kind: 'function' | 'cell' | 'place' | 'shape' | 'head' | 'joint';
  readonly text: string;
  readonly says: string;
  /** Taken only where its maker chose it: what is written is whole without it. */
  readonly asked?: true;
}

let completer: Completer | undefined;

/** Keys choose among completions from now on. */
export function completeWith(by: Completer): void {
  completer = by;
}

/** A reference of the formula being written, as cells of a sheet. */
export interface Read {
  readonly text: string;
  readonly sheet: string;
  readonly area: Area;
}

/** The cells and ranges a formula being written reads, each once, in their order (G28). */
export function readsOf(book: OpenWorkbook, { text, at }: Editing): readonly Read[] {
  if (!isFormula(text)) return [];
  const found = new Map<string, Read>();
  for (const token of typedTokens(text)) {
    if (token.kind !== 'reference' && token.kind !== 'name') continue;
    const key = nameKey(token.text.replaceAll('$', ''));
    if (found.has(key)) continue;
    const read = readOf(book, token.text, at.sheet);
    if (read !== undefined) found.set(key, { ...read, text: token.text });
  }
  return [...found.values()];
}

function readOf(book: OpenWorkbook, text: string, home: string): Omit<Read, 'text'> | undefined {
  const named = book.find(text, home);
  if (named !== undefined) return { sheet: named.sheet, area: areaOf(named) };
  return rangeOf(book, text, home);
}

/** `B2:D5`, `Base!A1:A9`, to cells of a sheet; whole rows and columns as far as the sheet goes. */
export function rangeOf(
  book: OpenWorkbook,
  text: string,
  home: string,
): Omit<Read, 'text'> | undefined {
  const written = readWritten(text);
  if (written?.to === undefined) return undefined;
  const key = written.sheet === undefined ? undefined : nameKey(written.sheet);
  const sheet =
    key === undefined ? home : book.sheets().find(({ name }) => nameKey(name) === key)?.id;
  if (sheet === undefined) return undefined;
  const { rows = 1, columns = 1 } = book.sheet(sheet) ?? {};
  const { from, to } = written;
  return {
    sheet,
    area: areaBetween(
      { row: from.row ?? 0, column: from.column ?? 0 },
      { row: to.row ?? rows - 1, column: to.column ?? columns - 1 },
    ),
  };
}

/** Writes a reference to cells where the caret is, in place of the one pointed at before (G27). */
export function point(session: Session, sheet: string, from: Place, lead: Place): boolean {
  const { editing } = session;
  const range = editing === undefined ? undefined : pointRange(editing);
  if (editing === undefined || range === undefined) return false;
  const name = session.book.sheet(sheet)?.name ?? '';
  const prefix = sheet === editing.at.sheet ? '' : `${writtenSheet(name)}!`;
  const area = areaBetween(from, lead);
  const one = area.top === area.bottom && area.left === area.right;
  const corner = (row: number, column: number): string => `${columnName(column)}${row + 1}`;
  const first = corner(area.top, area.left);
  // A named cell is called by its name: that is how makers read it.
  const named = one
    ? session.book.cell({ sheet, row: area.top, column: area.left }).name
    : undefined;
  const text = named ?? `${prefix}${one ? first : `${first}:${corner(area.bottom, area.right)}`}`;
  const [start, end] = range;
  const written = editing.text.slice(0, start) + text + editing.text.slice(end);
  session.point(written, { start, end: start + text.length, sheet, from, lead });
  return true;
}

/** Points with the arrows: on from what was pointed at last, or from the cell being written. */
function pointBy(session: Session, by: keyof typeof STEPS, extend: boolean): boolean {
  const { editing } = session;
  if (editing === undefined || pointRange(editing) === undefined) return false;
  const { pointed, at } = editing;
  const step = STEPS[by];
  const start = pointed?.lead ?? at;
  const lead = { row: start.row + step.rows, column: start.column + step.columns };
  if (lead.row < 0 || lead.column < 0) return true;
  const from = extend && pointed !== undefined ? pointed.from : lead;
  return point(session, session.at.sheet, from, lead);
}

/** Which completion is chosen: the first at the beginning, or none where one has to be asked for. */
export function chosenOf(options: readonly Option[], { choice }: Editing): number | undefined {
  if (choice === undefined && options[0]?.asked === true) return undefined;
  return Math.min(choice ?? 0, options.length - 1);
}

/** Turns the references at the caret, or within what is selected, to their next form (G29). */
function cycleForms(session: Session, start: number, end: number): boolean {
  const { editing } = session;
  if (editing === undefined || !isFormula(editing.text)) return false;
  const touched = typedTokens(editing.text).filter(
    (token) => token.kind === 'reference' && token.start <= end && token.end >= start,
  );
  if (touched.length === 0) return false;
  let { text } = editing;
  let grown = 0;
  let last = end;
  for (const token of touched) {
    const next = nextForm(token.text);
    text = text.slice(0, token.start + grown) + next + text.slice(token.end + grown);
    grown += next.length - token.text.length;
    last = token.end + grown;
  }
  session.write(text, last);
  return true;
}

interface Pressed {
  readonly key: string;
  readonly shiftKey: boolean;
  readonly altKey: boolean;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
}

const ARROWS: Readonly<Record<string, keyof typeof STEPS>> = {
  ArrowDown: 'down',
  ArrowUp: 'up',
  ArrowLeft: 'left',
  ArrowRight: 'right',
};

/** Keys that help with writing, in the cell and on the formula line. True: it was one of them. */
export function helpKey(
  session: Session,
  event: Pressed,
  selected: readonly [start: number, end: number],
): boolean {
  const { editing } = session;
  if (editing === undefined) return false;
  const options = completer?.optionsOf(session.book, editing) ?? [];
  const arrow = ARROWS[event.key];
  if (options.length > 0) {
    // Where none is chosen yet, the arrow goes to the first or the last.
    const now = chosenOf(options, editing) ?? (arrow === 'up' ? 0 : -1);
    if (arrow === 'down' || arrow === 'up') {
      session.choose((now + (arrow === 'down' ? 1 : options.length - 1)) % options.length);
      return true;
    }
    const option = options[now];
    if ((event.key === 'Tab' || event.key === 'Enter') && option !== undefined && !event.shiftKey) {
      completer?.accept(session, option);
      return true;
    }
    if (event.key === 'Escape') {
      session.hushOptions();
      return true;
    }
  }
  if (event.key === 'F4') return cycleForms(session, ...selected);
  const pointing = editing.mode === 'fresh' || editing.pointed !== undefined;
  if (arrow !== undefined && pointing && !event.altKey && isFormula(editing.text)) {
    return pointBy(session, arrow, event.shiftKey);
  }
  return closePair(session, event, selected);
}

/** Brackets and quotes of a formula close themselves. */
function closePair(
  session: Session,
  { key, ctrlKey, metaKey, altKey }: Pressed,
  selected: readonly [number, number],
): boolean {
  const { editing } = session;
  // Some keyboards write brackets with Ctrl and Alt together.
  if (editing === undefined || metaKey || ctrlKey !== altKey) return false;
  const written = pairKey(editing.text, selected, key);
  if (written === undefined) return false;
  session.write(written.text, written.caret);
  return true;
}
