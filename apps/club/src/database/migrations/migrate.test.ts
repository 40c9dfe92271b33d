import { describe, expect, it } from 'vitest';
import { onBoth } from '../../testing/databases.ts';
import { fillAsOf, ROWS_OF_STEPS, shapeOf } from '../../testing/schemas.ts';
import { type Database, openDatabase } from '../open.ts';
import type { Tables } from '../tables.ts';
import { type Item, index, table } from './making.ts';
import { migrate, STEPS, schemaOf } from './migrate.ts';

const later: Item[] = [
  table('later', { club: 'text', id: 'text', note: 'text?' }, ['club', 'id']),
  index('later', ['club', 'note']),
];

onBoth('migrations', (open, place) => {
  it.each(STEPS.map((_, step) => step))('lead here from step %d', async (from) => {
    const database = await openDatabase(await place());
    expect(await migrate(database, STEPS.slice(0, from))).toBe(from);
    await fillAsOf(database, from);
    expect(await migrate(database)).toBe(STEPS.length);
    expect(await schemaOf(database)).toBe(STEPS.length);
    expect(await shapeOf(database)).toEqual(await shapeOf(await open()));
    for (const [name, row] of ROWS_OF_STEPS[from] ?? []) {
      const found = await database.read
        .selectFrom(name as keyof Tables)
        .selectAll()
        .execute();
      expect(found).toEqual([expect.objectContaining(row)]);
    }
    await database.close();
  });

  it('have a row of every table of today, with every column, to be tried with', async () => {
    const database = await open();
    await fillAsOf(database, STEPS.length);
    const tables = await shapeOf(database);
    tables.delete('schema_step');
    const rows = new Map(ROWS_OF_STEPS[STEPS.length]);
    expect([...rows.keys()].sort()).toEqual([...tables.keys()].sort());
    for (const [name, columns] of tables) {
      expect(Object.keys(rows.get(name) ?? {}).sort()).toEqual([...columns.keys()].sort());
    }
  });

  it('done a second time change nothing', async () => {
    const database = await open();
    await fillAsOf(database, STEPS.length);
    const [shape, steps] = [await shapeOf(database), await stepsOf(database)];
    await migrate(database);
    expect([await shapeOf(database), await stepsOf(database)]).toEqual([shape, steps]);
  });

  it('that were broken off anywhere are taken up again', async () => {
    const whole = await shapeOf(await open());
    const items = STEPS[0] ?? [];
    for (const done of [1, 5, items.length - 1]) {
      const database = await openDatabase(await place());
      const broken: Item = () => ({
        execute: async () => {
          throw new Error('the power went');
        },
      });
      await expect(migrate(database, [[...items.slice(0, done), broken]])).rejects.toThrow('power');
      expect(await schemaOf(database)).toBe(0);
      await migrate(database);
      expect(await shapeOf(database)).toEqual(whole);
      await database.close();
    }
  });

  it('are safe where several servers start at once', async () => {
    const where = await place();
    const servers = await Promise.all(Array.from({ length: 4 }, () => openDatabase(where)));
    expect(await Promise.all(servers.map((server) => migrate(server)))).toEqual(
      servers.map(() => STEPS.length),
    );
    expect(await stepsOf(servers[0] as Database)).toHaveLength(STEPS.length);
    expect(await shapeOf(servers[1] as Database)).toEqual(await shapeOf(await open()));
    await Promise.all(servers.map((server) => server.close()));
  });

  it('carry out the steps that are missing alone', async () => {
    const database = await open();
    await fillAsOf(database, STEPS.length);
    expect(await migrate(database, [...STEPS, later])).toBe(STEPS.length + 1);
    expect((await shapeOf(database)).get('later')).toEqual(
      new Map([
        ['club', false],
        ['id', false],
        ['note', true],
      ]),
    );
  });

  it('leave alone what a later version made ready, and say so', async () => {
    const database = await open();
    await migrate(database, [...STEPS, later]);
    const shape = await shapeOf(database);
    await expect(migrate(database)).rejects.toThrow(
      `made ready for a later version of Kerfbook (step ${STEPS.length + 1}; this one knows ${STEPS.length})`,
    );
    expect(await shapeOf(database)).toEqual(shape);
  });
});

async function stepsOf(database: Database): Promise<unknown[]> {
  return await database.read.selectFrom('schema_step').selectAll().execute();
}

describe('keys', () => {
  it('begin with the club, and so do indexes', async () => {
    const said: string[] = [];
    const schema = recorder(said);
    for (const item of STEPS.flat()) await item(schema as never, 'sqlite').execute();
    expect(said.length).toBeGreaterThan(40);
    expect(said.filter((first) => first !== 'club')).toEqual([]);
  });
});

/** Stands in the place of Kysely's schema and writes down the first column of each key and index. */
function recorder(said: string[]): object {
  const self: object = new Proxy(
    {},
    {
      get(_target, method) {
        if (method === 'execute') return async () => undefined;
        return (...args: unknown[]) => {
          if (method === 'addPrimaryKeyConstraint') said.push(String((args[1] as unknown[])[0]));
          if (method === 'columns') said.push(String((args[0] as unknown[])[0]));
          return self;
        };
      },
    },
  );
  return self;
}
