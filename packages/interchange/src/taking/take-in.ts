import {
  type BookDocument,
  type CellDocument,
  keptNameProblem,
  LIMITS,
  nameKey,
  nameProblem,
  readWritten,
  sheetNameProblem,
  type TableDocument,
} from '@kerfbook/document';
import type { UnitSystem } from '@kerfbook/wood';
import { loadValue, SHOP_COLUMNS, Workbook } from '@kerfbook/workbook';
import { tableKind } from '../flat/names-there.ts';
import type { Hears } from '../onward.ts';
import { Unreadable } from '../unreadable.ts';
import { addedSheets } from './added-sheets.ts';
import { type CheckIn, checksIn } from './checks-in.ts';
import {
  type CellIn,
  type ComingIn,
  MOST_CELLS,
  type NameIn,
  type SheetIn,
  type ToldIn,
  type ValueIn,
} from './coming-in.ts';
import { showOf } from './format-code.ts';
import {
  type FormulaContext,
  type FormulaIn,
  formulaIn,
  formulaSeen,
  type NameMeant,
} from './formula-in.ts';
import { currencyOf, type Guess, guessesOf, unitsOf } from './guesses.ts';
import { type Agreed, inOwnUnits, type SheetCells } from './in-own-units.ts';
import { inShop, type Shop } from './in-shop.ts';
import { formulaInRemark } from './our-remarks.ts';
import { type FoundTable, foundParts, partsTable } from './parts-list.ts';
import { placeKey } from './place-key.ts';
import { placeName } from './place-name.ts';
import { ReadBy } from './read-by.ts';
import { agrees, said, saidIn, tellStates, withValues } from './settling.ts';
import { sheetDocument } from './sheet-document.ts';
import type { KnownUnit } from './units-in.ts';

/** What is said of how a file is to be taken. */
export interface TakeHow {
  /** What the workbook is called. */
  readonly title: string;
  /** The workbook's units; what the file speaks in where left out. */
  readonly units?: UnitSystem;
  /**
   * Whether a guess is taken, or what its numbers are instead; all are taken where left out.
   * @param at its place among the guesses, from 0
   */
  readonly takes?: (guess: Guess, at: number) => boolean | KnownUnit;
  /** A parts list that was found becomes the parts table: the first, or which of them, from 0. */
  readonly parts?: boolean | number;
  /** What the parts are cut from comes into a stock table beside them. */
  readonly shop?: Shop;
  /** Hears how far it is; large files take their time. */
  readonly onward?: Hears;
}

/** A file as a workbook, and what came of each thing in it. */
export interface TakenIn {
  /** It loads as it is. */
  readonly document: BookDocument;
  /** In the order in which they were met. */
  readonly told: readonly ToldIn[];
  /** Those taken, and those not. */
  readonly guesses: readonly Guess[];
  /** Lists of parts that were found. */
  readonly parts: readonly FoundTable[];
  /** How much of it there is. */
  readonly counts: {
    readonly sheets: number;
    /** Cells with something in them. */
    readonly cells: number;
    /** Formulas that go on working. */
    readonly formulas: number;
    /** Formulas whose last value stands. */
    readonly asValues: number;
  };
}

/** Kinds of tables with known columns. */
const KINDS: readonly TableDocument['kind'][] = [
  ...(Object.keys(SHOP_COLUMNS) as (keyof typeof SHOP_COLUMNS)[]),
  'woods',
  'screws',
  'finishes',
];

/**
 * Makes a workbook of a file that was read.
 * @throws Unreadable where it is larger than a workbook
 */
export function takeIn(file: ComingIn, how: TakeHow): TakenIn {
  return new Taking(file, how).whole();
}

class Taking {
  readonly #file: ComingIn;
  readonly #how: TakeHow;
  readonly #told: ToldIn[];
  readonly #sheets: readonly SheetIn[];
  /** What each sheet of the file is called now, by the name it has there. */
  readonly #called = new Map<string, { name: string; index: number }>();
  readonly #sizes: { rows: number; columns: number }[];
  /** Names of cells by `sheet row column`. */
  readonly #cellNames = new Map<string, string>();
  readonly #names = new Map<string, NameMeant>();
  readonly #units: UnitSystem;
  readonly #tables: TableDocument[] = [];
  readonly #readBy = new ReadBy((name) => this.#called.get(nameKey(name))?.index);
  #formulas = 0;
  #asValues = 0;

  constructor(file: ComingIn, how: TakeHow) {
    this.#file = file;
    this.#how = how;
    this.#told = [...file.told];
    this.#sheets = this.#chosen();
    this.#all = this.#sheets.reduce((sum, { cells }) => sum + cells.length, 0);
    this.#sizes = this.#sheets.map(({ cells, frozen }) => ({
      rows: Math.max(
        1,
        frozen.rows,
        cells.reduce((most, { row }) => Math.max(most, row + 1), 0),
      ),
      columns: Math.max(
        1,
        frozen.columns,
        cells.reduce((most, { column }) => Math.max(most, column + 1), 0),
      ),
    }));
    this.#units = how.units ?? unitsOf(this.#sheets);
  }

  whole(): TakenIn {
    this.#nameSheets();
    this.#meetNames();
    const cells = this.#sheets.map((sheet, index) => this.#cells(sheet, index));
    const checks = this.#checks();
    const currency = currencyOf(this.#sheets) ?? (this.#units === 'us' ? 'USD' : 'EUR');
    const guesses = guessesOf(this.#sheets, this.#units, (sheet, row, column) => {
      const { formula, value, name } = cells[sheet]?.get(placeKey(row, column)) ?? {};
      return (
        formula === undefined &&
        typeof value === 'number' &&
        !this.#readBy.reads(sheet, row, column, name)
      );
    });
    const { takes = () => true } = this.#how;
    const agreed = guesses.flatMap((guess, at): readonly Agreed[] => {
      const is = takes(guess, at);
      return is === false ? [] : [{ guess, is: is === true ? guess : is }];
    });
    const bare = inOwnUnits(cells, agreed, { units: this.#units, currency });
    const isSeen = this.#sheets.some(({ isHidden }) => !isHidden);
    const documents = this.#sheets.map((sheet, index) =>
      sheetDocument(sheet, cells[index] ?? new Map(), {
        index,
        name: this.#nameNow(index),
        size: this.#sizes[index] ?? { rows: 1, columns: 1 },
        isHidden: sheet.isHidden && isSeen,
      }),
    );
    const hasParts = this.#tables.some(({ kind }) => kind === 'parts');
    const parts = hasParts ? [] : foundParts(this.#sheets, this.#units, bare);
    const document: BookDocument = {
      kerfbook: 8,
      title: this.#how.title,
      units: this.#units,
      currency,
      sheets: documents,
      checks: checks.map(({ check }) => check),
      tables: this.#tables,
    };
    const wanted = this.#how.parts ?? false;
    const list = wanted === false ? undefined : parts[wanted === true ? 0 : wanted];
    const withParts = list === undefined ? document : partsTable(document, list);
    const settled = this.#settled(withParts, checks);
    return {
      document: inShop(settled, list, this.#how.shop),
      told: this.#told,
      guesses,
      parts,
      counts: {
        sheets: this.#sheets.length,
        cells: this.#sheets.reduce(
          (sum, sheet) =>
            sum +
            sheet.cells.filter(({ value, formula }) => value !== undefined || formula !== undefined)
              .length,
          0,
        ),
        formulas: this.#formulas,
        asValues: this.#asValues,
      },
    };
  }

  #chosen(): readonly SheetIn[] {
    const { sheets, isOurs } = this.#file;
    const added = isOurs ? addedSheets(sheets) : [];
    const kept = sheets.filter((sheet) => !added.includes(sheet));
    const chosen = kept.length === 0 ? sheets : kept;
    if (chosen.length < sheets.length) {
      const names = sheets
        .filter((sheet) => !chosen.includes(sheet))
        .map(({ name }) => `"${name}"`);
      this.#told.push({
        kind: 'sheet',
        of: 'the file',
        says: `${names.join(', ')} were added on the way out; they are left out.`,
      });
    }
    if (chosen.length <= LIMITS.sheets) return chosen;
    this.#told.push({
      kind: 'sheet',
      of: 'the file',
      says: `It has ${chosen.length} sheets; the first ${LIMITS.sheets} are taken.`,
    });
    return chosen.slice(0, LIMITS.sheets);
  }

  #nameSheets(): void {
    const used = new Set<string>();
    for (const [index, { name }] of this.#sheets.entries()) {
      const plain = name
        .replaceAll(/[[\]:*?/\\!#\p{C}\u2028\u2029]/gu, ' ')
        .replaceAll(/^['\s]+|['\s]+$/g, '')
        .slice(0, LIMITS.sheetName)
        .trim();
      let given =
        plain === '' || sheetNameProblem(plain) !== undefined ? `Sheet ${index + 1}` : plain;
      for (let number = 2; used.has(nameKey(given)); number += 1) {
        const mark = ` ${number}`;
        given = `${plain.slice(0, LIMITS.sheetName - mark.length).trim()}${mark}`;
      }
      used.add(nameKey(given));
      if (given !== name)
        this.#told.push({ kind: 'sheet', of: name, says: `The sheet is called "${given}" here.` });
      if (!this.#called.has(nameKey(name))) this.#called.set(nameKey(name), { name: given, index });
    }
  }

  /** One name for a cell; others are written out where they are used. */
  #meetNames(): void {
    const taken = new Set<string>();
    for (const one of this.#file.names) {
      if (this.#file.isOurs && this.#meetTable(one)) continue;
      const at = this.#cellOf(one);
      const key = `${one.sheet ?? ''} ${nameKey(one.name)}`;
      if (this.#names.has(key)) continue;
      if (at === undefined) {
        this.#names.set(key, { kind: 'means', means: one.means, sheet: one.sheet ?? 0 });
        this.#told.push({
          kind: 'name',
          of: one.name,
          says: 'It names no single cell; formulas have what it stands for instead.',
        });
        continue;
      }
      const place = keyOf(at.sheet, at.row, at.column);
      const given = this.#givenName(one.name, taken);
      if (given === undefined || this.#cellNames.has(place)) {
        this.#names.set(key, { kind: 'means', means: one.means, sheet: one.sheet ?? 0 });
        this.#told.push({
          kind: 'name',
          of: one.name,
          says:
            given === undefined
              ? 'No cell can be called so here; formulas have its address instead.'
              : 'Its cell has another name already; formulas have its address instead.',
        });
        continue;
      }
      if (given !== one.name)
        this.#told.push({
          kind: 'name',
          of: one.name,
          says: `The cell is called ${given} here, since ${one.name} could not be its name.`,
        });
      taken.add(nameKey(given));
      this.#cellNames.set(place, given);
      this.#names.set(key, { kind: 'name', name: given });
      this.#grow(at.sheet, at.row, at.column);
    }
  }

  /** Whether a name is that of a table of ours, which is a table again. */
  #meetTable({ name, means }: NameIn): boolean {
    const kind = KINDS.find((one) => one === tableKind(name));
    const written = readWritten(means);
    const [first, last] = [written?.from.row, written?.to?.row];
    const sheet = this.#called.get(nameKey(written?.sheet ?? ''));
    if (kind === undefined || sheet === undefined || first === undefined || last === undefined) {
      return false;
    }
    if (last < first || last >= LIMITS.rows || this.#tables.length >= LIMITS.tables) return false;
    this.#grow(sheet.index, last, 0);
    this.#tables.push({
      id: `t${this.#tables.length + 1}`,
      kind,
      sheet: `s${sheet.index + 1}`,
      header: `r${first + 1}`,
      last: `r${last + 1}`,
    });
    return true;
  }

  #givenName(name: string, taken: ReadonlySet<string>): string | undefined {
    const given = keptNameProblem(name) === undefined ? name : nameProblem(name)?.offer;
    if (given === undefined || keptNameProblem(given) !== undefined) return undefined;
    return taken.has(nameKey(given)) ? undefined : given;
  }

  #cellOf({
    means,
  }: NameIn):
    | { readonly sheet: number; readonly row: number; readonly column: number }
    | undefined {
    const written = readWritten(means.replace(/^=/, ''));
    if (written?.sheet === undefined || written.to !== undefined) return undefined;
    const { row, column } = written.from;
    const sheet = this.#called.get(nameKey(written.sheet));
    if (sheet === undefined || row === undefined || column === undefined) return undefined;
    return row < LIMITS.rows && column < LIMITS.columns
      ? { sheet: sheet.index, row, column }
      : undefined;
  }

  #grow(sheet: number, row: number, column: number): void {
    const size = this.#sizes[sheet];
    if (size === undefined) return;
    size.rows = Math.max(size.rows, row + 1);
    size.columns = Math.max(size.columns, column + 1);
  }

  readonly #context: FormulaContext = {
    sheetCalled: (name) => this.#called.get(nameKey(name)),
    nameMeant: (name, sheet) =>
      this.#names.get(`${sheet} ${nameKey(name)}`) ?? this.#names.get(` ${nameKey(name)}`),
    sizeOf: (sheet) => this.#sizes[sheet] ?? { rows: 1, columns: 1 },
    needs: (sheet, row, column) => {
      if (row >= LIMITS.rows || column >= LIMITS.columns) return false;
      this.#grow(sheet, row, column);
      return true;
    },
  };

  #cells(sheet: SheetIn, index: number): SheetCells {
    const found: SheetCells = new Map();
    const covered = new Set<number>();
    for (const cell of sheet.cells) {
      const key = placeKey(cell.row, cell.column);
      if (covered.size > 0 && covered.has(key)) continue;
      this.#tell();
      const document = this.#cell(cell, sheet.name, index);
      if (document.formula !== undefined) this.#cover(covered, cell);
      for (const _ in document) {
        found.set(key, document);
        break;
      }
    }
    for (const [place, name] of this.#cellNames) {
      const [at, row = 0, column = 0] = place.split(' ').map(Number);
      if (at !== index) continue;
      const key = placeKey(row, column);
      found.set(key, { ...found.get(key), name });
    }
    return found;
  }

  readonly #all: number;
  #met = 0;

  /** Another cell is met. */
  #tell(): void {
    if (this.#met % TOLD_EACH === 0)
      this.#how.onward?.({ stage: 'making', share: this.#met / this.#all, isHandedOn: false });
    this.#met += 1;
  }

  /** Cells that an array formula fills hold nothing of their own, as far as any file has so many. */
  #cover(covered: Set<number>, { row, column, fills }: CellIn): void {
    if (fills === undefined || fills.rows * fills.columns + covered.size > MOST_CELLS) return;
    for (let down = 0; down < fills.rows; down += 1) {
      for (let across = 0; across < fills.columns; across += 1) {
        if (down + across > 0) covered.add(placeKey(row + down, column + across));
      }
    }
  }

  #cell(cell: CellIn, sheet: string, index: number): CellDocument {
    const where = (): string => placeName(sheet, cell.row, cell.column);
    const remarks: string[] = [];
    const ours =
      this.#file.isOurs && cell.remark !== undefined ? formulaInRemark(cell.remark) : undefined;
    const said = ours === undefined ? cell.remark : ours.remark;
    if (said !== undefined && said !== '') remarks.push(said);
    const document: CellDocument = this.#held(cell, ours?.formula, index, where, remarks);
    const show = cell.format === undefined ? undefined : showOf(cell.format);
    if (show !== undefined) document.show = show;
    if (cell.role !== undefined) document.role = cell.role;
    if (remarks.length > 0) {
      const remark = this.#short(remarks.join('\n'), where);
      if (remark !== '') document.remark = remark;
    }
    if (cell.allow !== undefined && document.formula === undefined) document.allow = cell.allow;
    if (cell.style !== undefined && Object.keys(cell.style).length > 0) document.style = cell.style;
    return document;
  }

  /** What a cell holds: its formula, or its value. */
  #held(
    cell: CellIn,
    ours: string | undefined,
    index: number,
    where: () => string,
    remarks: string[],
  ): Pick<CellDocument, 'value' | 'typed' | 'formula'> {
    if (ours !== undefined) {
      const taken = formulaIn(ours, index, this.#context);
      if (taken.ok) return this.#taken(taken, index);
    }
    if (cell.formula === undefined) return this.#valueOf(cell.value, cell.typed, where);
    const taken = formulaIn(cell.formula, index, this.#context);
    if (taken.ok) return this.#taken(taken, index);
    this.#asValues += 1;
    const text = formulaSeen(cell.formula);
    remarks.push(`In the file: ${text}\n${taken.why} Its last value stands here.`);
    this.#told.push({
      kind: 'formula',
      of: where(),
      says: `${taken.why} Its last value stands for ${text}`,
    });
    return cell.value === undefined
      ? { value: this.#short(text, where) }
      : this.#valueOf(cell.value, undefined, where);
  }

  #taken({ a1, tokens }: FormulaIn & { readonly ok: true }, index: number): { formula: string } {
    this.#formulas += 1;
    this.#readBy.add(tokens, index);
    return { formula: a1 };
  }

  #valueOf(
    value: ValueIn | undefined,
    typed: string | undefined,
    where: () => string,
  ): Pick<CellDocument, 'value' | 'typed' | 'formula'> {
    switch (value?.kind) {
      case undefined:
        return {};
      case 'number':
        return { value: value.number, ...(typed === undefined ? {} : { typed }) };
      case 'logical':
        return { value: value.logical };
      case 'text':
        return value.text === '' ? {} : { value: this.#short(value.text, where) };
      case 'error':
        if (ERRORS.has(value.word)) return { formula: `=${value.word}` };
        return { value: this.#short(value.word, where) };
    }
  }

  #short(text: string, where: () => string): string {
    if (text.length <= LIMITS.text) return text;
    this.#told.push({
      kind: 'cut',
      of: where(),
      says: `It has ${text.length} letters; the first ${LIMITS.text} are taken.`,
    });
    return text.slice(0, LIMITS.text).replace(/[\uD800-\uDBFF]$/, '');
  }

  #nameNow(index: number): string {
    for (const { name, index: at } of this.#called.values()) if (at === index) return name;
    return `Sheet ${index + 1}`;
  }

  /** A file of ours says its checks too. */
  #checks(): readonly CheckIn[] {
    if (!this.#file.isOurs) return [];
    const context = {
      formula: (text: string, sheet: number) => formulaIn(text, sheet, this.#context),
      sheetCalled: (name: string) => {
        const index = this.#called.get(nameKey(name))?.index;
        return index === undefined ? undefined : { id: `s${index + 1}`, index };
      },
    };
    return checksIn(addedSheets(this.#file.sheets), context, this.#told);
  }

  /** As it loads; checks that make no workbook of it are left out. */
  #loaded(document: BookDocument): ReturnType<typeof loadValue> {
    const loaded = loadValue(document);
    if (loaded.ok || document.checks.length === 0) return loaded;
    const without = loadValue({ ...document, checks: [] });
    if (without.ok)
      this.#told.push({
        kind: 'check',
        of: 'the file',
        says: `Its checks are left out: ${loaded.says}`,
      });
    return without;
  }

  /** The workbook as it opens; what comes to something else than the file says is told, cell by cell. */
  #settled(document: BookDocument, checks: readonly CheckIn[]): BookDocument {
    const loaded = this.#loaded(document);
    if (!loaded.ok) throw new Unreadable(`The file cannot be a workbook: ${loaded.says}`);
    const book = Workbook.open(loaded.document, {
      onward: (share, isHandedOn) => this.#how.onward?.({ stage: 'opening', share, isHandedOn }),
    });
    tellStates(book, checks, this.#told);
    const back = new Map<string, ValueIn>();
    for (const [index, sheet] of this.#sheets.entries()) {
      for (const cell of sheet.cells) {
        const isOurs =
          this.#file.isOurs &&
          cell.remark !== undefined &&
          formulaInRemark(cell.remark) !== undefined;
        if ((cell.formula === undefined && !isOurs) || cell.value === undefined) continue;
        const at = { sheet: `s${index + 1}`, row: cell.row, column: cell.column };
        const view = loaded.document.sheets[index]?.rows[cell.row]?.cells?.[`c${cell.column + 1}`];
        if (view?.formula === undefined) continue;
        const here = book.value(at);
        if (agrees(here, cell.value)) continue;
        const where = placeName(sheet.name, cell.row, cell.column);
        const fillsOther = here.kind === 'error' && here.error.word === '#SPILL!';
        if (fillsOther || (isOurs && cell.formula === undefined)) {
          back.set(`${index} ${cell.row} ${cell.column}`, cell.value);
          this.#formulas -= 1;
          this.#asValues += 1;
          this.#told.push({
            kind: 'formula',
            of: where,
            says: `Its formula would come to ${said(here)} here; its last value, ${saidIn(cell.value)}, stands.`,
          });
        } else {
          this.#told.push({
            kind: 'differs',
            of: where,
            says: `It comes to ${said(here)} here; in the file it is ${saidIn(cell.value)}.`,
          });
        }
      }
    }
    return back.size === 0 ? loaded.document : withValues(loaded.document, back);
  }
}

const TOLD_EACH = 256;

const ERRORS: ReadonlySet<string> = new Set([
  '#DIV/0!',
  '#NAME?',
  '#VALUE!',
  '#NUM!',
  '#N/A',
  '#REF!',
]);

const keyOf = (sheet: number, row: number, column: number): string => `${sheet} ${row} ${column}`;
