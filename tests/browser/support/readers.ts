import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { brotliCompressSync, gzipSync } from 'node:zlib';
import {
  type ReadersPageMade,
  type ReadersPageOptions,
  readersPage,
  readersScript,
} from '@kerfbook/guide';
import { type BookDocument, loadText, SHOP_COLUMNS, Workbook } from '@kerfbook/workbook';

const ROOT = fileURLToPath(new URL('../../../', import.meta.url));

/** Steps of an invented plan for a table, as their columns are headed. */
const STEPS: readonly Readonly<Record<string, string>>[] = [
  {
    step: 'Glue up the top',
    text: 'The top is {top_length} long. Alternate the boards.\nThis is round {round} of {rounds}.',
    builds: 'Top',
    caution: 'Wear gloves when you carry the panel.',
    repeats: '2',
    measure: 'top_length, top_width',
    tools: 'clamps, jointer',
    'hands-on': '2',
  },
  {
    step: 'Cut the legs',
    text: 'Square them and stop at {leg_size}.',
    builds: 'Leg',
    tools: 'table saw',
    caution: 'Keep your hands out of the line of the blade.',
  },
  {
    step: 'Put the base together',
    text: 'Dry fit first.',
    builds: 'Long apron, Short apron, Cross support',
  },
];

/** A built-in template as it ships. */
export function templateOf(name: string): BookDocument {
  const loaded = loadText(readFileSync(`${ROOT}templates/${name}.json`, 'utf8'));
  if (!loaded.ok) throw new Error(loaded.says);
  return loaded.document;
}

/** A built-in template as a workbook of an invented plan, with steps and words in a second language. */
export function planOf(
  template: string,
  guide: BookDocument['guide'] = {},
  steps = STEPS,
): BookDocument {
  const document = templateOf(template);
  // Its own steps, where it has some, are a sheet like others then.
  const own = document.tables.filter(({ kind }) => kind !== 'steps' && kind !== 'words');
  const sheets = [
    ...document.sheets,
    sheetOf('steps', 'Invented steps', steps),
    sheetOf('words', 'Invented words', WORDS),
  ];
  const tables = (['steps', 'words'] as const).map((kind) => ({
    id: `x${kind}`,
    kind,
    sheet: `x${kind}`,
    header: 'r0',
    last: `r${kind === 'steps' ? steps.length : WORDS.length}`,
  }));
  return {
    ...document,
    sheets,
    tables: [...own, ...tables],
    guide: { ...document.guide, second: 'de', ...guide },
  };
}

const WORDS = [
  { words: 'Cut list', translated: 'Zuschnittliste' },
  { words: 'Your size', translated: 'Ihr Maß' },
  { words: 'Length of the top', translated: 'Länge der Platte' },
  { words: 'Print', translated: 'Drucken' },
  { words: 'Long apron', translated: 'Lange Zarge' },
  { words: '{1} inches', translated: '{1} Zoll' },
  {
    words: 'The plan is under a license of its own, which its maker chose: {license}.',
    translated: 'Der Plan steht unter einer eigenen Lizenz: {license}.',
  },
];

function sheetOf(
  kind: 'steps' | 'words',
  name: string,
  rows: readonly Readonly<Record<string, string>>[],
): BookDocument['sheets'][number] {
  const columns = SHOP_COLUMNS[kind];
  const cells = (of: (heads: string) => string | undefined) =>
    Object.fromEntries(
      columns.flatMap(({ heads }, i) => {
        const value = of(heads);
        if (value === undefined) return [];
        return [[`c${i}`, { value: /^\d+$/.test(value) ? Number(value) : value }]];
      }),
    );
  return {
    id: `x${kind}`,
    name,
    columns: columns.map((_, i) => ({ id: `c${i}` })),
    rows: [
      { id: 'r0', cells: cells((heads) => heads) },
      ...rows.map((row, i) => ({ id: `r${i + 1}`, cells: cells((heads) => row[heads]) })),
    ],
  };
}

/** A page for readers of a workbook, with the program as it is built. */
export function pageFor(
  document: BookDocument,
  more: Partial<ReadersPageOptions> = {},
): ReadersPageMade & { readonly ok: true } {
  const program = readFileSync(`${ROOT}packages/guide/dist/readers/program.json`, 'utf8');
  const made = readersPage({
    document,
    script: (readers) => readersScript(program, readers),
    sign: (text) => createHash('sha256').update(text).digest('hex'),
    ...more,
  });
  if (!made.ok) throw new Error(made.says);
  return made;
}

/** A text as hosts send it, bytes. */
export const compressed = (text: string): { readonly brotli: number; readonly gzip: number } => ({
  brotli: brotliCompressSync(text).length,
  gzip: gzipSync(text, { level: 9 }).length,
});

/** The workbook of a plan with other entries in it, worked out by the engine of the app. */
export function atSize(
  document: BookDocument,
  entries: Readonly<Record<string, string>>,
  units?: 'us' | 'metric',
): Workbook {
  const book = Workbook.open(document);
  if (units !== undefined && units !== book.units) book.apply({ do: 'changeUnits', to: units });
  for (const [name, text] of Object.entries(entries)) {
    const at = book.named(name)?.at;
    if (at === undefined) throw new Error(`no input is named ${name}`);
    const cells = [{ row: at.row, column: at.column, text }];
    const done = book.apply({ do: 'enter', sheet: at.sheet, cells });
    if (!done.ok) throw new Error(done.says);
  }
  return book;
}
