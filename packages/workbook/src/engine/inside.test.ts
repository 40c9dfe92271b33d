import { createHash } from 'node:crypto';
import { STANDARD } from '@kerfbook/functions';
import { HyperFormula } from 'hyperformula';
import { describe, expect, it } from 'vitest';
import { demandInside, insideOf, MESSAGES, type Owner, partAt, Specimens, used } from './inside.ts';
import sources from './testdata/replaced-sources.json' with { type: 'json' };

const specimens = new Specimens();
const { owners } = specimens;
const USED = used();

/** The same whole with nothing at the end of a path; the specimen itself stays as it is. */
function blanked(whole: unknown, path: string): unknown {
  const [step = '', ...rest] = path.split('.');
  const value = rest.length === 0 ? undefined : blanked(partAt(whole, step), rest.join('.'));
  return Object.create(whole as object, { [step]: { value } });
}

describe('what is used inside the formula engine', () => {
  it('V2 is all there', () => {
    expect(() => demandInside()).not.toThrow();
    const names = USED.map(({ of, path, is }) => `${of} ${path} ${String(is)}`);
    expect(new Set(names).size).toBe(names.length);
  });

  it.each(USED)('V2 is named at the start where it is missing: $path of its $of', (used) => {
    const { of, path } = used;
    const without: Record<Owner, unknown> = { ...owners, [of]: blanked(owners[of], path) };
    expect(() => demandInside({ specimens, owners: without })).toThrow(
      `this version of HyperFormula has no ${path} in its ${of}: see engine/inside.ts`,
    );
  });

  it.each(Object.keys(owners) as Owner[])('V2 is named where there is none: %s', (of) => {
    const without = { ...owners, [of]: undefined };
    expect(() => demandInside({ specimens, owners: without })).toThrow(`in its ${of}:`);
  });

  it.each(Object.entries(MESSAGES))('V2 is named where it says something else: %s', (name, one) => {
    const messages = { ...MESSAGES, [name]: { ...one, said: () => 'Something else.' } };
    expect(() => demandInside({ messages })).toThrow(`(${name}): see engine/inside.ts`);
  });
});

const sourceOf = (method: unknown): string =>
  createHash('sha256').update(String(method).replace(/\s+/g, ' ')).digest('hex').slice(0, 16);

/** What is worked out in the place of these, without asking them. */
const DONE_ELSEWHERE = [
  '_evaluator.partialRun',
  '_dependencyGraph.graph.getTopSortedWithSccSubgraphFrom',
];
/** Standard functions that have another of ours in their place. */
const REPLACED = STANDARD.filter(({ ours }) => ours === true).map(({ name }) => name);

function sourceOfFunction(name: string): string {
  const plugin = HyperFormula.getFunctionPlugin(name);
  const called = plugin?.aliases?.[name] ?? name;
  const method = plugin?.implementedFunctions[called]?.method ?? '';
  return sourceOf(partAt(plugin?.prototype, method));
}

describe('what is replaced or leaned on in the formula engine', () => {
  const own = USED.filter(({ is, path }) => is === 'function' && !path.endsWith('Mapping.values'));
  const methods = own.map(
    ({ of, path }) => [`${of} ${path}`, sourceOf(partAt(owners[of], path))] as const,
  );
  const elsewhere = DONE_ELSEWHERE.map(
    (path) => [`engine ${path}`, sourceOf(partAt(insideOf(specimens.engine), path))] as const,
  );
  const functions = REPLACED.map((name) => [name, sourceOfFunction(name)] as const);

  // Where the library was changed, each that differs is named here. Read what it does now, mend what
  // rests on it, and take over its new sign.
  it('V2 is made as it was when ours was written', () => {
    expect(Object.fromEntries([...methods, ...elsewhere, ...functions])).toEqual(sources);
  });

  it('V2 was found: nothing has the sign of what is not there', () => {
    expect(Object.values(sources)).not.toContain(sourceOf(undefined));
  });
});
