import { functionNames, STANDARD, standardFunction } from '@kerfbook/functions';
import { FunctionPlugin, HyperFormula, SimpleRangeValue } from 'hyperformula';
import { describe, expect, it } from 'vitest';
import { prepareEngine } from './config.ts';

const registered = (): readonly string[] => HyperFormula.getRegisteredFunctionNames('enGB');
const pluginOf = (name: string) => HyperFormula.getFunctionPlugin(name);
/** What is changed once for the whole process. */
const changed = () => [
  ...STANDARD.map(({ name }) => pluginOf(name)),
  SimpleRangeValue.onlyRange,
  Reflect.get(FunctionPlugin.prototype, 'coerceArgumentsToRequiredTypes'),
  registered().length,
];

describe('the engine beside the catalogue of functions', () => {
  it('V2 is as it came until it is prepared, and is prepared once', () => {
    const bare = changed();
    expect(registered()).not.toContain('BOARDFEET');
    prepareEngine();
    const first = changed();
    expect(first).not.toEqual(bare);
    prepareEngine();
    const second = changed();
    expect(second.every((one, i) => one === first[i])).toBe(true);
    const ours = STANDARD.filter((_, i) => bare[i] !== first[i]).map(({ name }) => name);
    expect(ours).toEqual(STANDARD.filter(({ ours }) => ours === true).map(({ name }) => name));
  });

  it('V2 knows every function of the catalogue, and no other', () => {
    prepareEngine();
    const known = registered().filter((name) => !name.startsWith('KERFBOOK_'));
    expect([...known].sort()).toEqual([...functionNames()].sort());
  });

  // POISSON is POISSON.DIST to the engine, and costs as much.
  it('B2 has a function that goes by several names with the same costs and meaning under each', () => {
    const others = STANDARD.flatMap(({ name }) => {
      const same = pluginOf(name)?.aliases?.[name];
      return same === undefined ? [] : [[name, same] as const];
    });
    expect(others.length).toBeGreaterThan(40);
    for (const [name, same] of others) {
      const [one, other] = [standardFunction(name), standardFunction(same)];
      expect({ ...one, name: same }, name).toEqual(other);
    }
  });
});
