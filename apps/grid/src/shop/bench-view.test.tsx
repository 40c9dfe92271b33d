// @vitest-environment happy-dom
import { MemoryStore } from '@kerfbook/keeping';
import { type BookDocument, Workbook } from '@kerfbook/workbook';
import { act } from 'react';
import { createRoot, type Root } from 'react-dom/client';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { Session } from '../session/session.ts';
import BenchView from './bench-view.tsx';
import { ticksKept } from './ticks-kept.ts';

const line = (id: string, cells: readonly (string | number)[]) => ({
  id,
  cells: Object.fromEntries(cells.map((value, index) => [`c${index + 1}`, { value }])),
});

/** An invented shelf: one board. */
const SHELF: BookDocument = {
  kerfbook: 8,
  title: 'Shelf',
  units: 'us',
  sheets: [
    {
      id: 's1',
      name: 'Parts',
      columns: ['c1', 'c2', 'c3', 'c4', 'c5'].map((id) => ({ id })),
      rows: [
        line('r1', ['Part', 'Count', 'Thickness', 'Width', 'Length']),
        line('r2', ['Board', 1, 0.75, 10, 48]),
      ],
    },
  ],
  checks: [],
  tables: [{ id: 't1', kind: 'parts', sheet: 's1', header: 'r1', last: 'r2' }],
};

class LastingStore extends MemoryStore {
  override readonly lasting = true;
  full = false;

  override async set(key: string, value: unknown): Promise<void> {
    if (this.full) throw new DOMException('full', 'QuotaExceededError');
    await super.set(key, value);
  }
}

let root: Root;
let page: HTMLElement;
/** How often the list was opened: each time it reads what is kept. */
let opened = 0;

beforeEach(() => {
  Object.assign(globalThis, { IS_REACT_ACT_ENVIRONMENT: true });
  page = document.createElement('div');
  document.body.replaceChildren(page);
  root = createRoot(page);
  ticksKept.set(undefined);
});
afterEach(() => act(() => root.unmount()));

async function show(store: MemoryStore): Promise<void> {
  opened += 1;
  const book = Workbook.open(SHELF);
  const session = new Session({ book, mayChange: true, record: () => undefined });
  await act(async () =>
    root.render(
      <BenchView
        key={opened}
        session={session}
        store={store}
        bookId="b"
        onStarted={() => undefined}
        onGo={() => undefined}
      />,
    ),
  );
}

const press = () =>
  act(async () => page.querySelector<HTMLInputElement>('.bench-line input')?.click());
const complaint = () => page.querySelector('.complaint')?.textContent;

describe('ticks', () => {
  it('are told as kept once they are, and found again', async () => {
    const store = new LastingStore();
    await show(store);
    expect(ticksKept.value).toBeUndefined();
    const from = Date.now();
    await press();
    expect(ticksKept.value?.book).toBe('b');
    expect(ticksKept.value?.at).toBeGreaterThanOrEqual(from);
    expect(complaint()).toBeUndefined();
    // On another day nobody knows when they were kept.
    ticksKept.set(undefined);
    await show(store);
    expect(ticksKept.value).toEqual({ book: 'b' });
  });

  it('are not told as kept where the device has no room, or keeps nothing', async () => {
    const store = new LastingStore();
    await show(store);
    await press();
    store.full = true;
    await press();
    expect(ticksKept.value).toBeUndefined();
    expect(complaint()).toMatch(/^Not kept on this device: /);
    await show(new MemoryStore());
    await press();
    expect(ticksKept.value).toBeUndefined();
    expect(complaint()).toMatch(/^Ticks are gone when this page closes: /);
  });
});
