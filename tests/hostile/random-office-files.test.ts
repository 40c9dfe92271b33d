import { importFile, writeOds, writeXlsx } from '@kerfbook/interchange';
import { loadText, saveText, Workbook } from '@kerfbook/workbook';
import fc from 'fast-check';
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { patience, seedOf, times } from './times.ts';

/** Mutants in `npm test`, a hundred times as many in `npm run test:long`. */
const MUTANTS = 500;

/** A small workbook with something of everything that a file holds. */
function specimen(): Workbook {
  const loaded = loadText(
    JSON.stringify({
      kerfbook: 8,
      title: 'A specimen',
      units: 'us',
      sheets: [
        {
          id: 's1',
          name: 'Sizes',
          frozenRows: 1,
          columns: [{ id: 'c1', width: 180 }, { id: 'c2' }, { id: 'c3', hidden: true }],
          rows: [
            {
              id: 'r1',
              cells: { c1: { value: 'Sizes', role: 'heading' }, c2: { value: 'Length (in)' } },
            },
            {
              id: 'r2',
              cells: {
                c1: { value: 'Length' },
                c2: {
                  value: 60,
                  quantity: 'length',
                  role: 'input',
                  name: 'bench_length',
                  allow: { min: 10, max: 90 },
                  remark: 'as "sold"',
                },
              },
            },
            {
              id: 'r3',
              group: 1,
              cells: {
                c1: { value: 'Apron' },
                c2: { formula: '=APRON_LENGTH(bench_length,2,3.5)', quantity: 'length' },
              },
            },
            {
              id: 'r4',
              cells: {
                c1: { value: 'Moves' },
                c2: { formula: '=MOVEMENT(bench_length,"white oak",6,9)', quantity: 'length' },
                c3: { formula: '=IFERROR(SUM([c2.r2]:[c2.r3])/0,TEXT(1.5,"0.00")&"x")' },
              },
            },
            {
              id: 'r5',
              cells: {
                c1: { value: 'oak', allow: { list: ['oak', 'ash, white'] } },
                c2: { value: true },
                c3: { value: 46356, quantity: 'date' },
              },
            },
          ],
        },
      ],
      checks: [
        {
          id: 'k1',
          name: 'Long enough',
          formula: '=bench_length>20',
          severity: 'care',
          says: 'Too short.',
          cells: '=bench_length',
        },
      ],
      tables: [],
    }),
  );
  if (!loaded.ok) throw new Error(loaded.says);
  return Workbook.open(loaded.document);
}

/** Pieces that mean something to who reads such files. */
const PIECES = [
  '<!DOCTYPE x>',
  '<![CDATA[',
  ']]>',
  '&amp;',
  '&#0;',
  '&x;',
  '<',
  '>',
  '"',
  '-1',
  '0',
  '1E309',
  '2000000000',
  '1048577',
  'XFD1048576',
  'A0',
  '__proto__',
  'constructor',
  ' t="s"',
  ' t="shared" si="0"',
  ' t="array" ref="A1:ZZ9999"',
  '<c r="A1"><f>A1</f></c>',
  '<f>',
  '</row>',
  'NaN',
  '\u0000',
  '\uD800',
  '=',
  '!',
  "'",
  '[1]',
  '#REF!',
  'Sizes!$A$1:$A$1048576',
  '(',
  '{1,2;3}',
  '{1;2|3}',
  '[.A1]',
  "[$'Sizes'.A1:.ZZ9999]",
  ' table:number-columns-repeated="16384"',
  ' table:number-rows-repeated="1048576"',
  ' table:number-matrix-rows-spanned="9999"',
  ' office:value-type="date"',
  ' table:formula="of:=[.A1]"',
  '<table:table-row>',
  '<text:s text:c="99999"/>',
  '<table:covered-table-cell/>',
] as const;

interface Change {
  /** Another value of an attribute, so that the part can still be read; letters anywhere otherwise. */
  readonly isValue: boolean;
  readonly part: number;
  readonly at: number;
  readonly length: number;
  readonly put: string;
}

const change: fc.Arbitrary<Change> = fc.record({
  isValue: fc.constantFrom(true, true, true, false),
  part: fc.nat(40),
  // Numbers drawn as usual would nearly all be at the beginning.
  at: fc.noBias(fc.nat(999_999)).map((place) => place / 1_000_000),
  length: fc.oneof(fc.constant(0), fc.nat(12), fc.nat(4000)),
  put: fc.oneof(fc.constantFrom(...PIECES), fc.string({ maxLength: 8 }), fc.constant('')),
});

function mutant(
  parts: Readonly<Record<string, Uint8Array>>,
  changes: readonly Change[],
): Uint8Array {
  // Most is said in the large ones; what the file is, the first, would be refused each time.
  const names = Object.entries(parts).flatMap(([name, { length }]) =>
    name === 'mimetype' ? [] : Array.from({ length: length > 3000 ? 8 : 1 }, () => name),
  );
  const next = { ...parts };
  for (const { isValue, part, at, length, put } of changes) {
    const name = names[part % names.length] ?? '';
    const text = strFromU8(next[name] ?? new Uint8Array());
    const values = isValue ? [...text.matchAll(/(?<!xmlns[\w:]*)="[^"]*"/g)] : [];
    const found = values[Math.floor(at * values.length)];
    if (found !== undefined) {
      const value = `="${put.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;')}"`;
      const end = found.index + found[0].length;
      next[name] = strToU8(text.slice(0, found.index) + value + text.slice(end));
      continue;
    }
    const from = Math.floor(at * text.length);
    next[name] = strToU8(text.slice(0, from) + put + text.slice(from + length));
  }
  return zipSync(next, { level: 1 });
}

/** Whatever it is: a workbook that opens again, or one sentence. */
function holds(bytes: Uint8Array, name: string): 'taken' | 'refused' {
  const read = importFile(bytes, name, { parts: true });
  if (!read.ok) {
    expect(read.says).toMatch(/^[A-Z"].{15,600}[.?]$/su);
    expect(read.says).not.toMatch(/undefined|NaN|\[object|TypeError/);
    return 'refused';
  }
  const again = loadText(saveText(read.document));
  if (!again.ok) throw new Error(again.says);
  for (const { of, says } of read.told) expect(`${of}: ${says}`).not.toMatch(/undefined|\[object/);
  return 'taken';
}

const book = specimen();
const FILES = [
  { ending: 'xlsx', bytes: writeXlsx(book).bytes, seeds: [20_261_130, 20_261_131] },
  { ending: 'ods', bytes: writeOds(book).bytes, seeds: [20_261_133, 20_261_134] },
] as const;

describe('files of office programs, changed by chance', () => {
  it.each(FILES)(
    'are a workbook or one sentence, whatever was changed in their parts, as $ending',
    {
      timeout: patience(300_000),
    },
    ({ ending, bytes, seeds }) => {
      const parts = unzipSync(bytes);
      const seen = { taken: 0, refused: 0 };
      fc.assert(
        fc.property(fc.array(change, { minLength: 1, maxLength: 4 }), (changes) => {
          seen[holds(mutant(parts, changes), `x.${ending}`)] += 1;
        }),
        { numRuns: times(MUTANTS), ...seedOf(seeds[0]) },
      );
      // Else only one of both was tried.
      expect(Math.min(seen.taken, seen.refused)).toBeGreaterThan(times(MUTANTS) / 20);
    },
  );

  it.each(FILES)(
    'are a workbook or one sentence, whatever bytes of the archive were changed, as $ending',
    {
      timeout: patience(300_000),
    },
    ({ ending, bytes, seeds }) => {
      fc.assert(
        fc.property(
          fc.array(fc.tuple(fc.nat(bytes.length - 1), fc.nat(255)), { minLength: 1, maxLength: 6 }),
          fc.nat(bytes.length),
          (bits, end) => {
            const next = bytes.slice(0, end % 5 === 0 ? end : bytes.length);
            for (const [at, byte] of bits) if (at < next.length) next[at] = byte;
            holds(next, `x.${ending}`);
          },
        ),
        { numRuns: times(MUTANTS), ...seedOf(seeds[1]) },
      );
    },
  );

  it('of rows with signs between are a workbook, whatever they say', {
    timeout: patience(300_000),
  }, () => {
    const field = fc.oneof(
      fc.string({ maxLength: 12 }),
      fc.constantFrom(
        '1/2',
        '3 1/2"',
        '=1+1',
        '1,5',
        '',
        '"',
        '2026-11-30',
        'Part',
        'Length',
        'Width',
        'Qty',
      ),
    );
    fc.assert(
      fc.property(
        fc.array(fc.array(field, { maxLength: 6 }), { maxLength: 8 }),
        fc.constantFrom(',', ';', '\t'),
        (rows, sign) => {
          holds(strToU8(rows.map((row) => row.join(sign)).join('\n')), 'x.csv');
        },
      ),
      { numRuns: times(MUTANTS), ...seedOf(20_261_132) },
    );
  });
});
