import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { folderProblems, keptFolderProblems } from '../scripts/folders.mjs';
import { checkImports, moduleProblems } from '../scripts/imports.mjs';
import { LATE, lateProblems } from '../scripts/late.mjs';

const manifests: Record<string, object> = {
  'packages/wood': { name: '@kerfbook/wood', devDependencies: { 'fast-check': '1' } },
  'packages/cutting': { name: '@kerfbook/cutting' },
  'packages/solids': { name: '@kerfbook/solids' },
  'packages/workbook': {
    name: '@kerfbook/workbook',
    imports: {
      '#parts': { late: './src/late.ts', default: './dist/parts.js' },
      '#far': { default: './../wood/src/index.ts' },
    },
    dependencies: { '@borgar/fx': '1', '@kerfbook/wood': '1', hyperformula: '1', zod: '1' },
  },
  'packages/drawing': {
    name: '@kerfbook/drawing',
    dependencies: { '@kerfbook/workbook': '1', hyperformula: '1' },
  },
  'packages/interchange': {
    name: '@kerfbook/interchange',
    dependencies: { '@kerfbook/workbook': '1' },
  },
  'packages/keeping': { name: '@kerfbook/keeping', dependencies: { '@kerfbook/workbook': '1' } },
  'apps/grid': {
    name: '@kerfbook/grid',
    dependencies: {
      '@kerfbook/workbook': '1',
      '@kerfbook/drawing': '1',
      'ag-grid-community': '1',
      'ag-grid-enterprise': '1',
    },
  },
  'apps/cli': {
    name: '@kerfbook/cli',
    dependencies: { '@kerfbook/workbook': '1', 'ag-grid-community': '1' },
  },
  tests: { name: '@kerfbook/tests', dependencies: { '@kerfbook/cli': '1', '@kerfbook/wood': '1' } },
};

/** What the check says of one module, as if it stood at this path. */
function problemsOf(file: string, source: string): string[] {
  const home = Object.keys(manifests).find((one) => file.startsWith(`${one}/`)) ?? '';
  return moduleProblems(file, source, {
    home,
    about: manifests[home] ?? {},
    rootAbout: { devDependencies: { vitest: '1' } },
  });
}

describe('an import that runs the wrong way is reported', () => {
  it.each([
    ['packages/wood/src/a.ts', "import { Workbook } from '@kerfbook/workbook';", 'stands below'],
    ['packages/wood/src/a.ts', "import '@kerfbook/cutting';", 'stands below'],
    ['packages/cutting/src/a.ts', "import type { Fault } from '@kerfbook/wood';", 'stands below'],
    ['packages/solids/src/a.ts', "import type { Fault } from '@kerfbook/wood';", 'stands below'],
    ['packages/workbook/src/a.ts', "export { draw } from '@kerfbook/drawing';", 'stands below'],
    ['packages/workbook/src/a.ts', "await import('@kerfbook/interchange');", 'stands below'],
    ['packages/drawing/src/a.ts', "import '@kerfbook/interchange';", 'stands below'],
    ['packages/interchange/src/a.ts', "import '@kerfbook/drawing';", 'stands below'],
    ['packages/keeping/src/a.ts', "import '@kerfbook/drawing';", 'stands below'],
    ['packages/workbook/src/a.ts', "import '@kerfbook/keeping';", 'stands below'],
    ['packages/drawing/src/a.ts', "import '@kerfbook/grid';", 'nothing imports an app'],
    ['apps/grid/src/a.tsx', "import { run } from '@kerfbook/cli';", 'nothing imports an app'],
    ['apps/cli/src/a.ts', "type A = import('@kerfbook/grid').A;", 'nothing imports an app'],
  ])('%s: %s', (file, source, says) => {
    expect(problemsOf(file, source)).toEqual([expect.stringContaining(says)]);
  });
});

describe('a package that belongs to one place is reported elsewhere', () => {
  it.each([
    ['packages/workbook/src/book/a.ts', "import { HyperFormula } from 'hyperformula';"],
    ['packages/drawing/src/a.ts', "import type { HyperFormula } from 'hyperformula';"],
    ['packages/workbook/src/meaning/a.ts', "import { parse } from '@borgar/fx';"],
    ['tests/reference/a.test.ts', "const { HyperFormula } = await import('hyperformula');"],
    ['apps/cli/src/a.ts', "import { createGrid } from 'ag-grid-community';"],
    ['packages/drawing/src/a.ts', "import 'ag-grid-community/styles/grid.css';"],
  ])('%s: %s', (file, source) => {
    expect(problemsOf(file, source)).toEqual([expect.stringContaining('only')]);
  });

  it.each(['ag-grid-enterprise', 'ag-grid-enterprise/styles', '@ag-grid-enterprise/menu'])(
    '%s has no place at all',
    (name) => {
      expect(problemsOf('apps/grid/src/a.ts', `import '${name}';`)).toEqual([
        expect.stringContaining('does not use'),
      ]);
    },
  );
});

describe('a path that leaves its package is reported', () => {
  it.each([
    ['packages/workbook/src/a.ts', "import { x } from '../../wood/src/index.ts';"],
    ['packages/wood/src/deep/a.ts', "export { x } from '../../../workbook/src/index.ts';"],
    ['apps/grid/src/a.ts', "new Worker(new URL('../../cli/src/main.ts', import.meta.url));"],
    ['packages/wood/src/a.ts', "vi.mock('../../workbook/src/index.ts');"],
    ['packages/workbook/src/a.ts', "import book from '../../../templates/dining-table.json';"],
    ['tests/house/a.test.ts', "import { run } from '../../apps/cli/src/main.ts';"],
    // A neighbour whose name begins alike is another folder all the same.
    ['packages/wood/src/a.ts', "import '../../wood-extra/src/index.ts';"],
  ])('%s: %s', (file, source) => {
    expect(problemsOf(file, source)).toEqual([expect.stringContaining('leaves')]);
  });
});

describe('what is not declared, not listed or not written out is reported', () => {
  it.each([
    ['packages/wood/src/a.ts', "import * as z from 'zod';", 'not in the dependencies'],
    ['packages/wood/src/a.ts', "import fc from 'fast-check';", 'not in the dependencies'],
    ['packages/wood/src/a.test.ts', "import { z } from 'zod';", 'neither'],
    ['packages/workbook/src/a.ts', "import { w } from '@kerfbook/cutting';", 'dependencies'],
    ['packages/wood/src/a.ts', "import { p } from '#parts';", 'does not name'],
    ['packages/workbook/src/a.ts', "import { p } from '#far';", 'leaves packages/workbook'],
    ['packages/wood/src/a.ts', "export * from './b.ts';", 'list the names'],
    ['packages/wood/src/a.ts', "export * as b from './b.ts';", 'list the names'],
    ['packages/wood/src/a.ts', 'await import(name);', 'not written out'],
    ['packages/wood/src/a.ts', "import 'https://example.org/x.js';", 'by an address'],
    ['packages/wood/src/a.ts', 'import { from', 'cannot be read'],
  ])('%s: %s', (file, source, says) => {
    expect(problemsOf(file, source)).toEqual([expect.stringContaining(says)]);
  });

  it('names the line', () => {
    expect(problemsOf('packages/wood/src/a.ts', "\n\nimport 'zod';")[0]).toMatch(/a\.ts:3 /);
  });
});

describe('an import that runs the right way passes', () => {
  it.each([
    ['packages/wood/src/a.ts', "import { b } from './b.ts'; import { c } from '../src/c.ts';"],
    ['packages/wood/src/a.test.ts', "import fc from 'fast-check'; import { it } from 'vitest';"],
    ['packages/workbook/src/engine/a.ts', "import { HyperFormula } from 'hyperformula';"],
    ['packages/workbook/src/a.ts', "import { Fault } from '@kerfbook/wood'; import 'node:path';"],
    ['packages/workbook/src/a.ts', "import { p } from '#parts';"],
    ['packages/drawing/src/a.ts', "import type { Workbook } from '@kerfbook/workbook';"],
    [
      'apps/grid/src/a.tsx',
      "import { G } from 'ag-grid-community'; const a = <G title=\"'x'\" />;",
    ],
    ['apps/grid/src/a.ts', "import dining from '../../../templates/dining-table.json';"],
    ['apps/grid/scripts/a.mjs', "import { runTurbo } from '../../cli/scripts/ensure.mjs';"],
    ['tests/hostile/a.test.ts', "import { run } from '@kerfbook/cli';"],
    ['packages/wood/src/a.ts', '// import "zod"\nconst words = "import \'zod\'";'],
  ])('%s: %s', (file, source) => {
    expect(problemsOf(file, source)).toEqual([]);
  });
});

describe('folders that import each other are reported', () => {
  const within = (...pairs: readonly (readonly [string, string])[]) =>
    pairs.map(([file, target], i) => ({
      file: `apps/grid/src/${file}`,
      target: `apps/grid/src/${target}`,
      line: i + 1,
    }));

  it('two of them, and a way round over a third', () => {
    expect(
      folderProblems('apps/grid', within(['menu/a.ts', 'shop/b.ts'], ['shop/c.ts', 'menu/d.ts'])),
    ).toEqual([
      'apps/grid/src/menu/a.ts:1 imports shop/, which imports menu/ or what imports it.',
      'apps/grid/src/shop/c.ts:2 imports menu/, which imports shop/ or what imports it.',
    ]);
    expect(
      folderProblems(
        'apps/grid',
        within(
          ['a/1.ts', 'b/1.ts'],
          ['b/2.ts', 'c/1.ts'],
          ['c/2.ts', 'a/2.ts'],
          ['d/1.ts', 'a/1.ts'],
        ),
      ),
    ).toHaveLength(3);
  });

  it('one way is fine, so is a folder itself, and what stands above folders', () => {
    expect(
      folderProblems(
        'apps/grid',
        within(
          ['a/1.ts', 'b/1.ts'],
          ['a/1.ts', 'a/2.ts'],
          ['main.tsx', 'a/1.ts'],
          ['b/1.ts', 'words.ts'],
          ['words.ts', 'b/2.ts'],
        ),
      ),
    ).toEqual([]);
  });
});

describe('a folder that is kept to another', () => {
  const engine = (file: string) => ({
    file: `packages/workbook/src/${file}`,
    target: 'packages/workbook/src/engine/calculator.ts',
    line: 1,
  });

  it('is imported by that one, by itself and by what stands above folders', () => {
    const fine = ['follow/telling.ts', 'engine/budget.ts', 'hyperformula.ts'].map(engine);
    expect(keptFolderProblems('packages/workbook', fine)).toEqual([]);
    expect(keptFolderProblems('apps/grid', [engine('compiled/a.ts')])).toEqual([]);
  });

  it.each(['compiled/engine.ts', 'book/view.ts', 'sweep/part.ts'])('is reported in %s', (file) => {
    expect(keptFolderProblems('packages/workbook', [engine(file)])).toEqual([
      `packages/workbook/src/${file}:1 imports engine/; only follow/ may.`,
    ]);
  });
});

describe('what is to come late', () => {
  const entry = 'packages/workbook/src/index.ts';
  let root = '';
  const put = (path: string, text: string): void => {
    mkdirSync(dirname(join(root, path)), { recursive: true });
    writeFileSync(join(root, path), text);
  };
  const problems = () => lateProblems(root, [{ entry, comesLate: 'heavy' }]);

  beforeAll(() => {
    root = mkdtempSync(join(tmpdir(), 'kerfbook-late-'));
    const imports = {
      '#heavy': { 'kerfbook-late': './src/heavy-lazy.ts', 'kerfbook-source': './src/heavy.ts' },
    };
    put('packages/workbook/package.json', JSON.stringify({ imports }));
    const exports = { './far': { 'kerfbook-source': './src/far.ts', default: './dist/far.js' } };
    put('packages/functions/package.json', JSON.stringify({ exports }));
    put('packages/functions/src/far.ts', 'export const far = 1;');
    put('packages/workbook/src/heavy.ts', "import 'heavy';");
    put('packages/workbook/src/heavy-lazy.ts', "export const bring = () => import('heavy');");
  });
  afterAll(() => rmSync(root, { recursive: true }));

  it.each([
    ['a call', "void import('heavy');"],
    ['a type', "import type { A } from 'heavy'; export type { B } from 'heavy';"],
    ['a type of it', "export type A = import('heavy').A;"],
    ['a name of its own that is another module in the app', "import '#heavy';"],
    ['a module that is called for', "void import('./heavy.ts');"],
    ['a name that begins alike', "import 'heavy-not';"],
  ])('may be reached by %s', (_, source) => {
    put(entry, source);
    expect(problems()).toEqual([]);
  });

  it.each([
    ['itself', "import { a } from 'heavy/deep';", 'index.ts → heavy'],
    ['a module', "import { a } from './heavy.ts';", 'index.ts → packages/workbook/src/heavy.ts'],
    ['what it hands on', "export { a } from './heavy.ts';", 'heavy.ts → heavy.'],
    // What is written like this stays in the program, for what the module does.
    ['an import of types alone', "import { type A } from './heavy.ts';", 'heavy.ts → heavy.'],
  ])('is reported where an entry imports %s', (_, source, says) => {
    put(entry, source);
    expect(problems()).toEqual([expect.stringContaining(says)]);
  });

  it('is reported over a package of ours, with the way', () => {
    put(entry, "import './a.ts'; import './b.ts';");
    put('packages/workbook/src/a.ts', "import { far } from '@kerfbook/functions/far';");
    put('packages/workbook/src/b.ts', "import './a.ts';");
    expect(problems()).toEqual([]);
    put('packages/functions/src/far.ts', "import 'heavy';");
    expect(problems()).toEqual([
      'packages/workbook/src/index.ts brings heavy along, which is to come late: packages/workbook/src/index.ts → packages/workbook/src/a.ts → packages/functions/src/far.ts → heavy.',
    ]);
  });

  it('is looked for from entries that are there', () => {
    const here = fileURLToPath(new URL('../..', import.meta.url));
    for (const { entry } of LATE) expect(existsSync(join(here, entry)), entry).toBe(true);
  });
});

describe('a whole tree', () => {
  let root = '';
  const put = (path: string, text: string): void => {
    mkdirSync(dirname(join(root, path)), { recursive: true });
    writeFileSync(join(root, path), text);
  };

  beforeAll(() => {
    root = mkdtempSync(join(tmpdir(), 'kerfbook-imports-'));
    put('package.json', '{}');
    put('packages/wood/package.json', '{"name": "@kerfbook/wood"}');
    put('packages/wood/src/index.ts', "import '@kerfbook/workbook';");
    put('packages/wood/dist/index.js', "import '@kerfbook/grid';");
    put(
      'packages/workbook/package.json',
      '{"name": "@kerfbook/workbook", "dependencies": {"@kerfbook/grid": "1"}}',
    );
    put('apps/grid/package.json', '{"dependencies": {"ag-grid-enterprise": "1"}}');
    put('apps/grid/src/main.tsx', 'export const a = 1;');
    put('apps/grid/src/app/a.ts', "import '../sheet/b.ts';");
    put('apps/grid/src/sheet/b.ts', "void import('../app/a.ts');");
    put('apps/grid/src/sheet/b.test.ts', "import '../app/a.ts';");
  });
  afterAll(() => rmSync(root, { recursive: true }));

  it('reports wrong imports, wrong dependencies and a workspace with nothing in it', () => {
    const { problems, modules } = checkImports(root);
    expect(problems).toEqual([
      'apps/grid/package.json names ag-grid-enterprise.',
      'apps/grid/src/app/a.ts:1 imports sheet/, which imports app/ or what imports it.',
      'apps/grid/src/sheet/b.ts:1 imports app/, which imports sheet/ or what imports it.',
      'packages/wood/src/index.ts:1 imports @kerfbook/workbook; packages/wood stands below it.',
      'packages/workbook has no modules to read.',
      'packages/workbook/package.json imports @kerfbook/grid; nothing imports an app.',
    ]);
    expect([...modules]).toEqual([
      ['apps/grid', 4],
      ['packages/wood', 1],
      ['packages/workbook', 0],
    ]);
  });

  it('is clean here, and every workspace was read', () => {
    const here = fileURLToPath(new URL('../..', import.meta.url));
    const { problems, modules } = checkImports(here);
    expect(problems).toEqual([]);
    for (const home of ['packages/wood', 'packages/workbook', 'packages/drawing', 'apps/grid']) {
      expect(modules.get(home), home).toBeGreaterThan(5);
    }
    for (const [home, count] of modules) expect(count, home).toBeGreaterThan(0);
  });

  it('runs among the folders of the engine as the picture for developers shows', () => {
    const here = fileURLToPath(new URL('../..', import.meta.url));
    const text = readFileSync(join(here, 'DEVELOPERS.md'), 'utf8');
    const [, picture = ''] = /stand above them:\n\n```\n(.*?)```/s.exec(text) ?? [];
    const shown = picture
      .trim()
      .split('\n')
      .map((line) => line.split(/\s+/));
    const reads = checkImports(here).folders.get('packages/workbook');
    const imports = shown.map(([folder = '']) => [
      folder,
      ...[...(reads?.get(folder) ?? [])].sort(),
    ]);
    expect(imports).toEqual(
      shown.map(([folder, ...rest]) => [folder, ...rest.filter((one) => one !== '(nothing)')]),
    );
    expect([...(reads?.keys() ?? [])].filter((one) => !shown.some(([to]) => to === one))).toEqual(
      [],
    );
  });
});
