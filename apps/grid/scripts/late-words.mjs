import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const MEND = 'Mend apps/grid/scripts/late-words.mjs.';

/** What of a function's description is read once someone reads about it, and by nothing that works a formula out. */
const WORDS = ['answers', 'source', 'example', 'notes'];
/** Where functions are described. */
const DESCRIBED = /\/packages\/(?:wood|functions)\/src\/[^?]+\.ts$/;
/** What shows them, and the place in it that they are put into. */
const SHOWN = /\/packages\/workbook\/src\/reference\/function-words-late\.ts$/;
const PLACE = 'new Map()';

/**
 * Takes what is read of our functions out of the first load, and puts it into a module that comes with the pages
 * that show it (`#function-words` of packages/workbook). Each function stays described in one place.
 * @returns {import('vite').Plugin}
 */
export function lateWords() {
  let taken = 0;
  /** @type {[name: string, words: object][]} */
  let words = [];
  return {
    name: 'kerfbook-late-words',
    apply: 'build',
    enforce: 'post',
    buildStart() {
      taken = 0;
      words = describedWords();
    },
    transform(code, id) {
      const path = id.replaceAll('\\', '/');
      if (SHOWN.test(path)) {
        if (code.split(PLACE).length !== 2) this.error(`${id} has no place for the words. ${MEND}`);
        return {
          code: code.replace(PLACE, () => `new Map(${JSON.stringify(words)})`),
          map: null,
        };
      }
      if (!DESCRIBED.test(path)) return undefined;
      const found = descriptionsIn(this.parse(code));
      if (found.length === 0) return undefined;
      taken += found.length;
      let left = code;
      for (const { start, end } of found.flat().sort((a, b) => b.start - a.start)) {
        // The comma behind a property goes with it.
        left = left.slice(0, start) + left.slice(end).replace(/^\s*,/, '');
      }
      return { code: left, map: null };
    },
    buildEnd(error) {
      const many = words.length;
      if (error !== undefined || taken === 0 || taken === many) return;
      this.error(
        `${taken} of ${many} functions are described as apps/grid/scripts/late-words.mjs expects.`,
      );
    },
  };
}

/** What the built packages say of each function: asked of a Node of its own, which reads no sources. */
function describedWords() {
  const ask = `import { functionReference } from '@kerfbook/functions';
    const keys = ${JSON.stringify(WORDS)};
    const words = functionReference().map((one) => [
      one.name,
      Object.fromEntries(keys.flatMap((key) => (key in one ? [[key, one[key]]] : []))),
    ]);
    process.stdout.write(JSON.stringify(words));`;
  const said = execFileSync(process.execPath, ['--input-type=module', '--eval', ask], {
    cwd: fileURLToPath(new URL('..', import.meta.url)),
    env: { ...process.env, NODE_OPTIONS: '' },
    encoding: 'utf8',
  });
  return JSON.parse(said);
}

/**
 * The properties to take out of each description of a function that a module has: an object with a name, a task, a
 * question it answers and an example.
 */
function descriptionsIn(tree) {
  const found = [];
  const walk = (node) => {
    if (node === null || typeof node !== 'object') return;
    if (Array.isArray(node)) return node.forEach(walk);
    if (node.type === 'ObjectExpression') {
      const keys = new Map(node.properties.map((one) => [one.key?.name ?? one.key?.value, one]));
      if (['name', 'task', 'answers', 'args', 'example'].every((key) => keys.has(key))) {
        found.push(WORDS.flatMap((key) => keys.get(key) ?? []));
      }
    }
    for (const key in node) if (key !== 'parent') walk(node[key]);
  };
  walk(tree.body);
  return found;
}
