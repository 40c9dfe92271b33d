import {
  type At,
  type CellDocument,
  type DecimalMark,
  type Edit,
  LIMITS,
  marksIn,
  type Place,
  type Scalar,
  shifted,
  turned,
} from '@kerfbook/workbook';
import { type Area, cellsOf, columnsOf, placesOf, rowsOf } from '../selection/area.ts';
import type { Session } from '../session.ts';
import { asRead, decimalMark } from '../writing/decimal-mark.ts';
import { selectedOnSheet } from './commands.ts';
import { asWordsElsewhere, fromTable, fromTabs, type Lines, toTable, toTabs } from './tabular.ts';

/** Cells on their way within the app: whole, with what they came to. */
export interface Block {
  readonly kerfbook: 'cells';
  /** The session they were copied in: only there can they be moved. */
  readonly session: number;
  readonly units: 'us' | 'metric';
  readonly sheet: string;
  readonly area: Area;
  readonly cut: boolean;
  readonly cells: readonly (readonly (CellDocument | null)[])[];
  readonly values: readonly (readonly (Scalar | null)[])[];
}

export const BLOCK_TYPE = 'application/x-kerfbook-cells+json';

/** Cells that are taken at once, at the most. */
const MOST_CELLS = 200_000;
/** Letters of a paste that are looked at, at the most. */
const MOST_LETTERS = 30_000_000;

interface Clipboard {
  getData(type: string): string;
  setData(type: string, data: string): void;
}

/** Puts what is selected on the clipboard. Says why, where it does not (G46). */
export function copySelected(session: Session, clipboard: Clipboard, cut: boolean): boolean {
  const areas = selectedOnSheet(session);
  const [area, ...more] = areas;
  if (more.length > 0) {
    session.say('Several areas cannot be copied at once. Copy one after the other.');
    return false;
  }
  if (area === undefined) return false;
  if (rowsOf(area) * columnsOf(area) > MOST_CELLS) {
    session.say(
      `More than ${MOST_CELLS.toLocaleString('en-US')} cells are too many to copy at once.`,
    );
    return false;
  }
  const block = blockOf(session, area, cut);
  const lines = linesOf(session, area);
  clipboard.setData('text/plain', toTabs(lines));
  clipboard.setData('text/html', toTable(lines));
  clipboard.setData(BLOCK_TYPE, JSON.stringify(block));
  session.copied(block);
  return true;
}

/**
 * Copies or cuts without the key. The browser hands over its clipboard only with an event of its own,
 * and sends that event only where something could be copied, which `beforecopy` is asked for.
 */
export function copyByCommand(session: Session, how: 'copy' | 'cut' | 'seen'): void {
  const could = (event: Event): void => event.preventDefault();
  const hand = (event: ClipboardEvent): void => {
    if (event.clipboardData === null) return;
    event.preventDefault();
    event.stopPropagation();
    if (how === 'seen') copySeen(session, event.clipboardData);
    else copySelected(session, event.clipboardData, how === 'cut');
  };
  document.addEventListener('beforecopy', could, true);
  document.addEventListener('copy', hand, true);
  const handed = document.execCommand('copy');
  document.removeEventListener('copy', hand, true);
  document.removeEventListener('beforecopy', could, true);
  if (!handed) session.say('The browser did not let the menu copy. Use the key: Ctrl and C, or X.');
}

/** Puts what can be seen of the selection on the clipboard, as it shows: hidden lines stay (G44). */
function copySeen(session: Session, clipboard: Clipboard): void {
  const [area] = selectedOnSheet(session);
  if (area === undefined) return;
  const { hidden = [], hiddenRows = [] } = session.book.sheet(session.at.sheet) ?? {};
  const lines = linesOf(session, area)
    .filter((_, i) => !hiddenRows.includes(area.top + i))
    .map((line) => line.filter((_, i) => !hidden.includes(area.left + i)));
  clipboard.setData('text/plain', toTabs(lines));
  clipboard.setData('text/html', toTable(lines));
  session.copied(undefined);
}

function blockOf(session: Session, area: Area, cut: boolean): Block {
  const { at, id } = session;
  const book = session.settled();
  const each = <T>(of: (place: At) => T): T[][] =>
    range(area.top, area.bottom).map((row) =>
      range(area.left, area.right).map((column) => of({ sheet: at.sheet, row, column })),
    );
  return {
    kerfbook: 'cells',
    session: id,
    units: book.units,
    sheet: at.sheet,
    area,
    cut,
    cells: each((place) => book.copyOf(place) ?? null),
    values: each((place) => {
      const value = book.value(place);
      if (value.kind === 'number') return value.number;
      if (value.kind === 'text') return value.text;
      return value.kind === 'logical' ? value.logical : null;
    }),
  };
}

const range = (from: number, to: number): number[] =>
  Array.from({ length: to - from + 1 }, (_, i) => from + i);

/** What other programs get: what the cells show, and words never as a formula. */
function linesOf(session: Session, area: Area): Lines {
  const { at } = session;
  const book = session.settled();
  return range(area.top, area.bottom).map((row) =>
    range(area.left, area.right).map((column) => {
      const { value, shown } = book.cell({ sheet: at.sheet, row, column });
      return value.kind === 'text' ? asWordsElsewhere(shown.text) : shown.text;
    }),
  );
}

export type PasteKind = 'all' | 'values' | 'formats' | 'turned';

/** Pastes what is on the clipboard: cells of ours, a table, or text read as if it were typed. */
export function paste(session: Session, clipboard: Clipboard, kind: PasteKind = 'all'): void {
  const block = readBlock(clipboard.getData(BLOCK_TYPE), session);
  if (block !== undefined) {
    pasteBlock(session, block, kind);
    return;
  }
  const [html, text] = [clipboard.getData('text/html'), clipboard.getData('text/plain')];
  if (html.length + text.length > MOST_LETTERS) {
    session.say('That is too much to paste at once. Paste it in parts.');
    return;
  }
  const lines = fromTable(html) ?? (text === '' ? [] : fromTabs(text));
  const mark = markOf(lines);
  if (typeof mark === 'string') pasteLines(session, lines, mark);
  else askMark(session, lines, mark.example);
}

/** Entries that are looked at for their decimal marks, at the most. */
const MOST_ASKED = 20_000;

/**
 * Which sign stands before the decimals of pasted numbers: the device's own where all of them can be
 * read so and one can only be read so; else its maker has to say (G21).
 */
function markOf(lines: Lines): DecimalMark | { readonly example: string } {
  const own = decimalMark();
  let open: string | undefined;
  let settled = false;
  for (const text of lines.flat().slice(0, MOST_ASKED)) {
    const marks = marksIn(text);
    if (marks === 'none') continue;
    if (marks === own) settled = true;
    else if (marks === 'either') open ??= text;
    else return { example: text };
  }
  return open === undefined || settled ? own : { example: open };
}

function askMark(session: Session, lines: Lines, example: string): void {
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
    says: `Numbers such as ${example.slice(0, 40)} can be read in two ways. Which sign stands before the decimals?`,
    answers: [
      { says: 'The point', does: pasteWith('point') },
      { says: 'The comma', does: pasteWith('comma') },
    ],
    putAway: 'Paste nothing',
  });
}

function readBlock(text: string, { book }: Session): Block | undefined {
  if (text === '') return undefined;
  try {
    const block = JSON.parse(text) as Block;
    // Numbers of another system of units would change what they mean; their text says its unit.
    return block.kerfbook === 'cells' && block.units === book.units ? block : undefined;
  } catch {
    return undefined;
  }
}

/** Pastes cells of ours (G41, G49, G50). */
export function pasteBlock(session: Session, block: Block, kind: PasteKind): void {
  if (block.cut && block.session === session.id && kind === 'all') {
    moveBlock(session, block);
    return;
  }
  const swap = kind === 'turned';
  const rows = swap ? columnsOf(block.area) : rowsOf(block.area);
  const columns = swap ? rowsOf(block.area) : columnsOf(block.area);
  const target = targetOf(session, rows, columns);
  const { sheet } = session.at;
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
  const { formula } = copied;
  if (formula === undefined) return copied;
  const moved =
    kind === 'turned'
      ? turned(formula, from, to)
      : shifted(formula, to.row - from.row, to.column - from.column);
  return { ...copied, formula: moved };
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
    const { quantity, show, role, look } = cell ?? {};
    const { quantity: _q, show: _s, role: _r, look: _l, ...held } = there ?? {};
    return whole({
      ...held,
      ...(quantity === undefined ? {} : { quantity }),
      ...(show === undefined ? {} : { show }),
      ...(role === undefined ? {} : { role }),
      ...(look === undefined ? {} : { look }),
      ...named,
    });
  }
  return whole({ ...cell, ...named });
}

const whole = (cell: CellDocument): CellDocument | null =>
  Object.keys(cell).length === 0 ? null : cell;

function moveBlock(session: Session, { sheet, area }: Block): void {
  const [first] = session.areas;
  if (first === undefined) return;
  const to = { sheet: session.at.sheet, row: first.top, column: first.left };
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
 * Pastes texts as if they had been typed, one edit for all. A formula from elsewhere stays words: who
 * wrote it is not known (G48).
 */
export function pasteLines(
  session: Session,
  lines: Lines,
  mark: DecimalMark = decimalMark(),
): void {
  const rows = lines.length;
  const columns = Math.max(0, ...lines.map((line) => line.length));
  if (rows === 0 || columns === 0) return;
  if (rows * columns > MOST_CELLS) {
    const most = MOST_CELLS.toLocaleString('en-US');
    session.say(
      `That is ${(rows * columns).toLocaleString('en-US')} cells; ${most} can be pasted at once.`,
    );
    return;
  }
  if (rows > LIMITS.rows || columns > LIMITS.columns) {
    session.say(
      `That is ${rows} rows and ${columns} columns; a sheet holds ${LIMITS.rows} and ${LIMITS.columns}.`,
    );
    return;
  }
  const target = targetOf(session, rows, columns);
  const { sheet } = session.at;
  const cells = placesOf([target]).map((place: Place) => {
    const line = lines[(place.row - target.top) % rows];
    const text = line?.[(place.column - target.left) % columns] ?? '';
    return {
      ...place,
      text: asRead(asWords(text), () => session.book.cell({ sheet, ...place }), mark),
    };
  });
  finish(session, { do: 'enter', sheet, cells }, target);
}

const asWords = (text: string): string => (/^\s*=/.test(text) ? `'${text}` : text);

/** Where a block goes: over the whole selection where it fits in evenly, else from its corner on. */
function targetOf(session: Session, rows: number, columns: number): Area {
  const [selected] = session.areas;
  const { top = 0, left = 0 } = selected ?? {};
  const even =
    selected !== undefined &&
    rowsOf(selected) % rows === 0 &&
    columnsOf(selected) % columns === 0 &&
    rowsOf(selected) * columnsOf(selected) <= MOST_CELLS;
  return even ? selected : { top, left, bottom: top + rows - 1, right: left + columns - 1 };
}

/** Cells that are put in at once; more come in parts of this many. */
const AT_ONCE = 1_000;

function finish(session: Session, edit: Edit, target: Area): boolean {
  if ((edit.do === 'enter' || edit.do === 'place') && edit.cells.length > 2 * AT_ONCE) {
    void finishLong(session, edit, target);
    return true;
  }
  const result = session.apply(edit);
  if (result.ok) selectPasted(session, target);
  return result.ok;
}

async function finishLong(
  session: Session,
  edit: Edit & { do: 'enter' | 'place' },
  target: Area,
): Promise<void> {
  const { cells } = edit;
  const parts = Array.from({ length: Math.ceil(cells.length / AT_ONCE) }, (_, i) => ({
    ...edit,
    cells: cells.slice(i * AT_ONCE, (i + 1) * AT_ONCE),
  })) as Edit[];
  const says = `Pasting ${cells.length.toLocaleString('en-US')} cells`;
  if (await session.applyLong(says, parts)) selectPasted(session, target);
}

/** Cells that are looked at for what cannot be read, at the most. */
const MOST_LOOKED = 20_000;

/** Says how many pasted entries cannot stay as they are; they are there, marked, and can be undone (G61). */
function report(session: Session, { sheet }: At, target: Area): void {
  if (cellsOf(target) > MOST_LOOKED) return;
  const wrong = placesOf([target]).flatMap(
    (place) => session.book.cell({ sheet, ...place }).problem ?? [],
  );
  const [first] = wrong;
  if (first === undefined) return;
  const many = wrong.length === 1 ? 'One pasted cell' : `${wrong.length} pasted cells`;
  session.offer({
    says: `${many} cannot be read or ${wrong.length === 1 ? 'is' : 'are'} not allowed there, such as: ${first.says}`,
    answers: [{ says: 'Undo the paste', does: () => session.undo() }],
    putAway: 'Leave it',
  });
}

function selectPasted(session: Session, target: Area): void {
  report(session, session.at, target);
  if (target.top !== target.bottom || target.left !== target.right) {
    session.select(target, { sheet: session.at.sheet, row: target.top, column: target.left });
  }
}
