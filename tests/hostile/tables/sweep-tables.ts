import { anyOf, type Chance, chanceOf, nearOf } from './draws.ts';
import type { Refusal } from './refusal.ts';
import type { Trial, Values } from './trial.ts';

/** A set of inputs that passes every check and cannot be built. */
export interface Find {
  /** The fewest inputs that differ from the template as it ships, by their names. */
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly refusals: readonly Refusal[];
}

/** What a sweep came to. */
export interface Swept {
  readonly draws: number;
  /** Draws that pass all checks: of those near a table that can be built, and of those from anywhere. */
  readonly passed: { readonly near: number; readonly anywhere: number };
  /** Draws that the judge refuses though all checks pass; finds are the first of each rule. */
  readonly refused: number;
  readonly finds: readonly Find[];
  /** How many draws each check stopped, by its name. */
  readonly stopped: Readonly<Record<string, number>>;
}

/** One draw in this many of those that pass is planned too: that takes longer than all else. */
const PLANNED = 20;
/** Inputs that change in a draw near a table. */
const MOST_CHANGED = 8;

/**
 * Draws inputs by turns near a table that can be built, with a few of them changed, and from anywhere
 * in the ranges of all inputs; whatever passes all checks is put before the judge.
 */
export function sweep(trial: Trial, bases: readonly Values[], draws: number, seed: number): Swept {
  const chance = chanceOf(seed);
  const passed = { near: 0, anywhere: 0 };
  const stopped: Record<string, number> = {};
  const finds = new Map<string, Find>();
  let refused = 0;
  for (let draw = 0; draw < draws; draw += 1) {
    const where = draw % 2 === 0 ? 'near' : 'anywhere';
    const near = where === 'near' ? drawNear(trial, bases, chance) : drawAny(trial, chance);
    const values = draw % 4 === 0 ? drawShaped(trial, near, chance) : near;
    const outcome = trial.outcome(values);
    for (const name of outcome.fails) stopped[name] = (stopped[name] ?? 0) + 1;
    if (outcome.fails.length > 0) continue;
    passed[where] += 1;
    const refusals = trial.judged(outcome, (passed.near + passed.anywhere) % PLANNED === 0);
    if (refusals.length === 0) continue;
    refused += 1;
    const [first] = refusals;
    if (first !== undefined && !finds.has(first.kind))
      finds.set(first.kind, smallest(trial, values, first.kind));
  }
  return { draws, passed, refused, finds: [...finds.values()], stopped };
}

const drawAny = (trial: Trial, chance: Chance): Values =>
  trial.drawn.map(({ domain }) => anyOf(domain, chance));

function drawNear(trial: Trial, bases: readonly Values[], chance: Chance): Values {
  const values = [...(bases[Math.floor(chance() * bases.length)] ?? trial.shipped)];
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

/** Tenons that many legs have room for, in. */
const TENONS = { min: 0.5, max: 1.5, step: 1 / 16 };

/** Every choice of a shape, and how the aprons are joined, is drawn anew: few draws would meet two of them otherwise. */
function drawShaped(trial: Trial, values: Values, chance: Chance): Values {
  const drawn = [...values];
  for (const name of ['top_shape', 'leg_shape']) {
    const index = trial.indexOf(name);
    const domain = trial.drawn[index]?.domain;
    if (domain !== undefined) drawn[index] = anyOf(domain, chance);
  }
  if (chance() < 1 / 2) drawn[trial.indexOf('tenon_length')] = anyOf(TENONS, chance);
  return drawn;
}

/** Puts back every input that is not needed for what was found. */
function smallest(trial: Trial, values: Values, kind: string): Find {
  const planned = kind === 'left-out';
  const finds = (some: Values): readonly Refusal[] => {
    const outcome = trial.outcome(some);
    if (outcome.fails.length > 0) return [];
    const refusals = trial.judged(outcome, planned);
    return refusals.some((one) => one.kind === kind) ? refusals : [];
  };
  let small = [...values];
  for (let i = 0; i < small.length; i += 1) {
    const fewer = small.with(i, trial.shipped[i] ?? null);
    if (finds(fewer).length > 0) small = fewer;
  }
  const changed = small.flatMap((value, i) =>
    value === trial.shipped[i] ? [] : [[trial.nameOf(i), value] as const],
  );
  return { inputs: Object.fromEntries(changed), refusals: finds(small) };
}
