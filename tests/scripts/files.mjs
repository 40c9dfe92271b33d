import { readdirSync } from 'node:fs';
import { join, relative, sep } from 'node:path';

/** Folders that tools fill; what is in them belongs to nobody. */
export const MADE = new Set(['node_modules', 'dist', '.turbo', '.results', '.git']);

/**
 * Every file under a folder, by its path from the root with forward slashes, in order.
 * @param {string} root
 * @param {string} [under] a folder from the root; the whole tree where left out
 * @returns {string[]}
 */
export function filesUnder(root, under = '') {
  /** @type {string[]} */
  const files = [];
  /** @param {string} folder */
  const walk = (folder) => {
    for (const entry of readdirSync(folder, { withFileTypes: true })) {
      if (MADE.has(entry.name)) continue;
      const path = join(folder, entry.name);
      if (entry.isDirectory()) walk(path);
      else files.push(relative(root, path).split(sep).join('/'));
    }
  };
  walk(join(root, under));
  return files.sort();
}
