import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type BookDocument, type Edit, loadText, SHOP_COLUMNS, Workbook } from '@kerfbook/workbook';
import { ReaderBook } from '@kerfbook/workbook/reader-book';
import { expect, it } from 'vitest';
import { guideSections } from './page/sections.ts';
import { guidePage } from './page/whole-page.ts';
import { bookForReaders, checksKept } from './readers-book.ts';
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
});

/** Adds a table of each kind that readers do not get, with a cell that a formula elsewhere reads. */
function addTables(book: Workbook): void {
  const kinds = ['studies', 'variants', 'hours', 'operations', 'prices'] as const;
  const said = (text: string) => ({ cells: { c1: { value: text } } });
  const done = book.apply({
    do: 'addSheet',
    at: 1,
    sheet: {
      id: 'own',
      name: 'Own',
      columns: [{ id: 'c1' }, { id: 'c2' }],
      rows: [
        ...kinds.flatMap((kind) => [
          { id: `${kind}h`, ...said(SHOP_COLUMNS[kind][0]?.heads ?? '') },
          { id: `${kind}r`, ...said(`${kind.toUpperCase()}-ROW`) },
          { id: `${kind}e` },
        ]),
        { id: 'read', cells: { c2: { formula: '=[c1.hoursr]&" AGAIN"' } } },
      ],
    },
  } as Edit);
  if (!done.ok) throw new Error(done.says);
  for (const kind of kinds) {
    const table = { id: `o${kind}`, kind, sheet: 'own', header: `${kind}h`, last: `${kind}r` };
    const added = book.apply({
      do: 'setTables',
      tables: [...book.document().tables, table],
    } as Edit);
    if (!added.ok) throw new Error(added.says);
  }
}

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
  addTables(book);
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
  const made = readersPage({ document, script: () => 'void 0', sign });
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
const TABLES = ['STUDIES-ROW', 'VARIANTS-ROW'];
const OF_COSTS = ['OPERATIONS-ROW', 'PRICES-ROW'];
const COSTS = ['61.1739', '83.2917', '37.3153', 'hourly_rate', 'profit_percent'];
const NOTES = ['ABOUT-WORDS', 'REMARK-WORDS', 'An invented commission'];

it('a page never has in it what is nobody’s business', () => {
  const page = pageOf(planted());
  expect(found(page, [...NEVER, ...TABLES])).toEqual([]);
  // What is not hidden is there: the words are looked for in the right place. A formula elsewhere reads of the hours.
  const rest = [...COSTS, ...OF_COSTS, ...NOTES, 'HOURS-ROW'];
  expect(found(page, rest)).toEqual(rest);
});

it('with costs and notes hidden neither is in the page', () => {
  const page = pageOf(planted(['costs', 'notes']));
  const none = [...NEVER, ...TABLES, ...OF_COSTS, ...COSTS, ...NOTES, 'HOURS-ROW'];
  expect(found(page, none)).toEqual([]);
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
  const made = readersPage({
    document: template('bench.json'),
    script: () => 'void 0',
    sign,
    split,
  });
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
  const made = readersPage({ document: book.document(), script: () => '', sign });
  expect(made).toMatchObject({ ok: false, says: expect.stringMatching(/!F41 .*OFFSET/) });
});

/** The dining table with costs kept from readers, and with checks and words in a second language of a test's own. */
function withChecks(
  checks: readonly (readonly [name: string, formula: string, says: string])[],
  words: readonly string[] = [],
): BookDocument {
  const document = template('dining-table.json', { hides: ['costs'] });
  const line = (id: string, [c1, c2]: readonly string[]) => ({
    id,
    cells: { c1: { value: c1 ?? '' }, c2: { value: c2 ?? '' } },
  });
  const rows = [['words', 'translated'], ...words.map((one) => [one, `So: ${one}`])];
  return {
    ...document,
    checks: checks.map(([name, formula, says], i) => ({
      id: `k${i}`,
      name,
      formula,
      says,
      severity: 'care' as const,
    })),
    sheets: [
      ...document.sheets,
      {
        id: 'swords',
        name: 'Second language',
        columns: [{ id: 'c1' }, { id: 'c2' }],
        rows: rows.map((row, i) => line(`r${i}`, row)),
      },
    ],
    tables: [
      ...document.tables,
      { id: 'twords', kind: 'words', sheet: 'swords', header: 'r0', last: `r${words.length}` },
    ],
  };
}

it('of checks, those that say an amount or ask for one are kept from readers with it, and no others', () => {
  const all = withChecks([
    ['Says one', '=top_length<1', 'It costs {price}.'],
    ['Asks for one', '=price<0', 'Think of the profit.'],
    ['Says a size', '=top_length<1', 'The top is {top_length}. A price is what it costs.'],
    ['Asks for pieces', '=plan_left_out<0', 'So many are left out: {plan_left_out}.'],
  ]);
  expect(checksKept(all).map(({ name, why }) => [name, why])).toEqual([
    ['Says one', 'says'],
    ['Asks for one', 'asks'],
  ]);
  expect(bookForReaders(all).checks.map(({ name }) => name)).toEqual([
    'Says a size',
    'Asks for pieces',
  ]);
  expect(checksKept({ ...all, guide: { ...all.guide, hides: [] } })).toEqual([]);
  // On paper too: what is printed is handed out.
  const printed = guidePage(Workbook.open(all), { paper: 'a4' });
  expect(found(printed, ['It costs', 'Think of the profit', 'The top is', 'So many'])).toEqual([
    'The top is',
    'So many',
  ]);
});

it('words in a second language bring no amounts with them, and those of a check that is kept go with it', () => {
  const document = withChecks(
    [
      ['Says one', '=top_length<1', 'Its cost is {price}.'],
      ['Says a size', '=top_length<1', 'The top is {top_length}.'],
    ],
    ['Its cost is {price}.', 'The top is {top_length}.', 'Price: price', 'So much: {hourly_rate}'],
  );
  const text = JSON.stringify(bookForReaders(document));
  expect(found(text, ['Its cost is', 'hourly_rate"', '"name":"price"', 'So: The top is'])).toEqual([
    'So: The top is',
  ]);
  expect(text).toContain('Price: price');
});

it('says under which license the plan is, apart from that of the program, and where its source is had', () => {
  const foot = (more: Partial<Parameters<typeof readersPage>[0]>): string => {
    const made = readersPage({
      document: template('bench.json'),
      script: () => 'void 0',
      sign,
      ...more,
    });
    if (!made.ok) throw new Error(made.says);
    return /<footer[\s\S]*?<\/footer>/.exec(made.page)?.[0] ?? '';
  };
  const document = template('bench.json');
  expect(foot({ document: { ...document, licence: 'CC0' } })).toContain('its maker chose: CC0.');
  const { licence: _, ...bare } = document;
  expect(foot({ document: bare })).toContain('has not said what others may do');
  expect(foot({})).toContain('from whoever gave you this page');
  expect(foot({ source: 'https://example.org/x?a=1&b' })).toContain(
    'Its source: https://example.org/x?a=1&amp;b</p>',
  );
});

it('a price list comes along with costs hidden where the prices of boards are looked up in it, and only then', () => {
  // One in which the price of a board foot is typed: nothing but the stock looks anything up.
  const listed = template('base.json', { hides: ['costs'] });
  const typed = JSON.stringify({
    ...listed,
    checks: listed.checks.filter(({ formula }) => !formula.includes('WOOD_PRICE')),
  }).replaceAll(/"formula":"=IFNA\(WOOD_PRICE[^"]*"/g, '"value":9');
  const book = Workbook.open(JSON.parse(typed) as BookDocument);
  const has = (document: BookDocument) =>
    bookForReaders(document).tables.some(({ kind }) => kind === 'prices');
  const stock = book.document().tables.find(({ kind }) => kind === 'stock');
  const sheet = book.document().sheets.find(({ id }) => id === stock?.sheet);
  const row = sheet?.rows.findIndex(({ id }) => id === stock?.header) ?? -1;
  const heads = sheet?.columns.map(({ id }) => sheet.rows[row]?.cells?.[id]?.value) ?? [];
  const prices = (text: string) => {
    const cells = Array.from({ length: 7 }, (_, i) => ({
      row: row + 1 + i,
      column: heads.indexOf('price'),
      text,
    }));
    const written = book.apply({ do: 'enter', sheet: stock?.sheet ?? '', cells });
    if (!written.ok) throw new Error(written.says);
    return book.document();
  };
  expect(has(prices('9'))).toBe(false);
  expect(has(prices('=PIECE_PRICE(species)'))).toBe(true);
});

it('a price list that is only looked up in says nothing of its columns, and all of it where costs are shown', () => {
  const told = (hides: readonly 'costs'[]): readonly (string | undefined)[] => {
    const book = bookForReaders(template('dining-table.json', { hides: [...hides] }));
    const list = book.tables.find(({ kind }) => kind === 'prices');
    const row = book.sheets
      .find(({ id }) => id === list?.sheet)
      ?.rows.find(({ id }) => id === list?.header);
    return Object.values(row?.cells ?? {}).map(({ remark }) => remark);
  };
  expect(told([]).filter((one) => one !== undefined)).not.toEqual([]);
  expect(told(['costs']).length).toBe(told([]).length);
  expect(told(['costs']).filter((one) => one !== undefined)).toEqual([]);
});
