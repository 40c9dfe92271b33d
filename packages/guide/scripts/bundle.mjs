import { mkdir, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import {
  COLUMNS,
  DESCRIBED,
  functionsIn,
  headsAlone,
  TOLD,
  withoutMeanings,
  withoutWords,
} from '@kerfbook/functions/described';
import { readersScript } from '@kerfbook/guide';
import { build, parseAst } from 'vite';
import { marked, usesOf, valuesOf } from './marks.mjs';
import { unitsOf } from './units.mjs';

/**
 * Makes the program of the readers' page, in parts: a page takes those along that its workbook needs. What a part is:
 * each function, and the values named in `PARTS`.
 */

const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..');
const TO = join(ROOT, 'dist', 'readers');

/** What a page for readers must not bring along: it is worked out by compiled formulas alone. */
const NEVER = ['hyperformula', 'zod', 'ag-grid-community', 'react', 'highs', 'chevrotain'];

/**
 * What only some pages need beside functions: values of a table by their keys, or a name wherever it is used.
 * `src/readers-needs.ts` says which workbooks need which.
 */
const PARTS = [
  { file: 'guide/src/figures/figures.ts', keysOf: 'KINDS', part: 'figure' },
  { file: 'functions/src/joints/resolve.ts', keysOf: 'REACHING', part: 'joint' },
  { file: 'functions/src/joints/resolve.ts', keysOf: 'TOUCHING', part: 'joint' },
  { file: 'functions/src/joints/resolve.ts', name: 'single', part: 'joints in one part' },
  { file: 'cutting/src/plan-pieces.ts', name: 'planPanels', part: 'sheets' },
  { file: 'guide/src/page/cutting-plan.ts', name: 'panelOf', part: 'sheets' },
  // The woods that a workbook may name come as they are, in the place of the tables they are read from.
  { file: 'wood/src/species-records.ts', name: 'joinTables', part: 'woods' },
  // A page gives cells other values and turns units, no more, and says why where either is refused.
  { file: 'document/src/faults/catalogue.ts', keysOf: 'FAULTS', part: 'fault' },
  { file: 'document/src/formula/tree/sentences.ts', keysOf: 'FORMULA_FAULTS', part: 'fault' },
  { file: 'document/src/changes/apply.ts', name: 'insert', part: 'edits' },
  { file: 'document/src/changes/apply.ts', name: 'remove', part: 'edits' },
  { file: 'document/src/changes/apply.ts', name: 'order', part: 'edits' },
];

/** What is read of functions, columns and joints by whoever writes a workbook is read nowhere in the page. */
const withoutDescriptions = () => ({
  name: 'kerfbook-readers-words',
  enforce: 'post',
  transform(code, id) {
    const path = id.replaceAll('\\', '/');
    const described = DESCRIBED.test(path) ? withoutWords(code, this.parse(code)) : undefined;
    const told = described?.code ?? code;
    const left = COLUMNS.test(path)
      ? headsAlone(told, this.parse(told))
      : TOLD.test(path)
        ? withoutMeanings(told, this.parse(told))
        : undefined;
    return left === undefined && described === undefined
      ? undefined
      : { code: left ?? told, map: null };
  },
});

/** Marks what only some pages need. */
const withParts = () => {
  const met = new Set();
  return {
    name: 'kerfbook-readers-parts',
    enforce: 'post',
    transform(code, id) {
      const path = id.replaceAll('\\', '/');
      const asked = PARTS.filter(({ file }) => path.endsWith(`/packages/${file}`));
      const isDescribed = DESCRIBED.test(path);
      if (asked.length === 0 && !isDescribed) return undefined;
      const tree = this.parse(code);
      const functions = isDescribed ? functionsIn(tree, path) : [];
      const found = [
        ...functions.map(({ name, node }) => ({ part: `function ${name}`, node })),
        ...asked.flatMap(({ file, keysOf, name, part }) => {
          const all =
            keysOf === undefined ? usesOf(tree, name, part) : valuesOf(tree, keysOf, part);
          if (all.length === 0) this.error(`${file} has nothing called ${keysOf ?? name}.`);
          met.add(file);
          return all;
        }),
      ];
      return found.length === 0 ? undefined : { code: marked(code, found), map: null };
    },
    buildEnd(failed) {
      if (failed) return;
      const lost = PARTS.find(({ file }) => !met.has(file));
      if (lost !== undefined) this.error(`${lost.file} is no module of the program.`);
    },
  };
};

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

async function program() {
  const made = await build({
    configFile: false,
    logLevel: 'warn',
    root: ROOT,
    resolve: { conditions: ['kerfbook-source', 'module', 'browser', 'development|production'] },
    plugins: [withParts(), withoutDescriptions(), refuse()],
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
  const [statement, ...more] = parseAst(code).body;
  const inside = statement?.expression?.callee?.body;
  if (inside?.type !== 'BlockStatement' || more.length > 0) {
    throw new Error('The program of the page for readers is not one function that is called.');
  }
  return unitsOf(code, inside);
}

const parts = JSON.stringify(await program());
await mkdir(TO, { recursive: true });
await writeFile(join(TO, 'program.json'), parts);
await writeFile(join(TO, 'readers.js'), readersScript(parts));
