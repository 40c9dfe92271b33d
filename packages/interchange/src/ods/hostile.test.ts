import { strToU8 } from 'fflate';
import { describe, expect, it } from 'vitest';
import { importFile } from '../import-file.ts';
import { packed } from '../testing/handmade.ts';
import { handmadeOds, line, number, table } from '../testing/handmade-ods.ts';

type Made = Parameters<typeof handmadeOds>[0];

/** What is said of a file that is not opened. No test here measures a time: what hangs has the time of its test. */
function refused(bytes: Uint8Array): string {
  const read = importFile(bytes, 'x.ods');
  if (read.ok) throw new Error('it was taken in');
  expect(read.says).toMatch(/^[A-Z"].*[.]$/s);
  expect(read.says.length).toBeLessThan(400);
  return read.says;
}

function taken(made: Made) {
  const read = importFile(handmadeOds(made), 'x.ods');
  if (!read.ok) throw new Error(read.says);
  return read;
}

const MB = 1024 * 1024;
const ONE = table('S', line(number(1)));

describe('ods files that were made to do harm', () => {
  it('that unpack to far more than they are, in any part', () => {
    const spaces = ' '.repeat(60 * MB);
    expect(refused(handmadeOds({ body: `${ONE}${spaces}` }))).toContain('unpacks to more');
    for (const part of ['styles.xml', 'meta.xml', 'settings.xml', 'META-INF/manifest.xml']) {
      expect(refused(handmadeOds({ body: ONE, parts: { [part]: spaces } }))).toContain(part);
    }
  });

  it('with cells and rows that are said once for millions', () => {
    const rows = (more: string, cell: string): string =>
      table('S', `<table:table-row ${more}>${cell}</table:table-row>`);
    const many = 'table:number-columns-repeated="16384"';
    expect(
      refused(
        handmadeOds({
          body: rows('table:number-rows-repeated="1048576"', number(1, many)),
        }),
      ),
    ).toContain('250,000 cells');
    expect(
      refused(
        handmadeOds({
          body: rows(
            'table:number-rows-repeated="2000000000"',
            number(1, `table:formula="of:=1+1" ${many}`),
          ),
        }),
      ),
    ).toMatch(/250,000 cells|50,000 formulas/);
    const { document } = taken({
      body:
        rows(
          'table:number-rows-repeated="1e9"',
          `<table:table-cell table:style-name="x" ${many}/>${number(1)}`,
        ) +
        table(
          'T',
          `<table:table-column table:number-columns-repeated="2000000000"/>${line(number(2))}`,
        ),
    });
    expect(document.sheets.map(({ rows: all }) => all.length)).toEqual([1, 1]);
    expect(document.sheets[1]?.columns).toHaveLength(1);
  });

  it('with joined cells and array formulas over whole sheets', () => {
    const { told, document } = taken({
      body: table(
        'S',
        line(
          number(1, 'table:number-rows-spanned="1048576" table:number-columns-spanned="16384"'),
          number(
            2,
            'table:formula="of:=1+1" table:number-matrix-rows-spanned="1048576" table:number-matrix-columns-spanned="16384"',
          ),
          number(3),
        ),
      ),
    });
    expect(told.map(({ kind }) => kind)).toEqual(['merged']);
    expect(document.sheets[0]?.rows[0]?.cells?.c3?.value).toBe(3);
  });

  it('with spaces that are counted, words without end and tables within cells', () => {
    const { document, told } = taken({
      body: table(
        'S',
        line(
          '<table:table-cell office:value-type="string"><text:p>a<text:s text:c="2000000000"/>b</text:p></table:table-cell>',
          `<table:table-cell office:value-type="string"><text:p>${'<text:s text:c="9000"/>'.repeat(10_000)}</text:p></table:table-cell>`,
          `<table:table-cell>${table('inner', line(number(9)).repeat(1000))}</table:table-cell>`,
        ),
      ),
    });
    expect(told.map(({ kind }) => kind)).toEqual(['cut', 'cut']);
    expect(JSON.stringify(document)).not.toContain('inner');
    expect(document.sheets[0]?.rows).toHaveLength(1);
  });

  it('that declare types and entities of their own, are nested without end or broken off', () => {
    const laughs =
      '<!DOCTYPE x [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;"><!ENTITY c "&b;&b;&b;&b;&b;&b;&b;&b;">]>';
    expect(refused(handmadeOds({ before: laughs, body: ONE }))).toContain(
      'declares types of its own',
    );
    expect(
      refused(
        handmadeOds({
          body: ONE,
          parts: { 'meta.xml': '<!DOCTYPE x SYSTEM "file:///etc/passwd"><x/>' },
        }),
      ),
    ).toContain('declares types of its own');
    expect(refused(handmadeOds({ body: '<text:span>'.repeat(1000) }))).toContain('nested too deep');
    expect(refused(handmadeOds({ body: '<table:table' }))).toContain('not written as it should be');
    expect(refused(handmadeOds({ body: '<unknown:x/>' }))).toContain('not written as it should be');
    expect(refused(handmadeOds({ body: '' }))).toContain('no sheet');
    const good = handmadeOds({ body: ONE });
    expect(refused(good.slice(0, good.length - 40))).toContain('list of parts cannot be read');
  });

  it('that are locked, or another kind of document', () => {
    const locked =
      '<m:manifest xmlns:m="urn:oasis:names:tc:opendocument:xmlns:manifest:1.0"><m:file-entry><m:encryption-data/></m:file-entry></m:manifest>';
    expect(
      refused(handmadeOds({ body: ONE, parts: { 'META-INF/manifest.xml': locked } })),
    ).toContain('locked with a password');
    expect(
      refused(
        handmadeOds({ body: ONE, parts: { mimetype: 'application/vnd.oasis.opendocument.text' } }),
      ),
    ).toContain('another kind of document');
    expect(
      refused(packed({ mimetype: strToU8('application/vnd.oasis.opendocument.spreadsheet') })),
    ).toContain('no part with its content');
  });

  it('with macros, links elsewhere and parts that lead out of the file', () => {
    const { document, told } = taken({
      body:
        `<table:dde-links><table:dde-link><table:table><table:table-row>${number(4)}</table:table-row></table:table></table:dde-link></table:dde-links>` +
        `<office:scripts><office:script/></office:scripts><office:event-listeners/>` +
        table(
          'S',
          line(
            number(7, 'table:formula="of:=DDE(&quot;cmd&quot;;&quot;/c calc&quot;;&quot;x&quot;)"'),
            number(8, `table:formula="of:=['file:///etc/passwd'#$Sheet1.A1]"`),
            '<table:table-cell office:value-type="string"><text:p><text:a xlink:href="javascript:alert(1)">here</text:a></text:p></table:table-cell>',
          ),
        ),
      parts: { 'Basic/Standard/Module1.xml': '<x/>', 'Scripts/python/a.py': 'import os' },
    });
    expect(document.sheets).toHaveLength(1);
    expect(JSON.stringify(document.sheets[0]?.rows[0]?.cells?.c3)).not.toContain('javascript');
    expect(document.sheets[0]?.rows[0]?.cells?.c1?.value).toBe(7);
    expect(document.sheets[0]?.rows[0]?.cells?.c2?.value).toBe(8);
    expect(told.map(({ says }) => says).join('\n')).toMatch(
      /macros(?:.|\n)*link to another program/,
    );
    expect(
      refused(packed({ mimetype: strToU8('x'), '../content.xml': strToU8('<a/>') })),
    ).toContain('leads out of the file');
  });

  it('with names of things that every object has', () => {
    const { document } = taken({
      styles:
        '<style:style style:name="__proto__" style:family="table-cell" style:parent-style-name="__proto__" style:data-style-name="constructor"/>',
      body:
        '<table:content-validations><table:content-validation table:name="__proto__" table:condition="of:cell-content-is-in-list(&quot;constructor&quot;)"/></table:content-validations>' +
        table(
          'toString',
          line(
            number(
              1,
              'table:style-name="__proto__" table:content-validation-name="__proto__" __proto__="x"',
            ),
          ),
        ) +
        '<table:named-expressions><table:named-range table:name="__proto__" table:cell-range-address="$toString.$A$1"/></table:named-expressions>',
    });
    expect(document.sheets[0]?.rows[0]?.cells?.c1?.allow).toEqual({ list: ['constructor'] });
    expect(Object.keys(Object.prototype)).toEqual([]);
    expect(({} as Record<string, unknown>).x).toBeUndefined();
  });

  it('with styles that rest on themselves, and formulas too long or too deep', () => {
    const styles = Array.from(
      { length: 2000 },
      (_, at) =>
        `<style:style style:name="s${at}" style:family="table-cell" style:parent-style-name="s${(at + 1) % 2000}"/>`,
    ).join('');
    const deep = `${'('.repeat(300)}1${')'.repeat(300)}`;
    const { told } = taken({
      styles,
      body: table(
        'S',
        line(
          number(1, `table:style-name="s0" table:formula="of:=${deep}"`),
          number(2, `table:formula="of:=1${'+[.A1]'.repeat(4000)}"`),
          number(3, `table:formula="of:=${'['.repeat(50_000)}"`),
          number(4, `table:formula="of:={${'{'.repeat(9000)}"`),
        ),
      ),
    });
    const formulas = told.filter(({ kind }) => kind === 'formula').map(({ of }) => of);
    expect(formulas).toEqual(expect.arrayContaining(['S!B1', 'S!C1', 'S!D1']));
  });

  it('with signs in formulas that are opened a million times and never closed', () => {
    const formulas = ['[', "['", '"', '{', "['x']", "[''", '[.A1'].map((sign) =>
      number(1, `table:formula="of:=${sign.replaceAll('"', '&quot;').repeat(50_000)}"`),
    );
    const { told } = taken({ body: table('S', line(...formulas)), level: 0 });
    expect(told.filter(({ kind }) => kind === 'formula')).toHaveLength(formulas.length);
  });
});
