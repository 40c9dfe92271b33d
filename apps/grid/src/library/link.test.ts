import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { deflateSync } from 'node:zlib';
import { type BookDocument, loadText, saveText } from '@kerfbook/workbook';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { bringsBook, LONGEST_LINK, linkOf, readLink } from './link.ts';

const ADDRESS = 'http://localhost:4173/';
const TEMPLATES = join(import.meta.dirname, '../../../../templates');

function template(name: string): BookDocument {
  const loaded = loadText(readFileSync(join(TEMPLATES, name), 'utf8'));
  if (!loaded.ok) throw new Error(loaded.says);
  return loaded.document;
}

async function linked(document: BookDocument): Promise<string> {
  const made = await linkOf(document, ADDRESS);
  if (!made.ok) throw new Error(made.says);
  return made.link;
}

/** What is packed as a link is, whatever it holds. */
const packed = (text: string, version = '1'): string =>
  `${ADDRESS}#kerfbook=${version}.${deflateSync(text).toString('base64url')}`;

const SMALL = template('movement.json');

test('every workbook that is built in fits into a link and comes out of it as it was', async () => {
  for (const name of readdirSync(TEMPLATES)) {
    const document = template(name);
    const link = await linked(document);
    expect(link.length, name).toBeLessThanOrEqual(LONGEST_LINK);
    expect(bringsBook(link)).toBe(true);
    const read = await readLink(link);
    expect(read.ok && saveText(read.document), name).toBe(saveText(document));
  }
});

test('any letters in a workbook come through', async () => {
  await fc.assert(
    fc.asyncProperty(fc.string({ unit: 'binary', minLength: 1, maxLength: 200 }), async (about) => {
      const read = await readLink(await linked({ ...SMALL, about }));
      expect(read.ok && read.document.about).toBe(about);
    }),
    { seed: 20261128, numRuns: 100 },
  );
});

test('a link is read from another address, broken by a mail or between other words', async () => {
  const link = await linked(SMALL);
  const elsewhere = link.replace(ADDRESS, 'http://192.0.2.7:8080/shop/');
  const broken = (link.match(/.{1,76}/g) ?? []).join('\r\n ');
  for (const pasted of [elsewhere, broken, `<${link}>`, `  ${link}\n`]) {
    expect((await readLink(pasted)).ok, pasted.slice(0, 40)).toBe(true);
  }
});

test('what is no link says what one looks like', async () => {
  for (const pasted of ['', 'hello', ADDRESS, `${ADDRESS}#top`]) {
    expect(await readLink(pasted)).toMatchObject({ ok: false, why: 'none' });
  }
});

test('a link that is cut anywhere, or changed, is refused in one sentence', async () => {
  const link = await linked(SMALL);
  const begins = link.indexOf('#kerfbook=1.') + '#kerfbook=1.'.length;
  for (let end = begins; end < link.length; end += 97) {
    expect(await readLink(link.slice(0, end))).toMatchObject({
      why: 'refused',
      says: expect.stringMatching(/^This link was cut short/),
    });
  }
  const at = Math.floor((begins + link.length) / 2);
  const other = link[at] === 'A' ? 'B' : 'A';
  const changed = await readLink(link.slice(0, at) + other + link.slice(at + 1));
  expect(changed).toMatchObject({ ok: false, why: 'refused' });
});

test('a link of a newer Kerfbook, packed otherwise or with a newer workbook, says so', async () => {
  const text = JSON.stringify(SMALL);
  expect(await readLink(packed(text, '2'))).toMatchObject({
    says: 'A newer Kerfbook made this link. Reload the page to get that one.',
  });
  const newer = await readLink(packed(text.replace(/"kerfbook":\d+/, '"kerfbook":99')));
  expect(newer).toMatchObject({ ok: false, says: expect.stringMatching(/newer/) });
});

test('what a link holds is looked at as strictly as a file', async () => {
  expect(await readLink(packed('{"kerfbook":4}'))).toMatchObject({ ok: false, why: 'refused' });
  expect(await readLink(packed('no JSON'))).toMatchObject({ ok: false, why: 'refused' });
  const more = { ...SMALL, onload: 'alert(1)' };
  expect(await readLink(packed(JSON.stringify(more)))).toMatchObject({ ok: false, why: 'refused' });
});

test('unpacking stops at a limit', async () => {
  const bomb = packed(' '.repeat(20_000_000));
  expect(bomb.length).toBeLessThan(LONGEST_LINK);
  expect(await readLink(bomb)).toMatchObject({
    ok: false,
    says: expect.stringMatching(/larger than any workbook/),
  });
});

test('a workbook too large for a link says how large it would be, and to send a file', async () => {
  // Words that cannot be packed any shorter.
  let state = 1;
  const noise = Array.from({ length: 60_000 }, () => {
    state = (state * 48271) % 2147483647;
    return String.fromCharCode(33 + (state % 90));
  }).join('');
  const [sheet] = SMALL.sheets;
  if (sheet === undefined) throw new Error('a template has a sheet');
  const rows = [noise.slice(0, 30_000), noise.slice(30_000)].map((half, row) => ({
    id: `noise${row}`,
    cells: Object.fromEntries(
      sheet.columns
        .slice(0, 4)
        .map(({ id }, place) => [id, { value: half.slice(place * 7500, (place + 1) * 7500) }]),
    ),
  }));
  const large = { ...SMALL, sheets: [{ ...sheet, rows }] };
  const made = await linkOf({ ...large, checks: [], tables: [] }, ADDRESS);
  expect(made).toMatchObject({ ok: false, says: expect.stringMatching(/Send it as a file\.$/) });
});
