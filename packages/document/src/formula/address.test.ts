import fc from 'fast-check';
import { expect, it } from 'vitest';
import { type Corner, columnName, parseCorner } from './address.ts';
import { readWritten, type WrittenReference } from './references.ts';

/** All columns of three letters at most, counted the other way round. */
const COLUMNS = new Map(Array.from({ length: 18_278 }, (_, at) => [columnName(at), at]));

/** What a corner is, as a pattern says it. */
function cornerByPattern(text: string): Corner | undefined {
  const found = /^(\$?)([A-Za-z]{1,3})?(\$?)([0-9]{1,7})?$/.exec(text);
  const [, first = '', letters, second = '', digits] = found ?? [];
  if (found === null || (letters === undefined && digits === undefined)) return undefined;
  if (digits === undefined ? second !== '' : Number(digits) < 1) return undefined;
  const column = letters === undefined ? undefined : COLUMNS.get(letters.toUpperCase());
  return {
    ...(digits === undefined ? {} : { row: Number(digits) - 1 }),
    ...(column === undefined ? {} : { column }),
    rowFixed: (letters === undefined ? first + second : second) !== '',
    columnFixed: letters !== undefined && first !== '',
  };
}

/** Letters that corners are made of, and some that look like them. */
const LETTERS = fc.constantFrom(
  ...'$$AZBazb0123459',
  'Ā',
  'š',
  '½',
  '１',
  ' ',
  '!',
  ':',
  '.',
  '@',
  '[',
);

it('reads a corner letter by letter as the pattern of one does', () => {
  fc.assert(
    fc.property(fc.string({ unit: LETTERS, maxLength: 9 }), (text) => {
      expect(parseCorner(text)).toStrictEqual(cornerByPattern(text));
    }),
    { numRuns: 3000, examples: [[''], ['$'], ['$$7'], ['A0'], ['ZZZ9999999'], ['AAAA1'], ['a$1']] },
  );
});

it('reads two corners as a range where both are of one kind', () => {
  const rangeByPattern = (text: string): WrittenReference | undefined => {
    const [from, to, more] = text.split(':').map(cornerByPattern);
    const of = (one: Corner): string => `${one.row === undefined} ${one.column === undefined}`;
    if (from === undefined || text.split(':').length > 2 || more !== undefined) return undefined;
    if (text.includes(':')) {
      return to === undefined || of(from) !== of(to) ? undefined : { from, to };
    }
    return from.row === undefined || from.column === undefined ? undefined : { from };
  };
  const corner = fc.string({ unit: fc.constantFrom(...'$AB12'), maxLength: 4 });
  fc.assert(
    fc.property(fc.array(corner, { minLength: 1, maxLength: 3 }), (corners) => {
      const text = corners.join(':');
      expect(readWritten(text)).toStrictEqual(rangeByPattern(text));
      const named = rangeByPattern(text);
      const onSheet = named === undefined ? undefined : { sheet: "a'b!:c", ...named };
      expect(readWritten(`'a''b!:c'!${text}`)).toStrictEqual(onSheet);
    }),
    { numRuns: 3000, examples: [[['A1']], [['A', 'B']], [['1', '2']], [['A1', 'B']], [['A', '']]] },
  );
});
