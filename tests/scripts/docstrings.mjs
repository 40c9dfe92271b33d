import { existsSync, readFileSync } from 'node:fs';
import { join, posix } from 'node:path';
import { argv } from 'node:process';
import { fileURLToPath } from 'node:url';
import { filesUnder } from './files.mjs';
import { lineOf, treeOf } from './modules.mjs';

/**
 * What packages offer to others (everything their entries export, and the members of it) and whether a
 * docstring stands before it. What an entry hands on from another package counts there; a member of a class
 * has the docstring of the interface it fulfils, as editors show it.
 */

/** @typedef {import('./modules.mjs').Node} Node */

/**
 * @typedef {object} Member
 * @property {string} name `Workbook.open`, `typedTokens`
 * @property {string} file from the root
 * @property {number} line
 * @property {boolean} documented
 */

/**
 * Every public member of the packages under a root.
 * @param {string} root
 * @returns {Member[]}
 */
export function publicMembers(root) {
  const modules = new Modules(root);
  /** @type {Map<string, Member>} */
  const members = new Map();
  for (const path of filesUnder(root, 'packages')) {
    if (!/^packages\/[^/]+\/package\.json$/.test(path)) continue;
    for (const entry of entriesOf(root, path)) {
      for (const found of modules.exportsOf(entry)) {
        for (const member of modules.membersOf(found)) {
          members.set(`${member.file}:${member.line} ${member.name}`, member);
        }
      }
    }
  }
  return [...members.values()];
}

/** The sources of a package's entries, but for what serves tests. @param {string} root @param {string} path */
function entriesOf(root, path) {
  /** @type {{ exports?: Record<string, Record<string, string>> }} */
  const { exports = {} } = JSON.parse(readFileSync(join(root, path), 'utf8'));
  return Object.entries(exports).flatMap(([name, conditions]) => {
    const source = conditions['kerfbook-source'];
    return source === undefined || name.endsWith('testing')
      ? []
      : [posix.join(posix.dirname(path), source)];
  });
}

/** @typedef {{ name: string, file: string, node: Node, at: number }} Declaration */

class Modules {
  #root;
  /** @type {Map<string, { source: string, body: readonly Node[] }>} */
  #read = new Map();
  /** @param {string} root */
  constructor(root) {
    this.#root = root;
  }

  /** @param {string} file */
  #module(file) {
    const known = this.#read.get(file);
    if (known !== undefined) return known;
    const source = readFileSync(join(this.#root, file), 'utf8');
    const tree = /** @type {{ body: readonly Node[] }} */ (
      /** @type {unknown} */ (treeOf(file, source))
    );
    const found = { source, body: tree.body };
    this.#read.set(file, found);
    return found;
  }

  /**
   * What a module exports, where it is declared.
   * @param {string} file
   * @param {(name: string) => boolean} [wanted]
   * @returns {Declaration[]}
   */
  exportsOf(file, wanted = () => true) {
    return this.#module(file).body.flatMap((node) => {
      if (node.type !== 'ExportNamedDeclaration' && node.type !== 'ExportDefaultDeclaration')
        return [];
      const { declaration } = node;
      if (isNode(declaration)) {
        return declared(declaration)
          .filter(({ name }) => wanted(name))
          .map((one) => ({ ...one, file, at: node.start }));
      }
      const names = new Set(specifiersOf(node).filter(wanted));
      if (!isNode(node.source)) return this.#declaredIn(file, names);
      const from = String(node.source.value);
      if (!from.startsWith('.')) return [];
      const next = posix.join(posix.dirname(file), from);
      if (!existsSync(join(this.#root, next))) throw new Error(`${file} exports from ${next}`);
      return this.exportsOf(next, (name) => names.has(name));
    });
  }

  /** What is declared in a module and exported by a list at its end. @param {string} file @param {Set<string>} names */
  #declaredIn(file, names) {
    return this.#module(file).body.flatMap((node) =>
      declared(node)
        .filter(({ name }) => names.has(name))
        .map((one) => ({ ...one, file, at: node.start })),
    );
  }

  /** A declaration and what is reached through it. @param {Declaration} declaration @returns {Member[]} */
  membersOf(declaration) {
    const { name, file, node, at } = declaration;
    const { source } = this.#module(file);
    /** @type {Member[]} */
    const inside = [];
    /** @type {Set<string> | undefined} */
    let inherited;
    for (const [field, start] of fieldsOf(node)) {
      const told = hasDocstring(source, start);
      if (!told) inherited ??= new Set(this.#inherited(declaration));
      const documented = told || inherited?.has(field) === true;
      inside.push({ name: `${name}.${field}`, file, line: lineOf(source, start), documented });
    }
    const own = { name, file, line: lineOf(source, at), documented: hasDocstring(source, at) };
    return [own, ...mergeOverloads(inside)];
  }

  /** Fields with a docstring in what a class implements or an interface extends. @param {Declaration} declaration @returns {string[]} */
  #inherited({ file, node }) {
    return parentsOf(node).flatMap((name) => {
      const parent = this.#find(file, name);
      if (parent === undefined) return [];
      const { source } = this.#module(parent.file);
      const own = fieldsOf(parent.node).filter(([, start]) => hasDocstring(source, start));
      return [...own.map(([field]) => field), ...this.#inherited(parent)];
    });
  }

  /** What a module means by a name; nothing where it comes from another package. @param {string} file @param {string} name @returns {Declaration | undefined} */
  #find(file, name) {
    for (const node of this.#module(file).body) {
      if (node.type === 'ImportDeclaration') {
        const from = String(/** @type {Node} */ (node.source).value);
        if (!from.startsWith('.') || !specifiersOf(node).includes(name)) continue;
        return this.#find(posix.join(posix.dirname(file), from), name);
      }
      const inner = isNode(node.declaration) ? node.declaration : node;
      const found = declared(inner).find((one) => one.name === name);
      if (found !== undefined) return { ...found, file, at: node.start };
    }
    return undefined;
  }
}

/** Of a method that is told several times, one docstring is enough. @param {Member[]} members @returns {Member[]} */
function mergeOverloads(members) {
  /** @type {Map<string, Member>} */
  const merged = new Map();
  for (const one of members) {
    const before = merged.get(one.name);
    merged.set(one.name, before?.documented === true ? before : one);
  }
  return [...merged.values()];
}

/** @param {Node} node @returns {{ name: string, node: Node }[]} */
function declared(node) {
  if (node.type === 'VariableDeclaration') {
    const all = /** @type {Node[]} */ (node.declarations);
    return all.map((one) => ({ name: nameOf(one.id), node: one }));
  }
  return isNode(node.id) ? [{ name: nameOf(node.id), node }] : [];
}

/** Names a list of exports takes from its module. @param {Node} node */
function specifiersOf(node) {
  const all = /** @type {Node[]} */ (node.specifiers ?? []);
  return all.map(({ local }) => nameOf(local));
}

/** Fields and methods of an interface, an object type or a class, but for private ones. @param {Node} node @returns {[string, number][]} */
function fieldsOf(node) {
  switch (node.type) {
    case 'TSInterfaceDeclaration':
    case 'ClassDeclaration':
      return /** @type {Node[]} */ (/** @type {Node} */ (node.body).body).flatMap(fieldOf);
    case 'TSTypeAliasDeclaration':
      return fieldsOf(/** @type {Node} */ (node.typeAnnotation));
    case 'TSIntersectionType':
      return /** @type {Node[]} */ (node.types).flatMap(fieldsOf);
    case 'TSTypeLiteral':
      return /** @type {Node[]} */ (node.members).flatMap(fieldOf);
    default:
      return [];
  }
}

/** @param {Node} node @returns {readonly string[]} */
function parentsOf(node) {
  const above = /** @type {Node[]} */ (node.implements ?? node.extends ?? []);
  return above.map(({ expression }) => nameOf(expression));
}

/** @param {Node} node @returns {[string, number][]} */
function fieldOf(node) {
  const { key, kind } = node;
  if (!isNode(key) || key.type === 'PrivateIdentifier' || kind === 'constructor') return [];
  if (node.accessibility === 'private' || node.override === true) return [];
  return [[nameOf(key), node.start]];
}

/** @param {unknown} node */
const nameOf = (node) => (isNode(node) ? String(node.name ?? node.value) : '');

/** @param {string} source @param {number} start */
function hasDocstring(source, start) {
  const before = source.slice(0, start).trimEnd();
  return before.endsWith('*/') && before.startsWith('/**', before.lastIndexOf('/*'));
}

/** @param {unknown} value @returns {value is Node} */
function isNode(value) {
  return typeof value === 'object' && value !== null && 'type' in value;
}

if (argv[1] === fileURLToPath(import.meta.url)) {
  const members = publicMembers(fileURLToPath(new URL('../..', import.meta.url)));
  const bare = members.filter(({ documented }) => !documented);
  for (const { name, file, line } of bare) process.stdout.write(`${file}:${line} ${name}\n`);
  process.stdout.write(`${members.length} public members, ${bare.length} without a docstring\n`);
}
