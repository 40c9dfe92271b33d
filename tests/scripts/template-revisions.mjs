/**
 * Raises the revision of each template that ships and was changed, and notes what its ids stand for:
 *
 *     node tests/scripts/template-revisions.mjs
 *
 * Workbooks that were made from a template follow its later revisions by ids. An id that comes to mean something
 * else would put what is new on top of what a maker typed elsewhere, so such a change is refused here and told by
 * `tests/house/template-revisions.test.ts`.
 */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const TEMPLATES = new URL('../../templates/', import.meta.url);
const REVISIONS = new URL('../../apps/grid/src/storage/template-revisions.json', import.meta.url);
const IDS = new URL('../house/template-ids.json', import.meta.url);

/**
 * @typedef {{ revision: number, sign: string }} Listed
 * @typedef {Record<string, string>} Texts
 * @typedef {{ sheets: Texts, names: Texts, checks: Texts, tables: Texts, used: string, gone?: string }} Ids
 */

/** @param {URL} file */
const read = (file) => {
  try {
    return JSON.parse(readFileSync(file, 'utf8'));
  } catch (error) {
    if (/** @type {{ code?: string }} */ (error).code === 'ENOENT') return {};
    throw error;
  }
};

/**
 * The templates that ship, each as its text.
 * @returns {Texts}
 */
export function templateTexts() {
  const files = readdirSync(TEMPLATES).filter((name) => name.endsWith('.json'));
  return Object.fromEntries(
    files
      .sort()
      .map((name) => [
        name.slice(0, -'.json'.length),
        readFileSync(new URL(name, TEMPLATES), 'utf8'),
      ]),
  );
}

/**
 * The revisions as they are listed, by key.
 * @returns {Record<string, Listed>}
 */
export const listedRevisions = () => read(REVISIONS);
/**
 * What ids are noted to stand for, by key.
 * @returns {Record<string, Ids>}
 */
export const listedIds = () => read(IDS);

/**
 * SHA-256 of a text in UTF-8, in hexadecimal digits.
 * @param {string} text
 */
export const signOf = (text) => createHash('sha256').update(text).digest('hex');

/**
 * What the ids of a workbook stand for: names of cells, checks, tables and sheets, and all that are in use.
 * @param {any} document
 * @returns {Ids}
 */
export function idsOf(document) {
  /** @type {Texts} */
  const names = {};
  /** @type {string[]} */
  const used = [];
  for (const { id: sheet, columns, rows } of document.sheets) {
    used.push(sheet);
    for (const { id } of [...columns, ...rows]) used.push(`${sheet}!${id}`);
    for (const { id: row, cells = {} } of rows) {
      for (const [column, cell] of Object.entries(cells)) {
        const { name } = /** @type {{ name?: string }} */ (cell);
        if (name !== undefined) names[name] = `${sheet}!${column}.${row}`;
      }
    }
  }
  /** @type {Texts} */
  const tables = {};
  for (const { id, kind, sheet } of document.tables) {
    let key = `${kind} on ${sheet}`;
    while (Object.hasOwn(tables, key)) key += ' again';
    tables[key] = id;
  }
  for (const { id } of document.tables) used.push(`table:${id}`);
  for (const { id } of document.checks) used.push(`check:${id}`);
  return {
    sheets: byName(document.sheets),
    names,
    checks: byName(document.checks),
    tables,
    used: used.join(' '),
  };
}

/**
 * @param {readonly { id: string, name: string }[]} all
 * @returns {Texts}
 */
const byName = (all) => Object.fromEntries(all.map(({ id, name }) => [name, id]));

const listOf = (text = '') => text.split(' ').filter((one) => one !== '');

/**
 * Sentences about ids that mean something else than they did, where `was` is what was noted last.
 * @param {string} key
 * @param {Partial<Ids>} was
 * @param {Ids} now
 */
export function idTroubles(key, was, now) {
  /** @type {string[]} */
  const says = [];
  for (const kind of /** @type {const} */ (['sheets', 'names', 'checks', 'tables'])) {
    for (const [name, id] of Object.entries(was[kind] ?? {})) {
      const is = now[kind][name];
      if (is !== undefined && is !== id)
        says.push(`${key}: ${name} was ${id} and is ${is}. Give it its former id.`);
    }
  }
  const gone = new Set(listOf(was.gone));
  for (const id of listOf(now.used))
    if (gone.has(id)) says.push(`${key}: ${id} was removed once and is used again. Take a new id.`);
  return says;
}

/**
 * What is noted of a template after a change: ids that went stay noted.
 * @param {Partial<Ids>} was
 * @param {Ids} now
 * @returns {Ids}
 */
export function notedIds(was, now) {
  const used = new Set(listOf(now.used));
  const gone = [...listOf(was.gone), ...listOf(was.used).filter((id) => !used.has(id))];
  return { ...now, gone: [...new Set(gone)].sort().join(' ') };
}

/**
 * The list after a change of templates: the revision of one with another text is the next one.
 * @param {Readonly<Record<string, Listed>>} listed
 * @param {Readonly<Texts>} texts
 * @returns {Record<string, Listed>}
 */
export function raised(listed, texts) {
  return Object.fromEntries(
    Object.entries(texts).map(([key, text]) => {
      const { revision, sign } = listed[key] ?? { revision: 0, sign: '' };
      const now = signOf(text);
      return [key, { revision: sign === now ? revision : revision + 1, sign: now }];
    }),
  );
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const texts = templateTexts();
  const was = listedIds();
  const now = Object.fromEntries(
    Object.entries(texts).map(([key, text]) => [key, idsOf(JSON.parse(text))]),
  );
  const says = Object.entries(now).flatMap(([key, ids]) => idTroubles(key, was[key] ?? {}, ids));
  if (says.length > 0) {
    console.error(says.join('\n'));
    process.exitCode = 1;
  } else {
    const listed = listedRevisions();
    const revisions = raised(listed, texts);
    for (const [key, { revision }] of Object.entries(revisions))
      if (listed[key]?.revision !== revision) console.log(`${key}: revision ${revision}`);
    writeFileSync(REVISIONS, `${JSON.stringify(revisions, null, 2)}\n`);
    const noted = Object.entries(now).map(([key, ids]) => [key, notedIds(was[key] ?? {}, ids)]);
    writeFileSync(IDS, `${JSON.stringify(Object.fromEntries(noted), null, 2)}\n`);
  }
}
