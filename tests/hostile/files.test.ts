import { mkdtempSync, readFileSync, rmSync, statSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type ExitCode, nodeIo, run } from '@kerfbook/cli';
import { loadText, Workbook } from '@kerfbook/workbook';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { plainSentence, specimen, spoilt, withAt } from './specimen.ts';

const good = JSON.stringify(specimen());
const deep = (open: string, close: string, times: number) =>
  open.repeat(times) + close.repeat(times);
const rows = (count: number) => Array.from({ length: count }, (_, i) => ({ id: `r${i}` }));

/** Files that are no workbook of ours, and a word of the sentence each one gets. */
const foreign: Record<string, [string, RegExp]> = {
  'an empty file': ['', /not readable JSON/],
  'only spaces': [' \n\t ', /not readable JSON/],
  'a file that ends too early': [good.slice(0, -20), /not readable JSON/],
  'a comma too many': [good.replace('"checks":', ',"checks":'), /not readable JSON/],
  'a page of HTML': ['<!doctype html><title>404</title>', /not readable JSON/],
  'a table of commas': ['part,count\nleg,4\n', /not readable JSON/],
  'brackets without end': [deep('[', '', 200_000), /not readable JSON/],
  'NUL characters': ['\0'.repeat(64), /not readable JSON/],
  'the word null': ['null', /first key/],
  'a number': ['42', /first key/],
  'a text': ['"kerfbook"', /first key/],
  'a list': ['[{"kerfbook": 8}]', /first key/],
  'a foreign object': ['{"workbook": {"sheets": []}}', /first key/],
  'brackets in brackets': [deep('[', ']', 3000), /first key/],
  'a version on the prototype': ['{"__proto__": {"kerfbook": 8}}', /first key/],
  'the next version': [withAt(['kerfbook'], 9), /newer Kerfbook/],
  'a far version': [withAt(['kerfbook'], 1e300), /newer Kerfbook/],
  'a version below the first': [withAt(['kerfbook'], 0), /not a document version/],
  'a version in words': [withAt(['kerfbook'], '1'), /not a document version/],
  'a version that is nothing': [withAt(['kerfbook'], null), /not a document version/],
  'a version that is an object': [withAt(['kerfbook'], { major: 1 }), /not a document version/],
  'more than 20 MB': [withAt(['about'], 'x'.repeat(21 * 1024 * 1024)), /21 MB|22 MB/],
};

/** Workbooks whose parts do not fit, and where the sentence points. */
const damaged: Record<string, [string, RegExp]> = {
  'no sheets': [withAt(['sheets'], []), /sheets/],
  'sheets that are a text': [withAt(['sheets'], 'none'), /sheets/],
  'no title': [withAt(['title'], undefined), /title/],
  'unknown units': [withAt(['units'], 'cubits'), /units/],
  'a key nobody knows': [withAt(['macros'], 'run me'), /macros/],
  'a sheet id twice': [withAt(['sheets', 1, 'id'], 's1'), /s1 is there twice/],
  'a row id twice': [withAt(['sheets', 0, 'rows', 1, 'id'], 'r1'), /r1 is there twice/],
  'a column id twice': [withAt(['sheets', 0, 'columns', 1, 'id'], 'c1'), /c1 is there twice/],
  'a check id twice': [
    spoilt((book) => book.checks.push({ ...specimen().checks[0]! })),
    /k1 is there twice/,
  ],
  'a name twice': [
    withAt(['sheets', 0, 'rows', 2, 'cells', 'c2', 'name'], 'SEAT_WIDTH'),
    /two cells/,
  ],
  'a sheet name twice': [withAt(['sheets', 1, 'name'], 'SEAT'), /two sheets/],
  'a name like an address': [
    withAt(['sheets', 0, 'rows', 2, 'cells', 'c2', 'name'], 'Leg1'),
    /Leg1/,
  ],
  'a name of the machine': [
    withAt(['sheets', 0, 'rows', 2, 'cells', 'c2', 'name'], '__proto__'),
    /__proto__/,
  ],
  'a cell in no column': [withAt(['sheets', 0, 'rows', 0, 'cells', 'c9'], { value: 1 }), /c9/],
  'a table of rows that are gone': [withAt(['tables', 0, 'last'], 'r9'), /t1/],
  'a check on no sheet': [withAt(['checks', 0, 'sheet'], 's9'), /s9/],
  'an infinite number': [good.replace('"value":14', '"value":1e999'), /sheets 1, rows 1/],
  'a formula without =': [
    withAt(['sheets', 0, 'rows', 1, 'cells', 'c2', 'formula'], 'SUM(1)'),
    /rows 2/,
  ],
  'a value that is a list': [
    withAt(['sheets', 0, 'rows', 0, 'cells', 'c2', 'value'], [1]),
    /rows 1/,
  ],
  'rows in place of cells': [withAt(['sheets', 0, 'rows', 0, 'cells'], deepList(500)), /rows 1/],
  'too many rows': [withAt(['sheets', 1, 'rows'], rows(10_001)), /sheets 2/],
  'too many sheets': [
    withAt(
      ['sheets'],
      Array.from({ length: 51 }, () => specimen().sheets[0]),
    ),
    /sheets/,
  ],
  'a text too long': [
    withAt(['sheets', 0, 'rows', 0, 'cells', 'c1', 'value'], 'x'.repeat(8193)),
    /rows 1/,
  ],
};

function deepList(times: number): unknown {
  let list: unknown = [];
  for (let i = 0; i < times; i += 1) list = [list];
  return list;
}

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'kerfbook-hostile-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

/** Runs the command line on a file of this text; the file must come out as it went in. */
async function onFile(command: string, text: string | Uint8Array) {
  const path = join(folder, 'book.json');
  writeFileSync(path, text);
  const { mtimeMs } = statSync(path);
  const ended = await onPath(command, path);
  expect(readFileSync(path).equals(Buffer.from(text)), 'the file is as it was').toBe(true);
  expect(statSync(path).mtimeMs).toBe(mtimeMs);
  return ended;
}

async function onPath(command: string, path: string) {
  const lines: { out: string[]; err: string[] } = { out: [], err: [] };
  const code: ExitCode = await run([command, path], {
    ...nodeIo(),
    out: (line) => lines.out.push(line),
    err: (line) => lines.err.push(line),
  });
  return { code, ...lines };
}

describe('the specimen itself', () => {
  it('is a sound workbook, so that each case below fails for its own reason', async () => {
    expect(loadText(good)).toMatchObject({ ok: true });
    expect(await onFile('check', good)).toMatchObject({ code: 0, err: [] });
  });

  it('may begin with a byte order mark', async () => {
    expect(await onFile('run', `\uFEFF${good}`)).toMatchObject({ code: 0 });
  });
});

describe('a file that is no workbook', () => {
  it.each(Object.entries(foreign))(
    '%s: one sentence, exit 2, file untouched',
    async (_, [text, says]) => {
      const loaded = loadText(text);
      if (loaded.ok) throw new Error('it was taken for a workbook');
      expect(loaded.says).toMatch(says);
      expect(loaded.says).toMatch(plainSentence);
      for (const command of ['run', 'check']) {
        const { code, out, err } = await onFile(command, text);
        expect({ code, out }).toEqual({ code: 2, out: [] });
        expect(err).toEqual([`${join(folder, 'book.json')}: ${loaded.says}`]);
      }
    },
  );
});

describe('a workbook that is damaged', () => {
  it.each(Object.entries(damaged))(
    '%s: one sentence that points there',
    async (_, [text, says]) => {
      const loaded = loadText(text);
      if (loaded.ok) throw new Error('it was taken for sound');
      expect(loaded.says).toMatch(says);
      expect(loaded.says).toMatch(plainSentence);
      expect(await onFile('run', text)).toMatchObject({
        code: 2,
        out: [],
        err: [expect.any(String)],
      });
      expect(await onFile('check', text)).toMatchObject({
        code: 1,
        out: [expect.any(String)],
        err: [],
      });
    },
  );
});

describe('what is no text at all', () => {
  it.each([
    ['a picture', Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0xff, 0xfe])],
    ['two bytes a letter', new Uint8Array(Buffer.from(`\uFEFF${good}`, 'utf16le'))],
    [
      'a letter of an older encoding',
      new Uint8Array(Buffer.from(good.replace('stool', 'st\u00fchl'), 'latin1')),
    ],
  ])('%s', async (_, bytes) => {
    const { code, out, err } = await onFile('run', bytes);
    expect({ code, out }).toEqual({ code: 2, out: [] });
    expect(err).toEqual([expect.stringMatching(/UTF-8\.$/)]);
  });

  it('a file too large to read is refused before it is read', async () => {
    const path = join(folder, 'large.json');
    writeFileSync(path, '');
    // No byte of it is on the disk; reading it would still fill the memory.
    truncateSync(path, 3 * 1024 ** 3);
    expect(await onPath('run', path)).toMatchObject({
      code: 2,
      err: [expect.stringContaining('3072 MB')],
    });
  });

  it.each(['.', 'none.json', 'none/at/all.json', 'x'.repeat(5000)])(
    'the path %.20s',
    async (path) => {
      const { code, err } = await onPath('run', join(folder, path));
      expect(code).toBe(2);
      expect(err).toEqual([expect.stringMatching(/\.$/)]);
    },
  );
});

describe('keys that reach for the machine', () => {
  const keys = ['__proto__', 'constructor', 'prototype', 'toString', 'hasOwnProperty'];
  const spoiltBy = (key: string) => [
    good.replace('"c1":{', `"${key}":{"polluted": true, "value": 1},"c1":{`),
    good.replace('"kerfbook":8', `"kerfbook":8,"${key}":{"polluted": true}`),
    good.replace('"value":14', `"value":14,"${key}":{"polluted": true}`),
  ];

  it.each(keys)('%s changes nothing outside the file', (key) => {
    const before = Object.getOwnPropertyNames(Object.prototype);
    for (const text of spoiltBy(key)) {
      expect(text).not.toBe(good);
      const loaded = loadText(text);
      // What is left out of the document cannot do harm either.
      if (loaded.ok) expect(loaded.document).toEqual(specimen());
      else expect(loaded.code).toBe('D4');
    }
    expect(Object.getOwnPropertyNames(Object.prototype)).toEqual(before);
    expect('polluted' in {}).toBe(false);
  });

  it('an id that every object has as a property is an id like any other', () => {
    const text = good
      .replaceAll('"s1"', '"constructor"')
      .replaceAll('s1!', 'constructor!')
      .replaceAll('"c2"', '"constructor"')
      .replaceAll('c2.', 'constructor.');
    const loaded = loadText(text);
    if (!loaded.ok) throw new Error(loaded.says);
    const book = Workbook.open(loaded.document);
    expect(book.named('total')?.value).toEqual({ kind: 'number', number: 14 + 30 });
    expect(book.value({ sheet: 's2', row: 0, column: 0 })).toMatchObject({ number: 45 });
    expect(book.document()).toEqual(loaded.document);
  });
});
