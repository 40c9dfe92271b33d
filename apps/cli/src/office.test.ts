import { readFileSync } from 'node:fs';
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

  const table = readFileSync(
    new URL('../../../templates/dining-table.json', import.meta.url),
    'utf8',
  );

  it('puts the drawing on a sheet of its own in ods files, where there are parts to draw', async () => {
    const args = ['--to', 'ods', '--out', 'x.ods'];
    const partsOf = async (name: string, text: string) => {
      const { code, bytes } = await call(['export', name, ...args], { [name]: text });
      expect(code).toBe(0);
      return unzipSync(bytes?.['x.ods'] ?? new Uint8Array());
    };
    const drawn = await partsOf('table.json', table);
    const svg = strFromU8(drawn['Pictures/drawing.svg'] ?? new Uint8Array());
    // Shaded, as on the customer's pages: woods in tints for print.
    expect(svg).toMatch(/^<svg [^>]*\bkb-print\b/);
    expect(svg).toContain('class="kb-face');
    expect(strFromU8(drawn['content.xml'] ?? new Uint8Array())).toContain('table:name="Drawing"');
    const bare = await partsOf('bench.json', JSON.stringify(bench));
    expect(Object.keys(bare)).not.toContain('Pictures/drawing.svg');
  });

  it('says of an xlsx file that it has no drawing, where there is one', async () => {
    const toldOf = async (name: string, text: string): Promise<string> =>
      (await call(['export', name, '--to', 'xlsx', '--out', 'x.xlsx'], { [name]: text })).out;
    const says = 'An xlsx file from the command line has no drawing; an ods file has it';
    expect(await toldOf('table.json', table)).toContain(says);
    expect(await toldOf('bench.json', JSON.stringify(bench))).not.toContain(says);
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

describe('import', () => {
  it.each(['xlsx', 'ods'])(
    'takes in what was written out as %s, formulas of ours too',
    async (to) => {
      const { bytes } = await call(['export', 'bench.json', '--to', to, '--out', `b.${to}`], files);
      const back = await call(['import', `b.${to}`, '--out', 'back.json'], { ...bytes });
      expect({ code: back.code, err: back.err }).toEqual({ code: 0, err: '' });
      const text = back.written?.['back.json'] ?? '';
      const ran = await call(['run', 'back.json', '--set', 'bench_length=72', '--json'], {
        'back.json': text,
      });
      // 72 less twice the overhang of 2 and twice the leg of 3.5.
      expect(JSON.parse(ran.out).names.apron_long.value).toBe(61);
    },
  );

  it('makes a list of parts in a csv file the parts table, fractions of inches as they are written', async () => {
    const csv =
      'Item,Qty,Thk,Width (in),Length (in),Species\nLeg,4,1 1/2,1 1/2,28-1/2,white oak\n"Apron, long",2,3/4,3 1/2,42,white oak\n';
    const made = await call(['import', 'list.csv', '--parts', '--out', 'list.json'], {
      'list.csv': csv,
    });
    expect(made.code).toBe(0);
    expect(made.out).toContain('Rows 2 to 3 of list look like a list of parts');
    const parts = await call(['parts', 'list.json', '--json'], {
      'list.json': made.written?.['list.json'] ?? '',
    });
    expect(JSON.parse(parts.out)).toMatchObject({
      parts: [
        { part: 'Leg', count: 4, thickness: 1.5, width: 1.5, length: 28.5, material: 'white oak' },
        { part: 'Apron, long', count: 2, thickness: 0.75, width: 3.5, length: 42 },
      ],
    });
  });

  describe('with what its parts are cut from', () => {
    const list = 'Part,Qty,Thickness,Width,Length,Material\nRail,2,0.75,3,20,white oak\n';
    const boards = 'white oak 3/4 x 6 x 96, $40\n12 maple\n';
    const make = (...more: readonly string[]) =>
      call(['import', 'list.csv', '--parts', '--out', 'list.json', ...more], {
        'list.csv': list,
        'boards.txt': boards,
      });

    it('plans how they are cut, and says which line of boards was not taken', async () => {
      const made = await make('--boards', 'boards.txt', '--kerf', '1/8');
      expect(made.code).toBe(1);
      expect(made.err).toContain('boards.txt, line 2 is not taken: 12 maple');
      const plan = await call(['plan', 'list.json', '--json'], {
        'list.json': made.written?.['list.json'] ?? '',
      });
      expect(plan.code).toBe(0);
      // Two rails of 20 in and the cuts lie side by side in one board of 96.
      expect(JSON.parse(plan.out)).toMatchObject({ cost: 40 });
    });

    it('refuses a kerf that is no width, boards that are not there, and both without --parts', async () => {
      const wrong = await make('--kerf', '0');
      expect(wrong).toMatchObject({
        code: 2,
        err: '--kerf: The saw kerf is the width of the cut, such as 1/8.',
      });
      expect(wrong.written?.['list.json']).toBeUndefined();
      expect((await make('--boards', 'none.txt')).code).toBe(2);
      const alone = ['import', 'list.csv', '--out', 'list.json', '--kerf', '1/8'];
      const without = await call(alone, { 'list.csv': list });
      expect(without.code).toBe(2);
      expect(without.err).toContain('--kerf goes with --parts');
    });
  });

  it('refuses what is no spreadsheet in one sentence, and writes nothing', async () => {
    const ended = await call(['import', 'x.xlsx', '--out', 'x.json'], {
      'x.xlsx': 'no spreadsheet',
    });
    expect(ended).toEqual({
      code: 2,
      out: '',
      err: 'x.xlsx: The file is no xlsx or ods file: it does not begin like one.',
    });
  });
});
