import { readdirSync, readFileSync } from 'node:fs';
import {
  type BookDocument,
  type CellDocument,
  KNOWN_NAMES,
  loadText,
  Workbook,
} from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { amountsOf } from './amounts.ts';
import { CUSTOMER_PAGES, type CustomerPageKind, customerPage } from './customer-page.ts';
import { dayAfter, dayWords, isDay } from './days.ts';
import { plainDrawing } from './plain-drawing.ts';
import { SAID_NAMES, saidOf } from './said.ts';
import { CUSTOMER_STYLES } from './styles.ts';
import { optionsOf } from './variants.ts';

const folder = new URL('../../../../templates/', import.meta.url);
const TEMPLATES = readdirSync(folder).filter((name) => name.endsWith('.json'));

function shipped(name: string): BookDocument {
  const loaded = loadText(readFileSync(new URL(name, folder), 'utf8'));
  if (!loaded.ok) throw new Error(loaded.says);
  return loaded.document;
}

const KINDS = Object.keys(CUSTOMER_PAGES) as CustomerPageKind[];
const DAY = '2026-03-14';

/** A page as it reads, without its head and its drawings. */
const words = (page: string): string =>
  page
    .replace(/<head>.*<\/head>/s, '')
    .replaceAll(/<svg.*?<\/svg>/gs, ' ')
    .replaceAll(/<[^>]*>/g, ' ')
    .replaceAll('&#39;', "'")
    .replaceAll('\u00a0', ' ')
    .replaceAll(/\s+/g, ' ')
    .trim();

const pageOf = (
  book: Workbook,
  kind: CustomerPageKind,
  more: Partial<Parameters<typeof customerPage>[1]> = {},
) => customerPage(book, { kind, paper: 'letter', day: DAY, ...more });

/** What a list of named cells makes of a workbook without parts. */
function listed(
  cells: Readonly<Record<string, Pick<CellDocument, 'value' | 'formula' | 'quantity'>>>,
  head: Partial<BookDocument> = {},
): Workbook {
  return Workbook.open({
    kerfbook: 8,
    title: 'A made-up chest',
    units: 'us',
    sheets: [
      {
        id: 's1',
        name: 'Sheet',
        columns: [{ id: 'c1' }],
        rows: Object.entries(cells).map(([name, cell], i) => ({
          id: `r${i + 1}`,
          cells: { c1: { name, ...cell } },
        })),
      },
    ],
    checks: [],
    tables: [],
    ...head,
  });
}

const money = (value: number) => ({ value, quantity: 'money' }) as const;
const percent = (value: number) => ({ value, quantity: 'percent' }) as const;

describe("a customer's pages", () => {
  const table = Workbook.open(shipped('dining-table.json'));

  it('read by name what the table of names says, and ask for nothing else by name', () => {
    const said = KNOWN_NAMES['customer-page'].names.map(({ name }) => name);
    expect([...SAID_NAMES].sort()).toEqual([...said].sort());
  });

  it('have a strict policy, no script and no workbook, and are laid out for their paper', () => {
    for (const kind of KINDS) {
      for (const [paper, size] of [
        ['a4', 'A4'],
        ['letter', 'letter'],
      ] as const) {
        const { page } = pageOf(table, kind, { paper });
        expect(page).toContain(`@page { size: ${size};`);
        expect(page).toContain(`content="default-src 'none'; style-src 'unsafe-inline';`);
        expect(page).not.toMatch(
          /<script|<iframe|<link|<form|javascript:|"kerfbook"|https?:(?!\/\/www\.w3\.org\/2000\/svg)/,
        );
      }
    }
  });

  it('name no letter under 9 pt', () => {
    const sizes = [...CUSTOMER_STYLES.matchAll(/font-size: ([\d.]+)pt/g)].map(([, pt]) =>
      Number(pt),
    );
    expect(sizes.length).toBeGreaterThan(5);
    expect(Math.min(...sizes)).toBeGreaterThanOrEqual(9);
  });

  it('say of the dining table what it is, what it costs and until when the quote holds', () => {
    const { page, lacks, until, amounts } = pageOf(table, 'quote', { number: 12 });
    const text = words(page);
    expect(lacks).toBeUndefined();
    expect(text).toMatch(
      /^Quote 12 Dining table Date 14 March 2026 Valid until 13 April 2026, 30 days/,
    );
    expect(until).toBe('2026-04-13');
    expect(text).toContain('Length 84 in (7 ft) Width 42 in (3 ft 6 in) Height 30 in (2 ft 6 in)');
    expect(text).toContain('Wood Black walnut Finish Wiping varnish Seats 8');
    expect(text).toContain(`Dining table ${table.named('price')?.shown.text} Deposit`);
    expect(text).toContain(`Deposit, due with the order ${table.named('deposit')?.shown.text}`);
    expect(text).toContain('Customer, day Shop, day');
    const { total, deposit, balance } = amounts ?? {};
    expect((deposit?.amount ?? 0) + (balance?.amount ?? 0)).toBeCloseTo(total?.amount ?? -1, 9);
  });

  it('say what of it is left out by choice nowhere', () => {
    const { page } = pageOf(table, 'quote', {
      without: [
        'drawing',
        'views',
        'sizes',
        'wood',
        'finish',
        'deposit',
        'sign',
        'included',
        'perSeat',
      ],
    });
    expect(page).not.toContain('<svg');
    expect(words(page)).not.toMatch(/Length|Walnut|varnish|Deposit|Customer, day|Included|seat/i);
  });

  it('tell whoever makes them what is missing, in the place of a price of 0', () => {
    for (const [book, says] of [
      [listed({}), 'There is no price: name the cell of the price price'],
      [listed({ price: money(0) }), 'The price in the cell price is $0.00'],
      [listed({ price: { formula: '=1/0', quantity: 'money' } }), 'The cell price is in error'],
      [listed({ price: money(10), deposit: money(11) }), 'The deposit, $11.00, is not between'],
    ] as const) {
      const { page, lacks, amounts } = pageOf(book, 'quote');
      expect(lacks).toContain(says);
      expect(amounts).toBeUndefined();
      expect(words(page)).toContain('Not ready to hand out');
      expect(words(page)).not.toContain('Customer, day');
      expect(pageOf(book, 'receipt').lacks).toContain(says);
      expect(pageOf(book, 'care').lacks).toBeUndefined();
    }
  });

  it('take the price that was quoted for what was promised, and the deposit by its rate of that', () => {
    const book = listed({
      price: money(1234.56),
      deposit: money(493.82),
      deposit_percent: percent(40),
      quoted_price: money(1000),
    });
    const { amounts } = pageOf(book, 'quote');
    expect([amounts?.price.text, amounts?.deposit?.text, amounts?.balance.text]).toEqual([
      '$1,000.00',
      '$400.00',
      '$600.00',
    ]);
    expect(words(pageOf(book, 'quote').page)).not.toContain('1,234.56');
  });

  it('reckon tax by its rate, each amount rounded as it is printed, and all of it adds up', () => {
    // By hand: 333.33 × 7 % = 23.3331; 356.66 × 33 % = 117.6978.
    const book = listed({
      price: money(333.33),
      tax_percent: percent(7),
      deposit_percent: percent(33),
    });
    const { amounts } = pageOf(book, 'quote');
    expect([
      amounts?.tax?.rate,
      amounts?.tax?.money.amount,
      amounts?.total.amount,
      amounts?.deposit?.amount,
      amounts?.balance.amount,
    ]).toEqual(['7 %', 23.33, 356.66, 117.7, 238.96]);
    const yen = listed(
      { price: money(99_999.6), tax_percent: percent(10) },
      { currency: 'JPY', units: 'metric' },
    );
    const inYen = pageOf(yen, 'quote').amounts;
    expect([inYen?.price.amount, inYen?.tax?.money.amount, inYen?.total.amount]).toEqual([
      100_000, 10_000, 110_000,
    ]);
  });

  it('ask for a second payment by its rate, and what both leave on delivery, to the cent', () => {
    // By hand: 356.66 × 33 % = 117.6978 twice; 356.66 − 117.70 − 117.70 = 121.26.
    const third = { price: money(333.33), tax_percent: percent(7), deposit_percent: percent(33) };
    const book = listed({ ...third, second_percent: percent(33) });
    const { amounts, page } = pageOf(book, 'quote');
    expect([amounts?.deposit?.amount, amounts?.second?.amount, amounts?.balance.amount]).toEqual([
      117.7, 117.7, 121.26,
    ]);
    expect(words(page)).toContain(
      'Deposit, due with the order $117.70 Second payment, once the work is under way $117.70 Due on delivery $121.26',
    );
    // 333.33 in halves is 166.67 twice, each rounded by itself: the second is what is left.
    const half = { price: money(333.33), deposit_percent: percent(50) };
    const halves = pageOf(listed({ ...half, second_percent: percent(50) }), 'quote').amounts;
    expect([halves?.deposit?.amount, halves?.second?.amount, halves?.balance.amount]).toEqual([
      166.67, 166.66, 0,
    ]);
    const more = amountsOf(saidOf(listed({ ...half, second_percent: percent(60) })));
    expect(more.ok || more.says).toBe(
      'The second payment, $200.00, is not between nothing and what the deposit leaves, $166.66: look at the cell second_percent.',
    );
    expect(words(pageOf(listed(third), 'quote').page)).not.toContain('Second payment');
  });

  it('take from a cost workbook the price it rounded, its tax and its deposit', () => {
    const book = Workbook.open(shipped('cost.json'));
    const shown = (name: string) => book.named(name)?.shown.text ?? name;
    const { page, amounts } = pageOf(book, 'quote');
    expect([
      amounts?.price.text,
      amounts?.tax?.money.text,
      amounts?.total.text,
      amounts?.deposit?.text,
      amounts?.balance.text,
    ]).toEqual(
      ['quote_rounded', 'quote_tax', 'quote_with_tax', 'quote_deposit', 'quote_balance'].map(shown),
    );
    const at = book.find('second_percent');
    if (at === undefined) throw new Error('no rate of the second payment');
    const { sheet, row, column } = at;
    book.apply({ do: 'enter', sheet, cells: [{ row, column, text: '30' }] });
    const parts = pageOf(book, 'quote').amounts;
    expect([parts?.second?.text, parts?.balance.text]).toEqual(
      ['quote_second', 'quote_balance'].map(shown),
    );
    expect(words(page)).toContain(`Blanket chest, white oak ${shown('quote_rounded')} Tax, 8 %`);
  });

  it('say of the year what the workbook names, in words, in inches and in millimeters', () => {
    const text = words(pageOf(table, 'care').page);
    expect(text).toContain('Care note Dining table');
    expect(text).toMatch(/Dry season 25 % humidity 5\.\d+ % (about )?\d+\/\d+ in narrower/);
    expect(text).toMatch(/Humid season 60 % humidity \d+\.\d+ % (about )?\d+\/\d+ in wider/);
    expect(text).toContain('Keep the air between 25 % and 60 % humidity');
    expect(text).toContain('can catch fire by itself');
    expect(text).toContain('yours is wiping varnish');
    expect(text).not.toMatch(/Tipping/);
    const far = table.named('movement_swing')?.value;
    const own = far?.kind === 'number' ? far.number : 0;
    const near = Math.round(own * 32);
    expect(near).toBeGreaterThan(8);
    const [, num, den] = /that is about (\d+)\/(\d+) in from one season/.exec(text) ?? [];
    expect((Number(num) / Number(den)) * 32).toBe(near);
    const metric = listed(
      {
        movement_from_build_dry: { value: -8.6, quantity: 'length' },
        movement_from_build_humid: { value: 0, quantity: 'length' },
        movement_swing: { value: 8.6, quantity: 'length' },
      },
      { units: 'metric' },
    );
    const inMm = words(pageOf(metric, 'care').page);
    expect(inMm).toContain('that is about 8.5 mm from one season');
    expect(inMm).toMatch(/Humid season no change/);
  });

  it('mind what can be climbed, and hot dishes where something stands on it', () => {
    const text = (name: string) => words(pageOf(Workbook.open(shipped(name)), 'care').page);
    expect(text('bookcase.json')).toContain('keep it fastened to the wall');
    expect(text('bookcase.json')).not.toContain('no ladder');
    expect(text('bench.json')).toContain('in damp months the seat is wider');
    expect(text('cabinet-door.json')).not.toMatch(/hot dishes|lift it/);
    const plywood = text('plywood-cabinet.json');
    expect(plywood).not.toMatch(/damp months|humidity/);
  });

  it('print the words of the maker in the place of common ones, for care and for what is included', () => {
    const text = (value: string) => ({ value, quantity: 'text' }) as const;
    const book = listed(
      {
        price: money(100),
        care: text('Oil it in spring.'),
        included: text('Delivered to the door.'),
        not_included: text('Stairs.'),
      },
      { terms: 'Half now.\nHalf later.', due: '2026-05-02', customer: 'A made-up family' },
    );
    const quote = words(pageOf(book, 'quote').page);
    expect(quote).toContain('Included Delivered to the door. Not included Stairs.');
    expect(quote).toContain('For A made-up family');
    expect(quote).toContain('Delivery: 2 May 2026.');
    expect(quote).toContain('Terms Half now. Half later.');
    const care = words(pageOf(book, 'care').page);
    expect(care).toContain('Oil it in spring.');
    expect(care).not.toContain('No scouring powder');
  });

  it('say in a receipt what was paid, before and now, and what is still due', () => {
    const book = listed({ price: money(1000), deposit: money(400) });
    const first = pageOf(book, 'receipt', { number: 3 });
    expect(first.receipt).toEqual({ paid: 400, due: 600 });
    expect(words(first.page)).toContain('Receipt 3');
    const before = [{ day: '2026-01-02', amount: 400, number: 3 }];
    const last = pageOf(book, 'receipt', { before });
    expect(last.receipt).toEqual({ paid: 600, due: 0 });
    expect(words(last.page)).toContain('Paid on 2 January 2026, receipt 3 $400.00');
    expect(words(last.page)).toContain('With that it is paid in full.');
    expect(pageOf(book, 'receipt', { before, paid: 250.5 }).receipt).toEqual({
      paid: 250.5,
      due: 349.5,
    });
    expect(pageOf(book, 'receipt', { before, paid: 601 }).lacks).toContain('more than what is due');
    expect(pageOf(book, 'receipt', { paid: 0 }).lacks).toContain('more than nothing');
    const all = [{ day: '2026-01-02', amount: 1000 }];
    expect(pageOf(book, 'receipt', { before: all }).lacks).toContain('Everything is paid');
  });

  it('escape what a workbook says, within its drawing too', () => {
    const evil = '<img src=x onerror=alert(1)>"\'&';
    const book = listed(
      { price: money(1), finish: { value: evil, quantity: 'text' } },
      { title: evil, customer: evil, terms: evil, letterhead: { name: evil, address: evil } },
    );
    for (const kind of KINDS) expect(pageOf(book, kind).page).not.toContain('<img src=x');
    expect(plainDrawing('<svg viewBox="0 0 1 1"><path d="M0 0"/></svg>', evil).markup).not.toMatch(
      /onerror=|<img/,
    );
  });

  it('know their days', () => {
    expect([isDay('2026-02-29'), isDay('2028-02-29'), isDay('14.3.2026')]).toEqual([
      false,
      true,
      false,
    ]);
    expect(dayAfter('2026-12-31', 1)).toBe('2027-01-01');
    expect(dayAfter('2026-02-27', 30)).toBe('2026-03-29');
    expect(dayWords('2026-03-04')).toBe('4 March 2026');
    expect(words(pageOf(table, 'quote', { valid: 1 }).page)).toContain('15 March 2026, 1 day ');
  });
});

describe('options of a quote', () => {
  /** A chest at 10 for each inch, and variants of it. */
  function chest(rows: readonly (readonly (string | number)[])[], quoted = 0): Workbook {
    const line = (id: string, cells: readonly (string | number)[]) => ({
      id,
      cells: Object.fromEntries(cells.map((value, i) => [`c${i + 1}`, { value }])),
    });
    return Workbook.open({
      kerfbook: 8,
      title: 'A made-up chest',
      units: 'us',
      sheets: [
        {
          id: 's1',
          name: 'Sizes',
          columns: [{ id: 'c1' }],
          rows: [
            {
              id: 'r1',
              cells: {
                c1: {
                  name: 'long',
                  value: 40,
                  quantity: 'length',
                  role: 'input',
                  allow: { min: 10, max: 100 },
                },
              },
            },
            { id: 'r2', cells: { c1: { name: 'price', formula: '=long*10', quantity: 'money' } } },
            { id: 'r3', cells: { c1: { name: 'tax_percent', value: 10, quantity: 'percent' } } },
            { id: 'r4', cells: { c1: { name: 'quoted_price', value: quoted, quantity: 'money' } } },
          ],
        },
        {
          id: 's2',
          name: 'Variants',
          columns: [{ id: 'c1' }, { id: 'c2' }, { id: 'c3' }],
          rows: rows.map((row, i) => line(`r${i + 1}`, row)),
        },
      ],
      checks: [
        { id: 'k1', name: 'Fits', formula: '=long<90', severity: 'stop', says: 'It does not fit.' },
      ],
      tables: [{ id: 't1', kind: 'variants', sheet: 's2', header: 'r1', last: `r${rows.length}` }],
    });
  }

  it('are the variants of the workbook, each at what it is worked out to cost', () => {
    const book = chest([
      ['variant', 'long'],
      ['Longer', "5'"],
      ['Shorter', 30],
      ['As it is', ''],
    ]);
    expect(optionsOf(book).problems).toEqual([]);
    const text = words(pageOf(book, 'quote').page);
    expect(text).toContain('each at its price as a whole, tax included.');
    expect(text).toContain('Longer $660.00 Shorter $330.00 As it is $440.00');
    expect(book.named('long')?.value).toEqual({ kind: 'number', number: 40 });
    expect(words(pageOf(book, 'quote', { without: ['options'] }).page)).not.toContain('Longer');
    // What was quoted is of the piece as it stands, and not of another one.
    expect(
      words(
        pageOf(
          chest(
            [
              ['variant', 'long'],
              ['Longer', 60],
            ],
            123,
          ),
          'quote',
        ).page,
      ),
    ).toContain('Longer $660.00');
  });

  it('are not those that cannot be: their maker is told why', () => {
    const book = chest([
      ['variant', 'long', 'wide'],
      ['Too long', 95, ''],
      ['Wrong', 'abc', ''],
      ['Far', 500, ''],
    ]);
    const { options, problems } = optionsOf(book);
    expect(options).toEqual([]);
    expect(problems.map(({ says }) => says)).toEqual([
      expect.stringMatching(/wide/),
      expect.stringMatching(/^long: .*abc/),
      expect.stringMatching(/^long: .*outside what this cell takes/),
      'This variant is not among the options of the quote. It does not fit.',
    ]);
    expect(words(pageOf(book, 'quote').page)).not.toMatch(/Options|Too long/);
  });
});

describe('what stays at the shop', () => {
  const WORD = 'Zyxwort';
  /** Heads of the parts table whose words say where and how a part is made: others would leave nothing to draw. */
  const MADE = new Set(['place', 'turn', 'shape', 'taper', 'ends', 'edge', 'material']);

  /**
   * A workbook with an unmistakable word in every remark, note, unnamed text, step, check and table, in the names of its
   * parts and in whatever it says of itself that is no customer's business. What may be said, and words that formulas or
   * drawings go by, stay.
   */
  function planted(document: BookDocument): BookDocument {
    const sized = ['top_width', 'top_diameter', 'case_depth', 'band_thickness'];
    const said = new Set<string>([...SAID_NAMES, ...sized]);
    const tables = document.tables ?? [];
    return {
      ...document,
      about: WORD,
      author: WORD,
      revision: WORD,
      tags: [WORD],
      guide: { before: WORD, after: WORD, credits: WORD },
      checks: document.checks.map((check) => ({
        ...check,
        name: `${check.name} ${WORD}`,
        says: WORD,
      })),
      sheets: document.sheets.map((sheet) => {
        const spans = tables
          .filter((one) => one.sheet === sheet.id)
          .map((one) => {
            const at = (id: string) => sheet.rows.findIndex((row) => row.id === id);
            return { ...one, from: at(one.header), to: at(one.last) };
          });
        return {
          ...sheet,
          name: `${sheet.name} ${WORD}`.slice(-31),
          rows: sheet.rows.map((row, i) => ({
            ...row,
            cells: Object.fromEntries(
              Object.entries(row.cells ?? {}).map(([column, cell]) => {
                const table = spans.find(({ from, to }) => i >= from && i <= to);
                const headRow = table === undefined ? undefined : sheet.rows[table.from];
                const head = String(headRow?.cells?.[column]?.value ?? '');
                const isHead = table !== undefined && i === table.from;
                const goesBy =
                  isHead ||
                  (table?.kind === 'parts' && (MADE.has(head) || head === 'part')) ||
                  (table?.kind === 'joints' && head !== '') ||
                  (table?.kind === 'stock' && head === 'material');
                const isText = typeof cell.value === 'string' && cell.formula === undefined;
                const isSaid = said.has((cell.name ?? '').toLowerCase());
                const plant =
                  isText && !goesBy && !isSaid && cell.allow === undefined && cell.value !== '';
                return [
                  column,
                  {
                    ...cell,
                    remark: `${WORD} ${cell.remark ?? ''}`.trim(),
                    ...(plant ? { value: `${cell.value} ${WORD}` } : {}),
                  },
                ];
              }),
            ),
          })),
        };
      }),
    };
  }

  it.each(TEMPLATES)('of %s are all words that are not among those that may be said', (name) => {
    const document = planted(shipped(name));
    const loaded = loadText(JSON.stringify(document));
    if (!loaded.ok) throw new Error(loaded.says);
    expect(JSON.stringify(loaded.document).split(WORD).length).toBeGreaterThan(100);
    const book = Workbook.open(loaded.document);
    const parts = saidOf(book).sizes;
    if (name !== 'cost.json') expect(parts.length, name).toBeGreaterThan(0);
    for (const kind of KINDS) {
      const { page } = pageOf(book, kind);
      expect(page.toLowerCase()).not.toContain(WORD.toLowerCase());
      // Nor does the drawing say what its parts are called and measure.
      expect(page).not.toMatch(/<desc|data-part|<title>(?!(?:Quote|Care note|Receipt), )/);
    }
  });

  it.each(TEMPLATES)('of %s are all amounts but price, tax and deposit', (name) => {
    const document = shipped(name);
    const may = new Set<string>([
      'price',
      'quoted_price',
      'quote_rounded',
      'quote_shown',
      'quote_tax',
      'quote_with_tax',
      'quote_deposit',
      'quote_balance',
      'deposit',
      'price_per_seat',
      'job_price',
    ]);
    // Amounts that nobody takes for another one.
    let next = 7;
    const sheets = document.sheets.map((sheet) => ({
      ...sheet,
      rows: sheet.rows.map((row) => ({
        ...row,
        cells: Object.fromEntries(
          Object.entries(row.cells ?? {}).map(([column, cell]) => {
            const isAmount =
              String(cell.quantity).startsWith('money') &&
              typeof cell.value === 'number' &&
              cell.value > 0;
            if (!isAmount || cell.allow !== undefined) return [column, cell];
            next += 1;
            return [
              column,
              { ...cell, value: Number(((cell.value as number) + next * 0.0137).toFixed(4)) },
            ];
          }),
        ),
      })),
    }));
    const book = Workbook.open({ ...document, sheets });
    const pages = KINDS.map((kind) => words(pageOf(book, kind).page));
    const may_ = new Set([...may].flatMap((one) => book.named(one)?.shown.text ?? []));
    const amounts = amountsOf(saidOf(book));
    if (amounts.ok) may_.add(amounts.amounts.balance.text);
    let looked = 0;
    for (const sheet of book.sheets()) {
      for (let row = 0; row < sheet.rows; row += 1) {
        for (let column = 0; column < sheet.columns; column += 1) {
          const cell = book.cell({ sheet: sheet.id, row, column });
          if (!String(cell.quantity).startsWith('money') || cell.value.kind !== 'number') continue;
          const { number } = cell.value;
          if (number === 0 || may.has(cell.name ?? '') || may_.has(cell.shown.text)) continue;
          looked += 1;
          for (const page of pages) {
            expect(page, cell.address).not.toContain(cell.shown.text);
            const plain = number.toFixed(2);
            // Not as the end of a larger one.
            const alone = new RegExp(`(?<![\\d.,])${plain.replace('.', '\\.')}(?!\\d)`);
            if (plain.length > 4) expect(page, cell.address).not.toMatch(alone);
          }
        }
      }
    }
    if (!['movement.json'].includes(name)) expect(looked, name).toBeGreaterThan(10);
  });
});
