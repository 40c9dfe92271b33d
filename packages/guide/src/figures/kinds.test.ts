import { readFileSync } from 'node:fs';
import { loadText, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { readPlan } from '../plan.ts';
import { type Row, stepBook, withSteps } from '../testing/step-book.ts';
import type { Figure } from './figure.ts';
import { figureProblems, figuresOf } from './figures.ts';

/** The dining table with some steps, and with inputs as they are typed. */
function tableWith(steps: readonly Row[], inputs: Readonly<Record<string, string>> = {}): Workbook {
  const file = new URL('../../../../templates/dining-table.json', import.meta.url);
  const loaded = loadText(readFileSync(file, 'utf8'));
  if (!loaded.ok) throw new Error(loaded.says);
  const book = Workbook.open(withSteps(loaded.document, steps));
  for (const [name, text] of Object.entries(inputs)) {
    const at = book.find(name);
    if (at === undefined) throw new Error(`no cell ${name}`);
    book.apply({ do: 'enter', sheet: at.sheet, cells: [{ row: at.row, column: at.column, text }] });
  }
  return book;
}

function drawn(book: Workbook): readonly Figure[] {
  const plan = readPlan(book);
  expect(figureProblems(book, plan)).toEqual([]);
  return [...figuresOf(book, plan).values()];
}

const textsOf = ({ svg }: Figure): readonly string[] =>
  [...svg.matchAll(/<text[^>]*>([^<]*)</g)].map(([, text = '']) => text);

const writtenIn = (figure: Figure | undefined): string =>
  figure === undefined ? '' : textsOf(figure).join(' ');

const numberOf = (book: Workbook, name: string): number => {
  const value = book.named(name)?.value;
  if (value?.kind !== 'number') throw new Error(`no number ${name}`);
  return value.number;
};

describe('the figure of a step at the dining table', () => {
  it('shows which boards come together in each round of gluing', () => {
    const figures = drawn(
      tableWith([{ step: 'Glue', figure: 'glue-up', builds: 'Top', repeats: 3 }]),
    );
    expect(figures.map((one) => /This round: ([^A-Z]*)/.exec(writtenIn(one))?.[1]?.trim())).toEqual(
      ['1 and 2, 3 and 4, 5 and 6, 7 and 8', '1–2 and 3–4, 5–6 and 7–8', '1–4 and 5–8'],
    );
    expect(writtenIn(figures[0])).toContain('First clamp 3 in from each end');
    expect(writtenIn(figures[0])).toContain('Bark side down');
  });

  it('sets fence and blade for the groove', () => {
    const [figure] = drawn(tableWith([{ step: 'Saw', figure: 'groove' }]));
    const written = writtenIn(figure);
    expect(written).toContain('Fence to blade 1/2 in');
    expect(written).toContain('Blade up 3/4 in');
    expect(written).toContain('inside face down');
    const [wider] = drawn(tableWith([{ step: 'Saw', figure: 'groove' }], { groove_edge: '5/8' }));
    expect(writtenIn(wider)).toContain('Fence to blade 5/8 in');
  });

  it('shows no saw where a router cuts the groove', () => {
    const [figure] = drawn(
      tableWith([{ step: 'Rout', figure: 'groove', tools: 'router, edge guide' }]),
    );
    expect(writtenIn(figure)).toContain('Edge to groove 1/2 in');
    expect(`${writtenIn(figure)} ${figure?.says}`).not.toMatch(/fence|blade|saw/i);
  });

  it.each([
    ['groove: Long apron, routed', 'Oberfräse', 'routed'],
    ['groove: ROUTED', '', 'routed'],
    ['groove: Long apron, sawn', 'router', 'sawn'],
    ['groove', 'router, table saw', 'sawn'],
    ['groove: Long apron', 'Oberfräse', 'sawn'],
  ])(
    'takes from "%s" with "%s" that it is %s, in whatever language the tools are',
    (figure, tools, cut) => {
      const [drawnOne] = drawn(tableWith([{ step: 'Groove', figure, tools }]));
      const written = writtenIn(drawnOne);
      expect(written).toContain('Long apron');
      expect(written).toContain(
        cut === 'routed' ? 'Edge to groove 1/2 in' : 'Fence to blade 1/2 in',
      );
    },
  );

  it('says where each pocket goes and which screw goes into it', () => {
    const [figure] = drawn(
      tableWith([{ step: 'Drill', figure: 'pocket holes', builds: 'Short apron' }]),
    );
    const written = writtenIn(figure);
    expect(written).toContain('Screw 2 1/2 in');
    // A quarter of an apron of 3 1/2 in would be 7/8 in, where the groove ends: half a pocket and a little wood further.
    expect(written).toContain('1 1/8 and 2 3/8 in from the top edge');
    expect(figure?.says).toContain('its tip stays in Leg');
  });

  it('shows as many fasteners as the workbook counts', () => {
    for (const length of ['84', '60', '120']) {
      const book = tableWith([{ step: 'Fasten', figure: 'fasteners' }], { top_length: length });
      const [figure] = drawn(book);
      expect(figure?.svg.match(/<circle class="kb-iron"/g)).toHaveLength(
        numberOf(book, 'fastener_count'),
      );
    }
  });

  it('tells the gap at the shoulder in each season', () => {
    const book = tableWith([{ step: 'Wait a year', figure: 'seasons' }]);
    const [figure] = drawn(book);
    const share = numberOf(book, 'support_length') / numberOf(book, 'top_width');
    const expected = ['movement_from_build_dry', undefined, 'movement_from_build_humid'].map(
      (name) => 0.25 - (name === undefined ? 0 : (numberOf(book, name) / 2) * share),
    );
    const gaps = textsOf(figure as Figure).flatMap((text) => {
      const [, over, under] = /^Gap (\d+)\/(\d+) in$/.exec(text) ?? [];
      return over === undefined ? [] : [Number(over) / Number(under)];
    });
    expect(gaps).toHaveLength(3);
    for (const [i, gap] of gaps.entries()) {
      expect(Math.abs(gap - (expected[i] ?? 0))).toBeLessThanOrEqual(1 / 64);
    }
    expect(gaps[0]).toBeGreaterThan(gaps[2] ?? 0);
  });

  it('cuts open the joint that is asked for', () => {
    const [one] = drawn(
      tableWith([{ step: 'Fit', figure: 'joint: Long apron into Leg' }], { tenon_length: '1' }),
    );
    expect(writtenIn(one)).toContain('Leg and long apron: mortise and tenon');
    expect(writtenIn(one)).not.toContain('short apron');
  });

  it('shows of joints that are made alike one, and names the others', () => {
    const fit = [{ step: 'Fit', figure: 'joint: apron into Leg' }];
    const [alike] = drawn(tableWith(fit, { tenon_length: '1' }));
    expect(textsOf(alike as Figure).filter((text) => text.includes('mortise'))).toEqual([
      'Leg and long apron: mortise and tenon',
    ]);
    expect(writtenIn(alike)).toContain('Made alike: Leg and short apron');
  });

  it('shows the boards that its parts come out of', () => {
    const [legs, all, aprons] = drawn(
      tableWith([
        { step: 'Cut the legs', figure: 'cutting', builds: 'Leg' },
        { step: 'Cut', figure: 'cutting' },
        { step: 'Aprons', figure: 'cutting: Long apron, Short apron' },
      ]),
    );
    expect(legs?.svg).toContain('class="kb-board');
    expect(legs?.says).toContain('Leg');
    expect(legs?.says).not.toContain('Top');
    expect(all?.says).toContain('Top');
    expect(aprons?.says).toContain('apron');
    expect(aprons?.says).not.toContain('Top');
  });

  it('says the sizes of the finished piece and the names of its parts', () => {
    const [figure] = drawn(tableWith([{ step: 'Look', figure: 'parts' }], { top_length: '96' }));
    expect(writtenIn(figure)).toContain('Over all: 96 × 42 × 30 in');
    expect(textsOf(figure as Figure)).toEqual(expect.arrayContaining(['Top', 'Leg × 4']));
  });

  it('tells the diagonals of a square top and of the base under it', () => {
    const [top, base] = drawn(
      tableWith([
        { step: 'Trim', figure: 'squaring: Top', measure: 'top_length, top_width' },
        { step: 'Fit', figure: 'dry fit', measure: 'clear_long, clear_short' },
      ]),
    );
    // √(84² + 42²) = 93.915 and √(59² + 29²) = 65.742, to the nearest 1/16.
    expect(writtenIn(top)).toContain('Both diagonals 93 15/16 in');
    expect(writtenIn(base)).toContain('Diagonal 65 3/4 in');
    // What the drawing bears need not be told beneath it.
    expect(top?.tells).toHaveLength(2);
    expect(writtenIn(top).match(/84 in/g)).toHaveLength(1);
  });

  it('planes the boards of a top to more than the top comes to, and aprons to what they are', () => {
    const book = tableWith([
      { step: 'Plane', figure: 'milling: Top, Long apron' },
      { step: 'Flatten', figure: 'flattening: Top' },
      { step: 'Glue', figure: 'glue-up: Top' },
    ]);
    const [milled, flat, glued] = drawn(book);
    expect(writtenIn(milled)).toContain('Top (boards): plane to 1 3/4 in');
    expect(writtenIn(milled)).toContain('Long apron: plane to 1 1/2 in');
    expect(writtenIn(flat)).toContain('Now 1 3/4 in');
    expect(writtenIn(flat)).toContain('Ends at 1 1/2 in');
    expect(writtenIn(glued)).toContain('8 boards: 1 3/4 × 5 5/16 × 85 in');
  });

  it('names the grits, the coats and the moisture that the workbook has', () => {
    const book = tableWith([
      { step: 'Sand', figure: 'sanding: Top' },
      { step: 'Finish', figure: 'coats' },
      { step: 'Rest', figure: 'stack', measure: 'moisture_build' },
    ]);
    const [grits, coats, rest] = drawn(book);
    const steps = book.named('grit_steps')?.shown.text.match(/\d+/g) ?? [];
    expect(textsOf(grits as Figure)).toEqual(steps);
    expect(textsOf(coats as Figure)).toEqual(
      expect.arrayContaining(['Coat 1', 'Coat 3', '24 h', 'Dry', '36 h']),
    );
    for (const name of ['moisture_dry', 'moisture_build', 'moisture_humid']) {
      expect(writtenIn(rest)).toContain(` ${book.named(name)?.shown.text} %`);
    }
  });

  it('shades what the seasons make of the wood, and no more where boards were wetter', () => {
    const steps = [{ step: 'Rest', figure: 'stack', measure: 'moisture_build' }];
    const shaded = (inputs = {}): number => {
      const [figure] = drawn(tableWith(steps, inputs));
      const d = /class="kb-band"[^>]* d="M(\S+) \S+L(\S+) /.exec(figure?.svg ?? '');
      return Number(d?.[2]) - Number(d?.[1]);
    };
    // The scale is drawn as wide for more per cent, and the same ones take less of it.
    expect(shaded({ moisture_build: '14' })).toBeLessThan(0.8 * shaded());
  });

  it('draws the outline by what it is drawn with', () => {
    const steps = [{ step: 'Saw', figure: 'outline: Top' }];
    const [round] = drawn(tableWith(steps, { top_shape: 'round', top_length: '42' }));
    const [oval] = drawn(tableWith(steps, { top_shape: 'oval' }));
    const [corners] = drawn(tableWith(steps, { top_shape: 'rounded corners' }));
    expect(writtenIn(round)).toContain('Trammel 21 in');
    // A strip with its marks at half the length and half the width.
    expect(writtenIn(oval)).toContain('Mark at 42 in');
    expect(writtenIn(oval)).toContain('Mark at 21 in');
    expect(writtenIn(corners)).toContain('Radius 3 in');
  });

  it('shows both edges of a panel through the seasons, and one where the other is held', () => {
    const both = drawn(tableWith([{ step: 'Wait', figure: 'seasons: Top' }]))[0];
    const one = drawn(
      tableWith([{ step: 'Wait', figure: 'seasons: Top, held at its front edge' }]),
    )[0];
    expect(writtenIn(both)).toContain('each side');
    expect(writtenIn(one)).not.toContain('each side');
    expect(both?.caption).toContain('edges were');
    expect(one?.caption).toContain('free edge was');
    const moved = (figure: Figure | undefined): readonly number[] =>
      [...writtenIn(figure).matchAll(/(\d+)\/(\d+) in/g)].map(([, a, b]) => Number(a) / Number(b));
    // All of the movement comes out at one edge.
    const [halves, whole] = [moved(both), moved(one)];
    expect(whole).toHaveLength(2);
    for (const [i, mm] of whole.entries()) {
      expect(Math.abs(mm - 2 * (halves[i] ?? 0))).toBeLessThanOrEqual(1 / 32);
    }
  });

  it('cuts open a button, a slot and a tapered leg with the sizes of the workbook', () => {
    const book = tableWith(
      [
        { step: 'Buttons', figure: 'buttons' },
        { step: 'Slots', figure: 'slots: Cross support', measure: 'slot_length' },
        { step: 'Taper', figure: 'taper: Leg' },
        { step: 'Sizes', figure: 'sizes: Long apron, Short apron' },
      ],
      { leg_shape: 'tapered on four faces' },
    );
    const [button, slot, taper, sizes] = drawn(book);
    expect(writtenIn(button)).toContain(`Tongue ${book.named('tongue_length')?.shown.text} in`);
    expect(writtenIn(slot)).toContain(`Slot ${book.named('slot_length')?.shown.text} in`);
    expect(writtenIn(taper)).toContain('Tapered on four faces');
    expect(writtenIn(taper)).toContain(`Foot ${book.named('leg_foot')?.shown.text} in`);
    expect(writtenIn(sizes)).toContain('59 in long');
  });

  it('names every part of the same sizes, beneath where there is no room at the drawn one', () => {
    const names = ['Left side', 'Right side', 'Box front', 'Box back', 'Till'];
    const book = stepBook({
      steps: [{ step: 'Cut', figure: `sizes: ${names.join(', ')}` }],
      parts: names.map((part) => ({ part, count: 2, thickness: 0.5, width: 3, length: 14 })),
    });
    const [figure] = drawn(book);
    for (const name of names) expect(writtenIn(figure)).toContain(name);
    expect(writtenIn(figure)).toContain('Box back × 2, Till × 2: 1/2 × 3 × 14 in');
  });

  it('counts the clamps it draws where the workbook counts none', () => {
    const steps = [{ step: 'Glue', figure: 'glue-up: Top' }];
    const book = tableWith(steps);
    const clampsIn = (): string =>
      /Clamps for one joint: \d+/.exec(writtenIn(drawn(book)[0]))?.[0] ?? '';
    const { sheet, row, column } = book.named('clamp_count')?.at ?? {
      sheet: '',
      row: 0,
      column: 0,
    };
    const done = book.apply({ do: 'enter', sheet, cells: [{ row, column, text: '0' }] });
    expect(done.ok).toBe(true);
    // 84 in of boards that are an inch longer, the first clamp 3 in from each end, at most 12 in apart.
    expect(clampsIn()).toBe(`Clamps for one joint: ${1 + Math.ceil((85 - 2 * 3) / 12)}`);
  });

  it('leaves the sizes of a step to the page where it wants them beside the figure', () => {
    const book = tableWith([{ step: 'Legs', figure: 'assembly', builds: 'Leg', measure: 'seats' }]);
    const plan = readPlan(book);
    const [beneath] = [...figuresOf(book, plan).values()];
    const [beside] = [...figuresOf(book, plan, { sizes: 'beside' }).values()];
    expect(writtenIn(beneath)).toContain('Seats: 8');
    expect(writtenIn(beside)).not.toContain('Seats');
  });

  it('says what it needs where it cannot be drawn', () => {
    const figures = [
      'stack',
      'sanding',
      'slots',
      'buttons',
      'taper',
      'tenons',
      'dry fit',
      'panel gap',
      'coats',
      'outline',
      'edge',
      'glue-up',
      'groove',
      'pocket holes',
      'joint',
      'fasteners',
      'seasons',
      'cutting',
    ];
    const book = stepBook({ steps: figures.map((figure) => ({ step: figure, figure })) });
    const plan = readPlan(book);
    const problems = figureProblems(book, plan);
    expect(problems).toHaveLength(figures.length);
    for (const { says } of problems) expect(says).toMatch(/^Step \d+: .*\. .*\.$/);
    expect(figuresOf(book, plan).size).toBe(0);
  });
});
