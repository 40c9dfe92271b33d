import {
  bookFormat,
  buildScene,
  clearOfGroove,
  listed,
  type MarkedCut,
  mmFromOwn,
  pocketPlaces,
  readParts,
} from '@kerfbook/drawing';
import type { OpenWorkbook } from '@kerfbook/workbook';
import type { Block } from '../paper/blocks.tsx';
import { pocketScrews } from './hardware.ts';
import { AT_END, piecesSaid } from './joint-sheet.tsx';
import { headingBlock, sentenceBlock, tableBlocks } from './pieces.tsx';
import { numberOf } from './words.ts';

/**
 * Where each pocket screw goes. They are set out over all ends that nothing else holds; where those do not take as
 * many as the workbook counts, nobody knows which of them have screws, and nothing is said.
 */
export function pocketBlocks(book: OpenWorkbook): Block[] {
  const [each, length] = [numberOf(book, 'pocket_screws_each'), numberOf(book, 'pocket_screw')];
  const wanted = numberOf(book, 'pocket_screw_count') ?? 0;
  if (each === undefined || length === undefined || !Number.isInteger(each) || each < 1) return [];
  if (wanted <= 0 || !(length > 0)) return [];
  const { parts, joints } = readParts(book);
  const format = bookFormat(book);
  const { count, marked } = pocketPlaces(buildScene(parts).pieces, joints?.work, {
    each,
    length: mmFromOwn(length, book.units),
    format,
    units: book.units,
    fromEdge: clearOfGroove(book),
  });
  if (count !== wanted) return [];
  const says = 'Where pocket screws go';
  return [
    headingBlock('fasteners pockets', says),
    sentenceBlock(
      'fasteners pockets says',
      `${pocketScrews(book)}. Measured to the middle of each pocket, across the piece. Where pieces meet: see the Joints page.`,
      true,
    ),
    ...tableBlocks(
      'fasteners pockets table',
      says,
      [
        { heads: 'Piece', share: 21 },
        { heads: 'At', share: 12 },
        { heads: 'Into', share: 14 },
        { heads: 'Drilled in', share: 13 },
        { heads: 'Middle of each', share: 33 },
      ],
      marked.flatMap((pieces) =>
        rowsOf(pieces.cuts, format).map((row) => [piecesSaid(pieces), ...row]),
      ),
      true,
    ),
  ];
}

const OPPOSITE: Readonly<Record<string, string>> = {
  left: 'right',
  right: 'left',
  front: 'back',
  back: 'front',
  top: 'bottom',
  bottom: 'top',
};

/** The end of the piece that a pocket is at. */
function endOf({ marks: [along] }: MarkedCut): string {
  const [word = '', kind = 'end'] = (along?.reference ?? '').split(' ');
  return (along?.from ?? 0) < AT_END ? `${word} ${kind}` : `${OPPOSITE[word] ?? 'other'} ${kind}`;
}

/** A row for what is drilled alike: at one end or at both. */
function rowsOf(
  cuts: readonly MarkedCut[],
  format: (mm: number) => string,
): readonly (readonly string[])[] {
  const ends = new Map<string, { readonly cut: MarkedCut; readonly middles: number[] }>();
  for (const cut of cuts) {
    const key = JSON.stringify([endOf(cut), cut.what, cut.on]);
    const own = ends.get(key) ?? { cut, middles: [] };
    ends.set(key, own);
    const across = cut.marks[1];
    if (across !== undefined) own.middles.push((across.from + across.to) / 2);
  }
  const rows = new Map<string, { readonly at: string[]; readonly row: readonly string[] }>();
  for (const { cut, middles } of ends.values()) {
    const written = middles.sort((one, other) => one - other).map(format);
    const into = cut.what.replace(/^pocket hole for /, '');
    const row = [into, cut.on, `${listed(written)} from the ${cut.marks[1]?.reference ?? ''}`];
    const known = rows.get(JSON.stringify(row)) ?? { at: [], row };
    rows.set(JSON.stringify(row), known);
    known.at.push(endOf(cut));
  }
  return [...rows.values()].map(({ at, row }) => [
    at.length === 2 ? 'both ends' : listed(at),
    ...row,
  ]);
}
