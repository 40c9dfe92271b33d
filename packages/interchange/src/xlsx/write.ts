import { columnName, writtenSheet } from '@kerfbook/document';
import { strToU8, type Zippable, zipSync } from 'fflate';
import type { FlatBook, FlatSheet } from '../flat/flat-book.ts';
import { Flattening, type Source } from '../flat/flatten.ts';
import { writtenFunction } from '../flat/known-functions.ts';
import { sheetNames } from '../flat/sheet-names.ts';
import { countedFormulas, FIRST_DAY, type WrittenOut } from '../flat/written-out.ts';
import { DECLARATION, element, escaped } from '../xml/write.ts';
import { drawingPart, PICTURE_PART } from './drawing-parts.ts';
import { Lists } from './lists.ts';
import { remarkBoxes, remarkedCells, remarksText } from './remarks.ts';
import { SharedStrings } from './shared-strings.ts';
import { Styles } from './styles.ts';
import { type Shared, sheetText } from './write-sheet.ts';

const SPREADSHEET = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const RELATIONS = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const PACKAGE = 'http://schemas.openxmlformats.org/package/2006';
const SHEET_ML = 'application/vnd.openxmlformats-officedocument.spreadsheetml';

/** What goes along beside the workbook. */
export interface XlsxHow {
  /** A drawing as PNG: the format has no other picture that all its readers show. It gets a sheet of its own. */
  readonly picture?: Uint8Array;
}

/**
 * A workbook as an xlsx file (ECMA-376, transitional): sheets with formulas and their last values, names, formats,
 * styles, what cells take, checks, remarks. Written from the same workbook it is the same to the last byte.
 * @throws RangeError where the picture is no PNG
 */
export function writeXlsx(book: Source, { picture }: XlsxHow = {}): WrittenOut {
  const flattening = new Flattening(book);
  const flat = flattening.whole();
  const lists = new Lists(flat);
  const shared: Shared = {
    book: flat,
    styles: new Styles(),
    strings: new SharedStrings(),
    lists,
    writing: flattening.writings({ functionName: (name) => writtenFunction(name) ?? name }),
    paper: book.units === 'metric' ? 'a4' : 'letter',
  };
  const parts: Zippable = {};
  const add = (path: string, text: string): void => {
    parts[path] = [strToU8(text), { level: 6, mtime: FIRST_DAY }];
  };
  const texts = flat.sheets.map((sheet, at) => sheetText(sheet, shared, at === 0));
  const listed = lists.sheet();
  const sheets = listed === undefined ? [...flat.sheets] : [...flat.sheets, listed];
  if (listed !== undefined) texts.push(sheetText(listed, shared, false));
  if (picture !== undefined) {
    const drawn = drawingSheet(sheets);
    sheets.push(drawn);
    texts.push(sheetText(drawn, shared, false, true));
    add(
      `xl/worksheets/_rels/sheet${sheets.length}.xml.rels`,
      relations([['drawing', '../drawings/drawing1.xml']]),
    );
    add('xl/drawings/drawing1.xml', drawingPart(drawn.name, picture));
    add('xl/drawings/_rels/drawing1.xml.rels', relations([['image', `/${PICTURE_PART}`]]));
    // It is packed already.
    parts[PICTURE_PART] = [picture, { level: 0, mtime: FIRST_DAY }];
  }
  add('[Content_Types].xml', contentTypes(sheets, picture !== undefined));
  add('_rels/.rels', relations([['officeDocument', 'xl/workbook.xml']]));
  add('docProps/app.xml', APP);
  add('xl/workbook.xml', workbook(flat, sheets));
  add(
    'xl/_rels/workbook.xml.rels',
    relations([
      ...sheets.map((_, at) => ['worksheet', `worksheets/sheet${at + 1}.xml`] as const),
      ['styles', 'styles.xml'],
      ['sharedStrings', 'sharedStrings.xml'],
    ]),
  );
  for (const [at, sheet] of sheets.entries()) {
    const number = at + 1;
    add(`xl/worksheets/sheet${number}.xml`, texts[at] ?? '');
    const remarked = remarkedCells(sheet.cells);
    if (remarked.length === 0) continue;
    add(
      `xl/worksheets/_rels/sheet${number}.xml.rels`,
      relations([
        ['vmlDrawing', `../drawings/remarks${number}.vml`],
        ['comments', `../comments${number}.xml`],
      ]),
    );
    add(`xl/comments${number}.xml`, remarksText(remarked));
    add(`xl/drawings/remarks${number}.vml`, remarkBoxes(remarked));
  }
  add('xl/styles.xml', shared.styles.text());
  add('xl/sharedStrings.xml', shared.strings.text());
  return { bytes: zipSync(parts), told: flat.told, formulas: countedFormulas(flat) };
}

const APP = `${DECLARATION}<Properties xmlns="http://schemas.openxmlformats.org/officeDocument/2006/extended-properties"><Application>Kerfbook</Application></Properties>`;

/** The sheet that holds the drawing alone, called otherwise than those before it. */
function drawingSheet(before: readonly FlatSheet[]): FlatSheet {
  const [name = 'Drawing'] = sheetNames(
    ['Drawing'],
    before.map((one) => one.name),
  );
  const frozen = { rows: 0, columns: 0 };
  return {
    name,
    isHidden: false,
    isLocked: false,
    columns: [],
    rows: [],
    frozen,
    cells: [],
    marks: [],
  };
}

function contentTypes(sheets: readonly FlatSheet[], hasPicture: boolean): string {
  const part = (name: string, type: string): string =>
    element('Override', { PartName: `/${name}`, ContentType: type });
  return `${DECLARATION}${element(
    'Types',
    { xmlns: `${PACKAGE}/content-types` },
    element('Default', {
      Extension: 'rels',
      ContentType: 'application/vnd.openxmlformats-package.relationships+xml',
    }) +
      element('Default', { Extension: 'xml', ContentType: 'application/xml' }) +
      element('Default', {
        Extension: 'vml',
        ContentType: 'application/vnd.openxmlformats-officedocument.vmlDrawing',
      }) +
      (hasPicture
        ? element('Default', { Extension: 'png', ContentType: 'image/png' }) +
          part(
            'xl/drawings/drawing1.xml',
            'application/vnd.openxmlformats-officedocument.drawing+xml',
          )
        : '') +
      part('xl/workbook.xml', `${SHEET_ML}.sheet.main+xml`) +
      part('xl/styles.xml', `${SHEET_ML}.styles+xml`) +
      part('xl/sharedStrings.xml', `${SHEET_ML}.sharedStrings+xml`) +
      part(
        'docProps/app.xml',
        'application/vnd.openxmlformats-officedocument.extended-properties+xml',
      ) +
      sheets
        .map(
          ({ cells }, at) =>
            part(`xl/worksheets/sheet${at + 1}.xml`, `${SHEET_ML}.worksheet+xml`) +
            (remarkedCells(cells).length > 0
              ? part(`xl/comments${at + 1}.xml`, `${SHEET_ML}.comments+xml`)
              : ''),
        )
        .join(''),
  )}`;
}

function relations(list: readonly (readonly [kind: string, target: string])[]): string {
  const all = list.map(([kind, target], at) =>
    element('Relationship', { Id: `rId${at + 1}`, Type: `${RELATIONS}/${kind}`, Target: target }),
  );
  return `${DECLARATION}${element('Relationships', { xmlns: `${PACKAGE}/relationships` }, all.join(''))}`;
}

function workbook(book: FlatBook, sheets: readonly FlatSheet[]): string {
  const list = sheets.map(({ name, isHidden }, at) =>
    element('sheet', {
      name,
      sheetId: at + 1,
      state: isHidden ? 'hidden' : undefined,
      'r:id': `rId${at + 1}`,
    }),
  );
  const names = book.names.map(({ name, sheet, row, column, to }) =>
    element(
      'definedName',
      { name },
      escaped(
        `${writtenSheet(sheets[sheet]?.name ?? '')}!$${columnName(column)}$${row + 1}${to === undefined ? '' : `:$${columnName(to.column)}$${to.row + 1}`}`,
      ),
    ),
  );
  const titles = sheets.flatMap(({ name, frozen }, at) =>
    frozen.rows === 0
      ? []
      : element(
          'definedName',
          { name: '_xlnm.Print_Titles', localSheetId: at },
          escaped(`${writtenSheet(name)}!$1:$${frozen.rows}`),
        ),
  );
  return `${DECLARATION}${element(
    'workbook',
    { xmlns: SPREADSHEET, 'xmlns:r': RELATIONS },
    `<bookViews><workbookView activeTab="${Math.max(
      0,
      sheets.findIndex(({ isHidden }) => !isHidden),
    )}"/></bookViews>` +
      element('sheets', {}, list.join('')) +
      (names.length + titles.length === 0
        ? ''
        : element('definedNames', {}, [...names, ...titles].join(''))) +
      '<calcPr fullCalcOnLoad="1"/>',
  )}`;
}
