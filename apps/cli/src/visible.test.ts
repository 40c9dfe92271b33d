import { describe, expect, it } from 'vitest';
import { bench, call } from './testing/fake-io.ts';
import { visible } from './visible.ts';

const ESCAPES = '\u001b[2J\u009b31m\u0007\u202eoak\u2066\nstop: forged\r\u2028';
/** What a terminal would act on; line ends stand between lines that were printed one by one. */
const ACTING = /(?![\t\n])\p{Cc}|[\u2028-\u202e\u2066-\u2069]/u;

/** The bench with escapes wherever a workbook holds words. */
function hostile(): string {
  const book = structuredClone(bench);
  book.title = ESCAPES;
  const [sheet] = book.sheets;
  const cells = sheet?.rows.map((row) => row.cells.c2) as Record<string, unknown>[];
  Object.assign(cells[3] ?? {}, { value: ESCAPES });
  Object.assign(cells[4] ?? {}, { formula: `="${ESCAPES.replaceAll('\n', '')}"&x${ESCAPES}` });
  for (const check of book.checks) {
    check.name = ESCAPES;
    check.says = ESCAPES;
    check.formula = '=FALSE()';
  }
  return JSON.stringify(book);
}

describe('what is printed', () => {
  it('writes out what a terminal would act on, and nothing else', () => {
    expect(visible('\u001b[2J')).toBe('\\u001b[2J');
    expect(visible('a\nb\rc\td')).toBe('a\\nb\\rc\td');
    expect(visible('\u009b31m \u007f \u202e \u2069 \ud800')).toBe(
      '\\u009b31m \\u007f \\u202e \\u2069 \\ud800',
    );
    expect(visible('33 3/16" × ½ – Ölfarbe 板 🪵')).toBe('33 3/16" × ½ – Ölfarbe 板 🪵');
    for (let code = 0; code < 0x10000; code += 1) {
      const letter = String.fromCharCode(code);
      expect(visible(letter) === letter, `${code}`).toBe(
        letter === '\t' || !/[\p{Cc}\p{Cs}\u2028-\u202e\u2066-\u2069]/u.test(letter),
      );
    }
  });

  it.each([
    ['run', 'run'],
    ['a damaged file', 'check'],
    ['parts', 'parts'],
    ['plan', 'plan'],
  ])('of a hostile workbook: %s', async (_, command) => {
    const { out, err } = await call([command, 'b.json'], { 'b.json': hostile() });
    expect(`${out}${err}`).not.toBe('');
    expect(`${out}${err}`).not.toMatch(ACTING);
    expect(err.split('\n').some((line) => line.startsWith('stop: forged'))).toBe(false);
  });

  it('of arguments and of file names', async () => {
    for (const argv of [
      [ESCAPES],
      ['run', ESCAPES],
      ['run', `--${ESCAPES}`],
      ['eval', ESCAPES],
      ['eval', `="${ESCAPES}`],
      ['export', 'b.json', '--to', ESCAPES, '--out', ESCAPES],
      ['run', 'b.json', '--set', ESCAPES],
      ['run', 'b.json', '--set', `species=${ESCAPES}`],
      ['run', 'b.json', '--get', ESCAPES],
    ]) {
      const { out, err } = await call(argv, { 'b.json': JSON.stringify(bench) });
      expect(`${out}${err}`).not.toBe('');
      expect(`${out}${err}`).not.toMatch(ACTING);
    }
  });

  it('as JSON means the same as before', async () => {
    const { out } = await call(['run', 'b.json', '--json'], { 'b.json': hostile() });
    expect(out).not.toMatch(ACTING);
    const report: { checks: { name: string }[]; names: Record<string, { text: unknown }> } =
      JSON.parse(out);
    expect(report.checks[0]?.name).toBe(ESCAPES);
    expect(report.names.species?.text).toBe(ESCAPES);
  });
});
