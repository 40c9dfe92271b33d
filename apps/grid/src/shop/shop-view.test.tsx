// @vitest-environment happy-dom
import { MemoryStore } from '@kerfbook/keeping';
import { type At, type BookDocument, Workbook } from '@kerfbook/workbook';
import { act } from 'react';
import { createRoot, type Root } from 'react-dom/client';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { Session } from '../session/session.ts';
import ShopView from './shop-view.tsx';

const BLANK: BookDocument = {
  kerfbook: 8,
  title: 'Blank',
  units: 'us',
  sheets: [{ id: 's1', name: 'Sheet 1', columns: [{ id: 'c1' }], rows: [{ id: 'r1' }] }],
  checks: [],
  tables: [],
};

/** An invented shelf: one board, and nothing to cut it from. */
const SHELF: BookDocument = {
  ...BLANK,
  title: 'Shelf',
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
  tables: [{ id: 't1', kind: 'parts', sheet: 's1', header: 'r1', last: 'r2' }],
};

function line(id: string, cells: readonly (string | number)[]) {
  return {
    id,
    cells: Object.fromEntries(cells.map((value, index) => [`c${index + 1}`, { value }])),
  };
}

let root: Root;
let page: HTMLElement;
const onStarted = vi.fn<() => void>();
const onGo = vi.fn<(at: At) => void>();

beforeEach(() => {
  Object.assign(globalThis, { IS_REACT_ACT_ENVIRONMENT: true });
  // This environment has no fonts to wait for.
  Object.defineProperty(document, 'fonts', {
    value: { ready: Promise.resolve() },
    configurable: true,
  });
  page = document.createElement('div');
  document.body.replaceChildren(page);
  root = createRoot(page);
  vi.clearAllMocks();
});

afterEach(() => {
  act(() => root.unmount());
  Reflect.deleteProperty(document, 'fonts');
});

async function show(document: BookDocument): Promise<string> {
  const book = Workbook.open(document);
  const session = new Session({ book, mayChange: true, record: () => undefined });
  await act(async () =>
    root.render(
      <ShopView
        session={session}
        store={new MemoryStore()}
        bookId="b"
        onStarted={onStarted}
        onGo={onGo}
      />,
    ),
  );
  return page.querySelector('.paper-desk')?.textContent ?? '';
}

describe('the shop sheets', () => {
  it('of a workbook with nothing to cut say only that, with what begins it', async () => {
    expect(await show(BLANK)).toBe(
      'There is no parts table with anything to cut yet. Start a parts table',
    );
    expect(page.querySelector('.complaint')).toBeNull();
    const start = page.querySelector<HTMLButtonElement>('.shop-nothing button');
    await act(async () => start?.click());
    expect(onStarted).toHaveBeenCalled();
  });

  it('of a parts table with nothing in it say the same, and start no other', async () => {
    const [sheet] = SHELF.sheets;
    const heads = { ...sheet, rows: sheet?.rows.slice(0, 1) } as BookDocument['sheets'][number];
    const tables = SHELF.tables?.map((table) => ({ ...table, last: 'r1' })) ?? [];
    expect((await show({ ...SHELF, sheets: [heads], tables })).trim()).toBe(
      'There is no parts table with anything to cut yet.',
    );
  });

  it('of one with a piece to cut ask for what is missing', async () => {
    const says = await show(SHELF);
    expect(says).toContain('This workbook has no stock table to buy from.');
    expect(says).toContain("How wide is your saw's kerf?");
    expect(page.querySelectorAll('.complaint')).toHaveLength(2);
    expect(says).not.toContain('anything to cut yet');
  });

  it('offer to print what is on them, and nothing where there is nothing', async () => {
    const prints = (): boolean =>
      [...page.querySelectorAll('button')].some(({ textContent }) => textContent === 'Print');
    await show(BLANK);
    expect(prints()).toBe(false);
    await show(SHELF);
    expect(prints()).toBe(true);
    for (const tick of page.querySelectorAll<HTMLInputElement>('fieldset [type="checkbox"]')) {
      if (tick.checked) await act(async () => tick.click());
    }
    expect(page.textContent).toContain('Choose at least one sheet.');
    expect(prints()).toBe(false);
  });

  it('lead from what is left out to its cell', async () => {
    const [sheet] = SHELF.sheets;
    const rows = sheet?.rows.map((row, i) => (i === 1 ? line('r2', ['Board', 1, 0.75, 10]) : row));
    await show({ ...SHELF, sheets: [{ ...sheet, rows }] as BookDocument['sheets'] });
    const go = [...page.querySelectorAll('button')].find(
      ({ textContent }) => textContent === 'Go to Board, Length',
    );
    await act(async () => go?.click());
    expect(onGo).toHaveBeenCalledWith({ sheet: 's1', row: 1, column: 4 });
  });
});
