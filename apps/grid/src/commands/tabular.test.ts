// @vitest-environment happy-dom
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fromTable, fromTabs, type Lines, toTable, toTabs } from './tabular.ts';

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

  it('is undefined where there is none', () => {
    expect(fromTable('<p>no table</p>')).toBeUndefined();
  });
});
