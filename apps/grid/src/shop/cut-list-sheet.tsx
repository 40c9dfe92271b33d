import type { CutItem, ShopPlan } from '@kerfbook/drawing';
import { bookFormat, gluedSizes, listed, shapingSteps, shouldersSaid } from '@kerfbook/drawing';
import type { OpenWorkbook } from '@kerfbook/workbook';
import type { Block } from '../paper/blocks.tsx';
import { leftOutBlocks } from './left-out.tsx';
import { cautionBlock, headingBlock, sentenceBlock, tableBlocks, titleBlock } from './pieces.tsx';
import { lengthUnit, unbroken } from './words.ts';

const GRAIN = { length: 'along the length', width: 'along the width' } as const;

/** Usual cautions at the saw: common practice, no source. */
const AT_THE_SAW = [
  'Blade guard and riving knife on. Push sticks for anything narrow; no narrow rips against the fence without them.',
  'Collect dust at the machine and wear a respirator. Follow the manuals of your tools.',
];

/** Every piece to cut, with a box to check off. */
export function cutListSheet(book: OpenWorkbook, shop: ShopPlan): Block[] {
  const { list, unread, unplanned, none } = shop;
  const write = bookFormat(book);
  const row = (item: CutItem) => [
    item.name,
    item.count,
    write(item.thickness),
    write(item.width),
    write(item.length),
    item.material,
    noteOf(item, write),
  ];
  const inSheets = new Set(
    shop.plan?.groups.flatMap(({ panels, material }) =>
      panels.length > 0 ? [material.toLowerCase()] : [],
    ),
  );
  return [
    titleBlock('cut list', 'Cut list', `${list.pieces} pieces. Sizes in ${lengthUnit(book)}.`),
    ...leftOutBlocks('cut list unread', 'Left out: not on this list', book, unread),
    ...leftOutBlocks(
      'cut list unplanned',
      'On this list, but the cutting plan has no board for it',
      book,
      shop.plan === undefined ? [] : unplanned,
    ),
    cautionBlock('cut list careful', AT_THE_SAW),
    ...tableBlocks(
      'cut list table',
      'Cut list',
      [
        { heads: 'Part', share: 15 },
        { heads: 'Count', share: 7, end: true },
        { heads: 'Thick', share: 8, end: true },
        { heads: 'Wide', share: 8, end: true },
        { heads: 'Long', share: 9, end: true },
        { heads: 'Material', share: 13 },
        { heads: 'Note', share: 33 },
      ],
      list.items.map(row),
      true,
    ),
    ...(none.length === 0
      ? []
      : [sentenceBlock('cut list none', `None wanted (count 0): ${none.join(', ')}.`)]),
    headingBlock('cut list sums', 'By material'),
    ...tableBlocks(
      'cut list materials',
      'By material',
      [
        { heads: 'Material', share: 34 },
        { heads: 'Pieces', share: 12, end: true },
        { heads: 'Board feet', share: 18, end: true },
        { heads: `Faces, ${book.units === 'us' ? 'ft²' : 'm²'}`, share: 18, end: true },
        { heads: `Weight, ${book.units === 'us' ? 'lb' : 'kg'}`, share: 18, end: true },
      ],
      list.materials.map(({ material, pieces, boardFeet, area, mass }) => [
        material === '' ? 'not named' : material,
        pieces,
        // Sheets are sold by the sheet: their board feet would be nobody's measure.
        inSheets.has(material.toLowerCase()) ? '' : boardFeet.toFixed(1),
        (book.units === 'us' ? area / 304.8 ** 2 : area / 1e6).toFixed(1),
        // lb: exact by definition (NIST SP 811, appendix B).
        mass === undefined ? '' : (book.units === 'us' ? mass / 0.45359237 : mass).toFixed(1),
      ]),
    ),
  ];
}

function noteOf(
  { becomes, grain, shaped, shoulders, length, which }: CutItem,
  write: (mm: number) => string,
): string {
  const steps = shaped === undefined ? [] : shapingSteps(shaped, write);
  const own = [
    // Few enough to be read at a glance; labels and the joints tell each of many.
    ...(which === undefined || which.length > 4 ? [] : [`one each ${listed(which)}, not alike`]),
    ...(shoulders === undefined ? [] : [shouldersSaid(shoulders, length, write)]),
  ];
  const notes =
    becomes !== undefined
      ? [`glued up, then ${gluedSizes(becomes).map(write).join(' by ')}`]
      : grain === undefined
        ? []
        : [`grain ${GRAIN[grain]}`];
  return unbroken([...notes, ...own, ...steps].join('; '));
}
