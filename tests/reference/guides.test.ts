import { readdirSync } from 'node:fs';
import { bookFormat } from '@kerfbook/drawing';
import { guideSections, plainText, readPlan } from '@kerfbook/guide';
import { Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { bookWith, documentOf } from './books.ts';
import { enterAll } from './dining-table-book.ts';

/** What a maker found wrong in reading the plans of the templates, each kind of it looked for in all of them. */

const names = readdirSync(new URL('../../templates/', import.meta.url))
  .filter((file) => file.endsWith('.json'))
  .map((file) => file.slice(0, -'.json'.length))
  .sort()
  .filter((name) => documentOf(name).tables.some(({ kind }) => kind === 'steps'));

const open = (name: string): Workbook => Workbook.open(documentOf(name));

/** The words of a section of a guide, without its marks. */
const wordsOf = (book: Workbook, id: string): string =>
  (guideSections(book).find((one) => one.id === id)?.html ?? '').replaceAll(/<[^>]*>/g, ' ');

/** Words with single spaces, as they read. */
const spacesOf = (words: string): string => words.replaceAll(/\s+/g, ' ');

/** What is to be got, line by line. */
const toGet = (book: Workbook): readonly string[] => {
  const html = guideSections(book).find(({ id }) => id === 'needs')?.html ?? '';
  return [...html.matchAll(/<li>(.*?)<\/li>/gs)].map(([, line = '']) =>
    line
      .replaceAll(/<span class="kb-aloud">.*?<\/span>/g, '')
      .replaceAll(/<[^>]*>/g, '')
      .trim(),
  );
};

describe('the plan of every template', () => {
  it.each(names)('%s: has no figure that is a bare outline', (name) => {
    const { steps } = readPlan(open(name));
    const bare = steps.filter(
      ({ figure, parts }) =>
        figure.kind === 'assembly' && figure.of === undefined && parts.length === 0,
    );
    expect(bare.map(({ title }) => plainText(title))).toEqual([]);
  });

  it.each(names)('%s: lists no tool as another way than the one before it', (name) => {
    const tools = readPlan(open(name)).steps.flatMap((step) => step.tools);
    expect(tools.filter((tool) => /^or\b/i.test(tool))).toEqual([]);
  });

  it.each(names)('%s: planes all boards of one thickness that it planes some of', (name) => {
    const { steps, parts } = readPlan(open(name));
    for (const { figure } of steps.filter((one) => one.figure.kind === 'milling')) {
      const listed = (figure.of ?? '').split(',').map((one) => one.trim());
      const some = parts.parts.filter((part) => listed.includes(part.name));
      if (some.length < 2) continue;
      const alike = ({ thickness, material, panelBoards }: (typeof some)[number]): string =>
        `${thickness} ${material} ${panelBoards === undefined}`;
      const planed = new Set(some.map(alike));
      const left = parts.parts.filter((one) => planed.has(alike(one)) && !some.includes(one));
      expect(left.map((one) => one.name)).toEqual([]);
    }
  });

  it.each(names)('%s: asks for nothing twice, and for no dowels without their number', (name) => {
    const lines = toGet(open(name));
    const told = lines.map((line) => line.replace(/\s*\(.*\)$/, ''));
    expect(told.filter((line, i) => told.indexOf(line) !== i)).toEqual([]);
    expect(lines.filter((line) => /^(?:dowels|pocket screws|loose tenons)$/.test(line))).toEqual(
      [],
    );
  });

  it('counts dowels and pocket screws of the joints table, with their sizes', () => {
    expect(toGet(open('bookcase'))).toEqual(
      expect.arrayContaining(['6 dowels, 3/8 × 1 7/8 in', '4 pocket screws, 1 1/4 in']),
    );
  });

  it('says of each figure-8 that it takes a screw of its own into the apron', () => {
    for (const name of ['base', 'bench', 'coffee-table', 'dining-table']) {
      const lines = toGet(open(name)).filter((line) => line.includes('figure-8'));
      expect(lines, name).toEqual([
        expect.stringMatching(/^\d+ figure-8s with a screw each for the apron$/),
      ]);
    }
  });

  it('warns of no blade and asks for no material where nothing is built', () => {
    const book = open('cost');
    expect(wordsOf(book, 'cautions')).toBe('');
    expect(wordsOf(book, 'needs')).not.toMatch(/Cost of material/);
    expect(wordsOf(open('dining-table'), 'cautions')).toMatch(/Keep guards on/);
  });

  it.each([
    ['bench', ['bench_weight']],
    ['breadboard', ['top_weight']],
    ['coffee-table', ['table_weight']],
    ['dining-table', ['top_weight', 'base_weight']],
    ['round-table', ['table_weight']],
    ['top', ['top_weight']],
    ['trestle-table', ['table_weight']],
  ])('%s: weighs before the work what it weighs in the steps, to a pound', (name, parts) => {
    for (const moisture_build of ['5', '8', '14']) {
      const book = enterAll(open(name), { moisture_build });
      const told = parts.reduce((sum, one) => {
        const value = book.named(one)?.value;
        return sum + (value?.kind === 'number' ? value.number : Number.NaN);
      }, 0);
      const said = Number(
        /It weighs about ([\d,]+) lb/.exec(spacesOf(wordsOf(book, 'cautions')))?.[1],
      );
      expect(Math.abs(said - told), `${said}, ${told}`).toBeLessThanOrEqual(1);
    }
  });

  it('says each mark of each board that is to be cut', () => {
    for (const name of names) {
      const html = guideSections(open(name)).find(({ id }) => id === 'cutting-plan')?.html ?? '';
      for (const board of html.split('class="kb-board ').slice(1)) {
        const said = /<title>A board [^<]*; marks from its left end at ([^;]*);/.exec(board)?.[1];
        const stick = board.split('<g class="kb-stick">')[1]?.split('</g>')[0] ?? '';
        const written = [...stick.matchAll(/<text [^>]*>([^<]*)</g)].map(([, mark]) => mark);
        expect(written.filter((mark) => mark !== '0')).toEqual(said?.split(', ') ?? []);
      }
    }
  });

  it('tells whoever builds from it what to buy, and not what to type', () => {
    for (const [name, entries] of [
      ['bench', { rough_quarters: '16/4' }],
      ['trestle-table', { rough_quarters: '10/4', layers: '3' }],
      ['round-table', { top_diameter: '80', rough_quarters: '8/4' }],
    ] as const) {
      const plan = spacesOf(wordsOf(bookWith(name, entries), 'cutting-plan'));
      expect(plan).toMatch(
        / planed from .*(?:or buy thinner ones|Buy thinner boards if you can)\./,
      );
      expect(plan).not.toContain('stock table');
    }
  });

  it('ends its boxes to tick before the words begin', () => {
    const sections = guideSections(bookWith('round-table', { top_diameter: '80' }));
    const html = sections.find(({ id }) => id === 'cutting-plan')?.html ?? '';
    const words = html.replaceAll(/<[^>]*>/g, '');
    expect(words).toMatch(/and \d+ more Boards 1 to \d+ of/);
    expect(words).not.toMatch(/more(?:Board|Sheet)/);
  });

  it('shows the groove in an apron that has one', () => {
    const grooved = (long: string, short: string): string | undefined =>
      readPlan(bookWith('bench', { fastener_long: long, fastener_short: short })).steps.find(
        ({ figure }) => figure.kind === 'groove',
      )?.figure.of;
    expect(grooved('button', 'figure-8')).toBe('Long apron');
    expect(grooved('clip', 'clip')).toBe('Long apron');
    expect(grooved('slotted screw', 'clip')).toBe('Short apron');
    expect(grooved('figure-8', 'slotted screw')).toBe(undefined);
  });

  it('says of layers how thick they are together, and how many there are to a part', () => {
    const plan = bookWith('trestle-table', { layers: '3' }, 'metric');
    const step = readPlan(plan).steps.find(({ figure }) => figure.kind === 'layers');
    // 3 in and 2 1/2 in are 76.2 and 63.5 mm (1 in = 25.4 mm, NIST SP 811), a third of them 25.4 and 21.17.
    expect(step?.text.map(plainText)[0]).toContain(
      'until 3 of them are 76 mm thick together, those of the posts until they are 63.5 mm: that is about 25 mm and 21 mm each',
    );
    expect(spacesOf(wordsOf(plan, 'cut-list'))).toContain('3 layers to one part 76 thick');
  });

  it('asks for no hands to lift what weighs little', () => {
    expect(spacesOf(wordsOf(open('cabinet-door'), 'cautions'))).toMatch(
      /It weighs about 13 lb 13 pounds when it is done\. (?!Lift)/,
    );
    expect(spacesOf(wordsOf(open('top'), 'cautions'))).toMatch(
      /It weighs about 88 lb 88 pounds when it is done\. Lift and turn it with enough hands/,
    );
  });

  it.each([
    'bench',
    'bookcase',
    'breadboard',
    'cabinet-door',
    'coffee-table',
    'desk',
    'dining-table',
    'round-table',
    'top',
    'trestle-table',
  ])('%s: says with the buying that boards far too thick are resawn, and only then', (name) => {
    const told = (book: Workbook): boolean =>
      readPlan(book).steps.some(({ text }) =>
        text.some((runs) => plainText(runs).includes('or have them resawn before you plane them.')),
      );
    expect(told(open(name))).toBe(false);
    expect(told(enterAll(open(name), { rough_quarters: '16/4' }))).toBe(true);
  });

  it('says with the care of it what its maker says of that, once', () => {
    const book = open('bookcase');
    expect(wordsOf(book, 'care')).toMatch(/Once a year shake the case/);
    expect(wordsOf(book, 'credits')).not.toMatch(/Once a year/);
    expect(wordsOf(open('cost'), 'credits')).toMatch(/Write down what every job really took/);
  });

  it('saws no slides, and buys them by the pair', () => {
    const book = open('desk');
    expect(wordsOf(book, 'cut-list')).not.toMatch(/slide/i);
    expect(wordsOf(book, 'cutting-plan')).not.toMatch(/slide/i);
    expect(toGet(book).filter((line) => /slide/i.test(line))).toEqual([
      '2 pairs of slides',
      'the screws of the slides',
    ]);
  });

  it('cuts the tails of a drawer as its figure shows them', () => {
    const book = open('desk');
    const step = guideSections(book).find(({ html }) => html.includes('Join the boxes'))?.html;
    expect(step).toMatch(/Sizes shown:[^<]*gap between tails 1\/4[^<]*tail width 1 1\/8/);
    expect(wordsOf(book, 'cut-list')).toMatch(/Drawer front/);
  });
});

describe('what readers may set', () => {
  const KINDS = ['button', 'clip', 'slotted screw', 'figure-8'];
  const WAYS = ['square to the apron', 'along the apron'];

  it.each(['base', 'bench'])('of a %s lets every kind of fastener be chosen', (name) => {
    const { inputs = [] } = documentOf(name).guide ?? {};
    expect(inputs).toEqual(
      expect.arrayContaining(['fastener_long', 'points_long', 'fastener_short', 'points_short']),
    );
    const kinds = KINDS.flatMap((long) => KINDS.map((short) => [long, short] as const));
    const without = kinds.filter(
      ([fastener_long, fastener_short]) =>
        !WAYS.some((points_long) =>
          WAYS.some((points_short) => {
            const entries = { fastener_long, points_long, fastener_short, points_short };
            const checks = enterAll(open(name), entries).checks();
            return checks.find(({ id }) => id === 'fasten')?.state === 'pass';
          }),
        ),
    );
    expect(without).toEqual([]);
  });
});

describe('sentences where there is one of a thing, or there are two', () => {
  it.each([
    ['bookcase', { case_height: '30', shelf_count: '1' }],
    ['coffee-table', { top_length: '24', top_width: '10' }],
    ['desk', { top_length: '34', drawer_count: '1' }],
    ['dining-table', { top_length: '36', top_width: '24', overhang_end: '3', overhang_side: '2' }],
    ['plywood-cabinet', { shelf_count: '0' }],
    ['plywood-cabinet', { shelf_count: '1' }],
    ['top', { edge_where: 'both edges', top_width: '10' }],
  ] as const)('%s, %o: are said as one says them', (name, entries) => {
    const said = readPlan(enterAll(open(name), entries)).steps.flatMap(({ text }) =>
      text.map(plainText),
    );
    const wrong =
      /\ball [12] (?!in\b)|\bthe both\b|\b1 (?!h\b|in\b|lb\b|person\b|board\b)[a-z]+s\b|one shelf.* at each\b|sides of each\. They|the bottom, the front stretcher\./i;
    expect(
      said.filter((one) => wrong.test(one.replaceAll(/\d+ \d+\/\d+|\d+\/\d+/g, 'some'))),
    ).toEqual([]);
  });
});

describe('the plan for a quote', () => {
  it('speaks of numbers: it has no size', () => {
    const all = (book: Workbook): string =>
      guideSections(book)
        .map(({ html }) => html.replaceAll(/<[^>]*>/g, ' '))
        .join(' ');
    const cost = all(enterAll(open('cost'), { bench_hours: '10' }));
    expect(cost).toContain('With these numbers the workbook warns');
    expect(cost).toMatch(/\bNumbers\b/);
    expect(cost).not.toMatch(/\bSizes\b|At this size/);
    expect(all(open('base'))).toMatch(/\bSizes\b/);
  });
});

describe('the plan of a plywood cabinet', () => {
  const entered = (entries: Readonly<Record<string, string>>, metric = false): Workbook => {
    const book = open('plywood-cabinet');
    if (metric) expect(book.apply({ do: 'changeUnits', to: 'metric' }).ok).toBe(true);
    return enterAll(book, entries);
  };
  const titles = (book: Workbook): readonly string[] =>
    readPlan(book).steps.map(({ title }) => plainText(title));
  const markedOn = (book: Workbook, part: string) =>
    readPlan(book).parts.joints?.marked.filter((one) => one.part === part) ?? [];
  const isHole = ({ what }: { readonly what: string }): boolean => /^hole/.test(what);

  it.each([
    [{}, false, '23 1/4 in'],
    [{ band_thickness: '5/32', case_depth: '25 1/4' }, false, '25 1/4 in'],
    [{ cabinet: 'wall', band_thickness: '0.5' }, true, '591 mm'],
    [{ band_thickness: '0', case_depth: '300' }, true, '300 mm'],
  ] as const)('%o: is as deep on its cover as in its steps', (entries, metric, deep) => {
    const book = entered(entries, metric);
    const [first] = readPlan(book).steps;
    expect(first?.text.map(plainText).join(' ')).toContain(`${deep} deep`);
    expect(spacesOf(wordsOf(book, 'cover'))).toContain(`Depth ${deep}`);
  });

  it('drills for pins where there are shelves, and nowhere else', () => {
    const [with1, without] = [entered({}), entered({ shelf_count: '0' })];
    const holes = (book: Workbook): number =>
      markedOn(book, 'Side').reduce(
        (sum, { copies, cuts }) => sum + copies.length * cuts.filter(isHole).length,
        0,
      );
    expect(titles(with1)).toContain('Drill for the pins');
    expect(titles(without)).not.toContain('Drill for the pins');
    // Two lines of 7 in each of two sides.
    expect([holes(with1), holes(without)]).toEqual([28, 0]);
    const hours = (book: Workbook): number => {
      const value = book.named('hours_shape')?.value;
      return value?.kind === 'number' ? value.number : Number.NaN;
    };
    expect(hours(with1) - hours(without)).toBeCloseTo(4 * 0.2, 9);
    // Holes that nobody drills trouble nobody.
    const tight = entered({ shelf_count: '0', pin_edge: '6', case_depth: '12' });
    expect(tight.checks().find(({ id }) => id === 'pins')?.state).toBe('pass');
    const crowded = entered({ pin_edge: '6', case_depth: '12' });
    expect(crowded.checks().find(({ id }) => id === 'pins')?.state).toBe('stop');
  });

  it.each([
    ['base', ['Nailer']],
    ['wall', ['Nailer', 'Lower nailer']],
  ] as const)(
    '%s: drills the pocket holes of nailers in their backs, as its step says',
    (cabinet, nailers) => {
      const book = entered({ cabinet });
      const step = readPlan(book).steps.find(({ title }) => /pocket/.test(plainText(title)));
      expect(step?.text.map(plainText).join(' ')).toContain('which is the back of a nailer');
      // What looks away from the middle of the case is the back of what stands at its back.
      for (const nailer of nailers) {
        const holes = markedOn(book, nailer).flatMap(({ cuts }) => cuts);
        expect(holes.length).toBeGreaterThanOrEqual(4);
        expect(new Set(holes.map(({ on }) => on))).toEqual(new Set(['outside face']));
      }
    },
  );

  it('says of one coat how long it dries', () => {
    expect(spacesOf(wordsOf(entered({ coats: '1' }), 'finish'))).toContain('Let it dry 12 h');
    expect(spacesOf(wordsOf(entered({}), 'finish'))).toContain('Between coats 12 h');
  });
});

describe('a base that is set on its top', () => {
  const said = (entries: Record<string, string>): string =>
    readPlan(enterAll(open('dining-table'), entries))
      .steps.flatMap(({ title, text }) => [title, ...text].map(plainText))
      .join('\n');

  it('is measured along the center lines where the edge is curved', () => {
    const oval = said({ top_shape: 'oval', overhang_end: '19', overhang_side: '7' });
    expect(oval).toContain('by its center lines: along them it is 19 in from the line of the legs');
    expect(said({})).toContain(
      'center it: 9 in from the outer face of the legs to the end of the top',
    );
  });

  it('has one support where there is one', () => {
    const one = said({ top_length: '46 3/4', overhang_end: '7 5/16' });
    expect(one).toContain('Drill the support\n');
    expect(one).toContain('Put in the support\n');
    expect(said({})).toContain('Put in the supports\n');
  });
});

describe('boards of a panel, as they are ripped', () => {
  const SIZES = [0, 0.4375, 1.3, 2.71, 3.99];
  const panels = names.flatMap((name) => {
    const found = [...open(name).names()].map(({ name: one }) => one);
    return found.some((one) => one.endsWith('board_width')) ? [name] : [];
  });

  it('are in most templates', () => {
    expect(panels.length).toBeGreaterThanOrEqual(10);
  });

  it.each(panels.flatMap((name) => [[name, 'us'] as const, [name, 'metric'] as const]))(
    '%s, %s: make it wide enough where each is as wide as the cut list says',
    (name, units) => {
      for (const more of SIZES) {
        const book = bookWith(name, {}, units);
        const wide = [
          'top_width',
          'seat_width',
          'top_diameter',
          'case_depth',
          'opening_width',
        ].find((one) => book.named(one)?.role === 'input');
        const was = wide === undefined ? undefined : book.named(wide)?.value;
        if (wide === undefined || was?.kind !== 'number') throw new Error(`no width of ${name}`);
        const own = was.number + more * (units === 'us' ? 1 : 25.4);
        enterAll(book, { [wide]: String(own) });
        const loss = book.named('joint_loss')?.value;
        if (loss?.kind !== 'number') throw new Error('no joint_loss');
        const ownMm = units === 'us' ? 25.4 : 1;
        const write = bookFormat(book);
        for (const { panelBoards, width, name: part } of readPlan(book).parts.parts) {
          if (panelBoards === undefined) continue;
          const shown = write(panelBoards.width)
            .split(' ')
            .reduce((sum, word) => {
              const [over = 0, under = 1] = word.split('/').map(Number);
              return sum + over / under;
            }, 0);
          const glued = panelBoards.count * shown - (panelBoards.count - 1) * loss.number;
          expect(glued, `${part}, ${wide} ${own}`).toBeGreaterThanOrEqual(width / ownMm - 1e-6);
        }
      }
    },
  );
});
