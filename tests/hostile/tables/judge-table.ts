import { ownTable, wordOf } from './own-table.ts';
import { OWN_WOODS } from './own-wood.ts';
import { type Refusal, refusal } from './refusal.ts';
import { boardRefusals } from './rules-boards.ts';
import { fastenerRefusals } from './rules-fasteners.ts';
import { jointRefusals } from './rules-joints.ts';
import { loadRefusals } from './rules-load.ts';
import { shapeRefusals } from './rules-shape.ts';
import { viewRefusals } from './rules-views.ts';
import type { Stated } from './stated.ts';

/**
 * Says of a table with legs, aprons and a top of solid wood why it cannot be built, or would be
 * ruined; nothing where it can be built.
 *
 * It knows the inputs of a workbook, and from those it lays the table out by itself: its own boxes,
 * its own climate and woods (Wood Handbook, equation 4-5, tables 13-5 and 5-3b), its own statics, the
 * trade's rules for joints, screws and boards. It calls none of the functions that formulas of a
 * template call, and it takes no result of a formula for granted. What formulas came to it reads to
 * hold it against what it worked out itself: the rows of the parts table (what a maker would cut),
 * the boards of the top and the slots in the supports, the cut list, the price. Prices and sizes of
 * boards in the stock table are what the yard has, and taken as they stand.
 *
 * Where the trade has no one figure it takes the one that lets most tables pass: it is to find what
 * cannot be made, and not what could be made better.
 */
export function refusalsOf(stated: Stated): readonly Refusal[] {
  const species = wordOf(stated, 'species');
  if (OWN_WOODS[species] === undefined)
    return [refusal('wood', `${species} is no wood that the judge knows.`)];
  const table = ownTable(stated);
  return [
    ...shapeRefusals(stated, table),
    ...jointRefusals(stated, table),
    ...boardRefusals(stated, table),
    ...loadRefusals(stated, table),
    ...fastenerRefusals(stated, table),
    ...viewRefusals(stated, table),
  ];
}
