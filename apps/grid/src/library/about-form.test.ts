import { describe, expect, it } from 'vitest';
import { headEdit } from './about-form.tsx';

describe('what is said of a workbook', () => {
  const start = {
    title: 'Bench',
    customer: '',
    job: '26-014',
    due: '',
    agreed: '',
    revision: '',
    about: '',
    terms: '',
    letterhead: { name: '', address: '', tax: '', logo: '' },
  };

  it('is changed by one edit that names what was changed alone, and takes away what was emptied', () => {
    const wanted = { ...start, customer: ' A made-up family ', job: '', due: '2026-03-14' };
    expect(headEdit(start, wanted)).toEqual({
      do: 'setBook',
      set: { customer: 'A made-up family', job: null, due: '2026-03-14' },
    });
  });

  it('has a letterhead of what was typed of it, which goes with the last of it', () => {
    const letterhead = { name: ' A made-up shop ', address: '', tax: '', logo: '' };
    expect(headEdit(start, { ...start, letterhead })).toEqual({
      do: 'setBook',
      set: { letterhead: { name: 'A made-up shop' } },
    });
    const had = { ...start, letterhead };
    expect(headEdit(had, start)).toEqual({ do: 'setBook', set: { letterhead: null } });
    expect(headEdit(had, { ...had })).toBeUndefined();
  });

  it('is left alone where nothing was changed, and asks for a title', () => {
    expect(headEdit(start, { ...start, title: 'Bench ' })).toBeUndefined();
    expect(headEdit(start, { ...start, title: '  ' })).toContain('needs a name');
  });
});
