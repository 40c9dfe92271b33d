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
    // A quarter of an apron of 3 1/2 in from each edge.
    expect(written).toContain('7/8 and 2 5/8 in from the top edge');
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

  it('says what it needs where it cannot be drawn', () => {
    const figures = [
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
    for (const { says } of problems) expect(says).toMatch(/^Step \d: .*\. .*\.$/);
    expect(figuresOf(book, plan).size).toBe(0);
  });
});
