import { columnName } from '@kerfbook/document';
import { strToU8, type Zippable, zipSync } from 'fflate';
import type { FlatBook, FlatSheet } from '../flat/flat-book.ts';
import { Flattening, type Source } from '../flat/flatten.ts';
import { FONT, isWide } from '../flat/looks.ts';
import { sheetNames } from '../flat/sheet-names.ts';
import { countedFormulas, FIRST_DAY, type WrittenOut } from '../flat/written-out.ts';
import { DECLARATION, element, escaped } from '../xml/write.ts';
import { CellStyles, namedStyles } from './cell-styles.ts';
import { drawingSheet, PICTURE } from './drawing-sheet.ts';
import { NumberStyles } from './number-styles.ts';
import { BETWEEN, openAddress, openFunction, sheetThere } from './open-formula.ts';
import { MIME, manifest, metaPart, spaces, VERSION } from './package.ts';
import { settingsPart } from './settings.ts';
import { Once, Rules, type Shared, tableStyle, tableText } from './write-sheet.ts';

/** What goes along beside the workbook. */
export interface OdsHow {
  /** A drawing as SVG that stands by itself; it gets a sheet of its own. */
  readonly drawing?: string;
}

/**
 * A workbook as an ods file (OpenDocument 1.3): the same that goes out as xlsx, in the other open format. Written from
 * the same workbook it is the same to the last byte.
 */
export function writeOds(book: Source, how: OdsHow = {}): WrittenOut {
  const flattening = new Flattening(book);
  const flat = flattening.whole();
  const paper = book.units === 'metric' ? PAPER.a4 : PAPER.letter;
  const parts: readonly (readonly [path: string, text: string])[] = [
    ['content.xml', contentPart(flat, flattening.writings(WORDS_THERE), how.drawing)],
    ['styles.xml', stylesPart(flat.title, paper)],
    ['settings.xml', settingsPart(flat.sheets)],
    ['meta.xml', metaPart(flat.title)],
    [
      'META-INF/manifest.xml',
      manifest([
        ...['content.xml', 'styles.xml', 'settings.xml', 'meta.xml'].map((path) => ({
          path,
          type: 'text/xml',
        })),
        ...(how.drawing === undefined ? [] : [PICTURE]),
      ]),
    ],
  ];
  const zipped: Zippable = {
    // It stands first and unpacked, so that what the file is can be read at its beginning (part 2, 3.3).
    mimetype: [strToU8(MIME), { level: 0, mtime: FIRST_DAY }],
  };
  for (const [path, text] of parts) {
    zipped[path] = [strToU8(`${DECLARATION}${text}`), { level: 6, mtime: FIRST_DAY }];
  }
  if (how.drawing !== undefined)
    zipped[PICTURE.path] = [strToU8(how.drawing), { level: 6, mtime: FIRST_DAY }];
  return { bytes: zipSync(zipped), told: flat.told, formulas: countedFormulas(flat) };
}

const WORDS_THERE = {
  functionName: (name: string) => openFunction(name) ?? name,
  addresses: openAddress,
  between: BETWEEN,
};

function contentPart(
  flat: FlatBook,
  writing: Shared['writing'],
  drawing: string | undefined,
): string {
  const numbers = new NumberStyles();
  const shared: Shared = {
    book: flat,
    styles: new CellStyles(numbers),
    rules: new Rules(),
    columns: new Once('co'),
    writing,
  };
  const tables = flat.sheets.map((sheet) => tableText(sheet, shared)).join('');
  const [drawingName = 'Drawing'] = sheetNames(
    ['Drawing'],
    flat.sheets.map(({ name }) => name),
  );
  const drawn = drawing === undefined ? '' : drawingSheet(drawingName, drawing);
  const base = `${sheetThere(flat.sheets[0]?.name ?? '')}.A1`;
  return element(
    'office:document-content',
    {
      ...spaces(
        'office',
        'style',
        'text',
        'table',
        'fo',
        'number',
        'svg',
        'draw',
        'xlink',
        'dc',
        'of',
      ),
      'office:version': VERSION,
    },
    FONT_FACES +
      element(
        'office:automatic-styles',
        {},
        columnStyles(shared.columns) +
          ROW_STYLE +
          tableStyles(flat.sheets, drawing !== undefined) +
          numbers.text() +
          shared.styles.text(),
      ) +
      element(
        'office:body',
        {},
        element(
          'office:spreadsheet',
          {},
          CALCULATION + shared.rules.text(base) + tables + drawn + names(flat),
        ),
      ),
  );
}

/** Words are compared as the workbook does: whole, in either case, and none of their letters stands for others. */
const CALCULATION = element('table:calculation-settings', {
  'table:case-sensitive': 'false',
  'table:automatic-find-labels': 'false',
  'table:use-regular-expressions': 'false',
  'table:use-wildcards': 'true',
  'table:search-criteria-must-apply-to-whole-cell': 'true',
});

const FONT_FACES = element(
  'office:font-face-decls',
  {},
  element('style:font-face', {
    'style:name': FONT.name,
    'svg:font-family': FONT.name,
    'style:font-family-generic': 'swiss',
    'style:font-pitch': 'variable',
  }),
);

const columnStyles = (columns: Once): string =>
  columns.all
    .map(([width, name]) =>
      element(
        'style:style',
        { 'style:name': name, 'style:family': 'table-column' },
        element('style:table-column-properties', { 'style:column-width': width }),
      ),
    )
    .join('');

/** Rows are as high as their words need. */
const ROW_STYLE = element(
  'style:style',
  { 'style:name': 'ro1', 'style:family': 'table-row' },
  element('style:table-row-properties', { 'style:use-optimal-row-height': 'true' }),
);

function tableStyles(sheets: readonly FlatSheet[], hasDrawing: boolean): string {
  const kinds = new Map<string, Pick<FlatSheet, 'isHidden' | 'columns'>>(
    sheets.map((sheet) => [tableStyle(sheet), sheet]),
  );
  // A drawing lies on a page across.
  if (hasDrawing)
    kinds.set('ta_across', { isHidden: false, columns: [{ width: 1000, isHidden: false }] });
  return [...kinds]
    .map(([name, { isHidden, columns }]) =>
      element(
        'style:style',
        {
          'style:name': name,
          'style:family': 'table',
          'style:master-page-name': isWide(columns) ? 'across' : 'upright',
        },
        element('style:table-properties', {
          'table:display': isHidden ? 'false' : 'true',
          'style:writing-mode': 'lr-tb',
        }),
      ),
    )
    .join('');
}

function names({ names: all, sheets }: FlatBook): string {
  const list = all.map(({ name, sheet, row, column, to }) => {
    const table = `$${sheetThere(sheets[sheet]?.name ?? '')}`;
    const from = `${table}.$${columnName(column)}$${row + 1}`;
    return element('table:named-range', {
      'table:name': name,
      'table:base-cell-address': `${table}.$A$1`,
      'table:cell-range-address':
        to === undefined ? from : `${from}:.$${columnName(to.column)}$${to.row + 1}`,
    });
  });
  return list.length === 0 ? '' : element('table:named-expressions', {}, list.join(''));
}

const PAPER = {
  letter: { short: '8.5in', long: '11in' },
  a4: { short: '210mm', long: '297mm' },
} as const;

function stylesPart(title: string, paper: (typeof PAPER)['a4' | 'letter']): string {
  const layout = (name: string, orientation: 'portrait' | 'landscape'): string =>
    element(
      'style:page-layout',
      { 'style:name': name },
      element('style:page-layout-properties', {
        'fo:page-width': orientation === 'portrait' ? paper.short : paper.long,
        'fo:page-height': orientation === 'portrait' ? paper.long : paper.short,
        'style:print-orientation': orientation,
        'fo:margin-left': '0.5in',
        'fo:margin-right': '0.5in',
        'fo:margin-top': '0.3in',
        'fo:margin-bottom': '0.3in',
        // One page wide, as many as are needed long.
        'style:scale-to-X': 1,
        'style:scale-to-Y': 0,
      }) +
        element('style:header-style', {}, HEAD_SIZE) +
        element('style:footer-style', {}, HEAD_SIZE),
    );
  const page = (name: string): string =>
    element(
      'style:master-page',
      { 'style:name': name, 'style:page-layout-name': `page_${name}` },
      `<style:header><style:region-left><text:p>${escaped(title)}</text:p></style:region-left><style:region-right><text:p><text:sheet-name>???</text:sheet-name></text:p></style:region-right></style:header>` +
        '<style:footer><style:region-right><text:p>Page <text:page-number>1</text:page-number> of <text:page-count>1</text:page-count></text:p></style:region-right></style:footer>',
    );
  return element(
    'office:document-styles',
    {
      ...spaces('office', 'style', 'text', 'table', 'fo', 'number', 'svg'),
      'office:version': VERSION,
    },
    FONT_FACES +
      element('office:styles', {}, namedStyles()) +
      element(
        'office:automatic-styles',
        {},
        layout('page_upright', 'portrait') + layout('page_across', 'landscape'),
      ) +
      element('office:master-styles', {}, page('upright') + page('across')),
  );
}

const HEAD_SIZE = element('style:header-footer-properties', {
  'fo:min-height': '0.3in',
  'fo:margin-bottom': '0.1in',
});
