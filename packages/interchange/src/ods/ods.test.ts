import type { CellDocument } from '@kerfbook/document';
import { loadValue, Workbook } from '@kerfbook/workbook';
import { strFromU8, strToU8, unzipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { importFile } from '../import-file.ts';
import { readFormat } from '../taking/format-code.ts';
import { handmadeOds, line, number, table } from '../testing/handmade-ods.ts';
import { readXmlOf } from '../xml/read.ts';
import { NumberStyles } from './number-styles.ts';
import { openAddress } from './open-formula.ts';
import { SPACES, WORDS } from './package.ts';
import { FormatsRead } from './read-formats.ts';
import { plainFormula, plainReference } from './read-formula.ts';
import { paragraphs } from './texts.ts';
import { writeOds } from './write.ts';

function taken(file: Parameters<typeof handmadeOds>[0]) {
  const read = importFile(handmadeOds(file), 'x.ods');
  if (!read.ok) throw new Error(read.says);
  const cell = (row: number, column: number, sheet = 0): CellDocument | undefined =>
    read.document.sheets[sheet]?.rows[row]?.cells?.[`c${column + 1}`];
  return { ...read, cell };
}

describe('formulas of OpenDocument', () => {
  // Forms after OpenDocument 1.3 part 4, 5.8 (references), 5.13 (constant tables), 5.6 (prefixes of makers).
  it.each([
    ['of:=SUM([.B1:.C2];1)', 'SUM(B1:C2,1)'],
    ['of:=[.A1]+[$Parts.$B$2]', "A1+'Parts'!$B$2"],
    ["of:=[$'My ''parts'''.B2:.C9]", "'My ''parts'''!B2:C9"],
    ['of:=[$Parts.B2:$Parts.C9]', "'Parts'!B2:C9"],
    ['of:=[.B:.B]', 'B:B'],
    ['of:=[.#REF!]+1', '#REF!+1'],
    ['of:=INDEX({1;2|3;4};1;2)', 'INDEX({1,2;3,4},1,2)'],
    ['of:=IF([.A1]="a;b|[.C3]";"";0)', 'IF(A1="a;b|[.C3]","",0)'],
    ['of:=COM.MICROSOFT.IFS([.A1]>1;2)', 'IFS(A1>1,2)'],
    ['of:=LEGACY.NORMSDIST(1)', 'NORMSDIST(1)'],
    ['of:=SKEWP([.A1:.A9])', 'SKEW.P(A1:A9)'],
    ['of:=bench_length*2', 'bench_length*2'],
    ['of:=[.B1]+$$bench_length', 'B1+bench_length'],
    ['oooc:=SUM([.A1];2)', 'SUM(A1,2)'],
    ['msoxl:=SUM(A1,2)', 'SUM(A1,2)'],
    ['=SUM([.A1];2)', 'SUM(A1,2)'],
    ['of:=1.5E-3%', '1.5E-3%'],
  ])('%s is %s', (written, plain) => {
    expect(plainFormula(written)).toBe(plain);
  });

  it('that look into other files, over several sheets, or join references are refused later', () => {
    expect(plainFormula("of:=['file:///a.ods'#$Sheet1.A1]")).toContain('[');
    expect(plainFormula('of:=SUM([$A.A1:$B.C3])')).toContain('[');
    expect(plainFormula('of:=SUM([.A1]~[.B2])')).toContain('~');
    const { told, cell } = taken({
      body: table(
        'S',
        line(
          number(7, 'table:formula="of:=[\'file:///a.ods\'#$Sheet1.A1]"'),
          number(8, 'table:formula="of:=SUM([.A1]~[.A1])"'),
        ),
      ),
    });
    expect([cell(0, 0)?.value, cell(0, 1)?.value]).toEqual([7, 8]);
    expect(told.map(({ kind }) => kind)).toEqual(['formula', 'formula']);
  });

  it.each([
    'B2',
    '$B$2:C9',
    'Parts!B2',
    "'My parts'!$B$2:C9",
    "'a:b.c''d'!A1:B2",
    'B:C',
    "'x y'!3:4",
  ])('the address %s comes back as it went out', (address) => {
    const there = openAddress(address);
    expect(there).toMatch(/^\[.*\]$/);
    expect(plainReference(there.slice(1, -1)).replace(/^'Parts'/, 'Parts')).toBe(address);
  });
});

describe('formats of numbers as styles', () => {
  it.each([
    '0',
    '0.000',
    '#,##0.00',
    '0.000" mm"',
    '# ??/??',
    '# ??/16',
    '# ??/32" in"',
    '[<0.25]0.000;# ??/32',
    'yyyy-mm-dd',
    '"$"#,##0.00',
    '#,##0.00" €"',
    '"CHF "#,##0',
    '@',
  ])('%s says the same as its code', (code) => {
    const styles = new NumberStyles();
    const name = styles.of(code);
    const read = new FormatsRead();
    const spaces = Object.entries(SPACES).map(([prefix, uri]) => `xmlns:${prefix}="${uri}"`);
    readXmlOf(WORDS, strToU8(`<x ${spaces.join(' ')}>${styles.text()}</x>`), 'x', read);
    expect(read.of(name)).toEqual(readFormat(code));
  });
});

describe('an ods file of somebody else', () => {
  it('has its values, whatever kind they are', () => {
    const value = (kind: string, said: string, shown = ''): string =>
      `<table:table-cell office:value-type="${kind}" ${said}><text:p>${shown}</text:p></table:table-cell>`;
    const { cell } = taken({
      body: table(
        'S',
        line(
          number(1.5),
          value('percentage', 'office:value="0.25"', '25 %'),
          value('currency', 'office:currency="EUR" office:value="12"', '12 €'),
          value('date', 'office:date-value="2026-11-30"', '30 Nov'),
          value('date', 'office:date-value="1899-12-31T12:00:00"'),
          value('time', 'office:time-value="PT12H30M00S"'),
          value('boolean', 'office:boolean-value="true"', 'TRUE'),
          value('string', '', 'a  b'),
          '<table:table-cell office:value-type="string"><text:p>two<text:s text:c="3"/>three<text:tab/>four</text:p><text:p>five<text:line-break/>six</text:p></table:table-cell>',
        ),
      ),
    });
    // 2026-11-30 is 46,356 days after 1899-12-30 (146,097 days in 400 years; counted by `date -d`).
    const values = Array.from({ length: 9 }, (_, at) => cell(0, at)?.value);
    expect(values).toEqual([
      1.5,
      0.25,
      12,
      46_356,
      1.5,
      12.5 / 24,
      true,
      'a  b',
      'two   three\tfour\nfive\nsix',
    ]);
    expect(cell(0, 2)?.quantity).toBe('money');
    expect(cell(0, 3)?.quantity).toBe('date');
  });

  it('stands where its repeated lines and cells put it', () => {
    const { document, cell, told } = taken({
      body: table(
        'S',
        `<table:table-row table:number-rows-repeated="3"><table:table-cell table:number-columns-repeated="2"/>${number(5, 'table:number-columns-repeated="2"')}</table:table-row>` +
          line(number(6)) +
          '<table:table-row table:number-rows-repeated="1048572"><table:table-cell table:number-columns-repeated="16384"/></table:table-row>',
      ),
    });
    expect(document.sheets[0]?.rows).toHaveLength(4);
    expect(document.sheets[0]?.columns).toHaveLength(4);
    expect([cell(0, 1), cell(2, 2)?.value, cell(2, 3)?.value, cell(3, 0)?.value]).toEqual([
      undefined,
      5,
      5,
      6,
    ]);
    expect(told).toEqual([]);
  });

  it('says its names, rules, remarks, groups, hidden lines, joined cells and what was left out', () => {
    const { document, cell, told } = taken({
      styles:
        '<style:style style:name="co1" style:family="table-column"><style:table-column-properties style:column-width="2.54cm"/></style:style>' +
        '<style:style style:name="ce1" style:family="table-cell"><style:table-cell-properties fo:wrap-option="wrap"/><style:paragraph-properties fo:text-align="center"/><style:text-properties fo:font-weight="bold"/></style:style>' +
        '<style:style style:name="ta2" style:family="table"><style:table-properties table:display="false"/></style:style>',
      body:
        '<table:tracked-changes><table:deletion><table:table-cell office:value-type="float" office:value="99"/></table:deletion></table:tracked-changes>' +
        '<table:content-validations><table:content-validation table:name="v1" table:condition="of:cell-content-is-whole-number() and cell-content-is-between(1,9)"/><table:content-validation table:name="v2" table:condition="of:cell-content-is-in-list(&quot;oak&quot;;&quot;ash, white&quot;)"/><table:content-validation table:name="v3" table:condition="of:cell-content-is-in-list([$S.$A$2:.$A$3])"/><table:content-validation table:name="v4" table:condition="of:cell-content-text-length()&gt;3"/></table:content-validations>' +
        `<table:table table:name="S"><table:table-column table:style-name="co1"/><table:table-column table:visibility="collapse"/>${line(
          number(4, 'table:style-name="ce1" table:content-validation-name="v1"'),
          '<table:table-cell table:content-validation-name="v2"/>',
          '<table:table-cell table:content-validation-name="v3" office:value-type="string"><office:annotation><dc:creator>Somebody</dc:creator><text:p>as sold</text:p></office:annotation><text:p>one</text:p></table:table-cell>',
          number(5, 'table:content-validation-name="v4" table:number-columns-spanned="2"'),
          '<table:covered-table-cell/>',
          number(6),
        )}<table:table-row-group>${line(`<table:table-cell office:value-type="string"><text:p>one</text:p></table:table-cell>`)}<table:table-row table:visibility="collapse">${number(3)}<table:table-cell><draw:frame><text:p>drawn</text:p></draw:frame></table:table-cell></table:table-row></table:table-row-group></table:table>` +
        `<table:table table:name="T" table:style-name="ta2">${line(number(1))}</table:table>` +
        `<table:table table:name="'file:///other.ods'#U"><table:table-source/>${line(number(1))}</table:table>` +
        '<table:named-expressions><table:named-range table:name="legs" table:cell-range-address="$S.$A$1"/><table:named-expression table:name="twice" table:expression="of:=legs*2"/></table:named-expressions>',
    });
    const [sheet, hidden, ...more] = document.sheets;
    expect(more).toEqual([]);
    expect(hidden).toMatchObject({ name: 'T', hidden: true });
    expect(cell(0, 0)).toEqual({
      value: 4,
      name: 'legs',
      allow: { whole: true, min: 1, max: 9 },
      style: { bold: true, align: 'centre', wrap: true },
    });
    expect(cell(0, 1)?.allow).toEqual({ list: ['oak', 'ash, white'] });
    expect(cell(0, 2)).toEqual({ value: 'one', remark: 'as sold', allow: { list: ['one', '3'] } });
    expect(cell(0, 5)?.value).toBe(6);
    expect(sheet?.columns.slice(0, 2)).toEqual([
      { id: 'c1', width: 96 },
      { id: 'c2', hidden: true },
    ]);
    expect(sheet?.rows.map(({ group, hidden: isHidden }) => [group, isHidden])).toEqual([
      [undefined, undefined],
      [1, undefined],
      [1, true],
    ]);
    const of = (kind: string): readonly string[] =>
      told.filter((one) => one.kind === kind).map((one) => one.of);
    expect(of('merged')).toEqual(['S!D1:E1']);
    expect(of('rule')).toEqual(['S!D1']);
    expect(of('name')).toEqual(['twice']);
    expect(of('left-out')).toEqual(['the file', 'the file', 'S']);
    expect(JSON.stringify(document)).not.toMatch(/drawn|99|Somebody/);
  });

  it('says errors as errors, of its own words too', () => {
    const { cell } = taken({
      body: table(
        'S',
        line(
          '<table:table-cell table:formula="of:=1/0" office:value-type="string" office:string-value="" calcext:value-type="error"><text:p>#DIV/0!</text:p></table:table-cell>',
          '<table:table-cell table:formula="of:=NOTHERE(1)" office:value-type="string" office:string-value="" calcext:value-type="error"><text:p>Err:508</text:p></table:table-cell>',
          '<table:table-cell table:formula="of:=#N/A" office:value-type="string" office:string-value=""><text:p>#N/A</text:p></table:table-cell>',
        ),
      ),
    });
    expect(cell(0, 0)?.formula).toBe('=1/0');
    expect(cell(0, 1)?.formula).toBe('=#VALUE!');
    expect(cell(0, 2)?.formula).toBe('=#N/A');
  });
});

describe('words of cells', () => {
  it('keep their spaces, tabs and lines', () => {
    expect(paragraphs(' a  b\tc\nd & e')).toBe(
      '<text:p><text:s text:c="1"/>a<text:s text:c="2"/>b<text:tab/>c</text:p><text:p>d &amp; e</text:p>',
    );
    expect(paragraphs('a\u0007b')).toBe('<text:p>ab</text:p>');
  });
});

describe('the drawing', () => {
  const book = (): Workbook => {
    const loaded = loadValue({
      kerfbook: 8,
      title: 'Drawn',
      units: 'metric',
      sheets: [
        {
          id: 's1',
          name: 'Drawing',
          columns: [{ id: 'c1' }],
          rows: [{ id: 'r1', cells: { c1: { value: 7 } } }],
        },
      ],
      checks: [],
      tables: [],
    });
    if (!loaded.ok) throw new Error(loaded.says);
    return Workbook.open(loaded.document);
  };

  it('has a sheet of its own, in its shape, that does not come back', () => {
    const drawing = '<svg viewBox="0 0 400 100" xmlns="http://www.w3.org/2000/svg"/>';
    const { bytes } = writeOds(book(), { drawing });
    const parts = unzipSync(bytes);
    const text = (name: string): string => strFromU8(parts[name] ?? new Uint8Array());
    expect(text('Pictures/drawing.svg')).toBe(drawing);
    expect(text('META-INF/manifest.xml')).toContain('Pictures/drawing.svg');
    // 250 mm wide at the most, a quarter of it high.
    expect(text('content.xml')).toMatch(/svg:width="250mm" svg:height="62.5mm"/);
    const read = importFile(bytes, 'x.ods');
    if (!read.ok) throw new Error(read.says);
    expect(read.document.sheets.map(({ name }) => name)).toEqual(['Drawing']);
    expect(read.document.sheets[0]?.rows[0]?.cells?.c1?.value).toBe(7);
  });

  it('is refused where it does not say how large it is', () => {
    expect(() => writeOds(book(), { drawing: '<svg/>' })).toThrow(RangeError);
  });
});
