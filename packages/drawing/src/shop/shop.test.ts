import { SHOP_COLUMNS, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { COLUMNS } from '../columns.ts';
import { readParts } from '../parts.ts';
import { type Fake, fakeBook } from '../testing/fake-book.ts';
import { boardSvg, panelSvg } from './board-svg.ts';
import { type CutItem, cutList } from './cut-list.ts';
import { buyingPlan, type PlannedBoard, type PlannedPanel } from './plan.ts';
import { rackPlan } from './rack.ts';
import { readStock, type StockItem, type Unpriced } from './stock.ts';

/** An invented bench: a top of two boards, four legs, two rails. */
const BENCH: readonly (readonly Fake[])[] = [
  [
    'part',
    'count',
    'thickness',
    'width',
    'length',
    'material',
    'boards',
    'board width',
    'board length',
  ],
  ['Top', 1, 1.5, 12, 48, 'Oak, white', 2, 6.0625, 49],
  ['Leg', 4, 2, 2, 16, 'Oak, white', null, null, null],
  ['Rail', 2, 0.75, 3, 40, 'plywood', null, null, null],
];

const list = (rows = BENCH) => cutList(readParts(fakeBook(rows)).parts);
const inches = (mm: number): number => Number((mm / 25.4).toPrecision(10));

describe('the cut list', () => {
  it('has a line a part, and the boards a wide one is glued up of', () => {
    const { items, pieces } = list();
    expect(
      items.map(({ name, count, thickness, width, length }) => [
        name,
        count,
        ...[thickness, width, length].map(inches),
      ]),
    ).toEqual([
      ['Top, board', 2, 1.5, 6.0625, 49],
      ['Leg', 4, 2, 2, 16],
      ['Rail', 2, 0.75, 3, 40],
    ]);
    expect(pieces).toBe(8);
    expect(items[0]?.becomes).toMatchObject({ part: 'Top' });
  });

  it('has boards as thick as they are glued up, and says what the panel is planed to', () => {
    const [head = [], top = [], ...rest] = BENCH;
    const withThick = (thick: Fake): Fake[][] => [
      [...head, 'board thickness'],
      [...top, thick],
      ...rest.map((row) => [...row, null]),
    ];
    const [board] = list(withThick(1.75)).items;
    expect(inches(board?.thickness ?? 0)).toBe(1.75);
    expect(inches(board?.becomes?.thickness ?? 0)).toBe(1.5);
    const [same] = list(withThick(null)).items;
    expect([inches(same?.thickness ?? 0), same?.becomes?.thickness]).toEqual([1.5, undefined]);
    const thin = readParts(fakeBook(withThick(1.25)));
    expect(thin.problems.map(({ says }) => says)).toEqual([
      'The board thickness of Top is 1.25; it takes what the panel is thick, or more: a board is never planed thicker.',
    ]);
    expect(cutList(thin.parts).items.map(({ name }) => name)).not.toContain('Top, board');
  });

  it('has the layers of what is laminated, which share its thickness; the part keeps its size', () => {
    const rows: Fake[][] = [
      ['part', 'count', 'thickness', 'width', 'length', 'material', 'layers', 'boards'],
      ['Leg', 4, 3, 3, 28, 'Oak, white', 3, null],
      ['Top', 1, 2, 20, 40, 'Oak, white', 2, 4],
      ['Rail', 2, 1, 3, 20, 'Oak, white', 1, null],
    ];
    const { items, materials } = list(rows);
    expect(
      items.map(({ name, count, thickness, width }) => [
        name,
        count,
        ...[thickness, width].map(inches),
      ]),
    ).toEqual([
      ['Leg, layer', 12, 1, 3],
      ['Top, board of a layer', 8, 1, 5],
      ['Rail', 2, 1, 3],
    ]);
    expect(items[0]?.laminates).toEqual({ part: 'Leg', layers: 3, thickness: 3 * 25.4 });
    const finished = 4 * 3 * 3 * 28 + 2 * 20 * 40 + 2 * 3 * 20;
    expect((materials[0]?.volume ?? 0) / 25.4 ** 3).toBeCloseTo(finished, 6);
    // NHLA board measure of what is cut: layers of 1 in are as much as the parts themselves.
    expect(materials[0]?.boardFeet).toBeCloseTo(finished / 144, 6);
    const wrong = readParts(fakeBook([rows[0] ?? [], ['Leg', 4, 3, 3, 28, 'oak', 2.5, null]]));
    expect(wrong.problems.map(({ says }) => says)).toEqual([
      'The layers of Leg is 2.5; it takes a whole number of layers, or nothing for one piece.',
    ]);
    expect(cutList(wrong.parts).items).toEqual([]);
  });

  it('sums what each material comes to', () => {
    const [oak, plywood] = list().materials;
    // Worked by hand: faces, edges and ends of the finished parts.
    const top = 2 * (1.5 * 12 + 1.5 * 48 + 12 * 48);
    const legs = 4 * 2 * (2 * 2 + 2 * 2 * 16);
    expect((oak?.area ?? 0) / 25.4 ** 2).toBeCloseTo(top + legs, 6);
    expect((oak?.volume ?? 0) / 25.4 ** 3).toBeCloseTo(1.5 * 12 * 48 + 4 * 2 * 2 * 16, 6);
    // NHLA board measure: t x w x l / 144, thin stock as 1 in.
    expect(oak?.boardFeet).toBeCloseTo((2 * 1.5 * 6.0625 * 49) / 144 + (4 * 2 * 2 * 16) / 144, 6);
    expect(plywood?.boardFeet).toBeCloseTo((2 * 1 * 3 * 40) / 144, 6);
    // Wood Handbook chapter 4: 62.4 G (1 + M/100), white oak G 0.68 at 12 % (table 5-3b).
    const pounds = ((1.5 * 12 * 48 + 4 * 2 * 2 * 16) / 1728) * 62.4 * 0.68 * 1.12;
    expect((oak?.mass ?? 0) / 0.45359237).toBeCloseTo(pounds, 1);
    expect(plywood?.mass).toBeUndefined();
  });

  it('takes the usual widths where the row names only the count of boards', () => {
    const [head = [], ...rows] = BENCH;
    const short = list([head, ['Shelf', 1, 1, 20, 30, 'pine', 4, null, null], ...rows]);
    expect(short.items[0]).toMatchObject({ name: 'Shelf, board', count: 4 });
    expect(inches(short.items[0]?.width ?? 0)).toBe(5);
    expect(inches(short.items[0]?.length ?? 0)).toBe(30);
  });

  it('reads a table whose heads still say staves', () => {
    const [head = [], ...rows] = BENCH;
    const former = head.map((word) =>
      String(word).replace('boards', 'staves').replace('board ', 'stave '),
    );
    expect(former).toContain('stave length');
    expect(list([former, ...rows])).toEqual(list());
  });

  it('complains of boards that are no count, at their cell, and goes on', () => {
    const [head = []] = BENCH;
    const { parts, problems } = readParts(
      fakeBook([head, ['Top', 1, 1, 20, 30, 'pine', 2.5, null, null]]),
    );
    expect(parts).toHaveLength(1);
    expect(problems).toEqual([
      {
        at: { sheet: 's1', row: 1, column: 6 },
        says: 'The number of boards of Top is 2.5; it takes a whole number of boards, or nothing for one piece.',
      },
    ]);
  });

  it('knows exactly the columns that a new parts table has', () => {
    expect(SHOP_COLUMNS.parts.map(({ heads }) => heads)).toEqual(COLUMNS);
  });
});

describe('the stock table', () => {
  const stockBook = (rows: readonly (readonly Fake[])[]) => {
    const book = fakeBook(rows);
    return {
      ...book,
      tables: () => book.tables().map((table) => ({ ...table, kind: 'stock' as const })),
    };
  };
  const HEAD = ['stock', 'material', 'thickness', 'width', 'length', 'price', 'at hand'];

  const boardFeet = (width: number): string =>
    `Sold by the board foot? Type your price, such as $12.50/bd ft, into a cell beside the table and here =BOARDFEET(1.5,${width},96)*H1 where that cell is H1; the first number is the thickness you pay for.`;

  it('lists boards to buy and boards at hand', () => {
    const { stock, problems } = readStock(
      stockBook([
        HEAD,
        ['2x6, 8 ft', 'pine', 1.5, 5.5, 96, 9.5, null],
        ['offcut', 'pine', 1.5, 5.5, 31, 0, 2],
        [null, null, null, null, null, null, null],
      ]),
    );
    expect(problems).toEqual([]);
    expect(stock).toMatchObject([
      { name: '2x6, 8 ft', material: 'pine', price: 9.5 },
      { name: 'offcut', price: 0, atHand: 2 },
    ]);
    expect(inches(stock[0]?.length ?? 0)).toBe(96);
  });

  it('says what is wrong at the cell and reads the rest', () => {
    const { stock, unpriced, problems } = readStock(
      stockBook([
        HEAD,
        ['2x6', 'pine', 1.5, 5.5, 'long', 9.5, null],
        ['2x4', 'pine', 1.5, 3.5, 96, null, null],
        ['2x8', 'pine', 1.5, 7.25, 96, 12, -1],
        ['2x10', 'pine', 1.5, 9.25, 96, 15, null],
      ]),
    );
    expect(stock.map(({ name }) => name)).toEqual(['2x10']);
    expect(unpriced.map(({ name }) => name)).toEqual(['2x4']);
    expect(problems.map(({ at, says }) => [at.row, at.column, says])).toEqual([
      [1, 4, 'The length of 2x6 is "long"; it takes a size in inches above 0.'],
      [
        2,
        5,
        `The price of 2x4 is empty; it takes what one board costs, 0 or more. ${boardFeet(3.5)}`,
      ],
      [
        3,
        6,
        'The at hand of 2x8 is -1; it takes how many there are, or blank for as many as needed.',
      ],
    ]);
  });

  it('names each line that nothing can be chosen from', () => {
    const error = { word: '#DIV/0!' } as const;
    const { leftOut } = readStock(
      stockBook([
        HEAD,
        ['2x6', 'pine', 1.5, 5.5, 96, error, null],
        [null, 'pine', 1.5, 5.5, 96, null, null],
        ['2x8', error, 1.5, 7.25, 96, 12, null],
        ['2x10', 'pine', 1.5, 9.25, 96, 15, null],
      ]),
    );
    expect(leftOut.map(({ what, says }) => [what, says])).toEqual([
      [
        '2x6',
        `The price of 2x6 is in error (#DIV/0!); it takes what one board costs, 0 or more. An invented error of a test. ${boardFeet(5.5)}`,
      ],
      [
        'Row 3',
        `The price of this stock is empty; it takes what one board costs, 0 or more. ${boardFeet(5.5)}`,
      ],
      ['2x8', 'The material of 2x8 is in error (#DIV/0!); it takes words.'],
    ]);
  });

  it.each([
    // Board feet are 144 cubic inches (NIST Handbook 44), a cubic meter 10^9 mm³.
    ['us' as const, [2, 6, 96], 8 * 12.5],
    ['metric' as const, [50, 200, 2500], 22.5],
  ])(
    '%s: what it says to type for wood sold by its volume is taken, and is the price',
    (units, sizes, costs) => {
      const heads = ['stock', 'thickness', 'width', 'length', 'price'];
      const cells = (all: readonly object[]) =>
        Object.fromEntries(all.map((cell, i) => [`c${i + 1}`, cell]));
      const board = [
        { value: 'Board' },
        ...sizes.map((value) => ({ value, quantity: 'length' as const })),
        { quantity: 'money' as const },
      ];
      const book = Workbook.open({
        kerfbook: 8,
        title: 'Bench',
        units,
        currency: 'USD',
        sheets: [
          {
            id: 's1',
            name: 'Stock',
            columns: Array.from({ length: 8 }, (_, i) => ({ id: `c${i + 1}` })),
            rows: [
              { id: 'r1', cells: cells(heads.map((value) => ({ value }))) },
              { id: 'r2', cells: cells(board) },
            ],
          },
        ],
        tables: [{ id: 't1', kind: 'stock', sheet: 's1', header: 'r1', last: 'r2' }],
        checks: [],
      });
      const at = { sheet: 's1', row: 1, column: 4 };
      const says = () => readStock(book).problems.map((one) => one.says);
      const type = (text: string, { row, column } = { row: 1, column: 4 }) => {
        book.apply({ do: 'enter', sheet: 's1', cells: [{ row, column, text }] });
      };
      const [empty = ''] = says();
      const [formula = ''] = /=\S+/.exec(empty) ?? [];
      if (formula.endsWith('*H1')) type('$12.50/bd ft', { row: 0, column: 7 });
      type(formula);
      expect(book.cell(at)).toMatchObject({ value: { kind: 'number' }, clash: undefined });
      expect(readStock(book).stock[0]?.price).toBeCloseTo(costs, 9);
      type('$12.50/bd ft');
      expect(says()[0]).toContain('is a price per board foot; this cell takes an amount');
      expect(says()[0]).toContain(formula);
    },
  );

  it('says which column is missing', () => {
    const { problems } = readStock(
      stockBook([
        ['stock', 'thickness', 'width', 'length'],
        ['a', 1, 2, 3],
      ]),
    );
    expect(problems.map(({ says }) => says)).toEqual([
      'The stock table has no column "price"; put that word at the head of the column that holds it.',
    ]);
  });
});

describe('the buying plan', () => {
  const inch = 25.4;
  const board = (length: number, price: number, more: object = {}): StockItem => ({
    at: { sheet: 's2', row: 1, column: 0 },
    name: `${length} in`,
    material: 'Oak, white',
    thickness: 1.75 * inch,
    width: 6.25 * inch,
    length: length * inch,
    price,
    ...more,
  });
  const blank: StockItem = { ...board(36, 20), width: 2.25 * inch, thickness: 2.25 * inch };
  const format = (mm: number): string => String(inches(mm));
  const plan = (items: readonly CutItem[], stock: readonly StockItem[]) =>
    buyingPlan(items, stock, { kerf: inch / 8, format });

  it('sends pieces to the section that fits, and cuts every one once', () => {
    const { items } = list();
    const found = plan(items.slice(0, 2), [board(60, 14), board(96, 21), blank]);
    expect(found.problems).toEqual([]);
    expect(found.groups.map(({ width }) => inches(width))).toEqual([6.25, 2.25]);
    const cut = found.groups.flatMap(({ boards }) => boards.flatMap(({ pieces }) => pieces));
    const count = (name: string) =>
      cut.filter(({ item }) => item.name === name).reduce((sum, { strips }) => sum + strips, 0);
    expect([count('Top, board'), count('Leg')]).toEqual([2, 4]);
    // Two boards of 49 in do not go in 96 in; two boards of 60 in it is. Four legs of 16 in: two blanks.
    expect(found.cost).toBe(2 * 14 + 2 * 20);
    expect(found).toMatchObject({ proven: true, bound: found.cost });
  });

  it('rips narrow pieces side by side', () => {
    const { items } = list();
    const rail = { ...(items[2] as CutItem), material: 'Oak, white', count: 3 };
    const [group] = plan([rail], [board(96, 21)]).groups;
    // Two of 3 in and a kerf go in 6 1/4 in: two lengths of 40 in hold all three.
    expect(group?.boards).toHaveLength(1);
    expect(group?.boards[0]?.pieces.map(({ strips }) => strips)).toEqual([2, 1]);
  });

  it('cuts a part from stock of the same wood, whatever name each goes by', () => {
    const { items } = list();
    const named = (item: CutItem | undefined, material: string): CutItem =>
      ({ ...item, material }) as CutItem;
    const maple = [named(items[0], 'hard maple'), named(items[1], 'Acer saccharum')];
    const sugar = { material: 'sugar maple' };
    const found = plan(maple, [board(60, 14, sugar), { ...blank, ...sugar }]);
    expect(found.problems).toEqual([]);
    expect(found.groups).toHaveLength(2);
    // Boards of one wood under two names are one section of the stock.
    const both = [board(60, 14, sugar), board(48, 9, { material: 'rock maple' })];
    const [rails, ...others] = plan([named(items[2], 'hard maple')], both).groups;
    expect(others).toEqual([]);
    expect(rails?.buy.map(({ stock }) => stock.material)).toEqual(['rock maple']);
    const red = plan(maple.slice(0, 1), [board(60, 14, { material: 'red maple' })]);
    expect(red.problems[0]?.says).toMatch(/^There is no stock of hard maple for/);
  });

  it('says at the part what no stock can give, and plans the rest', () => {
    const { items } = list();
    const found = plan(items, [board(30, 7), blank]);
    expect(found.problems.map(({ says }) => says)).toEqual([
      'Top, board is 49 long; the longest board that is thick and wide enough is 30. Add a longer one to the stock table.',
      'There is no stock of plywood for Rail, 0.75 by 3 by 40.',
    ]);
    expect(found.groups).toHaveLength(1);
    const few = plan(items.slice(0, 1), [board(60, 14, { atHand: 1 })]);
    expect(few.problems[0]?.says).toMatch(/^There are not enough boards like 60 in at hand for/);
  });

  it('says of a part wider than any stock where to write of how many boards it is glued up', () => {
    const [, leg] = list().items as [CutItem, CutItem];
    const wide = { ...leg, name: 'Seat', thickness: inch, width: 14 * inch, length: 48 * inch };
    const boardsAt = { ...leg.at, column: 15 };
    const told = (item: CutItem) => plan([item], [board(60, 14)]).problems;
    expect(told(wide).map(({ says }) => says)).toEqual([
      'No stock is thick and wide enough for Seat, 1 by 14 by 48. Add one to the stock table, or say under boards in the parts table how many boards it is glued up of.',
    ]);
    expect(told({ ...wide, boardsAt }).map(({ at }) => at)).toEqual([boardsAt]);
  });

  it('says of stock without a price that it has none, not that it is too small', () => {
    const { items } = list();
    const { price: _none, ...unpriced } = board(60, 14);
    const why = (stock: readonly StockItem[], priceless: readonly Unpriced[]) =>
      buyingPlan(items.slice(0, 1), stock, {
        kerf: inch / 8,
        format,
        unpriced: priceless,
      }).problems.map(({ says }) => says);
    const says =
      'Top, board, 1.5 by 6.0625 by 49, could come from 60 in, which has no price. Type what one board costs in the stock table, or 0 for boards at hand.';
    expect(why([], [unpriced])).toEqual([says]);
    expect(why([blank], [unpriced])).toEqual([says]);
    // What would not hold the piece at any price is no reason.
    expect(why([board(30, 7)], [{ ...unpriced, length: 40 * inch }])[0]).toMatch(/is 49 long/);
  });

  it('is proven in all only where every piece is planned', () => {
    const { items } = list();
    const found = plan(items, [board(30, 7), blank]);
    expect(found.groups.map(({ proven }) => proven)).toEqual([true]);
    expect(found.proven).toBe(false);
    expect(plan(items.slice(1, 2), [blank]).proven).toBe(true);
  });

  it('names every piece of a section that runs out, not the first alone', () => {
    const [glued, leg] = list().items as [CutItem, CutItem];
    const one = { ...leg, name: 'Short leg', length: 20 * inch, count: 1 };
    const { problems, groups } = plan(
      [leg, one],
      [{ ...board(36, 20, { atHand: 2 }), width: 2.25 * inch, thickness: 2.25 * inch }],
    );
    expect(groups).toEqual([]);
    expect(problems.map(({ item }) => item.name)).toEqual(['Leg', 'Short leg']);
    expect(problems[1]?.says).toBe(
      'There are not enough boards like 36 in at hand for Short leg, 1 of 2 by 2 by 20. Add boards to the stock table, or clear "at hand" so that more can be bought.',
    );
    // What cannot be cut by itself is left out; the rest of the section is planned.
    const many = { ...glued, name: 'Far too many', count: 20_000 };
    const rest = plan([glued, many], [board(60, 14)]);
    expect(rest.problems.map(({ item }) => item.name)).toEqual(['Far too many']);
    expect(rest.groups[0]?.boards).toHaveLength(2);
    expect(rest.proven).toBe(false);
  });

  it('takes nothing from boards of which none are at hand, and says so', () => {
    const [glued] = list().items as [CutItem];
    const gone = board(60, 14, { atHand: 0 });
    expect(plan([glued], [gone]).problems.map(({ says }) => says)).toEqual([
      'All boards that Top, board, 1.5 by 6.0625 by 49, could come from are used up: the stock table says 0 at hand. Add to them, or clear "at hand" so that more can be bought.',
    ]);
    expect(plan([glued], [gone, board(60, 15)]).problems).toEqual([]);
  });

  it('uses all that is at hand, however much it is', () => {
    const { items } = list();
    const glued = { ...(items[0] as CutItem), count: 250 };
    // One board of 49 in from each board of 60 in.
    const { problems, cost, groups } = plan([glued], [board(60, 0, { atHand: 250 })]);
    expect(problems).toEqual([]);
    expect([cost, groups[0]?.buy[0]?.count]).toEqual([0, 250]);
  });

  it('is drawn board by board, to scale', () => {
    const { items } = list();
    const [group] = plan(items.slice(0, 1), [board(60, 14)]).groups;
    const svg = boardSvg(group?.boards[0] as PlannedBoard, {
      format,
      kerf: inch / 8,
      longest: 60 * inch,
    });
    const piece = /class="kb-cut-piece" x="([\d.]+)" y="[\d.]+" width="([\d.]+)"/.exec(svg);
    expect(Number(piece?.[2])).toBeCloseTo((49 / 60) * 1000, 1);
    expect(svg).toContain('Top, board');
    const offcut = /class="kb-offcut" x="([\d.]+)" y="0" width="([\d.]+)"/.exec(svg);
    expect(Number(offcut?.[2])).toBeCloseTo(((60 - 49 - 0.125) / 60) * 1000, 1);
  });

  it('names every piece on a board: in it as far as there is room, and whole where it is pointed at', () => {
    const [top] = list().items;
    const drawn = (width: number) => {
      const item = { ...(top as CutItem), name: 'Lower stretcher', width: width * inch };
      const pieces = [30, 11, 4, 2].map((length, i) => ({
        item,
        at: ([0, 31, 43, 48][i] as number) * inch,
        length: length * inch,
        strips: 1,
      }));
      const stock = { ...board(60, 5), width: width * inch };
      return boardSvg({ stock, pieces, offcut: 0 } as PlannedBoard, {
        format,
        kerf: inch / 8,
        longest: 60 * inch,
      });
    };
    // What is written on the stick under a board is another matter.
    const told = (svg: string, tag: string) =>
      [
        ...(svg.split('<g class="kb-stick">')[0] ?? '').matchAll(
          new RegExp(`<${tag}[^>]*>([^<]+)</${tag}>`, 'g'),
        ),
      ].map(([, says]) => says);
    expect(told(drawn(5), 'title').slice(1)).toEqual([
      '1: Lower stretcher 30',
      '2: Lower stretcher 11',
      '3: Lower stretcher 4',
      '4: Lower stretcher 2',
    ]);
    expect(told(drawn(5), 'text')).toEqual([
      '1: Lower stretcher 30',
      '2: Lower stretcher',
      '11',
      '3',
      '4',
    ]);
    // A narrow board has room for one line: a number and a length alone say nothing of what it is.
    expect(told(drawn(1.5), 'text')).toEqual([
      '1: Lower stretcher 30',
      '2: Lower stretcher',
      '3',
      '4',
    ]);
  });

  it('cuts sheet goods both ways, grain along the sheet, nothing over anything', () => {
    const { items } = list();
    const ply = { ...(items[2] as CutItem), thickness: 18, material: 'plywood' };
    const shelf: CutItem = {
      ...ply,
      name: 'Shelf',
      count: 5,
      length: 800,
      width: 300,
      grain: 'length',
    };
    const back: CutItem = { ...ply, name: 'Back', count: 1, length: 1200, width: 800 };
    const sheet: StockItem = {
      ...board(96, 60),
      name: 'Plywood 18 mm',
      material: 'plywood',
      thickness: 18,
      width: 1220,
      length: 2440,
    };
    const found = plan([shelf, back], [sheet]);
    expect(found.problems).toEqual([]);
    const [group] = found.groups;
    const pieces = group?.panels.flatMap((panel) => panel.pieces) ?? [];
    expect(pieces.map(({ item }) => item.name).sort()).toEqual(['Back', ...Array(5).fill('Shelf')]);
    for (const { item, length } of pieces) {
      // Along the sheet lies the grain: a shelf's length.
      if (item.name === 'Shelf') expect(length).toBeCloseTo(800, 3);
    }
    expect(group?.buy).toMatchObject([{ count: 1 }]);
    expect(found).toMatchObject({ cost: 60, bound: 60, proven: true });
    for (const [i, a] of pieces.entries()) {
      expect(a.x + a.length).toBeLessThanOrEqual(2440 + 1e-6);
      expect(a.y + a.width).toBeLessThanOrEqual(1220 + 1e-6);
      for (const b of pieces.slice(i + 1)) {
        const apart =
          a.x + a.length <= b.x ||
          b.x + b.length <= a.x ||
          a.y + a.width <= b.y ||
          b.y + b.width <= a.y;
        expect(apart).toBe(true);
      }
    }
    const svg = panelSvg(group?.panels[0] as PlannedPanel, { format, longest: 2440 });
    expect(svg.match(/kb-cut-piece/g)).toHaveLength(6);
    expect(svg).toContain('Back');
  });
});

describe('boards from the rack', () => {
  const inch = 25.4;
  const board = (width: number, length: number): StockItem => ({
    at: { sheet: 's2', row: 1, column: 0 },
    name: `${width} in board`,
    material: 'Oak, white',
    thickness: 1.75 * inch,
    width: width * inch,
    length: length * inch,
    price: 0,
    atHand: 1,
  });
  const [glued] = list().items;
  const options = { kerf: inch / 8, jointLoss: inch / 16 };

  it('reach the panel, lie on their boards and take a board no wider than it has to be', () => {
    const rack = [board(4.5, 52), board(6.75, 60), board(5, 110), board(7, 40)];
    const found = rackPlan(glued as CutItem, rack, options);
    expect(found?.width).toBeGreaterThanOrEqual(12 * inch - 1e-6);
    const ripped = found?.boards.flatMap((one) => one.panelBoards) ?? [];
    const joined =
      ripped.reduce((sum, { width }) => sum + width, 0) - (ripped.length - 1) * options.jointLoss;
    expect(found?.width).toBeCloseTo(joined, 4);
    for (const { stock, panelBoards: cut } of found?.boards ?? []) {
      // The board of 40 in is shorter than a board of the panel.
      expect(inches(stock.length)).toBeGreaterThanOrEqual(49);
      for (const { width, along, across } of cut) {
        expect(across + width).toBeLessThanOrEqual(stock.width + 1e-6);
        expect(along + (glued as CutItem).length).toBeLessThanOrEqual(stock.length + 1e-6);
      }
    }
  });

  it('are of the wood that is asked for, whatever name it goes by', () => {
    const rack = ['sugar maple', 'rock maple', 'red maple'].map((material) => ({
      ...board(9, 60),
      material,
    }));
    const maple = { ...(glued as CutItem), material: 'hard maple' };
    const used = rackPlan(maple, rack, options)?.boards.map(({ stock }) => stock.material);
    expect(used?.sort()).toEqual(['rock maple', 'sugar maple']);
  });

  it('are none where the rack does not reach, or for a part that is one piece', () => {
    expect(rackPlan(glued as CutItem, [board(5, 60)], options)).toBeUndefined();
    const leg = list().items[1] as CutItem;
    expect(rackPlan(leg, [board(6, 60), board(6, 60)], options)).toBeUndefined();
  });
});
