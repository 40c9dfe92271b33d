import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type BookDocument, loadText, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { partsNeeded } from './readers-needs.ts';
import { readersScript } from './readers-program.ts';

const FOLDER = fileURLToPath(new URL('../../../templates/', import.meta.url));

function template(name: string): BookDocument {
  const loaded = loadText(readFileSync(`${FOLDER}${name}`, 'utf8'));
  if (!loaded.ok) throw new Error(loaded.says);
  return loaded.document;
}

/** A template with another formula or word in a cell of a table. */
function withCell(name: string, kind: string, head: string, text: string): BookDocument {
  const book = Workbook.open(template(name));
  const table = book.tables().find((one) => one.kind === kind);
  if (table === undefined) throw new Error(kind);
  const { sheet, header } = table;
  const columns = book.sheet(sheet)?.columns ?? 0;
  const column = Array.from({ length: columns }, (_, i) => i).find((at) => {
    const value = book.value({ sheet, row: header, column: at });
    return value.kind === 'text' && value.text === head;
  });
  if (column === undefined) throw new Error(head);
  const done = book.apply({ do: 'enter', sheet, cells: [{ row: header + 1, column, text }] });
  if (!done.ok) throw new Error(done.says);
  return book.document();
}

describe('a program in parts', () => {
  const program = JSON.stringify([
    ['var', [['lost=1', []]]],
    ['var', [['kept=2', []]]],
    [
      'const',
      [
        ['list=[', [1]],
        ['function SUM', [['()=>kept,', [1]]], ''],
        ['function NONE', [['()=>lost', [0]]], ''],
        [']', []],
      ],
    ],
    ['own', [['function none(){return 1}', []]]],
    [
      'does',
      [
        ['globalThis.made=[list.length,', [2]],
        ['edits', [['none', [3]]], 'void 0'],
        ['];', []],
      ],
    ],
  ]);

  it('has what is reached, and of its parts those that are wanted', () => {
    const table = Workbook.open(template('bench.json')).document();
    const script = readersScript(program, {
      ...table,
      sheets: [
        {
          id: 's',
          name: 'One',
          columns: [{ id: 'c' }],
          rows: [{ id: 'r', cells: { c: { formula: '=SUM(1,2)' } } }],
        },
      ],
      tables: [],
      checks: [],
    });
    expect(script).toBe(
      '(()=>{var kept=2;const list=[()=>kept,];globalThis.made=[list.length,void 0];})();',
    );
  });

  it('is whole where no workbook is told', () => {
    expect(readersScript(program)).toBe(
      '(()=>{var lost=1,kept=2;const list=[()=>kept,()=>lost];function none(){return 1}globalThis.made=[list.length,none];})();',
    );
  });
});

describe('what a workbook needs', () => {
  const needs = (document: BookDocument, parts: readonly string[]): readonly string[] =>
    parts.filter(partsNeeded(document));
  const SOME = [
    'joint mortise and tenon',
    'joint dovetails',
    'joint half lap',
    'joints in one part',
  ];

  it('joints that a formula chooses between are known, those of another cell may be any', () => {
    expect(needs(template('dining-table.json'), SOME)).toEqual(['joint mortise and tenon']);
    const chosen = '=IF(top_length>80,"dovetails",IF(top_width>30,"groove",""))';
    expect(needs(withCell('dining-table.json', 'joints', 'joint', chosen), SOME)).toEqual([
      'joint mortise and tenon',
      'joint dovetails',
      'joints in one part',
    ]);
    const handed = withCell('dining-table.json', 'joints', 'joint', '=species');
    expect(needs(handed, SOME)).toEqual(SOME);
  });

  it('sheets are there where stock is wide, or may be', () => {
    expect(needs(template('trestle-table.json'), ['sheets'])).toEqual([]);
    expect(needs(template('bookcase.json'), ['sheets'])).toEqual(['sheets']);
    // A sum of an input with a range and a length is at most so wide; anything else may be wider.
    expect(needs(template('dining-table.json'), ['sheets'])).toEqual([]);
    for (const text of ['=2*3', '=top_length+IN(1/8)', '=leg_size/0.01', '=MM(551)']) {
      const formula = withCell('dining-table.json', 'stock', 'width', text);
      expect(needs(formula, ['sheets']), text).toEqual(['sheets']);
    }
  });

  it('figures are those of the steps', () => {
    const kinds = ['figure assembly', 'figure groove', 'figure seasons', 'figure joint'];
    expect(needs(template('round-table.json'), kinds)).toEqual([
      'figure assembly',
      'figure seasons',
      'figure joint',
    ]);
  });

  it('a figure of pocket holes makes pockets that no joints table has', () => {
    const pockets = ['figure pocket holes', 'joint pocket holes'];
    expect(needs(template('dining-table.json'), pockets)).toEqual(pockets);
  });

  it.each(readdirSync(FOLDER).filter((name) => name.endsWith('.json')))(
    'no function that %s calls is missing',
    (name) => {
      const document = template(name);
      const wants = partsNeeded(document);
      const text = JSON.stringify([document.sheets, document.checks]);
      const called = [...text.matchAll(/"=[^"]*?\b([A-Z][A-Z0-9_.]+)\(/g)].map(([, one]) => one);
      expect(called.length).toBeGreaterThan(0);
      expect(called.filter((one) => !wants(`function ${one}`))).toEqual([]);
    },
  );
});
