import {
  type AlikePieces,
  bookFormat,
  buildScene,
  hardwareSays,
  type JointsOfBook,
  listed,
  type Marked,
  type MarkedCut,
  type MarkedPieces,
  type MetSide,
  metSides,
  type Part,
  readParts,
  shapingSteps,
  shoulderLength,
  shouldersSaid,
} from '@kerfbook/drawing';
import type { OpenWorkbook } from '@kerfbook/workbook';
import type { Block } from '../paper/blocks.tsx';
import { detailSheets } from './detail-sheets.tsx';
import { leftOutBlocks } from './left-out.tsx';
import { headingBlock, sentenceBlock, tableBlocks, titleBlock, wholeTable } from './pieces.tsx';
import { capital, lengthUnit, shownNumber, unbroken } from './words.ts';

/**
 * What is cut into each piece for its joints, with the numbers to mark it out, below sections through the joints, and
 * where the others meet; nothing where no piece meets another so.
 * @param field of the page, mm
 */
export function jointSheet(
  book: OpenWorkbook,
  field: { readonly width: number; readonly height: number },
): Block[] | undefined {
  const { joints, parts } = readParts(book);
  const met = metSides(buildScene(parts).pieces, joints?.work);
  const told = (joints?.marked.length ?? 0) + (joints?.problems.length ?? 0);
  if (told + met.length === 0) return undefined;
  return [
    titleBlock(
      'joints',
      'Joints',
      `Marked out from one end and one face of each piece. Sizes in ${lengthUnit(book)}. Left, right, front and back as you face the front of the piece of furniture.`,
    ),
    ...(joints === undefined ? [] : markedBlocks(book, field, joints, parts)),
    ...metBlocks(book, met),
    ...(joints === undefined ? [] : hardwareBlocks(book, joints)),
  ];
}

/** What the rows of the joints table come to, piece by piece. */
function markedBlocks(
  book: OpenWorkbook,
  field: { readonly width: number; readonly height: number },
  joints: JointsOfBook,
  parts: readonly Part[],
): Block[] {
  return [
    ...leftOutBlocks('joints left', 'Look at these first', book, wrongIn(joints)),
    ...detailSheets(book, field),
    ...joints.marked.flatMap((pieces, i) => [
      headingBlock(`joints ${i} heading`, piecesSaid(pieces)),
      ...(isFirstOf(joints.marked, i)
        ? aboutPart(
            book,
            `joints ${i} about`,
            parts.find(({ name }) => name === pieces.part),
          )
        : []),
      ...cutTable(book, `joints ${i}`, piecesSaid(pieces), pieces.cuts),
    ]),
  ];
}

/** Nearer than this to the end that is measured from, what is marked begins at that end, mm. */
export const AT_END = 1e-3;

const MET = 'Where parts meet the side of others';

/** Where ends of pieces stand against the sides of others, a line for each. */
function metBlocks(book: OpenWorkbook, met: readonly AlikePieces<readonly MetSide[]>[]): Block[] {
  if (met.length === 0) return [];
  return [
    headingBlock('joints met heading', MET),
    ...tableBlocks(
      'joints met',
      MET,
      [
        { heads: 'Marked on', share: 27 },
        { heads: 'Where', share: 12 },
        { heads: 'Meets there', share: 15 },
        { heads: 'Along', share: 23 },
        { heads: 'Across', share: 23 },
      ],
      met.flatMap((pieces) =>
        pieces.told.map(({ part, on, along, across }) => [
          piecesSaid(pieces),
          on,
          part,
          markSaid(book, along),
          across === undefined ? 'the whole width' : markSaid(book, across),
        ]),
      ),
      true,
    ),
  ];
}

const wrongIn = ({ problems }: JointsOfBook) =>
  problems.map(({ at, says }) => ({ at, says, what: `Row ${at.row + 1}` }));

/** `Leg, front left and back right`: pieces of a part that are cut alike; by number where no words tell them apart. */
export function piecesSaid({ part, count, copies, places }: Omit<MarkedPieces, 'cuts'>): string {
  if (count === 1) return part;
  if (copies.length === count) return `${part}, ${count === 2 ? 'both' : `all ${count}`}`;
  if (places !== undefined) return `${part}, ${listed(places)}`;
  return `${part} ${listed(copies.map((copy) => `${copy + 1}`))} of ${count}`;
}

/** Which of these groups is the first of its part: what is true of all its pieces is told there. */
const isFirstOf = (all: readonly MarkedPieces[], at: number): boolean =>
  all.findIndex(({ part }) => part === all[at]?.part) === at;

/** How long a part is between its shoulders, and in which order it is cut and shaped. */
function aboutPart(book: OpenWorkbook, key: string, part: Part | undefined): Block[] {
  if (part === undefined) return [];
  const write = bookFormat(book);
  const shoulders = shoulderLength(part);
  const steps = shapingSteps(part, write);
  const says = [
    ...(shoulders === undefined ? [] : [capital(shouldersSaid(shoulders, part.length, write))]),
    ...(steps.length < 2 ? [] : [`In this order: ${steps.join('; ')}`]),
  ];
  return says.length === 0 ? [] : [sentenceBlock(key, unbroken(`${says.join('. ')}.`), true)];
}

function cutTable(
  book: OpenWorkbook,
  key: string,
  says: string,
  cuts: readonly MarkedCut[],
): Block[] {
  const write = bookFormat(book);
  const mark = (marked: Marked, { diameter, lean }: MarkedCut): string => {
    if (diameter === undefined) return markSaid(book, marked);
    const at = lean === undefined ? (marked.from + marked.to) / 2 : entranceOf(marked, diameter);
    return `${write(at)} from the ${marked.reference}`;
  };
  return wholeTable(
    key,
    says,
    [
      { heads: 'Cut', share: 27 },
      { heads: 'On', share: 13 },
      { heads: 'First mark', share: 24 },
      { heads: 'Second mark', share: 24 },
      { heads: 'Deep', share: 12, end: true },
    ],
    cuts.map((cut) => {
      const { what, on, depth, diameter, lean } = cut;
      const [first, second] = cut.marks;
      return [
        `${capital(what)}${diameter === undefined ? '' : `, ${write(diameter)} across`}${
          lean === undefined ? '' : `, ${90 - lean}° to the face`
        }`,
        on,
        first === undefined ? '' : mark(first, cut),
        second === undefined ? '' : mark(second, cut),
        // A jig sets how deep a pocket is, by the thickness of the piece.
        lean === undefined ? write(depth) : '',
      ];
    }),
    true,
  );
}

/** Where the middle of a slanted hole goes in: one that comes out at the end of the piece reaches from there to it. */
function entranceOf({ from, to }: Marked, diameter: number): number {
  if (to - from <= diameter + AT_END) return (from + to) / 2;
  return from < AT_END ? to : from;
}

/**
 * From where to where something is marked. Where both marks, each rounded by itself, lie further apart or nearer than
 * the size that is shown of it elsewhere, the second one is told from the first: the size is what has to fit.
 */
export function markSaid(book: OpenWorkbook, { reference, from, to }: Marked): string {
  const write = bookFormat(book);
  const [first, last, size] = [from, to, to - from].map(write) as [string, string, string];
  const apart = shownNumber(book, last) - shownNumber(book, first) - shownNumber(book, size);
  return Math.abs(apart) < 1e-6
    ? `${first} to ${last} from the ${reference}`
    : `${first} from the ${reference}, then ${size}`;
}

/** What the joints take that is bought, or made beside. */
function hardwareBlocks(book: OpenWorkbook, { work }: JointsOfBook): Block[] {
  const rows = hardwareRows(book, work.hardware);
  if (rows.length === 0) return [];
  return [
    headingBlock('joints hardware', 'Fasteners and loose tenons'),
    ...tableBlocks(
      'joints hardware table',
      'Fasteners and loose tenons',
      [
        { heads: 'What', share: 70 },
        { heads: 'How many', share: 23, end: true },
      ],
      rows,
      true,
    ),
  ];
}

/** Fasteners that joints name, each size once, as lines of a list. */
export const hardwareRows = (
  book: OpenWorkbook,
  hardware: JointsOfBook['work']['hardware'],
): readonly (readonly [says: string, count: string])[] =>
  hardware.map((one) => [hardwareSays(one, bookFormat(book)), `${one.count}`]);
