import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { call } from './testing/fake-io.ts';

const table = readFileSync(
  new URL('../../../templates/dining-table.json', import.meta.url),
  'utf8',
);
const files = { 'table.json': table };

interface Report {
  readonly parts: readonly {
    readonly part: string;
    readonly count: number;
    readonly length: number;
  }[];
  readonly materials: readonly { readonly material: string; readonly pieces: number }[];
  readonly problems: readonly { readonly cell: string; readonly says: string }[];
}

const parts = async (...args: string[]) => {
  const ended = await call(['parts', 'table.json', '--json', ...args], files);
  return { ...ended, report: JSON.parse(ended.out) as Report };
};

describe('parts', () => {
  it('follows the cells', async () => {
    const { report, code } = await parts('--set', 'top_length=96');
    expect(code).toBe(0);
    const apron = report.parts.find(({ part }) => part === 'Long apron');
    // 96 less two overhangs of 9 and two legs of 3 1/2.
    expect(apron).toMatchObject({ count: 2, length: 71 });
    expect(report.problems).toEqual([]);
  });

  it('prints a table with the sums of each material', async () => {
    const { out, code, err } = await call(['parts', 'table.json'], files);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toMatch(/^part +count +thick, in +wide, in +long, in +material$/m);
    expect(out).toMatch(/^Long apron +2 +1 1\/2 +3 1\/2 +59 +black walnut$/m);
    expect(out).toMatch(
      /^black walnut: \d+ pieces, \d+\.\d bd ft, \d+\.\d ft² of faces, \d+\.\d lb$/m,
    );
  });

  it('says what cannot be cut at its cell, and lists the rest', async () => {
    const { report, code } = await parts('--set', 'leg_size=0');
    expect(code).toBe(1);
    expect(report.problems.length).toBeGreaterThan(0);
    expect(report.problems.every(({ cell }) => /^\w+![A-Z]+\d+$/.test(cell))).toBe(true);
    expect(report.parts.some(({ part }) => part.startsWith('Top'))).toBe(true);
  });

  it('says that a workbook has no parts table', async () => {
    const bare = JSON.stringify({ ...JSON.parse(table), tables: [] });
    const { err, code } = await call(['parts', 'bare.json'], { 'bare.json': bare });
    expect({ err, code }).toEqual({ err: 'This workbook has no parts table.', code: 1 });
  });
});

describe('export', () => {
  it('writes the drawing with the sizes as they are set', async () => {
    const { code, err, written } = await call(
      ['export', 'table.json', '--to', 'svg', '--out', 'a.svg', '--set', 'top_length=96'],
      files,
    );
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(written?.['a.svg']).toMatch(/^<svg /);
    expect(written?.['a.svg']).toContain('>96<');
  });

  const pattern = (...more: readonly string[]) =>
    call(
      ['export', 'table.json', '--to', 'svg', '--out', 'a.svg', '--view', 'pattern', ...more],
      files,
    );

  it('writes the pattern of a curved part whole, at true size', async () => {
    const { code, err, written } = await pattern(
      ...['--set', 'top_shape=round', '--set', 'top_length=42'],
    );
    expect({ code, err }).toEqual({ code: 0, err: '' });
    const svg = written?.['a.svg'] ?? '';
    const [, width, height] = /width="([\d.]+)mm" height="([\d.]+)mm"/.exec(svg) ?? [];
    // A circle of 42 in, with 5 mm around it.
    expect(Number(width)).toBeCloseTo(42 * 25.4 + 10, 1);
    expect(Number(height)).toBeCloseTo(42 * 25.4 + 10, 1);
    expect(svg).toContain('<style>');
    const byName = await pattern(
      ...['--set', 'top_shape=round', '--set', 'top_length=42', '--part', 'Top'],
    );
    expect(byName.written?.['a.svg']).toBe(svg);
  });

  it('writes the pattern as DXF too, for a machine that follows it', async () => {
    const { code, err, written } = await call(
      [
        ...['export', 'table.json', '--to', 'dxf', '--out', 'a.dxf', '--view', 'pattern'],
        ...['--set', 'top_shape=round', '--set', 'top_length=42'],
      ],
      files,
    );
    expect({ code, err }).toEqual({ code: 0, err: '' });
    // One circle of 21 in about its middle.
    expect(written?.['a.dxf']).toMatch(/\r\nCIRCLE\r\n[\s\S]*?\r\n +40\r\n21\r\n/);
  });

  it('says which parts have a pattern, and that none has', async () => {
    expect(await pattern()).toMatchObject({
      code: 1,
      err: 'No part has a curve, so there is no pattern to write.',
    });
    const wrong = await pattern(
      ...['--set', 'top_shape=round', '--set', 'top_length=42', '--part', 'Leg'],
    );
    expect(wrong).toMatchObject({
      code: 1,
      err: 'There is no pattern of "Leg"; --part takes "Top".',
    });
    expect(wrong.written).toBeUndefined();
  });

  it('writes a workbook that comes back the same', async () => {
    const { written } = await call(
      ['export', 'table.json', '--to', 'json', '--out', 'b.json'],
      files,
    );
    expect(written?.['b.json']).toBe(table);
  });

  it.each([
    [['--out', 'a'], '--to takes'],
    [['--to', 'pictures', '--out', 'a'], 'it got "pictures"'],
    [['--to', 'svg'], '--out says where'],
    [['--to', 'svg', '--out', 'a', '--view', 'back'], 'it got "back"'],
    [['--to', 'svg', '--out', 'a', '--part', 'Top'], 'it takes --view pattern'],
    [['--to', 'json', '--out', 'a', '--view', 'pattern'], 'A pattern takes --to svg or dxf'],
  ])('refuses %j', async (args, says) => {
    const { code, err } = await call(['export', 'table.json', ...args], files);
    expect(code).toBe(2);
    expect(err).toContain(says);
  });
});

interface Plan {
  readonly cost: number;
  readonly bound: number;
  readonly proven: boolean;
  readonly buy: readonly {
    readonly length: number;
    readonly count: number;
    readonly price: number;
  }[];
  readonly boards: readonly {
    readonly stock: string;
    readonly length: number;
    readonly pieces: readonly { part: string; length: number; at: number; strips: number }[];
    readonly offcut: number;
  }[];
  readonly problems: readonly { readonly says: string }[];
  readonly leftOut: readonly { readonly what: string }[];
}

const plan = async (...args: string[]) => {
  const ended = await call(['plan', 'table.json', '--json', ...args], files);
  return { ...ended, report: JSON.parse(ended.out) as Plan };
};

describe('plan', () => {
  it('buys what the cut list needs, and every piece comes out of a board that holds it', async () => {
    const { code, report } = await plan('--set', 'top_length=96');
    expect({ code, problems: report.problems }).toEqual({ code: 0, problems: [] });
    const { report: wanted } = await parts('--set', 'top_length=96');
    const made = new Map<string, number>();
    for (const { stock, length, pieces, offcut } of report.boards) {
      // The template trims 2 in off each end of what is bought.
      const trim = stock === 'Offcut on the rack' ? 0 : 2;
      let end = trim;
      for (const piece of pieces) {
        expect(piece.at).toBeGreaterThanOrEqual(end - 1e-6);
        end = piece.at + piece.length;
        made.set(piece.part, (made.get(piece.part) ?? 0) + piece.strips);
      }
      // The kerf of the template is 1/8 in.
      expect(Math.max(0, length - trim - end - 0.125)).toBeCloseTo(offcut, 4);
    }
    expect(Object.fromEntries(made)).toEqual(
      Object.fromEntries(wanted.parts.map(({ part, count }) => [part, count])),
    );
    const cost = report.buy.reduce((sum, { count, price }) => sum + count * price, 0);
    expect(cost).toBeCloseTo(report.cost, 2);
    expect(report.bound).toBeLessThanOrEqual(report.cost);
  });

  it('prints what to buy and whether it is proven', async () => {
    const { out, code } = await call(['plan', 'table.json'], files);
    expect(code).toBe(0);
    expect(out).toMatch(/^4 × Leg blank, 3 5\/8 × 3 5\/8 × 36, \$\d+\.\d\d each$/m);
    expect(out).toMatch(
      /^\$[\d,]+\.\d\d for the boards, (proven cheapest|at most \d.* above the cheapest) cut this way: each crosscut length /m,
    );
  });

  it('says at the part what no board is long enough for, and plans the rest', async () => {
    const { report, code } = await plan('--set', 'top_length=160');
    expect(code).toBe(1);
    expect(report.problems.map(({ says }) => says).join(' ')).toContain(
      'Top, board is 161 long; the longest board that is thick and wide enough is 144.',
    );
    expect(report.boards.length).toBeGreaterThan(0);
    expect(report).toMatchObject({ proven: false, complete: false });
    expect(report.leftOut.map(({ what }) => what)).toEqual(['Top, board, 8 pieces']);
  });

  it('names on paper and screen alike what got no board, and claims no price for all of it', async () => {
    const { out, err, code } = await call(['plan', 'table.json', '--set', 'top_length=160'], files);
    expect(code).toBe(1);
    expect(err).toContain('Top, board is 161 long');
    expect(out).toContain('Left out: Top, board, 8 pieces.');
    expect(out).toMatch(/^\$[\d,.]+ for what is planned\. One thing is left out/m);
    expect(out).not.toContain('proven');
  });

  it('asks for the kerf where none is typed, and proves nothing until then', async () => {
    const { out, err, code } = await call(['plan', 'table.json', '--set', 'kerf='], files);
    expect(code).toBe(1);
    expect(err).toMatch(/How wide is your saw's kerf\? Type it in \S+!B\d+\./);
    expect(out).toMatch(/ if saw cuts took no wood\.$/m);
    expect(out).not.toContain('proven');
  });

  it('is complete where nothing is left out', async () => {
    const { report } = await plan();
    expect(report).toMatchObject({ complete: true, leftOut: [] });
  });

  it('says that there is no stock table', async () => {
    const book = JSON.parse(table) as { tables: { kind: string }[] };
    const bare = { ...book, tables: book.tables.filter(({ kind }) => kind === 'parts') };
    const { err, code } = await call(['plan', 'b.json'], { 'b.json': JSON.stringify(bare) });
    expect(code).toBe(1);
    expect(err).toContain('This workbook has no stock table to buy from.');
  });
});

describe('export of drawings', () => {
  it('writes a DXF with all views, and the whole as SVG', async () => {
    const dxf = await call(['export', 'table.json', '--to', 'dxf', '--out', 'a.dxf'], files);
    expect({ code: dxf.code, err: dxf.err }).toEqual({ code: 0, err: '' });
    expect(dxf.written?.['a.dxf']).toMatch(/^ *0\r?\nSECTION/);
    const whole = await call(
      ['export', 'table.json', '--to', 'svg', '--out', 'a.svg', '--view', 'whole'],
      files,
    );
    expect(whole.code).toBe(0);
    expect(whole.written?.['a.svg']).toContain('kb-face');
  });

  it('says how shaped parts come from their blanks', async () => {
    const heads = ['part', 'count', 'thickness', 'width', 'length', 'shape', 'taper', 'taper to'];
    const rows = [heads, ['Top', 1, 1, 36, 36, 'round'], ['Leg', 4, 2, 2, 28, '', 'four faces', 1]];
    const stool = JSON.stringify({
      kerfbook: 8,
      title: 'Stool',
      units: 'us',
      sheets: [
        {
          id: 's1',
          name: 'Parts',
          columns: heads.map((_, i) => ({ id: `c${i + 1}` })),
          rows: rows.map((cells, row) => ({
            id: `r${row + 1}`,
            cells: Object.fromEntries(
              cells.flatMap((value, i) => (value === '' ? [] : [[`c${i + 1}`, { value }]])),
            ),
          })),
        },
      ],
      checks: [],
      tables: [{ id: 't1', kind: 'parts', sheet: 's1', header: 'r1', last: 'r3' }],
    });
    const { out, code } = await call(['parts', 'stool.json'], { 'stool.json': stool });
    expect(code).toBe(0);
    expect(out).toMatch(/^Top +1 +1 +36 +36 +cut round, 36 across$/m);
    expect(out).toMatch(/^Leg +4 +2 +2 +28 +taper all four faces to 1$/m);
    const json = await call(['parts', 'stool.json', '--json'], { 'stool.json': stool });
    const report = JSON.parse(json.out) as { parts: { steps?: readonly string[] }[] };
    expect(report.parts.map(({ steps }) => steps)).toEqual([
      ['cut round, 36 across'],
      ['taper all four faces to 1'],
    ]);
  });
});
