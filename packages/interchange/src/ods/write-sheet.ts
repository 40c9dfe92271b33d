import { columnName, type Node } from '@kerfbook/document';
import { errorThere } from '../flat/errors-there.ts';
import type { FlatAllow, FlatBook, FlatCell, FlatSheet } from '../flat/flat-book.ts';
import { DEFAULT_WIDTH_PX, isWide } from '../flat/looks.ts';
import { type Writing, writeFormula, writeNumber } from '../flat/write-formula.ts';
import { element, escaped } from '../xml/write.ts';
import type { CellStyles, Condition } from './cell-styles.ts';
import { sheetThere } from './open-formula.ts';
import { paragraphs, writable } from './texts.ts';

/** What all sheets of a file share. */
export interface Shared {
  readonly book: FlatBook;
  readonly styles: CellStyles;
  readonly rules: Rules;
  readonly columns: Once;
  /** A formula's references and names as the file has them. */
  writing(sheet: string): Writing;
}

/** Things that stand once and are known by a name. */
export class Once {
  readonly #names = new Map<string, string>();
  readonly #prefix: string;

  constructor(prefix: string) {
    this.#prefix = prefix;
  }

  of(key: string): string {
    const name = this.#names.get(key) ?? `${this.#prefix}${this.#names.size + 1}`;
    this.#names.set(key, name);
    return name;
  }

  get all(): readonly (readonly [key: string, name: string])[] {
    return [...this.#names];
  }
}

/** What cells take (OpenDocument 1.3 part 3, 9.4.5). */
export class Rules {
  readonly #once = new Once('takes');

  /** The rule's name; undefined where a cell takes anything. */
  of(allow: FlatAllow): string | undefined {
    const condition = conditionOf(allow);
    return condition === undefined ? undefined : this.#once.of(`of:${condition}`);
  }

  /** All of them; nothing where there are none. */
  text(base: string): string {
    const all = this.#once.all.map(([condition, name]) =>
      element(
        'table:content-validation',
        {
          'table:name': name,
          'table:condition': condition,
          'table:allow-empty-cell': 'true',
          'table:base-cell-address': base,
        },
        element('table:error-message', {
          'table:message-type': 'stop',
          'table:display': 'true',
        }),
      ),
    );
    return all.length === 0 ? '' : element('table:content-validations', {}, all.join(''));
  }
}

function conditionOf({ list, min, max, whole }: FlatAllow): string | undefined {
  if (list !== undefined) {
    const entries = list.map((entry) => `"${writable(entry).replaceAll('"', '""')}"`);
    return `cell-content-is-in-list(${entries.join(';')})`;
  }
  const kind =
    whole === true ? 'cell-content-is-whole-number()' : 'cell-content-is-decimal-number()';
  const [from, to] = [min, max].map((one) => (one === undefined ? '' : writeNumber(one)));
  if (min !== undefined && max !== undefined)
    return `${kind} and cell-content-is-between(${from},${to})`;
  if (min !== undefined) return `${kind} and cell-content()>=${from}`;
  if (max !== undefined) return `${kind} and cell-content()<=${to}`;
  return whole === true ? kind : undefined;
}

/** One sheet as a table. */
export function tableText(sheet: FlatSheet, shared: Shared): string {
  return element(
    'table:table',
    {
      'table:name': sheet.name,
      'table:style-name': tableStyle(sheet),
      'table:protected': sheet.isLocked ? 'true' : undefined,
    },
    columns(sheet, shared) + rows(sheet, shared),
  );
}

/** The name of a table's style: its page, and whether it is seen. */
export const tableStyle = ({ columns: all, isHidden }: FlatSheet): string =>
  `ta_${isWide(all) ? 'across' : 'upright'}${isHidden ? '_hidden' : ''}`;

const PX_PER_INCH = 96;

/** Widths are told to a hundredth of a pixel. */
export const inches = (px: number): string => `${Math.round((px / PX_PER_INCH) * 1e4) / 1e4}in`;

function columns(sheet: FlatSheet, { columns: styles }: Shared): string {
  const wide = sheet.cells.reduce((most, { column }) => Math.max(most, column + 1), 1);
  return Array.from({ length: Math.max(wide, sheet.columns.length) }, (_, at) => {
    const { width = DEFAULT_WIDTH_PX, isHidden = false } = sheet.columns[at] ?? {};
    return element('table:table-column', {
      'table:style-name': styles.of(inches(width)),
      'table:visibility': isHidden ? 'collapse' : undefined,
      'table:default-cell-style-name': 'Default',
    });
  }).join('');
}

function rows(sheet: FlatSheet, shared: Shared): string {
  const marked = conditionsOf(sheet, shared);
  const byRow = new Map<number, FlatCell[]>();
  const put = (cell: FlatCell): void => {
    const line = byRow.get(cell.row);
    if (line === undefined) byRow.set(cell.row, [cell]);
    else line.push(cell);
  };
  for (const cell of sheet.cells) put(cell);
  // Cells without anything in them follow their check too.
  const filled = new Set(
    marked.size === 0 ? [] : sheet.cells.map(({ row, column }) => `${row} ${column}`),
  );
  for (const place of marked.keys()) {
    const [row = 0, column = 0] = place.split(' ').map(Number);
    if (!filled.has(place)) put({ row, column, value: { kind: 'empty' }, look: {} });
  }
  const last = Math.max(0, ...byRow.keys(), sheet.rows.length - 1);
  const lines: { readonly text: string; readonly group: number }[] = [];
  for (let row = 0; row <= last; row += 1) {
    const { isHidden = false, group = 0 } = sheet.rows[row] ?? {};
    lines.push({ text: rowText(byRow.get(row) ?? [], isHidden, marked, sheet, shared), group });
  }
  // Lines that are printed again on each page may not be part of a group.
  const head = lines.slice(0, sheet.frozen.rows).some(({ group }) => group > 0)
    ? 0
    : Math.min(sheet.frozen.rows, lines.length);
  const first = lines.slice(0, head).map(({ text }) => text);
  return (
    (head === 0 ? '' : element('table:table-header-rows', {}, first.join(''))) +
    grouped(lines.slice(head), 0)
  );
}

/** Rows of deeper groups within those of the ones around them. */
function grouped(
  lines: readonly { readonly text: string; readonly group: number }[],
  level: number,
): string {
  let text = '';
  for (let at = 0; at < lines.length; ) {
    let end = at;
    while (end < lines.length && (lines[end]?.group ?? 0) > level) end += 1;
    if (end === at) {
      text += lines[at]?.text ?? '';
      at += 1;
    } else {
      text += element('table:table-row-group', {}, grouped(lines.slice(at, end), level + 1));
      at = end;
    }
  }
  return text;
}

function rowText(
  cells: readonly FlatCell[],
  isHidden: boolean,
  marked: ReadonlyMap<string, readonly Condition[]>,
  sheet: FlatSheet,
  shared: Shared,
): string {
  let text = '';
  let next = 0;
  // Those that only follow a check came behind the others.
  const inOrder = marked.size === 0 ? cells : [...cells].sort((a, b) => a.column - b.column);
  for (const cell of inOrder) {
    const { row, column } = cell;
    const conditions = marked.size === 0 ? NONE : (marked.get(`${row} ${column}`) ?? NONE);
    text += blanks(column - next);
    text += cellText(cell, conditions, sheet, shared);
    next = column + 1;
  }
  return element(
    'table:table-row',
    {
      'table:style-name': 'ro1',
      'table:visibility': isHidden ? 'collapse' : undefined,
    },
    text === '' ? blanks(1) : text,
  );
}

const NONE: readonly Condition[] = [];

const blanks = (count: number): string =>
  count <= 0
    ? ''
    : element('table:table-cell', {
        'table:number-columns-repeated': count > 1 ? count : undefined,
      });

/** What each cell that follows a check follows, by `row column`. */
function conditionsOf(
  sheet: FlatSheet,
  { book }: Shared,
): ReadonlyMap<string, readonly Condition[]> {
  const found = new Map<string, Condition[]>();
  for (const { from, to, severity, holds } of sheet.marks) {
    const name = sheetThere(book.sheets[holds.sheet]?.name ?? '');
    const when = `is-true-formula(NOT([$${name}.$${columnName(holds.column)}$${holds.row + 1}]))`;
    for (let row = from.row; row <= to.row; row += 1) {
      for (let column = from.column; column <= to.column; column += 1) {
        const key = `${row} ${column}`;
        const list = found.get(key) ?? [];
        if (list.length === 0) found.set(key, list);
        list.push({ when, severity });
      }
    }
  }
  return found;
}

/** Most of a file is cells: they are written without going through attributes by their names. */
function cellText(
  cell: FlatCell,
  conditions: readonly Condition[],
  sheet: FlatSheet,
  shared: Shared,
): string {
  const { look, format, value, formula, remark, allow } = cell;
  let head = '<table:table-cell';
  if (conditions.length > 0) {
    const base = `${sheetThere(sheet.name)}.A1`;
    head += said('table:style-name', shared.styles.of(look, format, conditions, base));
  } else if (Object.keys(look).length > 0 || format !== undefined) {
    head += said('table:style-name', shared.styles.of(look, format, conditions));
  }
  const rule = allow === undefined || formula !== undefined ? undefined : shared.rules.of(allow);
  if (rule !== undefined) head += said('table:content-validation-name', rule);
  if (formula !== undefined) {
    head += said('table:formula', `of:=${formulaText(formula.root, sheet, shared)}`);
    if (formula.isArray)
      head += ' table:number-matrix-columns-spanned="1" table:number-matrix-rows-spanned="1"';
    // The format knows no error as a value: one that stands there by itself is a formula.
  } else if (value.kind === 'error') {
    head += said('table:formula', `of:=${errorThere(value.error.word)}`);
  }
  const held = heldOf(cell);
  const inside = (remark === undefined ? '' : annotation(remark)) + held.text;
  head += held.about;
  return inside === '' ? `${head}/>` : `${head}>${inside}</table:table-cell>`;
}

const said = (name: string, value: string): string => ` ${name}="${escaped(value)}"`;

/** What a cell says that it holds, and what it shows. */
interface Held {
  readonly about: string;
  readonly text: string;
}

const EMPTY_WORDS = `${said('office:value-type', 'string')}${said('office:string-value', '')}`;

function heldOf({ value, formula, format }: FlatCell): Held {
  switch (value.kind) {
    case 'empty':
      // A formula that comes to nothing shows no words.
      return { about: formula === undefined ? '' : EMPTY_WORDS, text: '' };
    case 'number': {
      const day = format === DAY_FORMAT ? dayText(value.number) : undefined;
      if (day !== undefined) {
        return {
          about: `${said('office:value-type', 'date')}${said('office:date-value', day)}`,
          text: paragraphs(day),
        };
      }
      const number = writeNumber(value.number);
      return {
        about: ` office:value-type="float" office:value="${number}"`,
        text: paragraphs(number),
      };
    }
    case 'logical': {
      const is = value.logical ? 'true' : 'false';
      return {
        about: `${said('office:value-type', 'boolean')}${said('office:boolean-value', is)}`,
        text: paragraphs(is.toUpperCase()),
      };
    }
    case 'error':
      return { about: EMPTY_WORDS, text: paragraphs(errorThere(value.error.word)) };
    case 'text': {
      const string = formula === undefined ? '' : said('office:string-value', writable(value.text));
      return {
        about: `${said('office:value-type', 'string')}${string}`,
        text: paragraphs(value.text),
      };
    }
  }
}

const DAY_FORMAT = 'yyyy-mm-dd';
const DAY_MS = 86_400_000;
/** 1970-01-01, counted from 1899-12-30. */
const FIRST_DAY = 25_569;
const LAST_DAY = 2_958_465;

/** A whole day as it is written; others are numbers. */
const dayText = (serial: number): string | undefined =>
  Number.isInteger(serial) && serial >= 1 && serial <= LAST_DAY
    ? new Date((serial - FIRST_DAY) * DAY_MS).toISOString().slice(0, 10)
    : undefined;

const formulaText = (root: Node, sheet: FlatSheet, shared: Shared): string =>
  writable(writeFormula(root, shared.writing(sheet.id ?? '')));

const annotation = (remark: string): string =>
  element('office:annotation', {}, `<dc:creator>Kerfbook</dc:creator>${paragraphs(remark)}`);
