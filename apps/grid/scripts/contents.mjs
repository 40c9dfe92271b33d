import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/**
 * What a build contains of others' work, and under which licence: read from the packages that its
 * modules and files come from, so that nothing has to be listed by hand.
 */

/**
 * @typedef {object} Content
 * @property {string} name of the package
 * @property {string} version
 * @property {string} licence as its package names it (SPDX)
 * @property {readonly string[]} texts its licence and its notices
 */

/** Licences under which code may be part of a work under the GPL, version 3. */
const FOR_CODE = new Set([
  '0BSD',
  'Apache-2.0',
  'BSD-2-Clause',
  'BSD-3-Clause',
  'CC0-1.0',
  'GPL-3.0-only',
  'GPL-3.0-or-later',
  'ISC',
  'LGPL-3.0-only',
  'LGPL-3.0-or-later',
  'MIT',
  'MIT-0',
  'Unlicense',
  'Zlib',
]);
/** A font beside the code is a work of its own: its licence need only let it be handed on. */
const FOR_FONTS = new Set([...FOR_CODE, 'OFL-1.1']);

const FONT = /\.(?:woff2?|ttf|otf)$/i;
const LICENCE_FILE = /^(?:licen[cs]e|copying)/i;
const NOTICE_FILE = /^(?:notice|copyright|third[-_ ]?party)/i;

/** Code that the tools of the build write into it without a file of their own. */
const WRITTEN_IN = [
  { id: /^\0?(?:vite\/|__vite-browser-external)/, name: 'vite' },
  { id: /^\0?rolldown\//, name: 'rolldown' },
];

/**
 * Vite names in its licence also what only the tool itself contains; what it writes into a build is its
 * own.
 */
const OWN_PART = new Map([['vite', /^# Licenses of bundled dependencies$/m]]);

/**
 * @param {string} id of a module, or the path of a file that was copied
 * @param {string} root the repository's folder
 * @returns {{ name: string, folder: string } | undefined} undefined for our own
 * @throws where nobody can tell whose it is
 */
export function packageOf(id, root) {
  const path = id.replaceAll('\\', '/').replace(/\?.*$/s, '');
  const at = path.lastIndexOf('/node_modules/');
  if (at >= 0) {
    const name = /^(?:@[^/]+\/)?[^/]+/.exec(path.slice(at + '/node_modules/'.length))?.[0] ?? '';
    return { name, folder: `${path.slice(0, at).replace('\0', '')}/node_modules/${name}` };
  }
  const written = WRITTEN_IN.find((one) => one.id.test(path));
  if (written !== undefined) {
    return { name: written.name, folder: join(root, 'node_modules', written.name) };
  }
  const bare = path.replace('\0', '');
  if (bare.startsWith(`${root.replaceAll('\\', '/')}/`)) return undefined;
  throw new Error(`Nobody can tell whose "${bare}" is, which the build contains.`);
}

/**
 * What a build contains, by name, each once.
 * @param {readonly string[]} ids modules and files of the build, as full paths
 * @param {string} root the repository's folder
 * @returns {readonly Content[]}
 * @throws with every package named that has no licence text, or none that fits
 */
export function contentsOf(ids, root) {
  /** @type {Map<string, { name: string, folder: string, fontsOnly: boolean }>} */
  const found = new Map();
  for (const id of ids) {
    const one = packageOf(id, root);
    if (one === undefined) continue;
    const fontsOnly = FONT.test(id) && (found.get(one.folder)?.fontsOnly ?? true);
    found.set(one.folder, { ...one, fontsOnly });
  }
  /** @type {string[]} */
  const complaints = [];
  const contents = [...found.values()].map(({ folder, fontsOnly, name }) => {
    const content = read(folder, name);
    if (!content.hasLicence) complaints.push(`"${name}" comes without the text of its licence.`);
    if (!fits(content.licence, fontsOnly ? FOR_FONTS : FOR_CODE)) {
      complaints.push(`"${name}" is under "${content.licence}", which does not fit with GPL-3.0.`);
    }
    return content;
  });
  if (complaints.length > 0) {
    throw new Error(`The app cannot be handed on: ${complaints.join(' ')}`);
  }
  return contents.sort((a, b) => (a.name < b.name ? -1 : 1));
}

/** @param {string} folder @param {string} name @returns {Content & { hasLicence: boolean }} */
function read(folder, name) {
  const { version = '', license = '' } = JSON.parse(
    readFileSync(join(folder, 'package.json'), 'utf8'),
  );
  const files = readdirSync(folder, { withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => entry.name)
    .sort();
  /** @param {RegExp} kind */
  const texts = (kind) =>
    files
      .filter((file) => kind.test(file))
      .map((file) => ownPart(name, readFileSync(join(folder, file), 'utf8')))
      .filter((text) => text !== '');
  const [inside, notices] = [texts(LICENCE_FILE), texts(NOTICE_FILE)];
  const licences = inside.length > 0 ? inside : textBeside(`${name}-${version}`);
  return {
    name,
    version,
    licence: typeof license === 'string' ? license : '',
    texts: [...licences, ...notices],
    hasLicence: licences.length > 0,
  };
}

/**
 * The licence of a package that is published without the text in its repository, taken from there for one version.
 * @param {string} named
 */
function textBeside(named) {
  const file = new URL(`licence-texts/${named.replace('/', '+')}.txt`, import.meta.url);
  return existsSync(file) ? [readFileSync(file, 'utf8').trim()] : [];
}

/** @param {string} name @param {string} text */
function ownPart(name, text) {
  const end = OWN_PART.get(name);
  const lines = text.replaceAll('\r\n', '\n');
  if (end === undefined) return lines.trim();
  const [own = '', rest] = lines.split(end);
  if (rest === undefined) {
    throw new Error(`The licence of "${name}" is not made as expected: look at it anew.`);
  }
  return own.trim();
}

/**
 * Whether one of the licences offered may be taken, as in `(MIT OR Apache-2.0) AND ISC`.
 * @param {string} licence @param {ReadonlySet<string>} allowed
 */
export function fits(licence, allowed = FOR_CODE) {
  const words = licence.match(/[()]|[^\s()]+/g) ?? [];
  let at = 0;
  /** @returns {boolean} */
  const one = () => {
    const word = words[at++] ?? '';
    if (word !== '(') return allowed.has(word);
    const inside = either();
    if (words[at++] !== ')') throw new SyntaxError('a bracket is missing');
    return inside;
  };
  /** @param {string} sign @param {() => boolean} part @param {(a: boolean, b: boolean) => boolean} join */
  const chain = (sign, part, join) => {
    let value = part();
    while (words[at] === sign) {
      at += 1;
      value = join(value, part());
    }
    return value;
  };
  /** @returns {boolean} */
  const both = () => chain('AND', one, (a, b) => a && b);
  /** @returns {boolean} */
  const either = () => chain('OR', both, (a, b) => a || b);
  try {
    return either() && at === words.length;
  } catch {
    return false;
  }
}
