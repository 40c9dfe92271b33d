// @vitest-environment happy-dom
import { type At, type BookDocument, Workbook } from '@kerfbook/workbook';
import { act } from 'react';
import { createRoot, type Root } from 'react-dom/client';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { DrawingFold } from '../beside/drawing-fold.tsx';
import { Session } from '../session/session.ts';
import DrawingPage from './drawing-page.tsx';
import { savedSvg } from './save-drawing.ts';

/** An invented bench: a seat on two sides, a rail between them, and a drawer that has no place yet. */
const BENCH: BookDocument = {
  kerfbook: 8,
  title: 'Bench',
  units: 'us',
  sheets: [
    {
      id: 's1',
      name: 'Parts',
      columns: Array.from({ length: 12 }, (_, k) => ({ id: `c${k + 1}` })),
      rows: [
        line('r1', [
          'Part',
          'Count',
          'Thickness',
          'Width',
          'Length',
          'Material',
          'Grain',
          'X',
          'Y',
          'Z',
          'Step X',
          'Turn',
        ]),
        line('r2', ['Seat', 1, 1, 12, 40, 'white oak', 'length', 0, 0, 17, 0, 'LWT']),
        line('r3', ['Side', 2, 1, 12, 17, 'white oak', 'length', 3, 0, 0, 33, 'TWL']),
        line('r4', ['Rail', 1, 1, 3, 32, 'walnut', 'length', 4, 5, 14, 0, 'LTW']),
        line('r5', ['Drawer', 1, 0.5, 4, 20, 'pine', 'length', '', '', '', '', '']),
      ],
    },
  ],
  checks: [],
  tables: [{ id: 't1', kind: 'parts', sheet: 's1', header: 'r1', last: 'r5' }],
};

function line(id: string, cells: readonly (string | number)[]) {
  const entries = cells.flatMap((value, index) =>
    value === '' ? [] : [[`c${index + 1}`, { value }] as const],
  );
  return { id, cells: Object.fromEntries(entries) };
}

let root: Root;
let page: HTMLElement;
let session: Session;
const onGo = vi.fn<(at: At) => void>();
const onStarted = vi.fn<() => void>();

beforeEach(() => {
  Object.assign(globalThis, { IS_REACT_ACT_ENVIRONMENT: true });
  page = document.createElement('div');
  document.body.replaceChildren(page);
  root = createRoot(page);
  session = new Session({
    book: Workbook.open(structuredClone(BENCH)),
    mayChange: true,
    record: () => undefined,
  });
  vi.clearAllMocks();
});

afterEach(() => act(() => root.unmount()));

const show = () =>
  act(async () => root.render(<DrawingPage session={session} onGo={onGo} onStarted={onStarted} />));
const named = (text: string): HTMLElement => {
  const found = [...page.querySelectorAll<HTMLElement>('button, label')].find(
    (one) => one.textContent?.trim() === text,
  );
  if (found === undefined) throw new Error(`nothing says "${text}"`);
  return found;
};
const press = (text: string) => act(async () => named(text).click());
const svgs = () => [...page.querySelectorAll('.stage svg')];
const key = (pressed: string, shiftKey = false) =>
  act(async () =>
    page
      .querySelector('.stage')
      ?.dispatchEvent(new KeyboardEvent('keydown', { key: pressed, shiftKey, bubbles: true })),
  );

describe('the drawing, large', () => {
  it('shows a view at a time, each a picture with a name and its sizes in words', async () => {
    await show();
    for (const [choice, name] of [
      ['Top', 'Top'],
      ['Front', 'Front'],
      ['End', 'End'],
      ['3D', '3D'],
    ] as const) {
      await press(choice);
      const [svg, ...others] = svgs();
      expect(others).toEqual([]);
      expect(svg?.getAttribute('role')).toBe('img');
      expect(svg?.querySelector('title')?.textContent).toBe(name);
      const words = svg?.querySelector('desc')?.textContent ?? '';
      expect(words).toContain('40 long, 12 wide and 18 high over all. Seat: 1 by 12 by 40.');
      expect(words).toContain('2 of Side: 1 by 12 by 17.');
      expect(words.length).toBeLessThan(400);
    }
  });

  it('names a piece that is pressed, marks it, and goes to its row when asked', async () => {
    await show();
    await press('3D');
    const side = page.querySelector('.kb-parallel [data-part="s1:2:0"] .kb-face');
    await act(async () => side?.dispatchEvent(new MouseEvent('click', { bubbles: true })));
    const chosen = page.querySelector('.chosen-piece')?.textContent ?? '';
    expect(chosen).toContain('Side');
    expect(chosen).toContain('2 pieces, 1 × 12 × 17, white oak');
    const marked = [...page.querySelectorAll('.is-current')];
    expect(new Set(marked.map((one) => one.getAttribute('data-part')))).toEqual(
      new Set(['s1:2:0']),
    );
    expect(onGo).not.toHaveBeenCalled();
    await press('Go to row 3 on Parts');
    expect(onGo).toHaveBeenCalledWith(expect.objectContaining({ sheet: 's1', row: 2 }));
  });

  it('chooses a piece from the list with keys alone, one without a place too', async () => {
    await show();
    await press('Drawer');
    expect(page.querySelector('.chosen-piece')?.textContent).toContain('Drawer');
    expect(named('Drawer').closest('tr')?.textContent).toContain('not placed');
    await press('Rail');
    expect(page.querySelectorAll('.is-current').length).toBeGreaterThan(0);
  });

  it('explodes, turns and zooms by keys, fits, and is reset', async () => {
    await show();
    await press('Front');
    await act(async () => page.querySelector<HTMLInputElement>('.view-tick input')?.click());
    // Exploded is of the 3D view: it comes by itself.
    expect(svgs()[0]?.querySelector('title')?.textContent).toBe('Exploded');
    const box = () => svgs()[0]?.getAttribute('viewBox') ?? '';
    const lines = () => svgs()[0]?.querySelector('.kb-outline')?.getAttribute('d');
    const [fit, first] = [box(), lines()];
    const width = (text: string): number => Number(text.split(' ')[2]);
    await key('+');
    expect(width(box())).toBeCloseTo(width(fit) / 1.25, 1);
    await key('ArrowRight', true);
    expect(lines()).toBe(first);
    await key('0');
    expect(box()).toBe(fit);
    await key('ArrowLeft');
    expect(lines()).not.toBe(first);
    await press('Zoom in');
    await press('Reset');
    expect([box(), lines()]).toEqual([fit, first]);
  });

  it('follows an edit without turning by itself', async () => {
    await show();
    await press('3D');
    const place = () => page.querySelector('.kb-parallel [data-part="s1:1:0"]')?.innerHTML ?? '';
    const words = () => svgs()[0]?.querySelector('desc')?.textContent ?? '';
    const shades = () =>
      [...page.querySelectorAll('.kb-face')].map((one) => one.getAttribute('class')).join();
    const [before, tones] = [place(), shades()];
    await act(async () => {
      session.apply({
        do: 'enter',
        sheet: 's1',
        cells: [{ row: 1, column: 4, text: '48' }],
      });
      await new Promise((done) => setTimeout(done, 60));
    });
    await vi.waitFor(() => expect(words()).toContain('48 long'));
    expect(place()).not.toBe(before);
    expect(shades()).toBe(tones);
  });

  it('saves what is shown: four views in one file that needs nothing else', async () => {
    const { book } = session;
    await show();
    const parts = (await import('@kerfbook/drawing')).readParts(book).parts;
    const all = { choice: 'all', exploded: false, seasons: false } as const;
    const four = new DOMParser().parseFromString(savedSvg(book, parts, all) ?? '', 'image/svg+xml');
    expect(four.querySelectorAll('svg > svg').length).toBe(4);
    const one = savedSvg(book, parts, { ...all, choice: '3d' }) ?? '';
    expect(one).toContain('<style>');
    expect(one).not.toMatch(/light-dark|var\(/);
  });
});

describe('the drawing beside the grid', () => {
  const beside = (at?: At) =>
    act(async () =>
      root.render(
        <DrawingFold session={session} seen={{ book: session.book }} at={at} onGo={onGo} />,
      ),
    );

  it('shows 3D, top and front at first, and goes to the row of a piece chosen from the list', async () => {
    await beside();
    expect(svgs().map((svg) => svg.querySelector('title')?.textContent)).toEqual([
      '3D',
      'Top',
      'Front',
    ]);
    const list = page.querySelector('select');
    await act(async () => {
      if (list === null) return;
      list.value = '2';
      list.dispatchEvent(new Event('change', { bubbles: true }));
    });
    expect(onGo).toHaveBeenCalledWith(expect.objectContaining({ sheet: 's1', row: 3 }));
  });

  it('marks the pieces of the current row in every view, and names them in the list', async () => {
    await beside({ sheet: 's1', row: 2, column: 4 });
    const inViews = svgs().map(
      (svg) =>
        new Set(
          [...svg.querySelectorAll('.is-current')].map((one) => one.getAttribute('data-part')),
        ),
    );
    expect(inViews).toEqual([new Set(['s1:2:0']), new Set(['s1:2:0']), new Set(['s1:2:0'])]);
    const list = page.querySelector('select');
    expect(list?.selectedOptions[0]?.textContent).toBe('Side, 2 pieces');
  });

  it('shows large what was chosen beside the grid', async () => {
    await beside();
    await press('End');
    await act(async () =>
      root.render(<DrawingPage session={session} onGo={onGo} onStarted={onStarted} />),
    );
    expect(svgs().map((svg) => svg.querySelector('title')?.textContent)).toEqual(['End']);
  });
});

describe('a workbook without a parts table', () => {
  const blank = (): Session =>
    new Session({
      book: Workbook.open({ ...structuredClone(BENCH), tables: [] }),
      mayChange: true,
      record: () => undefined,
    });
  const started = () => {
    const { book } = session;
    const [table] = book.tables();
    return [table?.kind, book.sheet(table?.sheet ?? '')?.name, session.at.sheet === table?.sheet];
  };

  it('offers to start one beside the grid, and the cells below its heads have the keys', async () => {
    session = blank();
    await act(async () =>
      root.render(
        <DrawingFold
          session={session}
          seen={{ book: session.book }}
          at={undefined}
          writing={undefined}
          onGo={onGo}
        />,
      ),
    );
    expect(page.textContent).toContain('no parts table');
    await press('Start a parts table');
    expect(started()).toEqual(['parts', 'Parts 2', true]);
    expect(session.at.row).toBe((session.book.tables()[0]?.header ?? 0) + 1);
  });

  it('offers it on the page, turns to the workbook, and speaks of no piece to press', async () => {
    session = blank();
    await show();
    expect(page.textContent).not.toContain('Press a piece');
    await press('Start a parts table');
    expect(started()).toEqual(['parts', 'Parts 2', true]);
    expect(onStarted).toHaveBeenCalledOnce();
    // The page follows behind the workbook.
    await vi.waitFor(async () => {
      await act(async () => undefined);
      expect(page.textContent).toContain('The parts table has no pieces yet');
    });
    expect(page.textContent).not.toContain('Start a parts table');
    expect(page.textContent).not.toContain('Press a piece');
  });

  it('starts none where only inputs may be changed, and stays', async () => {
    session = blank();
    session.apply({ do: 'setBook', set: { locked: true } });
    await show();
    await press('Start a parts table');
    expect(session.book.tables()).toEqual([]);
    expect(onStarted).not.toHaveBeenCalled();
  });
});
