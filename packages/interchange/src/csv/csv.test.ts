import { loadValue, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { importFile } from '../import-file.ts';
import { csvText } from './csv-text.ts';
import { writeCsv } from './write.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

function rowsOf(text: string, name = 'list.csv', how: Parameters<typeof importFile>[2] = {}) {
  const read = importFile(typeof text === 'string' ? bytes(text) : text, name, how);
  if (!read.ok) throw new Error(read.says);
  return read.document.sheets[0]?.rows.map(({ cells = {} }) =>
    Object.values(cells).map(({ value }) => value),
  );
}

describe('csv that goes out', () => {
  it('never begins a field of words like a formula (CWE-1236), and leaves numbers alone', () => {
    const words = ['=1+1', '+1', '-x', '@a', '\tx', '\rx', ' =1', '\u200b=1', '＝1', 'a=1'];
    expect(csvText([words])[0]).toBe(`'=1+1,'+1,'-x,'@a,'\tx,"'\rx",' =1,'\u200b=1,'＝1,a=1`);
    expect(csvText([[-1, 1e21, true, null, 'a,"b"']])[0]).toBe('-1,1e+21,true,,"a,""b"""');
  });

  it('holds a sheet: days year first, errors by their words, lines that are in use', () => {
    const loaded = loadValue({
      kerfbook: 8,
      title: 'A bench',
      units: 'us',
      sheets: [
        {
          id: 's1',
          name: 'Sheet',
          columns: [{ id: 'c1' }, { id: 'c2' }],
          rows: [
            {
              id: 'r1',
              cells: { c1: { value: 46356, quantity: 'date' }, c2: { formula: '=1/0' } },
            },
            { id: 'r2', cells: { c2: { formula: '=[c1.r1]&"=x"' } } },
            { id: 'r3' },
          ],
        },
      ],
      checks: [],
      tables: [],
    });
    if (!loaded.ok) throw new Error(loaded.says);
    const book = Workbook.open(loaded.document);
    expect(writeCsv(book, 's1')).toBe('2026-11-30,#DIV/0!\r\n,46356=x\r\n');
    expect(writeCsv(book, 's1', 'formulas')).toBe('2026-11-30,=1/0\r\n,"=A1&""=x"""\r\n');
    expect(writeCsv(book, 'nowhere')).toBeUndefined();
  });
});

describe('csv that comes in', () => {
  it('reads quotes, line ends within them, and both kinds of line ends (RFC 4180)', () => {
    expect(rowsOf('a,"b ""c"", d"\r\n"two\nlines",2\n')).toEqual([
      ['a', 'b "c", d'],
      ['two\nlines', 2],
    ]);
  });

  it('finds the sign between fields and the one before decimals', () => {
    expect(rowsOf('Name;Länge\nBein;1.234,5\nZarge;0,75\n')).toEqual([
      ['Name', 'Länge'],
      ['Bein', 1234.5],
      ['Zarge', 0.75],
    ]);
    expect(rowsOf('a\tb\n1,234.5\t2\n', 'list.tsv')).toEqual([
      ['a', 'b'],
      [1234.5, 2],
    ]);
  });

  it('reads fractions and inches as makers write them, and keeps them as they were typed', () => {
    const read = importFile(bytes('x,y\n3-1/2,28 1/2"\n'), 'list.csv');
    if (!read.ok) throw new Error(read.says);
    expect(read.document.sheets[0]?.rows[1]?.cells).toMatchObject({
      c1: { value: 3.5, typed: '3-1/2' },
      c2: { value: 28.5, typed: '28 1/2"' },
    });
  });

  it('takes back the apostrophe of words that look like formulas, and never works one out', () => {
    expect(rowsOf(`'=1+1,=1+1,'-x,it's\n`)).toEqual([['=1+1', '=1+1', '-x', "it's"]]);
  });

  it('reads UTF-16 and what is no UTF-8', () => {
    const wide = new Uint8Array([
      0xff,
      0xfe,
      ...[...'é,1'].flatMap((letter) => [letter.charCodeAt(0), 0]),
    ]);
    const read = importFile(wide, 'x.csv');
    expect(read.ok && read.document.sheets[0]?.rows[0]?.cells?.c1?.value).toBe('é');
    const western = importFile(Uint8Array.from([0xe9, 0x2c, 0x31]), 'x.csv');
    expect(western.ok && western.document.sheets[0]?.rows[0]?.cells?.c1?.value).toBe('é');
  });
});
