import { bookFormat, glueGroups, glueRounds, type Part, type ShopPlan } from '@kerfbook/drawing';
import type { OpenWorkbook } from '@kerfbook/workbook';
import type { Block } from '../paper/blocks.tsx';
import { factsOf } from './facts.ts';
import { leftOutAgain } from './left-out.tsx';
import {
  cautionBlock,
  factsUnder,
  headingBlock,
  sentenceBlock,
  tableBlocks,
  titleBlock,
} from './pieces.tsx';
import { facts, lengthUnit, numberOf, shownOf } from './words.ts';

/** Which of two counts of clamps counts; common practice, no source. */
const CLAMPS =
  'Where the edges close in the dry fit, space the clamps as listed. Where they gap, joint them again or clamp at full pressure.';

const clampsSay = (book: OpenWorkbook): string | undefined =>
  ['clamp_count', 'clamp_count_spaced'].every((name) => shownOf(book, name) !== undefined)
    ? CLAMPS
    : undefined;

/** How many layers become what, and how many glue lines that takes; nothing where a part is of one layer. */
function layersBlock(part: Part, write: (mm: number) => string): Block[] {
  const { layers, count, thickness, width, length } = part;
  if (layers === undefined) return [];
  const blanks = count === 1 ? 'one blank' : `${count} blanks`;
  const lines = layers === 2 ? 'one glue line' : `${layers - 1} glue lines`;
  return [
    sentenceBlock(
      `glue ${part.name} layers`,
      `${count * layers} layers ${write(thickness / layers)} thick become ${blanks} ${write(thickness)} thick, ${write(width)} by ${write(length)}, face to face: ${lines}${count === 1 ? '' : ' each'}.`,
    ),
  ];
}

/** Who glues what, in which order, with how many clamps; undefined where nothing is glued up. */
export function glueSheet(
  book: OpenWorkbook,
  { parts, unread }: Pick<ShopPlan, 'parts' | 'unread'>,
): Block[] | undefined {
  const glued = parts.filter(
    ({ panelBoards, layers, unread: isUnread }) =>
      (panelBoards !== undefined || layers !== undefined) && isUnread !== true,
  );
  if (glued.length === 0) return undefined;
  const write = bookFormat(book);
  const atOnce = numberOf(book, 'at_once');
  return [
    titleBlock('glue', 'Glue-up', `Wide parts from boards. Sizes in ${lengthUnit(book)}.`),
    ...leftOutAgain('glue', 'Left out: on no shop sheet', book, unread),
    cautionBlock('glue careful', [
      'Dry-fit with all clamps first: glue does not wait. Two people for what is heavy.',
      'Let the glue set as long as its bottle says before you work the panel.',
    ]),
    ...glued.flatMap((part) => {
      if (part.panelBoards === undefined) {
        return [headingBlock(`glue ${part.name}`, part.name), ...layersBlock(part, write)];
      }
      const { count, width, length } = part.panelBoards;
      const { layers = 1 } = part;
      const panels = part.count * layers;
      const rounds = atOnce === undefined ? [] : glueRounds(count, atOnce);
      const groups = atOnce === undefined ? [] : glueGroups(count, atOnce);
      return [
        headingBlock(`glue ${part.name}`, part.name),
        sentenceBlock(
          `glue ${part.name} of`,
          `${panels * count} boards ${write(width)} wide and ${write(length)} long become ${
            panels === 1 ? 'one panel' : `${panels} panels`
          } ${write(part.width)} by ${write(part.length)}, ${write(part.thickness / layers)} thick.${
            rounds.length > 0 ? ' Lay them out and number them from one edge.' : ''
          }`,
          rounds.length > 0,
        ),
        ...tableBlocks(
          `glue ${part.name} rounds`,
          `Rounds of gluing for ${part.name}`,
          [
            { heads: 'Round', share: 11 },
            { heads: 'Glue together', share: 30 },
            { heads: 'Pieces go in', share: 12, end: true },
            { heads: 'Come out', share: 10, end: true },
            { heads: 'Joints', share: 10, end: true },
            { heads: 'Then let it set', share: 22 },
          ],
          rounds.map(({ before, after, joints }, i) => [
            i + 1,
            groups[i] ?? '',
            before,
            after,
            joints,
            shownOf(book, 'glue_wait') ?? 'as long as the bottle says',
          ]),
          true,
        ),
        ...(atOnce === undefined
          ? [
              sentenceBlock(
                `glue ${part.name} rounds`,
                'Name a cell at_once (pieces joined in one clamp-up) to see the rounds of gluing.',
              ),
            ]
          : []),
        ...layersBlock(part, write),
      ];
    }),
    ...factsUnder(
      'glue facts',
      'Clamps and glue',
      facts(book, factsOf('glue-up')),
      clampsSay(book),
    ),
  ];
}
