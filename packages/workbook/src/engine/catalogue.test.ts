import {
  functionNames,
  STANDARD,
  STANDARD_PAGES,
  type StandardTakes,
  standardFunction,
} from '@kerfbook/functions';
import { DetailedCellError, FunctionPlugin, HyperFormula, SimpleRangeValue } from 'hyperformula';
import { describe, expect, it } from 'vitest';
import { engineConfig, prepareEngine } from './config.ts';

const registered = (): readonly string[] => HyperFormula.getRegisteredFunctionNames('enGB');
const pluginOf = (name: string) => HyperFormula.getFunctionPlugin(name);
/** What the engine calls what an argument may take. */
const KINDS: Readonly<Record<StandardTakes, readonly string[]>> = {
  number: ['NUMBER', 'INTEGER', 'ANY'],
  text: ['STRING'],
  logical: ['BOOLEAN'],
  value: ['SCALAR', 'NOERROR', 'ANY'],
  condition: ['NOERROR'],
  range: ['RANGE'],
  complex: ['COMPLEX'],
};
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

  it('V2 takes as many arguments of such kinds as the words of a standard function tell', () => {
    prepareEngine();
    const untold: string[] = [];
    for (const { name, args, again } of STANDARD_PAGES) {
      const plugin = pluginOf(name);
      const told = plugin?.implementedFunctions[plugin.aliases?.[name] ?? name];
      if (told === undefined) {
        untold.push(name);
        continue;
      }
      const { parameters = [], repeatLastArgs = 0, expandRanges = false } = told;
      const optional = parameters.map(
        (one) => one.optionalArg === true || one.defaultValue !== undefined,
      );
      expect(
        args.map((one) => one.optional),
        name,
      ).toEqual(optional);
      // The engine takes each answer of SWITCH by itself, since the last may stand alone.
      expect(name === 'SWITCH' ? 1 : again, name).toBe(repeatLastArgs);
      for (const [i, { takes, quantity, many, name: argument }] of args.entries()) {
        const kind = String(parameters[i]?.argumentType);
        expect(KINDS[takes], `${name} ${argument}`).toContain(kind);
        if (kind === 'INTEGER') expect(quantity, `${name} ${argument}`).toBe('count');
        if (kind !== 'ANY') expect(many, `${name} ${argument}`).toBe(expandRanges);
      }
    }
    // The engine keeps these two to itself: one it reads as a reference, one says what it is.
    expect(untold).toEqual(['OFFSET', 'VERSION']);
  });

  it.each([
    ['=OFFSET(B1,0,0)', 7],
    ['=SUM(OFFSET(B1,0,0,2,1))', 8],
    ['=SUM(OFFSET(B1,0,0,2))', 8],
    ['=VERSION(1)', '#N/A'],
    // Words are never read as days or times.
    ['=DATEVALUE("31/12/2026")', '#VALUE!'],
    ['=TIMEVALUE("14:30")', '#VALUE!'],
    // Where nothing is to go, the first place was looked at again and again, without an end.
    ['=SUBSTITUTE("oak","","x",1.5)', 'oak'],
    ['=SUBSTITUTE("oak","","x",1e300)', 'xoak'],
  ])('V2 does with %s what the words of the function tell', (formula, shown) => {
    prepareEngine();
    const engine = HyperFormula.buildFromArray(
      [
        [formula, 7],
        [null, 1],
      ],
      engineConfig('us', {}),
    );
    const value = engine.getCellValue({ sheet: 0, row: 0, col: 0 });
    expect(value instanceof DetailedCellError ? value.value : value).toBe(shown);
    engine.destroy();
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
