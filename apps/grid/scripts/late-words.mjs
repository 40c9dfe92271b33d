import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { DESCRIBED, WORDS, withoutWords } from '@kerfbook/functions/described';

const MEND = 'Mend apps/grid/scripts/late-words.mjs.';

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
      const left = withoutWords(code, this.parse(code));
      if (left === undefined) return undefined;
      taken += left.count;
      return { code: left.code, map: null };
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
