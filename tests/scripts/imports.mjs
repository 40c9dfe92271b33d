import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, posix } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { filesUnder } from './files.mjs';
import { folderProblems, foldersRead, keptFolderProblems } from './folders.mjs';
import { lateProblems } from './late.mjs';
import { importsOf } from './modules.mjs';

/**
 * The direction of imports: `wood`, `cutting` and `solids` ← `functions` ← `document` ← `workbook` ← `drawing` and
 * `interchange` ← apps. Only the engine's folder knows the formula engine, only the grid app knows the grid.
 */

/** What each workspace may import of ours. Apps may use every package; tests everything. */
const GROUND = ['@kerfbook/wood', '@kerfbook/cutting', '@kerfbook/solids'];
const PACKAGES = [
  ...GROUND,
  '@kerfbook/functions',
  '@kerfbook/document',
  '@kerfbook/workbook',
  '@kerfbook/drawing',
  '@kerfbook/guide',
  '@kerfbook/days',
  '@kerfbook/studies',
  '@kerfbook/interchange',
  '@kerfbook/keeping',
  '@kerfbook/protocol',
  '@kerfbook/serving',
];
/** @type {Record<string, readonly string[]>} */
const MAY_IMPORT = {
  'packages/wood': [],
  'packages/cutting': [],
  'packages/solids': [],
  'packages/functions': GROUND,
  'packages/document': ['@kerfbook/wood', '@kerfbook/functions'],
  'packages/workbook': [...GROUND, '@kerfbook/functions', '@kerfbook/document'],
  'packages/drawing': [...GROUND, '@kerfbook/functions', '@kerfbook/workbook'],
  'packages/guide': [
    '@kerfbook/wood',
    '@kerfbook/functions',
    '@kerfbook/document',
    '@kerfbook/workbook',
    '@kerfbook/drawing',
    '@kerfbook/studies',
  ],
  'packages/days': ['@kerfbook/workbook', '@kerfbook/drawing', '@kerfbook/studies'],
  'packages/studies': [
    '@kerfbook/wood',
    '@kerfbook/document',
    '@kerfbook/workbook',
    '@kerfbook/drawing',
  ],
  'packages/interchange': [
    ...GROUND,
    '@kerfbook/functions',
    '@kerfbook/document',
    '@kerfbook/workbook',
  ],
  'packages/keeping': ['@kerfbook/workbook', '@kerfbook/protocol'],
  'packages/protocol': [],
  'packages/serving': [],
  // It keeps workbooks and never works one out.
  'apps/club': ['@kerfbook/document', '@kerfbook/protocol', '@kerfbook/serving'],
};

/** Packages from outside that only one place may touch; benchmarks measure them bare. */
const KEPT_TO = [
  { package: /^hyperformula$/, places: ['packages/workbook/src/engine/', 'tests/bench/'] },
  // The text of a formula is read in one place (`edit/read-once.test.ts` counts how often).
  {
    package: /^@borgar\/fx$/,
    places: ['packages/document/src/formula/tree/', 'packages/workbook/src/edit/read-once.test.ts'],
  },
  { package: /^@?ag-grid-(?!enterprise)/, places: ['apps/grid/', 'tests/bench/'] },
  { package: /^@?ag-grid-enterprise/, places: [] },
];

/** Runs before anything is installed, when no package can be found by its name yet. */
const BY_PATH = new Set(['apps/cli/scripts/ensure.mjs']);
/** Data that ships and belongs to no package. */
const SHARED_DATA = ['templates/'];

const SOURCE = /\.(?:[cm]?[jt]s|[jt]sx)$/;

/**
 * @typedef {object} Checked
 * @property {Map<string, number>} modules how many modules of each workspace were read
 * @property {Map<string, Map<string, Set<string>>>} folders which folders of a workspace each of its folders imports
 * @property {string[]} problems one sentence for each import that runs the wrong way
 */

/**
 * Checks every module of every workspace under a root.
 * @param {string} root
 * @returns {Checked}
 */
export function checkImports(root) {
  /** @type {Checked} */
  const checked = { modules: new Map(), folders: new Map(), problems: [] };
  const rootAbout = readAbout(root);
  for (const home of workspacesOf(root)) {
    const about = readAbout(join(root, home));
    const files = filesUnder(root, home).filter((file) => SOURCE.test(file));
    checked.modules.set(home, files.length);
    if (files.length === 0) checked.problems.push(`${home} has no modules to read.`);
    checked.problems.push(...manifestProblems(home, about));
    /** @type {import('./folders.mjs').Within[]} */
    const within = [];
    for (const file of files) {
      const source = readFileSync(join(root, file), 'utf8');
      checked.problems.push(...moduleProblems(file, source, { home, about, rootAbout }));
      within.push(...importsWithin(file, source));
    }
    checked.folders.set(home, foldersRead(home, within));
    checked.problems.push(...folderProblems(home, within), ...keptFolderProblems(home, within));
  }
  checked.problems.push(...lateProblems(root));
  if (checked.modules.size === 0) checked.problems.push('There are no workspaces to read.');
  return checked;
}

/**
 * @typedef {{ name?: string, imports?: Record<string, Record<string, string>>,
 *   dependencies?: Record<string, string>,
 *   devDependencies?: Record<string, string>, peerDependencies?: Record<string, string> }} About
 * @typedef {{ home: string, about: About, rootAbout: About }} Workspace
 */

/**
 * What is wrong with the imports of one module.
 * @param {string} file its path from the root, with forward slashes
 * @param {string} source
 * @param {Workspace} workspace
 * @returns {string[]}
 */
export function moduleProblems(file, source, workspace) {
  const found = importsOf(file, source);
  if (found.unreadable !== undefined) return [`${file} cannot be read: ${found.unreadable}`];
  return found.imports.flatMap((one) => {
    const problem =
      one.kind === 'export-all'
        ? 'exports everything of a module; list the names.'
        : one.specifier === undefined
          ? unknownImport(file)
          : specifierProblem(file, one.specifier, workspace);
    return problem === undefined ? [] : [`${file}:${one.line} ${problem}`];
  });
}

/** What a module that ships imports by a relative path. @param {string} file @param {string} source */
function importsWithin(file, source) {
  const found = isShipped(file) ? importsOf(file, source) : { imports: [] };
  return found.imports.flatMap(({ specifier, line }) =>
    specifier?.startsWith('.') === true
      ? [{ file, line, target: posix.join(posix.dirname(file), specifier) }]
      : [],
  );
}

/** A path made at run time cannot be checked; scripts and tests may need one, what ships may not. */
function unknownImport(/** @type {string} */ file) {
  return isShipped(file) ? 'imports a path that is not written out.' : undefined;
}

/** @param {string} file @param {string} specifier @param {Workspace} workspace */
function specifierProblem(file, specifier, workspace) {
  if (specifier.startsWith('node:')) return undefined;
  if (specifier.startsWith('.')) return relativeProblem(file, specifier, workspace);
  if (specifier.startsWith('#')) return ownNameProblem(specifier, workspace);
  if (/^(?:[a-z][a-z0-9+.-]*:|\/)/i.test(specifier)) return `imports ${specifier} by an address.`;
  const name = packageName(specifier);
  return (
    directionProblem(name, workspace) ??
    keptProblem(file, name) ??
    undeclaredProblem(file, name, workspace)
  );
}

/** @param {string} file @param {string} specifier @param {Workspace} workspace */
function relativeProblem(file, specifier, { home }) {
  const target = posix.join(posix.dirname(file), specifier.replace(/[?#].*$/, ''));
  if (target === home || target.startsWith(`${home}/`)) return undefined;
  if (BY_PATH.has(target)) return undefined;
  const mayRead = home.startsWith('apps/') || home === 'tests';
  if (mayRead && SHARED_DATA.some((data) => target.startsWith(data))) return undefined;
  return `imports ${specifier}, which leaves ${home}; import a package by its name.`;
}

/**
 * A module of the package itself under a name of its own, where builds take different ones.
 * @param {string} specifier @param {Workspace} workspace
 */
function ownNameProblem(specifier, { home, about }) {
  const targets = about.imports?.[specifier];
  if (targets === undefined)
    return `imports ${specifier}, which ${home}/package.json does not name.`;
  const leaves = Object.values(targets).some((target) => !/^\.\/(?!.*\.\.)/.test(target));
  return leaves ? `imports ${specifier}, which leaves ${home}.` : undefined;
}

/** @param {string} name @param {Workspace} workspace */
function directionProblem(name, { home, about }) {
  if (!name.startsWith('@kerfbook/') || name === about.name || home === 'tests') return undefined;
  if (!PACKAGES.includes(name)) return `imports ${name}; nothing imports an app.`;
  const allowed = home.startsWith('apps/') ? PACKAGES : (MAY_IMPORT[home] ?? []);
  return allowed.includes(name) ? undefined : `imports ${name}; ${home} stands below it.`;
}

/** @param {string} file @param {string} name */
function keptProblem(file, name) {
  const rule = KEPT_TO.find((one) => one.package.test(name));
  if (rule === undefined || rule.places.some((place) => file.startsWith(place))) return undefined;
  if (rule.places.length === 0) return `imports ${name}, which Kerfbook does not use.`;
  return `imports ${name}; only ${rule.places[0]} may.`;
}

/** @param {string} file @param {string} name @param {Workspace} workspace */
function undeclaredProblem(file, name, { home, about, rootAbout }) {
  if (name === about.name || name in { ...about.dependencies, ...about.peerDependencies }) {
    return undefined;
  }
  if (isShipped(file)) return `imports ${name}, which is not in the dependencies of ${home}.`;
  if (name in { ...about.devDependencies, ...rootAbout.devDependencies }) return undefined;
  return `imports ${name}, which neither ${home} nor the root declares.`;
}

/** Code that others or a browser run, rather than tests, scripts and settings. */
function isShipped(/** @type {string} */ file) {
  return (
    /^(?:packages|apps)\/[^/]+\/(?:src|bin)\//.test(file) &&
    !/\.test\.[jt]sx?$|\/testing\//.test(file)
  );
}

/** @param {string} home @param {About} about */
function manifestProblems(home, about) {
  return Object.keys({ ...about.dependencies, ...about.devDependencies, ...about.peerDependencies })
    .map((name) => {
      if (/^@?ag-grid-enterprise/.test(name)) return `${home}/package.json names ${name}.`;
      const problem = directionProblem(name, { home, about, rootAbout: {} });
      return problem === undefined ? undefined : `${home}/package.json ${problem}`;
    })
    .filter((problem) => problem !== undefined);
}

/** `@scope/name/deep/path` → `@scope/name`. @param {string} specifier */
function packageName(specifier) {
  return specifier.split('/', specifier.startsWith('@') ? 2 : 1).join('/');
}

/** @param {string} folder @returns {About} */
function readAbout(folder) {
  return JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
}

/** @param {string} root */
function workspacesOf(root) {
  const grouped = ['packages', 'apps']
    .filter((group) => existsSync(join(root, group)))
    .flatMap((group) => readdirSync(join(root, group)).map((name) => `${group}/${name}`));
  return [...grouped.sort(), 'tests'].filter((home) =>
    existsSync(join(root, home, 'package.json')),
  );
}

function main() {
  const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
  const { modules, problems } = checkImports(root);
  for (const [home, count] of modules) console.log(`${home.padEnd(20)} ${count} modules read`);
  for (const problem of problems) console.error(problem);
  if (problems.length > 0) process.exitCode = 1;
  else console.log('Every import runs the right way.');
}

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href)
  main();
