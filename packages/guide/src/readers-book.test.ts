import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type BookDocument, loadText, Workbook } from '@kerfbook/workbook';
import { ReaderBook } from '@kerfbook/workbook/reader-book';
import { expect, it } from 'vitest';
import { guideSections } from './page/sections.ts';
import { bookForReaders } from './readers-book.ts';
import { readersScriptFor } from './readers-functions.ts';
import { readersPage } from './readers-page.ts';

const FOLDER = fileURLToPath(new URL('../../../templates/', import.meta.url));
const sign = (text: string): string => createHash('sha256').update(text).digest('hex');

function template(name: string, guide: BookDocument['guide'] = {}): BookDocument {
  const loaded = loadText(readFileSync(`${FOLDER}${name}`, 'utf8'));
  if (!loaded.ok) throw new Error(loaded.says);
  return { ...loaded.document, guide: { ...loaded.document.guide, ...guide } };
}

const names = readdirSync(FOLDER).filter((name) => name.endsWith('.json'));

it.each(names)('readers of %s see what its maker sees, whatever is hidden from them', (name) => {
  const hides = ['costs', 'notes'] as ('costs' | 'notes')[];
  const book = Workbook.open(template(name, { hides }));
  const whole = guideSections(book).filter(({ id }) => id !== 'checks');
  const reader = ReaderBook.open(bookForReaders(template(name, { hides })));
  const seen = guideSections(reader).filter(({ id }) => id !== 'checks');
  for (const [i, one] of seen.entries()) expect(one.html, one.id).toBe(whole[i]?.html);
  expect(seen.map(({ id }) => id)).toEqual(whole.map(({ id }) => id));
  // Checks that rest on amounts are hidden with them; no other is otherwise.
  const checks = new Map(book.checks().map((one) => [one.id, one]));
  for (const one of reader.checks()) expect(one).toEqual(checks.get(one.id));
  expect(reader.checks().length).toBeGreaterThan(name === 'cost.json' ? -1 : 0);
  expect(readersScriptFor(template(name))).toBe('usual');
});

/** The dining table with what is nobody's business in it. */
function planted(hides: NonNullable<BookDocument['guide']>['hides'] = []): BookDocument {
  const document = template('dining-table.json', {
    hides,
    inputs: ['top_length'],
    before: 'Welcome',
  });
  const book = Workbook.open({
    ...document,
    about: 'ABOUT-WORDS',
    customer: 'CUSTOMER-WORDS',
    job: 'JOB-WORDS',
    due: '2031-12-24',
    agreed: '2030-11-23',
    terms: 'TERMS-WORDS',
    letterhead: { name: 'SHOP-WORDS', address: 'STREET-WORDS', tax: 'TAX-WORDS' },
    guide: {
      ...document.guide,
      published: { number: 7, day: '2029-10-22', text: 'PUBLISHEDTEXT' },
    },
  });
  const set = (name: string, text: string): void => {
    const at = book.named(name)?.at;
    if (at === undefined) throw new Error(name);
    const cells = [{ row: at.row, column: at.column, text }];
    const done = book.apply({ do: 'enter', sheet: at.sheet, cells });
    if (!done.ok) throw new Error(done.says);
  };
  set('hourly_rate', '61.1739');
  set('cost_consumables', '83.2917');
  set('profit_percent', '37.3153');
  const at = book.named('top_length')?.at;
  if (at === undefined) throw new Error('top_length');
  const remark = book.apply({
    do: 'describeCells',
    sheet: at.sheet,
    cells: [{ row: at.row, column: at.column, traits: { remark: 'REMARK-WORDS' } }],
  } as Parameters<Workbook['apply']>[0]);
  if (!remark.ok) throw new Error(remark.says);
  return book.document();
}

/** Which of these words stand in a page; the page itself would be too long for a message. */
const found = (page: string, words: readonly string[]): readonly string[] =>
  words.filter((word) => page.includes(word));

function pageOf(document: BookDocument): string {
  const made = readersPage({ document, script: 'void 0', sign });
  if (!made.ok) throw new Error(made.says);
  return made.page;
}

const NEVER = [
  'CUSTOMER-WORDS',
  'JOB-WORDS',
  '2031-12-24',
  '2030-11-23',
  'TERMS-WORDS',
  'SHOP-WORDS',
  'STREET-WORDS',
  'TAX-WORDS',
  'PUBLISHEDTEXT',
];
const COSTS = ['61.1739', '83.2917', '37.3153', 'hourly_rate', 'profit_percent'];
const NOTES = ['ABOUT-WORDS', 'REMARK-WORDS', 'An invented commission'];

it('a page never has in it what is nobody’s business', () => {
  const page = pageOf(planted());
  expect(found(page, NEVER)).toEqual([]);
  // What is not hidden is there: the words are looked for in the right place.
  const rest = [...COSTS, ...NOTES];
  expect(found(page, rest)).toEqual(rest);
});

it('with costs and notes hidden neither is in the page', () => {
  const page = pageOf(planted(['costs', 'notes']));
  expect(found(page, [...NEVER, ...COSTS, ...NOTES])).toEqual([]);
  // The cutting plan is chosen by the prices of boards: they stay.
  expect(found(page, ['"quantity":"money']).length).toBe(1);
});

it('with notes alone hidden, costs are there', () => {
  const page = pageOf(planted(['notes']));
  expect(found(page, NOTES)).toEqual([]);
  expect(found(page, COSTS)).toEqual(COSTS);
});

it('a page is one file under a policy of its own, and hostile words stand in it as words', () => {
  const evil = '</script><script>alert(1)</script><img src=x onerror=alert(2)>';
  const document = {
    ...template('dining-table.json', { before: evil, credits: evil }),
    title: evil,
  };
  const page = pageOf(document);
  expect(page.match(/<script/g)).toHaveLength(2);
  expect(found(page, ['<img src=x', 'default-src &#39;none&#39;'])).toEqual([
    'default-src &#39;none&#39;',
  ]);
  const styles = /<style>([\s\S]*?)<\/style>/.exec(page)?.[1] ?? '';
  for (const text of ['void 0', styles]) {
    const hash = createHash('sha256').update(text).digest('base64');
    expect(found(page, [`&#39;sha256-${hash}&#39;`])).toHaveLength(1);
  }
  expect(page.match(/ (?:style|on\w+)="/g) ?? []).toEqual([]);
});

it('in files of their own, script and styles are named and not within', () => {
  const split = { script: 'plan.js', styles: 'plan.css' };
  const made = readersPage({ document: template('bench.json'), script: 'void 0', sign, split });
  if (!made.ok) throw new Error(made.says);
  expect(Object.keys(made.files)).toEqual(['plan.js', 'plan.css']);
  expect(found(made.page, ['<style', '<script>'])).toEqual([]);
});

it('a workbook that cannot be carried is refused, naming the cells', () => {
  const book = Workbook.open(template('bench.json', { hides: [] }));
  const sheet = book.sheets()[0]?.id ?? '';
  const done = book.apply({
    do: 'enter',
    sheet,
    cells: [{ row: 40, column: 5, text: '=OFFSET(A1,0,0)' }],
  });
  expect(done.ok).toBe(true);
  const made = readersPage({ document: book.document(), script: '', sign });
  expect(made).toMatchObject({ ok: false, says: expect.stringMatching(/!F41 .*OFFSET/) });
});
