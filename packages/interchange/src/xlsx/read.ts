import { LIMITS, nameKey, readWritten, shifting } from '@kerfbook/document';
import type { Hears } from '../onward.ts';
import type { CellIn, ComingIn, SheetIn, ToldIn, ValueIn } from '../taking/coming-in.ts';
import { type FormatRead, readFormat } from '../taking/format-code.ts';
import { inOrder, placeKey } from '../taking/place-key.ts';
import { placeName } from '../taking/place-name.ts';
import { areaOf, type RawRule, rulesOf, wordsIn } from '../taking/rules-in.ts';
import { textOfElement } from '../xml/read.ts';
import type { Archive } from '../zip/read.ts';
import { type Relation, relationsOf } from './package-parts.ts';
import { readRemarks } from './read-remarks.ts';
import { type Counted, type RawCell, type RawSheet, readSheet } from './read-sheet.ts';
import { readStrings } from './read-strings.ts';
import { readStyles, type StyleRead } from './read-styles.ts';
import { readWorkbookPart, type WorkbookPart } from './read-workbook.ts';

/**
 * Reads an xlsx file (ECMA-376). Nothing of it is carried out: macros and links are named and left where they are.
 * @throws Unreadable with the sentence
 */
export function readXlsx(archive: Archive, onward?: Hears): ComingIn {
  const workbook = readWorkbookPart(archive);
  return new Reading(archive, workbook, onward).whole();
}

interface Look {
  readonly format: FormatRead;
  readonly known: Pick<CellIn, 'format' | 'style' | 'role'> | undefined;
}

class Reading {
  readonly #archive: Archive;
  readonly #workbook: WorkbookPart;
  readonly #strings: readonly string[];
  readonly #style: (number: number) => StyleRead;
  readonly #formats = new Map<string, FormatRead>();
  readonly #told: ToldIn[] = [];
  readonly #rules = new Map<string, readonly RawRule[]>();
  readonly #counted: Counted = { cells: 0, formulas: 0 };

  readonly #onward: Hears | undefined;

  constructor(archive: Archive, workbook: WorkbookPart, onward: Hears | undefined) {
    this.#onward = onward;
    this.#archive = archive;
    this.#workbook = workbook;
    const part = (kind: string): string | undefined =>
      workbook.relations.find((one) => one.kind === kind && !one.isOutside)?.target;
    const strings = part('sharedStrings');
    const stringBytes = strings === undefined ? undefined : archive.bytes(strings);
    this.#strings = stringBytes === undefined ? [] : readStrings(stringBytes, strings ?? '');
    const styles = part('styles');
    this.#style = readStyles(
      styles === undefined ? undefined : archive.bytes(styles),
      styles ?? '',
    );
  }

  whole(): ComingIn {
    this.#tellParts();
    const sheets = this.#workbook.sheets.map(({ name, isHidden, part, kind }, at, all): SheetIn => {
      const empty: SheetIn = {
        name,
        isHidden,
        cells: [],
        columns: [],
        rows: [],
        frozen: { rows: 0, columns: 0 },
      };
      if (kind !== 'worksheet') {
        this.#told.push({
          kind: 'left-out',
          of: name,
          says: 'It is no sheet of cells (a chart, a dialog or macros); it is left out.',
        });
        return empty;
      }
      const bytes = part === undefined ? undefined : this.#archive.bytes(part);
      if (part === undefined || bytes === undefined) {
        this.#told.push({
          kind: 'left-out',
          of: name,
          says: 'The file lists it, and has no such part; the sheet is empty.',
        });
        return empty;
      }
      const onward = (share: number): void =>
        this.#onward?.({
          stage: 'reading',
          share: (at + share) / all.length,
          isHandedOn: false,
        });
      return this.#sheet(name, isHidden, readSheet(bytes, part, this.#counted, onward), part);
    });
    const byName = new Map(sheets.map((sheet) => [nameKey(sheet.name), sheet]));
    return {
      sheets: sheets.map((sheet) => this.#withRules(sheet, byName)),
      names: this.#names(),
      isOurs: this.#isOurs(),
      told: this.#told,
    };
  }

  /** What cells take is known once all sheets are: a list may stand on another one. */
  #withRules(sheet: SheetIn, byName: ReadonlyMap<string, SheetIn>): SheetIn {
    const rules = this.#rules.get(sheet.name) ?? [];
    if (rules.length === 0) return sheet;
    const wordsOf = (ref: string): readonly string[] | undefined => {
      const written = readWritten(ref);
      const area = areaOf(ref.slice(ref.lastIndexOf('!') + 1));
      const of = written?.sheet === undefined ? sheet : byName.get(nameKey(written.sheet));
      return written === undefined || area === undefined || of === undefined
        ? undefined
        : wordsIn(of, area);
    };
    const allowed = new Map(
      rulesOf(rules, sheet.name, this.#told, wordsOf).map((one) => [
        placeKey(one.row, one.column),
        one.allow,
      ]),
    );
    const cells = sheet.cells.map((cell) => {
      const allow = allowed.get(placeKey(cell.row, cell.column));
      return allow === undefined ? cell : { ...cell, allow };
    });
    return { ...sheet, cells };
  }

  #names() {
    return this.#workbook.names.filter(({ name }) => !/^_xlnm\./i.test(name));
  }

  #isOurs(): boolean {
    const part = 'docProps/app.xml';
    const bytes = this.#archive.bytes(part);
    return bytes !== undefined && textOfElement(bytes, part, 'Application') === 'Kerfbook';
  }

  /** Parts that nobody here reads are named, a kind at a time. */
  #tellParts(): void {
    const names = this.#archive.names;
    const has = (pattern: RegExp): number => names.filter((name) => pattern.test(name)).length;
    const tell = (count: number, says: string): void => {
      if (count > 0) this.#told.push({ kind: 'left-out', of: 'the file', says });
    };
    tell(
      has(/vbaProject\.bin$|\/macrosheets\//i),
      'Its macros are left out; nothing of them was carried out.',
    );
    const outside = this.#workbook.relations.filter(({ kind }) => kind === 'externalLink').length;
    tell(
      outside,
      `It looks into ${outside} other ${outside === 1 ? 'file' : 'files'}; these links are left out, and the last values stand.`,
    );
    for (const [pattern, what] of OTHER_PARTS) {
      const count = has(pattern);
      tell(count, `${count} ${count === 1 ? what[0] : what[1]} left out.`);
    }
  }

  #sheet(name: string, isHidden: boolean, raw: RawSheet, part: string): SheetIn {
    const relations = relationsOf(this.#archive, part);
    const remarks = this.#remarks(relations);
    const formulas = new Map<string, (rows: number, columns: number) => string>();
    const masters = new Map<string, Pick<RawCell, 'row' | 'column'>>();
    const read = raw.cells.map((cell) => this.#cell(cell, name, formulas, masters));
    const remarked = remarks.filter(
      ({ row, column }) => row < LIMITS.rows && column < LIMITS.columns,
    );
    this.#rules.set(name, raw.rules);
    this.#tellSheet(name, raw);
    return {
      name,
      isHidden,
      cells: remarked.length === 0 ? inOrder(read) : withRemarks(read, remarked),
      columns: columnsOf(raw),
      rows: raw.rows,
      frozen: raw.frozen,
    };
  }

  #remarks(relations: readonly Relation[]) {
    const part = relations.find(({ kind, isOutside }) => kind === 'comments' && !isOutside)?.target;
    const bytes = part === undefined ? undefined : this.#archive.bytes(part);
    return bytes === undefined ? [] : readRemarks(bytes, part ?? '');
  }

  #tellSheet(name: string, raw: RawSheet): void {
    for (const ref of raw.merged) {
      this.#told.push({
        kind: 'merged',
        of: `${name}!${ref}`,
        says: 'These cells were one; what it said stands in the first of them.',
      });
    }
    if (raw.beyond > 0) {
      this.#told.push({
        kind: 'beyond',
        of: name,
        says: `${raw.beyond} cells stand beyond row ${LIMITS.rows.toLocaleString('en-US')} or column ZZ, where a sheet ends here; they are left out.`,
      });
    }
    for (const [element, count] of raw.also) {
      const what = SHEET_PARTS[element];
      if (what !== undefined)
        this.#told.push({
          kind: 'left-out',
          of: name,
          says: `${count} ${count === 1 ? what[0] : what[1]} left out.`,
        });
    }
  }

  #cell(
    cell: RawCell,
    sheet: string,
    formulas: Map<string, (rows: number, columns: number) => string>,
    masters: Map<string, Pick<RawCell, 'row' | 'column'>>,
  ): CellIn {
    const { format, known } = this.#look(cell.style);
    const value = this.#value(cell, format, sheet);
    const formula = formulaText(cell, formulas, masters);
    const area = cell.formula?.kind === 'array' ? areaOf(cell.formula.ref ?? '') : undefined;
    const read: { -readonly [key in keyof CellIn]: CellIn[key] } = {
      row: cell.row,
      column: cell.column,
    };
    if (value !== undefined) read.value = value;
    if (formula !== undefined) read.formula = formula;
    if (area !== undefined)
      read.fills = { rows: area.bottom - area.top + 1, columns: area.right - area.left + 1 };
    return known === undefined ? read : Object.assign(read, known);
  }

  readonly #looks = new Map<number, Look>();

  /** How cells of a style look; nothing is known of those that look like any. */
  #look(number: number): Look {
    const before = this.#looks.get(number);
    if (before !== undefined) return before;
    const { style, role, format: code } = this.#style(number);
    const format = this.#format(code);
    const known = {
      ...(format.kind === 'general' ? {} : { format }),
      ...(Object.keys(style).length === 0 ? {} : { style }),
      ...(role === undefined ? {} : { role }),
    };
    const look = { format, known: Object.keys(known).length === 0 ? undefined : known };
    this.#looks.set(number, look);
    return look;
  }

  #format(code: string): FormatRead {
    let read = this.#formats.get(code);
    if (read === undefined) {
      read = readFormat(code);
      this.#formats.set(code, read);
    }
    return read;
  }

  #value(
    { type, value, row, column, formula }: RawCell,
    format: FormatRead,
    sheet: string,
  ): ValueIn | undefined {
    if (value === undefined) return undefined;
    switch (type) {
      case 's': {
        const text = this.#strings[Number(value)];
        if (text !== undefined) return { kind: 'text', text };
        this.#told.push({
          kind: 'value',
          of: placeName(sheet, row, column),
          says: 'It refers to a text that the file does not have; the cell is empty.',
        });
        return undefined;
      }
      case 'str':
      case 'inlineStr':
        return { kind: 'text', text: value };
      case 'b':
        return { kind: 'logical', logical: value.trim() === '1' || value.trim() === 'true' };
      case 'e':
        return { kind: 'error', word: value.trim() };
      case 'd': {
        const time = Date.parse(
          value.includes('T') ? `${value.replace(/Z$/, '')}Z` : `${value}T00:00:00Z`,
        );
        return Number.isFinite(time)
          ? { kind: 'number', number: time / DAY + FIRST_DAY }
          : { kind: 'text', text: value };
      }
      default: {
        const number = Number(value);
        if (value.trim() === '' || !Number.isFinite(number))
          return value.trim() === '' ? undefined : { kind: 'text', text: value };
        const isDay = format.kind === 'date' && formula === undefined;
        return { kind: 'number', number: isDay ? dayOf(number, this.#workbook.from1904) : number };
      }
    }
  }
}

const DAY = 86_400_000;
/** 1970-01-01, counted from 1899-12-30. */
const FIRST_DAY = 25_569;
/** 1904-01-01, counted from 1899-12-30. */
const FROM_1904 = 1_462;
/** 1900-03-01: before it, files count a 29 February that there was not. */
const AFTER_LEAP = 61;

/** A day of a file as it is counted here, from 1899-12-30. */
export function dayOf(serial: number, from1904: boolean): number {
  if (from1904) return serial + FROM_1904;
  return serial < AFTER_LEAP - 1 && serial >= 1 ? serial + 1 : serial;
}

/** The same cells with what is remarked beside them; what is remarked where there is none is a cell too. */
function withRemarks(
  cells: readonly CellIn[],
  remarks: readonly { readonly row: number; readonly column: number; readonly says: string }[],
): readonly CellIn[] {
  const byPlace = new Map(cells.map((cell) => [placeKey(cell.row, cell.column), cell]));
  const remarked = remarks.map(({ row, column, says }): CellIn => {
    const key = placeKey(row, column);
    const cell = { ...(byPlace.get(key) ?? { row, column }), remark: says };
    byPlace.set(key, cell);
    return cell;
  });
  return inOrder([...cells, ...remarked]);
}

/** A formula's text; of one that shares another's, moved to where it stands. */
function formulaText(
  { row, column, formula }: RawCell,
  formulas: Map<string, (rows: number, columns: number) => string>,
  masters: Map<string, Pick<RawCell, 'row' | 'column'>>,
): string | undefined {
  if (formula === undefined || formula.kind === 'dataTable') return undefined;
  if (formula.kind !== 'shared' || formula.shared === undefined)
    return formula.text === '' ? undefined : formula.text;
  if (formula.text !== '') {
    formulas.set(formula.shared, shifting(`=${formula.text}`));
    masters.set(formula.shared, { row, column });
    return formula.text;
  }
  const shift = formulas.get(formula.shared);
  const master = masters.get(formula.shared);
  if (shift === undefined || master === undefined) return undefined;
  return shift(row - master.row, column - master.column).replace(/^=/, '');
}

const DIGIT_PX = 7;
const BESIDE_PX = 5;

function columnsOf({ columns, cells }: RawSheet): SheetIn['columns'] {
  const wide = cells.reduce((most, { column }) => Math.max(most, column + 1), 0);
  const found: { width?: number; isHidden: boolean }[] = Array.from({ length: wide }, () => ({
    isHidden: false,
  }));
  for (const { min, max, width, isHidden } of columns) {
    for (let at = min; at <= Math.min(max, wide - 1); at += 1) {
      const px = width === undefined ? undefined : Math.round(width * DIGIT_PX + BESIDE_PX);
      found[at] = {
        isHidden,
        ...(px === undefined || px < 16 ? {} : { width: Math.min(2000, px) }),
      };
    }
  }
  return found;
}

const OTHER_PARTS: readonly (readonly [RegExp, readonly [string, string]])[] = [
  [/\/charts\/chart[^/]*\.xml$/i, ['chart is', 'charts are']],
  [/\/media\/[^/]+$/i, ['picture is', 'pictures are']],
  [/\/pivotTables\/[^/]+\.xml$/i, ['pivot table is', 'pivot tables are']],
  [/\/embeddings\/[^/]+$/i, ['embedded file is', 'embedded files are']],
  [
    /\/connections\.xml$|\/queryTables\//i,
    ['connection to data elsewhere is', 'connections to data elsewhere are'],
  ],
  [/\/threadedComments\//i, ['conversation is', 'conversations are']],
];

const SHEET_PARTS: Readonly<Record<string, readonly [string, string]>> = {
  cfRule: ['look that follows a condition is', 'looks that follow conditions are'],
  hyperlink: ['link is', 'links are'],
  oleObject: ['embedded object is', 'embedded objects are'],
  control: ['control is', 'controls are'],
  tablePart: [
    'named table is read as plain cells; its name is',
    'named tables are read as plain cells; their names are',
  ],
  autoFilter: ['filter is', 'filters are'],
  sparklineGroup: ['group of small lines is', 'groups of small lines are'],
};
