import { type BookDocument, type Edit, saveText } from '@kerfbook/workbook';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Bookcase } from '../bookcase.ts';
import { textOf } from '../opening.ts';
import { unsqueezed } from '../squeeze.ts';
import { type ClubDevice, deviceOf } from '../testing/club-device.ts';
import { ADA, BEN, FakeClub } from '../testing/fake-club.ts';
import { type Killable, killable } from '../testing/killable.ts';
import { TestStore } from '../testing/sample.ts';

/** Two columns of words, with a name and a formula, small enough for two makers to meet in it. */
const SHOP: BookDocument = {
  kerfbook: 8,
  title: 'Shop',
  units: 'us',
  sheets: [
    {
      id: 's1',
      name: 'List',
      columns: [{ id: 'c1' }, { id: 'c2' }, { id: 'c3' }],
      rows: [
        { id: 'r1', cells: { c1: { value: 'oak' }, c2: { value: 3, name: 'many' } } },
        { id: 'r2', cells: { c1: { value: 'elm' }, c2: { formula: '=many*2' } } },
        { id: 'r3', cells: { c1: { value: 'ash' } } },
        { id: 'r4' },
      ],
    },
  ],
  checks: [],
  tables: [],
};

const cell = { row: fc.nat(4), column: fc.constantFrom(0, 2) };
/** What a maker does to a workbook; a word that nobody else types goes in at `word`. */
const act = fc.oneof(
  { weight: 6, arbitrary: fc.record({ act: fc.constant('type' as const), ...cell }) },
  fc.record({ act: fc.constant('clear' as const), ...cell }),
  fc.record({ act: fc.constant('number' as const), to: fc.integer({ min: 1, max: 9 }) }),
  fc.record({ act: fc.constant('insert' as const), at: fc.nat(3) }),
  fc.record({ act: fc.constant('delete' as const), at: fc.nat(3) }),
  fc.record({ act: fc.constant('title' as const) }),
  fc.record({ act: fc.constant('remark' as const), ...cell }),
  fc.record({ act: fc.constant('units' as const) }),
  fc.record({ act: fc.constant('undo' as const) }),
);
type Act = typeof act extends fc.Arbitrary<infer T> ? T : never;

/** What happens at a device. */
const step = fc.record({
  device: fc.nat(2),
  what: fc.oneof(
    { weight: 6, arbitrary: act },
    {
      weight: 5,
      arbitrary: fc.constantFrom('look', 'off', 'on', 'deaf', 'away', 'back', 'settle'),
    },
    { weight: 1, arbitrary: fc.record({ during: act, after: fc.nat(12) }) },
    { weight: 1, arbitrary: fc.record({ killBefore: fc.integer({ min: 1, max: 4 }) }) },
  ),
});
type Step = typeof step extends fc.Arbitrary<infer T> ? T : never;

interface Desk extends ClubDevice {
  readonly killable: Killable;
  readonly disk: TestStore;
}

class Shop {
  readonly club = new FakeClub();
  readonly devices: Desk[] = [];
  readonly which: 'mine' | 'theirs';
  id = '';
  #words = 0;
  /** Words that were typed, and words that somebody who saw them took out, or was asked about. */
  readonly typed = new Set<string>();
  readonly known = new Set<string>();
  met = 0;
  killed = 0;

  constructor(which: 'mine' | 'theirs') {
    this.which = which;
  }

  static async open(which: 'mine' | 'theirs', devices: number): Promise<Shop> {
    const shop = new Shop(which);
    for (let i = 0; i < devices; i += 1) await shop.#start(i, new TestStore());
    const [first, ...others] = shop.devices;
    if (first === undefined) throw new Error('no device');
    await first.page.add(saveText(SHOP), 'Shop', { kind: 'own', from: '' });
    shop.id = first.page.current.id;
    const [came] = await first.books.bringIn([shop.id]);
    expect(came?.done).toEqual({ ok: true });
    await first.books.share(shop.id, BEN.id);
    for (const one of others) {
      expect((await one.books.takeFromClub()).came).toBe(1);
      await one.page.open(shop.id);
    }
    return shop;
  }

  async #start(at: number, disk: TestStore): Promise<Desk> {
    const way = killable(disk);
    const me = at === 2 ? BEN : ADA;
    const more = { store: way.store, pause: 1_000_000_000 };
    const device = await deviceOf(this.club, me, `device ${at}`, more);
    const desk = { ...device, killable: way, disk };
    this.devices[at] = desk;
    return desk;
  }

  stop(): void {
    for (const { books } of this.devices) books.stop();
  }

  async take({ device, what }: Step): Promise<void> {
    const at = device % this.devices.length;
    const one = this.devices[at];
    if (one === undefined) return;
    if (typeof what === 'object') {
      if ('act' in what) return this.#act(one.page, what);
      if ('during' in what) return this.#during(one, what.during, what.after);
      return this.#kill(at, one, what.killBefore);
    }
    switch (what) {
      case 'look':
        return one.books.look('all');
      case 'off':
      case 'on':
        one.line.off = what === 'off';
        return;
      case 'deaf':
        one.line.deaf = 1;
        return;
      case 'away':
        await one.page.open('template-bench');
        return;
      case 'back':
        await one.page.open(this.id);
        return;
      case 'settle':
        await this.settle(one);
    }
  }

  /** The maker goes on while the club is asked. */
  async #during(one: Desk, during: Act, after: number): Promise<void> {
    const looked = one.books.look('all');
    for (let i = 0; i < after; i += 1) await new Promise((resolve) => setImmediate(resolve));
    await this.#act(one.page, during);
    await looked;
  }

  async #kill(at: number, one: Desk, write: number): Promise<void> {
    one.killable.killBefore(write);
    await one.books.look('all').catch(() => undefined);
    await this.settle(one).catch(() => undefined);
    one.books.stop();
    if (one.killable.isDead) this.killed += 1;
    // Whether it came to that write or not: the page is gone.
    one.killable.killBefore(0);
    const { off } = one.line;
    const isOpen = one.page.current.id === this.id;
    const next = await this.#start(at, one.disk);
    next.line.off = off;
    if (isOpen) await next.page.open(this.id);
  }

  async #act(page: Bookcase, what: Act): Promise<void> {
    if (page.current.id !== this.id) return;
    const { book } = page.current;
    const before = wordsIn(textOf(book));
    const word = `word${this.#words}x`;
    this.#words += 1;
    const done =
      what.act === 'undo' ? book.undo() : book.apply(editOf(what, word, book.units === 'us'));
    if (done?.ok !== true) return;
    page.record(done.edit);
    const after = wordsIn(textOf(book));
    for (const one of before) if (!after.has(one)) this.known.add(one);
    for (const one of after) if (!before.has(one)) this.typed.add(one);
    // What the device did not take may be lost with its page.
    expect(await page.written()).toBe(true);
  }

  /** Chooses everywhere the same. True where there was something to choose. */
  async settle(one: Desk): Promise<boolean> {
    if (!one.books.meetings().includes(this.id)) return false;
    const meeting = await one.books.meeting(this.id);
    if ('says' in meeting) return false;
    this.met += 1;
    for (const { mine, theirs, base } of meeting.renewal.met) {
      for (const side of [mine, theirs, base]) {
        for (const word of wordsIn(side.entry)) this.known.add(word);
      }
    }
    const choices = new Map(meeting.renewal.met.map(({ key }) => [key, this.which] as const));
    await one.books.settle(this.id, choices);
    return true;
  }

  /** Everything is reached again, sent and settled. */
  async end(): Promise<void> {
    for (const one of this.devices) {
      Object.assign(one.line, { off: false, deaf: 0 });
      await one.page.open(this.id);
    }
    for (let round = 0; round < 12; round += 1) {
      let isMet = false;
      for (const one of this.devices) {
        await one.books.look('all');
        isMet = (await this.settle(one)) || isMet;
      }
      const kinds = this.devices.map(({ books }) => books.standing(this.id).kind);
      if (!isMet && round > 1 && kinds.every((kind) => kind === 'inStep')) return;
    }
    throw new Error(
      `not in step: ${JSON.stringify(this.devices.map(({ books }) => books.standing(this.id)))}`,
    );
  }
}

const WORD = /word\d+x/g;
const wordsIn = (text: string): ReadonlySet<string> => new Set(text.match(WORD));

function editOf(what: Exclude<Act, { act: 'undo' }>, word: string, isUs: boolean): Edit {
  const sheet = 's1';
  switch (what.act) {
    case 'type': {
      const { row, column } = what;
      return { do: 'enter', sheet, cells: [{ row, column, text: word }] };
    }
    case 'clear':
      return { do: 'clear', sheet, cells: [{ row: what.row, column: what.column }] };
    case 'number':
      return { do: 'enter', sheet, cells: [{ row: 0, column: 1, text: String(what.to) }] };
    case 'insert':
      return {
        do: 'insertRows',
        sheet,
        at: what.at,
        rows: [{ id: `n${word}`, cells: { c3: { value: word } } }],
      };
    case 'delete':
      return { do: 'deleteRows', sheet, at: what.at, count: 1 };
    case 'title':
      return { do: 'setBook', set: { title: word } };
    case 'remark': {
      const { row, column } = what;
      return { do: 'describeCells', sheet, cells: [{ row, column, traits: { remark: word } }] };
    }
    case 'units':
      return { do: 'changeUnits', to: isUs ? 'metric' : 'us' };
  }
}

describe('a workbook on several devices', () => {
  it('is the same on all of them and at the club once all have sent and settled, and nothing typed is lost unseen', async () => {
    let met = 0;
    let killed = 0;
    await fc.assert(
      fc.asyncProperty(
        fc.array(step, { minLength: 4, maxLength: 24 }),
        fc.integer({ min: 2, max: 3 }),
        fc.constantFrom('mine' as const, 'theirs' as const),
        async (steps, devices, which) => {
          const shop = await Shop.open(which, devices);
          try {
            for (const one of steps) await shop.take(one);
            await shop.end();
            const texts = shop.devices.map(({ page }) => textOf(page.current.book));
            const last = shop.club.books.get(shop.id)?.states.at(-1);
            const there = await unsqueezed(last?.text ?? '', 1e7);
            for (const text of texts) expect(text).toBe(there);
            const stay = wordsIn(there ?? '');
            const lost = [...shop.typed].filter((one) => !stay.has(one) && !shop.known.has(one));
            expect(lost).toEqual([]);
            // Nothing is left of states on the way there.
            for (const { disk } of shop.devices) expect(await disk.keys('base:')).toHaveLength(1);
            met += shop.met;
            killed += shop.killed;
          } finally {
            shop.stop();
          }
        },
      ),
      { seed: 20_261_129, numRuns: Number(process.env.RUNS ?? 60), endOnFailure: true },
    );
    // Meetings and kills did happen.
    expect(met).toBeGreaterThan(10);
    expect(killed).toBeGreaterThan(5);
  });
});
