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
  };

  it('is changed by one edit that names what was changed alone, and takes away what was emptied', () => {
    const wanted = { ...start, customer: ' A made-up family ', job: '', due: '2026-03-14' };
    expect(headEdit(start, wanted)).toEqual({
      do: 'setBook',
      set: { customer: 'A made-up family', job: null, due: '2026-03-14' },
    });
  });

  it('is left alone where nothing was changed, and asks for a title', () => {
    expect(headEdit(start, { ...start, title: 'Bench ' })).toBeUndefined();
    expect(headEdit(start, { ...start, title: '  ' })).toContain('needs a name');
  });
});
