import type { OpenWorkbook } from '@kerfbook/workbook';
import type { Block } from '../paper/blocks.tsx';
import { factsOf } from './facts.ts';
import { cautionBlock, factsUnder, sentenceBlock, tableBlocks, titleBlock } from './pieces.tsx';
import { addUp, facts, inItsWords, numberOf, panelOf, shownOf } from './words.ts';

/** More coats than this are a slip of the pen; the sheet says so instead of going on for pages. */
const MOST_COATS = 12;

/** Sanding and coats in turn, with what they need; undefined where the workbook says nothing of it. */
export function finishSheet(book: OpenWorkbook): Block[] | undefined {
  const told = book.named('coats')?.value;
  if (told?.kind === 'error')
    return nothingToList(`The cell coats is in error: ${told.error.says}`);
  const coats = numberOf(book, 'coats');
  if (coats === undefined || coats < 1) return undefined;
  if (coats > MOST_COATS) {
    return nothingToList(`The cell coats says ${coats}; this sheet lists up to ${MOST_COATS}.`);
  }
  const sanding = book.named('grit_steps')?.value;
  const grits = (sanding?.kind === 'error' ? '' : (shownOf(book, 'grit_steps') ?? ''))
    .split('→')
    .map((grit) => grit.trim());
  const last = grits.at(-1) ?? '';
  const wait = shownOf(book, 'recoat_hours') ?? '';
  const finish = shownOf(book, 'finish');
  const panel = panelOf(book);
  const of = finish === undefined ? '' : ` of ${small(finish)}`;
  const steps: (readonly [does: string, waits: string])[] = [
    ...(sanding?.kind === 'error'
      ? [[`Sand; the cell grit_steps is in error, ${sanding.error.word}`, ''] as const]
      : []),
    ...grits.filter((grit) => grit !== '').map((grit) => [`Sand with ${grit}`, ''] as const),
    ['Take the dust off', ''],
    ...Array.from({ length: Math.floor(coats) }, (_, i) => {
      const after =
        i + 1 < coats ? (last === '' ? '' : ', then a light rub') : ', then let it cure';
      const between = wait === '' ? after.replace(', then ', '') : `${wait}${after}`;
      return [`Coat ${i + 1}${of}, all faces and edges alike`, between] as const;
    }),
  ];
  return [
    titleBlock(
      'finish',
      finish === undefined ? 'Finish' : `Finish: ${small(finish)}`,
      `Both faces of ${(numberOf(book, 'area_top') ?? 0) === 0 ? 'a panel' : `the ${panel}`} get the same coats, or it cups.`,
    ),
    cautionBlock('finish careful', [
      'Rags with drying oil can catch fire by themselves: lay them flat outdoors to dry, or keep them under water in a closed metal can.',
      'Fresh air, gloves, and a respirator with the cartridge the can asks for. No flames, no sparks.',
      'Let it cure as long as its maker says before food touches it.',
    ]),
    ...tableBlocks(
      'finish steps',
      'Steps of the finish',
      [
        { heads: 'Step', share: 55 },
        { heads: 'Then wait', share: 22 },
        { heads: 'Done on', share: 18 },
      ],
      steps.map(([does, waits]) => [does, waits, '']),
      true,
    ),
    ...factsUnder(
      'finish facts',
      'How much',
      withCanSize(book, inItsWords(panel, facts(book, factsOf('finish').filter(isThere(book))))),
      reckoning(book),
    ),
  ];
}

/** The parts that the whole surface is made up of: not each piece of furniture has a top and a base. */
const SURFACES: readonly string[] = ['area_top', 'area_base', 'area_drawers'];

/** A surface of nothing is no line. */
const isThere =
  (book: OpenWorkbook) =>
  ([name]: readonly [name: string, says: string]): boolean =>
    !SURFACES.includes(name) || numberOf(book, name) !== 0;

/** As it stands within a line: `Wiping varnish` → `wiping varnish`; what is spelled in capitals stays. */
const small = (words: string): string =>
  /^[A-Z][a-z]/.test(words) ? words.slice(0, 1).toLowerCase() + words.slice(1) : words;

/** What the quantity is reckoned from, so that it can be done again on paper; nothing where a part of it is not named. */
function reckoning(book: OpenWorkbook): string | undefined {
  const names = ['area_finish', 'coats', 'first_coat_more', 'coverage', 'finish_loss'];
  const [area, coats, more, coverage, loss] = names.map((name) => shownOf(book, name));
  if ([area, coats, more, coverage, loss].includes(undefined)) return undefined;
  const parts = SURFACES.flatMap((name) => shownOf(book, name) ?? []);
  const isRounded = parts.length > 1 && !addUp(book, 'area', parts, area ?? '');
  return `Finish needed: ${area} times ${coats} coats, the first one taking ${more} more, at ${coverage}; of what is bought, ${loss} is lost.${
    isRounded ? ' Areas are rounded each by itself: their sum may differ in its last digit.' : ''
  }`;
}

/** Cans with what one of them holds: `3 of 32 fl oz`. */
function withCanSize(book: OpenWorkbook, lines: ReturnType<typeof facts>): typeof lines {
  const size = shownOf(book, 'can_size');
  const cans = factsOf('finish').find(([name]) => name === 'finish_cans')?.[1];
  if (size === undefined) return lines;
  return lines.map(([says, shown]) => [says, says === cans ? `${shown} of ${size}` : shown]);
}

const nothingToList = (why: string): Block[] => [
  titleBlock('finish', 'Finish', ''),
  sentenceBlock('finish coats', `${why} Change coats and print it again.`),
];
