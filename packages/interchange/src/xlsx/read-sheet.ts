import { LIMITS, parseAddress } from '@kerfbook/document';
import { MOST_CELLS, MOST_FORMULAS } from '../taking/coming-in.ts';
import type { RawRule } from '../taking/rules-in.ts';
import { Unreadable } from '../unreadable.ts';
import { readXml, type Said } from '../xml/read.ts';
import { unspelled } from '../xml/write.ts';
import { isYes } from './read-workbook.ts';

/** A cell as the file writes it, its texts not yet looked up. */
export interface RawCell {
  /** Counted from 0. */
  readonly row: number;
  readonly column: number;
  /** `s`: a place among the shared texts; `n`, `b`, `e`, `str`, `inlineStr`, `d` as the format has them. */
  readonly type: string;
  readonly value: string | undefined;
  readonly formula: RawFormula | undefined;
  readonly style: number;
}

/** A formula as the file writes it. */
export interface RawFormula {
  readonly text: string;
  readonly kind: 'normal' | 'shared' | 'array' | 'dataTable';
  /** The cells it is for, of a shared one or an array. */
  readonly ref?: string;
  /** Which shared formula it is. */
  readonly shared?: string;
}

/** A sheet as the file writes it. */
export interface RawSheet {
  readonly cells: readonly RawCell[];
  readonly columns: readonly {
    readonly min: number;
    readonly max: number;
    readonly width?: number;
    readonly isHidden: boolean;
  }[];
  readonly rows: readonly {
    readonly row: number;
    readonly isHidden: boolean;
    readonly group: number;
  }[];
  readonly frozen: { readonly rows: number; readonly columns: number };
  readonly merged: readonly string[];
  readonly rules: readonly RawRule[];
  /** Cells beyond the rows and columns that a sheet of ours has. */
  readonly beyond: number;
  /** What it has beside cells, by the names of its elements: drawings, links, colours under conditions … */
  readonly also: ReadonlyMap<string, number>;
}

const MOST_NOTED = 20_000;

/** Elements that stand for something a workbook has not. */
const ALSO = new Set([
  'cfRule',
  'hyperlink',
  'drawing',
  'picture',
  'oleObject',
  'control',
  'tablePart',
  'autoFilter',
  'sheetProtection',
  'sparklineGroup',
  'rowBreaks',
  'colBreaks',
]);

/** What reading a sheet needs to know of those before it. */
export interface Counted {
  cells: number;
  formulas: number;
}

/** Reads a sheet's part, one cell after the other. */
export function readSheet(
  bytes: Uint8Array,
  part: string,
  counted: Counted,
  onward?: (share: number) => void,
): RawSheet {
  const cells: RawCell[] = [];
  const columns: RawSheet['columns'][number][] = [];
  const rows: RawSheet['rows'][number][] = [];
  const merged: string[] = [];
  const rules: RawRule[] = [];
  const also = new Map<string, number>();
  let frozen = { rows: 0, columns: 0 };
  let beyond = 0;
  let [row, column] = [-1, -1];
  let cell: Said | undefined;
  let formula: Said | undefined;
  let [value, formulaText] = ['', ''];
  let hasValue = false;
  let reading: 'v' | 'f' | 't' | 'one' | 'other' | undefined;
  let beside = 0;
  let rule: Said | undefined;
  let [one, other] = ['', ''];

  const ended = (said: Said): void => {
    if (row >= LIMITS.rows || column >= LIMITS.columns) {
      if (hasValue || formula !== undefined) beyond += 1;
      return;
    }
    if (!hasValue && formula === undefined && said.s === undefined) return;
    counted.cells += 1;
    if (formula !== undefined) counted.formulas += 1;
    if (counted.cells > MOST_CELLS) throw tooMany(MOST_CELLS, 'cells in use');
    if (counted.formulas > MOST_FORMULAS) throw tooMany(MOST_FORMULAS, 'formulas');
    const style = Number(said.s ?? 0);
    cells.push({
      row,
      column,
      type: said.t ?? 'n',
      value: hasValue ? unspelled(value) : undefined,
      formula: formula === undefined ? undefined : rawFormula(formula, unspelled(formulaText)),
      style: Number.isInteger(style) ? style : 0,
    });
  };

  readXml(bytes, part, {
    ...(onward === undefined ? {} : { onward }),
    open(name, said) {
      switch (name) {
        case 'row': {
          const at = Number(said.r ?? Number.NaN) - 1;
          row = Number.isInteger(at) && at >= 0 ? at : row + 1;
          column = -1;
          const group = Math.min(
            LIMITS.groups,
            Math.max(0, Math.trunc(Number(said.outlineLevel ?? 0)) || 0),
          );
          const isHidden = isYes(said.hidden);
          if ((isHidden || group > 0) && row < LIMITS.rows) rows.push({ row, isHidden, group });
          break;
        }
        case 'c': {
          const at = said.r === undefined ? undefined : parseAddress(said.r);
          column = at?.column ?? column + 1;
          if (at !== undefined) row = at.row;
          cell = said;
          formula = undefined;
          [value, formulaText] = ['', ''];
          hasValue = false;
          break;
        }
        case 'f':
          if (cell !== undefined) {
            formula = said;
            reading = 'f';
          }
          break;
        case 'v':
          if (cell !== undefined) {
            hasValue = true;
            reading = 'v';
          }
          break;
        case 'rPh':
          beside += 1;
          break;
        case 't':
          // How to pronounce a text is no part of it.
          if (cell?.t === 'inlineStr' && beside === 0) {
            hasValue = true;
            reading = 't';
          }
          break;
        case 'col': {
          const [min, max] = [Number(said.min), Number(said.max)];
          if (Number.isInteger(min) && min >= 1 && max >= min && columns.length < MOST_NOTED) {
            const width = Number(said.width ?? Number.NaN);
            columns.push({
              min: min - 1,
              max: Math.min(LIMITS.columns, max) - 1,
              ...(Number.isFinite(width) && isYes(said.customWidth) ? { width } : {}),
              isHidden: isYes(said.hidden),
            });
          }
          break;
        }
        case 'pane':
          if (said.state === 'frozen' || said.state === 'frozenSplit') {
            frozen = { rows: split(said.ySplit), columns: split(said.xSplit) };
          }
          break;
        case 'mergeCell':
          if (said.ref !== undefined && merged.length < MOST_NOTED) merged.push(said.ref);
          break;
        case 'dataValidation':
          rule = said;
          [one, other] = ['', ''];
          break;
        case 'formula1':
          if (rule !== undefined) reading = 'one';
          break;
        case 'formula2':
          if (rule !== undefined) reading = 'other';
          break;
        default:
          if (ALSO.has(name)) also.set(name, (also.get(name) ?? 0) + 1);
      }
    },
    text(piece) {
      if (reading === 'v' || reading === 't') value += piece;
      else if (reading === 'f') formulaText += piece;
      else if (reading === 'one') one += piece;
      else if (reading === 'other') other += piece;
    },
    close(name) {
      if (name === 'c' && cell !== undefined) {
        ended(cell);
        cell = undefined;
      } else if (name === 'dataValidation' && rule !== undefined) {
        const { sqref: ranges = '', type = 'none', operator = 'between' } = rule;
        if (rules.length < MOST_NOTED)
          rules.push({ ranges, type, operator, one: one.trim(), other: other.trim() });
        rule = undefined;
      }
      if (name === 'rPh') beside -= 1;
      reading = undefined;
    },
  });
  return { cells, columns, rows, frozen, merged, rules, beyond, also };
}

const tooMany = (most: number, what: string): Unreadable =>
  new Unreadable(
    `The file has more than ${most.toLocaleString('en-US')} ${what}; it is not opened.`,
  );

const KINDS = ['normal', 'shared', 'array', 'dataTable'] as const;

function rawFormula(said: Said, text: string): RawFormula {
  const kind = KINDS.find((one) => one === said.t) ?? 'normal';
  return {
    text,
    kind,
    ...(said.ref === undefined ? {} : { ref: said.ref }),
    ...(said.si === undefined ? {} : { shared: said.si }),
  };
}

const split = (word: string | undefined): number => {
  const lines = Math.trunc(Number(word ?? 0));
  return lines > 0 ? Math.min(LIMITS.frozen, lines) : 0;
};
