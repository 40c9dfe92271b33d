import { inputOf, type OwnTable, wordOf } from './own-table.ts';
import { PLANED } from './own-wood.ts';
import { inches, type Refusal, refusal } from './refusal.ts';
import type { Stated, StatedCut, StatedStock } from './stated.ts';

const SLACK = 1e-6;
/** The smallest mark on a rule, in. */
const MARK = 1 / 16;
/** No strip that is narrower is jointed by hand or machine in safety, in. Common practice, no source. */
const LEAST_BOARD = 1;

/** Boards of the top, and every part out of the stock. */
export function boardRefusals(stated: Stated, table: OwnTable): readonly Refusal[] {
  return [...thickness(stated, table), ...panel(stated, table), ...fromStock(stated, table)];
}

function thickness(stated: Stated, { thickness }: OwnTable): readonly Refusal[] {
  const quarters = wordOf(stated, 'rough_quarters');
  const planed = PLANED[quarters];
  if (planed !== undefined && thickness <= planed + SLACK) return [];
  return [
    refusal(
      'top-thick',
      `Boards of ${quarters} plane to ${inches(planed ?? Number.NaN)}: no top of ${inches(thickness)}.`,
    ),
  ];
}

function panel(stated: Stated, { width, length }: OwnTable): readonly Refusal[] {
  const boards = stated.parts.find((part) => part.boards !== undefined)?.boards;
  if (boards === undefined) return [refusal('panel', 'The top has no boards.')];
  const found: Refusal[] = [];
  const lost = inputOf(stated, 'joint_loss');
  const whole = boards.count * boards.width - (boards.count - 1) * lost;
  // Boards are ripped to the next mark on the rule.
  if (whole < width - 0.001 || whole > width + boards.count * MARK + 0.001) {
    found.push(
      refusal(
        'panel-sum',
        `${boards.count} boards come to ${inches(whole)} and not ${inches(width)}.`,
      ),
    );
  }
  if (boards.width - (boards.count > 1 ? lost : 0) < LEAST_BOARD - SLACK) {
    found.push(
      refusal('strip', `Boards of ${inches(boards.width)} less ${inches(lost)} are strips.`),
    );
  }
  if (boards.length < length - SLACK) {
    found.push(refusal('panel-short', `Boards of ${inches(boards.length)} make no such top.`));
  }
  for (const [name, most] of [
    ['jointer', inputOf(stated, 'jointer_width')],
    ['widest board wanted', inputOf(stated, 'widest_board')],
  ] as const) {
    if (boards.width <= most + SLACK) continue;
    const says = `A board is ${inches(boards.width)} wide; the ${name} is ${inches(most)}.`;
    found.push(refusal('board-wide', says));
  }
  return found;
}

/** What has to be cut, from the inputs alone; the top as the boards that the workbook states, as thick as they are glued up. */
export function ownCuts(stated: Stated, table: OwnTable): readonly StatedCut[] {
  const { apron, support, clear, leg, legLength, tenon, thickness } = table;
  const boards = stated.parts.find((part) => part.boards !== undefined)?.boards;
  const cut = (
    name: string,
    count: number,
    [thick, width, length]: readonly [number, number, number],
  ): StatedCut => ({ name, count, thickness: thick, width, length });
  return [
    cut('board of the top', boards?.count ?? Number.NaN, [
      PLANED[wordOf(stated, 'rough_quarters')] ?? thickness,
      boards?.width ?? Number.NaN,
      table.length + inputOf(stated, 'trim_length'),
    ]),
    cut('leg', 4, [leg, leg, legLength]),
    cut('long apron', 2, [apron.thickness, apron.width, clear.along + 2 * tenon]),
    cut('short apron', 2, [apron.thickness, apron.width, clear.across + 2 * tenon]),
    cut('cross support', support.count, [support.thickness, support.width, support.length]),
  ].filter(({ count }) => count !== 0);
}

const gives = (stock: StatedStock, { thickness, width, length }: StatedCut, species: string) =>
  stock.material === species &&
  stock.atHand >= 1 &&
  stock.thickness >= thickness - SLACK &&
  stock.width >= width - SLACK &&
  stock.length >= length - SLACK;

function fromStock(stated: Stated, table: OwnTable): readonly Refusal[] {
  const species = wordOf(stated, 'species');
  const found: Refusal[] = [];
  for (const cut of ownCuts(stated, table)) {
    const able = stated.stock.filter((stock) => gives(stock, cut, species));
    const most = able.reduce((sum, stock) => sum + stock.atHand * perBoard(stock, cut), 0);
    if (most >= cut.count) continue;
    found.push(
      refusal(
        'stock',
        `A ${cut.name} of ${[cut.thickness, cut.width, cut.length].map(inches).join(' × ')}, ` +
          `${cut.count} pieces, comes out of no board of the stock.`,
      ),
    );
  }
  return found;
}

/** How many pieces one board gives at the very most, were saw cuts to take nothing. */
const perBoard = (stock: StatedStock, { width, length }: StatedCut): number =>
  Math.floor(stock.width / width + SLACK) * Math.floor(stock.length / length + SLACK);

/**
 * Less than this no plan pays for the wood: each piece at the cheapest area of a board that gives it,
 * with boards that cost nothing used to the last inch. No plan is made for it.
 */
export function leastWoodCost(stated: Stated, table: OwnTable): number {
  const species = wordOf(stated, 'species');
  const area = ({ width, length }: StatedStock): number => width * length;
  let cost = 0;
  let dearest = 0;
  for (const cut of ownCuts(stated, table)) {
    const able = stated.stock.filter((one) => gives(one, cut, species) && one.price > 0);
    if (able.length === 0) continue;
    const rate = Math.min(...able.map((one) => one.price / area(one)));
    dearest = Math.max(dearest, rate);
    cost += cut.count * cut.width * cut.length * rate;
  }
  const free = stated.stock
    .filter(({ price }) => price === 0)
    .reduce((sum, one) => sum + area(one) * one.atHand, 0);
  return dearest === 0 ? 0 : Math.max(0, cost - free * dearest);
}
