import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** The module that the cards are put into, and the place in it. */
const SHOWN = /\/apps\/grid\/src\/gallery\/built-in-cards\.ts$/;
const PLACE = 'new Map()';

/**
 * Works out the cards of the built-in templates with the built packages, and puts them into a module that comes with
 * the list of workbooks: no maker's device opens fourteen workbooks for it.
 * @returns {import('vite').Plugin}
 */
export function builtInCards() {
  return {
    name: 'kerfbook-built-in-cards',
    apply: 'build',
    enforce: 'post',
    transform(code, id) {
      if (!SHOWN.test(id.replaceAll('\\', '/'))) return undefined;
      if (code.split(PLACE).length !== 2) {
        this.error(`${id} has no place for the cards. Mend apps/grid/scripts/built-in-cards.mjs.`);
      }
      return { code: code.replace(PLACE, () => `new Map(${cards()})`), map: null };
    },
  };
}

/** The cards by the keys of their templates, as JSON: asked of a Node of its own, which reads no sources. */
function cards() {
  const ask = `import { readdirSync, readFileSync } from 'node:fs';
    import { bookCard } from '@kerfbook/drawing';
    import { loadText, Workbook } from '@kerfbook/workbook';
    const folder = '../../templates/';
    const cards = readdirSync(folder).map((file) => {
      const loaded = loadText(readFileSync(folder + file, 'utf8'));
      if (!loaded.ok) throw new Error(file + ': ' + loaded.says);
      return [file.replace(/\\.json$/, ''), bookCard(Workbook.open(loaded.document))];
    });
    process.stdout.write(JSON.stringify(cards));`;
  return execFileSync(process.execPath, ['--input-type=module', '--eval', ask], {
    cwd: fileURLToPath(new URL('..', import.meta.url)),
    env: { ...process.env, NODE_OPTIONS: '' },
    encoding: 'utf8',
    maxBuffer: 64 * 1024 * 1024,
  });
}
