import { Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { importFile } from '../import-file.ts';
import { UNITS_OFFERED } from '../taking/units-in.ts';
import { type Handmade, handmade } from '../testing/handmade.ts';

/** A file made by hand, taken in and opened. */
function taken(made: Handmade, how: Parameters<typeof importFile>[2] = {}) {
  const read = importFile(handmade(made), 'made.xlsx', how);
  if (!read.ok) throw new Error(read.says);
  const book = Workbook.open(read.document);
  const at = (address: string) => {
    const place = book.find(address, book.sheets()[0]?.id);
    if (place === undefined) throw new Error(`there is no ${address}`);
    return book.cell(place);
  };
  return { ...read, book, at, says: read.told.map(({ of, says }) => `${of}: ${says}`) };
}

const row = (number: number, cells: string): string => `<row r="${number}">${cells}</row>`;
const num = (ref: string, value: number | string, style = 0): string =>
  `<c r="${ref}" s="${style}"><v>${value}</v></c>`;
const formula = (ref: string, text: string, value: number | string): string =>
  `<c r="${ref}"><f>${text}</f><v>${value}</v></c>`;

describe('an xlsx file that is taken in', () => {
  it('brings values of every kind', () => {
    const { at, counts } = taken({
      sheets: {
        Sheet: row(
          1,
          `${num('A1', 1.5)}<c r="B1" t="s"><v>0</v></c><c r="C1" t="b"><v>1</v></c><c r="D1" t="e"><v>#DIV/0!</v></c><c r="E1" t="inlineStr"><is><r><t>two </t></r><r><t>runs</t></r><rPh><t>no</t></rPh></is></c><c r="F1" t="str"><v>plain</v></c>`,
        ),
      },
      strings: ['oak &amp; ash_x0007_'],
    });
    expect(at('A1').value).toEqual({ kind: 'number', number: 1.5 });
    expect(at('B1').value).toEqual({ kind: 'text', text: 'oak & ash\u0007' });
    expect(at('C1').value).toEqual({ kind: 'logical', logical: true });
    expect(at('D1').value).toMatchObject({ kind: 'error', error: { word: '#DIV/0!' } });
    expect(at('E1').value).toEqual({ kind: 'text', text: 'two runs' });
    expect(at('F1').value).toEqual({ kind: 'text', text: 'plain' });
    expect(counts.cells).toBe(6);
  });

  it('counts places where the file does not say them', () => {
    const { at } = taken({
      sheets: { S: '<row><c><v>1</v></c><c><v>2</v></c></row><row><c><v>3</v></c></row>' },
    });
    expect(at('B1').value).toEqual({ kind: 'number', number: 2 });
    expect(at('A2').value).toEqual({ kind: 'number', number: 3 });
  });

  it('moves a shared formula to each cell that shares it', () => {
    const shared = (ref: string, text: string, value: number): string =>
      `<c r="${ref}"><f t="shared" si="0"${text === '' ? '' : ' ref="B1:B3"'}>${text}</f><v>${value}</v></c>`;
    const { at } = taken({
      sheets: {
        S:
          row(1, num('A1', 2) + shared('B1', 'A1*2+$D$1', 4)) +
          row(2, num('A2', 3) + shared('B2', '', 6)) +
          row(3, num('A3', 4) + shared('B3', '', 8)),
      },
    });
    expect(at('B3').formula).toBe('=A3*2+$D$1');
    expect(at('B3').value).toEqual({ kind: 'number', number: 8 });
  });

  it('takes an array formula for the cells it fills', () => {
    const { at, says } = taken({
      sheets: {
        S:
          row(1, `${num('A1', 3)}<c r="B1"><f t="array" ref="B1:B2">A1:A2*2</f><v>6</v></c>`) +
          row(2, num('A2', 4) + num('B2', 8)) +
          row(3, '<c r="C3"><f t="array" ref="C3">SUM(A1:A2*A1:A2)</f><v>25</v></c>'),
      },
    });
    expect(at('B1').formula).toBe('=A1:A2*2');
    expect(at('B2').value).toEqual({ kind: 'number', number: 8 });
    expect(at('C3').value).toEqual({ kind: 'number', number: 25 });
    expect(says).toEqual([]);
  });

  it('keeps functions that are not here as their last value, with the reason at the cell', () => {
    const { at, says, counts } = taken({
      sheets: {
        S: row(
          1,
          formula('A1', '_xlfn.LET(x,1,x+1)', 2) +
            formula('B1', 'A1*3', 6) +
            formula('C1', '_xlfn.IFNA(A1,0)', 2),
        ),
      },
    });
    expect(at('A1').value).toEqual({ kind: 'number', number: 2 });
    expect(at('A1').remark).toContain('In the file: =LET(x,1,x+1)');
    expect(at('B1').formula).toBe('=A1*3');
    expect(at('C1').formula).toBe('=IFNA(A1,0)');
    expect(says).toEqual([
      'S!A1: There is no function LET here. Its last value stands for =LET(x,1,x+1)',
    ]);
    expect(counts).toMatchObject({ formulas: 2, asValues: 1 });
  });

  it('keeps a formula as its last value that is longer than one here may be', () => {
    // 701 references count as two letters each, with 701 signs before them.
    const long = Array.from({ length: 701 }, () => 'A1').join('+');
    const { at, says } = taken({ sheets: { S: row(1, num('A1', 2) + formula('B1', long, 1402)) } });
    expect(at('B1').value).toEqual({ kind: 'number', number: 1402 });
    expect(at('B1').formula).toBeUndefined();
    expect(says[0]).toContain('2103 characters, each reference counted as two; 2000 is the most.');
  });

  it('keeps what looks into other files, tables by name and unknown signs as their last value', () => {
    const { says } = taken({
      sheets: {
        S: row(
          1,
          formula('A1', '[1]Other!B2+1', 5) +
            formula('B1', "'[book.xlsx]Other'!B2", 5) +
            formula('C1', 'SUM(Table1[Length])', 5) +
            formula('D1', '_xlfn.SINGLE(A1)', 5) +
            formula('E1', 'nowhere+1', 5) +
            formula('F1', 'Gone!A1', 5),
        ),
      },
    });
    expect(says.map((one) => one.split('!')[1]?.slice(0, 30))).toEqual([
      'A1: It looks into another file',
      'B1: It looks into another file',
      'C1: It looks into another file',
      'D1: There is no function SINGL',
      'E1: There is no name nowhere i',
      'F1: There is no sheet "Gone" i',
    ]);
  });

  it('reads names: of one cell as its name, others as what they stand for', () => {
    const { book, says, at } = taken({
      sheets: {
        'My parts': row(
          1,
          num('A1', 84) +
            num('B1', 2) +
            formula('C1', 'top_length*rate+SUM(all)+Length1', 84 * 0.5 + 86 + 2),
        ),
      },
      names:
        '<definedName name="top_length">\'My parts\'!$A$1</definedName><definedName name="rate">0.5</definedName><definedName name="all">\'My parts\'!$A$1:$B$1</definedName><definedName name="Length1">\'My parts\'!$B$1</definedName><definedName name="_xlnm.Print_Area">\'My parts\'!$A$1:$C$1</definedName>',
    });
    expect(book.names().map(({ name }) => name)).toEqual(['top_length', 'Length_1']);
    expect(at('C1').value).toEqual({ kind: 'number', number: 130 });
    expect(says).toHaveLength(3);
  });

  it('reads days of both epochs (ECMA-376 part 1, 18.17.4.1)', () => {
    const styles = '<cellXfs><xf numFmtId="0"/><xf numFmtId="14"/></cellXfs>';
    // 2026-11-30 is day 46,356 from 1900, and 44,894 from 1904; 1 January 1900 is day 1.
    const from1900 = taken({
      styles,
      sheets: { S: row(1, num('A1', 46356, 1) + num('B1', 1, 1) + num('C1', 61, 1)) },
    });
    expect(from1900.at('A1').shown.text).toBe('2026-11-30');
    expect(from1900.at('B1').shown.text).toBe('1900-01-01');
    expect(from1900.at('C1').shown.text).toBe('1900-03-01');
    const from1904 = taken({
      styles,
      workbookPr: 'date1904="1"',
      sheets: { S: row(1, num('A1', 44894, 1)) },
    });
    expect(from1904.at('A1').shown.text).toBe('2026-11-30');
  });

  it('takes a range beyond what is in use as far as it is, and finds what stands for nothing', () => {
    const { at } = taken({
      sheets: {
        S:
          row(
            1,
            num('A1', 2) +
              formula('B1', 'SUM(A1:A1048576)', 5) +
              formula('C1', 'SUM(A:A)', 5) +
              formula('D1', 'H20+1', 1) +
              formula('E1', 'SUM(Z30:Z40)', 0),
          ) + row(2, num('A2', 3)),
      },
    });
    expect(at('B1').value).toEqual({ kind: 'number', number: 5 });
    expect(at('C1').value).toEqual({ kind: 'number', number: 5 });
    expect(at('D1').value).toEqual({ kind: 'number', number: 1 });
    expect(at('E1').value).toEqual({ kind: 'number', number: 0 });
  });

  it('says of merged cells, links, macros and pictures that they are left out', () => {
    const { says } = taken({
      sheets: { S: row(1, num('A1', 1)) },
      behind: {
        S: '<mergeCells><mergeCell ref="A1:C2"/></mergeCells><hyperlinks><hyperlink ref="A1" location="x"/></hyperlinks>',
      },
      parts: { 'xl/vbaProject.bin': new Uint8Array(9), 'xl/media/image1.png': new Uint8Array(9) },
    });
    expect(says).toEqual([
      'the file: Its macros are left out; nothing of them was carried out.',
      'the file: 1 picture is left out.',
      'S!A1:C2: These cells were one; what it said stands in the first of them.',
      'S: 1 link is left out.',
    ]);
  });

  it('brings widths, hidden rows, groups, pinned lines, looks and what cells take', () => {
    const { document, at } = taken({
      styles:
        '<fonts><font/><font><b/><i val="0"/></font></fonts><cellXfs><xf/><xf fontId="1"><alignment horizontal="right" wrapText="1"/></xf></cellXfs>',
      sheets: {
        S: `<row r="1"><c r="A1" s="1"><v>4</v></c></row><row r="2" hidden="1" outlineLevel="2"><c r="A2"><v>5</v></c></row>`,
      },
      before: {
        S: '<sheetViews><sheetView><pane xSplit="1" ySplit="2" state="frozen"/></sheetView></sheetViews><cols><col min="1" max="1" width="20" customWidth="1"/></cols>',
      },
      behind: {
        S: '<dataValidations><dataValidation type="whole" operator="between" sqref="A1"><formula1>1</formula1><formula2>9</formula2></dataValidation><dataValidation type="list" sqref="A2"><formula1>"oak, ash"</formula1></dataValidation></dataValidations>',
      },
    });
    expect(document.sheets[0]).toMatchObject({
      frozenRows: 2,
      frozenColumns: 1,
      columns: [{ id: 'c1', width: 145 }],
    });
    expect(document.sheets[0]?.rows[1]).toMatchObject({ hidden: true, group: 2 });
    expect(at('A1').style).toEqual({ bold: true, align: 'end', wrap: true });
    expect(at('A1').allow).toEqual({ min: 1, max: 9, whole: true });
    expect(at('A2').allow).toEqual({ list: ['oak', 'ash'] });
  });

  it('reads lists that stand on another sheet', () => {
    const words = (row: number, text: string): string =>
      `<row r="${row}"><c r="A${row}" t="inlineStr"><is><t>${text}</t></is></c></row>`;
    const { at } = taken({
      sheets: { S: row(1, num('A1', 1)), 'My lists': words(1, 'oak, white') + words(2, 'ash') },
      behind: {
        S: `<dataValidations><dataValidation type="list" sqref="A1"><formula1>'My lists'!$A$1:$A$9</formula1></dataValidation></dataValidations>`,
      },
    });
    expect(at('A1').allow).toEqual({ list: ['oak, white', 'ash'] });
  });

  it('guesses what numbers are, and takes only guesses that somebody agreed to', () => {
    const made: Handmade = {
      strings: ['Length (mm)', 'Qty', 'kg'],
      sheets: {
        S:
          row(1, '<c r="A1" t="s"><v>0</v></c><c r="B1" t="s"><v>1</v></c>') +
          row(2, `${num('A2', 710)}${num('B2', 4)}${num('C2', 3)}<c r="D2" t="s"><v>2</v></c>`),
      },
    };
    const all = taken(made);
    expect(all.document.units).toBe('metric');
    expect(all.guesses.map(({ says }) => says)).toEqual([
      'S, column A looks like lengths in millimeters (1 cell): its head says "Length (mm)".',
      'S, column B looks like counts (1 cell): its head says "Qty".',
      'S, column C looks like weights in kilograms (1 cell): "kg" stands beside it.',
    ]);
    expect(all.at('A2').quantity).toBe('length');
    expect(
      taken(made, { takes: ({ quantity }) => quantity === 'count' }).at('A2').quantity,
    ).toBeUndefined();
  });

  it('turns numbers into the workbook’s unit where no formula rests on them, as if they were typed with theirs', () => {
    const head = row(1, '<c r="A1" t="s"><v>0</v></c>');
    const strings = ['Length (mm)'];
    const file = (more: string): Handmade => ({
      strings,
      sheets: { S: head + row(2, num('A2', 508) + more) },
    });
    const inches = taken(file(''), { units: 'us' });
    // 25.4 mm are an inch (the international yard of 1959).
    expect(inches.at('A2')).toMatchObject({
      value: { kind: 'number', number: 20 },
      entry: '508 mm',
      quantity: 'length',
    });
    expect(inches.guesses[0]?.says).toMatch(/ Its numbers become in\.$/);
    const used = taken(file(formula('B2', 'SUM(A$1:A2)/2', 254)), { units: 'us' });
    expect(used.at('A2')).toMatchObject({ value: { kind: 'number', number: 508 } });
    expect(used.at('A2').quantity).toBeUndefined();
    expect(used.guesses[0]?.says).toMatch(/ stay bare, since formulas rest on them\.$/);
    expect(used.at('B2')).toMatchObject({ value: { kind: 'number', number: 254 } });
  });

  it('takes numbers for what somebody says that they are', () => {
    const made: Handmade = {
      strings: ['Length', 'Rate'],
      sheets: {
        S:
          row(1, '<c r="A1" t="s"><v>0</v></c><c r="B1" t="s"><v>1</v></c>') +
          row(2, num('A2', 50) + num('B2', 4)),
      },
    };
    const centimeters = UNITS_OFFERED.find(({ unit }) => unit === 'cm');
    const said = taken(made, {
      units: 'metric',
      takes: (guess, at) => (at === 0 && centimeters) || guess.quantity !== 'length',
    });
    expect(said.at('A2')).toMatchObject({ value: { kind: 'number', number: 500 } });
    expect(said.at('A2').entry).toBe('50 cm');
    expect(said.at('B2').quantity).toBeUndefined();
  });

  it('tells of each formula that comes to something else here', () => {
    const { says } = taken({ sheets: { S: row(1, num('A1', 2) + formula('B1', 'A1*2', 5)) } });
    expect(says).toEqual(['S!B1: It comes to 4 here; in the file it is 5.']);
  });
});
