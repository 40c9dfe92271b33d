import { describe, expect, it } from 'vitest';
import { benchText, benchWith, call } from './testing/fake-io.ts';

const files = { 'bench.json': benchText };
const run = async (...args: string[]) => {
  const { code, out, err } = await call(['run', 'bench.json', ...args, '--json'], files);
  return { code, err, report: out === '' ? undefined : JSON.parse(out) };
};

describe('run', () => {
  it('reports every name, check and error in the shape that scripts rely on', async () => {
    const { code, err, report } = await run();
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(report).toEqual({
      names: {
        bench_length: { cell: 'Base!B1', quantity: 'length', value: 60, text: '60' },
        leg_size: { cell: 'Base!B2', quantity: 'length', value: 3.5, text: '3 1/2' },
        apron_long: { cell: 'Base!B3', quantity: 'length', value: 49, text: '49' },
        species: { cell: 'Base!B4', quantity: 'text', value: 'Maple', text: 'Maple' },
        pair: { cell: 'Base!B5', quantity: 'number', value: 98, text: '98' },
        price: { cell: 'Base!B6', quantity: 'money', value: 240, text: '$240.00' },
      },
      checks: [
        { name: 'Length', state: 'pass', says: 'Length' },
        { name: 'Legs', state: 'pass', says: 'Legs' },
      ],
      errors: [],
    });
  });

  it('types entries as a maker does: feet and inches, millimetres, words', async () => {
    const set = ['bench_length=5\' 6-3/8"', 'leg_size=76.2mm', 'species=Oak, white'];
    const { code, report } = await run(...set.flatMap((entry) => ['--set', entry]));
    expect(code).toBe(0);
    expect(report.names).toMatchObject({
      bench_length: { value: 66.375 },
      leg_size: { value: 3 },
      apron_long: { value: 66.375 - 2 * 2 - 2 * 3 },
      species: { value: 'Oak, white' },
    });
  });

  it('takes everything after the first = as the entry', async () => {
    const { report } = await run('--set', 'bench_length==leg_size*10', '--get', 'bench_length');
    expect(report.names).toMatchObject({ bench_length: { value: 35 } });
  });

  it('puts an entry for a calculated cell over its formula', async () => {
    const { report } = await run('--set', 'apron_long=50', '--get', 'pair');
    expect(report.names).toMatchObject({ pair: { value: 100 } });
  });

  it('prints only the names asked for, in that order and as the workbook spells them', async () => {
    const { report } = await run('--get', 'price', '--get', 'Apron_Long');
    expect(Object.keys(report.names)).toEqual(['price', 'apron_long']);
  });

  it('ends with 1 when a check says stop, and with 0 when one says care', async () => {
    const stop = await run('--set', 'bench_length=100');
    expect(stop.code).toBe(1);
    expect(stop.report.checks[0]).toEqual({
      name: 'Length',
      state: 'stop',
      says: 'A bench of 100 in does not fit the van.',
    });
    const care = await run('--set', 'leg_size=1.5');
    expect(care.code).toBe(0);
    expect(care.report.checks[1]).toMatchObject({ state: 'care' });
  });

  it('lists an entry that cannot be read, and what fails with it, and ends with 1', async () => {
    const { code, report } = await run('--set', 'bench_length=long');
    expect(code).toBe(1);
    expect(report.errors.map(({ cell }: { cell: string }) => cell)).toEqual([
      'Base!B1',
      'Base!B3',
      'Base!B5',
    ]);
    expect(report.errors[0].says).toMatch(/"long".*\.$/);
    expect(report.names.apron_long).toMatchObject({ value: null, text: '#VALUE!' });
  });

  it('stops at a check that cannot tell: it has not passed', async () => {
    const odd = { 'bench.json': benchText.replace('=leg_size>=2', '=leg_siz>=2') };
    const { code, out } = await call(['run', 'bench.json', '--json'], odd);
    expect(code).toBe(1);
    expect(JSON.parse(out).checks[1]).toEqual({
      name: 'Legs',
      state: 'stop',
      says: expect.stringMatching(/^This check can't tell: .*leg_siz/),
    });
  });

  it('lists an entry that the cell does not allow', async () => {
    const { code, report } = await run('--set', 'species=Granite');
    expect(code).toBe(1);
    expect(report.errors).toEqual([
      { cell: 'Base!B4', error: '#VALUE!', says: expect.stringContaining('Granite') },
    ]);
  });

  it('lists an entry that is refused and leaves the cell as it was', async () => {
    const { code, report } = await run('--set', `bench_length=${'9'.repeat(9000)}`);
    expect(code).toBe(1);
    expect(report.errors).toEqual([
      { cell: 'Base!B1', error: '#VALUE!', says: expect.stringContaining('8192') },
    ]);
    expect(report.names.bench_length.value).toBe(60);
  });

  it('prints names with units for people, and complaints apart from results', async () => {
    const { code, out, err } = await call(
      ['run', 'bench.json', '--set', 'bench_length=100', '--get', 'apron_long', '--get', 'price'],
      files,
    );
    expect(code).toBe(1);
    expect(out).toBe('apron_long  89 in\nprice       $240.00');
    expect(err).toBe('stop: A bench of 100 in does not fit the van. (Length)');
  });

  it.each([
    [['--set', 'bench_lenght=3'], 'bench_length'],
    [['--get', 'aprn_long'], 'apron_long'],
    [['--get', 'A1'], 'no cell called A1'],
    [['--get', '='], 'no cell called ='],
    [['--set', 'bench_length'], 'name=entry'],
    [['--set', '=3'], 'name=entry'],
    [['second.json'], 'one workbook'],
  ])('%j is bad usage and names what was meant', async (args, says) => {
    const { code, out, err } = await call(['run', 'bench.json', ...args], files);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain(says);
  });

  it.each([
    ['nothing.json', 'no such file'],
    ['broken.json', 'not readable JSON'],
    ['newer.json', 'newer Kerfbook'],
    ['damaged.json', 'damaged'],
  ])('%s is one sentence and exit 2', async (path, says) => {
    const odd = {
      'broken.json': benchText.slice(0, -9),
      'newer.json': benchText.replace('"kerfbook":8', '"kerfbook":99'),
      'damaged.json': benchText.replace('"units":"us"', '"units":"cubits"'),
    };
    const { code, out, err } = await call(['run', path, '--json'], odd);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err.split('\n')).toEqual([expect.stringContaining(says)]);
    expect(err).toContain(path);
  });
});

describe('check', () => {
  const check = (text: string) => call(['check', 'b.json'], { 'b.json': text });

  it('says so when it finds nothing', async () => {
    expect(await check(benchText)).toMatchObject({
      code: 0,
      out: 'b.json: nothing found.',
      err: '',
    });
  });

  it('lists a formula in error and what rests on it, a line each', async () => {
    const { code, out } = await check(
      benchWith(3, { formula: '=APRON_LENGTH(bench_length, 2, leg)', name: 'apron_long' }),
    );
    expect(code).toBe(1);
    expect(out.split('\n')).toEqual([
      expect.stringMatching(/^b\.json: Base!B3 #NAME\? .*leg.*\?$/),
      'b.json: Base!B5 #NAME? It is worked out from Base!B3; look there.',
    ]);
  });

  it('lists a name that is promised and missing, and one of another quantity', async () => {
    const { code, out } = await check(
      benchWith(3, { value: 1, quantity: 'length', name: 'coats' }).replace(
        '"units"',
        '"promises":["cutting-plan"],"units"',
      ),
    );
    expect(code).toBe(1);
    expect(out.split('\n').filter((one) => !one.includes('#NAME?'))).toEqual([
      expect.stringMatching(/^b\.json: The cutting plan is promised, and no cell is named kerf /),
      expect.stringMatching(
        /^b\.json: Base!B3 is a length; the finish sheet takes coats for a count\./,
      ),
    ]);
  });

  it('lists a check that says stop, and one that cannot tell', async () => {
    const stop = await check(
      benchWith(1, { value: 100, quantity: 'length', name: 'bench_length' }),
    );
    expect(stop).toMatchObject({
      code: 1,
      out: 'b.json: check "Length": A bench of 100 in does not fit the van.',
    });
    const unknown = await check(benchText.replace('=leg_size>=2', '=leg_siz>=2'));
    expect(unknown.code).toBe(1);
    expect(unknown.out).toMatch(/^b\.json: check "Legs": This check can't tell: .*leg_siz/);
  });

  it('lists a name in a sentence that no cell has', async () => {
    const { code, out } = await check(benchText.replace('{leg_size}', '{leg}'));
    expect(code).toBe(1);
    expect(out).toContain('check "Legs": its sentence shows {leg}');
  });

  it('lists what is wrong with the steps that others build from, at its cell', async () => {
    const steps = {
      id: 'st',
      name: 'Steps',
      columns: [{ id: 'c1' }, { id: 'c2' }],
      rows: [
        { id: 'r1', cells: { c1: { value: 'step' }, c2: { value: 'text' } } },
        { id: 'r2', cells: { c1: { value: 'Cut' }, c2: { value: 'As long as {bench_lenth}.' } } },
      ],
    };
    const book = JSON.parse(benchText) as { sheets: object[]; tables: object[] };
    book.sheets.push(steps);
    book.tables.push({ id: 't1', kind: 'steps', sheet: 'st', header: 'r1', last: 'r2' });
    expect(await check(JSON.stringify(book))).toMatchObject({
      code: 1,
      out: expect.stringContaining('Steps!B2 No cell is named "bench_lenth".'),
    });
  });

  it('lists an empty named cell that nothing uses, but not one that is used', async () => {
    const dead = await check(benchWith(6, { name: 'price' }));
    expect(dead).toMatchObject({
      code: 1,
      out: 'b.json: Base!B6 is named price, but is empty and not used.',
    });
    const used = await check(benchWith(2, { quantity: 'length', name: 'leg_size' }));
    expect(used.out).not.toContain('not used');
  });

  it('looks under an override for names that are not there', async () => {
    const text = benchWith(3, {
      formula: '=no_such*2',
      override: { value: 49 },
      role: 'calculated',
      name: 'apron_long',
    });
    const { code, out } = await check(text);
    expect(code).toBe(1);
    expect(out).toMatch(/^b\.json: Base!B3 #NAME\? Under its override: .*no_such/);
  });

  it('tells which formulas are not compiled, and that nothing is wrong with them', async () => {
    const formula = '=HF.MINUS([c2.r1],[c2.r1])+bench_length';
    expect(await check(benchWith(3, { formula, name: 'apron_long' }))).toMatchObject({
      code: 0,
      out: [
        'b.json: Base!B3 is worked out by the slower engine: HF.MINUS is not compiled.',
        'b.json: nothing found.',
      ].join('\n'),
    });
  });

  it('ends with 1 for a damaged workbook and with 2 for what is none', async () => {
    const damaged = await check(benchText.replace('"units":"us"', '"units":"cubits"'));
    expect(damaged).toMatchObject({ code: 1, err: '' });
    expect(damaged.out).toMatch(/^b\.json: The workbook is damaged at units/);
    expect(await check('{}')).toMatchObject({ code: 2, out: '' });
    expect(await check('not json')).toMatchObject({ code: 2, out: '' });
  });

  it('goes through every file and ends with the worst', async () => {
    const { code, out, err } = await call(['check', 'none.json', 'b.json'], {
      'b.json': benchText,
    });
    expect(code).toBe(2);
    expect(out).toBe('b.json: nothing found.');
    expect(err).toContain('none.json');
  });
});

describe('a percentage', () => {
  const waste = benchWith(6, { value: 15, quantity: 'percent', name: 'waste' });
  const asked = async (entry: string) => {
    const { code, out } = await call(['run', 'bench.json', '--set', entry, '--json'], {
      'bench.json': waste,
    });
    return { code, report: JSON.parse(out) };
  };

  it('typed as .3 is asked about, and as .3 % taken', async () => {
    const { code, report } = await asked('waste=.3');
    expect(code).toBe(1);
    expect(report.errors).toEqual([
      {
        cell: 'Base!B6',
        error: '#VALUE!',
        says: 'Is this 0.3 % or 30 %? Type 0.3% or 30.',
      },
    ]);
    expect(report.names.waste).toMatchObject({ value: null, text: '.3' });
    expect(await asked('waste=.3%')).toMatchObject({
      code: 0,
      report: { names: { waste: { value: 0.3 } } },
    });
  });

  it('of 0.3 in a file is found by check', async () => {
    const slip = benchWith(6, { value: 0.3, quantity: 'percent', name: 'waste' });
    const { code, out } = await call(['check', 'b.json'], { 'b.json': slip });
    expect(code).toBe(1);
    expect(out).toContain('Base!B6 #VALUE! Is this 0.3 % or 30 %?');
  });

  it('in a study is asked about too', async () => {
    const args = ['--over', 'waste=0.1..0.5/0.1', '--get', 'waste'];
    const { code, err } = await call(['study', 'bench.json', ...args], { 'bench.json': waste });
    expect(code).toBe(2);
    expect(err).toContain('waste: Is this 0.1 % or 10 %? Type 0.1% or 10.');
    const said = ['--over', 'waste=0.1%..0.5%/0.2%', '--get', 'waste', '--json'];
    const studied = await call(['study', 'bench.json', ...said], { 'bench.json': waste });
    expect(JSON.parse(studied.out).rows).toEqual([{ waste: 0.1 }, { waste: 0.3 }, { waste: 0.5 }]);
  });
});
