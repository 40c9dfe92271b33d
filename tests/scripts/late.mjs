import { existsSync, readFileSync } from 'node:fs';
import { join, posix } from 'node:path';
import { importsOf } from './modules.mjs';

/**
 * What the app loads after the first sheet must not be imported by what it starts with: a way of imports
 * from a package's entry brings it along, however long the way is. A call of `import()` does not, nor
 * does `import type`.
 */

/** @typedef {{ entry: string, comesLate: string }} Late */

/** @type {readonly Late[]} */
export const LATE = [
  { entry: 'packages/workbook/src/index.ts', comesLate: 'hyperformula' },
  { entry: 'packages/workbook/src/index.ts', comesLate: 'numfmt' },
  { entry: 'packages/workbook/src/index.ts', comesLate: 'highs' },
  { entry: 'packages/workbook/src/index.ts', comesLate: '@kerfbook/solids' },
  { entry: 'packages/keeping/src/index.ts', comesLate: '@kerfbook/protocol' },
  { entry: 'packages/keeping/src/shelf.ts', comesLate: '@kerfbook/protocol' },
];

/** Which source a package's entry or a name of its own stands for in the app, the first that is there. */
const CONDITIONS = ['kerfbook-late', 'kerfbook-source', 'default'];

/**
 * One sentence for each package that an entry comes to and that is to come late, with the way.
 * @param {string} root
 * @param {readonly Late[]} [rules]
 * @returns {string[]}
 */
export function lateProblems(root, rules = LATE) {
  const there = rules.filter(({ entry }) => existsSync(join(root, entry)));
  return there.flatMap(({ entry, comesLate }) => {
    const way = wayTo(root, entry, comesLate);
    return way === undefined
      ? []
      : [`${entry} brings ${comesLate} along, which is to come late: ${way.join(' → ')}.`];
  });
}

/**
 * The shortest way of imports from a module to a package.
 * @param {string} root @param {string} entry @param {string} wanted
 * @returns {string[] | undefined}
 */
function wayTo(root, entry, wanted) {
  /** @type {Map<string, string | undefined>} */
  const cameFrom = new Map([[entry, undefined]]);
  for (const [file] of cameFrom) {
    const found = importsOf(file, readFileSync(join(root, file), 'utf8'));
    for (const { specifier, waits } of found.imports) {
      if (waits || specifier === undefined) continue;
      if (packageOf(specifier) === wanted) return [...wayBack(cameFrom, file), wanted];
      const target = targetOf(root, file, specifier);
      if (target !== undefined && !cameFrom.has(target)) cameFrom.set(target, file);
    }
  }
  return undefined;
}

/** @param {Map<string, string | undefined>} cameFrom @param {string} file */
function wayBack(cameFrom, file) {
  const way = [];
  for (let at = /** @type {string | undefined} */ (file); at !== undefined; at = cameFrom.get(at)) {
    way.unshift(at);
  }
  return way;
}

/** The module of ours that an import stands for. @param {string} root @param {string} file @param {string} specifier */
function targetOf(root, file, specifier) {
  if (specifier.startsWith('.')) return posix.join(posix.dirname(file), specifier);
  const ours = specifier.startsWith('#')
    ? { home: file.split('/', 2).join('/'), list: 'imports', key: specifier }
    : entryOf(specifier);
  if (ours === undefined) return undefined;
  const about = JSON.parse(readFileSync(join(root, ours.home, 'package.json'), 'utf8'));
  const targets = about[ours.list]?.[ours.key];
  const target = CONDITIONS.map((one) => targets?.[one]).find((one) => one !== undefined);
  return target === undefined ? undefined : posix.join(ours.home, target);
}

/** `@kerfbook/functions/libraries` is `./libraries` of `packages/functions`. @param {string} specifier */
function entryOf(specifier) {
  const [scope, name, ...rest] = specifier.split('/');
  if (scope !== '@kerfbook' || name === undefined) return undefined;
  return { home: `packages/${name}`, list: 'exports', key: ['.', ...rest].join('/') };
}

/** @param {string} specifier */
function packageOf(specifier) {
  return specifier.split('/', specifier.startsWith('@') ? 2 : 1).join('/');
}
