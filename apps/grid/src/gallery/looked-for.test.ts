import type { BookHead, Listing } from '@kerfbook/keeping';
import { describe, expect, it } from 'vitest';
import { lookedFor } from './looked-for.ts';

const head = (title: string, deleted?: number): BookHead => ({
  id: title,
  title,
  origin: { kind: 'own', from: '' },
  created: 0,
  updated: 0,
  revision: 1,
  ...(deleted === undefined ? {} : { deleted }),
});

const listing = (own: readonly BookHead[], trash: readonly BookHead[]): Listing => ({
  templates: ['Bench', 'Desk'].map((title) => ({
    key: title.toLowerCase(),
    title,
    about: '',
    text: () => Promise.resolve(''),
  })),
  own,
  trash,
  beside: new Map(),
});

const says = (of: Listing, typed: string) => lookedFor(of, typed, () => undefined).says;

describe('the sentence about what is found', () => {
  it('counts what one has and what is built in, and tells of the trash apart', () => {
    const before = listing([head('Porch bench'), head('Shelf')], []);
    expect(says(before, 'bench')).toBe('2 of 4 workbooks.');
    const after = listing([head('Shelf')], [head('Porch bench', 1)]);
    expect(says(after, 'bench')).toBe('1 of 3 workbooks, and 1 in the trash.');
    expect(says(after, 'porch')).toBe('0 of 3 workbooks, and 1 in the trash.');
    expect(says(after, 'canoe')).toContain('No workbook is found by "canoe".');
    expect(says(after, ' ')).toBe('');
  });
});
