import {
  type At,
  type CellDocument,
  carryRead,
  type DecimalMark,
  decimalMarksIn,
  type Edit,
  LIMITS,
  type Place,
  readTyped,
  type Scalar,
  shiftedCell,
  transposedCell,
} from '@kerfbook/workbook';
import { asFile, comeWith, isSheet } from '../page/coming-files.ts';
import {
  type Area,
  areaOf,
  cellsOf,
  columnsOf,
  didWith,
  placesOf,
  rowsOf,
} from '../session/area.ts';
import { asRead, decimalMark } from '../session/decimal-mark.ts';
import type { Session } from '../session/session.ts';
import type { Block } from '../session/types.ts';
import { MOST_CELLS } from './clipboard.ts';
import { copiedHere } from './copied.ts';
import { copiedElsewhere, isId } from './copied-store.ts';
import { fromTable, fromTabs } from './from-tabular.ts';
import { beginWith, listKindAt, looksLikeList } from './list-pasted.ts';
import { type Lines, toTabs } from './tabular.ts';

/** Letters of a paste that are looked at, at the most. */
const MOST_LETTERS = 30_000_000;

export type PasteKind = 'all' | 'values' | 'formats' | 'transposed';

/** Where a paste goes: what was selected when it was asked for. */
interface Spot {
  readonly sheet: string;
  readonly area: Area;
}

export const spotOf = ({ at, areas: [area] }: Pick<Session, 'at' | 'areas'>): Spot => ({
  sheet: at.sheet,
  area: area ?? areaOf(at),
});

/** What pasting offers of texts: a table where there is one, and a text. */
interface Texts {
  readonly html: string;
  readonly text: string;
}

/** What came with a paste: the id of cells of ours, if it is one, and what can be read. */
interface Pasted {
  readonly id: string;
  readonly texts: Texts;
}

/** Pastes cells of ours, of this tab or another one, a table, or text read as if it were typed. */
export async function pasteWhat(
  session: Session,
  { id, texts }: Pasted,
  kind: PasteKind,
  spot: Spot,
): Promise<void> {
  const block = copiedHere(id) ?? (isId(id) ? await copiedElsewhere(id) : undefined);
  if (block === undefined) pasteTexts(session, texts, spot);
  else pasteOwn(session, block, texts, kind, spot);
}

function pasteOwn(session: Session, block: Block, texts: Texts, kind: PasteKind, spot: Spot): void {
  // Numbers of another system of units would change what they mean; their text says its unit.
  if (block.units === session.book.units) pasteBlock(session, block, kind, spot);
  else pasteTexts(session, texts, spot);
}

function pasteTexts(session: Session, { html, text }: Texts, spot: Spot): void {
  if (html.length + text.length > MOST_LETTERS) {
    session.say('That is too much to paste at once. Paste it in pieces.');
    return;
  }
  const lines = fromTable(html, MOST_CELLS) ?? (text === '' ? [] : fromTabs(text, MOST_CELLS));
  const kind = listPasted(session, text, spot);
  // Looked at before anything is pasted into it.
  const isNew = isSheet(lines) && isBlank(session);
  const mark = decimalMarkOf(lines);
  if (typeof mark !== 'string' && kind === undefined) {
    askDecimalMark(session, lines, mark.example);
    return;
  }
  // A list has units and fractions of its own, and its decimals are asked about where it is read.
  pasteLines(session, lines, typeof mark === 'string' ? mark : undefined, spot, () => {
    // What could not be read is told first.
    const isTold = session.state.value.offer !== undefined;
    if (kind === undefined && isNew && !isTold) offerAsWorkbook(session, lines);
  });
  if (kind !== undefined) offerToRead(session, kind, text);
}

/** Whether nothing stands anywhere in a workbook. */
const isBlank = ({ book }: Session): boolean =>
  book.document().sheets.every(({ rows }) => rows.every(({ cells = {} }) => isEmpty(cells)));
const isEmpty = (cells: object): boolean => Object.keys(cells).length === 0;

/** A sheet that comes into a blank workbook may be asked about, as any file of another program is. */
function offerAsWorkbook(session: Session, lines: Lines): void {
  session.offer({
    says: 'This looks like a whole sheet. It is pasted as it stands.',
    answers: [
      {
        says: 'Look for parts and units in it',
        does: () => {
          session.undo();
          comeWith([asFile(toTabs(lines))]);
        },
      },
      { says: 'Undo the paste', does: () => session.undo() },
    ],
    putAway: 'Dismiss',
  });
}

/** A list of parts or boards, pasted onto an empty cell of their table; undefined for anything else. */
function listPasted({ book }: Session, text: string, { sheet, area }: Spot) {
  if (cellsOf(area) > 1 || !looksLikeList(text)) return undefined;
  const at = { sheet, row: area.top, column: area.left };
  return book.cell(at).entry === '' ? listKindAt(book, at) : undefined;
}

/** What was pasted stays as it came unless its maker takes this up. */
function offerToRead(session: Session, kind: 'parts' | 'stock', text: string): void {
  const words = kind === 'parts' ? 'parts' : 'boards';
  session.offer({
    says: `This looks like a list of ${words}. It is pasted as it stands.`,
    answers: [
      {
        says: `Read it as ${words}`,
        does: () => {
          session.undo();
          beginWith(text);
          session.ask(kind);
        },
      },
      { says: 'Undo the paste', does: () => session.undo() },
    ],
    putAway: 'Dismiss',
  });
}

/** Entries that are looked at for their decimal marks, at the most. */
const MOST_ASKED = 20_000;

/**
 * Which sign stands before the decimals of pasted numbers: the device's own where all of them can be
 * read so and one can only be read so; else its maker has to say (G21).
 */
function decimalMarkOf(lines: Lines): DecimalMark | { readonly example: string } {
  const own = decimalMark();
  let open: string | undefined;
  let settled = false;
  for (const text of lines.flat().slice(0, MOST_ASKED)) {
    const marks = decimalMarksIn(text);
    if (marks === 'none') continue;
    if (marks === own) settled = true;
    else if (marks === 'either') open ??= text;
    else return { example: text };
  }
  return open === undefined || settled ? own : { example: open };
}

function askDecimalMark(session: Session, lines: Lines, example: string): void {
  // Whoever goes elsewhere before answering still pastes where they were.
  const { at, areas } = session;
  const pasteWith = (mark: DecimalMark) => () => {
    session.goSheet(at.sheet);
    session.go(at);
    const [area] = areas;
    if (area !== undefined && cellsOf(area) > 1) session.select(area, at);
    pasteLines(session, lines, mark);
  };
  session.offer({
    says: `Numbers such as ${example.slice(0, 40)} can be read in two ways. Which is the decimal mark?`,
    answers: [
      { says: 'The point', does: pasteWith('point') },
      { says: 'The comma', does: pasteWith('comma') },
    ],
    putAway: 'Cancel paste',
  });
}

/** Puts cells where they were dropped: those that were cut move there. */
export function dropBlock(session: Session, block: Block, spot: Spot): void {
  if (block.cut) moveBlock(session, block, spot);
  else pasteBlock(session, block, 'all', spot);
  const { sheet, area } = spot;
  if (cellsOf(area) === 1) session.go({ sheet, row: area.top, column: area.left });
}

/** Pastes cells of ours (G41, G49, G50). */
export function pasteBlock(
  session: Session,
  block: Block,
  kind: PasteKind,
  spot = spotOf(session),
): void {
  // Only what is marked as leaving moves: once, and never from another tab's workbook.
  if (block.cut && session.state.value.block === block && kind === 'all') {
    moveBlock(session, block, spot);
    return;
  }
  const swap = kind === 'transposed';
  const rows = swap ? columnsOf(block.area) : rowsOf(block.area);
  const columns = swap ? rowsOf(block.area) : columnsOf(block.area);
  const target = targetOf(spot, rows, columns);
  const { sheet } = spot;
  const cells = placesOf([target]).map((place) => {
    const [down, across] = [
      (place.row - target.top) % rows,
      (place.column - target.left) % columns,
    ];
    const [i, j] = swap ? [across, down] : [down, across];
    const from = { row: block.area.top + i, column: block.area.left + j };
    const copied = block.cells[i]?.[j] ?? null;
    const cell = asPasted(copied, block.values[i]?.[j] ?? null, kind, from, place);
    return { ...place, cell: keeping(session, { sheet, ...place }, cell, kind) };
  });
  finish(session, { do: 'place', sheet, cells }, target);
}

function asPasted(
  copied: CellDocument | null,
  value: Scalar | null,
  kind: PasteKind,
  from: Place,
  to: Place,
): CellDocument | null {
  if (copied === null) return null;
  if (kind === 'values') {
    const { formula: _f, override: _o, typed: _t, value: _v, allow: _a, ...traits } = copied;
    return value === null ? traits : { ...traits, value };
  }
  return kind === 'transposed'
    ? transposedCell(copied, from, to)
    : shiftedCell(copied, to.row - from.row, to.column - from.column);
}

/** A place keeps its name, and with formats only what it holds. */
function keeping(
  { book }: Session,
  at: At,
  cell: CellDocument | null,
  kind: PasteKind,
): CellDocument | null {
  const there = book.copyOf(at);
  const name = book.cell(at).name;
  const named = name === undefined ? {} : { name };
  if (kind === 'formats') {
    const { quantity, show, role, style } = cell ?? {};
    const { quantity: _q, show: _s, role: _r, style: _l, ...held } = there ?? {};
    return whole(there, {
      ...held,
      ...(quantity === undefined ? {} : { quantity }),
      ...(show === undefined ? {} : { show }),
      ...(role === undefined ? {} : { role }),
      ...(style === undefined ? {} : { style }),
      ...named,
    });
  }
  return whole(cell, { ...cell, ...named });
}

const whole = (from: CellDocument | null | undefined, cell: CellDocument): CellDocument | null =>
  Object.keys(cell).length === 0 ? null : carryRead(from, cell);

function moveBlock(session: Session, { sheet, area }: Block, spot: Spot): void {
  const to = { sheet: spot.sheet, row: spot.area.top, column: spot.area.left };
  const rows = rowsOf(area);
  const columns = columnsOf(area);
  const done = finish(
    session,
    { do: 'moveCells', sheet, from: { row: area.top, column: area.left, rows, columns }, to },
    { top: to.row, left: to.column, bottom: to.row + rows - 1, right: to.column + columns - 1 },
  );
  if (done) session.copied(undefined);
}

/**
 * Pastes texts as if they had been typed, one edit for all. A formula from elsewhere is one here: no function reads
 * anything but the workbook. One that cannot be read stays as text, and that is told (G48).
 */
function pasteLines(
  session: Session,
  lines: Lines,
  mark: DecimalMark = decimalMark(),
  spot = spotOf(session),
  after?: () => void,
): void {
  const rows = lines.length;
  const columns = lines.reduce((most, line) => Math.max(most, line.length), 0);
  if (rows === 0 || columns === 0) {
    session.say('There is nothing on the clipboard that fits in cells.');
    return;
  }
  if (rows * columns > MOST_CELLS) {
    const most = MOST_CELLS.toLocaleString('en-US');
    session.say(
      `Those are more than ${most} cells, too many to paste at once. Paste them in pieces.`,
    );
    return;
  }
  if (rows > LIMITS.rows || columns > LIMITS.columns) {
    session.say(
      `That is ${rows} rows and ${columns} columns; a sheet holds ${LIMITS.rows} and ${LIMITS.columns}.`,
    );
    return;
  }
  const target = targetOf(spot, rows, columns);
  const { sheet } = spot;
  const typed = placesOf([target]).map((place) => {
    const line = lines[(place.row - target.top) % rows];
    return { ...place, text: line?.[(place.column - target.left) % columns] ?? '' };
  });
  const cells = typed.map(({ text, ...place }) => ({
    ...place,
    text: asRead(asWords(text), () => session.book.cell({ sheet, ...place }), mark),
  }));
  const unread = typed.flatMap(({ text }) => (isNoFormula(text) ? text : []));
  finish(session, { do: 'enter', sheet, cells }, target, unread, after);
}

/** What begins like a formula and cannot be read as one, such as `=====` under a head. */
const isNoFormula = (text: string): boolean =>
  /^\s*=/.test(text) && readTyped(text.trim()).root === undefined;
const asWords = (text: string): string => (isNoFormula(text) ? `'${text}` : text);

/** Where a block goes: over the whole selection where it fits in evenly, else from its corner on. */
function targetOf({ area: selected }: Spot, rows: number, columns: number): Area {
  const { top, left } = selected;
  const even =
    rowsOf(selected) % rows === 0 &&
    columnsOf(selected) % columns === 0 &&
    rowsOf(selected) * columnsOf(selected) <= MOST_CELLS;
  return even ? selected : { top, left, bottom: top + rows - 1, right: left + columns - 1 };
}

/** Cells that are put in at once; more come so many at a time. */
const AT_ONCE = 1_000;

function finish(
  session: Session,
  edit: Edit & { readonly do: 'enter' | 'place' | 'moveCells' },
  target: Area,
  unread: readonly string[] = [],
  after?: () => void,
): boolean {
  if (edit.do !== 'moveCells' && edit.cells.length > 2 * AT_ONCE) {
    void finishLong(session, edit, target, unread, after);
    return true;
  }
  const said =
    edit.do === 'moveCells'
      ? didWith('Moved', edit.from.rows * edit.from.columns)
      : didWith('Pasted', edit.cells.length);
  const result = session.apply(edit, said);
  if (result.ok)
    pasted(session, edit.do === 'moveCells' ? edit.to.sheet : edit.sheet, target, unread);
  if (result.ok) after?.();
  return result.ok;
}

async function finishLong(
  session: Session,
  edit: Edit & { readonly do: 'enter' | 'place' },
  target: Area,
  unread: readonly string[],
  after?: () => void,
): Promise<void> {
  const { cells, sheet } = edit;
  const edits = Array.from({ length: Math.ceil(cells.length / AT_ONCE) }, (_, i) => ({
    ...edit,
    cells: cells.slice(i * AT_ONCE, (i + 1) * AT_ONCE),
  })) as Edit[];
  const says = `Pasting ${cells.length.toLocaleString('en-US')} cells`;
  if (!(await session.applyLong(says, edits, didWith('Pasted', cells.length)))) return;
  pasted(session, sheet, target, unread);
  after?.();
}

/** Selects what was pasted, where its maker did not go on to something else meanwhile. */
function pasted(session: Session, sheet: string, target: Area, unread: readonly string[]): void {
  offerAfter(session, sheet, target, unread);
  if (session.at.sheet !== sheet || session.editing !== undefined || cellsOf(target) === 1) return;
  session.select(target, { sheet, row: target.top, column: target.left });
}

/** Says what became of pasted entries other than they were meant, and offers what can be done. */
function offerAfter(
  session: Session,
  sheet: string,
  target: Area,
  unread: readonly string[],
): void {
  const says = [wordsOfFormulas(unread), report(session, sheet, target)].filter(
    (one) => one !== undefined,
  );
  if (says.length === 0) return;
  session.offer({
    says: says.join(' '),
    answers: [{ says: 'Undo the paste', does: () => session.undo() }],
    putAway: 'Dismiss',
  });
}

/** A formula that cannot be read here stays as it came, as words (G48). */
function wordsOfFormulas(unread: readonly string[]): string | undefined {
  const [first] = unread;
  if (first === undefined) return undefined;
  const many = unread.length.toLocaleString('en-US');
  const some = unread.length === 1 ? 'One formula' : `${many} formulas`;
  const stays = unread.length === 1 ? 'stays' : 'stay';
  const short = first.trim().length > 40 ? `${first.trim().slice(0, 40)}…` : first.trim();
  return `${some} cannot be read here and ${stays} as text, such as ${short}`;
}

/** Cells that are looked at for what cannot be read, at the most. */
const MOST_LOOKED = 20_000;

/** How many pasted entries cannot stay as they are; they are there, marked, and can be undone (G61). */
function report(session: Session, sheet: string, target: Area): string | undefined {
  if (cellsOf(target) > MOST_LOOKED) return undefined;
  const wrong = placesOf([target]).flatMap(
    (place) => session.book.cell({ sheet, ...place }).problem ?? [],
  );
  const [first] = wrong;
  if (first === undefined) return undefined;
  const many = wrong.length === 1 ? 'One pasted cell' : `${wrong.length} pasted cells`;
  return `${many} cannot be read or ${wrong.length === 1 ? 'is' : 'are'} not allowed there, such as: ${first.says}`;
}
