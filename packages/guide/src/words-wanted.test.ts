import { readFileSync } from 'node:fs';
import { type BookDocument, loadText, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { guideSections } from './page/sections.ts';
import { guidePage } from './page/whole-page.ts';
import { readPlan } from './plan.ts';
import { stepBook } from './testing/step-book.ts';
import { wordsHere, wordsSought, wordsWanted } from './words-wanted.ts';

const FOLDER = new URL('../../../templates/', import.meta.url);

/** A template with words in a second language, a row each. */
function withWords(name: string, words: readonly (readonly [string, string])[]): BookDocument {
  const loaded = loadText(readFileSync(new URL(name, FOLDER), 'utf8'));
  if (!loaded.ok) throw new Error(loaded.says);
  const { document } = loaded;
  const rows = [['words', 'translated'] as const, ...words];
  return {
    ...document,
    guide: { ...document.guide, second: 'x-made-up' },
    sheets: [
      ...document.sheets,
      {
        id: 'swords',
        name: 'Second language',
        columns: [{ id: 'c1' }, { id: 'c2' }],
        rows: rows.map(([c1, c2], i) => ({
          id: `w${i}`,
          cells: { c1: { value: c1, quantity: 'text' }, c2: { value: c2, quantity: 'text' } },
        })),
      },
    ],
    tables: [
      ...document.tables,
      { id: 'twords', kind: 'words', sheet: 'swords', header: 'w0', last: `w${words.length}` },
    ],
  };
}

/** Plans that have every kind of figure between them, but for those that a choice brings. */
const PLANS = [
  'bench.json',
  'bookcase.json',
  'breadboard.json',
  'cabinet-door.json',
  'cost.json',
  'desk.json',
  'dining-table.json',
  'movement.json',
  'plywood-cabinet.json',
  'round-table.json',
  'trestle-table.json',
];

/** An invented language: each letter doubled outside of braces; names in a list stay names. */
const madeUp = (words: string): string =>
  words.replaceAll(/\{[^{}]*\}|\p{L}/gu, (one) => (one.startsWith('{') ? one : `${one}${one}`));

const allSaid = (name: string): BookDocument => {
  const { all } = wordsHere(Workbook.open(withWords(name, [])));
  return withWords(
    name,
    all.map((words) => [words, madeUp(words)]),
  );
};

/** Writings of a page that a reader reads, without what is read aloud alone. */
const writings = (html: string): readonly string[] =>
  html
    .replaceAll(/<(style|script)[\s\S]*?<\/\1>/g, '')
    .split(/<[^>]*>/)
    .map((text) => text.trim())
    .filter((text) => /\p{L}{4}/u.test(text));

describe('a plan whose words are all given in a second language', () => {
  it.each(PLANS)('is told in nothing else: %s', (name) => {
    const book = Workbook.open(allSaid(name));
    expect(wordsHere(book).missing).toEqual([]);
    const html = guideSections(book, { second: true, ticks: true })
      .map((one) => one.html)
      .join('\n');
    expect(html.match(/ lang="[^"]*"[^>]*>[^<]*/g) ?? []).toEqual([]);
    const left = writings(html).filter((text) => !/(\p{L})\1/u.test(text));
    expect(left).toEqual([]);
    expect(html).not.toMatch(/\{[\w ]+\}/);
  });

  it.each([
    ['cabinet-door.json', 'hinge_kind', 'butt', 'hinges'],
    ['dining-table.json', 'leg_shape', 'tapered', 'taper'],
  ])('is told in nothing else where %s has %s %s', (file, name, text, kind) => {
    const document = withWords(file, []);
    const choose = (one: Workbook): Workbook => {
      const at = one.named(name)?.at;
      if (at === undefined) throw new Error(name);
      const cells = [{ row: at.row, column: at.column, text }];
      expect(one.apply({ do: 'enter', sheet: at.sheet, cells }).ok).toBe(true);
      expect(readPlan(one).steps.map(({ figure }) => figure.kind)).toContain(kind);
      return one;
    };
    const { all } = wordsHere(choose(Workbook.open(document)));
    const said = withWords(
      file,
      all.map((words) => [words, madeUp(words)]),
    );
    const html = guideSections(choose(Workbook.open(said)), { second: true })
      .map((one) => one.html)
      .join('\n');
    expect(html.match(/ lang="[^"]*"[^>]*>[^<]*/g) ?? []).toEqual([]);
    expect(writings(html).filter((words) => !/(\p{L})\1/u.test(words))).toEqual([]);
  });

  it('is told in nothing else at other sizes of the same parts', () => {
    const book = Workbook.open(allSaid('dining-table.json'));
    for (const [name, text] of [
      ['top_length', '90'],
      ['groove_edge', '5/8'],
    ] as const) {
      const at = book.named(name)?.at;
      if (at === undefined) throw new Error(name);
      const cells = [{ row: at.row, column: at.column, text }];
      expect(book.apply({ do: 'enter', sheet: at.sheet, cells }).ok).toBe(true);
      // How boards are cut is told piece by piece: another plan has other sentences.
      const left = wordsHere(book).missing.filter((words) => !/board|sheet/i.test(words));
      expect(left).toEqual([]);
    }
    book.apply({ do: 'changeUnits', to: 'metric' });
    const left = wordsHere(book).missing.filter((words) => !/board|sheet/i.test(words));
    expect(left.filter((words) => !/millimeter|kilogram|liter|meter/.test(words))).toEqual([]);
  });
});

describe('sentences of other sizes', () => {
  it('are sought at each choice and each end of what readers may set, and the workbook stays as it is', () => {
    const book = Workbook.open(withWords('dining-table.json', []));
    const before = book.document();
    const here = wordsHere(book);
    const { all, missing, rowless } = wordsWanted(book);
    expect(book.document()).toEqual(before);
    expect(all.slice(0, here.all.length)).toEqual(here.all);
    expect(new Set(all).size).toBe(all.length);
    expect([missing, rowless]).toEqual([all, all]);
    // Each of these comes with another input alone: legs, tenons, outline, a length that stacks no supports.
    for (const one of [
      /^Taper all four faces\./,
      /^\{part\} and long apron: mortise and tenon$/,
      /draws the oval\.$/,
      /^Screw the support between the long aprons/,
    ]) {
      expect(here.all.filter((words) => one.test(words))).toEqual([]);
      expect(all.filter((words) => one.test(words))).not.toEqual([]);
    }
    expect(all.filter((words) => /#|can't tell/.test(words))).toEqual([]);
    const known = wordsHere(book, all);
    expect(new Set(known.all)).toEqual(new Set(all));
  }, 60_000);

  it('are what readers get that choose one', () => {
    const given = withWords('top.json', []);
    const { all } = wordsWanted(Workbook.open(given));
    const book = Workbook.open(
      withWords(
        'top.json',
        all.map((words) => [words, madeUp(words)]),
      ),
    );
    for (const [name, text] of [
      ['top_shape', 'oval'],
      ['edge_profile', 'square'],
    ] as const) {
      const at = book.named(name)?.at;
      if (at === undefined) throw new Error(name);
      const cells = [{ row: at.row, column: at.column, text }];
      expect(book.apply({ do: 'enter', sheet: at.sheet, cells }).ok).toBe(true);
      expect(wordsHere(book).missing.filter((words) => !/board|sheet/i.test(words))).toEqual([]);
      book.undo();
    }
  }, 60_000);

  it('are sought with any two choices together', () => {
    const book = Workbook.open(withWords('base.json', []));
    const { all } = wordsWanted(book);
    const said = (choices: Readonly<Record<string, string>>): readonly string[] => {
      for (const [name, text] of Object.entries(choices)) {
        const at = book.named(name)?.at;
        if (at === undefined) throw new Error(name);
        const cells = [{ row: at.row, column: at.column, text }];
        expect(book.apply({ do: 'enter', sheet: at.sheet, cells }).ok).toBe(true);
      }
      const { all: here } = wordsHere(book);
      for (const _ of Object.keys(choices)) book.undo();
      return here;
    };
    // It comes with neither of the two alone.
    const choices = { fastener_long: 'slotted screw', fastener_short: 'slotted screw' };
    const sentence = /slots for the screws up through all four aprons/;
    const both = said(choices).filter((words) => sentence.test(words));
    expect(both).toHaveLength(1);
    const alone = Object.entries(choices).flatMap(([name, text]) => said({ [name]: text }));
    expect(alone.filter((words) => sentence.test(words))).toEqual([]);
    expect(all).toEqual(expect.arrayContaining(both));
  }, 60_000);

  it('are none where readers can set nothing', () => {
    const { guide, ...plain } = withWords('dining-table.json', []);
    const { inputs: _, ...closed } = guide ?? {};
    expect([...wordsSought(Workbook.open({ ...plain, guide: closed }))]).toHaveLength(1);
  });
});

describe('a plan in a second language', () => {
  const steps = [
    {
      step: 'Cut',
      text: 'One {kind}.\nTwo, {seat_length}.',
      builds: 'Leg, Seat, Rail, long',
      tools: 'saw, rule',
      caution: 'Care.',
    },
  ];
  const words = [
    { words: 'Leg', translated: 'Bein' },
    { words: 'saw', translated: 'Säge' },
    { words: 'One {kind}.', translated: 'Eins {kind}.' },
    { words: 'pale', translated: 'hell' },
    { words: 'It is {seat_length} in {kind}.', translated: 'Es sind {seat_length}, {kind}.' },
    { words: '{1} inches', translated: '{1} Zoll' },
    { words: 'and', translated: 'und' },
  ];
  const sizes = {
    id: 'more',
    name: 'More',
    columns: [{ id: 'c' }],
    rows: [{ id: 'r', cells: { c: { value: 'pale', name: 'kind' } } }],
  };
  const check = (id: string, says: string) => ({
    id,
    name: id,
    formula: '=1=2',
    severity: 'care' as const,
    says,
  });
  const base = stepBook({ steps, words, head: {} }).document();
  const book = Workbook.open({
    ...base,
    guide: { language: 'en', second: 'de' },
    sheets: [...base.sheets, sizes],
    checks: [
      check('k1', 'It is {seat_length} in {kind}.'),
      check('k2', 'It is not {seat_length}.'),
    ],
  });
  const page = guidePage(book, { paper: 'a4', second: true });

  it('tells what checks say, with the numbers and words of the cells in them', () => {
    expect(page).toContain('<p>Es sind 33 3/16 in, hell.</p>');
    expect(page).toContain('<p><span lang="en">It is not 33 3/16 in.</span></p>');
  });

  it('names parts and tools in it wherever they stand, and says of others which language they are in', () => {
    expect(page).toContain('>Säge</');
    expect(page).toMatch(/Säge, <span lang="en">rule<\/span>/);
    expect(page).toMatch(/Bein × 4: 1 1\/2 × 1 1\/2 × 16 3\/16 in<\/text>/);
    expect(page).toMatch(/<text[^>]* lang="en"[^>]*>Seat: 1 1\/4 × 12 × 33 3\/16 in<\/text>/);
  });

  it('marks each paragraph by itself', () => {
    expect(page).toMatch(
      /<p[^>]*>Eins <span[^>]*>hell<\/span>\.<\/p>(?:<\/div>)?<p[^>]*><span lang="en">Two, /,
    );
  });

  it('reads numbers aloud in it', () => {
    expect(page).toContain('<span class="kb-aloud">33 und 3/16 Zoll</span>');
    expect(guidePage(book, { paper: 'a4' })).toContain(
      '<span class="kb-aloud">33 and 3/16 inches</span>',
    );
  });

  it('counts what is given, and what has no row yet', () => {
    const { all, missing, rowless } = wordsWanted(book);
    expect(all.length - missing.length).toBe(words.length);
    expect(rowless).toEqual(missing);
    expect(missing).toContain('It is not {seat_length}.');
    expect(new Set(all).size).toBe(all.length);
  });
});
