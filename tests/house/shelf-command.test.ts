import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { nodeIo, run } from '@kerfbook/cli';
import {
  edition,
  onSqlite,
  type TestClub,
  testClub,
  textOf,
  type Visitor,
} from '@kerfbook/club/testing';
import { loadText, saveText } from '@kerfbook/workbook';
import { afterAll, beforeAll, expect, it } from 'vitest';

/** The command line against a club that listens: what it sends is what the server reads. */
onSqlite('kerfbook shelf', (open) => {
  const folder = mkdtempSync(join(tmpdir(), 'kerfbook-shelf-'));
  const at = (name: string): string => join(folder, name);
  let club: TestClub;
  let base = '';
  const tokens: Record<'ann' | 'bea', string> = { ann: '', bea: '' };
  let ann: Visitor;
  let bea: Visitor;

  beforeAll(async () => {
    const hosts = new Set<string>();
    club = await testClub(await open(), { hosts });
    await club.app.listen({ port: 0, host: '127.0.0.1' });
    const host = `127.0.0.1:${(club.app.server.address() as AddressInfo).port}`;
    hosts.add(host).add('localhost');
    base = `http://${host}`;
    ann = await club.member('Ann');
    bea = await club.member('Bea');
    for (const [name, one] of [
      ['ann', ann],
      ['bea', bea],
    ] as const) {
      tokens[name] = (await one.get('makeToken', { body: { label: 'desk', days: 30 } })).token;
    }
    writeFileSync(at('bench.json'), textOf('bench'));
  });
  afterAll(async () => {
    await club.app.close();
    rmSync(folder, { recursive: true });
  });

  async function shelf(who: 'ann' | 'bea' | 'nobody', ...words: string[]) {
    const [out, err]: [string[], string[]] = [[], []];
    const settings: Record<string, string> = {
      KERFBOOK_CLUB: base,
      KERFBOOK_TOKEN: who === 'nobody' ? 'x'.repeat(43) : tokens[who],
    };
    const code = await run(['shelf', ...words], {
      ...nodeIo(),
      out: (line) => out.push(line),
      err: (line) => err.push(line),
      setting: (name) => settings[name],
    });
    return { code, out: out.join('\n'), err: err.join('\n') };
  }
  const documentOf = (name: string) => {
    const loaded = loadText(readFileSync(at(name), 'utf8'));
    if (!loaded.ok) throw new Error(loaded.says);
    return loaded.document;
  };
  /** The same workbook with another value under a name of its inputs. */
  const changed = (from: string, to: string, name: string, value: number): void => {
    const document = structuredClone(documentOf(from));
    const cells = document.sheets.flatMap(({ rows }) =>
      rows.flatMap((row) => Object.values(row.cells ?? {})),
    );
    const cell = cells.find((one) => one.name === name);
    if (cell === undefined) throw new Error(`no ${name}`);
    Object.assign(cell, { value });
    writeFileSync(at(to), saveText(document));
  };
  /** The one template that a person has published, as the shelf tells it. */
  const published = async (by: Visitor) => {
    const { templates } = await by.get('browse', { query: { by: by.id } });
    return templates[0]?.id ?? '';
  };

  it('publishes a workbook with what it says of itself, and finds it again', async () => {
    const done = await shelf(
      'ann',
      'publish',
      at('bench.json'),
      '--license',
      'cc-by-4.0',
      '--kind',
      'Seating',
      '--note',
      'For the porch.',
      '--out',
      at('mine.json'),
    );
    expect(done).toMatchObject({ code: 0, err: '' });
    const id = await published(ann);
    expect(done.out).toBe(
      `Published "${documentOf('bench.json').title}" on the shelf as revision 1: ${id}`,
    );
    const { template, revisions } = await bea.get('template', { params: { template: id } });
    expect(template).toMatchObject({ licence: 'cc-by-4.0', by: { name: 'Ann' } });
    expect(template.card).toMatchObject({ kind: 'Seating', woods: ['white oak'] });
    expect(template.card.longest).toBeGreaterThan(300);
    expect(template.picture).toBeUndefined();
    expect(revisions).toMatchObject([{ note: 'For the porch.', changes: [] }]);
    expect(documentOf('mine.json').lineage).toMatchObject({
      revision: 1,
      base: revisions[0]?.sign,
    });
    const listed = await shelf('bea', 'list', 'bench', '--wood', 'white oak', '--kind', 'Seating');
    expect(listed).toMatchObject({ code: 0, err: '' });
    expect(listed.out.split('\n')).toHaveLength(2);
    expect(listed.out).toContain(id);
    const json = JSON.parse((await shelf('bea', 'list', 'bench', '--json')).out);
    expect(json).toMatchObject({ templates: [{ id, revision: 1 }], more: false });
    expect((await shelf('bea', 'list', 'xylophone')).out).toBe('The shelf has no such template.');
  });

  it('writes a copy that rests on its revision, as the app opens one', async () => {
    const id = await published(ann);
    const done = await shelf(
      'bea',
      'get',
      `${base}/club/templates/${id}`,
      '--out',
      at('copy.json'),
    );
    expect(done).toMatchObject({ code: 0, err: '' });
    const { lineage } = documentOf('copy.json');
    expect(lineage).toMatchObject({ revision: 1, template: documentOf('bench.json').title });
    expect(lineage?.text).toBeDefined();
    const again = await shelf('bea', 'get', id, '--out', at('copy.json'));
    expect(again.code).toBe(2);
    expect(again.err).toContain('--force');
  });

  it('suggests what a copy has otherwise, and nothing where it has nothing', async () => {
    const id = await published(ann);
    expect(await shelf('bea', 'suggest', at('copy.json'), '--to', id)).toMatchObject({
      code: 1,
      out: '',
    });
    changed('copy.json', 'longer.json', 'seat_length', 60);
    const done = await shelf(
      'bea',
      'suggest',
      at('longer.json'),
      '--to',
      id,
      '--note',
      'Seats four.',
    );
    expect(done).toMatchObject({ code: 0, err: '' });
    expect(done.out).toContain('Ann');
    const { suggestions } = await ann.get('suggestions', { params: { template: id } });
    expect(suggestions).toMatchObject([{ by: { name: 'Bea' }, note: 'Seats four.', base: 1 }]);
    expect(JSON.stringify(suggestions[0]?.changes)).toContain('60');
    const own = await shelf('ann', 'suggest', at('longer.json'), '--to', id);
    expect(own).toMatchObject({ code: 1 });
    expect(own.err).toContain('your own template');
  });

  it('publishes the next revision over the one it was made from, and over no other', async () => {
    const id = await published(ann);
    changed('mine.json', 'next.json', 'seat_length', 54);
    const done = await shelf('ann', 'publish', at('next.json'), '--as', id, '--json');
    expect(done).toMatchObject({ code: 0, err: '' });
    expect(JSON.parse(done.out)).toMatchObject({ id, revision: 2 });
    const { revisions, template } = await bea.get('template', { params: { template: id } });
    expect(template).toMatchObject({ revision: 2, card: { kind: 'Seating' } });
    expect(JSON.stringify(revisions)).toContain('54');
    const late = await shelf('ann', 'publish', at('next.json'), '--as', id);
    expect(late).toMatchObject({ code: 1 });
    expect(late.err).toContain('Revision 2 stands on the shelf');
    expect((await shelf('ann', 'publish', at('bench.json'), '--as', id)).err).toContain('--from');
    const same = await shelf('ann', 'get', id, '--out', at('same.json'));
    expect(same.code).toBe(0);
    expect((await shelf('ann', 'publish', at('same.json'), '--as', id)).err).toContain(
      'nothing otherwise',
    );
    const theirs = await shelf('bea', 'publish', at('longer.json'), '--as', id);
    expect(theirs).toMatchObject({ code: 1 });
    expect(theirs.err).toContain('of another member');
    expect((await shelf('ann', 'publish', at('same.json'), '--license', 'club')).err).toContain(
      `--as ${id}`,
    );
    expect(
      await shelf('ann', 'get', id, '--out', at('first.json'), '--revision', '1'),
    ).toMatchObject({ code: 0 });
    expect(documentOf('first.json').lineage?.revision).toBe(1);
  });

  it('names what another template was made from', async () => {
    const first = await published(ann);
    const done = await shelf('bea', 'publish', at('longer.json'), '--license', 'cc-by-4.0');
    expect(done).toMatchObject({ code: 0, err: '' });
    const { from } = await ann.get('template', { params: { template: await published(bea) } });
    expect(from).toMatchObject({ id: first, revision: 1 });
  });

  it('tells what the club refuses in its own sentence', async () => {
    const none = await shelf('ann', 'get', 'never-was-here', '--out', at('none.json'));
    expect(none).toMatchObject({ code: 1, out: '' });
    expect(none.err).toMatch(/^[^\n]+\.$/);
    const stranger = await shelf('nobody', 'list');
    expect(stranger).toMatchObject({ code: 2, out: '' });
    expect(stranger.err).toContain('does not know the token');
    expect((await shelf('nobody', 'publish', at('bench.json'), '--license', 'club')).err).toBe(
      stranger.err,
    );
    const elsewhere = await shelf('ann', 'list', '--club', base.replace('127.0.0.1', 'localhost'));
    expect(elsewhere.code).toBe(1);
  });

  it('says that there are more than it lists, and goes on to the last', async () => {
    const body = { ...edition({ title: 'One of many' }), licence: 'cc0-1.0' } as const;
    for (let place = 0; place < 49; place += 1) {
      await club.keeper.get('publish', { body: { ...body, id: `one-of-many-${place}` } });
    }
    const first = await shelf('ann', 'list', 'many');
    expect(first.out.split('\n')).toHaveLength(49);
    expect(first.err).toContain('--all');
    const all = await shelf('ann', 'list', 'many', '--all');
    expect(all.err).toBe('');
    expect(all.out.split('\n')).toHaveLength(50);
  });
});
