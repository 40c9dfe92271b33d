import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { bookOf } from '../did/testing.ts';
import { findAnything } from './finding.ts';

const book = bookOf(
  readFileSync(join(import.meta.dirname, '../../../../templates/dining-table.json'), 'utf8'),
);
const found = (wanted: string) =>
  findAnything(book, [], wanted).map(({ says, named, kind }) => [kind, says, named]);

describe('what is found', () => {
  it('is a cell by its label, its name beside it, whichever of them was typed', () => {
    for (const wanted of ['top_weight', 'weight of the top']) {
      expect(found(wanted)[0]).toEqual(['cell', 'Weight of the top', 'top_weight']);
    }
  });

  it('says no name over again', () => {
    expect(found('price')).toContainEqual(['cell', 'Price', undefined]);
    expect(found('WOOD_WEIGHT')).toEqual([['function', 'WOOD_WEIGHT', undefined]]);
  });
});
