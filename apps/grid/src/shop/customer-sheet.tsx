import { bookFormat, cutList, drawViews, readParts } from '@kerfbook/drawing';
import type { OpenWorkbook } from '@kerfbook/workbook';
import { isCase, isThin, type OverAll, sizeWords } from '../page/size-words.ts';
import type { Block } from '../paper/blocks.tsx';
import { dayText } from '../paper/page-head.ts';
import { Picture } from '../pictures/picture.tsx';
import { coverPicture } from './cover-picture.ts';
import type { CustomerChoice, CustomerPart } from './customer-choice.ts';
import { factsBlock, headingBlock } from './pieces.tsx';
import { capital, moneyText, numberOf, shownOf } from './words.ts';

/**
 * Care of finished furniture; common practice, no source. That furniture one can climb is fastened to a wall is what the
 * U.S. Consumer Product Safety Commission asks of households.
 */
function careOf(book: OpenWorkbook): readonly string[] {
  const overAll = overAllOf(book);
  const isDoor = overAll !== undefined && isThin(overAll);
  const hasSolid = cutList(readParts(book).parts).materials.some(({ mass }) => mass !== undefined);
  return [
    'Wipe it with a soft cloth, barely damp, and dry it afterward. No scouring powder, no wet wipes, no steam.',
    `Take up spills at once.${isDoor ? '' : ' Put something under hot dishes and under glasses.'}`,
    'Keep it out of strong sun and away from radiators. Where heating dries the air in winter, a humidifier helps.',
    ...(hasSolid
      ? [
          'Wood is a little wider in damp months and narrower in dry ones. Fine gaps that come and go with the seasons are normal in solid wood.',
        ]
      : []),
    ...(isCase(book)
      ? ['Keep it fastened to the wall: children climb. Heavy things belong at the bottom.']
      : []),
    ...(isDoor ? [] : ['Lift it to move it: dragging strains the joints.']),
  ];
}

/** Lines of the page that come from cells of these names, by what has to be ticked for them. */
const LINES = [
  { part: 'wood', name: 'species', says: 'Wood' },
  { part: 'finish', name: 'finish', says: 'Finish' },
  { part: 'sizes', name: 'seats', says: 'Seats' },
] as const satisfies readonly { part: CustomerPart; name: string; says: string }[];

const MONEY = [
  { part: 'perSeat', name: 'price_per_seat', says: 'Price per seat' },
  { part: 'deposit', name: 'deposit', says: 'Deposit' },
] as const satisfies readonly { part: CustomerPart; name: string; says: string }[];

/** Names that a workbook lacks for what is ticked, each with what it would bring. */
export function missingNames(
  book: OpenWorkbook,
  choice: CustomerChoice,
): readonly { readonly name: string; readonly says: string }[] {
  const wanted = [...LINES, { part: 'price', name: 'price', says: 'Price' } as const, ...MONEY];
  return wanted.filter(({ part, name }) => choice[part] && saidOf(book, name) === undefined);
}

/** What a line says: its cell, and of the wood what the parts are made of where no cell names it. */
function saidOf(book: OpenWorkbook, name: string): string | undefined {
  const shown = shownOf(book, name);
  if (shown !== undefined || name !== 'species') return shown;
  const woods = cutList(readParts(book).parts).materials.map(({ material }) => material);
  return woods.filter((wood) => wood !== '').join(', ') || undefined;
}

/**
 * What a customer is handed: nothing of what it costs to make, and no remarks of the shop.
 * @param field what the page has room for, mm
 */
export function customerSheet(
  book: OpenWorkbook,
  choice: CustomerChoice,
  field: Parameters<typeof coverPicture>[1],
): Block[] {
  const { head } = book;
  const cover = choice.drawing ? coverPicture(book, field) : undefined;
  return [
    {
      key: 'customer',
      section: true,
      keep: true,
      // What it is and whom it is for stand at the head of the page.
      isTitle: true,
      node: <div className="customer-begins" />,
    },
    ...(choice.letterhead ? letterheadBlock(head.letterhead) : []),
    ...(cover === undefined
      ? []
      : [
          {
            key: 'customer cover',
            node: (
              <div className="customer-cover">
                <Picture svg={cover} />
              </div>
            ),
          },
        ]),
    ...factsBlock('customer facts', factLines(book, choice)),
    ...(choice.views ? viewBlocks(book, field) : []),
    ...priceBlocks(book, choice),
    ...(choice.care ? careBlocks(book) : []),
    ...(choice.terms && head.terms !== undefined
      ? [headingBlock('customer terms', 'Terms'), ...paragraphs('customer terms', head.terms)]
      : []),
  ];
}

/** The shop, as it stands on its letters; nothing where nothing is said of it. */
function letterheadBlock(letterhead: OpenWorkbook['head']['letterhead']): Block[] {
  if (letterhead === undefined) return [];
  const { name, address = '', tax, logo } = letterhead;
  const lines = address.split(/\n+/).filter((line) => line.trim() !== '');
  return [
    {
      key: 'customer letterhead',
      node: (
        <div className="customer-letterhead">
          {logo === undefined ? null : <img src={logo} alt="" />}
          <div>
            {name === undefined ? null : <strong>{name}</strong>}
            {[...lines.entries()].map(([at, line]) => (
              <span key={at}>{line}</span>
            ))}
            {tax === undefined ? null : <span>{`Tax number ${tax}`}</span>}
          </div>
        </div>
      ),
    },
  ];
}

function factLines(
  book: OpenWorkbook,
  choice: CustomerChoice,
): readonly (readonly [says: string, shown: string])[] {
  return [
    ...(choice.sizes ? sizeLines(book) : []),
    ...LINES.flatMap(({ part, name, says }) => {
      const shown = choice[part] ? saidOf(book, name) : undefined;
      return shown === undefined ? [] : [[says, capital(shown)] as const];
    }),
  ];
}

/** What is drawn over all, mm; nothing where nothing is placed. */
function overAllOf(book: OpenWorkbook): OverAll | undefined {
  const { extents } = drawViews(book, { views: ['plan'], format: bookFormat(book) });
  if (extents === undefined) return undefined;
  const { from, to } = extents;
  return { x: to.x - from.x, y: to.y - from.y, z: to.z - from.z };
}

/** How long, wide and high the furniture is, as it is drawn. */
function sizeLines(book: OpenWorkbook): readonly (readonly [says: string, shown: string])[] {
  const overAll = overAllOf(book);
  if (overAll === undefined) return [];
  const write = bookFormat(book);
  const size = (mm: number): string =>
    book.units === 'us' ? `${write(mm)} in${inFeet(mm / 25.4)}` : `${write(mm)} mm`;
  const { along, across } = sizeWords(book, overAll);
  return [
    [capital(along.noun), size(overAll.x)],
    ...(across === along ? [] : [[capital(across.noun), size(overAll.y)] as const]),
    ['Height', size(overAll.z)],
  ];
}

/** The same in feet, as one says it of furniture: ` (8 ft)`, ` (7 ft 6 in)`; nothing of what is not whole inches. */
function inFeet(inches: number): string {
  const whole = Math.round(inches);
  if (whole < 12 || Math.abs(inches - whole) > 1e-6) return '';
  const rest = whole % 12;
  return ` (${Math.floor(whole / 12)} ft${rest === 0 ? '' : ` ${rest} in`})`;
}

/** Of the page's height a view takes so much at the most: two stand one above the other. */
const VIEW_SHARE = 0.47;

function viewBlocks(book: OpenWorkbook, field: Parameters<typeof coverPicture>[1]): Block[] {
  const { svg } = drawViews(book, {
    views: ['plan', 'front', 'end'],
    format: bookFormat(book),
    page: { width: 180, height: Math.min(90, field.height * VIEW_SHARE) },
  });
  return (['plan', 'front', 'end'] as const).flatMap((view) => {
    const drawn = svg[view];
    if (drawn === undefined) return [];
    return [{ key: `customer ${view}`, node: <View svg={drawn} /> }];
  });
}

const View = ({ svg }: { readonly svg: string }) => (
  <div className="shop-view">
    <Picture svg={svg} atScale />
  </div>
);

/** A quote is what was promised, whatever the workbook comes to now. */
function priceOf(book: OpenWorkbook): string | undefined {
  const quoted = numberOf(book, 'quoted_price') ?? 0;
  return quoted > 0 ? moneyText(book, quoted) : shownOf(book, 'price');
}

function priceBlocks(book: OpenWorkbook, choice: CustomerChoice): Block[] {
  const price = choice.price ? priceOf(book) : undefined;
  const { due } = book.head;
  const lines = [
    // Under its heading the price is that of the piece.
    ...(price === undefined ? [] : [[book.title, price] as const]),
    ...MONEY.flatMap(({ part, name, says }) => {
      const shown = choice[part] ? shownOf(book, name) : undefined;
      return shown === undefined ? [] : [[says, shown] as const];
    }),
    ...(choice.due && due !== undefined
      ? [['Delivery', dayText(new Date(`${due}T00:00:00`))] as const]
      : []),
  ];
  if (lines.length === 0) return [];
  const heading = lines.some(([says]) => says !== 'Delivery') ? 'Price' : 'Delivery';
  return [headingBlock('customer price', heading), ...factsBlock('customer price facts', lines)];
}

function careBlocks(book: OpenWorkbook): Block[] {
  const own = book.named('care')?.value;
  const says = own?.kind === 'text' && own.text.trim() !== '' ? [own.text] : careOf(book);
  return [
    headingBlock('customer care', 'Care'),
    {
      key: 'customer care list',
      node: (
        <ul className="customer-care">
          {says.map((one) => (
            <li key={one}>{one}</li>
          ))}
        </ul>
      ),
    },
  ];
}

/** Words of the maker, a block for each line, so that long terms go on over a page's end. */
const paragraphs = (key: string, text: string): Block[] =>
  text
    .split(/\n+/)
    .filter((line) => line.trim() !== '')
    .map((line, i) => ({
      key: `${key} ${i}`,
      node: <p className="shop-says">{line}</p>,
    }));
