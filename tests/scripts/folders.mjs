import { posix } from 'node:path';

/**
 * The folders of a workspace import each other one way only: who reads one folder needs to know what it
 * imports, and nothing that imports it.
 */

/**
 * One import within a workspace, of a module that ships.
 * @typedef {{ file: string, line: number, target: string }} Within
 */

/**
 * Imports from one folder directly under `src` to another.
 * @param {string} home
 * @param {readonly Within[]} imports
 */
function between(home, imports) {
  return imports.flatMap((one) => {
    const [from, to] = [folderOf(home, one.file), folderOf(home, one.target)];
    return from === undefined || to === undefined || from === to ? [] : [{ ...one, from, to }];
  });
}

/**
 * Which folders each folder of a workspace imports.
 * @param {string} home
 * @param {readonly Within[]} imports
 * @returns {Map<string, Set<string>>}
 */
export function foldersRead(home, imports) {
  /** @type {Map<string, Set<string>>} */
  const reads = new Map();
  for (const { from, to } of between(home, imports)) {
    reads.set(from, (reads.get(from) ?? new Set()).add(to));
  }
  return reads;
}

/**
 * The ways round among the folders, one sentence for each import on such a way.
 * @param {string} home
 * @param {readonly Within[]} imports
 * @returns {string[]}
 */
export function folderProblems(home, imports) {
  const reads = foldersRead(home, imports);
  return between(home, imports)
    .filter(({ from, to }) => leads(reads, to, from))
    .map(
      ({ file, line, from, to }) =>
        `${file}:${line} imports ${to}/, which imports ${from}/ or what imports it.`,
    );
}

/** Folders that few others may import: who needs what is in them asks those. */
const KEPT = [{ home: 'packages/workbook', folder: 'engine', by: ['follow'] }];

/**
 * Imports of a folder that is kept to others, one sentence each. Modules directly in `src` may import any.
 * @param {string} home
 * @param {readonly Within[]} imports
 * @returns {string[]}
 */
export function keptFolderProblems(home, imports) {
  const kept = KEPT.filter((one) => one.home === home);
  return between(home, imports).flatMap(({ file, line, from, to }) => {
    const rule = kept.find(({ folder }) => folder === to);
    if (rule === undefined || rule.by.includes(from)) return [];
    return [`${file}:${line} imports ${to}/; only ${rule.by.join('/ and ')}/ may.`];
  });
}

/** Whether folders import each other on from one until another. @param {Map<string, Set<string>>} reads @param {string} from @param {string} to */
function leads(reads, from, to) {
  const seen = new Set([from]);
  for (const one of seen) {
    if (one === to) return true;
    for (const next of reads.get(one) ?? []) seen.add(next);
  }
  return false;
}

/** The folder of a module; none for one that stands directly in `src`, or outside. @param {string} home @param {string} file */
function folderOf(home, file) {
  const [folder, ...rest] = posix.relative(`${home}/src`, file).split('/');
  return rest.length === 0 || folder === '..' ? undefined : folder;
}
