import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { DatabaseAway } from '../database/errors.ts';
import { edition, PASSWORD, testClub, Visitor } from '../testing/club.ts';
import { onSqlite } from '../testing/databases.ts';

onSqlite('the server of a club', (open) => {
  const founded = async (about = {}) => testClub(await open(), about);

  it('answers to its own addresses alone, so that no page of another name reads it', async () => {
    const { app } = await founded();
    const ask = (host: string) => app.inject({ url: '/club/here', headers: { host } });
    expect((await ask('localhost')).statusCode).toBe(200);
    expect((await ask('elsewhere.test')).statusCode).toBe(400);
    expect((await ask('localhost:99')).statusCode).toBe(400);
  });

  it.each([
    ['another origin', { origin: 'https://elsewhere.test' }, 403],
    ['the same name on another port', { origin: 'http://localhost:8080' }, 403],
    ['a page that hides where it is from', { origin: 'null' }, 403],
    ['another site, as the browser tells', { 'sec-fetch-site': 'cross-site' }, 403],
    ['a sister site', { 'sec-fetch-site': 'same-site' }, 403],
    ['its own page', { origin: 'http://localhost', 'sec-fetch-site': 'same-origin' }, 200],
  ])('lets what %s asks through or not', async (_who, headers, status) => {
    const { keeper } = await founded();
    const asked = { body: { name: 'Another name' } };
    expect((await keeper.ask('renameClub', asked, headers as never)).status).toBe(status);
  });

  it('takes JSON alone: a form cannot be sent here from another page', async () => {
    const { app, keeper } = await founded();
    for (const type of ['text/plain', 'application/x-www-form-urlencoded', 'multipart/form-data']) {
      const { statusCode } = await app.inject({
        method: 'PUT',
        url: '/club/name',
        headers: {
          host: 'localhost',
          origin: 'http://localhost',
          cookie: keeper.cookie ?? '',
          'content-type': type,
        },
        payload: '{"name":"x"}',
      });
      expect(statusCode).toBe(400);
    }
  });

  it('has a cookie that scripts and other sites never see, bound to the host over https', async () => {
    const { club, app, member } = await founded({ behindProxy: true });
    await member('Ada');
    const signIn = async (origin: string) => {
      const one = new Visitor(app, origin);
      return (await one.ask('signIn', { body: { name: 'Ada', password: PASSWORD } })).headers;
    };
    expect(club.id).not.toBe('');
    const secure = String((await signIn('https://club.test'))['set-cookie']);
    expect(secure).toMatch(
      /^__Host-kerfbook=[\w-]{43}; Max-Age=\d+; Path=\/; HttpOnly; Secure; SameSite=Lax$/,
    );
    const plain = String((await signIn('http://club.test'))['set-cookie']);
    expect(plain).toMatch(/^kerfbook=[\w-]{43}; Max-Age=\d+; Path=\/; HttpOnly; SameSite=Lax$/);
  });

  it('asks browsers to stay with https where they came by it', async () => {
    const { app } = await founded({ behindProxy: true });
    const header = async (origin: string) =>
      (await new Visitor(app, origin).ask('here', {})).headers['strict-transport-security'];
    expect(await header('https://club.test')).toBe('max-age=15552000');
    expect(await header('http://club.test')).toBeUndefined();
  });

  it('offers passkeys by a name over https and on this machine, never by an address', async () => {
    const { app } = await founded({ behindProxy: true });
    const passkeys = async (origin: string) =>
      (await new Visitor(app, origin).get('here', {})).passkeys;
    expect(await passkeys('https://club.test')).toBe(true);
    expect(await passkeys('http://localhost')).toBe(true);
    expect(await passkeys('http://club.test')).toBe(false);
    expect(await passkeys('https://192.0.2.7:4180')).toBe(false);
  });

  it('sends the app with a sign that there is a club, and nothing outside of its folder', async () => {
    const appFolder = mkdtempSync(join(tmpdir(), 'kerfbook-app-'));
    writeFileSync(join(appFolder, 'index.html'), '<head><meta charset="utf-8" /></head>');
    const { app } = await founded({ appFolder });
    const get = (url: string) => app.inject({ url, headers: { host: 'localhost' } });
    const page = await get('/');
    expect(page.body).toContain('<meta name="kerfbook-club" content="here">');
    expect(page.headers['content-security-policy']).toContain("default-src 'none'");
    for (const url of [
      '/../package.json',
      '/..%2fpackage.json',
      '/%00',
      '/club/nothing',
      '/club/',
    ]) {
      expect((await get(url)).statusCode).toBe(404);
    }
  });

  it('answers 503 and how long to wait where its database is away, and goes on once it is back', async () => {
    const database = await open();
    let away = false;
    const { keeper } = await testClub({
      ...database,
      get read() {
        if (away) throw new DatabaseAway('The club’s database does not answer.');
        return database.read;
      },
    });
    away = true;
    const asked = await keeper.ask('members', {});
    expect(asked).toMatchObject({ status: 503, refused: 'notNow' });
    expect(asked.headers['retry-after']).toBe('5');
    away = false;
    expect((await keeper.ask('members', {})).status).toBe(200);
  });

  it('keeps order and sessions where its clock is set back', async () => {
    const { keeper, clock } = await founded();
    const params = { template: 'bench-of-keeper' };
    await keeper.get('publish', {
      body: { id: params.template, licence: 'club', ...edition({ title: 'First' }) },
    });
    const was = (await keeper.get('template', { params })).template.changed;
    clock.pass(-3 * 86_400_000);
    await keeper.get('publishRevision', {
      params,
      body: { parent: 1, ...edition({ title: 'Second' }) },
    });
    const { template } = await keeper.get('template', { params });
    expect(template.revision).toBe(2);
    expect(template.changed).toBeGreaterThan(was);
    expect((await keeper.get('browse', {})).templates[0]?.title).toBe('Second');
    clock.pass(4 * 86_400_000);
    expect((await keeper.ask('members', {})).status).toBe(200);
  });

  it('writes lines into the log that hold no secret, whoever asks what', async () => {
    const lines: string[] = [];
    const { app, keeper, member } = await founded({
      log: { write: (line: string) => void lines.push(line) },
    });
    await member('Ada');
    const ada = new Visitor(app);
    await ada.get('signIn', { body: { name: 'Ada', password: PASSWORD } });
    const { code } = await keeper.get('invite', { body: { role: 'member', days: 1 } });
    await ada.ask('lookAtInvitation', { body: { code } });
    await ada.ask('browse', { query: { find: 'a secret bench' } });
    const { token } = await ada.get('makeToken', { body: { label: 'desk', days: 1 } });
    const log = lines.join('');
    expect(lines.length).toBeGreaterThan(4);
    for (const secret of [
      PASSWORD,
      code,
      token,
      ada.cookie?.split('=')[1] ?? '?',
      'a%20secret',
      'a+secret',
    ]) {
      expect(log).not.toContain(secret);
    }
    for (const line of lines) expect(JSON.parse(line)).toHaveProperty('time');
  });

  it('counts what it answered, for the machine itself and for keepers', async () => {
    const { app, keeper, member } = await founded();
    await keeper.get('members', {});
    const metrics = (remoteAddress: string, cookie = '') =>
      app.inject({ url: '/club/metrics', remoteAddress, headers: { host: 'localhost', cookie } });
    const own = await metrics('127.0.0.1');
    expect(own.body).toContain('kerfbook_answers_total{route="/club/members",status="200"} 1');
    expect((await metrics('198.51.100.4')).statusCode).toBe(401);
    const ada = await member('Ada');
    expect((await metrics('198.51.100.4', ada.cookie)).statusCode).toBe(403);
    expect((await metrics('198.51.100.4', keeper.cookie)).statusCode).toBe(200);
  });
});
