import { strFromU8, unzipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { bench, call } from './testing/fake-io.ts';

const files = { 'bench.json': JSON.stringify(bench) };

describe('export for office programs', () => {
  it('writes an xlsx file and says what in it stands as its last value', async () => {
    const { code, out, err, bytes } = await call(
      ['export', 'bench.json', '--to', 'xlsx', '--out', 'bench.xlsx'],
      files,
    );
    expect({ code, err }).toEqual({ code: 0, err: '' });
    const parts = unzipSync(bytes?.['bench.xlsx'] ?? new Uint8Array());
    const sheet = strFromU8(parts['xl/worksheets/sheet1.xml'] ?? new Uint8Array());
    // The apron: 60 less twice the overhang and twice the leg, as 60 - 4 - 7.
    expect(sheet).toContain('<f>(bench_length-2*2-2*leg_size+2*0)</f><v>49</v>');
    expect(strFromU8(parts['xl/workbook.xml'] ?? new Uint8Array())).toContain(
      '<definedName name="bench_length">Base!$B$1</definedName>',
    );
    expect(out).toMatch(/^\d+ formulas go on working there, 1 of them written out/);
  });

  it('writes one sheet as csv, values or formulas', async () => {
    const args = ['export', 'bench.json', '--to', 'csv', '--sheet', 'base', '--out', 'base.csv'];
    const values = await call(args, files);
    expect(values.code).toBe(0);
    expect(values.written?.['base.csv']?.split('\r\n')[2]).toBe(',49');
    const formulas = await call([...args, '--formulas'], files);
    expect(formulas.written?.['base.csv']?.split('\r\n')[2]).toBe(
      ',"=APRON_LENGTH(bench_length, 2, leg_size)"',
    );
  });

  it('says which sheets there are where none is called so, and what takes --sheet', async () => {
    const args = ['export', 'bench.json', '--out', 'x'];
    const none = await call([...args, '--to', 'csv', '--sheet', 'Lid'], files);
    expect(none.code).toBe(2);
    expect(none.err).toContain('There is no sheet "Lid"; --sheet takes "Base"');
    const wrong = await call([...args, '--to', 'xlsx', '--sheet', 'Base'], files);
    expect(wrong.code).toBe(2);
    expect(wrong.err).toContain('they take --to csv');
  });
});
