import { type ShopPlan, secondRip, shapingSteps } from '@kerfbook/drawing';
import type { BenchLine } from './ticks.ts';

/**
 * What is done to pieces once they are cut, in order, as lines that are ticked off piece by piece: a square piece is
 * ripped a second time, and shaped parts are shaped. A step is known by its words: told otherwise it is another one.
 * @param items the lines of the bench list, of which each step takes the pieces
 */
export function benchSteps(
  items: readonly BenchLine[],
  { plan, kerf }: Pick<ShopPlan, 'plan' | 'kerf'>,
  write: (mm: number) => string,
): readonly BenchLine[] {
  return items.flatMap((item) => {
    const { shaped, becomes, laminates } = item;
    const isWhole = becomes === undefined && laminates === undefined;
    const rips = isWhole ? ripsOf(item, plan, kerf.mm, write) : [];
    if (shaped === undefined) return rips.map((says) => stepOf(item, says));
    const { name, count, thickness, width, length } = shaped;
    // Of a part that is glued up first there are fewer than of the boards that are cut for it.
    const made = isWhole ? item : { ...item, name, count, thickness, width, length };
    return [...rips, ...shapingSteps(shaped, write)].map((says) => stepOf(made, says));
  });
}

/** Which row it is of makes no difference: a step whose words are gone is gone, whatever became of the row. */
const stepOf = (item: BenchLine, says: string): BenchLine => ({
  ...item,
  name: `${item.name}: ${says}`,
  rows: [],
});

/** How pieces of a line are brought to their thickness; once where all of their boards ask for the same. */
function ripsOf(
  { at }: BenchLine,
  plan: ShopPlan['plan'],
  kerf: number,
  write: (mm: number) => string,
): readonly string[] {
  const said = (plan?.groups ?? []).flatMap(({ boards, thickness }) =>
    boards.flatMap(({ pieces }) =>
      pieces.flatMap(({ item }) =>
        item.at.sheet === at.sheet && item.at.row === at.row
          ? (secondRip(item, thickness, kerf, write) ?? [])
          : [],
      ),
    ),
  );
  return [...new Set(said)];
}
