import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { build } from 'vite';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type App, complaintsOf, startApp } from './support/app.ts';

/** A sweep in a module worker of the app's own page, under the app's policy. */

const FOLDER = 'assets/swept/';
const ENTRY = 'worker.js';
const TEMPLATE = join(import.meta.dirname, '../../templates/dining-table.json');

let app: App;
/** The worker with all it needs, made as the app is. */
const files = new Map<string, string>();

beforeAll(async () => {
  app = await startApp();
  const made = await build({
    root: import.meta.dirname,
    configFile: false,
    logLevel: 'silent',
    resolve: {
      conditions: [
        'kerfbook-late',
        'kerfbook-source',
        'module',
        'browser',
        'development|production',
      ],
    },
    build: {
      write: false,
      target: 'es2023',
      modulePreload: false,
      rolldownOptions: {
        input: '@kerfbook/workbook/sweep-worker',
        output: { entryFileNames: ENTRY, chunkFileNames: '[name]-[hash].js' },
      },
    },
  });
  if (!('output' in made)) throw new Error('one build was asked for');
  for (const file of made.output) if (file.type === 'chunk') files.set(file.fileName, file.code);
});
afterAll(() => app.close());

/** The app's page, with the worker beside its own files and under its policy. */
async function openPage(): Promise<{ readonly page: Page; readonly policy: string }> {
  const context = await app.browser.newContext();
  const page = await context.newPage();
  const answer = await page.goto(app.address);
  const policy = answer?.headers()['content-security-policy'] ?? '';
  await context.route(new RegExp(FOLDER), (route) => {
    const body = files.get(new URL(route.request().url()).pathname.replace(`/${FOLDER}`, ''));
    if (body === undefined) return route.abort();
    const headers = { 'Content-Type': 'text/javascript', 'Content-Security-Policy': policy };
    return route.fulfill({ body, headers });
  });
  return { page, policy };
}

interface Told {
  readonly say: string;
  readonly stopped?: boolean;
  readonly says?: string;
  readonly rows?: readonly (readonly { readonly kind: string; readonly number?: number }[])[];
}

/** Sends messages to a new worker of the page; a word to stop after so many answers; what it answers. */
function swept(
  page: Page,
  asks: readonly object[],
  stopAfter = Number.POSITIVE_INFINITY,
): Promise<readonly Told[]> {
  return page.evaluate(
    ({ address, asks, stopAfter }) =>
      new Promise<readonly Told[]>((resolve, reject) => {
        const worker = new Worker(address, { type: 'module' });
        const told: Told[] = [];
        worker.onerror = (event) => reject(new Error(event.message || 'the worker did not start'));
        worker.onmessage = ({ data }) => {
          told.push(data);
          if (told.length === stopAfter) worker.postMessage({ say: 'stop', sweep: 1 });
          if (data.say === 'values') return;
          worker.terminate();
          resolve(told);
        };
        for (const ask of asks) worker.postMessage(ask);
      }),
    { address: `/${FOLDER}${ENTRY}`, asks, stopAfter },
  );
}

const document = JSON.parse(readFileSync(TEMPLATE, 'utf8'));

/** Where a named cell of the template stands. */
function at(name: string) {
  for (const sheet of document.sheets) {
    for (const [row, { cells = {} }] of sheet.rows.entries()) {
      for (const [column, { id }] of sheet.columns.entries()) {
        if (cells[id]?.name === name) return { sheet: sheet.id, row, column };
      }
    }
  }
  throw new Error(`the template has no ${name}`);
}

const asking = (sets: readonly (readonly number[])[]) => [
  { say: 'open', document },
  {
    say: 'sweep',
    sweep: 1,
    ask: { inputs: [at('top_length')], results: [at('top_length'), at('price')], sets },
  },
];

describe('a sweep in a worker of the page', () => {
  it('runs under the policy of the app, which allows no code made of text', async () => {
    const { page, policy } = await openPage();
    const complaints = complaintsOf(page);
    expect(policy).toContain("script-src 'self'");
    expect(policy).not.toContain('unsafe-eval');
    const lengths = [60, 72, 84, 96];
    const told = await swept(page, asking(lengths.map((one) => [one])));
    expect(told.map(({ say }) => say)).toEqual(['values', 'end']);
    const rows = told[0]?.rows ?? [];
    expect(rows.map(([length]) => length?.number)).toEqual(lengths);
    const prices = rows.map(([, price]) => price?.number ?? 0);
    expect([...prices].sort((a, b) => a - b)).toEqual(prices);
    expect(new Set(prices).size).toBe(lengths.length);
    // The open workbook is another one.
    await page.locator('.ag-cell').first().waitFor();
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('waits for what some functions need and a page loads late', async () => {
    const { page } = await openPage();
    const cells = {
      c1: { value: 30 },
      c2: { formula: '=IF([c1.r1]>31,TEXT(BUY_COST([c1.r1],1,96,8.5,1/8),"0.00"),"none")' },
    };
    const rows = [{ id: 'r1', cells }];
    const columns = [{ id: 'c1' }, { id: 'c2' }];
    const small = {
      kerfbook: document.kerfbook,
      title: 'One board',
      units: 'us',
      sheets: [{ id: 's1', name: 'Buy', columns, rows }],
      checks: [],
      tables: [],
    };
    const [input, result] = [0, 1].map((column) => ({ sheet: 's1', row: 0, column }));
    const sets = Array.from({ length: 12 }, (_, i) => [22 + i]);
    const ask = { inputs: [input], results: [result], sets };
    const told = await swept(page, [
      { say: 'open', document: small },
      { say: 'sweep', sweep: 1, ask },
    ]);
    const texts = told.flatMap(({ rows = [] }) =>
      rows.map(([one]) => (one as { text?: string }).text),
    );
    expect(texts).toEqual(sets.map(([length = 0]) => (length > 31 ? '8.50' : 'none')));
    await page.context().close();
  });

  it('stops within a few sets when it is asked to', async () => {
    const { page } = await openPage();
    const sets = Array.from({ length: 20_000 }, (_, i) => [48 + (i % 480) / 10]);
    const told = await swept(page, asking(sets), 3);
    expect(told.at(-1)).toMatchObject({ say: 'end', stopped: true });
    const rows = told.reduce((sum, one) => sum + (one.rows?.length ?? 0), 0);
    expect(rows).toBeGreaterThan(0);
    expect(rows).toBeLessThan(sets.length / 4);
    await page.context().close();
  });

  it('tells what cannot be swept', async () => {
    const { page } = await openPage();
    const [open, sweep] = asking([[1]]);
    const ask = { inputs: [at('price')], results: [], sets: [[1]] };
    const told = await swept(page, [open ?? {}, { ...sweep, ask }]);
    expect(told).toEqual([
      { say: 'failed', sweep: 1, says: expect.stringContaining('holds a formula') },
    ]);
    await page.context().close();
  });
});
