import type { SaveState } from '@kerfbook/keeping';
import { describe, expect, it } from 'vitest';
import { savedSays } from './ticks-kept.ts';

const at = (hours: number, minutes: number) => new Date(2026, 3, 1, hours, minutes).getTime();
const says = (save: SaveState, ticks?: { book: string; at?: number }) =>
  savedSays({ save, current: { id: 'shelf' } }, ticks);

describe('what is said to be saved', () => {
  it('is the ticks where nothing else was changed', () => {
    expect(says({ kind: 'untouched' })).toBe('Nothing to save yet');
    expect(says({ kind: 'untouched' }, { book: 'shelf', at: at(9, 5) })).toBe('Ticks saved 09:05');
    expect(says({ kind: 'untouched' }, { book: 'shelf' })).toBe('Ticks saved');
  });

  it('is told at the later time where the workbook was changed too', () => {
    const saved = { kind: 'saved', at: at(9, 0) } as const;
    expect(says(saved, { book: 'shelf', at: at(9, 5) })).toBe('Saved 09:05');
    expect(says(saved, { book: 'shelf', at: at(8, 5) })).toBe('Saved 09:00');
    expect(says(saved, { book: 'shelf' })).toBe('Saved 09:00');
  });

  it('is not the ticks of another workbook, nor any while the workbook is not safe', () => {
    expect(says({ kind: 'untouched' }, { book: 'bench', at: at(9, 5) })).toBe(
      'Nothing to save yet',
    );
    const why = 'the device is full.';
    expect(says({ kind: 'notSaved', why }, { book: 'shelf', at: at(9, 5) })).toBe(
      `Not saved: ${why}`,
    );
    expect(says({ kind: 'saving' }, { book: 'shelf', at: at(9, 5) })).toBe('Saving …');
  });
});
