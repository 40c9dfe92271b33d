import { BookState, keptByIds, readFormula, withIds } from '@kerfbook/document';
import { documentOf } from '@kerfbook/document/testing';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { HYPERFORMULA } from '../testing/engines.ts';
import { refusedFormula } from './fixed.ts';

const state = keptByIds(
  BookState.of(
    documentOf({
      sheets: {
        Base: [
          [1, 2],
          [3, 4],
        ],
        'My cuts': [[1]],
      },
    }),
  ),
);

const piece = fc.constantFrom(
  ...'( ) ( ) + - * / ^ & = <> < > <= >= , , % " "" 1 2.5 1e3 .5 5. 0.5.5 1/2 A1 B2 $A$1 A1:B2 A:A 1:2 :'.split(
    ' ',
  ),
  ...'"a" top seat_width TRUE TRUE() SUM( IF( PI() NO_SUCH( #REF! #N/A Base!A1 Nowhere!A1 { } {1,2} ;'.split(
    ' ',
  ),
  ..."! ' @ . $ # é ½ \\ _ [ ] ~ |".split(' '),
  "'My cuts'!A1",
  ' ',
  '\n',
  '\u00a0',
);

describe('what cannot be read', () => {
  // Found by chance.
  it('A4 F6 is no error of its own where HyperFormula reads a reference that is gone', () => {
    expect(refusedFormula(readFormula('=[!]'), 's1', state, 0)).toBeUndefined();
  });

  it('A4 F6 is what HyperFormula cannot read, or is left to it', () => {
    const engine = HYPERFORMULA(state);
    let unreadable = 0;
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 8 }), (parts) => {
        const a1 = `=${parts.join('')}`;
        const refused = refusedFormula(withIds(readFormula(a1), 's1', state), 's1', state, 0);
        if (refused?.message !== 'Parsing error.') return;
        unreadable += 1;
        const told = engine.evaluate(a1, 's1');
        expect({ a1, told }).toMatchObject({ told: { error: { word: '#ERROR!' } } });
      }),
      { numRuns: 4_000 },
    );
    expect(unreadable).toBeGreaterThan(500);
  });
});
