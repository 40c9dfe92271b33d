import { LIMITS, nameKey, readWritten } from '@kerfbook/document';
import type { Hears } from '../onward.ts';
import type { CellIn, ComingIn, SheetIn, ToldIn } from '../taking/coming-in.ts';
import type { FormatRead } from '../taking/format-code.ts';
import { columnOf, inOrder, placeKey, rowOf } from '../taking/place-key.ts';
import { placeName } from '../taking/place-name.ts';
import { allowOf, areaOf, RULE_LEFT_OUT, wordsIn } from '../taking/rules-in.ts';
import { Unreadable } from '../unreadable.ts';
import { readXmlOf, textOfElement } from '../xml/read.ts';
import type { Archive } from '../zip/read.ts';
import { contentOf } from './cell-in.ts';
import { MIME, WORDS } from './package.ts';
import { type LookRead, StylesRead } from './read-styles.ts';
import { type PlacedCell, type RawTable, TablesReading } from './read-tables.ts';
import { ruleRead } from './rules-in.ts';
import { readFrozen } from './settings-in.ts';

const CONTENT = 'content.xml';
const STYLES = 'styles.xml';
const META = 'meta.xml';
const SETTINGS = 'settings.xml';
const MANIFEST = 'META-INF/manifest.xml';

/** Whether an archive is one of an OpenDocument file. */
export const isOds = (archive: Archive): boolean =>
  archive.has('mimetype') || archive.has(CONTENT) || archive.has(MANIFEST);

/**
 * Reads an ods file (OpenDocument 1.0 to 1.3). Nothing of it is carried out: macros and links are named and left where
 * they are.
 * @throws Unreadable with the sentence
 */
export function readOds(archive: Archive, onward?: Hears): ComingIn {
  isReadable(archive);
  const content = archive.bytes(CONTENT);
  if (content === undefined)
    throw new Unreadable('The file is damaged: it has no part with its content.');
  const styles = new StylesRead();
  const named = archive.bytes(STYLES);
  if (named !== undefined) readXmlOf(WORDS, named, STYLES, styles);
  const tables = new TablesReading(styles, onward);
  readXmlOf(WORDS, content, CONTENT, tables);
  return new Reading(archive, styles, tables).whole();
}

/** Other documents of the format, and locked ones, are named. */
function isReadable(archive: Archive): void {
  const bytes = archive.bytes('mimetype');
  const kind = bytes === undefined ? MIME : new TextDecoder().decode(bytes).trim();
  if (kind !== MIME && kind !== `${MIME}-template`) {
    throw new Unreadable(
      'The file is no spreadsheet, but another kind of document. Save its table as ods or csv, and open that.',
    );
  }
  const manifest = archive.bytes(MANIFEST);
  if (manifest === undefined) return;
  readXmlOf(WORDS, manifest, MANIFEST, {
    open(name) {
      if (name === 'manifest:encryption-data') {
        throw new Unreadable(
          'The file is locked with a password. Save it without one, and open it then.',
        );
      }
    },
  });
}

class Reading {
  readonly #archive: Archive;
  readonly #styles: StylesRead;
  readonly #tables: readonly RawTable[];
  readonly #reading: TablesReading;
  readonly #told: ToldIn[] = [];

  constructor(archive: Archive, styles: StylesRead, reading: TablesReading) {
    this.#archive = archive;
    this.#styles = styles;
    this.#reading = reading;
    this.#tables = reading.tables.filter(({ isOutside }) => !isOutside);
  }

  whole(): ComingIn {
    if (this.#tables.length === 0)
      throw new Unreadable('The file is damaged or no spreadsheet: it has no sheet.');
    this.#tellParts();
    const frozen = readFrozen(this.#archive.bytes(SETTINGS), SETTINGS);
    const sheets = this.#tables.map((table) => this.#sheet(table, frozen));
    const byName = new Map(sheets.map((sheet) => [nameKey(sheet.name), sheet]));
    const { tables, names } = this.#reading;
    return {
      sheets: sheets.map((sheet, at) => this.#withRules(sheet, this.#tables[at], byName)),
      names: names.flatMap((one) => {
        const table = one.sheet === undefined ? undefined : tables[one.sheet];
        if (table === undefined) return [one];
        const sheet = this.#tables.indexOf(table);
        return sheet < 0 ? [] : [{ ...one, sheet }];
      }),
      isOurs: this.#isOurs(),
      told: this.#told,
    };
  }

  #sheet(table: RawTable, frozen: (name: string) => SheetIn['frozen']): SheetIn {
    const cells: CellIn[] = [];
    for (const cell of table.cells) {
      const read = this.#cell(cell);
      if (read !== undefined) cells.push(read);
    }
    this.#tellSheet(table);
    const all = inOrder(cells);
    const wide = all.reduce((most, { column }) => Math.max(most, column + 1), 0);
    return {
      name: table.name,
      isHidden: this.#styles.isHiddenTable(table.style),
      cells: all,
      columns: table.columns.slice(0, wide).map(({ style, isHidden }) => {
        const width = this.#styles.width(style);
        return { isHidden, ...(width === undefined ? {} : { width }) };
      }),
      rows: table.rows,
      frozen: frozen(table.name),
    };
  }

  /** Undefined where there is nothing in it and it looks like any. */
  #cell(cell: PlacedCell): CellIn | undefined {
    const { row, column } = cell;
    const { style, role, format: styled }: LookRead = this.#styles.cell(cell.style);
    const { format: said, value, formula, fills } = contentOf(cell);
    const format: FormatRead = styled.kind === 'general' && said !== undefined ? said : styled;
    const remark = cell.remark.trim();
    const read: { -readonly [key in keyof CellIn]: CellIn[key] } = { row, column };
    if (value !== undefined) read.value = value;
    if (formula !== undefined) read.formula = formula;
    if (fills !== undefined) read.fills = fills;
    if (format.kind !== 'general') read.format = format;
    for (const _ in style) {
      read.style = style;
      break;
    }
    if (role !== undefined) read.role = role;
    if (remark !== '') read.remark = remark;
    return Object.keys(read).length > 2 ? read : undefined;
  }

  /** What cells take is known once all sheets are: a list may stand on another one. */
  #withRules(
    sheet: SheetIn,
    table: RawTable | undefined,
    byName: ReadonlyMap<string, SheetIn>,
  ): SheetIn {
    const wordsOf = (ref: string): readonly string[] | undefined => {
      const written = readWritten(ref);
      const area = areaOf(ref.slice(ref.lastIndexOf('!') + 1));
      const of = written?.sheet === undefined ? sheet : byName.get(nameKey(written.sheet));
      return written === undefined || area === undefined || of === undefined
        ? undefined
        : wordsIn(of, area);
    };
    const rules = new Map<string, CellIn['allow']>();
    const named = new Map<number, string>();
    for (const { row, column, said } of table?.cells ?? []) {
      const name = said['table:content-validation-name'];
      if (name !== undefined) named.set(placeKey(row, column), name);
      if (name === undefined || rules.has(name)) continue;
      const condition = this.#reading.rules.get(name) ?? '';
      const read = ruleRead(condition);
      const allow =
        read.kind === 'list'
          ? { list: [...read.list] }
          : read.kind === 'rule'
            ? allowOf(read.rule, wordsOf)
            : undefined;
      rules.set(name, allow);
      if (allow === undefined && condition !== '')
        this.#told.push({
          kind: 'rule',
          of: placeName(sheet.name, row, column),
          says: RULE_LEFT_OUT,
        });
    }
    if (rules.size === 0) return sheet;
    const cells = new Map(sheet.cells.map((cell) => [placeKey(cell.row, cell.column), cell]));
    for (const [key, name] of named) {
      const allow = rules.get(name);
      const [row, column] = [rowOf(key), columnOf(key)];
      if (allow !== undefined) cells.set(key, { ...(cells.get(key) ?? { row, column }), allow });
    }
    return {
      ...sheet,
      cells: [...cells.values()].sort((a, b) => a.row - b.row || a.column - b.column),
    };
  }

  #isOurs(): boolean {
    const bytes = this.#archive.bytes(META);
    if (bytes === undefined) return false;
    return textOfElement(bytes, META, 'meta:generator', WORDS) === 'Kerfbook';
  }

  /** What nobody here reads is named, a kind at a time. */
  #tellParts(): void {
    const names = this.#archive.names;
    const tell = (count: number, says: string): void => {
      if (count > 0) this.#told.push({ kind: 'left-out', of: 'the file', says });
    };
    tell(
      names.filter((name) => /^(?:Basic|Scripts)\//i.test(name)).length,
      'Its macros are left out; nothing of them was carried out.',
    );
    const outside = this.#reading.tables.length - this.#tables.length;
    tell(
      outside,
      `It looks into ${outside} other ${outside === 1 ? 'sheet' : 'sheets'} elsewhere; these links are left out, and the last values stand.`,
    );
    for (const [element, what] of PARTS) {
      const count = this.#reading.also.get(element) ?? 0;
      tell(count, `${count} ${count === 1 ? what[0] : what[1]} left out.`);
    }
  }

  #tellSheet(table: RawTable): void {
    const { name, merged, beyond, also } = table;
    for (const ref of merged) {
      this.#told.push({
        kind: 'merged',
        of: `${name}!${ref}`,
        says: 'These cells were one; what it said stands in the first of them.',
      });
    }
    if (beyond > 0) {
      this.#told.push({
        kind: 'beyond',
        of: name,
        says: `${beyond} cells stand beyond row ${LIMITS.rows.toLocaleString('en-US')} or column ZZ, where a sheet ends here; they are left out.`,
      });
    }
    for (const [element, what] of PARTS) {
      const count = also.get(element) ?? 0;
      if (count > 0)
        this.#told.push({
          kind: 'left-out',
          of: name,
          says: `${count} ${count === 1 ? what[0] : what[1]} left out.`,
        });
    }
  }
}

const PARTS: readonly (readonly [string, readonly [string, string]])[] = [
  ['table:tracked-changes', ['record of changes is', 'records of changes are']],
  ['table:dde-link', ['link to another program is', 'links to other programs are']],
  ['table:data-pilot-table', ['pivot table is', 'pivot tables are']],
  [
    'table:database-range',
    [
      'named range with filters or sorting is read as plain cells; its name is',
      'named ranges with filters or sorting are read as plain cells; their names are',
    ],
  ],
  ['conditional-format', ['look that follows a condition is', 'looks that follow conditions are']],
  ['draw:frame', ['picture, chart or embedded file is', 'pictures, charts or embedded files are']],
  ['draw:control', ['control is', 'controls are']],
  ['text:a', ['link is', 'links are']],
  ['sparkline-group', ['group of small lines is', 'groups of small lines are']],
];
