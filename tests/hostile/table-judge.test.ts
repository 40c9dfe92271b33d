import { describe, expect, it } from 'vitest';
import { KEPT } from './tables/kept.ts';
import { inMetric } from './tables/metric.ts';
import { OWN_WOODS } from './tables/own-wood.ts';
import { PINS } from './tables/pins.ts';
import { PLANTS, planted } from './tables/plants.ts';
import { shippedTable } from './tables/shipped.ts';
import { Trial } from './tables/trial.ts';

describe('the judge of tables', () => {
  it('builds the table as it ships', () => {
    const trial = new Trial(shippedTable());
    expect(trial.outcome(trial.shipped).fails).toEqual([]);
    expect(trial.refusals(trial.shipped, true)).toEqual([]);
  });

  it('knows every wood that the template offers', () => {
    const trial = new Trial(shippedTable());
    const { domain } = trial.drawn[trial.indexOf('species')] ?? {};
    const offered = domain !== undefined && 'list' in domain ? domain.list : [];
    expect(offered.length).toBeGreaterThan(10);
    expect(offered.filter((name) => OWN_WOODS[String(name)] === undefined)).toEqual([]);
  });
});

describe('tables that cannot be built', () => {
  it('are of 30 kinds at least', () => {
    expect(new Set(PLANTS.map(({ name }) => name)).size).toBe(PLANTS.length);
    expect(new Set(PLANTS.map(({ kind }) => kind)).size).toBeGreaterThanOrEqual(30);
  });

  it.each(PLANTS.map((plant) => [plant.name, plant] as const))('%s: refused', (_, plant) => {
    const trial = new Trial(planted(shippedTable(), plant));
    const refusals = trial.refusals(trial.shipped, plant.planned === true);
    const told = refusals.filter(({ kind }) => kind === plant.kind).map(({ says }) => says);
    expect(told, JSON.stringify(refusals)).toContainEqual(expect.stringMatching(plant.says));
  });
});

describe('tables that can be built', () => {
  const us = new Trial(shippedTable());
  const metric = new Trial(inMetric(shippedTable()));

  it('are 56, of many sizes, shapes and woods, in inches and in millimetres', () => {
    expect(KEPT).toHaveLength(56);
    const kinds = (name: string): number => new Set(KEPT.map(({ inputs }) => inputs[name])).size;
    expect(kinds('species')).toBeGreaterThanOrEqual(12);
    expect(kinds('top_thickness')).toBeGreaterThanOrEqual(6);
    expect(kinds('top_length')).toBeGreaterThanOrEqual(12);
    expect(kinds('top_shape')).toBe(4);
    expect(kinds('leg_shape')).toBe(4);
    expect(KEPT.filter(({ units }) => units === 'metric').length).toBeGreaterThanOrEqual(10);
  });

  it.each(KEPT.map((table) => [table.name, table] as const))('%s', (_, table) => {
    const trial = table.units === 'us' ? us : metric;
    const outcome = trial.outcome(trial.with(table.inputs));
    expect(outcome.fails).toEqual([]);
    expect(trial.judged(outcome, true)).toEqual([]);
  });
});

describe('what sweeps found', () => {
  const trial = new Trial(shippedTable());

  it.each(PINS.map((pin) => [pin.what, pin] as const))('%s: told, or built otherwise', (_, pin) => {
    const outcome = trial.outcome(trial.with(pin.inputs));
    const kinds = trial.judged(outcome).map(({ kind }) => kind);
    if (pin.mended === true) expect(kinds).toEqual([]);
    else {
      expect(kinds).toContain(pin.kind);
      expect(outcome.fails).not.toEqual([]);
    }
  });
});
