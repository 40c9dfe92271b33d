import { Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { readPlan } from '../plan.ts';
import { stepBook } from '../testing/step-book.ts';
import { escaped, html } from './html.ts';
import { hoursWords } from './making.ts';
import { hardwareOf } from './needs.ts';
import { GUIDE_PARTS, type GuideOptions } from './options.ts';
import { PAGE_WORDS } from './page-words.ts';
import { guideSections } from './sections.ts';
import { GUIDE_STYLES } from './styles.ts';
import { guidePage } from './whole-page.ts';

const CAUTION = 'Keep the guard on.';
const STEPS = [
  {
    step: 'Cut the legs',
    text: 'Cut them {seat_length} long.\nMark each end.',
    builds: 'Leg',
    measure: 'seat_length',
    tools: 'table saw, pencil',
    hardware: '8 screws, wood glue',
    caution: CAUTION,
    'hands-on': 1.5,
    waiting: 0.75,
  },
  {
    step: 'Make the seat',
    builds: 'Seat, Rail, long',
    tools: 'Pencil',
    hardware: '4 screws, {rounds_needed} clips, wood glue',
    'hands-on': 2,
  },
];

const sections = (book: Workbook, options: GuideOptions = {}) =>
  new Map(guideSections(book, options).map((one) => [one.id, one.html]));

/** A page as it reads, numbers as they are read aloud where `aloud`. */
const words = (markup = '', aloud = false): string =>
  markup
    .replaceAll(
      aloud
        ? /<span aria-hidden="true">[^<]*<\/span>/g
        : /<span class="kb-aloud"[^>]*>[^<]*<\/span>/g,
      '',
    )
    .replaceAll(/<svg.*?<\/svg>/gs, ' ')
    .replaceAll(/<\/?(?:p|li|h\d|dt|dd|div|td|th|tr|section|figure)\b[^>]*>/g, ' ')
    .replaceAll(/<[^>]*>/g, '')
    .replaceAll(/\s+/g, ' ')
    .trim();

describe('a guide', () => {
  it('has each part of its plan once, its steps in their order', () => {
    const book = stepBook({ steps: STEPS });
    const ids = guideSections(book).map(({ id }) => id);
    expect(ids).toEqual([
      'cover',
      'needs',
      'cautions',
      'cut-list',
      ...readPlan(book).steps.map(({ key }) => `step-${key}`),
      'care',
      'credits',
    ]);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('makes only the parts that are asked for', () => {
    const book = stepBook({ steps: STEPS });
    for (const part of GUIDE_PARTS) {
      const all = guideSections(book).filter(({ id }) =>
        part === 'steps' ? id.startsWith('step-') : id === part,
      );
      expect(guideSections(book, { parts: [part] })).toEqual(all);
    }
  });

  it('shows in its sentences the numbers of the cells, and says them aloud', () => {
    const book = stepBook({ steps: STEPS });
    const [first] = readPlan(book).steps;
    const step = sections(book).get(`step-${first?.key}`);
    const cell = book.named('seat_length');
    expect(words(step)).toContain(`Cut them ${cell?.shown.text} ${cell?.unit} long.`);
    expect(words(step, true)).toContain('Cut them 33 and 3/16 inches long.');
    book.apply({ do: 'enter', sheet: 'sizes', cells: [{ row: 0, column: 1, text: '45 1/2' }] });
    expect(words(sections(book).get(`step-${first?.key}`))).toContain('Cut them 45 1/2 in long.');
  });

  it('gathers what is needed: each tool once, hardware and hours of all steps together', () => {
    const needs = words(sections(stepBook({ steps: STEPS })).get('needs'));
    expect(needs.match(/pencil/gi)).toHaveLength(1);
    expect(needs).toContain('12 screws');
    expect(needs).toContain('3 clips');
    expect(needs.match(/wood glue/g)).toHaveLength(1);
    expect(needs).toContain('Hands-on 3 h 30 min');
    expect(needs).toContain('Waiting 45 min');
  });

  it('names glue with its amount alone, and no tool as the other of two that are there', () => {
    const needs = words(
      sections(
        stepBook({
          steps: [
            { step: 'Glue', hardware: 'wood glue (4 fl oz in all)', tools: 'drill press or drill' },
            { step: 'Join', hardware: 'wood glue, 2 clips', tools: 'drill, jigsaw or band saw' },
          ],
        }),
      ).get('needs'),
    );
    expect(needs.match(/wood glue/g)).toHaveLength(1);
    expect(needs).toContain('wood glue (4 fl oz in all)');
    expect(needs).toContain('Drill');
    expect(needs).not.toContain('Drill press');
    expect(needs).toContain('Jigsaw or band saw');
  });

  it('says once what later rounds of a step say again', () => {
    const steps = [
      { step: 'Look', text: 'Look at it.' },
      { step: 'Glue, {round} of {rounds}', text: 'Clamp it up.', repeats: 3 },
      { step: 'Turn it', text: 'Turn {round}.', repeats: 2 },
    ];
    const book = stepBook({ steps });
    const all = readPlan(book).steps.map(({ key }) => words(sections(book).get(`step-${key}`)));
    expect(all[1]).toContain('Clamp it up.');
    for (const later of [all[2], all[3]]) {
      expect(later).not.toContain('Clamp it up.');
      expect(later).toContain('As in step 2, with what the figure shows.');
    }
    // What counts its rounds says something else each time.
    expect(all[5]).toContain('Turn 2.');
  });

  it('counts nothing that is a size', () => {
    const runs = (text: string) => [{ kind: 'words', words: text }] as const;
    const sums = hardwareOf([
      {
        hardware: [
          runs('2 1/2 in screws'),
          runs('8 mm dowels'),
          runs('1,200 nails'),
          runs('6 × hooks'),
        ],
      },
      {
        hardware: [
          runs('2 1/2 in screws'),
          runs('8 mm dowels'),
          runs('300 nails'),
          runs('2 hooks'),
        ],
      },
    ]);
    expect(
      sums.map(({ count, runs: [run] }) => [count, run?.kind === 'words' && run.words]),
    ).toEqual([
      [undefined, '2 1/2 in screws'],
      [undefined, '8 mm dowels'],
      [1500, 'nails'],
      [8, 'hooks'],
    ]);
  });

  it('hides the cost of the material only where its maker hides costs', () => {
    const cost = (hides?: 'costs'[]) => {
      const { sheets, ...rest } = stepBook({ steps: STEPS }).document();
      const row = {
        id: 'r9',
        cells: {
          c1: { value: 'Material' },
          c2: { value: 99.5, quantity: 'money', name: 'cost_material' },
        },
      } as const;
      const [first, ...others] = sheets;
      if (first === undefined) throw new RangeError('the book has no sheet');
      const book = Workbook.open({
        ...rest,
        sheets: [{ ...first, rows: [...first.rows, row] }, ...others],
        guide: { ...(hides === undefined ? {} : { hides }) },
      });
      return words(sections(book).get('needs'));
    };
    expect(cost()).toContain('$99.50');
    expect(cost(['costs'])).not.toContain('99.50');
  });

  it('puts what the checks say before everything else, and a box of words around it', () => {
    const book = stepBook({
      steps: STEPS,
      head: {
        checks: [
          {
            id: 'k1',
            name: 'Long',
            formula: '=seat_length<30',
            severity: 'stop',
            says: 'Too long at {seat_length}.',
          },
          { id: 'k2', name: 'Fine', formula: '=seat_length>1', severity: 'care', says: 'Never.' },
        ],
      },
    });
    const checks = sections(book).get('checks');
    expect(words(checks)).toContain('Stop Too long at 33 3/16');
    expect(words(checks)).not.toContain('Never.');
    expect(guideSections(book)[1]?.id).toBe('checks');
  });

  it('marks a caution by a word and a sign, within its step', () => {
    const [first] = readPlan(stepBook({ steps: STEPS })).steps;
    const step = sections(stepBook({ steps: STEPS })).get(`step-${first?.key}`) ?? '';
    expect(words(step)).toContain(`▲ Caution ${CAUTION}`);
    expect(step.indexOf(CAUTION)).toBeLessThan(step.indexOf('Cut them'));
  });

  it('shows a sign for a number that is lost, and lists it at the end', () => {
    const book = stepBook({
      steps: [...STEPS, { step: 'Look', text: 'It is {broken} and {broken}, {nothing_yet} wide.' }],
    });
    const all = sections(book);
    const lost = words(all.get('lost'));
    expect(lost).toContain('Step 3: broken is #DIV/0!');
    expect(lost.match(/broken is/g)).toHaveLength(1);
    expect(lost).toContain('nothing_yet is blank');
    const [, , third] = readPlan(book).steps;
    expect(words(all.get(`step-${third?.key}`))).toContain('It is … and …, … wide.');
    expect(all.get(`step-${third?.key}`)).toContain('title="broken is #DIV/0!');
  });

  it('stands without steps, without parts and with a step that builds nothing', () => {
    const ids = (book: Workbook) => guideSections(book).map(({ id }) => id);
    expect(ids(stepBook({ steps: [], head: { tables: [] } }))).toEqual([
      'cover',
      'cautions',
      'credits',
    ]);
    expect(ids(stepBook({ steps: [{ step: 'Rest' }] })).some((id) => id.startsWith('step-'))).toBe(
      true,
    );
    expect(guidePage(stepBook({ steps: [], head: { tables: [] } }), { paper: 'a4' })).toContain(
      '</html>',
    );
  });

  it('tells a size under a figure that is lost, as it tells one in a text', () => {
    const told = ({ measure = '', text = '' }) => {
      const all = sections(stepBook({ steps: [{ step: 'Look', figure: 'none', measure, text }] }));
      const step = [...all].find(([id]) => id.startsWith('step-'))?.[1];
      return { lost: words(all.get('lost')), step: words(step) };
    };
    const [size, text] = [told({ measure: 'broken' }), told({ text: '{broken}' })];
    expect(size.lost).toContain('broken is #DIV/0!');
    expect(size.lost).toBe(text.lost);
    expect(size.step).toContain('Broken …');
    expect(told({ measure: 'seat_length' }).lost).toBe('');
  });

  it('is made of 300 steps', () => {
    const steps = Array.from({ length: 300 }, (_, i) => ({
      step: `Step of ${i}`,
      text: 'As {seat_length}.',
    }));
    const page = guidePage(stepBook({ steps }), { paper: 'letter' });
    expect(page.match(/data-section="step-/g)).toHaveLength(300);
  });

  it('waits for a plan that is worked out elsewhere', () => {
    const book = stepBook({ steps: STEPS });
    expect(words(sections(book, { plan: 'later' }).get('cutting-plan'))).toContain(
      'being worked out',
    );
  });

  it('ticks on a screen what on paper has a box', () => {
    const book = stepBook({ steps: STEPS });
    const ticked = sections(book, { ticks: true }).get('cut-list') ?? '';
    // A seat, four legs and two rails.
    expect(ticked.match(/<input type="checkbox"/g)).toHaveLength(7);
    const keys = [...ticked.matchAll(/data-tick="([^"]*)"/g)].map(([, key]) => key);
    expect(new Set(keys).size).toBe(7);
    const printed = sections(book).get('cut-list') ?? '';
    expect(printed.match(/class="guide-box"/g)).toHaveLength(7);
    expect(printed).not.toContain('<input');
  });
});

describe('a guide in a second language', () => {
  const translated = [
    { words: 'Cut list', translated: 'Zuschnittliste' },
    { words: 'Step {number}', translated: 'Schritt {number}' },
    { words: 'Leg', translated: 'Bein' },
    { words: 'Cut the legs', translated: 'Die Beine zuschneiden' },
    { words: 'Cut them {seat_length} long.', translated: 'Auf {seat_length} ablängen.' },
    { words: 'A made-up stool', translated: 'Ein erfundener Hocker' },
  ];
  const book = stepBook({
    steps: STEPS,
    words: translated,
    head: { guide: { language: 'en', second: 'de' } },
  });

  it('says its own words, the steps and the parts in it, and which words are not', () => {
    const page = guidePage(book, { paper: 'a4', second: true });
    expect(page).toContain('<html lang="de">');
    expect(page).toContain('<title>Ein erfundener Hocker</title>');
    const all = sections(book, { second: true });
    expect(words(all.get('cut-list'))).toContain('Zuschnittliste');
    expect(words(all.get('cut-list'))).toContain('Bein');
    const step = [...all].find(([id]) => id.startsWith('step-'))?.[1] ?? '';
    expect(words(step)).toContain('Schritt 1 Die Beine zuschneiden');
    expect(words(step)).toContain('Auf 33 3/16 in ablängen.');
    // What nobody translated says which language it is in.
    expect(step).toContain(`<span lang="en">${CAUTION}</span>`);
    expect(all.get('needs')).toContain('<span lang="en">What you need</span>');
  });

  it('marks nothing where all is in one language', () => {
    expect(guidePage(book, { paper: 'a4' }).match(/ lang="/g)).toHaveLength(1);
  });

  it('has a maker translate each of its words once', () => {
    expect(new Set(PAGE_WORDS).size).toBe(PAGE_WORDS.length);
    for (const word of PAGE_WORDS) expect(word).toBe(word.trim());
  });
});

const NASTY = `"><script>alert(1)</script><img src=x onerror=alert(2)></style>]]>&amp;'\u0000`;

describe('a hostile workbook', () => {
  const book = stepBook({
    steps: [
      {
        step: `T${NASTY}`,
        text: `X${NASTY}`,
        builds: 'Leg, Seat, Rail, long',
        tools: `t${NASTY}`,
        hardware: `8 h${NASTY}`,
        caution: `C${NASTY}`,
        photo: 'one',
      },
    ],
    parts: [
      { part: `P${NASTY}`, count: 1, thickness: 1, width: 2, length: 3, material: `M${NASTY}` },
    ],
    words: [{ words: 'Cut list', translated: `W${NASTY}` }],
    head: {
      title: `B${NASTY}`,
      author: `A${NASTY}`,
      licence: `L${NASTY}`,
      revision: `R${NASTY}`,
      guide: { before: NASTY, after: NASTY, credits: NASTY, title: `G${NASTY}`, second: 'de' },
      photos: { one: { says: NASTY, data: 'data:image/png;base64,iVBORw0KGgo=' } },
      checks: [{ id: 'k', name: NASTY, formula: '=1=2', severity: 'stop', says: NASTY }],
    },
  });

  it.each([[false], [true]])('puts nothing into the page but words (second: %s)', (second) => {
    const page = guidePage(book, { paper: 'a4', second, ticks: true });
    const tags = [...page.matchAll(/<\/?([a-zA-Z!][^\s/>]*)/g)].map(([, tag = '']) => tag);
    expect(tags).not.toContain('script');
    expect(page).not.toMatch(/<img (?!src="data:image\/png;base64,)/);
    expect(page).not.toMatch(/<[^>"]*(?:"[^"]*"[^>"]*)*\son\w+=/);
    expect(page.match(/<\/style/g)).toHaveLength(1);
    expect(page).not.toContain('\u0000');
    expect(page).not.toMatch(/<[^>]* style="/);
    // The words are there all the same.
    expect(page).toContain('&lt;script&gt;alert(1)&lt;/script&gt;');
  });

  it('shows no picture but one that is written as pictures are', () => {
    expect(guidePage(book, { paper: 'a4' })).toContain('src="data:image/png;base64,iVBORw0KGgo="');
    const photos = { one: { data: 'javascript:alert(1)' } };
    const source = new Proxy(book, {
      get: (target, key) => {
        if (key === 'head') return { ...target.head, photos };
        const found = Reflect.get(target, key, target);
        return typeof found === 'function' ? found.bind(target) : found;
      },
    });
    expect(guidePage(source, { paper: 'a4' })).not.toContain('javascript:');
  });
});

describe('pieces of a page', () => {
  it('are escaped wherever they stand', () => {
    expect(escaped(`<a b="c" d='e'>&`)).toBe('&lt;a b=&quot;c&quot; d=&#39;e&#39;&gt;&amp;');
    expect(html`<p title="${'"'}">${['<', html`<b>${1}</b>`]}${undefined}</p>`.markup).toBe(
      '<p title="&quot;">&lt;<b>1</b></p>',
    );
  });

  it.each([
    [0.75, '45 min', '45 minutes'],
    [1, '1 h', '1 hour'],
    [2.5, '2 h 30 min', '2 hours 30 minutes'],
    [1 + 1 / 60, '1 h 1 min', '1 hour 1 minute'],
    [0.999999, '1 h', '1 hour'],
    [0.001, '1 min', '1 minute'],
    [0, '0 h', '0 hours'],
  ])('say %s hours', (hours, short, aloud) => {
    expect(hoursWords(hours)).toEqual({ words: short, aloud });
  });

  it('have styles that nothing leads out of', () => {
    expect(GUIDE_STYLES).not.toMatch(/url\(|@import|<\//);
  });

  it.each([
    ['a4', 'size: A4'],
    ['letter', 'size: letter'],
  ] as const)('know their paper: %s', (paper, says) => {
    expect(guidePage(stepBook({ steps: STEPS }), { paper })).toContain(says);
  });
});
