import { loadValue, Workbook } from '@kerfbook/workbook';
import { strFromU8, unzipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { importFile } from '../import-file.ts';
import { readXml } from '../xml/read.ts';
import { writeXlsx } from './write.ts';

/** A picture with the head of a PNG (ISO/IEC 15948, 5.2 and 11.2.2), of which nothing behind it is read here. */
function headOfPng(width: number, height: number): Uint8Array {
  const bytes = Buffer.alloc(33);
  Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]).copy(bytes);
  bytes.writeUInt32BE(13, 8);
  bytes.write('IHDR', 12, 'latin1');
  bytes.writeUInt32BE(width, 16);
  bytes.writeUInt32BE(height, 20);
  return new Uint8Array(bytes);
}

function bookOf(sheet: string): Workbook {
  const loaded = loadValue({
    kerfbook: 8,
    title: 'Drawn',
    units: 'metric',
    sheets: [
      {
        id: 's1',
        name: sheet,
        columns: [{ id: 'c1' }],
        rows: [{ id: 'r1', cells: { c1: { value: 7 } } }],
      },
    ],
    checks: [],
    tables: [],
  });
  if (!loaded.ok) throw new Error(loaded.says);
  return Workbook.open(loaded.document);
}

describe('the drawing in an xlsx file', () => {
  const picture = headOfPng(400, 100);
  const { bytes } = writeXlsx(bookOf('Base'), { picture });
  const parts = unzipSync(bytes);
  const text = (name: string): string => strFromU8(parts[name] ?? new Uint8Array());
  const sheets = [...text('xl/workbook.xml').matchAll(/<sheet name="([^"]*)"/g)].map(
    ([, name]) => name,
  );

  it('is on the last sheet, which leads to it by relations that all have their part', () => {
    expect(sheets).toEqual(['Base', 'About this file', 'Drawing']);
    const sheet = text('xl/worksheets/sheet3.xml');
    expect(sheet).toMatch(/<\/headerFooter><drawing r:id="rId1"\/><\/worksheet>$/);
    expect(sheet).toContain('orientation="landscape"');
    expect(text('xl/worksheets/_rels/sheet3.xml.rels')).toContain(
      'Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/drawing" Target="../drawings/drawing1.xml"',
    );
    expect(text('xl/drawings/drawing1.xml')).toContain('<a:blip r:embed="rId1"/>');
    expect(text('xl/drawings/_rels/drawing1.xml.rels')).toContain(
      'Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/image" Target="/xl/media/drawing.png"',
    );
    expect(parts['xl/media/drawing.png']).toEqual(picture);
    const types = text('[Content_Types].xml');
    expect(types).toContain('<Default Extension="png" ContentType="image/png"/>');
    expect(types).toContain(
      'PartName="/xl/drawings/drawing1.xml" ContentType="application/vnd.openxmlformats-officedocument.drawing+xml"',
    );
  });

  it('stands there in its own shape, as large as a page across takes it', () => {
    const said: Record<string, string>[] = [];
    readXml(parts['xl/drawings/drawing1.xml'] ?? new Uint8Array(), 'drawing1.xml', {
      open: (name, attributes) => {
        if (name === 'ext') said.push({ ...attributes });
      },
      text: () => undefined,
      close: () => undefined,
    });
    // 250 mm wide at the most, a quarter of it high; 914,400 EMU are 25.4 mm (ECMA-376 part 1, 20.1.2.1).
    const emu = (mm: number): string => String((mm / 25.4) * 914_400);
    expect(said).toEqual([
      { cx: emu(250), cy: emu(62.5) },
      { cx: emu(250), cy: emu(62.5) },
    ]);
  });

  it('does not come back as a sheet, and that it was left out is said', () => {
    const read = importFile(bytes, 'x.xlsx');
    if (!read.ok) throw new Error(read.says);
    expect(read.document.sheets.map(({ name }) => name)).toEqual(['Base']);
    expect(read.told.map(({ of, says }) => `${of}: ${says}`)).toEqual([
      'the file: 1 picture is left out.',
      'the file: "About this file", "Drawing" were added on the way out; they are left out.',
    ]);
  });

  it('leaves a sheet of its maker that is called the same as it is', () => {
    const own = writeXlsx(bookOf('drawing'), { picture });
    expect(strFromU8(unzipSync(own.bytes)['xl/workbook.xml'] ?? new Uint8Array())).toContain(
      '<sheet name="Drawing 2"',
    );
    const read = importFile(own.bytes, 'x.xlsx');
    if (!read.ok) throw new Error(read.says);
    expect(read.document.sheets.map(({ name }) => name)).toEqual(['drawing']);
    expect(read.document.sheets[0]?.rows[0]?.cells?.c1?.value).toBe(7);
  });

  it('is refused where it is no PNG', () => {
    expect(() => writeXlsx(bookOf('Base'), { picture: new Uint8Array(40) })).toThrow(RangeError);
    expect(() => writeXlsx(bookOf('Base'), { picture: headOfPng(0, 9) })).toThrow(RangeError);
  });

  it('has nothing of it where none is given', () => {
    const plain = Object.keys(unzipSync(writeXlsx(bookOf('Base')).bytes));
    expect(plain.filter((name) => /drawing|media/.test(name))).toEqual([]);
  });
});
