import type { Neighbour } from '@kerfbook/workbook';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { DeleteForm } from './delete-form.tsx';

const usersOf = (count: number): Neighbour[] =>
  Array.from({ length: count }, (_, row) => ({
    at: { sheet: 's1', row, column: 1 },
    address: `Base!B${row + 1}`,
    label: `Part ${row + 1}`,
    shown: '1',
  }));

const saidOf = (count: number): string[] =>
  [
    ...renderToStaticMarkup(
      <DeleteForm
        what="row 6"
        does="Delete row 6"
        users={usersOf(count)}
        checks={[]}
        onDelete={() => undefined}
        onClose={() => undefined}
      />,
    ).matchAll(/<li>(.*?)<\/li>/g),
  ].map(([, says = '']) => says.replace(/<[^>]*>/g, ''));

describe('the question before something is deleted', () => {
  it('names twelve cells that use it, and the thirteenth in place of counting it', () => {
    expect(saidOf(12)).toHaveLength(12);
    expect(saidOf(13)).toHaveLength(13);
    expect(saidOf(13).at(-1)).toBe('Part 13 Base!B13');
    expect(saidOf(14).slice(11)).toEqual(['Part 12 Base!B12', 'and 2 more']);
  });
});
