import { ClubRefused } from '@kerfbook/protocol';
import { cameIn } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { deleteBook, listBooks } from '../filing.ts';
import { type ClubDevice, column, deviceOf, sharedBench, type } from '../testing/club-device.ts';
import { ADA, BEN, FakeClub } from '../testing/fake-club.ts';
import { change, lengthEdit, saveAndOpen, shows, TestStore } from '../testing/sample.ts';
import { standingSentence } from './standing.ts';

async function deskAndTablet() {
  const club = new FakeClub();
  const desk = await deviceOf(club, ADA, 'desk');
  const tablet = await deviceOf(club, ADA, 'tablet');
  const id = await sharedBench(desk, tablet);
  return { club, desk, tablet, id };
}

const kinds = (id: string, ...devices: readonly ClubDevice[]) =>
  devices.map(({ books }) => books.standing(id).kind);

describe('a workbook that follows', () => {
  it('is on the other device as it is here, offline too', async () => {
    const { tablet, id } = await deskAndTablet();
    expect(shows(tablet.page, 'bench_length')).toBe('40');
    expect(tablet.books.standing(id)).toEqual({ kind: 'inStep' });
    const again = await deviceOf(new FakeClub(), ADA, 'tablet', { store: tablet.store });
    again.line.off = true;
    await again.books.look();
    expect(again.books.standing(id)).toMatchObject({ kind: 'away', changes: 0 });
    expect((await again.page.open(id)).ok).toBe(true);
    expect(shows(again.page, 'bench_length')).toBe('40');
  });

  it('sends what was typed when the maker pauses, and undo on the other device leaves it', async () => {
    const { desk, tablet, id } = await deskAndTablet();
    change(desk.page, lengthEdit('50'));
    expect(desk.books.standing(id)).toEqual({ kind: 'unsent', changes: 1 });
    await expect.poll(() => desk.books.standing(id).kind).toBe('inStep');
    await tablet.books.look();
    expect(shows(tablet.page, 'bench_length')).toBe('50');
    const { book } = tablet.page.current;
    expect([book.canUndo, book.undo()]).toEqual([false, undefined]);
    // What was typed here before something came in is taken back, and nothing else.
    type(tablet, { 1: 'Double' });
    change(desk.page, lengthEdit('52'));
    await desk.books.look();
    await tablet.books.look();
    const undone = book.undo();
    if (undone?.ok === true) tablet.page.record(undone.edit);
    expect([column(tablet)[1], shows(tablet.page, 'bench_length')]).toEqual(['Twice', '52']);
    await tablet.books.look();
    await desk.books.look();
    expect([column(desk)[1], shows(desk.page, 'bench_length')]).toEqual(['Twice', '52']);
  });

  it('has both changes where two changed something else, and says what waits while the club is away', async () => {
    const { desk, tablet, id } = await deskAndTablet();
    tablet.line.off = true;
    change(desk.page, lengthEdit('50'));
    type(tablet, { 0: 'How long' });
    type(tablet, { 1: 'Double' });
    await tablet.books.look();
    const standing = tablet.books.standing(id);
    expect(standing).toMatchObject({ kind: 'away', changes: 2 });
    expect(standingSentence(standing)).toMatch(/2 changes not sent yet/);
    await desk.books.look();
    tablet.line.off = false;
    await tablet.books.look('all');
    await desk.books.look();
    expect(kinds(id, desk, tablet)).toEqual(['inStep', 'inStep']);
    for (const one of [desk, tablet]) {
      expect([...column(one), shows(one.page, 'bench_length')]).toEqual([
        'How long',
        'Double',
        '50',
      ]);
    }
  });

  it('does not count what came in just before the club was gone', async () => {
    const { desk, tablet, id } = await deskAndTablet();
    type(desk, { 0: 'How long' });
    await desk.books.look();
    const { record } = tablet.page;
    tablet.page.record = (edit) => {
      tablet.page.record = record;
      record.call(tablet.page, edit);
      tablet.line.off = true;
    };
    await tablet.books.look();
    expect(column(tablet)[0]).toBe('How long');
    type(tablet, { 1: 'Double' });
    expect(tablet.books.standing(id)).toMatchObject({ kind: 'away', changes: 1 });
  });

  it('counts what is changed while a state is on its way that does not arrive', async () => {
    const { desk, id } = await deskAndTablet();
    type(desk, { 0: 'How long' });
    const stop = desk.books.state.watch(() => {
      if (desk.books.standing(id).kind !== 'sending') return;
      stop();
      desk.line.off = true;
      type(desk, { 1: 'Double' });
    });
    await desk.books.look();
    expect(desk.books.standing(id)).toMatchObject({ kind: 'away', changes: 2 });
  });

  it('overwrites nothing where both changed the same, and settles as the maker chooses', async () => {
    const { desk, tablet, id } = await deskAndTablet();
    tablet.line.off = true;
    change(desk.page, lengthEdit('50'));
    type(desk, { 1: 'Double' });
    change(tablet.page, lengthEdit('60'));
    await desk.books.look();
    tablet.line.off = false;
    await tablet.books.look('all');
    expect(tablet.books.standing(id)).toEqual({ kind: 'meeting', places: 1 });
    expect(tablet.books.meetings()).toEqual([id]);
    expect([shows(tablet.page, 'bench_length'), column(tablet)[1]]).toEqual(['60', 'Twice']);
    const before = await tablet.books.meeting(id);
    if ('says' in before) throw new Error(before.says);
    expect(tablet.books.metBy(id)).toMatchObject({ by: ADA, device: 'desk' });
    // More comes from the desk meanwhile: the meeting is made anew.
    type(desk, { 0: 'How long' });
    await desk.books.look();
    await tablet.books.look();
    const meeting = await tablet.books.meeting(id);
    if ('says' in meeting) throw new Error(meeting.says);
    expect(meeting.renewal.met.map(({ mine, theirs }) => [mine.entry, theirs.entry])).toEqual([
      ['60 in', '50 in'],
    ]);
    expect(meeting.renewal.taken).toHaveLength(2);
    expect(await tablet.books.settle(id, new Map())).toMatchObject({ ok: false });
    const choices = new Map(meeting.renewal.met.map(({ key }) => [key, 'mine'] as const));
    // What was not shown is not chosen.
    expect(await tablet.books.settle(id, choices, before.head)).toMatchObject({
      ok: false,
      says: expect.stringMatching(/changed it again meanwhile/),
    });
    expect(await tablet.books.settle(id, choices, meeting.head)).toEqual({ ok: true });
    await desk.books.look();
    for (const one of [desk, tablet]) {
      expect([...column(one), shows(one.page, 'bench_length')]).toEqual([
        'How long',
        'Double',
        '60',
      ]);
    }
    expect(kinds(id, desk, tablet)).toEqual(['inStep', 'inStep']);
    expect((await tablet.page.versions.list()).some(({ name }) => name !== undefined)).toBe(true);
  });

  it('comes in where it is not open, and is sent from there', async () => {
    const { desk, tablet, id } = await deskAndTablet();
    change(desk.page, lengthEdit('50'));
    await desk.books.look();
    type(tablet, { 1: 'Double' });
    await tablet.page.open('template-bench');
    await tablet.books.look('all');
    await desk.books.look();
    expect([column(desk)[1], shows(desk.page, 'bench_length')]).toEqual(['Double', '50']);
    await tablet.page.open(id);
    expect([column(tablet)[1], shows(tablet.page, 'bench_length')]).toEqual(['Double', '50']);
    expect(tablet.books.standing(id).kind).toBe('inStep');
  });

  it('is asked about without its text as long as nothing is new', async () => {
    const { club, desk, id } = await deskAndTablet();
    const before = club.texts;
    for (let i = 0; i < 5; i += 1) await desk.books.look();
    expect(club.texts).toBe(before);
    expect(desk.books.standing(id).kind).toBe('inStep');
  });

  it('knows its own state again where the answer was lost', async () => {
    const { club, desk, id } = await deskAndTablet();
    desk.line.deaf = 1;
    change(desk.page, lengthEdit('50'));
    await desk.books.look();
    expect(desk.books.standing(id).kind).toBe('away');
    // It is typed over before the club is heard again: no meeting with oneself.
    change(desk.page, lengthEdit('60'));
    await desk.books.look('all');
    expect(desk.books.standing(id).kind).toBe('inStep');
    expect(club.books.get(id)?.states).toHaveLength(3);
  });

  it('knows it again behind what another one sent on top of it, who may take it back', async () => {
    const { desk, tablet, id } = await deskAndTablet();
    desk.line.deaf = 1;
    change(desk.page, lengthEdit('50'));
    await desk.books.look();
    desk.line.off = true;
    await tablet.books.look();
    change(tablet.page, lengthEdit('40'));
    await tablet.books.look();
    desk.line.off = false;
    await desk.books.look('all');
    expect(shows(desk.page, 'bench_length')).toBe('40');
    expect(kinds(id, desk, tablet)).toEqual(['inStep', 'inStep']);
  });

  it('says why the club does not take it, and sends it again once it is another one', async () => {
    const { club, desk, id } = await deskAndTablet();
    club.refuses = new ClubRefused('tooLarge', 'It is too large for the club.');
    change(desk.page, lengthEdit('50'));
    await desk.books.look();
    const refused = { kind: 'refused', says: 'It is too large for the club.' };
    expect(desk.books.standing(id)).toEqual(refused);
    club.refuses = undefined;
    await desk.books.look();
    expect(desk.books.standing(id)).toEqual(refused);
    change(desk.page, lengthEdit('51'));
    await desk.books.look();
    expect(desk.books.standing(id).kind).toBe('inStep');
  });

  it('takes over what another one did to a locked workbook', async () => {
    const { desk, tablet } = await deskAndTablet();
    change(desk.page, { do: 'setBook', set: { locked: true } });
    await desk.books.look();
    await tablet.books.look();
    expect(tablet.page.current.book.locked).toBe(true);
    change(desk.page, { do: 'setBook', set: { locked: null } });
    await desk.books.look();
    await tablet.books.look();
    expect(tablet.page.current.book.locked).toBe(false);
  });
});

describe('workbooks of this device', () => {
  it('are given to the club by one press, and go on where that stopped', async () => {
    const club = new FakeClub();
    const desk = await deviceOf(club, ADA, 'desk');
    change(desk.page, lengthEdit('45'));
    await saveAndOpen(desk.page, 'One');
    const first = desk.page.current.id;
    await saveAndOpen(desk.page, 'Two');
    const second = desk.page.current.id;
    desk.line.deaf = 1;
    const ids = [first, second, 'template-bench', 'nobody'];
    const came = await desk.books.bringIn(ids);
    expect(came.map(({ done }) => done.ok)).toEqual([false, true, true, false]);
    const again = await desk.books.bringIn(ids.slice(0, 3));
    expect(again.map(({ done }) => done)).toEqual([{ ok: true }, { ok: true }, { ok: true }]);
    expect(club.books.size).toBe(3);
    // A working copy has the same id on every device: at the club it has its own.
    expect(club.books.has('template-bench')).toBe(false);
    const tablet = await deviceOf(club, ADA, 'tablet');
    expect(await tablet.books.takeFromClub()).toEqual({ done: { ok: true }, came: 3 });
    expect((await listBooks(tablet.page)).own.map(({ title }) => title).sort()).toEqual([
      'Bench',
      'One',
      'Two',
    ]);
    expect((await tablet.books.takeFromClub()).came).toBe(0);
  });

  it('that are a template as it ships are not given to the club', async () => {
    const desk = await deviceOf(new FakeClub(), ADA, 'desk');
    const [came] = await desk.books.bringIn(['template-bench']);
    expect(came?.done).toMatchObject({ ok: false, says: expect.stringMatching(/built-in/) });
  });

  it('stay in the trash without going from the club, and go from there when they are deleted for good', async () => {
    const { club, desk, tablet, id } = await deskAndTablet();
    await deleteBook(tablet.page, id);
    await tablet.books.look('all');
    expect(club.books.has(id)).toBe(true);
    expect((await tablet.books.takeFromClub()).came).toBe(0);
    tablet.line.off = true;
    expect(await tablet.books.destroy(id)).toEqual({ ok: true });
    expect(club.books.has(id)).toBe(true);
    tablet.line.off = false;
    await tablet.books.look('all');
    expect(club.books.has(id)).toBe(false);
    await desk.books.look('all');
    expect(desk.books.standing(id)).toMatchObject({
      kind: 'here',
      says: expect.stringMatching(/stays on this device/),
    });
    expect(shows(desk.page, 'bench_length')).toBe('40');
    expect(desk.page.state.value.notices).toHaveLength(1);
  });

  it('stay when they follow no more, with nothing of the club beside them', async () => {
    const { desk, id } = await deskAndTablet();
    expect(await desk.books.stopFollowing(id)).toEqual({ ok: true });
    expect(desk.books.standing(id)).toEqual({ kind: 'here' });
    expect(await desk.store.keys('club:')).toEqual([]);
    expect(await desk.store.keys(`rests:${id}:`)).toEqual([]);
    expect(await desk.store.keys('base:')).toEqual([]);
    expect(shows(desk.page, 'bench_length')).toBe('40');
    // It stays so until its maker wants it otherwise.
    expect(await desk.books.takeFromClub()).toEqual({ done: { ok: true }, came: 0 });
    expect(desk.books.standing(id)).toEqual({ kind: 'here' });
    // Taken up again, nothing of it is doubled.
    expect(await desk.books.bringIn([id])).toEqual([{ id, done: { ok: true } }]);
    expect(desk.books.standing(id)).toEqual({ kind: 'inStep' });
  });

  it('have beside them the one state that they rest on, however often they are sent', async () => {
    const { desk, id } = await deskAndTablet();
    for (const length of ['50', '51', '52']) {
      change(desk.page, lengthEdit(length));
      await desk.books.look();
    }
    expect(await desk.store.keys(`rests:${id}:`)).toHaveLength(1);
    expect(await desk.store.keys('base:')).toHaveLength(1);
  });

  it('are kept beside the club’s where what both had in common is lost', async () => {
    const { desk, tablet, id } = await deskAndTablet();
    change(desk.page, lengthEdit('50'));
    await desk.books.look();
    change(tablet.page, lengthEdit('60'));
    for (const key of await tablet.store.keys('base:')) await tablet.store.set(key, undefined);
    await tablet.books.look('all');
    expect(tablet.books.standing(id).kind).toBe('here');
    expect(shows(tablet.page, 'bench_length')).toBe('60');
    const other = (await listBooks(tablet.page)).own.find(({ title }) => title.includes('club'));
    await tablet.page.open(other?.id ?? '');
    expect(shows(tablet.page, 'bench_length')).toBe('50');
    change(tablet.page, lengthEdit('55'));
    await tablet.books.look();
    await desk.books.look();
    expect(shows(desk.page, 'bench_length')).toBe('55');
  });
});

describe('two partners', () => {
  it('see each other’s changes, and who made them', async () => {
    const club = new FakeClub();
    const said: string[] = [];
    const ada = await deviceOf(club, ADA, 'desk');
    await saveAndOpen(ada.page, 'Hall bench');
    const { id } = ada.page.current;
    await ada.books.bringIn([id]);
    const store = new TestStore();
    const ben = await deviceOf(club, BEN, 'laptop', { store });
    expect((await ben.books.takeFromClub()).came).toBe(0);
    expect(await ada.books.share(id, BEN.id)).toEqual({ ok: true });
    expect((await ben.books.takeFromClub()).came).toBe(1);
    ben.books.stop();
    const again = await deviceOf(club, BEN, 'laptop', {
      store,
      takeIn: (edit, words) => {
        said.push(words);
        const done = again.page.current.book.apply(edit, cameIn);
        if (done.ok) again.page.record(done.edit);
        return done;
      },
    });
    await again.page.open(id);
    change(ada.page, lengthEdit('50'));
    await ada.books.look();
    await again.books.look();
    expect(said).toEqual(['Brought in what Ada changed.']);
    expect(shows(again.page, 'bench_length')).toBe('50');
    change(again.page, lengthEdit('52'));
    await again.books.look();
    await ada.books.look();
    expect(shows(ada.page, 'bench_length')).toBe('52');
    // Not shared any more, it stays where it is and follows no more.
    expect(await ada.books.unshare(id, BEN.id)).toEqual({ ok: true });
    await again.books.look();
    expect(again.books.standing(id).kind).toBe('here');
    expect(shows(again.page, 'bench_length')).toBe('52');
    // One that was shared goes from this device alone.
    expect(club.books.has(id)).toBe(true);
  });

  it('do not touch each other’s workbooks on a device that both use', async () => {
    const { club, desk, id } = await deskAndTablet();
    desk.books.stop();
    const ben = await deviceOf(club, BEN, 'desk', { store: desk.store });
    change(desk.page, lengthEdit('50'));
    await ben.books.look('all');
    expect(ben.books.standing(id).kind).toBe('here');
    const ada = await deviceOf(club, ADA, 'desk', { store: desk.store });
    await ada.books.look('all');
    expect(ada.books.standing(id).kind).toBe('inStep');
    expect(club.books.get(id)?.states).toHaveLength(2);
  });
});
