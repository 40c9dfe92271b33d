import type { How } from './data/provenance.ts';
import type { Quantity } from './quantity.ts';

/** A value of the tables, or an equation, that a result rests on. */
export interface RestsOn {
  /** What it is of: `White oak: movement, flat-sawn`. */
  readonly of: string;
  /** In the us unit of its quantity; left out of an equation. */
  readonly value?: number;
  /** What the value is. */
  readonly quantity?: Quantity;
  /** Whether it was read, worked out or remembered. */
  readonly how: How;
  /** The publication and its table. */
  readonly source: string;
  /** What is known against it. */
  readonly note?: string;
}

/** What a calculation rested on. */
export interface Rested {
  /** Each value once, in the order in which they were asked for. */
  readonly values: readonly RestsOn[];
  /** Where it went beyond what its values hold for, a sentence each. */
  readonly cautions: readonly string[];
}

interface Noting {
  readonly values: Map<string, RestsOn>;
  readonly cautions: Set<string>;
}

let noting: Noting | undefined;

/** Runs a calculation and tells which values of the tables its functions took. */
export function restingOn(run: () => unknown): Rested {
  const before = noting;
  const now: Noting = { values: new Map(), cautions: new Set() };
  noting = now;
  try {
    run();
  } finally {
    noting = before;
  }
  return { values: [...now.values.values()], cautions: [...now.cautions] };
}

/** What it comes to, with nothing noted: the values of a fit are none that the result is of. */
export function unnoted<T>(run: () => T): T {
  const before = noting;
  noting = undefined;
  try {
    return run();
  } finally {
    noting = before;
  }
}

/** Notes a value that was taken, where somebody asks for it. */
export function rests(on: RestsOn): void {
  noting?.values.set(`${on.of} ${on.value}`, on);
}

/** Notes a sentence on how far the values hold, where somebody asks for it. */
export function cautions(says: () => string): void {
  noting?.cautions.add(says());
}

const HOW_WORDS: Readonly<Record<How, string>> = {
  read: 'read',
  memory: 'from memory',
  'seen older': 'from memory, seen in an older edition',
  computed: 'worked out',
  group: 'row of its group',
  own: 'your own',
  practice: 'common practice, no source',
};

/** How a value was obtained, in words. */
export const howWords = (how: How): string => HOW_WORDS[how];
