import {
  type ArgumentDescription,
  type FunctionDescription,
  OWN_TABLES,
  PRICE_ARGUMENTS,
  piecePrice,
  type TableArgument,
  woodPrice,
} from '@kerfbook/wood';

const { wood, thickness, anyThickness, grade } = PRICE_ARGUMENTS;

const LIST: ArgumentDescription = {
  name: 'price_list',
  means: 'another price list with its heads',
  takes: 'table',
  quantity: 'text',
  columns: (OWN_TABLES.find(({ kind }) => kind === 'prices')?.columns ?? []).map((column) => ({
    heads: column.heads,
    quantity: column.quantity,
    ...(column.heads === 'wood' || column.heads === 'price' ? { needed: true } : {}),
  })),
  optional: true,
  leftOut: "the workbook's own, on a sheet of its own",
};

const SOURCE = 'common practice, no source';
const RULE =
  'The row of that thickness counts, else the next thicker one, else one without a thickness. Of several alike the one asked for last.';
const EXAMPLE_LIST =
  '{"wood","thickness","price","per";"white oak",1,8,"board foot";"white oak",2,9.5,"board foot";"birch plywood",0.75,62,"piece"}';

/** What the price list of a workbook says. */
export const WOOD_PRICE_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'WOOD_PRICE',
    task: 'Price',
    answers: 'What a board foot of a wood costs by the price list of this workbook.',
    args: [wood, thickness, grade, LIST],
    result: { quantity: 'money_per_boardfoot', means: 'price per board foot' },
    source: SOURCE,
    example: `=WOOD_PRICE("white oak",QUARTERS_ROUGH("6/4"),"",${EXAMPLE_LIST})`,
    notes: `${RULE} A price per cubic meter is turned into one per board foot.`,
    run: (name: string, thick: number, graded?: string, list?: TableArgument) =>
      woodPrice(name, thick, graded, list?.rows),
  },
  {
    name: 'PIECE_PRICE',
    task: 'Price',
    answers: 'What one of something that is sold by the piece costs by the price list.',
    args: [wood, anyThickness, grade, LIST],
    result: { quantity: 'money', means: 'price of one' },
    source: SOURCE,
    example: `=PIECE_PRICE("birch plywood",3/4,"",${EXAMPLE_LIST})`,
    notes: RULE,
    run: (name: string, thick?: number, graded?: string, list?: TableArgument) =>
      piecePrice(name, thick, graded, list?.rows),
  },
];
