import type { Corner } from '../blocks.ts';
import type { AxisPlace } from './forms.ts';
import {
  type AxisRule,
  type Goal,
  knownNames,
  type PlaceWords,
  readPlaceWords,
} from './place-words.ts';
import { PLACE_SAYS, PlaceFault } from './says.ts';
import { alongAxes, type Sides, type Turn } from './turn.ts';

/** One row of a parts table that may have a place; all lengths in one unit. */
export interface PartToPlace extends Sides {
  /** What other rows call it. */
  readonly name: string;
  /** A whole number; with 0 it is not made, and others find their places by its size and its place. */
  readonly count: number;
  /** Where it goes, in words; left out where x, y and z alone say it. */
  readonly words?: string;
  /** x, y and z, each left out where the row does not say. */
  readonly numbers: readonly [number | undefined, number | undefined, number | undefined];
  /** From one copy to the next, where the row has no words. */
  readonly step: Corner;
  /** Which side runs along which axis; left out where the row does not say. */
  readonly turn?: Turn;
  /** What it takes up along x, y and z at its upper end and in height, where its sides do not say: it leans. */
  readonly room?: (turn: Turn) => Corner;
  /** Whether it matters on which side of what it is placed by a piece stands. */
  readonly asksMiddle?: boolean;
}

/** Pieces along one axis: the first begins at `start`, each further one `step` on. */
export interface PlacedLine {
  /** Where the lower side of the first is. */
  readonly start: number;
  /** From one to the next; of no meaning for one. */
  readonly step: number;
  /** How many stand along this axis, 1 or more. */
  readonly count: number;
}

/** Where the pieces of a row are. */
export interface PlacedPart {
  /** Which side runs along which axis. */
  readonly turn: Turn;
  /** Along, across and up. */
  readonly lines: readonly [PlacedLine, PlacedLine, PlacedLine];
  /** Each piece goes on along all axes at once, instead of one for each place of a grid. */
  readonly together: boolean;
  /** What it reaches across with its length; left out where it lies between no others, or otherwise. */
  readonly gap?: PlacedGap;
  /** The middle of what it is placed by, along and across; left out where nobody asks, or it goes by nothing. */
  readonly middle?: readonly [number, number];
}

/** A gap between other parts. */
export interface PlacedGap {
  /** Between the outermost pieces of one part, or between two parts. */
  readonly between: readonly string[];
  /** Less than 0 where they run into each other. */
  readonly room: number;
  /** Neither words nor a number say how high: it lies on the floor. */
  readonly onFloor?: true;
}

/** Why a row that asks for a place has none. */
export interface NoPlace {
  /** One sentence about its place. */
  readonly says: string;
  /** What is wrong is said of another row, which it goes by in the end. */
  readonly rests?: true;
}

/** What placing a row comes to: its pieces, no place at all, or why not. */
export type Placement = PlacedPart | 'nowhere' | NoPlace;

/** Rows that have a name and are not placed: of which none are wanted, and that cannot be read. */
export interface NotPlaced {
  /** Names of parts with a count of 0 whose sizes cannot be read. */
  readonly none: readonly string[];
  /** Names of parts whose sizes or count cannot be read. */
  readonly unread: readonly string[];
  /** Names of parts that say no place, where they are not among the rows. */
  readonly nowhere?: readonly string[];
}

/** The corner of a piece with the least of each, by which of the row's pieces it is, from 0. */
export function cornerOf({ lines, together }: PlacedPart, copy: number): Corner {
  const [x, y, z] = lines;
  const at = ({ start, step }: PlacedLine, place: number): number => start + place * step;
  if (together) return [at(x, copy), at(y, copy), at(z, copy)];
  const level = copy % (x.count * y.count);
  return [
    at(x, Math.floor(level / y.count)),
    at(y, level % y.count),
    at(z, Math.floor(copy / (x.count * y.count))),
  ];
}

/**
 * Places the rows of a parts table by their words and numbers. Each axis is worked out by itself, so
 * that a top can lie on legs that stand at its corners. A part counted 0 stands in for one of another
 * workbook: it has a place for those that name it, and none of its own trouble is anybody's who does not.
 * @param parts in the order of the table
 * @param others rows that words may name and that have no pieces
 * @returns one for each part, in that order
 */
export function placeParts(
  parts: readonly PartToPlace[],
  others: NotPlaced = { none: [], unread: [] },
): readonly Placement[] {
  return new Placer(parts, others).placements();
}

interface Span {
  readonly low: number;
  readonly high: number;
}

const AXES = [0, 1, 2] as const;

/** Places nearer to each other than this are one, in the unit of the table. */
const SAME = 1e-9;

class Placer {
  readonly #parts: readonly PartToPlace[];
  readonly #others: NotPlaced;
  readonly #byName = new Map<string, number[]>();
  readonly #words = new Map<number, PlaceWords | PlaceFault>();
  readonly #lines = new Map<string, PlacedLine | PlaceFault>();
  /** Lines that are being worked out, the last one innermost. */
  readonly #under: string[] = [];

  constructor(parts: readonly PartToPlace[], others: NotPlaced) {
    this.#parts = parts;
    this.#others = others;
    for (const [index, { name }] of parts.entries()) {
      const rows = this.#byName.get(name);
      if (rows === undefined) this.#byName.set(name, [index]);
      else rows.push(index);
    }
    if (parts.every(({ words }) => words === undefined)) return;
    const known = knownNames([
      ...others.unread,
      ...others.none,
      ...(others.nowhere ?? []),
      ...this.#byName.keys(),
    ]);
    for (const [index, { name, words }] of parts.entries()) {
      if (words === undefined) continue;
      this.#words.set(
        index,
        attempt(() => readPlaceWords(name, words, known)),
      );
    }
  }

  placements(): readonly Placement[] {
    return this.#parts.map((part, index): Placement => {
      if (isNowhere(part)) return 'nowhere';
      const placed = attempt(() => this.#placed(part, index));
      return placed instanceof PlaceFault ? noPlace(placed, part, index) : placed;
    });
  }

  #placed(part: PartToPlace, index: number): PlacedPart {
    const words = this.#wordsOf(index);
    const turn = turnOf(part, words);
    const [x, y, z] = AXES.map((axis) => this.#line(index, axis));
    if (x === undefined || y === undefined || z === undefined) throw new Error('three axes');
    const gap = this.#reachOf(index, turn, words);
    const middle = part.asksMiddle === true ? this.#middleOf(index, words) : undefined;
    return {
      turn,
      lines: [x, y, z],
      together: words === undefined,
      ...(gap === undefined ? {} : { gap }),
      ...(middle === undefined ? {} : { middle }),
    };
  }

  /** The middle of what words place a part by; undefined where they name nothing that can be found. */
  #middleOf(index: number, words: PlaceWords | undefined): readonly [number, number] | undefined {
    if (words === undefined) return undefined;
    const middle = attempt(() =>
      ([0, 1] as const).map((axis) => {
        const own = words.rules.get(axis);
        const rule = own ?? words.rules.get(0) ?? words.rules.get(1) ?? words.rules.get(2);
        const goal = this.#goalOf(index, words, rule?.goal ?? { names: [], gap: false });
        const isGap = goal.gap && own !== undefined;
        const { low, high } = isGap
          ? this.#gapOf(index, goal, axis)
          : this.#around(index, goal, axis);
        return (low + high) / 2;
      }),
    );
    // What cannot be found is said where it keeps the part from its place.
    return middle instanceof PlaceFault ? undefined : [middle[0]!, middle[1]!];
  }

  #reachOf(index: number, turn: Turn, words: PlaceWords | undefined): PlacedGap | undefined {
    const axis = words?.reaches;
    const goal = axis === undefined ? undefined : words?.rules.get(axis)?.goal;
    if (axis === undefined || goal === undefined || turn[axis] !== 'L') return undefined;
    const { low, high } = this.#gapOf(index, goal, axis);
    const onFloor = !words?.rules.has(2) && this.#part(index).numbers[2] === undefined;
    return { between: goal.names, room: high - low, ...(onFloor ? { onFloor } : {}) };
  }

  /** Where a row stands along one axis, worked out once. */
  #line(index: number, axis: AxisPlace): PlacedLine {
    const key = `${index} ${axis}`;
    const known = this.#lines.get(key);
    if (known instanceof PlaceFault) throw known;
    if (known !== undefined) return known;
    if (this.#under.includes(key)) throw this.#goesAround(key, axis);
    this.#under.push(key);
    const line = attempt(() => this.#workOut(index, axis));
    this.#under.pop();
    // What it goes by has been asked before: a fault that nobody owns yet is its own.
    if (line instanceof PlaceFault) line.from ??= { name: this.#nameAt(index), index };
    this.#lines.set(key, line);
    if (line instanceof PlaceFault) throw line;
    return line;
  }

  #goesAround(key: string, axis: AxisPlace): PlaceFault {
    const circle = this.#under
      .slice(this.#under.indexOf(key))
      .map((each) => Number(each.split(' ')[0]));
    const [first = 0, second = first] = circle;
    const name = this.#nameAt(first);
    const other = circle.length === 2 ? this.#nameAt(second) : name;
    const fault = new PlaceFault(PLACE_SAYS.around(name, other, axis));
    fault.from = { name, index: first };
    return fault;
  }

  #workOut(index: number, axis: AxisPlace): PlacedLine {
    const part = this.#part(index);
    const words = this.#wordsOf(index);
    const number = part.numbers[axis];
    if (words === undefined) {
      return { start: number ?? 0, step: part.step[axis], count: Math.max(1, part.count) };
    }
    const side = roomOf(part, turnOf(part, words))[axis];
    const count = sharesOf(part, words)[axis];
    const rule = words.rules.get(axis);
    if (rule !== undefined) {
      const goal = this.#goalOf(index, words, rule.goal);
      const span = goal.gap ? this.#gapOf(index, goal, axis) : this.#around(index, goal, axis);
      return lineBy(rule, span, { side, count, number });
    }
    const level = words.rules.get(0) ?? words.rules.get(1);
    if (axis === 2 || level === undefined) return { start: number ?? 0, step: 0, count };
    const span = this.#around(index, this.#goalOf(index, words, level.goal), axis);
    const kind = number === undefined ? 'middle' : 'low';
    return lineBy({ kind, goal: level.goal }, span, { side, count, number });
  }

  /** What a rule goes by where it names nothing: what the place names elsewhere, or the first part that has a place. */
  #goalOf(index: number, { rules }: PlaceWords, goal: Goal): Goal {
    if (goal.names.length > 0) return goal;
    for (const other of rules.values()) {
      if (other.goal.names.length > 0) return { names: other.goal.names, gap: false };
    }
    const own = this.#nameAt(index);
    const first = this.#parts.find(
      (part) => part.name !== own && part.count > 0 && !isNowhere(part),
    );
    if (first === undefined) throw new PlaceFault(PLACE_SAYS.alone(own));
    return { names: [first.name], gap: false };
  }

  /** The spans of the outermost pieces of a part: the lowest and the highest. */
  #outermost(index: number, name: string, axis: AxisPlace): readonly [Span, Span] {
    const own = this.#nameAt(index);
    if (name === own) throw new PlaceFault(PLACE_SAYS.itself(own));
    const rows = this.#byName.get(name);
    if (rows === undefined) throw this.#without(own, name);
    const made = rows.filter((row) => this.#part(row).count > 0);
    const spans =
      made.length > 0
        ? made.flatMap((row) => this.#ends(own, row, axis))
        : this.#inPlaceOf(own, rows, axis);
    const [first] = spans;
    if (first === undefined) throw new Error('a part has a row');
    return [
      spans.reduce((least, one) => (one.low < least.low ? one : least), first),
      spans.reduce((most, one) => (one.high > most.high ? one : most), first),
    ];
  }

  /** Where parts counted 0 would be. What keeps them from a place is told of who goes by them. */
  #inPlaceOf(own: string, rows: readonly number[], axis: AxisPlace): readonly Span[] {
    const spans = attempt(() => rows.flatMap((row) => this.#ends(own, row, axis)));
    if (!(spans instanceof PlaceFault)) return spans;
    throw new PlaceFault(PLACE_SAYS.none(own, this.#nameAt(rows[0]!)));
  }

  /** Why a part goes by another one that has no row here. */
  #without(own: string, name: string): PlaceFault {
    const { none, nowhere = [] } = this.#others;
    if (none.includes(name)) return new PlaceFault(PLACE_SAYS.none(own, name));
    if (nowhere.includes(name)) return new PlaceFault(PLACE_SAYS.nowhere(own, name));
    const fault = new PlaceFault(PLACE_SAYS.rests(own, name));
    fault.from = { name };
    return fault;
  }

  /** The first and the last piece of a row along an axis. */
  #ends(own: string, row: number, axis: AxisPlace): readonly Span[] {
    const part = this.#part(row);
    if (isNowhere(part)) throw new PlaceFault(PLACE_SAYS.nowhere(own, part.name));
    const { start, step, count } = this.#line(row, axis);
    const words = this.#wordsOf(row);
    const side = roomOf(part, turnOf(part, words))[axis];
    return [0, count - 1].map((place) => ({
      low: start + place * step,
      high: start + place * step + side,
    }));
  }

  #around(index: number, { names }: Goal, axis: AxisPlace): Span {
    const ends = names.flatMap((name) => this.#outermost(index, name, axis));
    return {
      low: Math.min(...ends.map(({ low }) => low)),
      high: Math.max(...ends.map(({ high }) => high)),
    };
  }

  #gapOf(index: number, { names }: Goal, axis: AxisPlace): Span {
    const own = this.#nameAt(index);
    const [one = '', other] = names;
    if (other === undefined) {
      const [lowest, highest] = this.#outermost(index, one, axis);
      if (highest.low - lowest.low < SAME) {
        throw new PlaceFault(PLACE_SAYS.oneLine(own, one, axis));
      }
      return { low: lowest.high, high: highest.low };
    }
    const a = this.#around(index, { names: [one], gap: false }, axis);
    const b = this.#around(index, { names: [other], gap: false }, axis);
    const apart = b.low + b.high - a.low - a.high;
    if (Math.abs(apart) < SAME) throw new PlaceFault(PLACE_SAYS.noGap(own, one, other, axis));
    return apart > 0 ? { low: a.high, high: b.low } : { low: b.high, high: a.low };
  }

  #wordsOf(index: number): PlaceWords | undefined {
    const words = this.#words.get(index);
    if (!(words instanceof PlaceFault)) return words;
    words.from ??= { name: this.#nameAt(index), index };
    throw words;
  }

  #part(index: number): PartToPlace {
    const part = this.#parts[index];
    if (part === undefined) throw new Error(`no row ${index}`);
    return part;
  }

  #nameAt(index: number): string {
    return this.#part(index).name;
  }
}

/** What is wrong is said where it began; of what rests on that, only that it does. */
function noPlace({ from, message }: PlaceFault, { name }: PartToPlace, index: number): NoPlace {
  if (from === undefined || from.index === index) return { says: message };
  return { says: PLACE_SAYS.rests(name, from.name), rests: true };
}

/** A fault as a value, so that it can be kept. */
function attempt<T>(run: () => T): T | PlaceFault {
  try {
    return run();
  } catch (error) {
    if (error instanceof PlaceFault) return error;
    throw error;
  }
}

const roomOf = (part: PartToPlace, turn: Turn): Corner =>
  part.room?.(turn) ?? alongAxes(turn, part);

const isNowhere = ({ words, numbers }: PartToPlace): boolean =>
  words === undefined && numbers.every((number) => number === undefined);

const isSpaced = ({ kind }: AxisRule): boolean =>
  kind === 'spaces' || kind === 'centers' || kind === 'spread';

/**
 * How many pieces stand along each axis; together they are as many as the row counts, or as its words take
 * where it counts none.
 */
function sharesOf(part: PartToPlace, { rules }: PlaceWords): readonly [number, number, number] {
  const { name } = part;
  if (part.step.some((one) => one !== 0)) throw new PlaceFault(PLACE_SAYS.stepped(name));
  const spaced = AXES.filter((axis) => {
    const rule = rules.get(axis);
    return rule !== undefined && isSpaced(rule);
  });
  if (spaced.length > 1) throw new PlaceFault(PLACE_SAYS.manyEqual(name));
  const fixed: readonly number[] = AXES.map((axis) => (rules.get(axis)?.kind === 'pair' ? 2 : 1));
  const takes = fixed.reduce((product, one) => product * one, 1);
  const count = part.count === 0 ? takes : part.count;
  if (spaced.length === 0 && takes !== count) {
    throw new PlaceFault(PLACE_SAYS.count(name, takes, count));
  }
  if (count % takes !== 0) throw new PlaceFault(PLACE_SAYS.shares(name, takes, count));
  const share = (axis: AxisPlace): number =>
    spaced.includes(axis) ? count / takes : (fixed[axis] ?? 1);
  return [share(0), share(1), share(2)];
}

/** As the row says it, in letters or in words; else as such a part usually lies. */
function turnOf(part: PartToPlace, words: PlaceWords | undefined): Turn {
  const { lies, reaches, rules } = words ?? {};
  if (part.turn !== undefined) {
    if (lies !== undefined) throw new PlaceFault(PLACE_SAYS.turned(part.name, part.turn));
    return part.turn;
  }
  if (rules === undefined) return 'LWT';
  const isCorners = rules.get(0)?.kind === 'pair' && rules.get(1)?.kind === 'pair';
  const usual = isCorners || reaches === 2 ? 'upright' : reaches === undefined ? 'flat' : 'edge';
  const how = lies?.how ?? usual;
  const runs = lies?.runs ?? reaches ?? (isCorners ? 0 : usualRun(how, rules));
  return TURNED[how][runs === 1 ? 1 : 0];
}

/**
 * Bearers, slats and trestles run square to the way they follow one another; upright ones at equal
 * spaces stand side by side.
 */
function usualRun(how: keyof typeof TURNED, rules: PlaceWords['rules']): AxisPlace {
  const [along, across] = [rules.get(0), rules.get(1)];
  if (how === 'upright' && across !== undefined && isSpaced(across)) return 1;
  if (along === undefined) return 0;
  if (isSpaced(along)) return how === 'upright' ? 0 : 1;
  return along.kind === 'pair' ? 1 : 0;
}

/** Running along, and running across; what stands upright faces that way. */
const TURNED = {
  flat: ['LWT', 'WLT'],
  edge: ['LTW', 'TLW'],
  upright: ['WTL', 'TWL'],
} as const satisfies Record<string, readonly [Turn, Turn]>;

interface Along {
  /** The side of a piece along the axis. */
  readonly side: number;
  readonly count: number;
  /** What the row says under x, y or z. */
  readonly number: number | undefined;
}

function lineBy({ kind }: AxisRule, { low, high }: Span, along: Along): PlacedLine {
  const { side, count, number = 0 } = along;
  const room = high - low - 2 * number;
  const start = low + number;
  switch (kind) {
    case 'pair':
      return { start, step: room - side, count };
    case 'low':
      return { start, step: 0, count };
    case 'high':
      return { start: high - number - side, step: 0, count };
    case 'middle':
      return { start: (low + high - side) / 2 + number, step: 0, count };
    case 'above':
      return { start: high + number, step: 0, count };
    case 'below':
      return { start: low - number - side, step: 0, count };
    case 'spaces': {
      const space = (room - count * side) / (count + 1);
      return { start: start + space, step: side + space, count };
    }
    case 'centers': {
      const step = room / (count + 1);
      return { start: start + step - side / 2, step, count };
    }
    case 'spread': {
      if (count === 1) return { start: start + (room - side) / 2, step: 0, count };
      return { start, step: (room - side) / (count - 1), count };
    }
  }
}
