import { bookFormat, mmFromOwn, type RackPlan, rackPlan, type ShopPlan } from '@kerfbook/drawing';
import type { OpenWorkbook } from '@kerfbook/workbook';
import type { Block } from '../paper/blocks.tsx';
import { cautionBlock, headingBlock, sentenceBlock, tableBlocks, titleBlock } from './pieces.tsx';
import { lengthUnit, numberOf } from './words.ts';

/** The boards of wide parts from boards at hand, whatever their widths; undefined where the rack gives no whole panel. */
export function rackSheet(
  book: OpenWorkbook,
  { list, kerf, stock }: Pick<ShopPlan, 'list' | 'kerf' | 'stock'>,
): Block[] | undefined {
  const own = (name: string): number | undefined => {
    const length = numberOf(book, name);
    return length === undefined ? undefined : mmFromOwn(length, book.units);
  };
  const widest = own('widest_board');
  const plans = list.items.flatMap(
    (item) =>
      rackPlan(item, stock, {
        kerf: kerf.mm,
        jointLoss: own('joint_loss') ?? 0,
        ...(widest === undefined ? {} : { widest }),
      }) ?? [],
  );
  if (plans.length === 0) return undefined;
  return [
    titleBlock(
      'rack',
      'Boards from the rack',
      `Boards on the rack, each at its own width. Crosscut to length first, then rip. In ${lengthUnit(book)}.`,
    ),
    ...(kerf.says === undefined ? [] : [cautionBlock('rack without kerf', [kerf.says])]),
    ...plans.flatMap((plan, i) => planBlocks(plan, i, bookFormat(book))),
  ];
}

function planBlocks(plan: RackPlan, at: number, write: (mm: number) => string): Block[] {
  const { item, boards, count, width, proven } = plan;
  const rows = boards.flatMap(({ stock, panelBoards: cut }) =>
    cut.map(({ width: wide, along, across }, i) => [
      i === 0 ? stock.name : '',
      i === 0 ? `${write(stock.width)} × ${write(stock.length)}` : '',
      write(wide),
      write(along),
      write(across),
    ]),
  );
  return [
    headingBlock(`rack ${at}`, item.becomes?.part ?? item.name),
    sentenceBlock(
      `rack ${at} says`,
      `${count} boards ${write(item.length)} long join to ${write(width)}. ${
        proven
          ? 'No choice of these boards uses less wood.'
          : 'Another choice of these boards might use less wood.'
      }`,
    ),
    ...tableBlocks(
      `rack ${at} table`,
      'Boards from the rack',
      [
        { heads: 'Cut from', share: 33 },
        { heads: 'It is', share: 20 },
        { heads: 'Board wide', share: 14, end: true },
        { heads: 'From its end', share: 13, end: true },
        { heads: 'From its edge', share: 13, end: true },
      ],
      rows,
      true,
    ),
  ];
}
