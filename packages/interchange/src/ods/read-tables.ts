import { columnName, LIMITS } from '@kerfbook/document';
import type { Hears } from '../onward.ts';
import { MOST_CELLS, MOST_FORMULAS, type NameIn } from '../taking/coming-in.ts';
import { Unreadable } from '../unreadable.ts';
import type { Listener, Said } from '../xml/read.ts';
import type { RawCell } from './cell-in.ts';
import { plainFormula, plainReference } from './read-formula.ts';

/** A cell of a table, as its elements say it. */
export interface PlacedCell extends RawCell {
  readonly row: number;
  readonly column: number;
  /** Its own style, or that of its row or column. */
  readonly style: string | undefined;
}

/** A table of a file. */
export interface RawTable {
  readonly name: string;
  readonly style: string | undefined;
  /** It is what was kept of a sheet of another file. */
  isOutside: boolean;
  readonly cells: PlacedCell[];
  readonly columns: { readonly style: string | undefined; readonly isHidden: boolean }[];
  readonly rows: { readonly row: number; readonly isHidden: boolean; readonly group: number }[];
  readonly merged: string[];
  /** Cells beyond the rows and columns that a sheet of ours has. */
  beyond: number;
  /** What it has beside cells, by the names of its elements. */
  readonly also: Map<string, number>;
}

const MOST_SHEETS = 1_000;
const MOST_NAMES = 20_000;
const MOST_NOTED = 20_000;
const MOST_LINES = 2_000_000;
/** Blank cells with a look that are written once for so many are the rest of a sheet, and no cells of anyone's. */
const MOST_BLANK = 256;

/** Left out whole, with all that stands in them; drawings and charts are counted by their frames. */
const LEFT_OUT = new Set([
  'table:tracked-changes',
  'table:shapes',
  'table:dde-links',
  'table:consolidation',
  'table:data-pilot-tables',
  'table:detective',
  'table:scenario',
  'office:forms',
  'office:scripts',
  'office:event-listeners',
  'text:ruby-text',
  'conditional-formats',
]);
const COUNTED = new Set([
  'table:tracked-changes',
  'table:dde-link',
  'table:data-pilot-table',
  'table:database-range',
  'conditional-format',
  'draw:frame',
  'draw:control',
  'text:a',
  'sparkline-group',
]);

interface Row {
  readonly repeat: number;
  readonly style: string | undefined;
  readonly isHidden: boolean;
  readonly cells: (RawCell & { readonly column: number; readonly repeat: number })[];
}

/** A cell whose elements are being read. */
interface OpenCell {
  readonly said: Said;
  text: string;
  paragraphs: number;
  remark: string;
  notes: number;
}

/** Reads the part with the content, one cell after the other; who listens to styles hears of what stands before. */
export class TablesReading implements Listener {
  readonly tables: RawTable[] = [];
  readonly names: NameIn[] = [];
  /** Conditions of rules by their names. */
  readonly rules = new Map<string, string>();
  /** What the file has beside its sheets, by the names of its elements. */
  readonly also = new Map<string, number>();
  readonly #styles: Listener;
  #isBody = false;
  #leftOut = 0;
  #table: RawTable | undefined;
  #next = { row: 0, column: 0 };
  #group = 0;
  #row: Row | undefined;
  #cell: OpenCell | undefined;
  /** Whether letters are the cell's or its remark's; none are elsewhere. */
  #into: 'text' | 'remark' | undefined;
  #isRemark = false;
  #cells = 0;
  #formulas = 0;

  readonly #onward: Hears | undefined;

  constructor(styles: Listener, onward?: Hears) {
    this.#styles = styles;
    this.#onward = onward;
  }

  onward(share: number): void {
    this.#onward?.({ stage: 'reading', share, isHandedOn: false });
  }

  open(name: string, said: Said): void {
    if (this.#leftOut > 0) {
      this.#leftOut += 1;
      this.#count(name);
      return;
    }
    if (!this.#isBody) {
      if (name === 'office:body') this.#isBody = true;
      else this.#styles.open?.(name, said);
      return;
    }
    this.#count(name);
    const isNested = name === 'table:table' && this.#table !== undefined;
    if (LEFT_OUT.has(name) || isNested || (name.startsWith('draw:') && this.#table !== undefined)) {
      this.#leftOut = 1;
      return;
    }
    if (this.#cell !== undefined) this.#inCell(this.#cell, name, said);
    else this.#around(name, said);
  }

  text(piece: string): void {
    if (this.#leftOut > 0) return;
    if (!this.#isBody) this.#styles.text?.(piece);
    else if (this.#cell !== undefined && this.#into !== undefined) this.#add(piece);
  }

  close(name: string): void {
    if (this.#leftOut > 0) {
      this.#leftOut -= 1;
      return;
    }
    if (!this.#isBody) {
      this.#styles.close?.(name);
      return;
    }
    switch (name) {
      case 'table:table':
        this.#table = undefined;
        break;
      case 'table:table-row-group':
        this.#group -= 1;
        break;
      case 'table:table-row':
        this.#rowEnds();
        break;
      case 'table:table-cell':
      case 'table:covered-table-cell':
        this.#cellEnds();
        break;
      case 'text:p':
        this.#into = undefined;
        break;
      case 'office:annotation':
        this.#isRemark = false;
        break;
      default:
    }
  }

  #count(name: string): void {
    if (!COUNTED.has(name)) return;
    const also = this.#table?.also ?? this.also;
    also.set(name, (also.get(name) ?? 0) + 1);
  }

  #around(name: string, said: Said): void {
    const table = this.#table;
    switch (name) {
      case 'table:table':
        this.#tableBegins(said);
        break;
      case 'table:table-source':
        if (table !== undefined) table.isOutside = true;
        break;
      case 'table:table-column':
        if (table !== undefined) columnsBegin(table, said);
        break;
      case 'table:table-row-group':
        this.#group += 1;
        break;
      case 'table:table-row':
        this.#row = {
          repeat: repeatOf(said['table:number-rows-repeated']),
          style: said['table:default-cell-style-name'],
          isHidden: ['collapse', 'filter'].includes(said['table:visibility'] ?? ''),
          cells: [],
        };
        this.#next.column = 0;
        break;
      case 'table:table-cell':
      case 'table:covered-table-cell':
        if (this.#row !== undefined)
          this.#cell = { said, text: '', paragraphs: 0, remark: '', notes: 0 };
        break;
      case 'table:named-range':
        this.#named(said, plainReference(said['table:cell-range-address'] ?? ''));
        break;
      case 'table:named-expression':
        this.#named(said, plainFormula(said['table:expression'] ?? ''));
        break;
      case 'table:content-validation':
        if (this.rules.size < MOST_NOTED)
          this.rules.set(said['table:name'] ?? '', said['table:condition'] ?? '');
        break;
      default:
    }
  }

  #tableBegins(said: Said): void {
    if (this.tables.length >= MOST_SHEETS)
      throw new Unreadable(`The file has more than ${MOST_SHEETS} sheets; it is not opened.`);
    this.#table = {
      name: said['table:name'] ?? '',
      style: said['table:style-name'],
      isOutside: false,
      cells: [],
      columns: [],
      rows: [],
      merged: [],
      beyond: 0,
      also: new Map(),
    };
    this.tables.push(this.#table);
    this.#next = { row: 0, column: 0 };
    this.#group = 0;
  }

  #named(said: Said, means: string): void {
    if (this.names.length >= MOST_NAMES)
      throw new Unreadable(`The file has more than ${MOST_NAMES} names; it is not opened.`);
    this.names.push({
      name: said['table:name'] ?? '',
      means,
      sheet: this.#table === undefined ? undefined : this.tables.indexOf(this.#table),
    });
  }

  #inCell(cell: OpenCell, name: string, said: Said): void {
    switch (name) {
      case 'office:annotation':
        this.#isRemark = true;
        break;
      case 'text:p': {
        this.#into = this.#isRemark ? 'remark' : 'text';
        const count = this.#isRemark ? 'notes' : 'paragraphs';
        if (cell[count] > 0) this.#add('\n');
        cell[count] += 1;
        break;
      }
      case 'text:s':
        this.#add(' '.repeat(Math.min(LIMITS.text, repeatOf(said['text:c']))));
        break;
      case 'text:tab':
        this.#add('\t');
        break;
      case 'text:line-break':
        this.#add('\n');
        break;
      default:
    }
  }

  /** What is longer than any cell is cut where it is taken in, and told there: one letter more is enough. */
  #add(piece: string): void {
    const into = this.#into;
    if (into === undefined || this.#cell === undefined) return;
    if (this.#cell[into].length <= LIMITS.text) this.#cell[into] += piece;
  }

  #cellEnds(): void {
    const cell = this.#cell;
    this.#cell = undefined;
    if (cell === undefined || this.#row === undefined) return;
    const { said, text, paragraphs, remark } = cell;
    const repeat = repeatOf(said['table:number-columns-repeated']);
    const column = this.#next.column;
    this.#next.column += repeat;
    this.#row.cells.push({ said, text, hasText: paragraphs > 0, remark, column, repeat });
  }

  #rowEnds(): void {
    const row = this.#row;
    const table = this.#table;
    this.#row = undefined;
    if (row === undefined || table === undefined) return;
    const top = this.#next.row;
    this.#next.row += row.repeat;
    const bottom = Math.min(LIMITS.rows, top + row.repeat);
    if (row.isHidden || this.#group > 0) {
      const group = Math.min(LIMITS.groups, this.#group);
      for (let at = top; at < bottom && table.rows.length < MOST_NOTED; at += 1)
        table.rows.push({ row: at, isHidden: row.isHidden, group });
    }
    for (const cell of row.cells) this.#place(table, row, cell, top, bottom);
  }

  #place(table: RawTable, row: Row, cell: Row['cells'][number], top: number, bottom: number): void {
    const { said, text, hasText, remark, column, repeat } = cell;
    const isFilled =
      said['table:formula'] !== undefined ||
      said['office:value-type'] !== undefined ||
      hasText ||
      remark !== '';
    const right = Math.min(LIMITS.columns, column + repeat);
    const within = Math.max(0, bottom - top) * Math.max(0, right - column);
    if (isFilled) {
      table.beyond += repeat * row.repeat - within;
      this.#cells += within;
      if (said['table:formula'] !== undefined) this.#formulas += within;
      if (this.#cells > MOST_CELLS) throw tooMany(MOST_CELLS, 'cells in use');
      if (this.#formulas > MOST_FORMULAS) throw tooMany(MOST_FORMULAS, 'formulas');
      mergedOf(table, said, top, column);
    } else if (repeat > MOST_BLANK || row.repeat > MOST_BLANK || !hasOwnLook(said)) return;
    else {
      this.#cells += within;
      if (this.#cells > MOST_CELLS) throw tooMany(MOST_CELLS, 'cells in use');
    }
    for (let at = top; at < bottom; at += 1) {
      for (let across = column; across < right; across += 1) {
        const style =
          said['table:style-name'] ?? row.style ?? table.columns[across]?.style ?? undefined;
        table.cells.push({ said, text, hasText, remark, row: at, column: across, style });
      }
    }
  }
}

const hasOwnLook = (said: Said): boolean =>
  said['table:style-name'] !== undefined || said['table:content-validation-name'] !== undefined;

const tooMany = (most: number, what: string): Unreadable =>
  new Unreadable(
    `The file has more than ${most.toLocaleString('en-US')} ${what}; it is not opened.`,
  );

/** How often something stands there; once where the file says nothing that could be. */
function repeatOf(text: string | undefined): number {
  const count = Number(text ?? 1);
  return Number.isInteger(count) && count >= 1 ? Math.min(MOST_LINES, count) : 1;
}

function columnsBegin(table: RawTable, said: Said): void {
  const one = {
    style: said['table:style-name'],
    isHidden: ['collapse', 'filter'].includes(said['table:visibility'] ?? ''),
    cells: said['table:default-cell-style-name'],
  };
  const repeat = repeatOf(said['table:number-columns-repeated']);
  for (let at = 0; at < repeat && table.columns.length < LIMITS.columns; at += 1)
    table.columns.push(one);
}

function mergedOf(table: RawTable, said: Said, row: number, column: number): void {
  const rows = repeatOf(said['table:number-rows-spanned']);
  const columns = repeatOf(said['table:number-columns-spanned']);
  if (rows * columns === 1 || table.merged.length >= MOST_NOTED) return;
  const corner = `${columnName(Math.min(LIMITS.columns, column + columns) - 1)}${row + rows}`;
  table.merged.push(`${columnName(column)}${row + 1}:${corner}`);
}
