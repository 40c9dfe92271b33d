import { describe, expect, it } from 'vitest';
import { pageHead } from './page-head.ts';

describe('the head of a page', () => {
  const on = new Date(2026, 2, 14);
  const head = { kerfbook: 8, title: 'Bench', units: 'us' } as const;

  it('says what the workbook is, whom it is for, its state and the day', () => {
    const whole = { customer: 'A made-up family', job: '26-014', due: '2026-05-01', revision: 'B' };
    expect(pageHead({ title: 'Bench', head: { ...head, ...whole } }, on)).toEqual({
      title: 'Bench',
      beside: 'For A made-up family',
      under: 'Job 26-014 · Revision B · Due 1 May 2026',
      day: 'Printed 14 Mar 2026',
    });
  });

  it('leaves out what the workbook does not say', () => {
    expect(pageHead({ title: 'Bench', head }, on)).toEqual({
      title: 'Bench',
      beside: 'Printed 14 Mar 2026',
      under: '',
      day: '',
    });
  });
});
