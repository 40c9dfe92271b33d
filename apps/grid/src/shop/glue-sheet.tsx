import { bookFormat, type ShopPlan } from '@kerfbook/drawing';
import type { OpenWorkbook } from '@kerfbook/workbook';
import type { Block } from '../paper/blocks.tsx';
import { factsOf } from './facts.ts';
import { leftOutBlocks } from './left-out.tsx';
import {
  cautionBlock,
  factsBlock,
  headingBlock,
  sentenceBlock,
  tableBlocks,
  titleBlock,
} from './pieces.tsx';
import { facts, lengthUnit, numberOf, shownOf } from './words.ts';

/** One round of clamping: how many pieces go in, how many come out. */
interface GlueRound {
  readonly before: number;
  readonly after: number;
  readonly joints: number;
}

/** Rounds of gluing when each clamp-up joins so many pieces into one. */
export function glueRounds(boards: number, atOnce: number): readonly GlueRound[] {
  const rounds: GlueRound[] = [];
  let before = boards;
  while (before > 1 && atOnce > 1) {
    const after = Math.ceil(before / atOnce);
    rounds.push({ before, after, joints: before - after });
    before = after;
  }
  return rounds;
}

/** Who glues what, in which order, with how many clamps; undefined where nothing is glued up. */
export function glueSheet(
  book: OpenWorkbook,
  { parts, unread }: Pick<ShopPlan, 'parts' | 'unread'>,
): Block[] | undefined {
  const glued = parts.filter((part) => part.panelBoards !== undefined && part.unread !== true);
  if (glued.length === 0) return undefined;
  const write = bookFormat(book);
  const atOnce = numberOf(book, 'at_once');
  return [
    titleBlock('glue', 'Glue-up', `Wide parts from boards. Sizes in ${lengthUnit(book)}.`),
    ...leftOutBlocks('glue', 'Left out: on no shop sheet', book, unread),
    cautionBlock('glue careful', [
      'Dry-fit with all clamps first: glue does not wait. Two people for what is heavy.',
      'Let the glue rest as long as its bottle says before it is stressed.',
    ]),
    ...glued.flatMap((part) => {
      const { count = 0, width = 0, length = 0 } = part.panelBoards ?? {};
      const rounds = atOnce === undefined ? [] : glueRounds(count, atOnce);
      return [
        headingBlock(`glue ${part.name}`, part.name),
        sentenceBlock(
          `glue ${part.name} of`,
          `${part.count * count} boards ${write(width)} wide and ${write(length)} long become ${
            part.count === 1 ? 'one panel' : `${part.count} panels`
          } ${write(part.width)} by ${write(part.length)}, ${write(part.thickness)} thick.`,
        ),
        ...tableBlocks(
          `glue ${part.name} rounds`,
          `Rounds of gluing for ${part.name}`,
          [
            { heads: 'Round', share: 12 },
            { heads: 'Pieces go in', share: 22, end: true },
            { heads: 'Come out', share: 18, end: true },
            { heads: 'Joints', share: 14, end: true },
            { heads: 'Then it rests', share: 29 },
          ],
          rounds.map(({ before, after, joints }, i) => [
            i + 1,
            before,
            after,
            joints,
            shownOf(book, 'glue_wait') ?? '',
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
      ];
    }),
    ...factsBlock('glue facts', facts(book, factsOf('glue-up'))),
  ];
}
