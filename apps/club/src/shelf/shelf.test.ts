import sharp from 'sharp';
import { expect, it } from 'vitest';
import { edition, packed, smallBook, testClub, type Visitor } from '../testing/club.ts';
import { onBoth } from '../testing/databases.ts';

const RED = { create: { width: 40, height: 30, channels: 3, background: '#aa2211' } } as const;

onBoth('the shelf', (open) => {
  const founded = async () => testClub(await open());

  const publish = (who: Visitor, id: string, about: { title?: string; card?: object } = {}) => {
    const { card, ...rest } = edition(about);
    return who.get('publish', {
      body: { id, licence: 'cc-by-4.0', ...rest, card: { ...card, ...about.card } },
    });
  };

  it('takes a template once, and each revision on top of the last one', async () => {
    const { member } = await founded();
    const ada = await member('Ada');
    expect(await publish(ada, 'bench-of-ada')).toEqual({ id: 'bench-of-ada', revision: 1 });
    // An answer that was not heard is asked for again.
    expect(await publish(ada, 'bench-of-ada')).toEqual({ id: 'bench-of-ada', revision: 1 });
    const params = { template: 'bench-of-ada' };
    const next = { parent: 1, ...edition({ title: 'Bench, wider' }) };
    expect((await ada.get('publishRevision', { params, body: next })).revision).toBe(2);
    expect((await ada.get('publishRevision', { params, body: next })).revision).toBe(2);
    const late = { parent: 1, ...edition({ title: 'Bench, lower' }) };
    const refused = await ada.ask('publishRevision', { params, body: late });
    expect(refused).toMatchObject({ refused: 'changed', head: 2 });
    const { template, revisions } = await ada.get('template', { params });
    expect(template.title).toBe('Bench, wider');
    expect(revisions.map(({ number }) => number)).toEqual([2, 1]);
    const was = await ada.get('revision', { params: { ...params, number: 1 } });
    expect(was.sign).toBe(packed(smallBook()).sign);
  });

  it('of two who publish at once takes one, whichever it is', async () => {
    const { member } = await founded();
    const ada = await member('Ada');
    await publish(ada, 'bench-of-ada');
    const params = { template: 'bench-of-ada' };
    const both = await Promise.all(
      ['one', 'other'].map((title) =>
        ada.ask('publishRevision', { params, body: { parent: 1, ...edition({ title }) } }),
      ),
    );
    expect(both.map(({ status }) => status).sort()).toEqual([200, 409]);
    expect((await ada.get('template', { params })).revisions).toHaveLength(2);
  });

  it('lets eight who publish each their own go on side by side', async () => {
    const { member } = await founded();
    const makers = await Promise.all(Array.from({ length: 8 }, (_, i) => member(`Maker ${i}`)));
    const done = await Promise.all(
      makers.map(async (maker, i) => {
        // Their rows lie side by side, where PostgreSQL locks pages of an index as a whole.
        const id = `own-template-${i}`;
        await publish(maker, id);
        const statuses: number[] = [];
        for (let parent = 1; parent <= 10; parent += 1) {
          const body = { parent, ...edition({ title: `Maker ${i}, ${parent}` }) };
          const { status } = await maker.ask('publishRevision', {
            params: { template: id },
            body,
          });
          statuses.push(status);
        }
        return statuses;
      }),
    );
    expect(done.flat().filter((status) => status !== 200)).toEqual([]);
  });

  it('finds by beginnings of words, kinds, woods, joints, size and maker, the newest first', async () => {
    const { member, clock } = await founded();
    const [ada, bert] = [await member('Ada'), await member('Bert')];
    const put = async (who: Visitor, id: string, title: string, card: object) => {
      clock.pass(1_000);
      await publish(who, id, { title, card });
    };
    await put(ada, 'garden-bench', 'Garden bench', { woods: ['White Oak'], longest: 1500 });
    await put(ada, 'hall-bench', 'Hall bench', { woods: ['black cherry'], joints: ['dovetail'] });
    await put(bert, 'round-table', 'Round table', {
      kind: 'table',
      woods: ['white oak'],
      tags: [],
    });
    await put(bert, 'cafe-table', 'Café table', { kind: 'table', woods: ['ash'], tags: [] });
    const found = async (query: object) =>
      (await ada.get('browse', { query })).templates.map(({ id }) => id);
    expect(await found({})).toEqual(['cafe-table', 'round-table', 'hall-bench', 'garden-bench']);
    expect(await found({ find: 'BEN' })).toEqual(['hall-bench', 'garden-bench']);
    expect(await found({ find: 'oak tab' })).toEqual(['round-table']);
    expect(await found({ find: 'cafe' })).toEqual(['cafe-table']);
    expect(await found({ find: 'walnut' })).toEqual([]);
    expect(await found({ kind: 'table', wood: 'white oak' })).toEqual(['round-table']);
    expect(await found({ joint: 'dovetail' })).toEqual(['hall-bench']);
    expect(await found({ longest: '1400-1600' })).toEqual(['garden-bench']);
    expect(await found({ find: 'bench', longest: '1000-1300' })).toEqual(['hall-bench']);
    expect(await found({ by: bert.id })).toEqual(['cafe-table', 'round-table']);
    // What looks like a facet, or like a pattern, is a word like any other.
    for (const find of ['kind:table', '%', '_', "'; --", '*', '\\']) await found({ find });
    expect(await ada.get('facets', {})).toEqual({
      kinds: [
        ['bench', 2],
        ['table', 2],
      ],
      woods: [
        ['ash', 1],
        ['black cherry', 1],
        ['white oak', 2],
      ],
      joints: [
        ['dovetail', 1],
        ['mortise and tenon', 3],
      ],
    });
  });

  it('goes on where a list ended, without one twice or left out, in every order', async () => {
    const { member, clock } = await founded();
    const ada = await member('Ada');
    const bert = await member('Bert');
    const ids = Array.from({ length: 110 }, (_, i) => `bench-${String(i).padStart(3, '0')}`);
    for (const [i, id] of ids.entries()) {
      // Limits of an hour do not hold here; some are published in the same moment.
      clock.pass(i % 3 === 0 ? 0 : 20_000);
      await publish(ada, id);
      if (i % 7 === 0) await bert.get('thank', { params: { template: id } });
    }
    for (const query of [
      {},
      { find: 'bench' },
      { order: 'thanks' },
      { find: 'ben', order: 'thanks' },
    ] as const) {
      const seen: string[] = [];
      let after: string | undefined;
      do {
        const page = await ada.get('browse', {
          query: { ...query, ...(after === undefined ? {} : { after }) },
        });
        seen.push(...page.templates.map(({ id }) => id));
        after = page.next;
      } while (after !== undefined);
      expect([...seen].sort()).toEqual(ids);
    }
    const broken = await ada.ask('browse', { query: { after: 'somewhere' } });
    expect(broken).toMatchObject({ refused: 'unreadable' });
  });

  it('has a suggestion accepted as the next revision, with its word and who made it', async () => {
    const { member } = await founded();
    const [ada, bert, cora] = [await member('Ada'), await member('Bert'), await member('Cora')];
    await publish(ada, 'bench-of-ada');
    const params = { template: 'bench-of-ada' };
    const change = { sheet: 'Bench', what: 'Length (C4)', before: '48', after: '60' };
    const made = { base: 1, text: edition({ title: 'Longer' }).text, note: 'Longer.' };
    await bert.get('suggest', { params, body: { id: 'longer-one', ...made, changes: [change] } });
    await cora.get('suggest', { params, body: { id: 'another-one', ...made, changes: [] } });
    expect((await ada.get('mySuggestions', {})).toAnswer).toHaveLength(2);
    expect((await bert.get('suggestions', { params })).suggestions).toHaveLength(1);
    expect((await ada.get('template', { params })).openSuggestions).toBe(2);
    const suggestion = { suggestion: 'longer-one' };
    const { suggestion: shown, text } = await ada.get('suggestion', { params: suggestion });
    expect(shown).toMatchObject({ base: 1, note: 'Longer.', changes: [change] });
    expect(text.length).toBeGreaterThan(100);
    const taken = await ada.get('accept', {
      params: suggestion,
      body: { parent: 1, word: 'Thank you.', ...edition({ title: 'Longer' }) },
    });
    expect(taken.revision).toBe(2);
    const { revisions } = await cora.get('template', { params });
    expect(revisions[0]?.suggestedBy?.name).toBe('Bert');
    const { mine } = await bert.get('mySuggestions', {});
    expect(mine[0]).toMatchObject({ state: 'accepted', word: 'Thank you.' });
    const again = await ada.ask('decline', { params: suggestion, body: { word: 'No.' } });
    expect(again).toMatchObject({ refused: 'over' });
    await ada.get('decline', { params: { suggestion: 'another-one' }, body: { word: 'Too low.' } });
    expect((await cora.get('mySuggestions', {})).mine[0]).toMatchObject({
      state: 'declined',
      word: 'Too low.',
    });
  });

  it('draws photographs anew: no place, time or camera is left in them, turned as they were held', async () => {
    const { member, app } = await founded();
    const ada = await member('Ada');
    await publish(ada, 'bench-of-ada');
    const params = { template: 'bench-of-ada' };
    const camera = await sharp(RED)
      .jpeg()
      .withMetadata({
        orientation: 6,
        exif: {
          IFD0: { Make: 'A camera' },
          IFD3: { GPSLatitude: '51/1 30/1 0/1', GPSLatitudeRef: 'N' },
        },
      })
      .toBuffer();
    expect((await sharp(camera).metadata()).exif).toBeDefined();
    await ada.get('tellBuilt', {
      params,
      body: { revision: 1, size: '60 in', changed: 'Oak.', photo: camera.toString('base64') },
    });
    const { built } = await ada.get('built', { params });
    const image = await app.inject({
      url: `/club/images/${built[0]?.photo}`,
      headers: { host: 'localhost', cookie: ada.cookie ?? '' },
    });
    expect(image.headers).toMatchObject({
      'content-type': 'image/jpeg',
      'content-security-policy': "default-src 'none'; sandbox",
    });
    const { exif, iptc, xmp, width, height } = await sharp(image.rawPayload).metadata();
    expect([exif, iptc, xmp]).toEqual([undefined, undefined, undefined]);
    expect([width, height]).toEqual([30, 40]);
    const unseen = await app.inject({
      url: `/club/images/${built[0]?.photo}`,
      headers: { host: 'localhost' },
    });
    expect(unseen.statusCode).toBe(401);
  });

  it.each([
    ['an SVG', Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"><script>1</script></svg>')],
    ['a page', Buffer.from('<!doctype html><script>alert(1)</script>')],
    ['half a file', Buffer.from('/9j/4AAQSkZJRgABAQAAAQABAAD', 'base64')],
    ['nothing', Buffer.from([0])],
  ])('refuses %s as a picture', async (_what, bytes) => {
    const { member } = await founded();
    const ada = await member('Ada');
    const body = {
      id: 'bench-of-ada',
      licence: 'club' as const,
      ...edition(),
      picture: bytes.toString('base64'),
    };
    expect(await ada.ask('publish', { body })).toMatchObject({ refused: 'notSo' });
    expect((await ada.get('browse', {})).templates).toEqual([]);
  });

  it.each([
    ['no workbook', '{"a":1}', 'notSo'],
    ['a workbook of a newer version', '{"kerfbook":9999,"sheets":[]}', 'notSo'],
    ['no JSON', 'bench', 'notSo'],
    // 90 MB of one letter pack into 90 kB.
    ['more than a workbook may be', 'a'.repeat(90 * 1024 * 1024), 'tooLarge'],
  ])('refuses %s', async (_what, text, refused) => {
    const { member } = await founded();
    const ada = await member('Ada');
    const body = {
      id: 'bench-of-ada',
      licence: 'club' as const,
      ...edition(),
      text: packed(text).text,
    };
    expect(await ada.ask('publish', { body })).toMatchObject({ refused });
  });

  it('hides what a keeper finds wrong from all but its maker and keepers, and shows it again', async () => {
    const { member, keeper } = await founded();
    const [ada, bert] = [await member('Ada'), await member('Bert')];
    await publish(ada, 'bench-of-ada');
    const params = { template: 'bench-of-ada' };
    const body = { of: 'template' as const, id: 'bench-of-ada', why: 'Not his own.' };
    await bert.get('report', { body });
    expect(await bert.ask('report', { body })).toMatchObject({ refused: 'notSo' });
    const [report] = (await keeper.get('reports', {})).reports;
    await keeper.get('settleReport', {
      params: { report: report?.id ?? '' },
      body: { do: 'hide' },
    });
    expect((await keeper.get('reports', {})).reports).toEqual([]);
    expect((await bert.get('browse', {})).templates).toEqual([]);
    expect((await bert.get('browse', { query: { find: 'bench' } })).templates).toEqual([]);
    expect((await bert.ask('template', { params })).status).toBe(404);
    expect((await ada.get('template', { params })).template.hidden).toBe(true);
    await keeper.get('unhide', { body: { of: 'template', id: 'bench-of-ada' } });
    expect((await bert.get('browse', { query: { find: 'bench' } })).templates).toHaveLength(1);
  });

  it('takes a template off the shelf with all that hangs on it, and leaves no bytes behind', async () => {
    const { member, club } = await founded();
    const [ada, bert] = [await member('Ada'), await member('Bert')];
    const picture = (await sharp(RED).png().toBuffer()).toString('base64');
    const params = { template: 'bench-of-ada' };
    await ada.get('publish', {
      body: { id: 'bench-of-ada', licence: 'club', ...edition(), picture },
    });
    await bert.get('remark', { params, body: { text: 'Fine.' } });
    await bert.get('tellBuilt', {
      params,
      body: { revision: 1, size: '5 ft', changed: '', photo: picture },
    });
    await bert.get('suggest', {
      params,
      body: { id: 'suggested', base: 1, text: edition().text, note: '', changes: [] },
    });
    await ada.get('takeOffShelf', { params });
    for (const table of [
      'template',
      'revision',
      'word',
      'remark',
      'built',
      'image',
      'blob',
    ] as const) {
      const rows = await club.database.read
        .selectFrom(table as 'blob')
        .select('club')
        .where('club', '=', club.id)
        .execute();
      expect(`${table} ${rows.length}`).toBe(`${table} 0`);
    }
  });

  it('counts thanks once by each, and takes them back', async () => {
    const { member } = await founded();
    const [ada, bert] = [await member('Ada'), await member('Bert')];
    await publish(ada, 'bench-of-ada');
    const params = { template: 'bench-of-ada' };
    await Promise.all([1, 2, 3].map(() => bert.get('thank', { params })));
    await ada.get('thank', { params });
    expect((await ada.get('template', { params })).template.thanks).toBe(2);
    await bert.get('unthank', { params });
    await bert.get('unthank', { params });
    expect((await bert.get('template', { params })).template.thanks).toBe(1);
  });
});
