import { MARK } from './units.mjs';

/** @typedef {{ readonly part: string, readonly node: any, readonly key?: string }} Marked a value, by the part it belongs to */

/** The text of a module with its parts marked. @param {string} code @param {readonly Marked[]} found */
export function marked(code, found) {
  let text = code;
  for (const { part, node, key } of [...found].sort((a, b) => b.node.start - a.node.start)) {
    const value = text.slice(node.start, node.end);
    const call = `${key === undefined ? '' : `${key}: `}/* @__PURE__ */ ${MARK}(${JSON.stringify(part)}, ${value})`;
    text = text.slice(0, node.start) + call + text.slice(node.end);
  }
  return text;
}

/** The values of a table that is declared at the top, each a part of its own. @returns {Marked[]} */
export function valuesOf(tree, table, part) {
  return tree.body
    .flatMap((one) => one.declarations ?? one.declaration?.declarations ?? [])
    .filter(({ id, init }) => id.name === table && init?.type === 'ObjectExpression')
    .flatMap(({ init }) =>
      init.properties.map(({ key, value, shorthand }) => ({
        part: `${part} ${key.name ?? key.value}`,
        node: value,
        ...(shorthand ? { key: key.name } : {}),
      })),
    );
}

/** Where a name of a module is used; not where it is imported or declared. @returns {Marked[]} */
export function usesOf(tree, name, part) {
  const found = [];
  const look = (node, parent, key) => {
    if (node === null || typeof node !== 'object') return;
    if (Array.isArray(node)) {
      for (const one of node) look(one, parent, key);
      return;
    }
    if (typeof node.type !== 'string' || NAMES_ONLY.has(node.type)) return;
    if (node.type === 'Identifier' && node.name === name) {
      if (key !== 'id' && key !== 'key' && (key !== 'property' || parent.computed)) {
        found.push({ part, node });
      }
      return;
    }
    for (const one in node) if (one !== 'parent') look(node[one], node, one);
  };
  look(tree.body, undefined, undefined);
  return found;
}

/** Statements in which names stand that are not used there. */
const NAMES_ONLY = new Set(['ImportDeclaration', 'ExportSpecifier']);
