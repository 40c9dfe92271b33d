import {
  type At,
  BookState,
  type CellDocument,
  cellOf,
  columnName,
  formulaOf,
  type Node,
  nameKey,
  writtenSheet,
  writtenText,
} from '@kerfbook/document';
import type { CellValue, OpenWorkbook } from '@kerfbook/workbook';
import { aboutSheet } from './about-sheet.ts';
import { checksSheet } from './checks-sheet.ts';
import type { FigureSource } from './figure-forms.ts';
import type {
  FlatBook,
  FlatCell,
  FlatFormula,
  FlatName,
  FlatSheet,
  Look,
  ToldOut,
} from './flat-book.ts';
import { FILLS, type Outcome, outcomeOf } from './kept-formula.ts';
import { isNameThere, tableName } from './names-there.ts';
import { numberFormat } from './number-format.ts';
import { sheetNames } from './sheet-names.ts';
import type { TableColumn } from './table-forms.ts';
import { fixedAddress, lettersAtMost, type Writing, writeFormula } from './write-formula.ts';

/** What is read of an open workbook. */
export type Source = Pick<
  OpenWorkbook,
  'document' | 'value' | 'cell' | 'choices' | 'checks' | 'evaluate' | 'units' | 'title'
>;

type RangeNode = Extract<Node, { readonly kind: 'reference' }>;

/** Letters of a formula that other programs read at most. */
const LONGEST_FORMULA = 8_192;
/** Letters of a cell, and of a remark. */
export const LONGEST_TEXT = 32_767;
const CHECKS = 'Checks';
const ABOUT = 'About this file';

/** One workbook on its way out. */
export class Flattening {
  readonly #book: Source;
  /** With the sheets' names as the file has them. */
  readonly state: BookState;
  readonly #own: BookState;
  readonly told: ToldOut[] = [];

  constructor(book: Source) {
    this.#book = book;
    const document = book.document();
    this.#own = BookState.of(document);
    const names = sheetNames(document.sheets.map(({ name }) => name));
    const isSame = document.sheets.every(({ name }, at) => names[at] === name);
    this.state = isSame
      ? this.#own
      : BookState.of({
          ...document,
          sheets: document.sheets.map((sheet, at) => ({ ...sheet, name: names[at] ?? sheet.name })),
        });
    for (const [at, { name }] of document.sheets.entries()) {
      if (names[at] !== name) {
        this.tell('sheet-name', name, `The sheet is called "${names[at]}" in the file.`);
      }
    }
  }

  /** The whole of it. */
  whole(): FlatBook {
    const own = this.state.sheets.map((sheet) => this.#sheet(sheet.id));
    const taken = own.map(({ name }) => name);
    const [checksName = CHECKS] = sheetNames([CHECKS], taken);
    const checks = checksSheet(this, this.#book.checks(), checksName, own.length);
    const marked = own.map((sheet) => ({
      ...sheet,
      marks: checks?.marks.get(sheet.id ?? '') ?? [],
    }));
    const [aboutName = ABOUT] = sheetNames([ABOUT], [...taken, checksName]);
    const names = [...this.#names(), ...this.#tables()];
    const about = aboutSheet(aboutName, this.#book.title, this.told);
    return {
      title: this.#book.title,
      sheets: [...marked, ...(checks === undefined ? [] : [checks.sheet]), about],
      names,
      told: this.told,
    };
  }

  /** Something goes out otherwise than it is. */
  tell(kind: ToldOut['kind'], of: string, says: string): void {
    this.told.push({ kind, of, says });
  }

  /** A formula of a sheet or a check, as text of the file's kind without later functions' prefixes. */
  writing(sheet: string): Writing {
    return {
      state: this.state,
      sheet,
      functionName: (name) => name,
      nameOf: (name) => this.#nameThere(name),
    };
  }

  /** The same with a format's own words, one for each sheet. */
  writings(words: Partial<Writing>): (sheet: string) => Writing {
    const known = new Map<string, Writing>();
    return (sheet) => {
      const writing = known.get(sheet) ?? { ...this.writing(sheet), ...words };
      known.set(sheet, writing);
      return writing;
    };
  }

  /** What becomes of a formula; what is written out is looked at in the workbook itself first. */
  formulaOut(
    root: Node | undefined,
    value: CellValue,
    home: { readonly sheet: string; readonly evaluates: string },
  ): { readonly formula: FlatFormula } | { readonly why: string } {
    if (root === undefined) return { why: 'It cannot be read.' };
    const outcome = outcomeOf(root, this.#book.units, this.#figures(home));
    if (!outcome.kept) return outcome;
    const { kept: _kept, ...formula } = outcome;
    if (lettersAtMost(formula.root) + LONGER_NAMES > LONGEST_FORMULA) {
      const { length } = writeFormula(formula.root, this.writing(home.sheet));
      if (length + LONGER_NAMES > LONGEST_FORMULA)
        return { why: `It has ${length} letters, and other programs read ${LONGEST_FORMULA}.` };
    }
    if (value.kind === 'error' && UNKNOWN_THERE.has(value.error.word)) {
      return { why: `It is ${value.error.word}.` };
    }
    if (!formula.isWrittenOut) return { formula };
    const comes = this.#evaluated(formula.root, home.evaluates);
    return sameValue(comes, value)
      ? { formula }
      : { why: 'Written out in standard functions it would not come to the same.' };
  }

  /** What a formula comes to in the workbook itself; a long one is worked out from what its parts come to. */
  #evaluated(root: Node, sheet: string): CellValue {
    const written = (node: Node): string =>
      writeFormula(node, {
        state: this.#own,
        sheet,
        functionName: (name) => name,
        nameOf: (name) => name,
      });
    const asValue = (node: Node): Node => {
      if (written(node).length <= LONG_PART) return node;
      const value = this.#evaluated(node, sheet);
      if (value.kind === 'logical') return { kind: 'logical', value: value.logical };
      return value.kind === 'number' ? { kind: 'number', value: value.number } : node;
    };
    const text = written(root);
    const isLong = text.length > LONG_FORMULA;
    return this.#book.evaluate(`=${isLong ? written(shortened(root, asValue)) : text}`, sheet);
  }

  /** Figures are asked of the workbook once for each word. */
  readonly #asked = new Map<string, number | undefined>();
  readonly #sources = new Map<string, FigureSource>();

  #figures({
    sheet,
    evaluates,
  }: {
    readonly sheet: string;
    readonly evaluates: string;
  }): FigureSource {
    const key = `${sheet} ${evaluates}`;
    const known = this.#sources.get(key) ?? this.#figuresOf(sheet, evaluates);
    this.#sources.set(key, known);
    return known;
  }

  #figuresOf(sheet: string, evaluates: string): FigureSource {
    const placeOf = (argument: Node): At | undefined =>
      argument.kind === 'name'
        ? this.state.named(argument.name)
        : argument.kind === 'reference' && argument.to.to === undefined
          ? cellOf(argument.to.from, argument.to.sheet ?? sheet, this.state)
          : undefined;
    const wordsOf = (argument: Node): readonly string[] | undefined => {
      if (argument.kind === 'text') return [argument.value];
      if (argument.kind === 'bracket') return wordsOf(argument.of);
      if (argument.kind === 'call' && argument.name === 'IF' && argument.args.length === 3) {
        const ways = argument.args.slice(1).map(wordsOf);
        return ways.includes(undefined)
          ? undefined
          : [...new Set(ways.flatMap((words) => words ?? []))];
      }
      const at = placeOf(argument);
      return at === undefined ? undefined : this.#wordsAt(at);
    };
    return {
      wordsOf: (argument) => {
        const words = wordsOf(argument);
        // A star or a question mark stands for other letters where a word is looked for.
        return words?.some((word) => /[*?~]/.test(word)) === true ? undefined : words;
      },
      isNumber: (argument) => {
        const at = placeOf(argument);
        if (at === undefined) return argument.kind === 'number';
        return this.#book.value(at).kind === 'number';
      },
      columnsOf: (argument) => this.#columnsOf(argument, sheet),
      lettersOf: (node) => writeFormula(node, this.writing(sheet)).length,
      priceColumns: () => {
        const list = this.#priceList();
        return list === undefined ? undefined : this.#columnsOf(list, sheet);
      },
      pricedWoods: () => this.#pricedWoods(),
      number: (formula) => {
        if (!this.#asked.has(formula)) {
          const value = this.#book.evaluate(formula, evaluates);
          this.#asked.set(formula, value.kind === 'number' ? value.number : undefined);
        }
        return this.#asked.get(formula);
      },
    };
  }

  /** The one price list, from its head to its last row; undefined where there is none, or where there are several. */
  #priceList(): RangeNode | undefined {
    const [table, ...others] = this.state.tables.filter(({ kind }) => kind === 'prices');
    if (table === undefined || others.length > 0) return undefined;
    const columns = this.state.sheet(table.sheet)?.columns ?? [];
    const [first, last] = [columns[0]?.id, columns.at(-1)?.id];
    if (first === undefined || last === undefined) return undefined;
    const corner = (row: string, column: string) => ({
      row,
      column,
      rowFixed: true,
      columnFixed: true,
    });
    return {
      kind: 'reference',
      to: {
        sheet: table.sheet,
        from: corner(table.header, first),
        to: corner(table.last, last),
      },
    };
  }

  /** The names that its first column has. */
  #pricedWoods(): readonly string[] {
    const list = this.#priceList();
    const range = list && this.#columnsOf(list, list.to.sheet ?? '')?.get('wood')?.range;
    if (range?.kind !== 'reference' || range.to.sheet === undefined) return [];
    const { sheet, from, to = from } = range.to;
    const column = this.state.columnIndex(sheet, from.column ?? '') ?? 0;
    const top = this.state.rowIndex(sheet, from.row ?? '') ?? 0;
    const bottom = this.state.rowIndex(sheet, to.row ?? '') ?? top;
    const found = new Set<string>();
    for (let row = top; row <= bottom; row += 1) {
      const value = this.#book.value({ sheet, row, column });
      if (value.kind === 'text') found.add(value.text);
    }
    return [...found];
  }

  /** The columns of a range by the heads in its first row. */
  #columnsOf(argument: Node, home: string): ReadonlyMap<string, TableColumn> | undefined {
    if (argument.kind !== 'reference' || argument.to.to === undefined) return undefined;
    const { from, to } = argument.to;
    const id = argument.to.sheet ?? home;
    const sheet = this.state.sheet(id);
    const top = this.state.rowIndex(id, from.row ?? '');
    const bottom = this.state.rowIndex(id, to.row ?? '');
    const left = this.state.columnIndex(id, from.column ?? '');
    const right = this.state.columnIndex(id, to.column ?? '');
    if (sheet === undefined || top === undefined || bottom === undefined) return undefined;
    if (left === undefined || right === undefined || bottom <= top) return undefined;
    const row = this.state.rowId(id, top + 1);
    const found = new Map<string, TableColumn>();
    for (let column = left; column <= right; column += 1) {
      const head = this.#book.value({ sheet: id, row: top, column });
      const corner = this.state.columnId(id, column);
      if (head.kind !== 'text' || row === undefined || corner === undefined) continue;
      const key = head.text.trim().toLowerCase();
      const isBlank = sheet.rows
        .slice(top + 1, bottom + 1)
        .every(
          (_, at) =>
            sheet.cell(top + 1 + at, column)?.value === undefined &&
            sheet.cell(top + 1 + at, column)?.formula === undefined,
        );
      const range: Node = {
        kind: 'reference',
        to: {
          ...argument.to,
          from: { ...from, row, column: corner },
          to: { ...to, column: corner },
        },
      };
      // Of two alike it cannot be told which is meant.
      if (found.has(key)) return undefined;
      const cells = () =>
        sheet.rows.slice(top + 1, bottom + 1).map(({ id: rowId }, at) => ({
          value: this.#book.value({ sheet: id, row: top + 1 + at, column }),
          isTyped: sheet.cell(top + 1 + at, column)?.formula === undefined,
          cell: {
            kind: 'reference' as const,
            to: { sheet: id, from: { ...from, row: rowId, column: corner } },
          },
        }));
      found.set(key, { range, isBlank, cells });
    }
    return found;
  }

  /** The words that a cell may hold: those it offers, or the one of a cell that is no input. */
  #wordsAt(at: At): readonly string[] | undefined {
    const offered = this.#book.choices(at)?.map(({ text }) => text);
    if (offered !== undefined) return offered;
    const { value, formula, role, name } =
      this.state.sheet(at.sheet)?.cell(at.row, at.column) ?? ({} as CellDocument);
    const isFixed = formula === undefined && role !== 'input' && name === undefined;
    return typeof value === 'string' && isFixed ? [value] : undefined;
  }

  #sheet(id: string): FlatSheet {
    const sheet = this.state.sheet(id);
    if (sheet === undefined) throw new RangeError(`there is no sheet ${id}`);
    const cells: FlatCell[] = [];
    const { rows, columns } = sheet;
    for (const [row, line] of rows.entries()) {
      const inRow: FlatCell[] = [];
      for (const [columnId, cell] of line.cells) {
        const column = sheet.columnIndex(columnId);
        if (column === undefined) continue;
        const one = this.#cell({ sheet: id, row, column }, cell);
        if (one !== undefined) inRow.push(one);
      }
      inRow.sort((a, b) => a.column - b.column);
      for (const one of inRow) cells.push(one);
    }
    return {
      name: sheet.name,
      id,
      isHidden: sheet.isHidden,
      isLocked: this.state.head.locked === true,
      columns: columns.map(({ width, hidden }) => ({
        ...(width === undefined ? {} : { width }),
        isHidden: hidden === true,
      })),
      rows: rows.map(({ hidden, group }) => ({ isHidden: hidden === true, group: group ?? 0 })),
      frozen: { rows: sheet.frozenRows ?? 0, columns: sheet.frozenColumns ?? 0 },
      cells: withSpilled(cells, this.#spilled(id)),
      marks: [],
    };
  }

  /** Sheets with formulas that may fill other cells, by their ids; known once their cells were looked at. */
  readonly #filling = new Set<string>();

  /** Values that a formula of another cell puts where nothing is written. */
  #spilled(id: string): FlatCell[] {
    const sheet = this.state.sheet(id);
    const found: FlatCell[] = [];
    if (sheet === undefined || !this.#filling.has(id)) return found;
    for (let row = 0; row < sheet.rows.length; row += 1) {
      for (let column = 0; column < sheet.columns.length; column += 1) {
        const cell = sheet.cell(row, column);
        if (cell?.value !== undefined || cell?.formula !== undefined) continue;
        const value = this.#book.value({ sheet: id, row, column });
        if (value.kind !== 'empty' && cell === undefined)
          found.push({ row, column, value, look: {} });
      }
    }
    return found;
  }

  #cell(at: At, cell: CellDocument): FlatCell | undefined {
    const value = this.#book.value(at);
    const where = (): string =>
      `${writtenSheet(this.#own.sheetName(at.sheet) ?? '')}!${columnName(at.column)}${at.row + 1}`;
    const remarks = cell.remark === undefined ? [] : [cell.remark];
    const format = numberFormat(cell, this.state.head, value);
    if (format.shownIn !== undefined) {
      remarks.push(`Shown in ${format.shownIn} in the workbook.`);
      this.tell('unit', where(), `The workbook shows it in ${format.shownIn}.`);
    }
    const formula = this.#formula(at, cell, value, where, remarks);
    const allow = this.#allow(at, cell);
    const remark = this.#cut(remarks.join('\n'), where);
    const flat: { -readonly [key in keyof FlatCell]: FlatCell[key] } = {
      row: at.row,
      column: at.column,
      value: this.#valueThere(value, where),
      look: lookOf(cell),
    };
    if (formula !== undefined) flat.formula = formula;
    if (format.code !== undefined) flat.format = format.code;
    if (remark !== '') flat.remark = remark;
    if (allow !== undefined) flat.allow = allow;
    return flat;
  }

  #formula(
    at: At,
    cell: CellDocument,
    value: CellValue,
    where: () => string,
    remarks: string[],
  ): FlatFormula | undefined {
    const read = formulaOf(cell);
    if (read === undefined) return undefined;
    const text = (): string => writtenText(read, at.sheet, this.#own);
    if (cell.override !== undefined) {
      if (read.root !== undefined && fills(outcomeOf(read.root, this.#book.units)))
        this.#filling.add(at.sheet);
      remarks.push(`Typed over its formula. In the workbook: ${text()}`);
      this.tell('frozen', where(), 'It was typed over; its formula stands in the remark.');
      return undefined;
    }
    const out = this.formulaOut(read.root, value, { sheet: at.sheet, evaluates: at.sheet });
    if ('formula' in out) {
      const { isWrittenOut, holds } = out.formula;
      const holdsLine = holds === undefined ? '' : `\n${holds}`;
      if (isWrittenOut) remarks.push(`In the workbook: ${text()}${holdsLine}`);
      return out.formula;
    }
    if (out.why === FILLS) this.#filling.add(at.sheet);
    remarks.push(`Its last value. In the workbook: ${text()}\n${out.why}`);
    this.tell('frozen', where(), `Its last value stands for ${text()}. ${out.why}`);
    return undefined;
  }

  #valueThere(value: CellValue, where: () => string): CellValue {
    if (value.kind !== 'text') return value;
    const text = this.#cut(value.text, where);
    return text === value.text ? value : { kind: 'text', text };
  }

  #cut(text: string, where: () => string): string {
    if (text.length <= LONGEST_TEXT) return text;
    this.tell(
      'cut',
      where(),
      `It has ${text.length} letters; the file holds the first ${LONGEST_TEXT}.`,
    );
    return text.slice(0, LONGEST_TEXT);
  }

  #allow(at: At, cell: CellDocument): FlatCell['allow'] {
    const { allow } = cell;
    if (allow === undefined) return undefined;
    const list = this.#book.choices(at)?.map(({ text }) => text) ?? allow.list;
    return {
      ...(allow.min === undefined ? {} : { min: allow.min }),
      ...(allow.max === undefined ? {} : { max: allow.max }),
      ...(allow.whole === undefined ? {} : { whole: allow.whole }),
      ...(list === undefined ? {} : { list }),
    };
  }

  #names(): readonly FlatName[] {
    const index = new Map(this.state.sheets.map(({ id }, at) => [id, at]));
    return this.state.names().flatMap(({ name, at }) => {
      const sheet = index.get(at.sheet);
      if (sheet === undefined) return [];
      if (!isNameThere(name)) {
        this.tell(
          'name',
          name,
          'Other programs take no such name; formulas have its address instead.',
        );
        return [];
      }
      return [{ name, sheet, row: at.row, column: at.column }];
    });
  }

  /** Tables go along as named ranges, by which a file of ours knows them again. */
  #tables(): readonly FlatName[] {
    const met = new Map<string, number>();
    return this.state.tables.flatMap(({ kind, sheet: id, header, last }) => {
      const sheet = this.state.sheets.findIndex((one) => one.id === id);
      const row = this.state.rowIndex(id, header);
      const end = this.state.rowIndex(id, last);
      if (sheet < 0 || row === undefined || end === undefined) return [];
      const number = (met.get(kind) ?? 0) + 1;
      met.set(kind, number);
      const column = Math.max(0, (this.state.sheets[sheet]?.columns.length ?? 1) - 1);
      const name = tableName(kind, number);
      return [{ name, sheet, row, column: 0, to: { row: end, column } }];
    });
  }

  #nameThere(name: string): string {
    const home = this.state.homes.get(nameKey(name));
    if (home === undefined || isNameThere(home.name)) return home?.name ?? name;
    const at = this.state.named(name);
    return at === undefined ? '#REF!' : fixedAddress(this.state, at);
  }
}

const PLAIN: Look = {};

function lookOf({ role, style, override }: CellDocument): Look {
  if (role === undefined && style === undefined && override === undefined) return PLAIN;
  return {
    ...(role === undefined ? {} : { role }),
    ...(style === undefined ? {} : { style }),
    ...(override === undefined ? {} : { isOverridden: true as const }),
  };
}

/** The cells of a sheet with those that formulas of others fill, row by row. */
const withSpilled = (cells: readonly FlatCell[], spilled: readonly FlatCell[]) =>
  spilled.length === 0
    ? cells
    : [...cells, ...spilled].sort((a, b) => a.row - b.row || a.column - b.column);

/** Letters of a formula that the workbook works out in one go, and of one that stands in another. */
const LONG_FORMULA = 1_000;
const LONG_PART = 400;

/** A formula with something else in the place of its parts. */
function shortened(root: Node, part: (node: Node) => Node): Node {
  switch (root.kind) {
    case 'joined':
      return { ...root, left: part(root.left), right: part(root.right) };
    case 'bracket':
    case 'sign':
      return { ...root, of: part(root.of) };
    case 'call':
      return root.name === 'IF' ? { ...root, args: root.args.map(part) } : root;
    default:
      return root;
  }
}

/** Room for the prefixes of later functions, which are put in when the text is written. */
const LONGER_NAMES = 200;
/** Errors that no other program knows. */
const UNKNOWN_THERE: ReadonlySet<string> = new Set(['#CYCLE!', '#SPILL!', '#ERROR!', '#LIC!']);

const fills = (outcome: Outcome): boolean => !outcome.kept && outcome.why === FILLS;

/** Whether two values are the same but for the last bits of a number. */
export function sameValue(one: CellValue, other: CellValue): boolean {
  if (one.kind !== other.kind) return false;
  switch (one.kind) {
    case 'number':
      return other.kind === 'number' && near(one.number, other.number);
    case 'text':
      return other.kind === 'text' && one.text === other.text;
    case 'logical':
      return other.kind === 'logical' && one.logical === other.logical;
    case 'error':
      return other.kind === 'error' && one.error.word === other.error.word;
    case 'empty':
      return true;
  }
}

/** Sums in another order differ in their last digits. */
const near = (one: number, other: number): boolean =>
  one === other || Math.abs(one - other) <= 1e-9 * Math.max(Math.abs(one), Math.abs(other));
