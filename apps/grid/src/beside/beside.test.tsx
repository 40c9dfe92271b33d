import { MemoryStore } from '@kerfbook/keeping';
// @vitest-environment happy-dom
import { type At, type BookDocument, Workbook } from '@kerfbook/workbook';
import { act } from 'react';
import { createRoot, type Root } from 'react-dom/client';
import { afterEach, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { gridIsDrawn } from '../page/after-grid.ts';
import { Session } from '../session/session.ts';
import { Beside, DrawingPane } from './beside.tsx';

/** An invented shelf: one board, whose length is checked, and a formula with a mistake in it. */
const SHELF: BookDocument = {
  kerfbook: 8,
  title: 'Shelf',
  units: 'us',
  sheets: [
    {
      id: 's1',
      name: 'Brief',
      columns: [{ id: 'c1' }, { id: 'c2' }],
      rows: [
        row('r1', 'Length', { value: 48, quantity: 'length', role: 'input', name: 'shelf' }),
        row('r2', 'Half', {
          formula: '=shelf/2',
          quantity: 'length',
          role: 'calculated',
          name: 'half',
        }),
        row('r3', 'Lost', { formula: '=shelf/0', quantity: 'length', name: 'lost' }),
        row('r4', 'Follows', { formula: '=lost+1', quantity: 'length' }),
        row('r6', 'Moves', { formula: '=MOVEMENT(shelf,"black oak",5,10)', quantity: 'length' }),
        row('r5', 'Apron', { formula: '=APRON_LENGTH(shelf,2,2,0)', quantity: 'length' }),
      ],
    },
    {
      id: 's2',
      name: 'Parts',
      columns: ['c1', 'c2', 'c3', 'c4', 'c5', 'c6', 'c7', 'c8', 'c9'].map((id) => ({ id })),
      rows: [
        line('r1', ['Part', 'Count', 'Thickness', 'Width', 'Length', 'X', 'Y', 'Z', 'Turn']),
        line('r2', ['Board', 1, 0.75, 10, { formula: '=shelf' }, 0, 0, 0, 'LWT']),
      ],
    },
  ],
  checks: [
    check('k1', 'Not too short', '=shelf>12', 'stop', 'The shelf is {shelf}; a book needs 12 in.'),
    check('k2', 'Does not sag', '=shelf<=36', 'care', 'The shelf is {shelf}; past 36 in it sags.'),
  ],
  tables: [{ id: 't1', kind: 'parts', sheet: 's2', header: 'r1', last: 'r2' }],
};

type Cell = NonNullable<
  NonNullable<BookDocument['sheets'][number]['rows'][number]['cells']>[string]
>;

function row(id: string, label: string, cell: Cell) {
  return { id, cells: { c1: { value: label }, c2: cell } };
}

function line(id: string, cells: readonly (string | number | Cell)[]) {
  const entries = cells.map((cell, index) => [
    `c${index + 1}`,
    typeof cell === 'object' ? cell : { value: cell },
  ]);
  return { id, cells: Object.fromEntries(entries) };
}

function check(id: string, name: string, formula: string, severity: 'stop' | 'care', says: string) {
  return { id, name, sheet: 's1', formula, severity, says };
}

const at = (place: number): At => ({ sheet: 's1', row: place, column: 1 });

let root: Root;
let page: HTMLElement;
const onGo = vi.fn<(at: At) => void>();
const onRestore = vi.fn<(at: At) => void>();
const onFunction = vi.fn<(name: string) => void>();

// Loaded here, where it may take its time; no grid is drawn beside it.
beforeAll(async () => {
  gridIsDrawn();
  await import('./beside-body.tsx');
  await import('./drawing-fold.tsx');
});

beforeEach(() => {
  Object.assign(globalThis, { IS_REACT_ACT_ENVIRONMENT: true });
  page = document.createElement('div');
  document.body.replaceChildren(page);
  root = createRoot(page);
  vi.clearAllMocks();
});

afterEach(() => act(() => root.unmount()));

async function show(book: Workbook, place: At | undefined, mayChange = true) {
  const session = new Session({ book, mayChange, record: () => undefined });
  await act(async () =>
    root.render(
      <>
        <DrawingPane session={session} seen={{ book }} at={place} onGo={onGo} />
        <Beside
          session={session}
          seen={{ book }}
          at={place}
          mayChange={mayChange}
          store={new MemoryStore()}
          onGo={onGo}
          onRestore={onRestore}
          onFunction={onFunction}
          onCheck={() => undefined}
        />
      </>,
    ),
  );
  // What stands in it comes a moment after the grid.
  await vi.waitFor(async () => {
    await act(async () => undefined);
    expect(page.querySelector('.fold')).not.toBeNull();
    expect(page.querySelector('.drawing')).not.toBeNull();
  });
}

const text = () => page.textContent ?? '';

async function press(words: string) {
  const button = [...page.querySelectorAll('button')].find((one) => one.textContent === words);
  if (button === undefined) throw new Error(`no button says "${words}"`);
  await act(async () => button.click());
}

function enter(book: Workbook, place: At, typed: string) {
  const { sheet, row: line_, column } = place;
  const result = book.apply({ do: 'enter', sheet, cells: [{ row: line_, column, text: typed }] });
  if (!result.ok) throw new Error(result.says);
}

it('tells of another workbook from its top', async () => {
  await show(Workbook.open(SHELF), undefined);
  const scroller = page.querySelector('.beside-body');
  if (scroller === null) throw new Error('nothing scrolls there');
  scroller.scrollTop = 200;
  await show(Workbook.open(SHELF), undefined);
  expect(page.querySelector('.beside-body')).toBe(scroller);
  expect(scroller.scrollTop).toBe(0);
});

describe('this cell', () => {
  it('gives name, place, formula in words and in numbers, and what it rests on', async () => {
    await show(Workbook.open(SHELF), at(1));
    expect(text()).toContain('half Brief!B2');
    expect(text()).toContain('Calculated, length, in');
    expect(text()).toContain('=shelf/2');
    expect(text()).toContain('=48/2');
    await press('Length');
    expect(onGo).toHaveBeenCalledWith(at(0));
  });

  it('calls what it rests on as a maker does, with its name for formulas and its unit', async () => {
    await show(Workbook.open(SHELF), at(1));
    const [rests] = page.querySelectorAll('.neighbours li');
    expect(rests?.querySelector('.button-plain')?.textContent).toBe('Length');
    expect(rests?.querySelector('.neighbour-name')?.textContent).toBe('shelf');
    expect(rests?.querySelector('.neighbour-value')?.textContent).toBe('48 in');
  });

  it('says what an error is where it began', async () => {
    await show(Workbook.open(SHELF), at(2));
    expect(page.querySelector('.trouble')?.textContent).toContain('zero');
  });

  it('goes to the cell where an error began', async () => {
    await show(Workbook.open(SHELF), at(3));
    expect(page.querySelector('.trouble')?.textContent).toContain(
      'It is worked out from Lost; look there.',
    );
    await press('Go to Lost');
    expect(onGo).toHaveBeenCalledWith(at(2));
  });

  it('says of a circle which cells it goes round, by what stands beside them', async () => {
    const [brief, ...others] = SHELF.sheets;
    if (brief === undefined) throw new Error('the shelf has no sheet');
    const rows = [
      ...(brief.rows ?? []).slice(0, 1),
      row('r2', 'Height', { formula: '=depth*2', name: 'height' }),
      row('r3', 'Depth', { formula: '=height+1', name: 'depth' }),
    ];
    const round = { ...SHELF, sheets: [{ ...brief, rows }, ...others], checks: [] };
    await show(Workbook.open(round), at(1));
    expect(page.querySelector('.trouble')?.textContent).toContain('Height → Depth → Height');
  });

  it('says what its column takes where it stands in a table with heads', async () => {
    const [brief, parts] = SHELF.sheets;
    const [heads, ...lines] = parts?.rows ?? [];
    if (brief === undefined || parts === undefined || heads === undefined) throw new Error('none');
    const c3 = { value: 'Thickness', role: 'heading', remark: 'Finished size.' } as const;
    const rows = [{ ...heads, cells: { ...heads.cells, c3 } }, ...lines];
    const book = Workbook.open({ ...SHELF, sheets: [brief, { ...parts, rows }] });
    await show(book, { sheet: 's2', row: 1, column: 2 });
    expect(text()).toContain('Thickness: Finished size.');
    await show(book, { sheet: 's2', row: 1, column: 3 });
    expect(text()).not.toContain('Finished size.');
  });

  it('says what the formula under an override gives, and offers to bring it back', async () => {
    const book = Workbook.open(SHELF);
    enter(book, at(1), '20');
    await show(book, at(1));
    expect(text()).toContain('Overridden by hand: 20. The formula gives 24 in.');
    await press('Restore the formula');
    expect(onRestore).toHaveBeenCalledWith(at(1));
  });

  it('offers nothing to change where the tab only reads', async () => {
    const book = Workbook.open(SHELF);
    enter(book, at(1), '20');
    await show(book, at(1), false);
    expect(text()).toContain('Overridden by hand');
    expect(text()).not.toContain('Restore the formula');
  });

  it('names the source of a woodworking function', async () => {
    await show(Workbook.open(SHELF), at(5));
    expect(text()).toContain('APRON_LENGTH');
    expect(text()).toContain('Source:');
  });

  // Wood Handbook table 13-5, for 6 to 14 % moisture; table 4-3 gives black oak more
  it('shows the values of the tables it rests on, where they come from and their doubts', async () => {
    await show(Workbook.open(SHELF), at(4));
    expect(text()).toContain('Black oak: movement for 1 %, flat-sawn');
    expect(text()).toContain(
      '0.0023 per 1 %, read. Wood Handbook (FPL-GTR-190, 2010), table 13-5.',
    );
    expect(text()).toContain('would give 0.00400: 74 % more.');
    expect(text()).toContain('outside the 6 to 14 %');
  });

  it('asks for a cell where none is chosen', async () => {
    await show(Workbook.open(SHELF), undefined);
    expect(text()).toContain('Choose a cell');
  });
});

describe('checks', () => {
  it('stand worst first, each with its word and sentence', async () => {
    const book = Workbook.open(SHELF);
    enter(book, at(0), '10');
    await show(book, undefined);
    const states = () =>
      [...page.querySelectorAll('[data-check]')].map((one) => one.getAttribute('data-state'));
    expect(states()).toEqual(['stop', 'pass']);
    expect(page.querySelector('[data-check="k1"]')?.textContent).toContain(
      'Problem The shelf is 10 in; a book needs 12 in.Not too short',
    );
    enter(book, at(0), '48');
    await show(book, undefined);
    expect(states()).toEqual(['care', 'pass']);
    expect(text()).toContain('1 warning, 1 OK');
    await press('Go to Length');
    expect(onGo).toHaveBeenCalledWith(at(0));
  });
});

describe('a check that asks for more than one input', () => {
  it('leads to each of them with one press', async () => {
    const [brief, parts] = SHELF.sheets;
    if (brief === undefined || parts === undefined) throw new Error('the shelf lacks a sheet');
    const deep = { value: 9, quantity: 'length', role: 'input', name: 'deep' } as const;
    const rows = [...brief.rows, row('r9', 'Depth', deep)];
    const asks = check(
      'k4',
      'Fits',
      '=shelf+deep>100',
      'stop',
      'It is {shelf} long and {deep} deep. Make it longer or deeper.',
    );
    const book = Workbook.open({ ...SHELF, sheets: [{ ...brief, rows }, parts], checks: [asks] });
    await show(book, undefined);
    await press('Go to Length');
    expect(onGo).toHaveBeenLastCalledWith(at(0));
    await press('Go to Depth');
    expect(onGo).toHaveBeenLastCalledWith(at(6));
  });
});

describe('a check that cannot tell', () => {
  const lost = check('k3', 'Not lost', '=lost>12', 'stop', 'It is lost.');

  it('calls the cell that its error came from by the words beside it', async () => {
    await show(Workbook.open({ ...SHELF, checks: [lost] }), undefined);
    const says = page.querySelector('[data-check="k3"]')?.textContent;
    expect(says).toContain("This check can't tell: It is worked out from Lost; look there.");
  });

  it('calls it by its address where no words stand beside it', async () => {
    const [brief, ...others] = SHELF.sheets;
    if (brief === undefined) throw new Error('the shelf has no sheet');
    const rows = brief.rows.map((one) => ({ ...one, cells: { c2: one.cells?.c2 ?? {} } }));
    const sheets = [{ ...brief, rows }, ...others];
    await show(Workbook.open({ ...SHELF, sheets, checks: [lost] }), undefined);
    const says = page.querySelector('[data-check="k3"]')?.textContent;
    expect(says).toContain("This check can't tell: It is worked out from Brief!B3; look there.");
  });
});

describe('the drawing', () => {
  const width = () =>
    Number(page.querySelector('.kb-plan .kb-piece')?.getAttribute('width') ?? Number.NaN);

  it('is to size and follows the numbers', async () => {
    const book = Workbook.open(SHELF);
    await show(book, undefined);
    expect(width()).toBeCloseTo(48 * 25.4, 2);
    enter(book, at(0), '36');
    await show(book, undefined);
    expect(width()).toBeCloseTo(36 * 25.4, 2);
  });

  it('stands as it was until all that follows from a change is worked out', async () => {
    // The second board is as long as the first by way of more cells than are worked out at once.
    const chain = Array.from({ length: 400 }, (_, i) =>
      row(`r${i + 1}`, `${i}`, {
        formula: i === 0 ? '=shelf' : `=[c2.r${i}]`,
        quantity: 'length',
      }),
    );
    const length = { formula: '=[s3!c2.r400]', quantity: 'length' } as const;
    const second = line('r3', ['Board 2', 1, 0.75, 10, length, 0, 20, 0, 'LWT']);
    const book = Workbook.open({
      ...SHELF,
      sheets: [
        ...SHELF.sheets.map((one) =>
          one.id === 's2' ? { ...one, rows: [...one.rows, second] } : one,
        ),
        { id: 's3', name: 'Chain', columns: [{ id: 'c1' }, { id: 'c2' }], rows: chain },
      ],
      tables: [{ id: 't1', kind: 'parts', sheet: 's2', header: 'r1', last: 'r3' }],
    });
    const session = new Session({ book, mayChange: true, stretch: 0, record: () => undefined });
    const draw = () =>
      act(async () =>
        root.render(
          <DrawingPane
            session={session}
            seen={{ book }}
            at={undefined}
            writing={undefined}
            onGo={onGo}
          />,
        ),
      );
    const widths = () =>
      [...page.querySelectorAll('.kb-plan .kb-piece')].map((piece) =>
        Math.round(Number(piece.getAttribute('width')) / 25.4),
      );
    await draw();
    await vi.waitFor(() => expect(widths()).toEqual([48, 48]));
    session.apply({ do: 'enter', sheet: 's1', cells: [{ row: 0, column: 1, text: '36' }] });
    const lengths = () =>
      [1, 2].map((one) => {
        const value = book.value({ sheet: 's2', row: one, column: 4 });
        return value.kind === 'number' ? value.number : undefined;
      });
    while (book.pending && lengths()[0] === 48) book.goOn(() => false);
    // The first board is worked out, and the second is not.
    expect([book.pending, lengths()]).toEqual([true, [36, 48]]);
    await draw();
    expect(widths()).toEqual([48, 48]);
    session.settled();
    await draw();
    expect(widths()).toEqual([36, 36]);
  });

  it('goes to the row of the piece that is pressed, and marks it', async () => {
    const book = Workbook.open(SHELF);
    await show(book, undefined);
    const piece = page.querySelector<SVGElement>('.kb-plan .kb-piece');
    await act(async () => piece?.dispatchEvent(new MouseEvent('click', { bubbles: true })));
    const place = onGo.mock.calls[0]?.[0];
    expect(place).toMatchObject({ sheet: 's2', row: 1 });
    await show(book, place);
    expect(page.querySelector('.kb-plan .kb-piece')?.classList.contains('is-current')).toBe(true);
  });
});
