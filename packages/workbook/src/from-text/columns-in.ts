import { Rest } from './counts.ts';
import { takePrice, wordsOf } from './one-line.ts';
import type { PlainLine } from './plain-lines.ts';
import { type BareUnit, type FoundSize, type Side, sizeAt, sizeRuns } from './sizes-in.ts';
import type { FoundLine, ListContext, UnreadLine } from './types.ts';
import { isSheet, woodIn } from './wood-words.ts';

/** What a column holds, by the word at its head. */
export type HeadKind =
  | 'name'
  | 'count'
  | 'thickness'
  | 'width'
  | 'length'
  | 'material'
  | 'grain'
  | 'price'
  | 'place'
  | 'x'
  | 'y'
  | 'z'
  | 'sizes'
  | 'left';

const HEADS: readonly (readonly [HeadKind, RegExp])[] = [
  [
    'count',
    /^(?:qty|quantity|count|no|nr|number|pcs|pieces|#|how many|ea|amount|at hand|on hand|req'?d|required)$/,
  ],
  ['thickness', /^(?:t|th|thk|thick|thickness)$/],
  ['width', /^(?:w|wide|width)$/],
  ['length', /^(?:l|len|long|length)$/],
  ['material', /^(?:material|mat|wood|species|lumber|timber)$/],
  ['grain', /^(?:grain|grain direction)$/],
  ['place', /^place$/],
  ['x', /^x$/],
  ['y', /^y$/],
  ['z', /^z$/],
  ['price', /^(?:price|cost|unit price|price each)$/],
  [
    'sizes',
    /^(?:size|sizes|dimensions?|dims?|finished size|cut size|final size|finished dimensions?|t ?x ?w ?x ?l|l ?x ?w ?x ?t|w ?x ?l ?x ?t)$/,
  ],
  [
    'name',
    /^(?:part|parts|part name|name|item|description|component|piece|label|what|board|stock)$/,
  ],
  [
    'left',
    /^(?:notes?|remarks?|comments?|bd ?ft|board feet|total|part no|part number|id|edge|banding)$/,
  ],
];

/** Heads of columns, in their order, and what they say of bare numbers. */
export interface Heads {
  readonly kinds: readonly (HeadKind | undefined)[];
  readonly words: readonly string[];
  readonly units: readonly (BareUnit | undefined)[];
}

const UNITS: readonly (readonly [BareUnit, RegExp])[] = [
  ['mm', /\b(?:mm|millimet(?:er|re)s?)\b/i],
  ['cm', /\b(?:cm|centimet(?:er|re)s?)\b/i],
  ['in', /\b(?:in|inch|inches)\b|"/i],
];

/** The unit that words name: `Length (mm)`, `all sizes in inches`; the small word `in` counts last. */
export const unitNamed = (text: string): BareUnit | undefined =>
  UNITS.find(([, pattern]) => pattern.test(text))?.[0];

function headOf(field: string): HeadKind | undefined {
  const bare = field
    .toLowerCase()
    .replace(/[([{,].*$|["*:]/g, '')
    .replace(/ (?:mm|cm|in|inches)\.?$/, '')
    .replace(/\.$/, '')
    .trim();
  return HEADS.find(([, pattern]) => pattern.test(bare))?.[0];
}

/** Heads, where a line is one of heads: two that are known, and one of them for sizes. */
export function headsIn({ fields }: PlainLine): Heads | undefined {
  const [only = ''] = fields;
  // Words with single spaces between them, each of them a head.
  const words = fields.length > 1 ? fields : only.split(/\s+/);
  const kinds = words.map(headOf);
  const known = kinds.filter((kind) => kind !== undefined);
  const hasSizes = known.some((kind) => SIZED.includes(kind));
  const whole =
    fields.length > 1 ? known.length >= 2 : known.length === words.length && known.length >= 3;
  if (!hasSizes || !whole || words.some((word) => /\d/.test(word))) return undefined;
  const units = words.map((word) =>
    /[([{,"]| (?:mm|cm|in|inches)\.?$/.test(word) ? unitNamed(word) : undefined,
  );
  return { kinds, words, units };
}

const SIZED: readonly HeadKind[] = ['thickness', 'width', 'length', 'sizes'];

/** The order in which sizes stand, where words say it: `T x W x L`. */
export function orderIn(text: string): readonly Side[] | undefined {
  const found =
    /(?<![\p{L}])(t(?:hick(?:ness)?)?|w(?:idth)?|l(?:ength)?) ?[x×,/ ] ?(t(?:hick(?:ness)?)?|w(?:idth)?|l(?:ength)?) ?[x×,/ ] ?(t(?:hick(?:ness)?)?|w(?:idth)?|l(?:ength)?)(?![\p{L}])/iu.exec(
      text,
    );
  if (found === null) return undefined;
  const sides = found.slice(1).map((word) => SIDE_OF[word.charAt(0).toLowerCase()]);
  const good = sides.filter((side): side is Side => side !== undefined);
  return new Set(good).size === 3 ? good : undefined;
}

const SIDE_OF: Readonly<Record<string, Side>> = { t: 'thickness', w: 'width', l: 'length' };

/** The order of sizes that heads give lines without columns. */
export function orderOf({ kinds }: Heads): readonly Side[] | undefined {
  const sides = kinds.filter(
    (kind): kind is 'thickness' | 'width' | 'length' =>
      kind === 'thickness' || kind === 'width' || kind === 'length',
  );
  return sides.length === 3 ? sides : undefined;
}

/** Reads a line of columns under their heads; undefined where it has none of them. */
export function readColumns(
  one: PlainLine,
  heads: Heads,
  context: ListContext,
  wood: string,
): FoundLine | UnreadLine | undefined {
  const over: string[] = [];
  const left: string[] = [];
  const doubts: string[] = [];
  const sizes: FoundSize[] = [];
  const place: { -readonly [head in keyof Place]: Place[head] } = {};
  const held: {
    name?: string;
    count?: number;
    material?: string;
    grain?: FoundLine['grain'];
    price?: FoundLine['price'];
  } = {};
  one.fields.forEach((whole, i) => {
    const field = whole.trim();
    const kind = heads.kinds[i];
    if (field === '' || /^[-–—.]+$/.test(field)) return;
    switch (kind) {
      case 'thickness':
      case 'width':
      case 'length': {
        const found = wholeSize(field, kind, heads.units[i]);
        if (found === undefined) over.push(field);
        else sizes.push(found);
        return;
      }
      case 'sizes':
        sizes.push(...(sizeRuns(field).find(({ length }) => length >= 2) ?? []));
        return;
      case 'count': {
        const many = /^[x×(]?\s*(\d{1,5})\s*(?:x|×|pcs?\.?|ea\.?|each|pieces?)?\)?$/i.exec(
          field,
        )?.[1];
        if (many === undefined) over.push(field);
        else held.count = Number(many);
        return;
      }
      case 'name':
        held.name = held.name === undefined ? field : held.name;
        return;
      case 'material':
        held.material = field;
        return;
      case 'place':
      case 'x':
      case 'y':
      case 'z':
        if (context.kind === 'stock') left.push(field);
        else place[kind] = withUnit(field, heads.units[i]);
        return;
      case 'grain':
        held.grain = grainOf(field);
        if (held.grain === undefined) over.push(field);
        return;
      case 'price': {
        const price = takePrice(
          new Rest(/^[\d.,]+$/.test(field) ? `${context.money}${field}` : field),
          context,
          left,
        );
        if (price !== undefined) held.price = price;
        return;
      }
      default:
        left.push(field);
    }
  });
  if (sizes.length === 0) return undefined;
  const base = { line: one.line, text: one.text };
  if (sizes.some(({ number }) => !(number > 0))) {
    return { ...base, says: 'A size is 0; it takes one above 0.', expected: false };
  }
  const named = held.name ?? '';
  const found = held.material === undefined ? woodIn(named, context.woods ?? []) : undefined;
  const words =
    found === undefined || found.rest === ''
      ? { name: named, material: held.material ?? '' }
      : { name: found.rest, material: found.wood };
  const order = orderIn(heads.words.join(' | '));
  return {
    ...base,
    ...(held.count === undefined ? {} : { count: held.count }),
    name: words.name,
    material: words.material === '' ? wood : words.material,
    ...(held.grain === undefined ? {} : { grain: held.grain }),
    ...(order !== undefined && sizes.every(({ side }) => side === undefined) ? { order } : {}),
    ...(held.price === undefined ? {} : { price: held.price }),
    sizes,
    ...(Object.keys(place).length === 0 ? {} : { place }),
    isSheet: isSheet(one.text),
    sizeWords: sizes.map(({ text }) => text).join(' × '),
    doubts,
    over,
    left,
  };
}

function grainOf(field: string): FoundLine['grain'] {
  const word = field.toLowerCase();
  if (/^(?:l|length|long)$/.test(word)) return 'length';
  if (/^(?:w|width|short|across)$/.test(word)) return 'width';
  return /^(?:none|no|any)$/.test(word) ? 'none' : undefined;
}

type Place = NonNullable<FoundLine['place']>;

const withUnit = (field: string, unit: BareUnit | undefined): string =>
  unit === undefined || !/^[\d\s./-]+$/.test(field) ? field : `${field} ${unit}`;

/** A field that is a size and nothing else; the unit of its head goes for a bare number. */
function wholeSize(field: string, side: Side, unit: BareUnit | undefined): FoundSize | undefined {
  const text = withUnit(field, unit);
  const found = sizeAt(text, 0);
  return found === undefined || found.end !== text.length ? undefined : { ...found, side };
}

/** Whether the columns of a line are numbers of sizes with no heads over them. */
export const isHeadless = ({ fields }: PlainLine): boolean =>
  fields.length >= 4 &&
  fields.every((field) => (sizeRuns(field)[0]?.length ?? 0) < 2) &&
  fields.filter((field) => numberIn(field) !== undefined).length >= 3;

/** The size that is all of a field. */
function numberIn(field: string): FoundSize | undefined {
  const text = field.trim();
  const found = text === '' ? undefined : sizeAt(text, 0);
  return found === undefined || found.end !== text.length ? undefined : found;
}

/** Where in lines without heads the count stands, and whether it can stand nowhere else. */
export interface CountPlace {
  readonly at: 'first' | 'last';
  readonly sure: boolean;
}

/** Of four numbers in each line one is the count: a whole one; sizes go up or down; counts are small. */
export function countPlace(lines: readonly PlainLine[]): CountPlace {
  const [first, last] = (['first', 'last'] as const).map((at) => {
    const tries = lines.flatMap(({ fields }) => {
      const numbers = fields.flatMap((field) => numberIn(field) ?? []);
      if (numbers.length !== 4) return [];
      const count = at === 'first' ? numbers.shift() : numbers.pop();
      return count === undefined ? [] : [{ count, sizes: numbers.map(({ number }) => number) }];
    });
    return {
      at,
      canBe: tries.every(({ count }) => isWhole(count)),
      inOrder: tries.filter(({ sizes }) => goesOneWay(sizes)).length,
      sum: tries.reduce((sum, { count }) => sum + count.number, 0),
    };
  });
  if (first === undefined || last === undefined) return { at: 'first', sure: true };
  if (first.canBe !== last.canBe) return { at: first.canBe ? 'first' : 'last', sure: true };
  if (first.inOrder !== last.inOrder) {
    return { at: first.inOrder > last.inOrder ? 'first' : 'last', sure: false };
  }
  const sure = Math.max(first.sum, last.sum) > 3 * Math.min(first.sum, last.sum);
  return { at: first.sum <= last.sum ? 'first' : 'last', sure };
}

const goesOneWay = (sizes: readonly number[]): boolean =>
  [1, -1].some((way) =>
    sizes.every((size, i) => i === 0 || way * (size - (sizes[i - 1] ?? 0)) >= 0),
  );

const isWhole = ({ number, said, fraction }: FoundSize): boolean =>
  Number.isInteger(number) && said === undefined && !fraction;

/** Reads a line of columns without heads. */
export function readHeadless(
  one: PlainLine,
  place: CountPlace,
  context: ListContext,
  wood: string,
): FoundLine | UnreadLine {
  const numbers: FoundSize[] = [];
  const others: string[] = [];
  for (const field of one.fields) {
    const found = numberIn(field);
    if (found === undefined) others.push(field.trim());
    else numbers.push(found);
  }
  const base = { line: one.line, text: one.text };
  if (numbers.length > 4) {
    return {
      ...base,
      says: `It has ${numbers.length} numbers and no heads say which is which.`,
      expected: false,
    };
  }
  const doubts: string[] = [];
  const counted =
    numbers.length === 4 ? (place.at === 'first' ? numbers.shift() : numbers.pop()) : undefined;
  if (counted !== undefined && !isWhole(counted)) {
    return { ...base, says: 'It has four sizes and no count.', expected: false };
  }
  if (counted !== undefined && !place.sure) {
    doubts.push(`${counted.number} is read as how many: no head says so.`);
  }
  if (numbers.some(({ number }) => !(number > 0))) {
    return { ...base, says: 'A size is 0; it takes one above 0.', expected: false };
  }
  const left: string[] = [];
  const priceRest = new Rest(others.join('\u0001'));
  const price = takePrice(priceRest, context, left);
  const words = wordsOf(priceRest.pieces(), context.woods ?? []);
  return {
    ...base,
    ...(counted === undefined ? {} : { count: counted.number }),
    name: words.name,
    material: words.material === '' ? wood : words.material,
    ...(price === undefined ? {} : { price }),
    sizes: numbers,
    isSheet: isSheet(one.text),
    sizeWords: numbers.map(({ text }) => text).join(' × '),
    doubts,
    over: words.left,
    left,
  };
}
