import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { contentsOf, fits, packageOf } from '@kerfbook/grid/scripts/contents.mjs';
import { pageOf } from '@kerfbook/grid/scripts/licences.mjs';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';

/** What the app contains has to come with a licence, and with one that lets it be handed on. */

let root: string;
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'kerfbook-'));
});
afterEach(() => rmSync(root, { recursive: true }));

/** A package as it is installed; answers with a module of it. */
function installed(name: string, about: object, files: Readonly<Record<string, string>>): string {
  const folder = join(root, 'node_modules', name);
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, 'package.json'), JSON.stringify({ version: '1.2.3', ...about }));
  for (const [file, text] of Object.entries(files)) writeFileSync(join(folder, file), text);
  return join(folder, 'dist', 'index.js');
}

const MIT = { license: 'MIT' };
const TEXT = { LICENSE: 'You may do anything.\r\n' };

describe('what the app contains', () => {
  it('is found from its modules, with licences and notices, each package once', () => {
    const ids = [
      installed('screws', MIT, { ...TEXT, 'NOTICE.txt': 'Thanks to all.', 'README.md': 'x' }),
      `${installed('@shop/glue', MIT, { 'licence.md': 'Be nice.' })}?commonjs`,
      join(root, 'node_modules', 'screws', 'other.js'),
      join(root, 'apps', 'grid', 'src', 'main.tsx'),
      `\0${installed('inner', MIT, TEXT)}?commonjs-proxy`,
    ];
    expect(contentsOf(ids, root)).toMatchObject([
      { name: '@shop/glue', version: '1.2.3', licence: 'MIT', texts: ['Be nice.'] },
      { name: 'inner', texts: ['You may do anything.'] },
      { name: 'screws', texts: ['You may do anything.', 'Thanks to all.'] },
    ]);
  });

  it('stops the build by name where a licence text is missing or a licence does not fit', () => {
    const ids = [
      installed('bare', MIT, { 'README.md': 'MIT' }),
      installed('empty', MIT, { LICENSE: ' \n' }),
      installed('closed', { license: 'SEE LICENSE IN TERMS' }, TEXT),
      installed('unsaid', {}, TEXT),
      installed('older', { license: 'GPL-2.0-only' }, TEXT),
    ];
    expect(() => contentsOf(ids, root)).toThrow(
      /"bare" comes without.*"empty" comes without.*"closed" is under "SEE LICENSE IN TERMS".*"unsaid" is under "".*"older" is under "GPL-2.0-only", which does not fit with GPL-3.0\./,
    );
  });

  it('has the text from its repository where a package is published without it, for that version alone', () => {
    const about = { license: 'ISC', version: '6.0.0' };
    const one = installed('saxes', about, { 'README.md': 'x' });
    expect(contentsOf([one], root)[0]?.texts[0]).toMatch(
      /^The ISC License\n\nCopyright \(c\) Contributors/,
    );
    const next = installed('saxes', { ...about, version: '6.0.1' }, {});
    expect(() => contentsOf([next], root)).toThrow(
      '"saxes" comes without the text of its licence.',
    );
  });

  it('may be a font under a licence for fonts, but no code under it', () => {
    const font = { license: 'OFL-1.1' };
    installed('letters', font, TEXT);
    const file = join(root, 'node_modules', 'letters', 'files', 'letters.woff2');
    expect(contentsOf([file], root)).toHaveLength(1);
    const code = join(root, 'node_modules', 'letters', 'index.js');
    for (const ids of [
      [file, code],
      [code, file],
    ]) {
      expect(() => contentsOf(ids, root)).toThrow(/"letters" is under "OFL-1.1"/);
    }
  });

  it('is what stands innermost, and what the tools of the build write in', () => {
    const inner = '/x/node_modules/a/node_modules/@b/c/index.js';
    expect(packageOf(inner, '/x')?.name).toBe('@b/c');
    expect(packageOf('C:\\x\\node_modules\\a\\i.js', 'C:\\x')?.name).toBe('a');
    expect(packageOf('\0vite/preload-helper.js', '/x')?.name).toBe('vite');
    expect(packageOf('rolldown/runtime.js', '/x')?.name).toBe('rolldown');
    expect(packageOf('/x/templates/table.json?url', '/x')).toBeUndefined();
    expect(() => packageOf('\0helpers/of-nobody.js', '/x')).toThrow(
      /Nobody can tell whose "helpers\/of-nobody.js" is/,
    );
  });

  it.each([
    ['MIT', true],
    ['(MIT OR GPL-2.0-only)', true],
    ['MIT AND ISC', true],
    ['MIT AND GPL-2.0-only', false],
    ['(GPL-2.0-only OR Apache-2.0) AND ISC', true],
    ['GPL-2.0-only OR (Apache-2.0 AND CDDL-1.0)', false],
    ['', false],
    ['mit', false],
    ['MIT ISC', false],
    ['(MIT', false],
    ['UNLICENSED', false],
  ])('%j fits: %s', (licence, answer) => {
    expect(fits(licence)).toBe(answer);
  });

  it('is written out as it is and never as a part of the page', () => {
    const content = { name: 'a', version: '1', licence: 'MIT', texts: ['<script>x & y</script>'] };
    const page = pageOf([content, { ...content, name: 'b' }], 'ours');
    expect(page).toContain('<pre>&lt;script&gt;x &amp; y&lt;/script&gt;</pre>');
    expect(page).not.toContain('<script');
    expect(page.match(/x &amp; y/g)).toHaveLength(1);
    expect(page).toContain('1. a, b</h3>');
  });
});
