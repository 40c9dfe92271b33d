import { columnName, writtenSheet } from '@kerfbook/document';
import { errorThere } from '../flat/errors-there.ts';
import type { FlatBook, FlatCell, FlatSheet } from '../flat/flat-book.ts';
import { DEFAULT_WIDTH_PX, isWide } from '../flat/looks.ts';
import { type Writing, writeFormula, writeNumber } from '../flat/write-formula.ts';
import { cellText, DECLARATION, element, escaped } from '../xml/write.ts';
import type { Lists } from './lists.ts';
import type { SharedStrings } from './shared-strings.ts';
import { MARK_STYLE, type Styles } from './styles.ts';

const SPREADSHEET = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const RELATIONS = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';

/** What all sheets of a file share. */
export interface Shared {
  readonly book: FlatBook;
  readonly styles: Styles;
  readonly strings: SharedStrings;
  readonly lists: Lists;
  /** A formula's references and names as the file has them. */
  writing(sheet: string): Writing;
  readonly paper: 'letter' | 'a4';
}

const PAPER = { letter: 1, a4: 9 } as const;
/** A digit of the default font is 7 px wide, and a cell has 5 px beside its letters. */
const DIGIT_PX = 7;
const BESIDE_PX = 5;
const px = (width: number): number =>
  Math.max(0, Math.round(((width - BESIDE_PX) / DIGIT_PX) * 100) / 100);

/**
 * The part of one sheet; its remarks stand in parts of their own.
 * @param isDrawing it holds a drawing alone, which its first relation leads to
 */
export function sheetText(
  sheet: FlatSheet,
  shared: Shared,
  isFirst: boolean,
  isDrawing = false,
): string {
  const hasRemarks = sheet.cells.some(({ remark }) => remark !== undefined);
  return `${DECLARATION}${element(
    'worksheet',
    { xmlns: SPREADSHEET, 'xmlns:r': RELATIONS },
    '<sheetPr><outlinePr summaryBelow="0"/><pageSetUpPr fitToPage="1"/></sheetPr>' +
      element('dimension', { ref: dimension(sheet) }) +
      views(sheet, isFirst, isDrawing) +
      element('sheetFormatPr', {
        defaultRowHeight: 15,
        outlineLevelRow: Math.max(0, ...sheet.rows.map(({ group }) => group)) || undefined,
      }) +
      columns(sheet) +
      element('sheetData', {}, rows(sheet, shared)) +
      (sheet.isLocked ? '<sheetProtection sheet="1" objects="1" scenarios="1"/>' : '') +
      marks(sheet, shared) +
      rules(sheet, shared) +
      '<pageMargins left="0.5" right="0.5" top="0.75" bottom="0.75" header="0.3" footer="0.3"/>' +
      element('pageSetup', {
        paperSize: PAPER[shared.paper],
        orientation: isDrawing || isWide(sheet.columns) ? 'landscape' : 'portrait',
        fitToWidth: 1,
        fitToHeight: 0,
      }) +
      headAndFoot(shared.book.title) +
      (isDrawing ? '<drawing r:id="rId1"/>' : '') +
      (hasRemarks ? '<legacyDrawing r:id="rId1"/>' : ''),
  )}`;
}

/** An ampersand begins a code there. */
const headAndFoot = (title: string): string =>
  element(
    'headerFooter',
    {},
    `<oddHeader>${escaped(`&L${title.replaceAll('&', '&&')}&R&A`)}</oddHeader><oddFooter>${escaped('&RPage &P of &N')}</oddFooter>`,
  );

function dimension({ cells }: FlatSheet): string {
  const last = cells.reduce(
    (most, { row, column }) => ({
      row: Math.max(most.row, row),
      column: Math.max(most.column, column),
    }),
    { row: 0, column: 0 },
  );
  const corner = `${columnName(last.column)}${last.row + 1}`;
  return corner === 'A1' ? 'A1' : `A1:${corner}`;
}

function views({ frozen }: FlatSheet, isFirst: boolean, isDrawing: boolean): string {
  const { rows: down, columns: across } = frozen;
  const pane =
    down + across === 0
      ? ''
      : element('pane', {
          xSplit: across || undefined,
          ySplit: down || undefined,
          topLeftCell: `${columnName(across)}${down + 1}`,
          activePane: down > 0 && across > 0 ? 'bottomRight' : down > 0 ? 'bottomLeft' : 'topRight',
          state: 'frozen',
        });
  return element(
    'sheetViews',
    {},
    element(
      'sheetView',
      {
        showGridLines: isDrawing ? false : undefined,
        tabSelected: isFirst || undefined,
        workbookViewId: 0,
      },
      pane,
    ),
  );
}

function columns(sheet: FlatSheet): string {
  const cols = sheet.columns.map(({ width = DEFAULT_WIDTH_PX, isHidden }, at) =>
    element('col', {
      min: at + 1,
      max: at + 1,
      width: px(width),
      customWidth: true,
      hidden: isHidden || undefined,
    }),
  );
  return cols.length === 0 ? '' : element('cols', {}, cols.join(''));
}

function rows(sheet: FlatSheet, shared: Shared): string {
  const byRow = new Map<number, FlatCell[]>();
  for (const cell of sheet.cells) {
    const line = byRow.get(cell.row);
    if (line === undefined) byRow.set(cell.row, [cell]);
    else line.push(cell);
  }
  const last = Math.max(
    -1,
    ...byRow.keys(),
    sheet.rows.findLastIndex((row) => row.isHidden || row.group > 0),
  );
  let text = '';
  for (let row = 0; row <= last; row += 1) {
    const { isHidden = false, group = 0 } = sheet.rows[row] ?? {};
    const cells = byRow.get(row);
    if (cells === undefined && !isHidden && group === 0) continue;
    text += element(
      'row',
      {
        r: row + 1,
        ht: heightOf(cells ?? [], sheet),
        hidden: isHidden || undefined,
        outlineLevel: group || undefined,
      },
      cells?.map((cell) => cellElement(cell, sheet, shared)).join(''),
    );
  }
  return text;
}

const LINE_PT = 13;
/** Letters of a proportional font are narrower than its digits. */
const LETTER_PX = 6.2;
const MOST_PT = 400;

/** How high a row has to be for words that are broken over lines; undefined where one line will do. */
function heightOf(cells: readonly FlatCell[], sheet: FlatSheet): number | undefined {
  let lines = 1;
  for (const { value, look, column } of cells) {
    if (look.style?.wrap !== true || value.kind !== 'text') continue;
    const { width = DEFAULT_WIDTH_PX } = sheet.columns[column] ?? {};
    const most = Math.max(1, Math.floor((width - BESIDE_PX) / LETTER_PX));
    const needed = value.text
      .split('\n')
      .reduce((sum, line) => sum + Math.max(1, Math.ceil(line.length / most)), 0);
    lines = Math.max(lines, needed);
  }
  return lines === 1 ? undefined : Math.min(MOST_PT, lines * LINE_PT + 2);
}

/** Most of a file is cells: they are written without going through attributes by their names. */
function cellElement(cell: FlatCell, sheet: FlatSheet, shared: Shared): string {
  const { value, formula } = cell;
  const ref = `${columnName(cell.column)}${cell.row + 1}`;
  const s = shared.styles.of(cell.look, cell.format);
  const f =
    formula === undefined
      ? ''
      : `<f${formula.isArray ? ` t="array" ref="${ref}"` : ''}>${cellText(
          writeFormula(formula.root, shared.writing(sheet.id ?? '')),
        )}</f>`;
  const head = `<c r="${ref}"${s === 0 ? '' : ` s="${s}"`}`;
  switch (value.kind) {
    case 'empty':
      // A formula that comes to nothing shows no words.
      return f === '' ? `${head}/>` : `${head} t="str">${f}<v></v></c>`;
    case 'number':
      return `${head}>${f}<v>${writeNumber(value.number)}</v></c>`;
    case 'logical':
      return `${head} t="b">${f}<v>${value.logical ? 1 : 0}</v></c>`;
    case 'error':
      return `${head} t="e">${f}<v>${escaped(errorThere(value.error.word))}</v></c>`;
    case 'text':
      return f === ''
        ? `${head} t="s"><v>${shared.strings.of(value.text)}</v></c>`
        : `${head} t="str">${f}<v>${cellText(value.text)}</v></c>`;
  }
}

/** Cells that follow a check bear its colours while it does not hold. */
function marks(sheet: FlatSheet, { book }: Shared): string {
  return sheet.marks
    .map(({ from, to, severity, holds }, at) => {
      const ref = `${columnName(from.column)}${from.row + 1}:${columnName(to.column)}${to.row + 1}`;
      const name = writtenSheet(book.sheets[holds.sheet]?.name ?? '');
      const holdsAt = `${name}!$${columnName(holds.column)}$${holds.row + 1}`;
      return element(
        'conditionalFormatting',
        { sqref: ref },
        element(
          'cfRule',
          { type: 'expression', dxfId: MARK_STYLE[severity], priority: at + 1 },
          element('formula', {}, cellText(`NOT(${holdsAt})`)),
        ),
      );
    })
    .join('');
}

/** What cells take. */
function rules(sheet: FlatSheet, { lists }: Shared): string {
  const found = sheet.cells.flatMap(({ row, column, allow, formula }) => {
    if (allow === undefined || formula !== undefined) return [];
    const sqref = `${columnName(column)}${row + 1}`;
    const about = { allowBlank: true, showErrorMessage: true, sqref };
    if (allow.list !== undefined) {
      return element(
        'dataValidation',
        { type: 'list', ...about },
        element('formula1', {}, cellText(lists.formula(allow.list))),
      );
    }
    const { min, max } = allow;
    if (min === undefined && max === undefined && allow.whole !== true) return [];
    const type = allow.whole === true ? 'whole' : 'decimal';
    const [operator, one, other] =
      min !== undefined && max !== undefined
        ? ['between', min, max]
        : max !== undefined
          ? ['lessThanOrEqual', max]
          : ['greaterThanOrEqual', min ?? -LARGEST_WHOLE];
    return element(
      'dataValidation',
      { type, operator, ...about },
      `${element('formula1', {}, writeNumber(Number(one)))}${other === undefined ? '' : element('formula2', {}, writeNumber(Number(other)))}`,
    );
  });
  return found.length === 0
    ? ''
    : element('dataValidations', { count: found.length }, found.join(''));
}

const LARGEST_WHOLE = 999_999_999;
