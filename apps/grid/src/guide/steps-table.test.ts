import { readPlan } from '@kerfbook/guide';
import { columnName, type Edit, shopTableEdit, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import {
  deleteEdit,
  duplicateEdit,
  entryEdit,
  moveEdit,
  newStepEdit,
  type StepHead,
  type StepsTable,
  stepsTable,
} from './steps-table.ts';

/** An invented workbook with an empty steps table. */
function begun(): Workbook {
  const book = Workbook.open({
    kerfbook: 8,
    title: 'A made-up stool',
    units: 'us',
    sheets: [
      {
        id: 's1',
        name: 'Sizes',
        columns: [{ id: 'c1' }],
        rows: [{ id: 'r1', cells: { c1: { value: 30, quantity: 'length', name: 'long' } } }],
      },
    ],
    checks: [],
    tables: [],
  });
  did(book, shopTableEdit(book, 'steps'));
  return book;
}

function did(book: Workbook, edit: Edit | undefined): void {
  expect(edit && book.apply(edit)).toMatchObject({ ok: true });
}

function tableOf(book: Workbook): StepsTable {
  const table = stepsTable(book, readPlan(book));
  if (table === undefined) throw new Error('there is no steps table');
  return table;
}

const titles = (book: Workbook) => tableOf(book).rows.map(({ title }) => title);

function withSteps(...names: readonly string[]): Workbook {
  const book = begun();
  for (const name of names) did(book, newStepEdit(book, tableOf(book), undefined, name).edit);
  return book;
}

const rowOf = (book: Workbook, title: string): number =>
  tableOf(book).rows.find((one) => one.title === title)?.row ?? -1;

describe('the steps as rows', () => {
  it('begin in the blank rows of the table, at its end or after another one', () => {
    const book = withSteps('Cut', 'Glue');
    did(book, newStepEdit(book, tableOf(book), rowOf(book, 'Cut'), 'Plane').edit);
    expect(titles(book)).toEqual(['Cut', 'Plane', 'Glue']);
    book.undo();
    expect(titles(book)).toEqual(['Cut', 'Glue']);
  });

  it('begin after the last row of a table that is full, and the table takes them in', () => {
    const names = Array.from({ length: 30 }, (_, i) => `Step ${i + 1}`);
    const book = withSteps(...names);
    did(book, newStepEdit(book, tableOf(book), undefined, 'One more').edit);
    expect(titles(book)).toEqual([...names, 'One more']);
    book.undo();
    expect(titles(book)).toEqual(names);
  });

  it('take the place of their neighbor, blank rows between left where they are', () => {
    const book = withSteps('Cut', 'Glue');
    const { sheet } = tableOf(book);
    const row = rowOf(book, 'Glue');
    did(book, { do: 'insertRows', sheet, at: row, rows: [{ id: 'rx' }] });
    const moved = moveEdit(book, tableOf(book), row + 1, -1);
    did(book, moved?.edit);
    expect(titles(book)).toEqual(['Glue', 'Cut']);
    expect(moved?.row).toBe(rowOf(book, 'Glue'));
    expect(moveEdit(book, tableOf(book), rowOf(book, 'Glue'), -1)).toBeUndefined();
  });

  it('move with their formulas and the names of their cells', () => {
    const book = withSteps('Cut', 'Glue');
    const table = tableOf(book);
    const row = rowOf(book, 'Cut');
    did(book, entryEdit(book, table, row, 'repeats', '=2'));
    const column = table.columns.get('hands-on') ?? 0;
    did(book, entryEdit(book, table, row, 'hands-on', '1.5'));
    did(book, { do: 'nameCell', at: { sheet: table.sheet, row, column }, name: 'cutting_hours' });
    did(book, moveEdit(book, tableOf(book), row, 1)?.edit);
    expect(titles(book)).toEqual(['Glue', 'Cut']);
    expect(book.named('cutting_hours')?.at.row).toBe(rowOf(book, 'Cut'));
    expect(readPlan(book).steps.filter(({ round }) => round !== undefined)).toHaveLength(2);
  });

  it('are there once more without what they build', () => {
    const book = withSteps('Cut', 'Glue');
    did(book, entryEdit(book, tableOf(book), rowOf(book, 'Cut'), 'builds', 'Leg'));
    did(book, entryEdit(book, tableOf(book), rowOf(book, 'Cut'), 'text', 'As long as {long}.'));
    const { edit, row } = duplicateEdit(book, tableOf(book), rowOf(book, 'Cut'));
    did(book, edit);
    expect(titles(book)).toEqual(['Cut', 'Cut', 'Glue']);
    const [first, second] = readPlan(book).steps;
    expect(second?.at.row).toBe(row);
    expect([first?.builds, second?.builds]).toEqual([['Leg'], []]);
    expect(second?.words.text).toEqual(['As long as {long}.']);
  });

  it('say the same once more, of the same cells: below, above and on other sheets; of their own row alone each its own', () => {
    const book = withSteps('Cut', 'Glue');
    const { sheet, columns } = tableOf(book);
    const [cut, glue] = [rowOf(book, 'Cut'), rowOf(book, 'Glue')];
    const name = columnName(columns.get('waiting') ?? 0);
    const written = (row: number, head: StepHead, text: string): void =>
      did(book, entryEdit(book, tableOf(book), row, head, text));
    written(glue, 'waiting', '4');
    written(cut, 'waiting', `=2*${name}${glue + 1}`);
    written(cut, 'hands-on', `=${name}${cut + 1}+$${name}$${glue + 1}+Sizes!A1`);
    const hours = () => readPlan(book).steps.map(({ handsOn, waiting }) => [handsOn, waiting]);
    expect(hours()).toEqual([
      [42, 8],
      [undefined, 4],
    ]);
    did(book, duplicateEdit(book, tableOf(book), cut).edit);
    expect(hours()).toEqual([
      [42, 8],
      [42, 8],
      [undefined, 4],
    ]);
    expect(book.cell({ sheet, row: cut + 1, column: columns.get('hands-on') ?? 0 }).formula).toBe(
      `=${name}${cut + 2}+$${name}$${glue + 2}+Sizes!A1`,
    );
    written(cut, 'waiting', '1');
    expect(hours().slice(0, 2)).toEqual([
      [35, 1],
      [42, 8],
    ]);
    book.undo();
    book.undo();
    expect(titles(book)).toEqual(['Cut', 'Glue']);
  });

  it('go with their row', () => {
    const book = withSteps('Cut', 'Glue');
    did(book, deleteEdit(tableOf(book), rowOf(book, 'Cut')));
    expect(titles(book)).toEqual(['Glue']);
    book.undo();
    expect(titles(book)).toEqual(['Cut', 'Glue']);
  });

  it('say which they are of the plan, and which are not done at this size', () => {
    const book = withSteps('Cut', 'Glue', 'Rest');
    did(book, entryEdit(book, tableOf(book), rowOf(book, 'Cut'), 'when', '=long>40'));
    did(book, entryEdit(book, tableOf(book), rowOf(book, 'Glue'), 'repeats', '3'));
    expect(tableOf(book).rows.map(({ numbers }) => numbers)).toEqual([undefined, '1 to 3', '4']);
  });
});

describe('what is written in a step', () => {
  it('is read as its column is for, also where nothing was said of its cell', () => {
    const book = withSteps('Cut');
    const table = tableOf(book);
    const row = rowOf(book, 'Cut');
    const column = table.columns.get('step') ?? 0;
    const traits = { quantity: null };
    did(book, { do: 'describeCells', sheet: table.sheet, cells: [{ row, column, traits }] });
    did(book, entryEdit(book, table, row, 'step', '1/2'));
    expect(book.value({ sheet: table.sheet, row, column })).toEqual({ kind: 'text', text: '1/2' });
  });

  it('brings along the column that a table lacks', () => {
    const book = withSteps('Cut');
    const before = tableOf(book);
    const at = before.columns.get('caution') ?? 0;
    did(book, { do: 'deleteColumns', sheet: before.sheet, at, count: 1 });
    const table = tableOf(book);
    expect(table.columns.has('caution')).toBe(false);
    did(book, entryEdit(book, table, rowOf(book, 'Cut'), 'caution', 'Keep the guard on.'));
    expect(readPlan(book).steps[0]?.words.caution).toBe('Keep the guard on.');
    book.undo();
    expect(tableOf(book).columns.has('caution')).toBe(false);
  });
});
