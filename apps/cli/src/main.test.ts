import { functionReference } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { call } from './testing/fake-io.ts';

describe('kerfbook', () => {
  it('tells how it is used when it is asked, and complains when it is called with nothing', async () => {
    const asked = await call(['--help']);
    expect(asked).toMatchObject({ code: 0, err: '' });
    for (const word of ['eval', 'run', 'check', 'functions'])
      expect(asked.out).toContain(`kerfbook ${word}`);
    expect(await call([])).toEqual({ code: 2, out: '', err: asked.out });
  });

  it('names its commands when it is given another word', async () => {
    expect(await call(['chekc'])).toEqual({
      code: 2,
      out: '',
      err: 'There is no command "chekc". The commands are eval, run, study, seek, check, explain, parts, plan, days, export, import, guide, quote, merge, compare, units, functions, shelf list, shelf get, shelf publish, shelf suggest.',
    });
  });

  it('explains one command', async () => {
    const { code, out } = await call(['run', '--help']);
    expect(code).toBe(0);
    expect(out).toContain('--set name=entry');
  });
});

describe('functions', () => {
  it('lists every function under its task, with arguments, answer, example and source', async () => {
    const { code, out } = await call(['functions']);
    expect(code).toBe(0);
    for (const one of functionReference()) {
      for (const part of [`${one.name}(`, one.answers, one.example, one.source])
        expect(out).toContain(part);
    }
    expect(out).toContain('APRON_LENGTH(');
  });

  it('gives the same descriptions the engine registers, as JSON', async () => {
    const { out } = await call(['functions', '--json']);
    const all: { name: string; args: unknown[] }[] = JSON.parse(out);
    expect(all.map(({ name }) => name)).toEqual(functionReference().map(({ name }) => name));
    expect(all.find(({ name }) => name === 'APRON_LENGTH')).toMatchObject({
      task: 'Base',
      result: { quantity: 'length' },
      args: expect.arrayContaining([expect.objectContaining({ quantity: 'length' })]),
    });
  });

  it('works out every example without an error', async () => {
    const { code, err } = await call([
      'eval',
      ...functionReference().map(({ example }) => example),
    ]);
    expect(err).toBe('');
    expect(code).toBe(0);
  });

  it('takes no words', async () => {
    expect(await call(['functions', 'SEATS'])).toMatchObject({ code: 2 });
  });
});
