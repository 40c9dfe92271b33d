// Which results of a workbook follow in another program: those that move here and rest on nothing that stands as its
// last value there. The page of what goes along counts them; the judge of tests/interchange holds that they do.
import { BookState, columnName, formulaOf, nodesOf, writtenSheet } from '@kerfbook/document';

/**
 * @typedef {import('@kerfbook/workbook').Workbook} Workbook
 * @typedef {import('@kerfbook/document').At} At
 * @typedef {Readonly<Record<string, number>>} Change
 */

const MOST = 10;

/**
 * Up to ten inputs, each a tenth of its range further on.
 * @param {Workbook} book
 * @returns {readonly Change[]}
 */
export function changesOf(book) {
  /** @type {Change[]} */
  const found = [];
  for (const { name } of book.names()) {
    const cell = book.named(name);
    const { min, max } = cell?.allow ?? {};
    if (cell?.role !== 'input' || cell.value.kind !== 'number') continue;
    if (min === undefined || max === undefined) continue;
    const step = (max - min) / 10;
    const now = cell.value.number;
    const next = now + step <= max ? now + step : now - step;
    const typed = cell.allow?.whole === true ? Math.round(next) : Number(next.toPrecision(9));
    if (isTypedAsIs(book, name, typed)) found.push({ [name]: typed });
  }
  const every = Math.max(1, Math.floor(found.length / MOST));
  return found.filter((_, at) => at % every === 0).slice(0, MOST);
}

/**
 * Whether a cell is shown in the workbook's own unit: what is typed into others is another number.
 * @param {Workbook} book
 * @param {string} name
 * @param {number} value
 */
function isTypedAsIs(book, name, value) {
  typeInto(book, { [name]: value });
  const now = book.value(placeOf(book, name));
  book.undo();
  return now.kind === 'number' && now.number === value;
}

/**
 * @param {Workbook} book
 * @param {string} name
 */
function placeOf(book, name) {
  const place = book.named(name)?.at;
  if (place === undefined) throw new Error(`there is no ${name}`);
  return place;
}

/**
 * Types numbers into named cells.
 * @param {Workbook} book
 * @param {Change} change
 */
export function typeInto(book, change) {
  for (const [name, value] of Object.entries(change)) {
    const place = placeOf(book, name);
    const cells = [{ row: place.row, column: place.column, text: String(value) }];
    const done = book.apply({ do: 'enter', sheet: place.sheet, cells });
    if (!done.ok) throw new Error(done.says);
  }
}

/**
 * How many results move when inputs are changed one by one, and how many of them follow there.
 * @param {Workbook} book
 * @param {readonly { readonly kind: string, readonly of: string }[]} told what is told of the file
 */
export function followingOf(book, told) {
  const frozen = new Set(told.filter(({ kind }) => kind === 'frozen').map(({ of }) => of));
  const cells = formulasOf(book, frozen);
  const before = new Map([...cells].map(([key, { at }]) => [key, JSON.stringify(book.value(at))]));
  let moved = 0;
  let follow = 0;
  for (const change of changesOf(book)) {
    typeInto(book, change);
    const moves = [...cells].flatMap(([key, { at }]) =>
      JSON.stringify(book.value(at)) === before.get(key) ? [] : [key],
    );
    for (const _ of Object.keys(change)) book.undo();
    const held = restingOnHeld(cells, new Set(moves));
    moved += moves.length;
    follow += moves.filter((key) => !held.has(key)).length;
  }
  return { moved, follow };
}

/**
 * @param {Workbook} book
 * @param {ReadonlySet<string>} frozen
 */
function formulasOf(book, frozen) {
  const state = BookState.of(book.document());
  /** @type {Map<string, { readonly at: At, readonly isFrozen: boolean, readonly on: readonly string[] }>} */
  const found = new Map();
  for (const { id, name } of book.sheets()) {
    for (const [row, line] of (state.sheet(id)?.rows ?? []).entries()) {
      for (const [columnId, cell] of line.cells) {
        const column = state.columnIndex(id, columnId);
        const read = formulaOf(cell);
        if (column === undefined || read === undefined) continue;
        const where = `${writtenSheet(name)}!${columnName(column)}${row + 1}`;
        const on = read.root === undefined ? [] : placesIn(read.root, id, state);
        const at = { sheet: id, row, column };
        found.set(keyOf(at), { at, isFrozen: frozen.has(where), on });
      }
    }
  }
  return found;
}

const keyOf = (/** @type {At} */ { sheet, row, column }) => `${sheet} ${row} ${column}`;

/**
 * The cells that a formula looks at.
 * @param {import('@kerfbook/document').Node} root
 * @param {string} home
 * @param {BookState} state
 */
function placesIn(root, home, state) {
  /** @type {string[]} */
  const found = [];
  for (const node of nodesOf(root)) {
    if (node.kind === 'name') {
      const at = state.named(node.name);
      if (at !== undefined) found.push(keyOf(at));
    } else if (node.kind === 'reference') {
      const { sheet = home, from, to = from } = node.to;
      const rows = [state.rowIndex(sheet, from.row ?? ''), state.rowIndex(sheet, to.row ?? '')];
      const columns = [
        state.columnIndex(sheet, from.column ?? ''),
        state.columnIndex(sheet, to.column ?? ''),
      ];
      const [top = 0, bottom = (state.sheet(sheet)?.rows.length ?? 1) - 1] = rows;
      const [left = 0, right = (state.sheet(sheet)?.columns.length ?? 1) - 1] = columns;
      for (let row = top; row <= bottom; row += 1) {
        for (let column = left; column <= right; column += 1)
          found.push(keyOf({ sheet, row, column }));
      }
    }
  }
  return found;
}

/**
 * Of cells that move, those that stand as their last value or rest on one that does.
 * @param {ReturnType<typeof formulasOf>} cells
 * @param {ReadonlySet<string>} moves
 */
function restingOnHeld(cells, moves) {
  /** @type {Set<string>} */
  const held = new Set();
  for (let size = -1; size !== held.size; ) {
    size = held.size;
    for (const key of moves) {
      const cell = cells.get(key);
      if (cell?.isFrozen === true || cell?.on.some((one) => held.has(one))) held.add(key);
    }
  }
  return held;
}
