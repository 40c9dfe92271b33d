import { quartersPlaned, quartersRough, type UnitSystem } from '@kerfbook/wood';
import { readMeasured } from '../quantities/measure.ts';
import { scanNumber } from '../quantities/numbers.ts';
import { toOwn, type Unit, unitAt, unitOf } from '../quantities/units.ts';

/** Which side a size is said to be of; `round`: a diameter, which is thickness and width. */
export type Side = 'thickness' | 'width' | 'length' | 'round';

/** A size as it stands in a line of plain text. */
export interface FoundSize {
  /** The number by itself; with a unit, all of it in inches or millimeters (`said`). */
  readonly number: number;
  /** As a maker typed the number, or all of it where it has a unit. */
  readonly text: string;
  /** The unit it bears; undefined for a bare number. */
  readonly said?: Unit;
  /** It was written as a fraction. */
  readonly fraction: boolean;
  /** A thickness in quarters of an inch, such as `8/4`. */
  readonly quarters?: string;
  /** Which side it is said to be of. */
  readonly side?: Side;
  readonly start: number;
  readonly end: number;
}

/** A size in the workbook's own unit, and as it would be entered in a cell. */
export interface OwnSize {
  readonly value: number;
  readonly entry: string;
  readonly side?: Side;
  readonly quarters?: string;
}

const SIDES: readonly (readonly [Side, RegExp])[] = [
  ['round', /\s*\(?(?:diameter|diam|dia|ø|⌀)\b\.?\)?/iuy],
  ['thickness', /\s*\(?(?:thickness|thick|thk|th)\b\.?\)?/iuy],
  ['width', /\s*\(?(?:width|wide)\b\.?\)?/iuy],
  ['length', /\s*\(?(?:length|long|lg)\b\.?\)?/iuy],
  ['thickness', /\s?\(?t\b\)?/iuy],
  ['width', /\s?\(?w\b\)?/iuy],
  ['length', /\s?\(?l\b\)?/iuy],
];
/** A side said before its size: `L 28`, `width: 3 1/2`, `ø 35`. */
const BEFORE =
  /(?<![\p{L}\d])(?:(thickness|thick|thk|t)|(width|wide|w)|(length|long|l)|(diameter|dia|ø|⌀))\.?\s*[:=]?\s*(?=[\d.])/iuy;
const QUARTERS = /(\d{1,2})\/4(?![\d/])(?:"| ?in\b\.?)?/y;
/** What follows a word that says a side; a name would go on with words. */
const NO_NAME = /\s*(?:$|[^\p{L}\s]|[x×]\b|by\b|thick|wide|long)/iuy;
/** Two sizes of one piece: `3 x 4`, `3 by 4`, `3 * 4`. */
const BETWEEN = /\s*(?:[x×✕✖*]|by\b)\s*/iuy;
/** Between sizes that each say their side. */
const LISTED = /\s*[,;]?\s*/y;

const at = (pattern: RegExp, text: string, index: number): RegExpExecArray | null => {
  pattern.lastIndex = index;
  return pattern.exec(text);
};

/**
 * The size that begins at `index` of plain text, with the side it says; undefined where none does.
 * @param beside it follows a size of the same piece that says its side
 */
export function sizeAt(text: string, index: number, beside = false): FoundSize | undefined {
  const before = at(BEFORE, text, index);
  const start = index + (before?.[0].length ?? 0);
  const found = quartersAt(text, start) ?? measureAt(text, start);
  if (found === undefined) return undefined;
  if (before !== null) return { ...found, side: sideBefore(before), start: index };
  for (const [side, pattern] of SIDES) {
    const after = at(pattern, text, found.end);
    if (after === null) continue;
    const end = found.end + after[0].length;
    // `28 Long aprons`: a word of the name, unless the sizes before it said their sides too.
    if (beside || at(NO_NAME, text, end) !== null) return { ...found, side, end };
  }
  return found;
}

function sideBefore([, thickness, width, length]: RegExpExecArray): Side {
  if (thickness !== undefined) return 'thickness';
  if (width !== undefined) return 'width';
  return length === undefined ? 'round' : 'length';
}

function quartersAt(text: string, start: number): FoundSize | undefined {
  const found = at(QUARTERS, text, start);
  if (found === null || Number(found[1]) < 4) return undefined;
  const quarters = `${found[1]}/4`;
  const planed = known(() => quartersPlaned(quarters));
  if (planed === undefined) return undefined;
  const inch = unitOf('length', 'in');
  return {
    number: planed,
    text: quarters,
    ...(inch === undefined ? {} : { said: inch }),
    fraction: true,
    quarters,
    start,
    end: start + found[0].length,
  };
}

/** What a table of published sizes says; undefined for what stands in none. */
function known(ask: () => number): number | undefined {
  try {
    return ask();
  } catch {
    return undefined;
  }
}

/** What boards of such a thickness measure before they are planed, in. */
export const roughOf = (quarters: string): number | undefined =>
  known(() => quartersRough(quarters));

function measureAt(text: string, start: number): FoundSize | undefined {
  const first = scanNumber(text, start);
  if (first.kind !== 'number') return undefined;
  const fraction = first.number.denominator !== undefined;
  const bare = {
    number: first.number.value,
    text: text.slice(start, first.end).replace(/(\d)-(\d)/, '$1 $2'),
    fraction,
    start,
    end: first.end,
  };
  const unit = unitAfter(text, first.end);
  if (unit === undefined) return bare;
  const end = feetGoOn(text, unit.unit, unit.end);
  const all = text.slice(start, end).trim();
  const measured = readMeasured(all, 'length', unit.unit.system === 'metric' ? 'metric' : 'us');
  if (measured === undefined) return bare;
  return { number: measured.value, text: all, said: unit.unit, fraction, start, end };
}

function unitAfter(text: string, end: number) {
  const found = unitAt(text, text[end] === ' ' ? end + 1 : end, 'length');
  // `3/4"T`: the letter says the side.
  const isMark = found === undefined && /^["'][twl](?![\p{L}])/iu.test(text.slice(end, end + 3));
  const marked = isMark ? unitAt(text.slice(end, end + 1), 0, 'length') : undefined;
  return marked === undefined ? found : { ...marked, end: end + 1 };
}

/** Where a length in feet ends: after the inches that go with it. */
function feetGoOn(text: string, unit: Unit, end: number): number {
  if (unit.sign !== 'ft') return end;
  const gap = /^ ?-? ?/.exec(text.slice(end, end + 3))?.[0].length ?? 0;
  const next = scanNumber(text, end + gap);
  if (next.kind !== 'number') return end;
  const inches = unitAfter(text, next.end);
  return inches?.unit.sign === 'in' ? inches.end : end;
}

/** Every run of sizes in a line: those of one piece have `x` between them, or each say their side. */
export function sizeRuns(text: string): readonly (readonly FoundSize[])[] {
  const runs: FoundSize[][] = [];
  let index = 0;
  while (index < text.length) {
    const size = startsSize(text, index) ? sizeAt(text, index) : undefined;
    if (size === undefined) {
      index = pastWord(text, index);
      continue;
    }
    const run = [size];
    for (let next = nextOf(text, size); next !== undefined; next = nextOf(text, next)) {
      run.push(next);
    }
    runs.push(run);
    index = run.at(-1)?.end ?? index + 1;
  }
  return runs;
}

const STARTS = /[\d.twlø⌀]/iu;
const startsSize = (text: string, index: number): boolean => STARTS.test(text[index] ?? '');

/** Past a word or a number that is no size: what follows within it is none either. */
function pastWord(text: string, index: number): number {
  const found = at(/[\p{L}\p{N}_]+/uy, text, index);
  if (found === null) return index + 1;
  // `1 5/4`: one board of 5/4. `2x4` begins with its number.
  const digits = at(/\d+/y, text, index);
  return index + (digits ?? found)[0].length;
}

function nextOf(text: string, size: FoundSize): FoundSize | undefined {
  const isSaid = size.side !== undefined;
  const between = at(BETWEEN, text, size.end);
  const next = between === null ? undefined : sizeAt(text, size.end + between[0].length, isSaid);
  if (next !== undefined) return next;
  if (!isSaid) return undefined;
  const listed = at(LISTED, text, size.end)?.[0].length ?? 0;
  const beside = sizeAt(text, size.end + listed, true);
  return beside?.side === undefined ? undefined : beside;
}

/** What bare numbers of a list are in. */
export type BareUnit = 'in' | 'mm' | 'cm';

/** The sizes of one piece in the workbook's own unit: bare numbers go by those beside them, else by the list. */
export function ownSizes(
  sizes: readonly FoundSize[],
  bare: BareUnit,
  system: UnitSystem,
): readonly OwnSize[] {
  return sizes.map((size, i) => {
    const beside = size.fraction ? 'in' : (besideOf(sizes, i) ?? bare);
    return ownSize(size, beside, system);
  });
}

/** Whether nothing in its line says what a number is in. */
export const isOpen = (sizes: readonly FoundSize[], i: number): boolean => {
  const size = sizes[i];
  return size !== undefined && size.said === undefined && besideOf(sizes, i) === undefined;
};

/** `1800 x 900 x 30 mm`: the unit after it, else the one before it. Feet and meters are for what says them. */
function besideOf(sizes: readonly FoundSize[], i: number): BareUnit | undefined {
  const unit =
    sizes.slice(i + 1).find(({ said }) => said !== undefined)?.said ??
    sizes.slice(0, i).findLast(({ said }) => said !== undefined)?.said;
  if (unit === undefined) return undefined;
  if (unit.system === 'us') return 'in';
  return unit.sign === 'cm' ? 'cm' : 'mm';
}

function ownSize(size: FoundSize, beside: BareUnit, system: UnitSystem): OwnSize {
  const kept = {
    ...(size.side === undefined ? {} : { side: size.side }),
    ...(size.quarters === undefined ? {} : { quarters: size.quarters }),
  };
  const own = system === 'us' ? 'in' : 'mm';
  if (size.said === undefined) {
    const unit = unitOf('length', beside);
    const value = unit === undefined ? size.number : toOwn(size.number, unit, 'length', system);
    return { value, entry: beside === own ? size.text : `${size.text} ${beside}`, ...kept };
  }
  const base = unitOf('length', size.said.system === 'metric' ? 'mm' : 'in');
  const value = base === undefined ? size.number : toOwn(size.number, base, 'length', system);
  return { value, entry: entryOf(size, system), ...kept };
}

/** Inches in a workbook in inches need no mark, nor millimeters in a metric one. */
function entryOf({ text, said, quarters, number }: FoundSize, system: UnitSystem): string {
  const own = system === 'us' ? 'in' : 'mm';
  if (quarters !== undefined)
    return system === 'us' ? sixteenths(number) : `${sixteenths(number)} in`;
  if (said?.sign !== own) return text;
  return text
    .replace(/ ?(?:"|mm|in|inch|inches|millimet(?:er|re)s?)\.?$/i, '')
    .replace(/(\d)-(\d)/, '$1 $2');
}

/** Inches as a maker reads them: `1 3/4`. */
export function sixteenths(inches: number): string {
  const whole = Math.floor(inches);
  let over = Math.round((inches - whole) * 16);
  let under = 16;
  while (over > 0 && over % 2 === 0) {
    over /= 2;
    under /= 2;
  }
  if (over === 0) return String(whole);
  return whole === 0 ? `${over}/${under}` : `${whole} ${over}/${under}`;
}
