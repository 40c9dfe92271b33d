import type { CellView } from '@kerfbook/workbook';
import {
  type Asker,
  type Given,
  isStopped,
  numberOf,
  type Outcome,
  outcomes,
  type Waiting,
} from './ask.ts';
import { StudyFault } from './fault.ts';
import { type Axis, knownCell, type StudyBook } from './inputs.ts';
import { numbersFrom } from './random.ts';

/** A result that there should be as little of as can be, or as much. */
export interface Aim {
  /** The result. */
  readonly cell: CellView;
  /** Whether as little of it as can be, or as much. */
  readonly of: 'least' | 'most';
}

/** Reads `price`, `least price, most seats`: one aim, or two that are traded off. @throws StudyFault with a sentence */
export function aimsOf(book: StudyBook, text: string): readonly Aim[] {
  const words = text
    .split(',')
    .map((word) => word.trim())
    .filter((word) => word !== '');
  if (words.length === 0 || words.length > 2) {
    throw new StudyFault(
      'Name one result that there should be least of, or two, such as "price" or "price, most seats".',
    );
  }
  return words.map((word) => {
    const [, of, name = ''] = /^(?:(least|most)\s+)?(.+)$/su.exec(word) ?? [];
    return { cell: knownCell(book, name), of: of === 'most' ? 'most' : 'least' };
  });
}

/** One set of inputs that keeps every check, and what it comes to. */
export interface Choice {
  /** What the inputs are, in the order of the axes. */
  readonly set: Given;
  /** What the aims come to, in their order. */
  readonly comes: readonly number[];
  /** Checks that say care. */
  readonly failing: Outcome['failing'];
}

/** What was found. */
export interface Best {
  /** What was looked over. */
  readonly axes: readonly Axis[];
  /** What was looked for. */
  readonly aims: readonly Aim[];
  /** The one that comes first by the first aim, of those alike by the second; undefined where none keeps every check. */
  readonly best: Choice | undefined;
  /** Those of which no other is better by one aim without being worse by the other, by the first aim. */
  readonly front: readonly Choice[];
  /** How many sets were tried, and how many there are. */
  readonly tried: number;
  /** How many sets there are. */
  readonly of: number;
  /** How many of those tried keep every check. */
  readonly kept: number;
  /** Every set was tried: there is no better one. */
  readonly whole: boolean;
}

/** So many sets are tried one by one; of more, a part. */
const ALL = 20_000;
/** Tries spread over the whole first, and the most there are altogether. */
const FIRST = 4_000;
const MOST = 20_000;
/** From so many of the best it goes on looking next to them. */
const CLIMBERS = 12;

/**
 * Looks for the set of inputs that comes to the least or the most and breaks no check that says stop. Where there are more
 * than 20,000 sets it is a search: places spread evenly (Halton 1960), then steps from the best of them as long as one
 * is better.
 */
export async function best(
  book: StudyBook,
  asker: Asker,
  {
    axes,
    aims,
    seed = 1,
  }: { readonly axes: readonly Axis[]; readonly aims: readonly Aim[]; readonly seed?: number },
  waiting: Waiting = {},
): Promise<Best> {
  if (axes.length === 0) throw new StudyFault('Say over which inputs the best is looked for.');
  const of = axes.reduce((product, { values }) => product * values.length, 1);
  const search = new Search(book, asker, axes, aims, waiting);
  if (of <= ALL) await search.tryAll(everyPlace(axes));
  else {
    await search.tryAll(spreadPlaces(axes, Math.min(FIRST, of), seed));
    await search.climb();
  }
  const front = frontOf(search.kept, aims);
  return {
    axes,
    aims,
    best: front[0],
    front,
    tried: search.tried,
    of,
    kept: search.kept.length,
    whole: of <= ALL && search.tried === of,
  };
}

/** Where a set stands: which value of each axis it has. */
type Place = readonly number[];

const everyPlace = (axes: readonly Axis[]): readonly Place[] =>
  axes.reduce<readonly Place[]>(
    (places, { values }) => places.flatMap((place) => values.map((_, i) => [...place, i])),
    [[]],
  );

const PRIMES = [2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37];

/** Places spread evenly, shifted by a seed: J. H. Halton, Numerische Mathematik 2 (1960); from memory. */
function spreadPlaces(axes: readonly Axis[], count: number, seed: number): readonly Place[] {
  const next = numbersFrom(seed);
  const shifts = axes.map(() => next());
  return Array.from({ length: count }, (_, i) =>
    axes.map(({ values }, axis) => {
      const prime = PRIMES[axis];
      const chance =
        prime === undefined ? next() : (radical(i + 1, prime) + (shifts[axis] ?? 0)) % 1;
      return Math.min(values.length - 1, Math.floor(chance * values.length));
    }),
  );
}

/** The digits of a number to a base, mirrored at the point. */
function radical(number: number, base: number): number {
  let [left, part, sum] = [number, 1 / base, 0];
  while (left > 0) {
    sum += (left % base) * part;
    left = Math.floor(left / base);
    part /= base;
  }
  return sum;
}

interface Kept extends Choice {
  readonly place: Place;
}

class Search {
  readonly #book: StudyBook;
  readonly #asker: Asker;
  readonly #axes: readonly Axis[];
  readonly #aims: readonly Aim[];
  readonly #waiting: Waiting;
  readonly #known = new Set<string>();
  readonly kept: Kept[] = [];
  #stopped = false;

  constructor(
    book: StudyBook,
    asker: Asker,
    axes: readonly Axis[],
    aims: readonly Aim[],
    waiting: Waiting,
  ) {
    this.#book = book;
    this.#asker = asker;
    this.#axes = axes;
    this.#aims = aims;
    this.#waiting = waiting;
  }

  get tried(): number {
    return this.#known.size;
  }

  async tryAll(places: readonly Place[]): Promise<void> {
    const news = new Map(places.map((place) => [place.join(), place] as const));
    for (const key of this.#known) news.delete(key);
    const list = [...news.values()];
    const sets = list.map((place) => place.map((at, axis) => this.#axes[axis]?.values[at] ?? null));
    const before = this.tried;
    const rows = await outcomes(
      this.#book,
      this.#asker,
      {
        inputs: this.#axes.map(({ cell }) => cell),
        results: this.#aims.map(({ cell }) => cell),
        sets,
      },
      { ...this.#waiting, hear: (done) => this.#waiting.hear?.(before + done) },
    );
    for (const [i, row] of rows.entries()) {
      if (row === undefined) {
        this.#stopped = true;
        continue;
      }
      const place = list[i] as Place;
      this.#known.add(place.join());
      const comes = row.values.map(numberOf);
      if (isStopped(row) || comes.some((one) => one === undefined)) continue;
      this.kept.push({ place, set: row.set, comes: comes as number[], failing: row.failing });
    }
  }

  /** Steps of one input at a time from the best ones, large ones first, until none is better. */
  async climb(): Promise<void> {
    for (let size = 8; size >= 1; size = Math.floor(size / 2)) {
      for (let before = -1; before !== this.tried && this.tried < MOST && !this.#stopped; ) {
        before = this.tried;
        const from = this.#climbers();
        await this.tryAll(
          from.flatMap(({ place }) =>
            place.flatMap((at, axis) =>
              [-size, size].flatMap((step) => {
                const to = at + step;
                const last = (this.#axes[axis]?.values.length ?? 0) - 1;
                return to < 0 || to > last ? [] : [place.with(axis, to)];
              }),
            ),
          ),
        );
      }
    }
  }

  #climbers(): readonly Kept[] {
    const front = frontOf(this.kept, this.#aims);
    const first = this.kept
      .toSorted((one, other) => order(this.#aims, one, other))
      .slice(0, CLIMBERS);
    return [...new Set([...first, ...(front as readonly Kept[]).slice(0, CLIMBERS * 4)])];
  }
}

/** Which of two comes first by the aims, the first counting most. */
function order(aims: readonly Aim[], one: Choice, other: Choice): number {
  for (const [i, { of }] of aims.entries()) {
    const by = ((one.comes[i] ?? 0) - (other.comes[i] ?? 0)) * (of === 'least' ? 1 : -1);
    if (by !== 0) return by;
  }
  return 0;
}

/** Those of which no other is better by one aim without being worse by another, in order of the first. */
export function frontOf<C extends Choice>(kept: readonly C[], aims: readonly Aim[]): readonly C[] {
  const sorted = kept.toSorted((one, other) => order(aims, one, other));
  const front: C[] = [];
  const [, second] = aims;
  for (const choice of sorted) {
    const last = front.at(-1);
    if (last === undefined) {
      front.push(choice);
      continue;
    }
    if (second === undefined) break;
    const by = ((choice.comes[1] ?? 0) - (last.comes[1] ?? 0)) * (second.of === 'least' ? 1 : -1);
    if (by < 0) front.push(choice);
  }
  return front;
}
