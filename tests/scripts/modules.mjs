import { extname } from 'node:path';
import { parseAst } from 'vitest/node';

/**
 * One place where a module reaches for another.
 * @typedef {object} Import
 * @property {'import' | 'export-all'} kind
 * @property {string | undefined} specifier what it imports; undefined where it is worked out at run time
 * @property {number} line
 * @property {boolean} waits what imports it can be loaded without it: it is called for, or a type
 */

/** @typedef {{ readonly imports: readonly Import[], readonly unreadable?: string }} Found what a module imports */

/** @typedef {Record<string, unknown> & { type: string, start: number }} Node */

const LANGUAGES = { '.ts': 'ts', '.mts': 'ts', '.cts': 'ts', '.tsx': 'tsx' };

/**
 * What was read of each module last: several checks ask for the same ones, and reading takes most of their time.
 * @type {Map<string, { source: string, found: Found }>}
 */
const lastRead = new Map();

/**
 * Every import of a module: `import`, `import type`, `export … from`, `import()`, `require()`,
 * types by `import('…')`, mocked modules, and workers by `new URL('…', import.meta.url)`.
 * @param {string} file
 * @param {string} source
 * @returns {Found}
 */
export function importsOf(file, source) {
  const last = lastRead.get(file);
  if (last?.source === source) return last.found;
  const found = importsIn(file, source);
  lastRead.set(file, { source, found });
  return found;
}

/** @param {string} file @param {string} source @returns {Found} */
function importsIn(file, source) {
  /** @type {Import[]} */
  const imports = [];
  let tree;
  try {
    tree = treeOf(file, source);
  } catch (error) {
    return { imports, unreadable: error instanceof Error ? error.message : String(error) };
  }
  walk(tree, (node) => {
    const found = importAt(node);
    if (found !== undefined) imports.push({ ...found, line: lineOf(source, node.start) });
  });
  return { imports };
}

/**
 * What a module says, as a tree; throws where it cannot be read.
 * @param {string} file decides the language by how it ends
 * @param {string} source
 */
export function treeOf(file, source) {
  const lang = LANGUAGES[/** @type {keyof typeof LANGUAGES} */ (extname(file))] ?? 'jsx';
  return parseAst(source, /** @type {{ lang: 'tsx' }} */ ({ lang }), file);
}

/** @param {Node} node @returns {Omit<Import, 'line'> | undefined} */
function importAt(node) {
  const isType = node.importKind === 'type' || node.exportKind === 'type';
  switch (node.type) {
    case 'ExportAllDeclaration':
      return { kind: 'export-all', specifier: textOf(node.source), waits: isType };
    case 'ImportDeclaration':
      return { kind: 'import', specifier: textOf(node.source), waits: isType };
    case 'ImportExpression':
    case 'TSImportType':
      return { kind: 'import', specifier: textOf(node.source), waits: true };
    case 'ExportNamedDeclaration':
      return isNode(node.source)
        ? { kind: 'import', specifier: textOf(node.source), waits: isType }
        : undefined;
    case 'TSExternalModuleReference':
      return { kind: 'import', specifier: textOf(node.expression), waits: false };
    case 'CallExpression':
      return callImport(node);
    case 'NewExpression':
      return urlImport(node);
    default:
      return undefined;
  }
}

const LOADERS = new Set([
  'require',
  'vi.mock',
  'vi.doMock',
  'vi.importActual',
  'import.meta.resolve',
  'import.meta.glob',
]);

/** @param {Node} node @returns {Omit<Import, 'line'> | undefined} */
function callImport(node) {
  if (!LOADERS.has(nameOf(node.callee))) return undefined;
  const [first] = /** @type {unknown[]} */ (node.arguments);
  return { kind: 'import', specifier: textOf(first), waits: true };
}

/** A worker beside the module; a path to data or to a folder is no import. @param {Node} node @returns {Omit<Import, 'line'> | undefined} */
function urlImport(node) {
  const [first, second] = /** @type {unknown[]} */ (node.arguments);
  if (nameOf(node.callee) !== 'URL' || nameOf(second) !== 'import.meta.url') return undefined;
  const specifier = textOf(first);
  return specifier !== undefined && /^\..*\.[cm]?[jt]sx?(?:[?#]|$)/.test(specifier)
    ? { kind: 'import', specifier, waits: true }
    : undefined;
}

/** `require`, `vi.mock`, `import.meta.url`. @param {unknown} node @returns {string} */
function nameOf(node) {
  if (!isNode(node)) return '';
  if (node.type === 'Identifier') return String(node.name);
  if (node.type === 'MetaProperty') return 'import.meta';
  if (node.type !== 'MemberExpression' || node.computed === true) return '';
  return `${nameOf(node.object)}.${nameOf(node.property)}`;
}

/** @param {unknown} node @returns {string | undefined} */
function textOf(node) {
  if (!isNode(node)) return undefined;
  if (node.type === 'TSLiteralType') return textOf(node.literal);
  if (node.type === 'Literal' && typeof node.value === 'string') return node.value;
  if (node.type !== 'TemplateLiteral') return undefined;
  const { quasis, expressions } =
    /** @type {{ quasis: { value: { cooked: string } }[], expressions: unknown[] }} */ (
      /** @type {unknown} */ (node)
    );
  return expressions.length === 0 ? quasis[0]?.value.cooked : undefined;
}

/** @param {unknown} value @returns {value is Node} */
function isNode(value) {
  return typeof value === 'object' && value !== null && 'type' in value;
}

/** @param {unknown} value @param {(node: Node) => void} visit */
function walk(value, visit) {
  if (Array.isArray(value)) {
    for (const one of value) walk(one, visit);
    return;
  }
  if (!isNode(value)) return;
  visit(value);
  for (const part of Object.values(value)) {
    if (typeof part === 'object' && part !== null) walk(part, visit);
  }
}

/** @param {string} source @param {number} at */
export const lineOf = (source, at) => source.slice(0, at).split('\n').length;
