import {
  CHECKS_SHEET,
  cellsOfCheck,
  formulaOf,
  type Node,
  nodesOf,
  writtenText,
} from '@kerfbook/document';
import type { CellValue, CheckState } from '@kerfbook/workbook';
import type { FlatCell, FlatMark, FlatSheet } from './flat-book.ts';
import type { Flattening } from './flatten.ts';

/** The columns of the sheet with checks; those behind the fifth are hidden: a workbook is made of them again. */
export const CHECK_HEADS = [
  'Check',
  'Holds',
  'State',
  'What it says',
  'What must hold',
  'How bad',
  'Its sentence',
  'Its sheet',
  'Its cells',
] as const;
const WIDTHS = [260, 70, 90, 520, 420, 90, 420, 160, 160] as const;
const SHOWN = 5;
const HOLDS = 1;
/** Programs that show yes and no as 1 and 0 are told to say it. */
const YES_OR_NO = '[=1]"yes";[=0]"no";General';
const STATES = { pass: 'OK', care: 'warning', stop: 'problem', unknown: "can't tell" } as const;

/** The checks as a sheet of their own, and the cells that follow them. */
export interface ChecksOut {
  readonly sheet: FlatSheet;
  /** By ids of sheets. */
  readonly marks: ReadonlyMap<string, readonly FlatMark[]>;
}

/**
 * A row for each check: whether it holds, as a formula where it can go along, and what it says now. Nothing where the
 * workbook has none.
 * @param index where the sheet stands in the file
 */
export function checksSheet(
  out: Flattening,
  states: readonly CheckState[],
  name: string,
  index: number,
): ChecksOut | undefined {
  const { checks } = out.state;
  if (checks.length === 0) return undefined;
  const cells: FlatCell[] = CHECK_HEADS.map((text, column) => words(0, column, text, 'heading'));
  const marks = new Map<string, FlatMark[]>();
  for (const [at, check] of checks.entries()) {
    const row = at + 1;
    const state = states[at]?.state ?? 'unknown';
    const value: CellValue =
      state === 'unknown'
        ? { kind: 'error', error: { word: '#N/A', says: states[at]?.says ?? '' } }
        : { kind: 'logical', logical: state === 'pass' };
    const read = formulaOf(check);
    const text = writtenText(read, CHECKS_SHEET, out.state);
    const marked = cellsOfCheck(check);
    const found = out.formulaOut(asLogical(read.root), value, {
      sheet: CHECKS_SHEET,
      evaluates: out.state.sheets[0]?.id ?? '',
    });
    const formula = 'formula' in found ? found.formula : undefined;
    if ('why' in found) {
      out.tell(
        'frozen',
        `Check "${check.name}"`,
        `Its last state stands for ${text}. ${found.why}`,
      );
    }
    cells.push(
      words(row, 0, check.name),
      {
        row,
        column: HOLDS,
        value,
        ...(formula === undefined ? {} : { formula }),
        format: YES_OR_NO,
        look: { role: 'calculated' },
        ...('why' in found ? { remark: `Its last state. ${found.why}` } : {}),
      },
      stateCell(row, check.severity, state),
      words(row, 3, states[at]?.says ?? '', 'note'),
      words(row, 4, text, 'note'),
      words(row, 5, check.severity),
      words(row, 6, check.says),
      words(row, 7, check.sheet === undefined ? '' : (out.state.sheetName(check.sheet) ?? '')),
      words(row, 8, marked === undefined ? '' : writtenText(marked, check.sheet ?? '', out.state)),
    );
    for (const one of marksOf(out, check, index, row)) {
      marks.set(one.sheet, [...(marks.get(one.sheet) ?? []), one.mark]);
    }
  }
  return {
    sheet: {
      name,
      isHidden: false,
      isLocked: false,
      columns: WIDTHS.map((width, at) => ({ width, isHidden: at >= SHOWN })),
      rows: [],
      frozen: { rows: 1, columns: 0 },
      cells,
      marks: [],
    },
    marks,
  };
}

const words = (row: number, column: number, text: string, role?: 'heading' | 'note'): FlatCell => ({
  row,
  column,
  value: { kind: 'text', text },
  look: role === undefined ? {} : { role, ...(role === 'note' ? { style: { wrap: true } } : {}) },
});

/** A check holds where its formula is true or any number but 0. */
const asLogical = (root: Node | undefined): Node | undefined =>
  root === undefined
    ? undefined
    : {
        kind: 'call',
        name: 'AND',
        args: [{ kind: 'bracket', of: root }],
      };

function stateCell(row: number, severity: 'stop' | 'care', state: CheckState['state']): FlatCell {
  const holds: Node = { kind: 'name', name: `B${row + 1}` };
  const root: Node = {
    kind: 'call',
    name: 'IF',
    args: [
      { kind: 'call', name: 'ISERROR', args: [holds] },
      { kind: 'text', value: STATES.unknown },
      {
        kind: 'call',
        name: 'IF',
        args: [
          holds,
          { kind: 'text', value: STATES.pass },
          { kind: 'text', value: STATES[severity] },
        ],
      },
    ],
  };
  return {
    row,
    column: 2,
    value: { kind: 'text', text: STATES[state] },
    formula: { root, isArray: false, isWrittenOut: false },
    look: { role: 'calculated' },
  };
}

/** The cells that bear a check's sign, as ranges of their sheets. */
function marksOf(
  out: Flattening,
  check: Flattening['state']['checks'][number],
  index: number,
  row: number,
): readonly { readonly sheet: string; readonly mark: FlatMark }[] {
  const root = cellsOfCheck(check)?.root;
  if (root === undefined) return [];
  const { state } = out;
  const mark = { severity: check.severity, holds: { sheet: index, row, column: HOLDS } };
  return [...nodesOf(root)].flatMap((node) => {
    if (node.kind === 'name') {
      const at = state.named(node.name);
      return at === undefined ? [] : [{ sheet: at.sheet, mark: { ...mark, from: at, to: at } }];
    }
    if (node.kind !== 'reference' || node.to.sheet === undefined) return [];
    const { sheet, from, to = from } = node.to;
    const rows = [state.rowIndex(sheet, from.row ?? ''), state.rowIndex(sheet, to.row ?? '')];
    const columns = [
      state.columnIndex(sheet, from.column ?? ''),
      state.columnIndex(sheet, to.column ?? ''),
    ];
    const [top, bottom] = rows;
    const [left, right] = columns;
    if (top === undefined || bottom === undefined || left === undefined || right === undefined)
      return [];
    return [
      {
        sheet,
        mark: { ...mark, from: { row: top, column: left }, to: { row: bottom, column: right } },
      },
    ];
  });
}
