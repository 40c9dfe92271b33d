// @vitest-environment happy-dom
import { type Bookcase, type BookcaseState, Watched } from '@kerfbook/keeping';
import { Workbook } from '@kerfbook/workbook';
import { act } from 'react';
import { createRoot } from 'react-dom/client';
import { expect, it } from 'vitest';
import { ticksKept } from '../shop/ticks-kept.ts';
import { SavedWords } from './saved-state.tsx';

/** A workbook from the same template, so of the same id each time. */
const anew = (): BookcaseState => ({
  current: {
    id: 'shelf',
    book: Workbook.open({ kerfbook: 8, title: 'Shelf', units: 'us', sheets: [], checks: [] }),
    origin: { kind: 'new' },
    access: 'write',
  },
  save: { kind: 'untouched' },
  canTakeOver: false,
  keeping: 'unknown',
  notices: [],
  listAsked: 0,
});

it('says nothing of ticks that went with the workbook they were made for', async () => {
  Object.assign(globalThis, { IS_REACT_ACT_ENVIRONMENT: true });
  const page = document.createElement('div');
  const root = createRoot(page);
  const state = new Watched(anew());
  const bookcase = { state } as unknown as Bookcase;
  await act(async () => root.render(<SavedWords bookcase={bookcase} />));
  expect(page.textContent).toBe('Nothing to save yet');
  act(() => ticksKept.set({ book: 'shelf' }));
  expect(page.textContent).toBe('Ticks saved');
  act(() => state.set({ ...state.value, listAsked: 1 }));
  expect(page.textContent).toBe('Ticks saved');
  act(() => state.set(anew()));
  expect(page.textContent).toBe('Nothing to save yet');
  act(() => root.unmount());
});
