import { breath } from '@kerfbook/keeping';
import type { Choices, Weighed } from '@kerfbook/workbook';
import { useEffect, useState } from 'react';
import { counted } from './kinds.ts';

/** What the workbook comes to with some choices; a sentence where it may not be put together so. */
export type Outcome = Weighed | { readonly says: string };

/** What each of both does at a place, the other choices as they are. */
export interface Each {
  readonly mine: Outcome;
  readonly theirs: Outcome;
}

/** Says what a workbook comes to with some choices; `about` is the one that is looked at. */
export interface Weigher<T> {
  weigh(choices: Choices, about?: T): Outcome;
}

export interface Weighings {
  /** With all choices as they are; left out until it is worked out. */
  readonly all?: Outcome;
  /** By the keys of places. */
  readonly each: ReadonlyMap<string, Each>;
  /** They are still those of other choices. */
  readonly busy: boolean;
}

/**
 * Works out what choices do: all of them together first, then one by one what each of both does at the places in
 * sight, with a breath in between for keys and frames.
 */
export function useWeighings<T extends { readonly key: string }>(
  weigher: Weigher<T>,
  choices: Choices,
  inSight: readonly T[],
): Weighings {
  const [found, setFound] = useState<Weighings>({ each: new Map(), busy: true });
  useEffect(() => {
    let wanted = true;
    const work = async (): Promise<void> => {
      setFound((before) => ({ ...before, busy: true }));
      await breath();
      if (!wanted) return;
      const all = weigher.weigh(choices);
      setFound((before) => ({ ...before, all }));
      for (const met of inSight) {
        const sides: Partial<Record<'mine' | 'theirs', Outcome>> = {};
        for (const which of ['mine', 'theirs'] as const) {
          await breath();
          if (!wanted) return;
          sides[which] = weigher.weigh(new Map(choices).set(met.key, which), met);
        }
        setFound((before) => ({
          ...before,
          each: new Map(before.each).set(met.key, sides as Each),
        }));
      }
      setFound((before) => ({ ...before, busy: false }));
    };
    void work();
    return () => {
      wanted = false;
    };
  }, [weigher, choices, inSight]);
  return found;
}

/** What of a workbook would be otherwise, in lines: results, parts, checks. */
export function differsIn(now: Weighed, then: Weighed): readonly string[] {
  const was = new Map(now.results.map(({ name, shown }) => [name, shown]));
  const results = then.results.flatMap(({ name, label, shown }) => {
    const before = was.get(name);
    return before === shown ? [] : [`${label} ${before ?? 'nothing'} → ${shown}`];
  });
  const states = new Map(now.checks.map(({ id, state }) => [id, state]));
  const turned = then.checks.flatMap(({ id, name, state, says }) => {
    if (states.get(id) === state || (state === 'pass' && !states.has(id))) return [];
    return [state === 'pass' ? `${name}: OK` : `${STATES[state]}: ${says}`];
  });
  const parts =
    then.parts === 0 ? [] : [then.parts === 1 ? '1 part differs' : `${then.parts} parts differ`];
  return [...new Set([...results, ...parts, ...turned])];
}

/** So many results are told beside a choice; all of them stand at the end. */
const FEW = 3;

/** What comes of one of two choices where the other one comes to something else, in lines. */
export function doesBeside(one: Weighed, other: Weighed): readonly string[] {
  const there = new Map(other.results.map(({ name, shown }) => [name, shown]));
  const results = one.results
    .filter(({ name, shown }) => there.get(name) !== shown)
    .map(({ label, shown }) => `${label} ${shown}`);
  const parts =
    one.parts === 0 && other.parts === 0
      ? []
      : [one.parts === 0 ? 'All parts stay as they are' : `${counted(one.parts, 'part')} changed`];
  const states = new Map(other.checks.map(({ id, state }) => [id, state]));
  const checks = one.checks
    .filter(({ id, state }) => states.get(id) !== state)
    .map(({ name, state, says }) =>
      state === 'pass' ? `${name}: OK` : `${STATES[state]}: ${says}`,
    );
  const more =
    results.length > FEW ? [`${counted(results.length - FEW, 'more result')}, below`] : [];
  return [...results.slice(0, FEW), ...more, ...parts, ...checks];
}

const STATES = { stop: 'Problem', care: 'Warning', unknown: "Can't tell" } as const;
