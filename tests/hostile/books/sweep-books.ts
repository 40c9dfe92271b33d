import { anyOf, type Chance, chanceOf, nearOf } from '../tables/draws.ts';
import type { Trial, Values } from '../tables/trial.ts';
import { faultsOf, holesOf, isStopped, sentencesOf } from './book-faults.ts';

/** Inputs with which something is wrong that no check stops. */
export interface BookFind {
  /** The fewest inputs that differ from the template as it ships, by their names. */
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly faults: readonly string[];
}

/** What a sweep of a workbook came to. */
export interface BookSwept {
  /** Draws that no check stops. */
  readonly passed: number;
  readonly finds: readonly BookFind[];
  /** One sentence of each check that fired, by the check's id. */
  readonly sentences: ReadonlyMap<string, string>;
}

/** One draw in this many is from anywhere in all ranges: few of those can be built. */
const ANYWHERE = 4;
/** Most inputs that change in a draw near the workbook as it ships. */
const MOST_CHANGED = 8;
/** One in this many of those that pass is planned too: that takes longer than all else. */
const PLANNED = 8;
/** Finds that are told: the first ones tell enough, and each is made smaller, which takes a while. */
const MOST_FINDS = 3;

/** Draws inputs of a workbook, near it as it ships and from anywhere; what no check stops must be whole. */
export function sweepBook(trial: Trial, draws: number, seed: number): BookSwept {
  const chance = chanceOf(seed);
  const finds: BookFind[] = [];
  const sentences = new Map<string, string>();
  let passed = 0;
  for (let draw = 0; draw < draws && finds.length < MOST_FINDS; draw += 1) {
    const values = draw % ANYWHERE === 0 ? drawAny(trial, chance) : drawNear(trial, chance);
    const isPlanned = passed % PLANNED === 0;
    const { faults, stops, fires } = tried(trial, values, isPlanned);
    if (!stops) passed += 1;
    if (faults.length > 0) finds.push(smallest(trial, values, isPlanned));
    if (fires.some((id) => !sentences.has(id))) {
      for (const [id, says] of sentencesOf(trial, values)) sentences.set(id, says);
    }
  }
  return { passed, finds, sentences };
}

interface Tried {
  readonly faults: readonly string[];
  readonly stops: boolean;
  /** Checks that fire, by their ids. */
  readonly fires: readonly string[];
}

function tried(trial: Trial, values: Values, planned: boolean): Tried {
  const outcome = trial.outcome(values);
  const stops = isStopped(outcome);
  const fires = trial.document.checks.filter((_, i) => outcome.standings[i] !== 'pass');
  return {
    faults: [...holesOf(trial, outcome), ...(stops ? [] : faultsOf(trial, outcome, planned))],
    stops,
    fires: fires.map(({ id }) => id),
  };
}

/** Inputs from anywhere in their ranges. */
export const drawAny = (trial: Trial, chance: Chance): Values =>
  trial.drawn.map(({ domain }) => anyOf(domain, chance));

/** Inputs near those that ship: a few of them change. */
export function drawNear(trial: Trial, chance: Chance): Values {
  const values = [...trial.shipped];
  const changes = 1 + Math.floor(chance() * MOST_CHANGED);
  for (let change = 0; change < changes; change += 1) {
    const i = Math.floor(chance() * values.length);
    const domain = trial.drawn[i]?.domain;
    if (domain === undefined) continue;
    const far = chance() < 1 / 3;
    values[i] = far ? anyOf(domain, chance) : nearOf(values[i] ?? null, domain, chance);
  }
  return values;
}

/** Puts back every input that is not needed for anything to be wrong. */
function smallest(trial: Trial, values: Values, isPlanned: boolean): BookFind {
  const planned = isPlanned && tried(trial, values, false).faults.length === 0;
  let small = [...values];
  for (let i = 0; i < small.length; i += 1) {
    if (small[i] === trial.shipped[i]) continue;
    const fewer = small.with(i, trial.shipped[i] ?? null);
    if (tried(trial, fewer, planned).faults.length > 0) small = fewer;
  }
  const changed = small.flatMap((value, i) =>
    value === trial.shipped[i] ? [] : [[trial.nameOf(i), value] as const],
  );
  return { inputs: Object.fromEntries(changed), faults: tried(trial, small, planned).faults };
}
