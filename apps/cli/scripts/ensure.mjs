import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { basename, delimiter, join } from 'node:path';

/**
 * Gets a machine ready: what is installed, built and found here is what every command needs first.
 * This file runs before anything is installed, so it uses nothing but Node itself. All it prints
 * goes to standard error; standard output belongs to the command that was asked for.
 */

/** A step that could not be done; the message is for the person at the keyboard. */
export class NotReady extends Error {
  /** @param {string} says */
  constructor(says) {
    super(says);
    this.name = 'NotReady';
  }
}

/**
 * Runs a program to its end.
 * @param {string} command
 * @param {readonly string[]} args
 * @param {{ cwd: string, env?: NodeJS.ProcessEnv, output?: Output }} options
 * @returns {Promise<number>} its exit code; 127 where it could not be started, 1 when it was killed
 *
 * @typedef {'stderr' | 'inherit' | 'if-it-fails'} Output where what it prints goes: to standard
 * error, to both as it has them, or to standard error and only when it fails
 */
export function runToEnd(command, args, { cwd, env = process.env, output = 'stderr' }) {
  return new Promise((resolve) => {
    const held = output === 'if-it-fails';
    const child = spawn(command, args, {
      cwd,
      env,
      stdio: ['ignore', held ? 'pipe' : PRINTS[output], held ? 'pipe' : 'inherit'],
      // npm and turbo are batch files there, which only a shell can start.
      shell: process.platform === 'win32',
    });
    /** @type {Buffer[]} */
    const printed = [];
    for (const stream of [child.stdout, child.stderr]) {
      stream?.on('data', (/** @type {Buffer} */ chunk) => printed.push(chunk));
    }
    child.on('error', () => resolve(127));
    child.on('close', (code) => {
      if (code !== 0) process.stderr.write(Buffer.concat(printed));
      resolve(code ?? 1);
    });
  });
}

const PRINTS = /** @type {const} */ ({ stderr: 2, inherit: 'inherit' });

/** @param {string} root @param {string} name */
const localBin = (root, name) =>
  join(root, 'node_modules', '.bin', process.platform === 'win32' ? `${name}.cmd` : name);

/**
 * Installs the dependencies of the lock file, unless they are there already.
 * @param {string} root the project's folder
 * @throws {NotReady} when npm fails
 */
export async function ensureInstalled(root) {
  const lock = readFileSync(join(root, 'package-lock.json'), 'utf8');
  const wanted = hashOf(lock);
  if (readStamp(root, 'installed') === wanted) return;
  if (!installedMatches(root, lock)) {
    process.stderr.write('Installing what Kerfbook needs (npm ci) …\n');
    // A production setting in the environment would leave out the build tools.
    const code = await runToEnd('npm', ['ci', '--include=dev', '--no-audit', '--no-fund'], {
      cwd: root,
    });
    if (code !== 0) {
      throw new NotReady(
        'The dependencies could not be installed. Run "npm ci" in the project\'s folder and read what it says.',
      );
    }
  }
  writeStamp(root, 'installed', wanted);
}

/**
 * Whether what npm last installed is what the lock file asks for. Packages for other kinds of
 * machine are optional, and npm leaves them out.
 * @param {string} root @param {string} lock
 */
function installedMatches(root, lock) {
  const hidden = join(root, 'node_modules', '.package-lock.json');
  if (!existsSync(hidden)) return false;
  const installed = JSON.parse(readFileSync(hidden, 'utf8')).packages ?? {};
  const wanted = JSON.parse(lock).packages ?? {};
  return Object.entries(wanted).every(([path, entry]) => {
    if (path === '') return true;
    const found = installed[path];
    if (found === undefined) return entry.optional === true;
    return found.version === entry.version && found.integrity === entry.integrity;
  });
}

/**
 * Builds what changed since the last build.
 * @param {string} root the project's folder
 * @param {string} [filter] a workspace by name; it and what it stands on are built, all by default
 * @throws {NotReady} when a build fails
 */
export async function ensureBuilt(root, filter) {
  const stamp = `built-${(filter ?? 'all').replace(/[^a-z-]/g, '_')}`;
  const sources = sourceState(root);
  const now = sources + buildState(root);
  if ([stamp, 'built-all'].some((name) => readStamp(root, name) === now)) return;
  if (isUnbuilt(root, filter)) process.stderr.write('Building Kerfbook …\n');
  const scope = filter === undefined ? [] : [`--filter=${filter}`];
  const code = await runTurbo(
    root,
    ['build', ...scope, '--output-logs=errors-only'],
    'if-it-fails',
  );
  if (code !== 0) {
    throw new NotReady(
      'The build failed; the reason stands above. "npx turbo run build" repeats it.',
    );
  }
  writeStamp(root, stamp, sources + buildState(root));
}

/**
 * Runs turbo without its notices.
 * @param {string} root
 * @param {readonly string[]} args what follows `turbo run`
 * @param {Output} [output]
 */
export function runTurbo(root, args, output = 'stderr') {
  return runToEnd(localBin(root, 'turbo'), ['run', '--no-update-notifier', ...args], {
    cwd: root,
    env: { ...process.env, TURBO_TELEMETRY_DISABLED: '1', DO_NOT_TRACK: '1' },
    output,
  });
}

const MADE = new Set(['node_modules', 'dist', '.turbo', '.results']);

/** @param {string} root @returns {string[]} folders of the packages and apps */
const homes = (root) =>
  ['packages', 'apps'].flatMap((group) =>
    readdirSync(join(root, group))
      .sort()
      .map((name) => join(root, group, name)),
  );

/**
 * Sizes and times of every file a build reads: cheaper than asking turbo each time.
 * @param {string} root
 */
function sourceState(root) {
  /** @type {string[]} */
  const lines = [];
  /** @param {string} folder */
  const note = (folder) => {
    for (const entry of readdirSync(folder, { withFileTypes: true })) {
      if (MADE.has(entry.name)) continue;
      const path = join(folder, entry.name);
      if (entry.isDirectory()) note(path);
      else lines.push(`${path} ${statSync(path).size} ${statSync(path).mtimeMs}`);
    }
  };
  for (const file of ['package-lock.json', 'tsconfig.base.json', 'turbo.json']) {
    lines.push(hashOf(readFileSync(join(root, file), 'utf8')));
  }
  for (const folder of [...homes(root), join(root, 'templates')].filter(existsSync)) note(folder);
  return hashOf(lines.join('\n'));
}

/** Which builds are there, so that one that was thrown away is made again. @param {string} root */
const buildState = (root) =>
  homes(root)
    .map((home) => (existsSync(join(home, 'dist')) ? '1' : '0'))
    .join('');

/** Whether a build that is asked for was never made. @param {string} root @param {string} [filter] */
const isUnbuilt = (root, filter) =>
  homes(root)
    .filter((home) => filter === undefined || basename(home) === filter.split('/').at(-1))
    .some((home) => !existsSync(join(home, 'dist')));

const BROWSERS = [
  'chromium',
  'chromium-browser',
  'google-chrome',
  'google-chrome-stable',
  'chrome',
];

/**
 * What finding a browser depends on, so that a test can stand on another machine.
 * @typedef {object} Machine
 * @property {NodeJS.ProcessEnv} env
 * @property {readonly string[]} elsewhere where a browser may be that is not on the path
 * @property {boolean} mayInstall packages can be installed without asking for a password
 */

/** @returns {Machine} */
const thisMachine = () => ({
  env: process.env,
  elsewhere: [
    '/usr/bin/chromium',
    '/snap/bin/chromium',
    '/Applications/Chromium.app/Contents/MacOS/Chromium',
    '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
    'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
  ],
  mayInstall: process.getuid?.() === 0 && isFile('/usr/bin/apt-get'),
});

/**
 * @param {Machine} machine
 * @returns {string | undefined} path of a Chromium
 */
function findBrowser({ env, elsewhere }) {
  const chosen = env.KERFBOOK_CHROMIUM;
  if (chosen !== undefined && chosen !== '') {
    if (isFile(chosen)) return chosen;
    throw new NotReady(`KERFBOOK_CHROMIUM points to ${chosen}, where there is no program.`);
  }
  const folders = (env.PATH ?? '').split(delimiter).filter((folder) => folder !== '');
  const onPath = BROWSERS.flatMap((name) => folders.map((folder) => join(folder, name)));
  return [...onPath, ...elsewhere].find(isFile);
}

/**
 * Finds Chromium for the browser tests, and installs it where that takes no more than asking.
 * @param {Machine} [machine]
 * @returns {Promise<string>} its path
 * @throws {NotReady} naming the command that would install it
 */
export async function ensureBrowser(machine = thisMachine()) {
  const found = findBrowser(machine);
  if (found !== undefined) return found;
  const command = 'apt-get update && apt-get install -y chromium';
  if (machine.mayInstall) {
    process.stderr.write(`Installing Chromium for the browser tests (${command}) …\n`);
    const env = { ...machine.env, DEBIAN_FRONTEND: 'noninteractive' };
    await runToEnd('sh', ['-c', command], { cwd: '/', env });
    const installed = findBrowser(machine);
    if (installed !== undefined) return installed;
  }
  throw new NotReady(
    `The browser tests need Chromium, and there is none here. Run "${machine.mayInstall ? command : 'sudo apt-get install -y chromium'}", or set KERFBOOK_CHROMIUM to the path of one.`,
  );
}

/** @param {string} path */
function isFile(path) {
  return existsSync(path) && statSync(path).isFile();
}

/** @param {string} text */
const hashOf = (text) => createHash('sha256').update(text).digest('hex');

/** @param {string} root @param {string} name */
function readStamp(root, name) {
  const path = join(root, 'node_modules', '.kerfbook', name);
  return existsSync(path) ? readFileSync(path, 'utf8') : undefined;
}

/** @param {string} root @param {string} name @param {string} text */
function writeStamp(root, name, text) {
  const folder = join(root, 'node_modules', '.kerfbook');
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, name), text);
}
