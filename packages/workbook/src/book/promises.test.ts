import type { BookDocument, CellDocument } from '@kerfbook/document';
import { documentOf } from '@kerfbook/document/testing';
import { describe, expect, it } from 'vitest';
import { Workbook } from '../workbook.ts';
import { promiseProblems } from './promises.ts';

const problems = (cells: readonly CellDocument[], promises?: BookDocument['promises']) => {
  const document = documentOf({ sheets: { Top: cells.map((cell) => [cell]) } });
  return promiseProblems(
    Workbook.open({ ...document, ...(promises === undefined ? {} : { promises }) }),
  );
};

const RACK: readonly CellDocument[] = [
  { value: 5.5, quantity: 'length', name: 'widest_board' },
  { value: 0.0625, quantity: 'length', name: 'joint_loss' },
];

describe('names that a workbook promises', () => {
  it('are in order where each is there and of its quantity', () => {
    expect(problems(RACK, ['rack'])).toEqual([]);
    expect(problems([], [])).toEqual([]);
    expect(problems([{ value: 'no name of ours', name: 'mine' }])).toEqual([]);
  });

  it('are told where one is missing, with what happens without it', () => {
    expect(problems(RACK.slice(0, 1), ['rack'])).toEqual([
      'The sheet of boards from the rack is promised, and no cell is named joint_loss (Lost at each glue joint). Joints are taken to cost no width. Name the cell, or take the promise back.',
    ]);
    expect(problems([], ['buying-list'])[0]).toContain('Its line is left out.');
  });

  it('are kept without one that is optional, which is still told where it is of another quantity', () => {
    const kerf: CellDocument = { value: 0.125, quantity: 'length', name: 'kerf' };
    expect(problems([kerf], ['cutting-plan'])).toEqual([]);
    expect(problems([kerf, { value: 2, name: 'end_trim' }], ['cutting-plan'])).toEqual([
      'Top!A2 says no quantity; the cutting plan takes end_trim for a length. Make it that, or name it otherwise.',
    ]);
  });

  it('are told where one is of another quantity, of none, or holds words', () => {
    const [widest, loss] = RACK as [CellDocument, CellDocument];
    const { quantity: _none, ...bare } = widest;
    expect(problems([bare, { ...loss, quantity: 'area' }], ['rack'])).toEqual([
      'Top!A1 says no quantity; the sheet of boards from the rack takes widest_board for a length. Make it that, or name it otherwise.',
      'Top!A2 is an area; the sheet of boards from the rack takes joint_loss for a length. Make it that, or name it otherwise.',
    ]);
    expect(problems([{ ...widest, value: 'narrow' }, loss], ['rack'])).toEqual([
      'Top!A1 holds words; the sheet of boards from the rack takes widest_board for a length. Give it a number.',
    ]);
  });

  it('are told of another quantity without a promise too, and of no missing one', () => {
    expect(problems([{ value: 3, quantity: 'length', name: 'Coats' }])).toEqual([
      'Top!A1 is a length; the finish sheet takes coats for a count. Make it that, or name it otherwise.',
    ]);
    expect(problems([{ value: 3, name: 'coats' }])).toEqual([]);
    expect(problems([{ value: 3, quantity: 'count', name: 'coats' }])).toEqual([]);
  });
});
