import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { lineOf, treeOf } from './modules.mjs';

/**
 * Texts that a maker may see in a source file: what stands between the marks of a page, and every string
 * that is not plainly for the program alone (an address of a module, a class, a key of a style).
 * @typedef {{ file: string, line: number, text: string }} ShownText
 * @typedef {import('./modules.mjs').Node} Node
 */

/** Attributes of a page's elements that nobody reads. */
const UNSEEN = new Set([
  'className',
  'class',
  'type',
  'id',
  'htmlFor',
  'style',
  'role',
  'd',
  'href',
  'key',
  'name',
  'rel',
  'autoComplete',
  'inputMode',
  'viewBox',
]);

/**
 * @param {string} root
 * @param {string} file from the root
 * @returns {ShownText[]}
 */
export function shownTexts(root, file) {
  const source = readFileSync(join(root, file), 'utf8');
  /** @type {ShownText[]} */
  const found = [];
  /** @param {Node} node @param {unknown} text */
  const add = (node, text) => {
    if (typeof text !== 'string') return;
    const plain = text.replaceAll(/\s+/g, ' ').trim();
    if (/[A-Za-z]{2}/.test(plain))
      found.push({ file, line: lineOf(source, node.start), text: plain });
  };
  /** @param {unknown} value */
  const walk = (value) => {
    if (Array.isArray(value)) {
      for (const one of value) walk(one);
      return;
    }
    if (typeof value !== 'object' || value === null || !('type' in value)) return;
    const node = /** @type {Node} */ (value);
    switch (node.type) {
      case 'ImportDeclaration':
      case 'ExportAllDeclaration':
      case 'ImportExpression':
      case 'TSLiteralType':
        return;
      case 'ExportNamedDeclaration':
        walk(node.declaration);
        return;
      case 'JSXAttribute': {
        const name = String(/** @type {Node} */ (node.name).name);
        if (UNSEEN.has(name) || name.startsWith('data-')) return;
        walk(node.value);
        return;
      }
      case 'JSXText':
        add(node, node.value);
        return;
      case 'Literal':
        add(node, node.value);
        return;
      case 'TemplateElement':
        add(node, /** @type {{ cooked?: string }} */ (node.value).cooked);
        return;
    }
    for (const [key, one] of Object.entries(node)) {
      if (key === 'parent') continue;
      walk(one);
    }
  };
  walk(treeOf(file, source));
  return found;
}
