import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BookState } from '../../state/state.ts';
import { documentOf } from '../../testing/sample.ts';
import { nodesOf } from './nodes.ts';
import { keptOf, readFormula, readTyped } from './read.ts';
import { withIds } from './turns.ts';

const state = () =>
  BookState.of(
    documentOf({
      sheets: {
        Base: [
          [1, 2],
          [3, 4],
        ],
        'My cuts': [[5]],
      },
    }),
  );
const kept = (a1: string): string => keptOf(withIds(readTyped(a1), 's1', state()));

/** What a tree says, fully bracketed. */
const shape = (a1: string): string => {
  const write = (node: ReturnType<typeof readFormula>['root']): string => {
    switch (node?.kind) {
      case 'number':
      case 'logical':
        return String(node.value);
      case 'text':
        return JSON.stringify(node.value);
      case 'error':
        return node.word;
      case 'reference':
        return `${node.to.from.column}${node.to.from.row}${node.to.to === undefined ? '' : '..'}`;
      case 'name':
        return node.name;
      case 'lost':
        return 'lost';
      case 'nothing':
        return '_';
      case 'call':
        return `${node.name}(${node.args.map(write).join(' ')})`;
      case 'sign':
        return node.sign === '%' ? `[${write(node.of)}%]` : `[${node.sign}${write(node.of)}]`;
      case 'joined':
        return `[${write(node.left)}${node.sign}${write(node.right)}]`;
      case 'bracket':
        return `(${write(node.of)})`;
      case 'array':
        return `{${node.rows.map((row) => row.map(write).join(',')).join(';')}}`;
      default:
        return 'unreadable';
    }
  };
  return write(readFormula(kept(a1)).root);
};

describe('a formula read once', () => {
  it.each([
    ['=1+2*3^2', '[1+[2*[3^2]]]'],
    ['=1-2-3', '[[1-2]-3]'],
    ['=A1-2-3*A2', '[[c1r1-2]-[3*c1r2]]'],
    ['=A1=5', '[c1r1=5]'],
    ['=-2^2', '[[-2]^2]'],
    ['=2^-2%', '[2^[-[2%]]]'],
    ['=--A1%', '[-[-[c1r1%]]]'],
    ['=2^3^2', '[[2^3]^2]'],
    ['=1&2=3&4<5', '[[[1&2]=[3&4]]<5]'],
    ['=sum( A1:B2 ,, "a""b" )', 'SUM(c1r1.. _ "a\\"b")'],
    ['=PI()', 'PI()'],
    ['=TRUE', 'true'],
    ['=_xlfn.IFS(TRUE,1)', 'IFS(true 1)'],
    ['={1,-2;"x",TRUE}', '{1,[-2];"x",true}'],
    ["='My cuts'!A1*(wide+1)", '[c1r1*([wide+1])]'],
    ['=#N/A+#REF!', '[#N/A+#REF!]'],
    ['=Z99+1', '[lost+1]'],
  ])('%s is %s', (text, expected) => {
    expect(shape(text)).toBe(expected);
  });

  it.each([
    '=',
    '=1+',
    '=(1',
    '=1)',
    '=SUM(1;2)',
    '=1 2',
    '=A1 A2',
    '=A1:B2:A2',
    '="open',
    '=50%%',
    '={}',
    '={1,{2}}',
    '=#N/A/2',
    '=#NULL!',
    '=Base!wide',
    '=А()',
    '=SUM (1)',
    '=A1#',
    '=LET',
    `=${'('.repeat(9_000)}`,
  ])('%s says nothing or a name, and stays as it was typed', (text) => {
    const read = readFormula(kept(text));
    expect(read.root?.kind ?? 'name').toBe('name');
    expect(keptOf(read)).toBe(kept(text));
  });

  it('F1 is the same text again, whatever was typed', () => {
    const letters = fc.constantFrom(
      ...'=+-*/^&<>%(){}[]",;:!$\'# .12AB\n\u00a0é板'.split(''),
      'SUM(',
      'A1',
      '[c1.r1]',
      'B1:C2',
      "'My cuts'!A1",
    );
    fc.assert(
      fc.property(fc.array(letters, { maxLength: 40 }), (parts) => {
        const text = `=${parts.join('')}`;
        expect(keptOf(readFormula(text))).toBe(text);
      }),
      { numRuns: 2_000 },
    );
  });

  it('F1 is read as typed like it is read again from what is kept', () => {
    const book = state();
    const pieces = fc.constantFrom(
      ...'=+-*/^&<>%(){},;:!$\'"# .12\nA'.split(''),
      ...['SUM(', 'if(', 'A1', '$B$2', 'B1:B2', 'A:A', "'My cuts'!A1", 'Nowhere!A1', 'Z99', 'wide'],
      ...['[c1.r1]', '-2', '"a"', 'TRUE', '#REF!', '1e3', '#N/A', '+', '*', ',', ')', 'größe'],
    );
    let readable = 0;
    fc.assert(
      fc.property(fc.array(pieces, { maxLength: 9 }), (parts) => {
        const typed = withIds(readTyped(`=${parts.join('')}`), 's1', book);
        const again = readFormula(keptOf(typed));
        if (again.root !== undefined) readable += 1;
        expect(typed.root).toEqual(again.root);
        expect(withIds(again, 's1', book)).toBe(again);
      }),
      { numRuns: 5_000 },
    );
    expect(readable).toBeGreaterThan(100);
  });

  it('names and calls are found wherever they stand', () => {
    const { root } = readFormula('=IF(wide>1,{1,2},-SUM([c1.r1]:[c2.r2],deep%))');
    const found = root === undefined ? [] : [...nodesOf(root)];
    expect(found.flatMap((node) => (node.kind === 'name' ? node.name : []))).toEqual([
      'wide',
      'deep',
    ]);
    expect(found.flatMap((node) => (node.kind === 'call' ? node.name : []))).toEqual(['IF', 'SUM']);
  });
});
