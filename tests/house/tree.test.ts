import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { filesUnder, MADE } from '../scripts/files.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));
const files = filesUnder(root);
const read = (file: string): string => readFileSync(join(root, file), 'utf8');

const TOP_LEVEL = [
  'apps',
  'packages',
  'templates',
  'tests',
  'turbo.json',
  'package.json',
  'package-lock.json',
  'tsconfig.base.json',
  'README.md',
  'DEVELOPERS.md',
  'LICENSE',
];

const TEXT =
  /\.(?:[cm]?[jt]sx?|json|css|html|md|csv|tsv|svg|ya?ml|txt|sh)$|(?:^|\/)(?:run|\.[a-z]+)$/;
const WRITTEN = /\.(?:[cm]?[jt]sx?|css|html|md)$/;
const WRITTEN_BY_SCRIPT = ['packages/wood/FUNCTIONS.md', 'packages/wood/DATA.md'];

describe('the tree', () => {
  it('has at the top what the design lists, and dotfiles', () => {
    const extra = readdirSync(root).filter(
      (name) => !name.startsWith('.') && !MADE.has(name) && !TOP_LEVEL.includes(name),
    );
    expect(extra).toEqual([]);
  });

  it('has only workspaces of the design', () => {
    const known =
      /^(?:packages\/(?:wood|cutting|solids|functions|document|workbook|drawing|guide|days|studies|keeping|interchange|protocol|serving)|apps\/(?:grid|club|cli))$/;
    const homes = ['packages', 'apps'].flatMap((group) =>
      readdirSync(join(root, group)).map((name) => `${group}/${name}`),
    );
    expect(homes.filter((home) => !known.test(home))).toEqual([]);
    expect(homes.length).toBeGreaterThanOrEqual(5);
  });

  it('was read: the walk finds the files everyone knows', () => {
    expect(files).toContain('packages/wood/src/index.ts');
    expect(files).toContain('.ci/run');
    expect(files.filter((file) => TEXT.test(file)).length).toBeGreaterThan(100);
  });
});

describe('files', () => {
  it('are of one idea: none is longer than 600 lines', () => {
    const long = files
      .filter((file) => WRITTEN.test(file) && !WRITTEN_BY_SCRIPT.includes(file))
      .map((file) => ({ file, lines: read(file).split('\n').length - 1 }))
      .filter(({ lines }) => lines > 600);
    expect(long).toEqual([]);
  });

  it('have names in kebab case', () => {
    const sources = files.filter((file) => /\/src\/.*\.tsx?$/.test(file));
    const odd = sources.filter((file) => !/^[a-z0-9]+(?:[-.][a-z0-9]+)*\.tsx?$/.test(base(file)));
    expect(odd).toEqual([]);
  });

  it('measure no time in a test: that depends on what the machine does besides', () => {
    const clock = /performance\.now\(\)|(?:Date\.now\(\)|hrtime\S*) *-|- *Date\.now\(\)/;
    const tests = files.filter((file) => /\.test\.tsx?$/.test(file) && !file.includes('house/'));
    expect(tests.length).toBeGreaterThan(100);
    expect(tests.filter((file) => clock.test(read(file)))).toEqual([]);
  });

  it('name no folder of the machine they were written on', () => {
    // Put together from parts, so that this file does not find itself.
    const folders = ['work', 'root', 'tmp', 'home', 'Users'].join('|');
    const pattern = new RegExp(`(?<![\\w.~:/-])/(?:${folders})/[\\w.-]`);
    expect(linesWith(pattern)).toEqual([]);
  });

  it('name no host that packages come from', () => {
    const pattern = new RegExp(['registry', '[a-z0-9-]+', '(?:org|com|io|dev|net)'].join('\\.'));
    expect(linesWith(pattern)).toEqual([]);
  });
});

interface LockEntry {
  readonly resolved?: string;
  readonly link?: boolean;
  readonly license?: string;
}

/** Licences whose works may be part of one under GPL-3.0-or-later; OFL is that of the typefaces. */
const COMPATIBLE = new Set([
  ...['MIT', 'MIT-0', 'MIT OR Apache-2.0', 'ISC', '0BSD', 'BSD-2-Clause', 'BSD-3-Clause'],
  // Given to the public domain.
  'Unlicense',
  ...['Apache-2.0', 'MPL-2.0', 'OFL-1.1', 'GPL-3.0-only', 'GPL-3.0-or-later'],
  'LGPL-3.0-or-later',
]);

/** Of a package under several licences at once each has to fit. */
const isCompatible = (license = ''): boolean =>
  license.split(' AND ').every((one) => COMPATIBLE.has(one));

describe('the lock file', () => {
  const lock: { packages: Record<string, LockEntry> } = JSON.parse(read('package-lock.json'));

  it('says of no package where it was fetched from', () => {
    const fetched = Object.entries(lock.packages)
      .filter(([, entry]) => /:\/\//.test(entry.resolved ?? ''))
      .map(([path]) => path);
    expect(fetched).toEqual([]);
    expect(Object.keys(lock.packages).length).toBeGreaterThan(50);
  });

  it('holds only packages whose licence goes with ours', () => {
    const odd = Object.entries(lock.packages)
      .filter(([, { link, license }]) => link !== true && !isCompatible(license))
      .map(([path, { license }]) => `${path} ${license}`);
    expect(odd).toEqual([]);
  });

  it('holds no grid that needs a paid licence', () => {
    expect(Object.keys(lock.packages).filter((path) => /ag-grid-enterprise/.test(path))).toEqual(
      [],
    );
  });
});

function base(file: string): string {
  return file.slice(file.lastIndexOf('/') + 1);
}

/** `file:line` of every line that a pattern finds in a text file. */
function linesWith(pattern: RegExp): string[] {
  return files
    .filter((file) => TEXT.test(file) && file !== 'package-lock.json')
    .flatMap((file) =>
      read(file)
        .split('\n')
        .flatMap((line, index) => (pattern.test(line) ? [`${file}:${index + 1}`] : [])),
    );
}
