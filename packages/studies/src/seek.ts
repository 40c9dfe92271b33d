import type { CellView } from '@kerfbook/workbook';
import {
  type Asker,
  type Failing,
  isStopped,
  numberOf,
  type Outcome,
  outcomes,
  type Waiting,
} from './ask.ts';
import { StudyFault } from './fault.ts';
import { knownCell, type Span, type StudyBook, scalarIn } from './inputs.ts';

/** What a seek is to make true of a result. */
export interface Goal {
  /** The result. */
  readonly cell: CellView;
  /** How it is to stand to the number. */
  readonly is: 'equal' | 'at most' | 'at least';
  /** In the workbook's own units. */
  readonly than: number;
}

const GOAL =
  /^([^\s<>=≤≥]+)(?:\s*(?:(<=|>=|≤|≥|=)\s*|(?<=\s)(at most|at least|up to|from)\s+)|\s+)(.+)$/su;
const WORDS: Readonly<Record<string, Goal['is']>> = {
  '<=': 'at most',
  '≤': 'at most',
  'at most': 'at most',
  'up to': 'at most',
  '>=': 'at least',
  '≥': 'at least',
  'at least': 'at least',
  from: 'at least',
};

/** Reads a goal: `price 2400`, `price at most $2,400`, `seats >= 8`. @throws StudyFault with a sentence */
export function goalOf(book: StudyBook, text: string): Goal {
  const [, name = '', sign, words, entry = ''] = GOAL.exec(text.trim()) ?? [];
  if (name === '') {
    throw new StudyFault(
      `"${text}" is no goal. Write the name of a result and what it should be, such as price at most 2400.`,
    );
  }
  const cell = knownCell(book, name);
  const than = scalarIn(book, cell, entry);
  if (typeof than !== 'number') {
    throw new StudyFault(`A seek looks for a number; ${name} should be "${entry}".`);
  }
  return { cell, is: WORDS[sign ?? words ?? ''] ?? 'equal', than };
}

/** A value of the input, and what the workbook comes to with it. */
export interface Mark {
  /** The input, in the workbook's own units. */
  readonly at: number;
  /** The result; undefined where it is no number. */
  readonly comes: number | undefined;
  /** Checks that are not passed there. */
  readonly failing: readonly Failing[];
}

/** A place where the result passes the goal by. */
export interface Crossing {
  /** The input that gives the goal, to a millionth of its range; undefined where the result jumps over it. */
  readonly exact?: Mark;
  /** The two marks of the input's own steps on both sides; the same twice where a mark gives just the goal. */
  readonly between: readonly [Mark, Mark];
}

/** A stretch of the input over which the goal holds. */
export interface Stretch {
  /** Its least input. */
  readonly from: Mark;
  /** Its greatest input. */
  readonly to: Mark;
}

/** What a seek found. */
export interface Found {
  /** What was to be made true. */
  readonly goal: Goal;
  /** Over which input. */
  readonly span: Span;
  /** Where the result is just what was asked for, or jumps over it; from the least input on. Of an equal goal. */
  readonly crossings: readonly Crossing[];
  /** Where the goal holds, and every check too where that was asked for. Of goals at most and at least. */
  readonly stretches: readonly Stretch[];
  /** The least and the most that the result comes to in the range; undefined where it comes to no number. */
  readonly reach: readonly [Mark, Mark] | undefined;
  /** Inputs that were tried; those between them were not. */
  readonly tried: number;
  /** How far apart those lie that were tried first. */
  readonly apart: number;
  /** Inputs for which the result is no number. */
  readonly lost: number;
  /** Inputs that fulfil the goal and break a check; only where checks were to hold. */
  readonly refused: readonly Mark[];
}

/** Inputs that are tried one by one, where the range has no more steps; else so many are tried first. */
const MOST_MARKS = 400;
const COARSE = 200;
/** Rounds in which what lies between two tries is divided, and into how many. */
const ROUNDS = 12;
const PARTS = 16;

/**
 * Looks for the input that makes a goal true. Every step of the input is tried where there are no more than 400; else
 * 200 places of its range, and then what lies between two of them that stand on different sides of the goal.
 *
 * @param keep only where no check says stop
 */
export async function seek(
  book: StudyBook,
  asker: Asker,
  { goal, span, keep }: { readonly goal: Goal; readonly span: Span; readonly keep: boolean },
  waiting: Waiting = {},
): Promise<Found> {
  const tries = new Tries(book, asker, goal, span, waiting);
  const first = firstTries(span);
  const marks = await tries.at(first);
  const numbers = marks.filter(({ comes }) => comes !== undefined);
  const apart = first.length < 2 ? 0 : (span.to - span.from) / (first.length - 1);
  const reach = numbers.length === 0 ? undefined : reachOf(numbers);
  const common = { goal, span, reach, apart, lost: marks.length - numbers.length };
  if (goal.is === 'equal') {
    const all = await crossingsOf(tries, marks);
    const holds = (one: Crossing): boolean =>
      !keep || !isStopped(one.exact ?? one.between[0]) || !isStopped(one.between[1]);
    const refused = all
      .filter((one) => !holds(one))
      .map(({ exact, between }) => exact ?? between[0]);
    return { ...common, crossings: all.filter(holds), stretches: [], refused, tried: tries.tried };
  }
  const good = (mark: Mark): boolean => fulfils(goal, mark) && !(keep && isStopped(mark));
  const stretches = await stretchesOf(tries, marks, good);
  const refused = keep ? marks.filter((mark) => fulfils(goal, mark) && isStopped(mark)) : [];
  return { ...common, crossings: [], stretches, refused, tried: tries.tried };
}

const fulfils = ({ is, than }: Goal, { comes }: Mark): boolean =>
  comes !== undefined && (is === 'at most' ? comes <= than : comes >= than);

/** Places of the range to try first, on the input's own steps where it has some; both ends among them. */
function firstTries({ from, to, step }: Span): readonly number[] {
  const steps =
    step === undefined ? Number.POSITIVE_INFINITY : Math.floor((to - from) / step + 1e-9);
  if (steps <= MOST_MARKS) {
    const marks = Array.from({ length: steps + 1 }, (_, i) => onStep(from + i * (step ?? 0)));
    return (marks.at(-1) ?? from) < to - 1e-9 * Math.abs(to - from) ? [...marks, to] : marks;
  }
  const places = Array.from({ length: COARSE + 1 }, (_, i) => {
    const place = from + ((to - from) * i) / COARSE;
    return i === COARSE ? to : snap(place, from, step);
  });
  return [...new Set(places)];
}

const onStep = (value: number): number => Number(value.toPrecision(15));
const snap = (place: number, from: number, step: number | undefined): number =>
  step === undefined ? place : onStep(from + Math.round((place - from) / step) * step);

/** What was tried, each input once. */
class Tries {
  readonly #book: StudyBook;
  readonly #asker: Asker;
  readonly #goal: Goal;
  readonly #span: Span;
  readonly #waiting: Waiting;
  readonly #known = new Map<number, Mark>();

  constructor(book: StudyBook, asker: Asker, goal: Goal, span: Span, waiting: Waiting) {
    this.#book = book;
    this.#asker = asker;
    this.#goal = goal;
    this.#span = span;
    this.#waiting = waiting;
  }

  get tried(): number {
    return this.#known.size;
  }

  get goal(): Goal {
    return this.#goal;
  }

  get span(): Span {
    return this.#span;
  }

  /** @throws StudyFault where it was stopped before all were tried */
  async at(places: readonly number[]): Promise<readonly Mark[]> {
    const news = [...new Set(places.filter((place) => !this.#known.has(place)))];
    const inputs = [this.#span.cell];
    const sets = news.map((place) => [place]);
    const rows = await outcomes(
      this.#book,
      this.#asker,
      { inputs, results: [this.#goal.cell], sets },
      this.#waiting,
    );
    for (const [i, row] of rows.entries()) {
      if (row === undefined)
        throw new StudyFault('The search was stopped before it found anything.');
      this.#known.set(news[i] as number, markOf(news[i] as number, row));
    }
    return places.map((place) => this.#known.get(place) as Mark);
  }
}

const markOf = (at: number, { values, failing }: Outcome): Mark => ({
  at,
  comes: numberOf(values[0]),
  failing,
});

function reachOf(marks: readonly Mark[]): readonly [Mark, Mark] {
  const by = (better: (one: number, other: number) => boolean): Mark =>
    marks.reduce((best, mark) =>
      better(mark.comes as number, best.comes as number) ? mark : best,
    );
  return [by((one, other) => one < other), by((one, other) => one > other)];
}

/** Which side of the goal a result is on; 0 where it is just that. */
function sideOf({ than }: Goal, { comes }: Mark): number | undefined {
  if (comes === undefined) return undefined;
  return isJust(comes, than) ? 0 : Math.sign(comes - than);
}

/** As near as numbers of a spreadsheet come to one another. */
const isJust = (comes: number, than: number): boolean =>
  Math.abs(comes - than) <= 1e-9 * Math.max(1, Math.abs(than));

async function crossingsOf(tries: Tries, marks: readonly Mark[]): Promise<readonly Crossing[]> {
  const { goal } = tries;
  const found: Crossing[] = [];
  for (let i = 0; i < marks.length; i += 1) {
    const here = marks[i] as Mark;
    const next = marks[i + 1];
    const side = sideOf(goal, here);
    if (side === 0) {
      found.push({ exact: here, between: [here, here] });
      continue;
    }
    if (next === undefined || side === undefined) continue;
    const other = sideOf(goal, next);
    if (other === undefined || other === 0 || other === side) continue;
    found.push(await narrowed(tries, here, next));
  }
  return found;
}

/** Two tries on different sides of the goal, and what lies between: the marks next to it, and the place itself. */
async function narrowed(tries: Tries, low: Mark, high: Mark): Promise<Crossing> {
  const { goal, span } = tries;
  const side = sideOf(goal, low);
  let [one, other] = [low, high];
  let marks: readonly [Mark, Mark] | undefined = isNextTo(one, other, span.step)
    ? [one, other]
    : undefined;
  for (let round = 0; round < ROUNDS; round += 1) {
    const step = marks === undefined ? span.step : undefined;
    const places = Array.from({ length: PARTS - 1 }, (_, i) =>
      snap(one.at + ((other.at - one.at) * (i + 1)) / PARTS, span.from, step),
    ).filter((place) => place > one.at && place < other.at);
    const line = [one, ...(await tries.at([...new Set(places)])), other];
    const just = line.find((mark) => sideOf(goal, mark) === 0);
    if (just !== undefined) return { exact: just, between: marks ?? [just, just] };
    const at = line.findIndex((mark, i) => i > 0 && sideOf(goal, mark) !== side);
    [one, other] = [line[at - 1] as Mark, line[at] as Mark];
    if (marks === undefined && isNextTo(one, other, span.step)) marks = [one, other];
    if (other.at - one.at <= 1e-12 * Math.max(1, Math.abs(span.to))) break;
  }
  const between = marks ?? [one, other];
  const [a, b] = [one.comes, other.comes];
  if (a === undefined || b === undefined) return { between };
  // Where it goes on without a jump, both ends of so short a stretch come to the goal.
  const wide = Math.abs((between[1].comes ?? b) - (between[0].comes ?? a));
  const near = Math.abs(a - goal.than) <= Math.abs(b - goal.than) ? one : other;
  return Math.abs(a - b) <= 1e-6 * Math.max(wide, 1e-6 * Math.abs(goal.than))
    ? { exact: near, between }
    : { between };
}

const isNextTo = (one: Mark, other: Mark, step: number | undefined): boolean =>
  step === undefined || other.at - one.at <= step * (1 + 1e-9);

/** Stretches over which it is good, their ends brought to the last step that is. */
async function stretchesOf(
  tries: Tries,
  marks: readonly Mark[],
  good: (mark: Mark) => boolean,
): Promise<readonly Stretch[]> {
  const found: Stretch[] = [];
  for (let i = 0; i < marks.length; i += 1) {
    if (!good(marks[i] as Mark)) continue;
    let end = i;
    while (end + 1 < marks.length && good(marks[end + 1] as Mark)) end += 1;
    const before = marks[i - 1];
    const after = marks[end + 1];
    const [first, last] = [marks[i] as Mark, marks[end] as Mark];
    found.push({
      from: before === undefined ? first : await lastGood(tries, first, before, good),
      to: after === undefined ? last : await lastGood(tries, last, after, good),
    });
    i = end;
  }
  return found;
}

/** From a good try towards one that is not: the last step that is good. */
async function lastGood(
  tries: Tries,
  inside: Mark,
  outside: Mark,
  good: (mark: Mark) => boolean,
): Promise<Mark> {
  const { span } = tries;
  const finest = span.step ?? 1e-9 * (span.to - span.from);
  let [one, other] = [inside, outside];
  for (
    let round = 0;
    round < ROUNDS && Math.abs(other.at - one.at) > finest * (1 + 1e-9);
    round += 1
  ) {
    const places = Array.from({ length: PARTS - 1 }, (_, i) =>
      snap(one.at + ((other.at - one.at) * (i + 1)) / PARTS, span.from, span.step),
    ).filter((place) => place !== one.at && place !== other.at);
    if (places.length === 0) break;
    const line = [one, ...(await tries.at([...new Set(places)])), other];
    const at = line.findIndex((mark) => !good(mark));
    [one, other] = [line[at - 1] as Mark, line[at] as Mark];
  }
  return one;
}
