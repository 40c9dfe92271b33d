// @vitest-environment happy-dom
import { readEntry } from '@kerfbook/workbook';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fromTable, fromTabs } from './from-tabular.ts';
import { asWordsElsewhere, type Lines, toTable, toTabs } from './tabular.ts';

const cell = fc.string({ unit: fc.constantFrom('a', '1', '/', ' ', '"', '\t', '\n', ',', '=') });
/** Blocks as they are copied: every line of one length, and not only empty. */
const blocks: fc.Arbitrary<Lines> = fc
  .tuple(fc.integer({ min: 1, max: 4 }), fc.integer({ min: 1, max: 4 }))
  .chain(([rows, columns]) =>
    fc.array(fc.array(cell, { minLength: columns, maxLength: columns }), {
      minLength: rows,
      maxLength: rows,
    }),
  );

describe('tab-separated text', () => {
  it('comes back as it went, with tabs, quotes and line breaks in cells', () => {
    fc.assert(
      fc.property(blocks, (lines) => {
        // What ends in one empty cell of one column cannot be told from a line end.
        fc.pre(lines.at(-1)?.join('') !== '');
        expect(fromTabs(toTabs(lines))).toEqual(lines);
      }),
    );
  });

  it.each([
    [
      'a\tb\nc\td',
      [
        ['a', 'b'],
        ['c', 'd'],
      ],
    ],
    ['a\r\nb\r\n', [['a'], ['b']]],
    ['"two\nlines"\tx', [['two\nlines', 'x']]],
    ['"never closed', [['"never closed']]],
    ['6" wide\tb', [['6" wide', 'b']]],
    ['"a""b"', [['a"b']]],
    ['a\t\tb', [['a', '', 'b']]],
  ])('%j', (text, lines) => {
    expect(fromTabs(text)).toEqual(lines);
  });

  it('reads anything at all', () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        const lines = fromTabs(text);
        return lines.length > 0 && lines.every((line) => line.length > 0);
      }),
    );
  });
});

describe('a table', () => {
  it('comes back as it went, text only', () => {
    const lines = [
      ['a < b & c', '1 1/2'],
      ['two\nlines', ''],
    ];
    expect(fromTable(toTable(lines))).toEqual(lines);
  });

  it('spans as many columns as it says, within reason, and leaves scripts out', () => {
    const html =
      '<p>x</p><table><tr><td colspan="2">a<script>bad()</script></td><td>b</td></tr><tr><td colspan="999999">c</td></tr></table>';
    const lines = fromTable(html) ?? [];
    expect(lines[0]).toEqual(['a', '', 'b']);
    expect(lines[1]?.length).toBe(100);
  });

  it('leaves a place empty that a cell from above reaches over', () => {
    const html = `<table>
      <tr><td rowspan="2">a</td><td>b</td><td rowspan="65000">c</td></tr>
      <tr><td>d</td></tr>
      <tr><td>e</td></tr>
      <tr><td colspan="2">f</td><td>g</td></tr></table>`;
    expect(fromTable(html)).toEqual([['a', 'b', 'c'], ['', 'd', ''], ['e'], ['f', '', '', 'g']]);
  });

  it('is read no further than anyone could paste', () => {
    const wide = `<table>${`<tr>${'<td colspan="100" rowspan="65000">x</td>'.repeat(50)}</tr>`.repeat(40)}</table>`;
    const read = fromTable(wide, 1000) ?? [];
    expect(read.length).toBe(1);
    expect(read[0]?.length).toBeLessThan(1200);
    const long = `<table>${'<tr><td>x</td></tr>'.repeat(300)}</table>`;
    expect(fromTable(long, 200)?.length).toBe(201);
    expect(fromTable(`<table>${'<tr></tr>'.repeat(300)}</table>`, 200)?.length).toBe(201);
    expect(fromTabs('x\ty\n'.repeat(300), 200).length).toBe(101);
    expect(fromTabs('\t'.repeat(300), 200)[0]?.length).toBe(201);
  });

  it('is undefined where there is none', () => {
    expect(fromTable('<p>no table</p>')).toBeUndefined();
  });
});

describe('words for other programs', () => {
  it.each([
    '=1+1',
    '+1',
    '-1',
    '- leg, left',
    '@SUM(A1)',
    ' =1',
    '\u00a0=1',
    '\t=1',
    '\r',
    '\n',
    '\uff1d1',
    '\uff0b1',
    '\uff0d1',
    '\uff201',
    "=cmd|' /C calc'!A0",
  ])('%j goes with an apostrophe', (text) => {
    expect(asWordsElsewhere(text)).toBe(`'${text}`);
  });

  it.each(['', 'oak', '1/2-13', 'a=b', '#1', '"=1"', "'=1", '½', '(-3)'])('%j stays', (text) => {
    expect(asWordsElsewhere(text)).toBe(text);
  });

  it('are what they were when they come back, as tabs and as a table', () => {
    const sign = fc.constantFrom('=', '+', '-', '@', '\uff1d', ' =', '\t=');
    fc.assert(
      fc.property(sign, fc.string({ unit: 'grapheme', maxLength: 12 }), (before, rest) => {
        const text = `${before}${rest}`;
        const [[back = ''] = []] = fromTabs(toTabs([[asWordsElsewhere(text), 'x']]));
        expect(readEntry(back, { system: 'us', currency: 'USD' })).toMatchObject({
          kind: 'value',
          value: text,
        });
      }),
    );
    const lines = fromTable(toTable([[asWordsElsewhere('=A1'), asWordsElsewhere('-x')]]));
    expect(lines).toEqual([["'=A1", "'-x"]]);
  });
});
