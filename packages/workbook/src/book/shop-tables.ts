import {
  type CellDocument,
  type Edit,
  freeName,
  idOf,
  nameKey,
  type RowDocument,
  type SheetDocument,
} from '@kerfbook/document';
import { OWN_TABLES, type Quantity } from '@kerfbook/wood';
import type { OpenWorkbook } from '../api.ts';

/**
 * Tables that drawings, cut lists, joints, plans, what others build from, studies, days and what it took are made from,
 * in any workbook.
 */
export type ShopTable =
  | 'parts'
  | 'stock'
  | 'joints'
  | 'steps'
  | 'words'
  | 'studies'
  | 'variants'
  | 'operations'
  | 'hours'
  | 'prices';

/** A column of such a table, known by the word at its head. */
export interface ShopColumn {
  /** The word at its head. */
  readonly heads: string;
  /** What its cells are for. */
  readonly quantity: Quantity;
  /** Said as the remark of its head. */
  readonly means: string;
  /** In px. */
  readonly width: number;
  /** Read where it is there, and not in a table that is begun: places in words say the same. */
  readonly rare?: true;
  /** Words are broken over lines. */
  readonly wraps?: true;
}

const column = (heads: string, quantity: Quantity, width: number, means: string): ShopColumn => ({
  heads,
  quantity,
  means,
  width,
});
const rare = (heads: string, quantity: Quantity, means: string, width = 80): ShopColumn => ({
  ...column(heads, quantity, width, means),
  rare: true,
});

const words = (heads: string, width: number, means: string): ShopColumn => ({
  ...column(heads, 'text', width, means),
  wraps: true,
});

const IN = 'How far in from where the place says';
const USUAL = 'Blank for the usual size.';
const STEP = 'From one piece to the next of the same row, where it has no place in words.';

/** What functions read of a price list stands with them. */
const PRICE_WIDTHS: Readonly<Record<string, number>> = { wood: 180, thickness: 90, per: 110 };

/** The columns of each table; only the first five of parts, the first six of stock and the first two of joints are needed. */
export const SHOP_COLUMNS: Readonly<Record<ShopTable, readonly ShopColumn[]>> = {
  parts: [
    column(
      'part',
      'text',
      170,
      'What it is called on the bench, such as Leg. A row for each kind.',
    ),
    column('count', 'count', 60, 'How many pieces alike; 0 for none.'),
    column('thickness', 'length', 90, 'Finished size.'),
    column('width', 'length', 90, 'Finished size, across the grain.'),
    column('length', 'length', 90, 'Finished size, along the grain, with any tenons at its ends.'),
    column('material', 'text', 130, 'The wood, as the stock table names it.'),
    column('grain', 'text', 70, 'The side the grain runs along: length, width or none.'),
    column(
      'place',
      'text',
      300,
      'Where it goes, in words: "four corners of Top", "on Leg", "both ends of Top", "between Leg along, front and back, under Top", "equal spaces along Top". Only the drawing needs it.',
    ),
    column('x', 'length', 70, `${IN}, along; without a place, from the left end.`),
    column('y', 'length', 70, `${IN}, across; without a place, from the front.`),
    column('z', 'length', 70, 'How far up from the floor, or from where the place says.'),
    rare('step x', 'length', STEP),
    rare('step y', 'length', STEP),
    rare('step z', 'length', STEP),
    rare('turn', 'text', 'What runs along x, y and z: LWT lies flat, WTL stands.'),
    column('boards', 'count', 70, 'Boards it is glued up from; blank for one piece.'),
    column('board width', 'length', 100, 'Of one board, before jointing.'),
    column('board length', 'length', 100, 'Of one board, before trimming.'),
    rare(
      'board thickness',
      'length',
      'Of one board, as it is glued up; blank for that of the panel.',
      110,
    ),
    rare('layers', 'count', 'Layers glued face to face that share its thickness; blank for one.'),
    rare(
      'shape',
      'text',
      'Where it is no box: round, oval, superellipse, rounded corners, rod.',
      130,
    ),
    rare('corner', 'length', 'Radius of its rounded corners.'),
    rare('taper', 'text', 'Faces that lean: two inside faces, four faces, front and back.', 140),
    rare('taper to', 'length', 'The size left at the foot, or at the right end of what lies.'),
    rare(
      'taper from',
      'length',
      'How far below the top end the taper begins; blank for all of it.',
    ),
    rare('arch', 'length', 'How far an arch rises in its lower edge.'),
    rare('ends', 'text', 'Where they are not square: mitered 45, beveled 10, level.', 140),
    rare('edge', 'text', 'round-over, chamfer or cove, and where: top, bottom.', 130),
    rare('edge size', 'length', 'Radius of the edge, or how much it takes.'),
    rare('splay along', 'angle', 'Degrees it leans outwards, as seen from the front.', 90),
    rare('splay across', 'angle', 'Degrees it leans outwards, as seen from the end.', 90),
  ],
  stock: [
    column('stock', 'text', 200, 'What it is called where it is bought, such as 8/4 board, 8 ft.'),
    column('material', 'text', 130, 'The wood, as the parts table names it.'),
    column('thickness', 'length', 90, 'As it is when parts are cut from it.'),
    column('width', 'length', 90, 'As it is when parts are cut from it.'),
    column('length', 'length', 90, 'Of one board.'),
    column(
      'price',
      'money',
      90,
      'Of one board; where wood is sold by the board foot, its board feet times the price. Type 0 for boards you already have: they cost nothing. No price: no plan takes from the row.',
    ),
    column(
      'at hand',
      'count',
      80,
      'How many there are; blank for as many as needed. What is at hand costs its price, so type 0 for your own.',
    ),
  ],
  joints: [
    column(
      'joint',
      'text',
      200,
      'How they are joined, such as mortise and tenon, dado, half lap, dowels or pocket holes.',
    ),
    column('part', 'text', 130, 'The part that goes in, as the parts table names it.'),
    column('into', 'text', 130, 'The part that it goes into; blank for a cut in one part alone.'),
    column(
      'face',
      'text',
      80,
      'Of a cut in one part: top, bottom, front, back, left, right, inside or outside.',
    ),
    column('thickness', 'length', 90, `Of a tenon or a tongue. ${USUAL}`),
    column('width', 'length', 90, `Of a tenon, groove, rabbet, finger or slot. ${USUAL}`),
    column('length', 'length', 90, `Of a dowel, screw, loose tenon or slot. ${USUAL}`),
    column('depth', 'length', 90, 'How deep it is cut; blank for as deep as the part reaches in.'),
    column('diameter', 'length', 90, `Of a dowel or a hole. ${USUAL}`),
    column(
      'from edge',
      'length',
      90,
      'How far in from the lower, left or front edge it begins; blank for the middle.',
    ),
    column('from end', 'length', 90, `From the end to the first one. ${USUAL}`),
    column('count', 'count', 60, 'How many in each place; blank for the usual number.'),
  ],
  steps: [
    words('step', 170, 'What is done, in a few words, such as Joint the boards.'),
    words(
      'text',
      420,
      'How it is done. {apron_long} stands for a named cell as it is shown, with its unit; {round} and {rounds} count a step that is repeated.',
    ),
    words(
      'builds',
      150,
      'The parts that are made or put on in it, as the parts table names them, with commas between.',
    ),
    words(
      'figure',
      130,
      'What it shows: assembly, glue-up, groove, pocket holes, joint, fasteners, seasons, cutting, parts, stack, milling, flattening, squaring, outline, edge, sanding, sizes, tenons, taper, slots, buttons, dry fit, panel gap, coats, boards, marking, screws, opening, gaps, hinges, banding, layers, rod, bars or none. Blank: the parts it builds in their place. A part may follow, and of a groove how it is cut: groove: Apron, routed.',
    ),
    words('measure', 150, 'Names of cells that stand under the figure as sizes.'),
    column('photo', 'text', 100, 'The name of a photograph.'),
    words('tools', 170, 'What is needed for it, with commas between.'),
    words('hardware', 170, 'Screws, glue and the like, with commas between.'),
    words('caution', 240, 'What can hurt here, and what prevents it.'),
    column('hands-on', 'duration', 80, 'How long one works on it; blank where that is not known.'),
    column('waiting', 'duration', 80, 'How long it is then left alone, as glue is.'),
    column('when', 'logical', 80, 'A step that is not always needed: no leaves it out.'),
    column('repeats', 'count', 70, 'How many times it is done; blank for once.'),
  ],
  words: [
    words('words', 420, 'As the plan has it in its own language, names of cells included.'),
    words(
      'translated',
      420,
      'The same in the second language. Blank: it stays in the first one and is listed.',
    ),
  ],
  studies: [
    words('study', 170, 'What it is called, such as Price by length and wood.'),
    column('kind', 'text', 80, 'table, seek, spread or best.'),
    words(
      'over',
      260,
      'The inputs and what they become: "top_length 60..108/6; species white oak, black walnut". In a spread: low, likely and high. In a seek: the input that is looked for.',
    ),
    words('show', 200, 'Names of the results, with commas between.'),
    words(
      'goal',
      150,
      'What a seek makes true, such as "price 2400", or what the best has least of, such as "price".',
    ),
    column('keep', 'logical', 70, 'Yes: only where every check holds.'),
    column('draws', 'count', 80, 'Of a spread: how many tries; blank for 10,000.'),
    column('seed', 'count', 70, 'Of a spread: the same seed gives the same tries.'),
  ],
  variants: [
    words(
      'variant',
      200,
      'What it is called, such as Oak, 8 ft. Every further head is the name of an input; what stands under it is what the variant has there. Blank: as in the workbook.',
    ),
  ],
  operations: [
    words('operation', 190, 'What is done, such as Glue up the top.'),
    column('hands-on', 'duration', 80, 'How long one works on it.'),
    column('waiting', 'duration', 80, 'How long it is then left alone, as glue and finish are.'),
    words(
      'after',
      190,
      'What has to be done before it, as this table names it, with commas between. Blank: the one above. "start": nothing.',
    ),
    column('who', 'text', 100, 'Who does it; blank for the maker.'),
    column(
      'machine',
      'text',
      110,
      'What it needs that is there once, such as the clamps. It is held through the waiting too.',
    ),
    column(
      'least',
      'duration',
      80,
      'The shortest it takes hands-on; blank where that is not known.',
    ),
    column('most', 'duration', 80, 'The longest it takes hands-on; blank where that is not known.'),
    column(
      'not before',
      'date',
      100,
      'A day before which it does not begin, as when wood is awaited.',
    ),
  ],
  hours: [
    column('day', 'date', 100, 'When.'),
    words('operation', 190, 'What was done, as the operations table names it.'),
    column('hours', 'duration', 80, 'How long it took hands-on.'),
    column('spent', 'money', 90, 'What was paid for it, as receipts say.'),
    column(
      'done',
      'logical',
      70,
      'Yes where with that it was done. Averages count only what was done.',
    ),
    words('note', 260, 'Anything worth knowing next time.'),
  ],
  prices: (OWN_TABLES.find(({ kind }) => kind === 'prices')?.columns ?? []).map(
    ({ heads, quantity, means }) => column(heads, quantity, PRICE_WIDTHS[heads] ?? 100, means),
  ),
};

/** What the table of a new workbook begins with; `rare` ones a maker heads as they are needed. */
const columnsOf = (kind: ShopTable): readonly ShopColumn[] =>
  SHOP_COLUMNS[kind].filter((one) => one.rare !== true);

const ROWS = 30;

/** Columns that are headed by whoever fills the table in. */
const OWN_HEADS: Readonly<Partial<Record<ShopTable, number>>> = { variants: 8 };
const OWN_WIDTH = 110;

/** A saw cut wider than this is a slip of the pen: common practice, no source. */
const WIDEST_KERF = { us: 0.5, metric: 12 } as const;
const USUAL_KERF = { us: '1/8 in', metric: '3 mm' } as const;

/** More than this off each end of a board is a slip of the pen: common practice, no source. */
const MOST_TRIMMED = { us: 12, metric: 300 } as const;
const USUAL_TRIM = { us: '1 to 2 in', metric: '25 to 50 mm' } as const;

const SAYS: Readonly<Record<ShopTable, readonly [title: string, says: string]>> = {
  parts: [
    'Parts',
    'Finished sizes, tenons included: boards are cut to just these. A row for each kind of part.',
  ],
  stock: [
    'Stock',
    'A row each size. Boards you have: price 0 and how many are at hand; they cost nothing.',
  ],
  joints: [
    'Joints',
    'A row for each joint of two parts, or cut in one part. Blank sizes are the usual ones.',
  ],
  steps: ['Steps', 'A row for each step, in the order of the work. Others build from these.'],
  words: ['Second language', 'What readers see, and how it is said in the second language.'],
  studies: ['Studies', 'A row for each question about many sizes, woods or prices at once.'],
  variants: [
    'Variants',
    'A row for each variant, and a column for each input that one of them changes. Blank: as it stands.',
  ],
  operations: ['Operations', 'A row for each piece of work. The days are planned from these.'],
  hours: ['Hours worked', 'What each operation really took. A row each time.'],
  prices: [
    'Price list',
    'What your yard asks, and when you asked: WOOD_PRICE and PIECE_PRICE read it.',
  ],
};

/**
 * The edit that adds a sheet with an empty table; undefined where the workbook has one. With a stock
 * table come blank inputs named `kerf` and `end_trim` where no cell has that name: plans ask for both.
 */
export function shopTableEdit(book: OpenWorkbook, kind: ShopTable): Edit | undefined {
  return tablesEdit(book, [kind]);
}

/**
 * The edit that gives a workbook what furniture is made from: a parts table and a stock table, each
 * on a sheet of its own, with the kerf asked for, in one step of undo. Tables that are there already
 * stay as they are; undefined where both are.
 */
export function shopTablesEdit(book: OpenWorkbook): Edit | undefined {
  return tablesEdit(book, ['parts', 'stock']);
}

function tablesEdit(book: OpenWorkbook, kinds: readonly ShopTable[]): Edit | undefined {
  const missing = kinds.filter((kind) => !book.tables().some((table) => table.kind === kind));
  if (missing.length === 0) return undefined;
  const { tables } = book.document();
  const ids = new Set(tables.map(({ id }) => id));
  const sheets = missing.map((kind) => shopSheet(book, kind));
  const begun = missing.flatMap((kind, i) => {
    const sheet = sheets[i];
    if (sheet === undefined) return [];
    const header = sheet.frozenRows ?? 0;
    const id = idOf('t', kind, ids);
    return [{ id, kind, sheet: sheet.id, header: `r${header}`, last: `r${header + ROWS}` }];
  });
  const first = book.sheets().length;
  return {
    do: 'batch',
    edits: [
      ...sheets.map((sheet, i) => ({ do: 'addSheet', at: first + i, sheet }) as const),
      { do: 'setTables', tables: [...tables, ...begun] },
    ],
  };
}

function shopSheet(book: OpenWorkbook, kind: ShopTable): SheetDocument {
  const sheets = book.sheets();
  const [title, says] = SAYS[kind];
  const columns = columnsOf(kind);
  const own = Array.from({ length: OWN_HEADS[kind] ?? 0 }, () => ({ role: 'heading' }) as const);
  const line = (number: number, cells: readonly CellDocument[]): RowDocument => ({
    id: `r${number}`,
    cells: Object.fromEntries(
      cells.flatMap((cell, i) => (Object.keys(cell).length === 0 ? [] : [[`c${i + 1}`, cell]])),
    ),
  });
  const asked = kind === 'stock' ? ASKED.filter(({ name }) => book.named(name) === undefined) : [];
  const header = 3 + asked.length;
  return {
    id: idOf('s', kind, new Set(sheets.map((sheet) => sheet.id))),
    name: freeName(title, new Set(sheets.map(({ name }) => nameKey(name)))),
    frozenColumns: 1,
    frozenRows: header,
    columns: [...columns.map(({ width }) => width), ...own.map(() => OWN_WIDTH)].map(
      (width, i) => ({
        id: `c${i + 1}`,
        width,
      }),
    ),
    rows: [
      line(1, [{ value: title, role: 'heading' }]),
      // Beside the name column, which stays in view and would cut it short.
      line(2, [{}, { value: says, role: 'note' }]),
      ...asked.map((one, i) => line(3 + i, askedCells(one, book.units))),
      line(header, [
        ...columns.map(
          ({ heads, means }) => ({ value: heads, role: 'heading', remark: means }) as const,
        ),
        ...own,
      ]),
      ...Array.from({ length: ROWS }, (_, i) =>
        line(header + 1 + i, [
          ...columns.map(
            ({ quantity, wraps }) =>
              ({
                quantity,
                role: 'input',
                ...(wraps === true ? { style: { wrap: true } } : {}),
              }) as const,
          ),
          ...own.map(() => ({ role: 'input' }) as const),
        ]),
      ),
    ],
  };
}

/** What a plan has to be told of the shop, each in a cell of its own over the table. */
interface Asked {
  readonly name: string;
  readonly label: string;
  readonly max: Readonly<Record<OpenWorkbook['units'], number>>;
  readonly remark: string;
  readonly note: (units: OpenWorkbook['units']) => string;
}

const ASKED: readonly Asked[] = [
  {
    name: 'kerf',
    label: 'Saw kerf',
    max: WIDEST_KERF,
    remark: 'Width of one saw cut. Plans allow for it between neighboring pieces.',
    note: (units) =>
      `How wide does your saw cut? About ${USUAL_KERF[units]} is common practice; measure yours.`,
  },
  {
    name: 'end_trim',
    label: 'Trimmed off each end',
    max: MOST_TRIMMED,
    remark:
      'Cut off both ends of a board that is bought, where it is checked. Blank: boards are planned from end to end.',
    note: (units) =>
      `Of a bought board, before measuring. ${USUAL_TRIM[units]} is common practice; blank for nothing.`,
  },
];

/** Asks for one of them. Nothing is filled in: what is common is not what this shop does. */
const askedCells = (
  { name, label, max, remark, note }: Asked,
  units: OpenWorkbook['units'],
): readonly CellDocument[] => [
  { value: label },
  { name, quantity: 'length', role: 'input', allow: { min: 0, max: max[units] }, remark },
  { value: units === 'us' ? 'in' : 'mm' },
  { value: note(units), role: 'note' },
];
