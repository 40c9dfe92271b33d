import { mkdir, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { DESCRIBED, withoutFunctions, withoutWords } from '@kerfbook/functions/described';
import { READERS_SCRIPTS, USUAL_FUNCTIONS } from '@kerfbook/guide';
import { build } from 'vite';

/**
 * Makes the programs of the readers' page, each one script without imports: one knows the functions that most workbooks
 * call, the other all.
 */

const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..');
const TO = join(ROOT, 'dist', 'readers');
const USUAL = new Set(USUAL_FUNCTIONS);

/** What a page for readers must not bring along: it is worked out by compiled formulas alone. */
const NEVER = ['hyperformula', 'zod', 'ag-grid-community', 'react', 'highs', 'chevrotain'];

/** What is read of functions is read nowhere in the page. */
const withoutDescriptions = () => ({
  name: 'kerfbook-readers-words',
  enforce: 'post',
  transform(code, id) {
    if (!DESCRIBED.test(id.replaceAll('\\', '/'))) return undefined;
    const left = withoutWords(code, this.parse(code));
    return left === undefined ? undefined : { code: left.code, map: null };
  },
});

/** What only functions need that few workbooks call. */
const withUsualAlone = () => ({
  name: 'kerfbook-readers-usual',
  enforce: 'post',
  transform(code, id) {
    const path = id.replaceAll('\\', '/');
    if (!DESCRIBED.test(path)) return undefined;
    const left = withoutFunctions(code, this.parse(code), path, (name) => USUAL.has(name));
    return left === undefined ? undefined : { code: left, map: null };
  },
});

/** Stops the build where something came along that must not. */
const refuse = () => ({
  name: 'kerfbook-readers-refuse',
  generateBundle(_options, bundle) {
    for (const chunk of Object.values(bundle)) {
      for (const id of Object.keys(chunk.modules ?? {})) {
        const found = NEVER.find((name) => id.includes(`/node_modules/${name}/`));
        if (found !== undefined) this.error(`${found} came into the page for readers by ${id}.`);
      }
    }
  },
});

async function script(plugins) {
  const made = await build({
    configFile: false,
    logLevel: 'warn',
    root: ROOT,
    resolve: { conditions: ['kerfbook-source', 'module', 'browser', 'development|production'] },
    plugins: [...plugins, withoutDescriptions(), refuse()],
    build: {
      write: false,
      target: 'es2022',
      lib: {
        entry: join(ROOT, 'src', 'readers', 'main.ts'),
        formats: ['iife'],
        name: 'KerfbookReaders',
      },
      rolldownOptions: {
        output: { codeSplitting: false },
        // A library that nothing asks for is left out whole.
        treeshake: { moduleSideEffects: false },
      },
    },
  });
  const [{ output }] = [made].flat();
  const [one, ...others] = output;
  if (one?.type !== 'chunk' || others.length > 0) {
    throw new Error('The program of the page for readers is not one script.');
  }
  const code = one.code.trim();
  if (/<\/script|<!--|\0|\r/i.test(code)) {
    throw new Error(
      'The program of the page for readers has letters in it that end a script element.',
    );
  }
  return code;
}

await mkdir(TO, { recursive: true });
await writeFile(join(TO, READERS_SCRIPTS.usual), await script([withUsualAlone()]));
await writeFile(join(TO, READERS_SCRIPTS.all), await script([]));
