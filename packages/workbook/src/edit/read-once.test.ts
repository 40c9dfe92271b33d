import { carryRead, loadText, saveText, shiftedCell } from '@kerfbook/document';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { bookOf, place, type } from '../testing/sample.ts';
import { Workbook } from '../workbook.ts';

const { read } = vi.hoisted(() => ({ read: [] as string[] }));

vi.mock('@borgar/fx', async (original) => {
  const fx = await original<typeof import('@borgar/fx')>();
  return {
    ...fx,
    tokenize: (text: string) => {
      read.push(text);
      return fx.tokenize(text);
    },
  };
});

beforeEach(() => {
  read.length = 0;
});

/** What was read since it was asked last. */
const readings = (): readonly string[] => read.splice(0);

const FORMULA = `=wide*2+SUM(A1:B1)+'My cuts'!$A$1 & "a (b"`;

const small = () =>
  bookOf({
    sheets: {
      Base: [[{ value: 1, name: 'wide' }, 2, null], [3, 4, null], [null]],
      'My cuts': [[5]],
    },
    checks: [
      {
        id: 'k1',
        name: 'enough',
        formula: '=[s1!c1.r1]+wide>2',
        cells: '=[s1!c1.r1]:[c2.r2]',
        severity: 'stop',
        says: 'Too little.',
      },
    ],
  });

type Edit = Parameters<Workbook['apply']>[0];

const ROWS: Edit = { do: 'insertRows', sheet: 's1', at: 0, rows: [{ id: 'rn1' }, { id: 'rn2' }] };
const COLUMNS: Edit = { do: 'insertColumns', sheet: 's1', at: 1, columns: [{ id: 'cn1' }] };

/** A workbook with a formula that was entered, and nothing read since. */
function entered(): Workbook {
  const book = small();
  type(book, 'Base!C1', FORMULA);
  book.checks();
  readings();
  return book;
}

describe('a formula is read once', () => {
  it('F1 as it is typed: what is kept, told and shown is made from that', () => {
    const book = small();
    readings();
    type(book, 'C1', FORMULA);
    expect(readings()).toEqual([FORMULA]);
    expect(book.cell(place(book, 'C1')).entry).toBe(FORMULA);
    book.cell(place(book, 'C1')).clash;
    book.clashes();
    book.explain(place(book, 'C1'));
    expect(readings()).toEqual([]);
  });

  it('F1 several that are typed or placed at once, each on its own', () => {
    const book = small();
    readings();
    book.apply({
      do: 'enter',
      sheet: 's1',
      cells: [
        { row: 4, column: 0, text: '=A1*3' },
        { row: 4, column: 1, text: '=Z99+1' },
      ],
    });
    expect(readings()).toEqual(['=A1*3', '=Z99+1']);
    book.apply({
      do: 'place',
      sheet: 's1',
      cells: [
        { row: 5, column: 0, cell: { formula: '=a1*4', quantity: 'length' } },
        { row: 5, column: 1, cell: { formula: '=A1+"' } },
      ],
    });
    expect(readings()).toEqual(['=a1*4', '=A1+"']);
    expect(book.cell({ sheet: 's1', row: 5, column: 1 }).value).toMatchObject({ kind: 'error' });
    expect(readings()).toEqual([]);
  });

  it('F1 as it is copied: its copies are made from it', () => {
    const book = entered();
    const copied = book.copyOf(at(0, 2)) ?? {};
    const cells = [1, 2, 3].map((row) => ({
      row,
      column: 3,
      cell: carryRead(shiftedCell(copied, row, 1), {
        ...shiftedCell(copied, row, 1),
        name: `n_${row}`,
      }),
    }));
    done(book, { do: 'place', sheet: 's1', cells });
    look(book);
    expect(readings()).toEqual([]);
    expect(book.cell(at(2, 3)).formula).toBe(`=wide*2+SUM(B3:C3)+'My cuts'!$A$1 & "a (b"`);
  });

  it.each<[string, (book: Workbook) => void]>([
    ['rows come above', (book) => done(book, ROWS)],
    ['columns come', (book) => done(book, COLUMNS)],
    ['an end of its range goes', (book) => remove(book, 'deleteColumns', 1)],
    ['a row of all it uses goes', (book) => remove(book, 'deleteRows', 1)],
    [
      'a name in it is another',
      (book) => done(book, { do: 'renameName', from: 'wide', to: 'deep' }),
    ],
    [
      'a sheet in it is renamed',
      (book) => done(book, { do: 'renameSheet', sheet: 's2', name: 'Cuts' }),
    ],
    ['its cell is described', (book) => describeAs(book)],
    ['its cell is named', (book) => done(book, { do: 'nameCell', at: at(0, 2), name: 'all' })],
    ['it moves', (book) => move(book, { row: 0, column: 2, rows: 1, columns: 1 })],
    ['what it uses moves', (book) => move(book, { row: 0, column: 0, rows: 1, columns: 2 })],
    ['it is typed over and comes back', (book) => typedOver(book)],
    ['it is cleared and comes back', (book) => cleared(book)],
    ['what it uses is typed over', (book) => type(book, 'A1', '7')],
  ])('F1 not again where %s', (_, edit) => {
    const book = entered();
    const before = book.cell(at(0, 2)).formula;
    edit(book);
    look(book);
    book.undo();
    look(book);
    book.redo();
    look(book);
    expect(readings()).toEqual([]);
    expect(before).toBe(FORMULA);
  });

  it('F1 each as it is opened, whatever is asked of it then', () => {
    const book = entered();
    type(book, 'A4', '=1+2*3');
    type(book, 'B4', '=1+2*3');
    const loaded = loadText(saveText(book.document()));
    if (!loaded.ok) throw new Error(loaded.says);
    readings();
    const again = Workbook.open(loaded.document);
    look(again);
    // References by ids stand for any while a formula is read. Each cell has its own; a check has two.
    expect([...readings()].sort()).toEqual([
      '=1+2*3',
      '=1+2*3',
      '=A1',
      '=A1+wide>2',
      '=wide*2+SUM(A1)+A1 & "a (b"',
    ]);
    again.apply(ROWS);
    look(again);
    expect(readings()).toEqual([]);
  });
});

const at = (row: number, column: number) => ({ sheet: 's1', row, column });

function done(book: Workbook, edit: Edit): void {
  expect(book.apply(edit)).toMatchObject({ ok: true });
}

const remove = (book: Workbook, what: 'deleteRows' | 'deleteColumns', where: number): void =>
  done(book, { do: what, sheet: 's1', at: where, count: 1 });
const describeAs = (book: Workbook): void =>
  done(book, {
    do: 'describeCells',
    sheet: 's1',
    cells: [{ row: 0, column: 2, traits: { quantity: 'length', role: 'calculated' } }],
  });
const move = (
  book: Workbook,
  from: { row: number; column: number; rows: number; columns: number },
): void =>
  done(book, { do: 'moveCells', sheet: 's1', from, to: { sheet: 's2', row: 3, column: 0 } });

function typedOver(book: Workbook): void {
  describeAs(book);
  type(book, 'C1', '12');
  done(book, { do: 'restore', sheet: 's1', cells: [{ row: 0, column: 2 }] });
}

function cleared(book: Workbook): void {
  done(book, { do: 'clear', sheet: 's1', cells: [{ row: 0, column: 2 }] });
  book.undo();
}

/** Everything that is shown, saved and said of every cell. */
function look(book: Workbook): void {
  for (const { id, rows, columns } of book.document().sheets) {
    for (const row of rows.keys()) {
      for (const column of columns.keys()) {
        const cell = { sheet: id, row, column };
        // Everything of it, what is worked out when it is asked for too.
        expect({ ...book.cell(cell) }.at).toEqual(cell);
        book.explain(cell);
        book.copyOf(cell);
        book.usedBy(cell);
      }
    }
  }
  book.checks();
  book.checkForms();
  book.clashes();
  book.checkClashes();
  book.problems();
  saveText(book.document());
}
