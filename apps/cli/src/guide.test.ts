import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { benchText, call } from './testing/fake-io.ts';

const table = readFileSync(
  new URL('../../../templates/dining-table.json', import.meta.url),
  'utf8',
);
const files = { 'table.json': table, 'bench.json': benchText };

const guide = (...args: readonly string[]) => call(['guide', ...args], files);

describe('guide', () => {
  it('writes one page, at the size that is asked for', async () => {
    const { code, err, out, written } = await guide(
      'table.json',
      '--out',
      'a.html',
      '--set',
      'top_length=96',
    );
    expect({ code, err, out }).toEqual({ code: 0, err: '', out: '' });
    const page = written?.['a.html'] ?? '';
    expect(page).toMatch(/^<!doctype html>/);
    expect(page).not.toContain('<script');
    expect(page).toContain('<span aria-hidden="true">96 in</span>');
    // 96 less two overhangs of 9 and two legs of 3 1/2.
    expect(page).toContain('<span aria-hidden="true">71 in</span>');
    expect(page).not.toContain('<span aria-hidden="true">59 in</span>');
    expect(page.match(/data-section="step-/g)?.length).toBeGreaterThan(10);
    expect(page).toContain('font/woff2;base64,');
  });

  it('proves the plan that it prints', async () => {
    const { written } = await guide('table.json', '--out', 'a.html');
    const { out } = await call(['plan', 'table.json', '--json'], files);
    const plan = JSON.parse(out) as { readonly buy: readonly { readonly count: number }[] };
    const needs = /data-section="needs".*?<\/section>/s.exec(written?.['a.html'] ?? '')?.[0] ?? '';
    const counts = [...needs.matchAll(/<span class="kb-number">(\d+)<\/span> ×/g)].map(([, n]) =>
      Number(n),
    );
    expect(counts).toEqual(plan.buy.map(({ count }) => count));
  });

  it.each([
    [['--paper', 'a4'], 'size: A4'],
    [['--paper', 'Letter'], 'size: letter'],
    [[], 'size: letter'],
  ])('takes the paper: %s', async (more, says) => {
    const { written } = await guide('table.json', '--out', 'a.html', ...more);
    expect(written?.['a.html']).toContain(says);
  });

  it('prints what there is of a workbook without steps, and says how to begin them', async () => {
    const { code, err, written } = await guide('bench.json', '--out', 'a.html');
    expect(code).toBe(1);
    expect(err).toContain('This workbook has no steps');
    expect(err).toContain('add a table of kind "steps"');
    expect(written?.['a.html']).toContain('An invented bench');
  });

  it('says what is wrong with the steps, at its cell, and writes the rest', async () => {
    const without = table.replace('{top_width}', '{top_widht}');
    expect(without).not.toBe(table);
    const { code, err, written } = await call(['guide', 'a.json', '--out', 'a.html'], {
      'a.json': without,
    });
    expect(code).toBe(1);
    expect(err).toMatch(/^\w+![A-Z]+\d+ No cell is named "top_widht"/m);
    expect(written?.['a.html']).toContain('kb-lost');
  });

  it.each([
    [['table.json'], '--out says where the page goes'],
    [['table.json', '--out', 'a.html', '--paper', 'a5'], '--paper takes a4, letter; it got "a5".'],
    [['--out', 'a.html'], 'There is no workbook to make a plan of.'],
    [['table.json', '--out', 'a.html', '--split'], 'it takes --for-readers.'],
    [
      ['table.json', '--out', 'a.html', '--for-readers', '--second'],
      'leave --paper and --second out',
    ],
    [['gone.json', '--out', 'a.html'], 'gone.json cannot be read'],
    [['table.json', '--out', 'bench.json'], 'bench.json is there already.'],
    [['table.json', '--out', 'a.html', '--set', 'top_lenght=9'], 'top_length'],
  ])('refuses %s', async (args, says) => {
    const { code, err, written } = await guide(...args);
    expect(err).toContain(says);
    expect({ code, written }).toEqual({ code: 2, written: undefined });
  });

  it('writes a page that follows its readers, with the program within', async () => {
    const { code, err, out, written } = await guide(
      'table.json',
      '--out',
      'a.html',
      '--for-readers',
      '--set',
      'top_length=96',
    );
    expect({ code, err, names: Object.keys(written ?? {}) }).toEqual({
      code: 0,
      err: '',
      names: ['a.html'],
    });
    const page = written?.['a.html'] ?? '';
    expect(page).toContain('<span aria-hidden="true">96 in</span>');
    expect(page).toMatch(/script-src (?:&#39;|')sha256-/);
    expect(out).toContain(
      'Readers do not get the check "The quote leaves the profit": it says an amount',
    );
    expect(out.match(/Readers do not get/g)).toHaveLength(4);
    // What it costs the shop is hidden by this template.
    expect(page).not.toContain('hourly_rate');
  });

  it('writes script and styles beside it where the host wants them so', async () => {
    const { code, written } = await guide(
      'table.json',
      '--out',
      'a.html',
      '--for-readers',
      '--split',
    );
    expect(code).toBe(0);
    expect(Object.keys(written ?? {}).sort()).toEqual(['a.css', 'a.html', 'a.js']);
    expect(written?.['a.html']).not.toContain('<style');
    expect(written?.['a.html']).toMatch(/<script[^>]* src="a\.js"/);
  });

  it('refuses a second language that the workbook has not', async () => {
    const { code, err, written } = await guide('table.json', '--out', 'a.html', '--second');
    expect({ code, written }).toEqual({ code: 1, written: undefined });
    expect(err).toContain('no words in a second language');
  });

  it('lists what has no words in the second language, with how many of how many have', async () => {
    const document = JSON.parse(benchText) as { sheets: object[]; tables: object[] };
    const rows = [
      ['words', 'translated'],
      ['Before you start', 'Bevor es losgeht'],
      ['What you need', ''],
    ];
    document.sheets.push({
      id: 'swords',
      name: 'Second language',
      columns: [{ id: 'c1' }, { id: 'c2' }],
      rows: rows.map(([c1, c2], i) => ({
        id: `r${i}`,
        cells: { c1: { value: c1 }, ...(c2 === '' ? {} : { c2: { value: c2 } }) },
      })),
    });
    document.tables.push({ id: 'tw', kind: 'words', sheet: 'swords', header: 'r0', last: 'r2' });
    const text = JSON.stringify({ ...document, kerfbook: 7, guide: { second: 'de' } });
    const made = await call(['guide', 'b.json', '--out', 'a.html', '--second'], { 'b.json': text });
    expect(made.written?.['a.html']).toContain('Bevor es losgeht');
    const counted = /In the second language 1 of (\d+) texts are given/.exec(made.err);
    expect(Number(counted?.[1])).toBeGreaterThan(100);
    expect(made.err).toMatch(/^ {2}A plan to build from$/m);
    expect(made.err).not.toMatch(/^ {2}Before you start$/m);
    const checked = await call(['check', 'b.json'], { 'b.json': text });
    expect(checked.out).toContain('In the second language 1 of');
    expect(checked.code).toBe(1);
  });
});
