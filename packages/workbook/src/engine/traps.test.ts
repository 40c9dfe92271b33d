import { type At, parseAddress, tokensOf } from '@kerfbook/document';
import { STANDARD } from '@kerfbook/functions';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CellValue } from '../api.ts';
import { Calculator } from './calculator.ts';
import type { Content } from './input.ts';

/** Each trap of the formula engine that was reproduced before the project began, and what we do. */

const at = (address: string): At => {
  const { row, column } = parseAddress(address) ?? { row: -1, column: -1 };
  return { sheet: 's1', row, column };
};

const contentOf = (text: string | number): Content =>
  typeof text === 'number' ? text : text.startsWith('=') ? { formula: tokensOf(text) } : { text };

/** A calculator with cells on one sheet: `{ A1: 2, B1: '=A1*2', C1: 'words' }`. */
function sheet(
  cells: Readonly<Record<string, string | number>> = {},
  units: 'us' | 'metric' = 'us',
) {
  const rows: Content[][] = [];
  for (const [address, text] of Object.entries(cells)) {
    const { row, column } = at(address);
    rows[row] ??= [];
    (rows[row] as Content[])[column] = contentOf(text);
  }
  const full = Array.from(rows, (line) => Array.from(line ?? [], (content) => content ?? null));
  return Calculator.build({
    system: units,
    sheets: [{ id: 's1', name: 'Sheet', cells: full }],
    names: [],
  });
}

const plain = (value: CellValue): unknown => {
  if (value.kind === 'number') return value.number;
  if (value.kind === 'text') return value.text;
  if (value.kind === 'logical') return value.logical;
  return value.kind === 'error' ? value.error.word : null;
};

const works = (formula: string): unknown => plain(sheet({ A1: formula }).value(at('A1')));
const says = (calculator: Calculator, address: string): string => {
  const value = calculator.value(at(address));
  return value.kind === 'error' ? value.error.says : '';
};

describe('formulas that would stop a process', () => {
  it.each([
    ['150 brackets deep', `=${'('.repeat(150)}1${')'.repeat(150)}`],
    ['150 calls deep', `=${'ABS('.repeat(150)}1${')'.repeat(150)}`],
    ['2,000 terms', `=${Array(2000).fill('1').join('+')}`],
    ['a range that fills the memory', '=SUM(B1:ZZ10000)'],
    ['a repetition that does', '=REPT("x",1000000)'],
    ['10,000 characters', `="${'x'.repeat(10_000)}"`],
  ])('are refused: %s', (_, formula) => {
    const calculator = sheet({ A1: 1, C1: formula, D1: '=C1+1', E1: '=A1+1' });
    expect(says(calculator, 'C1')).toMatch(/^[A-Z].*\.$/);
    expect(plain(calculator.value(at('D1')))).toBe('#ERROR!');
    expect(plain(calculator.value(at('E1')))).toBe(2);
    calculator.setCells([{ ...at('C1'), content: { formula: tokensOf('=A1') } }]);
    expect(plain(calculator.value(at('D1')))).toBe(2);
  });

  it('any text as a formula gives a value or a sentence, never an exception', () => {
    const calculator = sheet({ A1: 3 });
    const piece = fc.constantFrom(
      'A1',
      '1',
      '"a"',
      '(',
      ')',
      ',',
      ';',
      '+',
      '-',
      '*',
      '/',
      '^',
      '&',
      '=',
      '<',
      '>',
      '{',
      '}',
      'SUM(',
      'IF(',
      '%',
      ':',
      '!',
      '#REF!',
      'x',
      ' ',
      '"',
      "'",
      '$',
      '@',
      '1E9',
    );
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 14 }), (pieces) => {
        calculator.setCells([
          { ...at('B1'), content: { formula: tokensOf(`=${pieces.join('')}`) } },
        ]);
        const value = calculator.value(at('B1'));
        if (value.kind === 'number') expect(Number.isFinite(value.number)).toBe(true);
        if (value.kind === 'error') expect(value.error.says).toMatch(/\.$/);
        expect(plain(calculator.value(at('A1')))).toBe(3);
      }),
      { numRuns: 500 },
    );
  });
});

describe('text and numbers', () => {
  it.each(['1 1/2', '3/4"', '=A2', '01/02/2026', '1e999', "'x", '12%', ''])(
    'the text %s stays text',
    (text) => {
      const calculator = sheet({ A2: 1 });
      calculator.setCells([{ ...at('A1'), content: { text } }]);
      expect(calculator.value(at('A1'))).toEqual({ kind: 'text', text });
    },
  );

  it('V2 a function that comes to nothing at all is an error of its cell', () => {
    const calculator = sheet({ A1: '=SPLIT("oak ash",0.5)', B1: '=A1', C1: 5 });
    expect(plain(calculator.value(at('A1')))).toMatch(/^#ERROR!/);
    expect(plain(calculator.value(at('B1')))).toMatch(/^#ERROR!/);
    expect(plain(calculator.value(at('C1')))).toBe(5);
  });

  it('doubled quotes, exponents and the words TRUE and FALSE are read as the standard has them', () => {
    expect(works('="5"" wide"')).toBe('5" wide');
    expect(works('=LEN("""")')).toBe(1);
    expect(works('=1E3+1.5E-1')).toBe(1000.15);
    expect(works('=IF(TRUE,1,2)')).toBe(1);
    expect(works('=IF(false,1,2)')).toBe(2);
    expect(works('=_xlfn.IFS(1>2,3,2>1,4)')).toBe(4);
  });

  it('a length in quotes never becomes a date', () => {
    expect(works('="1 1/2"+1')).toBe('#VALUE!');
  });

  it('a reference to an empty cell is 0, not blank', () => {
    expect(works('=B9')).toBe(0);
  });

  it('values keep 14 digits', () => {
    expect(works('=1/3')).toBeCloseTo(1 / 3, 13);
  });

  it('arrays are added up whole', () => {
    const calculator = sheet({
      A1: 1,
      A2: 2,
      A3: 4,
      B1: '=SUM(A1:A3*2)',
      B2: '=SUMPRODUCT((A1:A3>1)*A1:A3)',
    });
    expect(plain(calculator.value(at('B1')))).toBe(14);
    expect(plain(calculator.value(at('B2')))).toBe(6);
  });

  it('TEXT writes groups, decimals, dates and fractions', () => {
    expect(works('=TEXT(1234.5,"#,##0.00")')).toBe('1,234.50');
    expect(works('=TEXT(0.25,"0.00%")')).toBe('25.00%');
    expect(works('=TEXT(46351,"yyyy-mm-dd")')).toBe('2026-11-25');
    expect(works('=TEXT(1.5,"# ??/16")')).toBe('1 1/2');
  });
});

describe('rounding agrees with what a cell shows', () => {
  it.each([
    ['=INT(0.3/0.1)', 3],
    ['=FLOOR(0.3/0.1,1)', 3],
    ['=ROUNDDOWN(0.3/0.1,0)', 3],
    ['=ROUNDUP(0.1*3/0.1,0)', 3],
    ['=CEILING(0.1*3/0.1,1)', 3],
    ['=ROUND(21.9/0.2,0)', 110],
    ['=ROUND(1.005,2)', 1.01],
    ['=ROUND(0.285,2)', 0.29],
    ['=ROUNDUP(0.1+0.2,1)', 0.3],
    ['=INT(4.35*100)', 435],
    ['=MOD(0.3,0.1)', 0],
    ['=QUOTIENT(0.3,0.1)', 3],
    ['=MROUND(6.05,0.1)', 6.1],
    ['=TRUNC(-2.7)', -2],
    ['=INT(-2.5)', -3],
    ['=MOD(-7,3)', 2],
  ])('%s is %d', (formula, expected) => {
    expect(works(formula)).toBe(expected);
  });

  it('for any ratio that shows as a whole number, every rounding function gives that number', () => {
    const calculator = sheet();
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 9999 }),
        fc.integer({ min: 1, max: 999 }),
        (count, step) => {
          const formula = `${(count * step) / 1000}/${step / 1000}`;
          for (const call of [
            'INT(?)',
            'ROUND(?,0)',
            'ROUNDUP(?,0)',
            'ROUNDDOWN(?,0)',
            'TRUNC(?)',
            'CEILING(?,1)',
            'FLOOR(?,1)',
            'MROUND(?,1)',
          ]) {
            const value = calculator.evaluate(tokensOf(`=${call.replace('?', formula)}`), 's1');
            expect(value, `${call} of ${formula}`).toEqual({ kind: 'number', number: count });
          }
        },
      ),
      { numRuns: 60 },
    );
  });

  it('is overridden on purpose, function by function', () => {
    const replaced = STANDARD.filter(({ computes }) => computes !== undefined);
    expect(replaced.map(({ name }) => name)).toContain('MOD');
    expect(replaced).toHaveLength(15);
  });
});

describe('errors', () => {
  it('a loop is named with its chain', () => {
    const calculator = sheet({ A1: '=B1', B1: '=C1', C1: '=A1' });
    expect(says(calculator, 'A1')).toContain('A1 → B1 → C1 → A1');
    expect(calculator.cyclePath(at('B1')).length).toBe(4);
  });

  it('an unknown function or name says which, and the nearest known one', () => {
    expect(says(sheet({ A1: '=SUMM(1)' }), 'A1')).toContain('Did you mean SUM?');
    const calculator = sheet({ A1: '=top_lenght*2' });
    calculator.setName('top_length', at('B1'));
    expect(says(calculator, 'A1')).toContain('Did you mean top_length?');
  });

  it('say the name of today where a function or a cell is called as it was before', () => {
    expect(says(sheet({ A1: '=stave_count(42,5.5)' }), 'A1')).toBe(
      'STAVE_COUNT is called PANEL_BOARDS now. Write PANEL_BOARDS in its place.',
    );
    const named = Calculator.build({
      system: 'us',
      sheets: [{ id: 's1', name: 'Sheet', cells: [[{ formula: tokensOf('=Widest_Stave') }, 5]] }],
      names: [{ name: 'widest_board', at: at('B1') }],
    });
    expect(says(named, 'A1')).toContain('is called widest_board now.');
    expect(says(sheet({ A1: '=widest_stave' }), 'A1')).toContain('There is no cell called');
  });

  it('a name that is an address far away is an error, never a silent 0', () => {
    expect(works('=Leg1*2')).toBe('#NAME?');
    expect(says(sheet({ A1: '=Leg1*2' }), 'A1')).toContain('Leg_1');
  });

  it('words where a number is needed lead to the words', () => {
    const calculator = sheet({ A1: 'about eight', B1: '=A1*2', C1: '=B1+1' });
    expect(calculator.value(at('C1'))).toMatchObject({
      error: { says: 'It is worked out from Sheet!A1; look there.', from: at('A1') },
    });
    expect(calculator.value(at('B1'))).toMatchObject({
      error: { word: '#VALUE!', says: expect.stringContaining('about eight'), from: at('A1') },
    });
  });

  it.each([
    ['=SUM(A1;B1)', /commas/],
    ['=SUM(A1,B1', /bracket/],
    ['=(1+2))', /closes nothing/],
    ['=1+', /ends too early/],
    ['="abc', /not closed/],
    ['=2*/3', /missing before \//],
    ['=1 2', /missing between/],
    ['=', /nothing after/],
  ])('%s is explained in plain words', (formula, words) => {
    expect(says(sheet({ A1: formula }), 'A1')).toMatch(words);
  });

  it('no message of the engine itself is shown', () => {
    for (const formula of [
      '=1/0',
      '=NA()',
      '=SQRT(-1)',
      '=VLOOKUP(9,A2:B3,2,FALSE())',
      '=Nowhere!A1',
      '=#REF!+1',
      '=FOO()',
    ]) {
      const text = says(sheet({ A1: formula }), 'A1');
      expect(text).toMatch(/^[A-Z=].*[.?]$/);
      expect(text).not.toMatch(/Expecting|Token|coerced|Parsing error|recognized/);
    }
  });
});

describe('functions of ours', () => {
  it('name a missing, wrong or surplus argument', () => {
    expect(says(sheet({ A1: '=APRON_LENGTH(84,6)' }), 'A1')).toMatch(
      /leg of APRON_LENGTH is missing/,
    );
    expect(says(sheet({ A1: '=APRON_LENGTH(84,B1,3)' }), 'A1')).toMatch(
      /overhang of APRON_LENGTH is missing/,
    );
    expect(says(sheet({ A1: '=APRON_LENGTH("x",6,3)' }), 'A1')).toMatch(/"x"/);
    expect(says(sheet({ A1: '=APRON_LENGTH(84,6,3,0,9)' }), 'A1')).toMatch(
      /takes 3 to 4 arguments; it got 5/,
    );
    expect(says(sheet({ A1: '=APRON_LENGTH(TRUE,6,3)' }), 'A1')).toMatch(/TRUE/);
  });

  it('say their limits in the units of the workbook', () => {
    expect(says(sheet({ A1: '=EMC(500,40)' }), 'A1')).toContain('°F');
    expect(says(sheet({ A1: '=EMC(500,40)' }, 'metric'), 'A1')).toContain('°C');
  });

  // No. 4 is 2.84 mm thick (ASME B18.6.1), a 4 mm screw 4 mm (DIN 7998)
  it('take no bare number for a screw in a metric workbook, where it could be either', () => {
    const metric = sheet(
      { A1: '=SCREW_DIAMETER(4)', B1: '=SCREW_DIAMETER("4 mm")', C1: '=SCREW_DIAMETER("No. 4")' },
      'metric',
    );
    expect(says(metric, 'A1')).toMatch(
      /gauge of SCREW_DIAMETER is 4; it takes in a metric workbook .*"4 mm"/,
    );
    expect(plain(metric.value(at('B1')))).toBeCloseTo(4, 12);
    expect(plain(metric.value(at('C1')))).toBeCloseTo(2.8448, 12);
  });

  it('pass an error of an argument on', () => {
    const calculator = sheet({ A1: '=1/0', B1: '=APRON_LENGTH(A1,6,3)' });
    expect(calculator.value(at('B1'))).toMatchObject({
      error: { word: '#DIV/0!', from: at('A1') },
    });
  });
});

describe('spills', () => {
  it('a blocked array is an error, and the engine has to be built anew when cells become empty', () => {
    const calculator = sheet({ A1: 3, A2: 1, A3: 2, B2: 'in the way', B1: '=SORT(A1:A3)' });
    expect(plain(calculator.value(at('B1')))).toBe('#SPILL!');
    calculator.setCells([{ ...at('A1'), content: 4 }]);
    expect(calculator.stale).toBe(false);
    calculator.setCells([{ ...at('B2'), content: null }]);
    expect(calculator.stale).toBe(true);
  });
});

describe('changes', () => {
  it('are exactly the cells whose value differs', () => {
    const calculator = sheet({ A1: 5, B1: '=A1*2', C1: '=A1>3', D1: '=B1' });
    const changed = calculator.setCells([{ ...at('A1'), content: 6 }]);
    expect(changed.map(({ column }) => column).sort()).toEqual([0, 1, 3]);
    expect(calculator.setCells([{ ...at('A1'), content: 6 }])).toEqual([]);
  });

  it('of a sheet called like a part of the language pollute nothing', () => {
    const calculator = sheet({ A1: 1 });
    calculator.addSheet({ id: 's2', name: '__proto__', cells: [[7]] });
    expect(plain(calculator.value({ sheet: 's2', row: 0, column: 0 }))).toBe(7);
    expect(({} as Record<string, unknown>).s2).toBeUndefined();
  });
});

describe('results over several cells', () => {
  it('that became an error are that error for those who use all of them', () => {
    const calculator = sheet({
      A1: 3,
      A2: 1,
      A3: 2,
      B1: 1,
      C1: '=SORT(A1:A3,B1)',
      E1: '=SUM(C1:C3*2)',
      F1: '=E1+1',
    });
    expect(plain(calculator.value(at('F1')))).toBe(13);
    calculator.setCells([{ ...at('B1'), content: { text: 'first' } }]);
    expect(plain(calculator.value(at('C1')))).toBe('#VALUE!');
    expect(plain(calculator.value(at('F1')))).toBe('#VALUE!');
    expect(says(calculator, 'F1')).toBe('It is worked out from Sheet!B1; look there.');
    calculator.setCells([{ ...at('B1'), content: 1 }]);
    expect(plain(calculator.value(at('F1')))).toBe(13);
  });

  it('make the engine stale where rows or columns move, and leave it in peace from then on', () => {
    const calculator = sheet({ A1: 2, A2: 1, C1: '=SORT(A1:A2)' });
    expect(calculator.insertRows('s1', 0, 1)).toEqual([]);
    expect(calculator.stale).toBe(true);
    expect(calculator.setCells([{ ...at('A1'), content: 7 }])).toEqual([]);
    expect(plain(calculator.value(at('A1')))).toBe(2);
  });
});

describe('what follows from a change, worked out in parts', () => {
  const chain = () => {
    const calculator = sheet({ A1: 1 });
    const cells = Array.from({ length: 600 }, (_, i) => ({
      ...at(`B${i + 1}`),
      content: { formula: tokensOf(i === 0 ? '=A1+1' : `=B${i}+1`) },
    }));
    calculator.setCells(cells);
    return calculator;
  };
  const stop = () => false;

  it('goes on to the same values and reports each cell once', () => {
    const calculator = chain();
    const parts = [
      calculator.paced(stop, () => calculator.setCells([{ ...at('A1'), content: 10 }])),
    ];
    expect(calculator.pending).toBe(true);
    expect(plain(calculator.value(at('B600')))).toBe(601);
    while (calculator.pending) parts.push(calculator.goOn(stop));
    expect(plain(calculator.value(at('B600')))).toBe(610);
    expect(parts.length).toBeGreaterThan(500);
    const places = parts.flat().map(({ row, column }) => `${row} ${column}`);
    expect(places.filter((place) => place.endsWith(' 1'))).toHaveLength(600);
    expect(new Set(places).size).toBe(places.length);
  });

  it('gives way to the next change and loses nothing', () => {
    const calculator = chain();
    calculator.paced(stop, () => calculator.setCells([{ ...at('A1'), content: 10 }]));
    for (let i = 0; i < 40; i += 1) calculator.goOn(stop);
    calculator.paced(stop, () =>
      calculator.setCells([{ ...at('B300'), content: { formula: tokensOf('=A1*2') } }]),
    );
    calculator.goOn();
    expect(calculator.pending).toBe(false);
    expect(plain(calculator.value(at('B299')))).toBe(309);
    expect(plain(calculator.value(at('B600')))).toBe(320);
  });

  it('shows a new formula empty until its turn comes', () => {
    const calculator = chain();
    calculator.paced(stop, () => {
      calculator.setCells([{ ...at('A1'), content: 10 }]);
      calculator.setCells([{ ...at('C1'), content: { formula: tokensOf('=B600*2') } }]);
    });
    expect(calculator.value(at('C1'))).toEqual({ kind: 'empty' });
    calculator.goOn();
    expect(plain(calculator.value(at('C1')))).toBe(1220);
  });

  it('is done before rows move', () => {
    const calculator = chain();
    calculator.paced(stop, () => {
      calculator.setCells([{ ...at('A1'), content: 10 }]);
      calculator.insertRows('s1', 0, 1);
    });
    expect(calculator.pending).toBe(false);
    expect(plain(calculator.value(at('B601')))).toBe(610);
  });
});
