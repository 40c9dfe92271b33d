import { expect, it } from 'vitest';
import { buildApp } from '../http/app.ts';
import { PASSWORD, testClub, Visitor } from '../testing/club.ts';
import { onBoth } from '../testing/databases.ts';
import { firstKeeperCode } from './members.ts';

const DAY = 86_400_000;
const NEXT = 'lantern harbour walnut';

onBoth('people of a club', (open) => {
  const founded = async () => testClub(await open());
  const join = (visitor: Visitor, code: string, name: string) =>
    visitor.ask('join', { body: { code, name, password: PASSWORD } });

  it('lets the first keeper in by a link that is printed while nobody is in the club', async () => {
    const { club } = await founded();
    expect(await firstKeeperCode(club)).toBeUndefined();
    const empty = { ...club, id: 'nobody-yet' };
    const [first, second] = [await firstKeeperCode(empty), await firstKeeperCode(empty)];
    expect(first).toHaveLength(43);
    expect(second).not.toBe(first);
  });

  it('takes an invitation once, until it runs out, and of two at once takes one', async () => {
    const { keeper, visitor, clock } = await founded();
    const { code } = await keeper.get('invite', { body: { role: 'member', days: 7 } });
    const looked = await visitor().get('lookAtInvitation', { body: { code } });
    expect(looked).toMatchObject({ club: 'Riverbend Woodworkers', kind: 'join', role: 'member' });
    const both = await Promise.all([join(visitor(), code, 'Ada'), join(visitor(), code, 'Bert')]);
    expect(both.map(({ status }) => status).sort()).toEqual([200, 410]);
    const late = await keeper.get('invite', { body: { role: 'member', days: 1 } });
    clock.pass(DAY + 1);
    expect(await join(visitor(), late.code, 'Cora')).toMatchObject({ refused: 'over' });
  });

  it('refuses a name that is taken in other letters, and what anybody would try first', async () => {
    const { keeper, visitor, member } = await founded();
    await member('Ada Stone');
    const { code } = await keeper.get('invite', { body: { role: 'member', days: 7 } });
    expect(await join(visitor(), code, '  ADA  stone ')).toMatchObject({ refused: 'notSo' });
    // Value from memory: these stand in every published list of the commonest.
    for (const password of ['password', 'Password1', '12345678', 'aaaaaaaaaa', 'Dora Field']) {
      const asked = { code, name: 'Dora Field', password };
      expect(await visitor().ask('join', { body: asked })).toMatchObject({ refused: 'notSo' });
    }
    expect(await join(visitor(), code, 'Dora Field')).toMatchObject({ status: 200 });
  });

  it('answers a wrong name and a wrong password alike, and after ten tries not at all', async () => {
    const { visitor, member } = await founded();
    await member('Ada');
    const signIn = (name: string, password: string) =>
      visitor().ask('signIn', { body: { name, password } });
    const wrongName = await signIn('Nobody here', PASSWORD);
    const wrongPassword = await signIn('Ada', 'not her password');
    expect(wrongName).toMatchObject({ status: 401, refused: 'signedOut' });
    expect(wrongPassword.says).toBe(wrongName.says);
    for (let i = 0; i < 9; i += 1) await signIn('Ada', 'not her password');
    // The right one neither: else whoever guesses would learn it from the answer.
    const right = await signIn('ADA', PASSWORD);
    expect(right).toMatchObject({ status: 429, refused: 'tooOften' });
    expect(right.wait).toBeGreaterThan(0);
    expect(right.headers['retry-after']).toBe(String(right.wait));
  });

  it('counts tries in the database, so that another process counts on', async () => {
    const { club, visitor } = await founded();
    const second = await buildApp(club, { hosts: new Set(['localhost']), log: false });
    for (let i = 0; i < 10; i += 1) {
      const at = i % 2 === 0 ? visitor() : new Visitor(second);
      const { status } = await at.ask('signIn', {
        body: { name: 'Guess', password: 'guess-guess' },
      });
      expect(status).toBe(401);
    }
    const { status } = await visitor().ask('signIn', {
      body: { name: 'guess', password: 'guess-guess' },
    });
    expect(status).toBe(429);
  });

  it('ends a session after two weeks unused and after ninety days anyhow', async () => {
    const { member, clock } = await founded();
    const idle = await member('Ada');
    const busy = await member('Bert');
    for (let day = 0; day < 89; day += 1) {
      clock.pass(DAY);
      if (day < 14) expect((await busy.ask('account', {})).status).toBe(200);
      else if (day % 10 === 0) expect((await busy.ask('account', {})).status).toBe(200);
      if (day === 14) expect((await idle.ask('account', {})).status).toBe(401);
    }
    clock.pass(2 * DAY);
    expect((await busy.ask('account', {})).status).toBe(401);
  });

  it('ends other sessions with a new password, and asks for the old one', async () => {
    const { member, visitor } = await founded();
    const desk = await member('Ada');
    const tablet = visitor();
    await tablet.get('signIn', { body: { name: 'Ada', password: PASSWORD } });
    const without = await desk.ask('setPassword', { body: { next: NEXT } });
    expect(without).toMatchObject({ refused: 'notSo' });
    await desk.get('setPassword', { body: { now: PASSWORD, next: NEXT } });
    expect((await tablet.ask('account', {})).status).toBe(401);
    expect((await desk.ask('account', {})).status).toBe(200);
    await tablet.get('signIn', { body: { name: 'Ada', password: NEXT } });
  });

  it('signs out the browser and the club alike, and leaves what the browser keeps of workbooks', async () => {
    const { member, visitor } = await founded();
    const ada = await member('Ada');
    const { cookie = '' } = ada;
    const out = await ada.ask('signOut', {});
    expect(out.headers['clear-site-data']).toBe('"cookies"');
    expect(ada.cookie).toBeUndefined();
    const again = await visitor().ask('account', {}, { cookie });
    expect(again.status).toBe(401);
  });

  it('lets a member back in by a keeper, once, with the sessions of before ended', async () => {
    const { member, keeper, visitor } = await founded();
    const ada = await member('Ada');
    const first = await keeper.get('recover', { params: { member: ada.id } });
    const { code } = await keeper.get('recover', { params: { member: ada.id } });
    const back = visitor();
    const older = await back.ask('join', { body: { code: first.code, name: 'x', password: NEXT } });
    expect(older).toMatchObject({ refused: 'over' });
    const looked = await back.get('lookAtInvitation', { body: { code } });
    expect(looked).toMatchObject({ kind: 'recover', name: 'Ada' });
    const me = await back.get('join', { body: { code, name: 'Whatever', password: NEXT } });
    expect(me).toEqual({ id: ada.id, name: 'Ada', role: 'member' });
    expect((await ada.ask('account', {})).status).toBe(401);
  });

  it('keeps a keeper, whoever goes and whatever two of them do to each other at once', async () => {
    const { keeper, member } = await founded();
    const [me] = (await keeper.get('members', {})).members;
    const alone = await keeper.ask('leave', { body: { published: 'give' } });
    expect(alone).toMatchObject({ refused: 'notSo' });
    const other = await member('Second keeper', 'keeper');
    const down = (of: Visitor, id: string) =>
      of.ask('setRole', { params: { member: id }, body: { role: 'member' } });
    const both = await Promise.all([down(keeper, other.id), down(other, me?.id ?? '')]);
    const { members } = await keeper.get('members', {});
    expect(members.filter(({ role }) => role === 'keeper')).toHaveLength(1);
    expect(both.filter(({ status }) => status === 200)).toHaveLength(1);
  });

  it('lets who leaves take along what he published, or give it to the club without his name', async () => {
    const { member, keeper } = await founded();
    const { edition } = await import('../testing/club.ts');
    const [giver, taker] = [await member('Giver'), await member('Taker')];
    const body = (id: string) => ({ id, licence: 'cc-by-4.0' as const, ...edition() });
    await giver.get('publish', { body: body('given-to-the-club') });
    await taker.get('publish', { body: body('taken-along') });
    await giver.get('leave', { body: { published: 'give' } });
    await taker.get('leave', { body: { published: 'take' } });
    const { templates } = await keeper.get('browse', {});
    expect(templates.map(({ id, by }) => [id, by.name, by.gone])).toEqual([
      ['given-to-the-club', 'A former member', true],
    ]);
    // The name is free again.
    expect((await member('Giver')).id).not.toBe(giver.id);
  });

  it('gives the command line a token that opens what it is for, until it is ended', async () => {
    const { member, visitor, clock } = await founded();
    const ada = await member('Ada');
    const made = await ada.get('makeToken', { body: { label: 'desk', days: 30 } });
    const line = visitor();
    line.token = made.token;
    expect((await line.ask('browse', {})).status).toBe(200);
    expect((await line.ask('account', {})).status).toBe(403);
    await ada.get('endToken', { params: { token: made.id } });
    expect((await line.ask('browse', {})).status).toBe(401);
    const short = await ada.get('makeToken', { body: { label: 'day', days: 1 } });
    line.token = short.token;
    clock.pass(DAY + 1);
    expect((await line.ask('browse', {})).status).toBe(401);
  });
});
