import { boardFeet, dressedThickness, dressedWidth, type UnitSystem } from '@kerfbook/wood';
import { writePlain } from '../quantities/digits.ts';
import { unitOf } from '../quantities/units.ts';
import {
  type BareUnit,
  type FoundSize,
  isOpen,
  type OwnSize,
  ownSizes,
  roughOf,
  type Side,
  sixteenths,
} from './sizes-in.ts';
import type { FoundLine, FoundPrice, ListContext, ListRow } from './types.ts';
import { asOwn } from './wood-words.ts';

type Body = 'thickness' | 'width' | 'length';
const BODY: readonly Body[] = ['thickness', 'width', 'length'];

/** Numbers that nothing in a line says the unit of. */
export function openNumbers(found: FoundLine, kind: ListContext['kind']): readonly number[] {
  const { sizes } = inFeet(found, kind);
  return sizes.flatMap((size, i) => (isOpen(sizes, i) && !size.fraction ? [size.number] : []));
}

/** The widest board or sheet that is counted in feet without saying so: common practice, no source. */
const MOST_FEET = 12;

interface Feet {
  readonly sizes: readonly FoundSize[];
  readonly says?: string;
}

/** Sheets are sold by the foot (`4x8`), and so are boards (`1x6x8`): common practice, no source. */
function inFeet(found: FoundLine, kind: ListContext['kind']): Feet {
  const { sizes, isSheet, text } = found;
  const foot = unitOf('length', 'ft');
  if (foot === undefined || (kind === 'parts' && !/\bsheets?\b/i.test(text))) return { sizes };
  const asFeet = (size: FoundSize): FoundSize => ({
    ...size,
    number: size.number * 12,
    said: foot,
    text: `${size.text} ft`,
  });
  const open = sizes.filter((size) => size.said === undefined && !size.fraction);
  const sheet = open.filter(({ number }) => number <= MOST_FEET);
  if (isSheet && sheet.length >= 2 && sizes.length - open.length + 2 >= sizes.length) {
    const two = [...sheet].sort((a, b) => b.number - a.number).slice(0, 2);
    const says = `${two
      .map(({ text: one }) => one)
      .reverse()
      .join(' × ')} is read in feet, as sheets are sold.`;
    return { sizes: sizes.map((size) => (two.includes(size) ? asFeet(size) : size)), says };
  }
  const [first, second, third] = sizes;
  const isLumber =
    kind === 'stock' &&
    open.length === 3 &&
    third !== undefined &&
    second !== undefined &&
    first !== undefined &&
    sizes.length === 3 &&
    sizes.every(({ number, side }) => Number.isInteger(number) && side === undefined) &&
    first.number <= 4 &&
    second.number <= MOST_FEET &&
    third.number >= 4 &&
    third.number <= 20 &&
    third.number >= second.number - 8;
  if (!isLumber) return { sizes };
  return {
    sizes: [first, second, asFeet(third)],
    says: `${third.text} is read in feet, as boards are sold.`,
  };
}

/** The row that a line comes to, its bare numbers read in `bare`. */
export function finishRow(
  found: FoundLine,
  bare: BareUnit,
  context: ListContext,
  index: number,
): ListRow {
  const { kind, units, woods = [] } = context;
  const doubts = [...found.doubts];
  const notes: string[] = [];
  const feet = inFeet(found, kind);
  if (feet.says !== undefined) doubts.push(feet.says);
  const own = ownSizes(feet.sizes, bare, units);
  const sides = sidesOf(own, found.order, doubts);
  quartersSay(own, kind, units, doubts, notes);
  if (kind === 'stock') dressedSay(feet.sizes, doubts);
  for (const side of BODY) {
    if (sides[side] === undefined) doubts.push(`Its ${side} is not said.`);
  }
  const material = found.material === '' ? '' : asOwn(found.material, woods);
  if (material.toLowerCase() !== found.material.toLowerCase()) {
    notes.push(`"${found.material}" is ${material} in this workbook.`);
  }
  const texts: Record<string, string> = Object.fromEntries(
    BODY.flatMap((side) => {
      const entry = sides[side]?.entry;
      return entry === undefined ? [] : [[side, entry]];
    }),
  );
  if (material !== '') texts.material = material;
  if (kind === 'parts') {
    texts.part = found.name === '' ? `Part ${index}` : found.name;
    if (found.name === '') doubts.push(`It has no name: Part ${index}.`);
    texts.count = String(found.count ?? 1);
    if (found.grain !== undefined) texts.grain = found.grain;
    const isOwn = bare === (units === 'us' ? 'in' : 'mm');
    for (const [head, said] of Object.entries(found.place ?? {})) {
      texts[head] = isOwn || !/^[\d\s./-]+$/.test(said) ? said : `${said} ${bare}`;
    }
  } else {
    texts.stock = found.name === '' ? found.sizeWords : found.name;
    if (found.count !== undefined) texts['at hand'] = String(found.count);
    const price =
      found.price === undefined ? undefined : priceOf(found.price, sides, units, doubts, notes);
    if (price !== undefined) texts.price = price;
    else if (found.price === undefined) {
      doubts.push('No price: no plan takes from it. Type 0 for boards you have.');
    }
  }
  const { over, left } = found;
  const named = (words: readonly string[]): string => words.map((one) => `"${one}"`).join(', ');
  if (over.length > 0) doubts.push(`Not understood: ${named(over)}.`);
  if (left.length > 0) notes.push(`Left out: ${named(left)}.`);
  return {
    line: found.line,
    text: found.text,
    texts,
    sure: doubts.length === 0,
    says: [...doubts, ...notes],
  };
}

type Sides = Partial<Record<Body, OwnSize>>;

/** Which size is which: as said, as heads say, else the smallest is the thickness and the longest the length. */
function sidesOf(
  sizes: readonly OwnSize[],
  order: readonly Side[] | undefined,
  doubts: string[],
): Sides {
  const sides: Sides = {};
  const give = (side: Body, size: OwnSize): void => {
    if (sides[side] === undefined) sides[side] = size;
    else doubts.push(`Its ${side} is said twice; ${sides[side]?.entry ?? ''} is taken.`);
  };
  const open: OwnSize[] = [];
  sizes.forEach((size, i) => {
    const side = size.side ?? (sizes.length === order?.length ? order[i] : undefined);
    if (side === 'round') {
      give('thickness', size);
      give('width', size);
    } else if (side !== undefined) give(side, size);
    else open.push(size);
  });
  if (open.length === 0) return sides;
  if (open.length === sizes.length && sizes.length > 1) orderDoubt(open, doubts);
  const quarters = open.find((size) => size.quarters !== undefined);
  if (quarters !== undefined && sides.thickness === undefined) sides.thickness = quarters;
  const rest = open.filter((size) => size !== sides.thickness).sort((a, b) => a.value - b.value);
  const slots = BODY.filter((side) => sides[side] === undefined);
  // Of two sizes that stand alone the thickness is what is left unsaid.
  const into = rest.length < slots.length ? slots.slice(slots.length - rest.length) : slots;
  rest.forEach((size, i) => {
    const side = into[i];
    if (side !== undefined) sides[side] = size;
  });
  return sides;
}

/** Sizes that go neither up nor down may be meant in another order. */
function orderDoubt(open: readonly OwnSize[], doubts: string[]): void {
  const values = open.map(({ value }) => value);
  const up = values.every((value, i) => i === 0 || value >= (values[i - 1] ?? 0));
  const down = values.every((value, i) => i === 0 || value <= (values[i - 1] ?? 0));
  if (up || down || open.some(({ quarters }) => quarters !== undefined)) return;
  const longest = open.reduce((most, size) => (size.value > most.value ? size : most));
  doubts.push(`${longest.entry} is taken as the length, since it is the longest.`);
}

/** Rough boards are sold by quarters; what parts are cut from is planed. */
function quartersSay(
  sizes: readonly OwnSize[],
  kind: ListContext['kind'],
  units: UnitSystem,
  doubts: string[],
  notes: string[],
): void {
  const size = sizes.find(({ quarters }) => quarters !== undefined);
  if (size?.quarters === undefined) return;
  const unit = units === 'us' ? ' in' : '';
  const says = `${size.quarters} is ${size.entry}${unit} once planed.`;
  if (kind === 'parts') doubts.push(says);
  else notes.push(says);
}

/** What softwood is called by is not what it measures. */
function dressedSay(sizes: readonly FoundSize[], doubts: string[]): void {
  const [thick, wide] = sizes;
  if (thick === undefined || wide === undefined || sizes.length < 3) return;
  const isNominal = [thick, wide].every(
    ({ said, fraction, number }) => said === undefined && !fraction && Number.isInteger(number),
  );
  if (!isNominal || thick.number > 4 || wide.number > MOST_FEET) return;
  const size = `${thick.number}x${wide.number}`;
  try {
    const measures = `${sixteenths(dressedThickness(size))} × ${sixteenths(dressedWidth(size))} in`;
    doubts.push(
      `Read as ${thick.number} × ${wide.number}; a dressed ${size} measures ${measures}.`,
    );
  } catch {
    // No size that softwood is called by: it is what it says.
  }
}

/** What one board costs, where it is known; plain, so that a cell for money takes it. */
function priceOf(
  { amount, per }: FoundPrice,
  sides: Sides,
  units: UnitSystem,
  doubts: string[],
  notes: string[],
): string | undefined {
  if (per === undefined || per === 'board') {
    if (per === undefined) doubts.push(`${amount} is taken as the price of one board.`);
    return amount;
  }
  const { thickness, width, length } = sides;
  if (thickness === undefined || width === undefined || length === undefined) {
    doubts.push(
      `Its price is ${amount} a ${per === 'boardfoot' ? 'board foot' : per}; without its sizes that is no price of a board.`,
    );
    return undefined;
  }
  const inches = ({ value }: OwnSize): number => (units === 'us' ? value : value / 25.4);
  const thick =
    (thickness.quarters === undefined ? undefined : roughOf(thickness.quarters)) ??
    inches(thickness);
  const many = {
    boardfoot: boardFeet(thick, inches(width), inches(length)),
    foot: inches(length) / 12,
    meter: (inches(length) * 25.4) / 1000,
    'cubic meter': (thick * inches(width) * inches(length) * 25.4 ** 3) / 1e9,
  }[per];
  const what = { boardfoot: 'bd ft', foot: 'ft', meter: 'm', 'cubic meter': 'm³' }[per];
  notes.push(`Its price is ${writePlain(Number(many.toPrecision(4)))} ${what} at ${amount}.`);
  return String(Math.round(many * Number(amount) * 100) / 100);
}
