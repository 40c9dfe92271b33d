import { inputOf, type OwnTable, type Piece, wordOf } from './own-table.ts';
import { inches, type Refusal, refusal } from './refusal.ts';
import { leastWoodCost, ownCuts } from './rules-boards.ts';
import type { Stated, StatedCut } from './stated.ts';

/** Finer than is marked out, in. Common practice, no source. */
const MARKED = 0.005;
const CENT = 0.01;

/** Where parts table, cut list, plan and price say otherwise than the inputs, or nothing at all. */
export function viewRefusals(stated: Stated, table: OwnTable): readonly Refusal[] {
  return [
    ...numbers(stated),
    ...partsTable(stated, table),
    ...cutList(stated, table),
    ...(stated.troubles ?? []).map((says) => refusal('trouble', `The drawing says: ${says}`)),
    ...(stated.leftOut ?? []).map((says) => refusal('left-out', `The plan leaves out: ${says}`)),
    ...price(stated, table),
  ];
}

/** Results that may be less than nothing: a movement either way. */
const SIGNED = /^movement_|change/;

function numbers({ inputs, shown, errors }: Stated): readonly Refusal[] {
  const odd = Object.entries({ ...inputs, ...shown }).filter(
    ([name, value]) =>
      typeof value === 'number' && (!Number.isFinite(value) || (value < 0 && !SIGNED.test(name))),
  );
  return [
    ...odd.map(([name, value]) => refusal('number', `${name} is ${value}, which is no size.`)),
    ...errors.map((says) => refusal('error', `A result is an error, ${says}`)),
  ];
}

const near = (one: Piece, two: Piece): boolean =>
  [0, 1, 2].every((i) => {
    const axis = i as 0 | 1 | 2;
    return (
      Math.abs(one.from[axis] - two.from[axis]) < MARKED &&
      Math.abs(one.size[axis] - two.size[axis]) < MARKED
    );
  });

function partsTable(stated: Stated, { pieces }: OwnTable): readonly Refusal[] {
  const drawn = stated.pieces;
  const left = [...(drawn ?? [])];
  const found = new Map<string, Refusal>();
  for (const piece of drawn === undefined ? [] : pieces) {
    const at = left.findIndex((one) => near(one, piece));
    if (at >= 0) left.splice(at, 1);
    else {
      const says = `The parts table has no ${piece.name} of ${piece.size.map(inches).join(' × ')} where the inputs put one.`;
      found.set(piece.name, refusal('parts-differ', says));
    }
  }
  for (const piece of left) {
    const says = `The parts table has a ${piece.name} that the inputs know nothing of.`;
    found.set(`left ${piece.name}`, refusal('parts-differ', says));
  }
  const species = wordOf(stated, 'species');
  for (const { part, material } of stated.parts.filter((one) => one.material !== species))
    found.set(`of ${part}`, refusal('material', `${part} is of ${material}, not of ${species}.`));
  return [...found.values()];
}

function cutList(stated: Stated, table: OwnTable): readonly Refusal[] {
  if (stated.cuts === undefined) return [];
  const left = stated.cuts.flatMap((cut) => Array.from({ length: cut.count }, () => cut));
  const found = new Map<string, Refusal>();
  for (const cut of ownCuts(stated, table)) {
    for (let piece = 0; piece < cut.count; piece += 1) {
      const at = left.findIndex((one) => isSame(one, cut));
      if (at >= 0) left.splice(at, 1);
      else
        found.set(cut.name, refusal('cut-list', `The cut list has no ${sizeOf(cut)} ${cut.name}.`));
    }
  }
  for (const cut of left) {
    const says = `The cut list has a ${cut.name} of ${sizeOf(cut)} that the table does not need.`;
    found.set(`left ${cut.name}`, refusal('cut-list', says));
  }
  return [...found.values()];
}

const sizeOf = ({ thickness, width, length }: StatedCut): string =>
  [thickness, width, length].map(inches).join(' × ');

const isSame = (one: StatedCut, two: StatedCut): boolean =>
  (['thickness', 'width', 'length'] as const).every(
    (side) => Math.abs(one[side] - two[side]) < MARKED,
  );

/** What the wood and the hours that were typed cost at the least, with overhead and profit. */
function price(stated: Stated, table: OwnTable): readonly Refusal[] {
  const at = (name: string): number => inputOf(stated, name);
  const wood = leastWoodCost(stated, table);
  const hours = ['boards', 'base', 'fit', 'deliver'].reduce(
    (sum, step) => sum + at(`hours_${step}`),
    0,
  );
  const cost = wood + at('cost_consumables') + hours * at('hourly_rate');
  const least = (cost * (1 + at('overhead_percent') / 100)) / (1 - at('profit_percent') / 100);
  const { price: asked } = stated.shown;
  const quoted = at('quoted_price');
  const found: Refusal[] = [];
  if (typeof asked !== 'number' || asked < least - CENT) {
    const says = `The price of ${asked} is less than wood, hours and profit take: ${least.toFixed(2)}.`;
    found.push(refusal('price', says));
  }
  if (quoted > 0 && quoted < least - CENT)
    found.push(refusal('quote', `The quote of ${quoted} is less than ${least.toFixed(2)}.`));
  return found;
}
