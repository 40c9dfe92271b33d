import {
  bookFormat,
  hardwareSays,
  type JointsOfBook,
  listed,
  type Marked,
  type MarkedCut,
  type MarkedPieces,
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
 * What is cut into each piece for its joints, with the numbers to mark it out, below sections through the joints;
 * nothing without a joint.
 * @param field of the page, mm
 */
export function jointSheet(
  book: OpenWorkbook,
  field: { readonly width: number; readonly height: number },
): Block[] | undefined {
  const { joints, parts } = readParts(book);
  if (joints === undefined || joints.marked.length + joints.problems.length === 0) return undefined;
  return [
    titleBlock(
      'joints',
      'Joints',
      `Marked out from one end and one face of each piece. Sizes in ${lengthUnit(book)}. Left, right, front and back as you face the front of the piece of furniture.`,
    ),
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
    ...hardwareBlocks(book, joints),
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
  const mark = (marked: Marked, diameter: number | undefined): string =>
    diameter === undefined
      ? markSaid(book, marked)
      : `${write((marked.from + marked.to) / 2)} from the ${marked.reference}`;
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
    cuts.map(({ what, on, marks: [first, second], depth, diameter, lean }) => [
      `${capital(what)}${diameter === undefined ? '' : `, ${write(diameter)} across`}`,
      on,
      first === undefined ? '' : mark(first, diameter),
      second === undefined ? '' : mark(second, diameter),
      lean === undefined ? write(depth) : `at ${90 - lean}°`,
    ]),
    true,
  );
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
