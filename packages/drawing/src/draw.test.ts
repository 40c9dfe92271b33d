import { describe, expect, it } from 'vitest';
import { type DrawOptions, drawViews } from './draw.ts';
import { placeOfKey } from './place-key.ts';
import { DRAWING_STYLE } from './style.ts';
import { HEADER, SAMPLE, scaled, type TableSizes, tableRows } from './testing/dining-table.ts';
import { type Fake, fakeBook } from './testing/fake-book.ts';
import { measure } from './testing/measure.ts';
import { ownFormat } from './units.ts';
import type { View } from './views.ts';

// Sizes are checked against the inches the table was asked for, measured off the drawn picture.

const inches = ownFormat('us', (own) => `${own}`);
const millimetres = ownFormat('metric', (own) => `${own}`);
const BOTH: DrawOptions = { views: ['plan', 'front'], format: inches };

const bookOf = (sizes: TableSizes) => fakeBook([HEADER, ...tableRows(sizes)]);

function drawn(view: View, options: DrawOptions = BOTH, source = bookOf(SAMPLE)) {
  const svg = drawViews(source, options).svg[view];
  if (svg === undefined) throw new Error(`no ${view} was drawn`);
  return measure(svg);
}

/** Size of each piece's rectangle in a view, in inches, rounded as drawings are. */
function rectangles(view: View, part: number): number[][] {
  return drawn(view)
    .rects.filter((rect) => placeOfKey(rect.part)?.row === part)
    .map(({ width, height }) => [width / 25.4, height / 25.4]);
}

const TOP = 1;
const LEG = 2;
const LONG_APRON = 4;
const SHORT_APRON = 5;

/** 0.01 mm, the rounding of the drawing, in inches. */
const near = (value: number) => expect.closeTo(value, 3);

describe('a table of 84 by 42 by 30 inches', () => {
  it('is drawn to size from above: top, legs, aprons', () => {
    expect(rectangles('plan', TOP)).toEqual([[near(84), near(42)]]);
    expect(rectangles('plan', LEG)).toEqual([
      [near(2.5), near(2.5)],
      [near(2.5), near(2.5)],
    ]);
    expect(rectangles('plan', LONG_APRON)[0]).toEqual([near(84 - 18 - 5), near(0.75)]);
    expect(rectangles('plan', SHORT_APRON)[0]).toEqual([near(0.75), near(42 - 8 - 5)]);
  });

  it('is drawn to size from the side', () => {
    expect(rectangles('front', TOP)).toEqual([[near(84), near(1.5)]]);
    expect(rectangles('front', LEG)[0]).toEqual([near(2.5), near(28.5)]);
    expect(rectangles('front', LONG_APRON)[0]).toEqual([near(61), near(4.25)]);
  });

  it('puts the legs where the overhang says, left edge of the top to leg', () => {
    const { rects } = drawn('front');
    const left = (row: number) => rects.find(({ part }) => placeOfKey(part)?.row === row)?.x ?? 0;
    expect((left(LEG) - left(TOP)) / 25.4).toBeCloseTo(9, 3);
  });

  it('hides the base under the top from above, and shows the top whole', () => {
    const plan = drawn('plan');
    expect(plan.lines('kb-outline')).toEqual([
      [0, 0, 2133.6, 0],
      [0, -1066.8, 2133.6, -1066.8],
      [0, 0, 0, -1066.8],
      [2133.6, 0, 2133.6, -1066.8],
    ]);
    expect(plan.lines('kb-hidden').length).toBeGreaterThan(20);
  });

  it('says each size once, as the workbook writes it, over a line of that length', () => {
    const expected: [view: View, sizes: Record<string, number>][] = [
      ['plan', { length: 84, width: 42, 'side overhang': 4 }],
      [
        'front',
        {
          height: 30,
          'end overhang': 9,
          leg: 2.5,
          'between legs': 61,
          'top thickness': 1.5,
          'clear height': 30 - 1.5 - 4.25,
        },
      ],
    ];
    for (const [view, wanted] of expected) {
      const { sizes, tips } = drawn(view);
      expect(Object.fromEntries(sizes.map(({ key, text }) => [key, text]))).toEqual(
        Object.fromEntries(Object.entries(wanted).map(([key, value]) => [key, `${value}`])),
      );
      for (const [index, { key }] of sizes.entries()) {
        const [x1, y1] = tips[2 * index] ?? [Number.NaN, Number.NaN];
        const [x2, y2] = tips[2 * index + 1] ?? [Number.NaN, Number.NaN];
        expect(Math.hypot(x2 - x1, y2 - y1) / 25.4).toBeCloseTo(wanted[key] ?? Number.NaN, 3);
      }
    }
  });

  it('writes in a small picture the sizes over all and no others, each at its full height', () => {
    const options = {
      ...BOTH,
      views: ['plan', 'front', 'end'] as const,
      sizes: 'overall',
    } as const;
    const { svg } = drawViews(bookOf(SAMPLE), { ...options, panel: { width: 180, height: 120 } });
    const keys = Object.values(svg).map((view) => measure(view).sizes.map(({ key }) => key));
    expect(keys).toEqual([['length', 'width'], ['height'], []]);
    for (const view of Object.values(svg)) {
      const { viewBox, fontSize } = measure(view);
      // Shown 180 px wide, texts are 11 px tall.
      expect((fontSize / (viewBox[2] ?? 0)) * 180).toBeGreaterThan(10.5);
    }
  });

  it.each([
    ['inches', BOTH, bookOf(SAMPLE), 'Front, in inches', 'Front, sizes in inches'],
    [
      'millimeters',
      { ...BOTH, format: millimetres },
      fakeBook([HEADER, ...tableRows(scaled(SAMPLE, 25.4))], 'metric'),
      'Front, in mm',
      'Front, sizes in millimeters',
    ],
  ] as const)(
    'writes of a small picture no caption over its scale bar, in %s: that is shorter, then the words for the units are',
    (_units, options, book, short, long) => {
      const captions = [70, 110, 150, 175, 200, 420].map((width) => {
        const { svg } = drawViews(book, { ...options, panel: { width, height: width } });
        const foot =
          /<g class="kb-caption"[^>]*font-size="([\d.]+)">\s*<text x="([-\d.]+)"[^>]*>([^<]+)<\/text>\s*<text x="([-\d.]+)"[^>]*>([^<]+)</;
        const [, size, from, caption = '', until, bar = ''] = foot.exec(svg.front ?? '') ?? [];
        // The mean of such words in our face, measured in the app, is 0.4 of their height.
        const wide = (text: string): number => text.length * Number(size) * 0.4;
        expect(Number(until) - wide(bar) - (Number(from) + wide(caption))).toBeGreaterThan(0);
        return caption;
      });
      expect(captions[2]).toBe(short);
      expect(captions.at(-1)).toBe(long);
      // With more room none is shorter than before.
      const ranks = captions.map((one) => ['Front', short, long].indexOf(one));
      expect(ranks).toEqual(ranks.toSorted((a, b) => a - b));
      expect(ranks[0]).toBeGreaterThanOrEqual(0);
    },
  );

  it('follows the numbers: two feet longer, everything on the long side moves', () => {
    const longer = bookOf({ ...SAMPLE, length: 108 });
    const { sizes } = drawn('front', BOTH, longer);
    expect(sizes.find(({ key }) => key === 'between legs')?.text).toBe('85');
    expect(drawn('plan', BOTH, longer).rects[0]?.part).toBeDefined();
    expect(drawViews(longer, BOTH).extents?.to.x).toBeCloseTo(108 * 25.4, 9);
  });

  it('measures the same from inches as from millimetres', () => {
    const metric = fakeBook([HEADER, ...tableRows(scaled(SAMPLE, 25.4))], 'metric');
    for (const view of ['plan', 'front', 'end'] as const) {
      const us = drawn(view, { views: [view], format: inches });
      const mm = drawn(view, { views: [view], format: millimetres }, metric);
      expect(mm.rects).toEqual(us.rects);
      expect(mm.lines('kb-outline')).toEqual(us.lines('kb-outline'));
      expect(mm.lines('kb-hidden')).toEqual(us.lines('kb-hidden'));
    }
  });

  it('gives the side overhang to the end view where there is one, and no size twice', () => {
    const options: DrawOptions = { ...BOTH, views: ['plan', 'front', 'end', 'plan'] };
    const views = ['plan', 'front', 'end'] as const;
    const keys = views.map((view) => drawn(view, options).sizes.map(({ key }) => key));
    expect(keys[0]).not.toContain('side overhang');
    expect(keys[2]).toContain('side overhang');
    expect(new Set(keys.flat()).size).toBe(keys.flat().length);
  });

  it('keeps one scale: plan and front line up, and texts are 11 of 420 panel widths tall', () => {
    const plan = drawn('plan');
    const front = drawn('front');
    expect([front.viewBox[0], front.viewBox[2]]).toEqual([plan.viewBox[0], plan.viewBox[2]]);
    expect(front.fontSize).toBe(plan.fontSize);
    expect((plan.fontSize / (plan.viewBox[2] ?? 0)) * 420).toBeCloseTo(11, 1);
  });

  it('draws the grain along the top, clear of the supports below it', () => {
    const plan = drawn('plan');
    const [first = [0, 0, 0, 0]] = plan.lines('kb-grain');
    expect(first[1]).toBe(first[3]);
    const through = plan
      .lines('kb-hidden')
      .filter(
        ([x1, y1, , y2]) => x1 > first[0] && x1 < first[2] && (y1 - first[1]) * (y2 - first[1]) < 0,
      );
    expect(through).toEqual([]);
    const turned = tableRows(SAMPLE).map((cells) =>
      cells.map((c) => (c === 'length' ? 'width' : c)),
    );
    const [up = [0, 0, 1, 0]] = drawn('plan', BOTH, fakeBook([HEADER, ...turned])).lines(
      'kb-grain',
    );
    expect(up[0]).toBe(up[2]);
  });
});

describe('the picture', () => {
  const { svg } = drawViews(bookOf(SAMPLE), BOTH);
  const plan = svg.plan ?? '';

  it('is the same text every time', () => {
    expect(drawViews(bookOf(SAMPLE), BOTH).svg).toEqual(svg);
  });

  it('names no colour of its own and rounds to 0.01 mm', () => {
    const painted = [...plan.matchAll(/(?:fill|stroke)="([^"]*)"/g)].map(([, value]) => value);
    expect(new Set(painted)).toEqual(new Set(['currentColor', 'none']));
    expect(plan).not.toMatch(/<[^>]*\.\d{3}[^>]*>/);
    expect(plan).not.toMatch(/NaN|Infinity|undefined/);
    expect(DRAWING_STYLE).not.toMatch(/#[0-9a-f]{3}|rgb|hsl/i);
  });

  it('has a name and a description for those who cannot see it', () => {
    expect(plan).toContain('role="img"');
    expect(plan).toContain('<title>Top</title>');
    expect(plan).toContain(
      '<desc>84 by 42. Sizes shown: length 84, side overhang 4, width 42. ' +
        '84 long, 42 wide and 30 high over all. Top: 1.5 by 42 by 84. 2 of Leg, left: ',
    );
  });

  it('carries its styles only when it stands alone', () => {
    expect(plan).not.toContain('<style>');
    const alone = drawViews(bookOf(SAMPLE), { ...BOTH, standalone: true }).svg.plan ?? '';
    expect(alone).toContain(`<style>${DRAWING_STYLE}</style>`);
  });

  it('writes a part name as text, whatever is in it', () => {
    const rows = tableRows(SAMPLE).map((cells) => [...cells]);
    const first = rows[0] ?? [];
    first[0] = `</title><script>x("&')</script>\u0007\ud800 \u{1fab5}`;
    const text = drawViews(fakeBook([HEADER, ...rows]), BOTH).svg.plan ?? '';
    expect(text).not.toContain('<script');
    expect(text).toContain(
      '&lt;/title&gt;&lt;script&gt;x(&quot;&amp;&#39;)&lt;/script&gt;\ufffd\ufffd \u{1fab5}, 1.5',
    );
  });

  it('writes what the formatter gives as text, too', () => {
    const odd = drawViews(bookOf(SAMPLE), { ...BOTH, format: () => '<&>' }).svg.plan ?? '';
    expect(odd).toContain('>&lt;&amp;&gt;</text>');
    expect(odd).not.toContain('<&>');
  });

  it('has a scale bar that is as long as it says', () => {
    const [bar = ''] = plan.match(/<path class="kb-scale"[^>]*>/) ?? [];
    const [, from, to] = /M(\S+) \S+?V\S+?H([-\d.]+)V/.exec(bar) ?? [];
    expect(plan).toContain('>1 ft</text>');
    expect(Number(to) - Number(from)).toBeCloseTo(304.8, 1);
  });

  it('points from each piece back to its row', () => {
    const rows = measure(plan).rects.map(({ part }) => placeOfKey(part));
    expect(rows).toHaveLength(12);
    expect(rows).toContainEqual({ sheet: 's1', row: TOP, column: 0 });
    expect(placeOfKey('s1:x:0')).toBeUndefined();
  });
});

describe('what cannot be drawn', () => {
  const says = (rows: Fake[][]) => drawViews(fakeBook([HEADER, ...rows]), BOTH);

  it('says why there is no drawing', () => {
    const none = drawViews({ ...fakeBook([]), tables: () => [] }, BOTH);
    expect(none).toEqual({
      svg: {},
      problems: [],
      says: 'This workbook has no parts table, so there is nothing to draw yet.',
    });
    expect(says([]).says).toContain('no pieces yet');
    expect(says([['Rail', 1, 1, 3, 40]]).says).toContain('No part has a place yet');
    const broken = says([['Rail', 1, 0, 3, 40, null, null, 0, 0, 0]]);
    expect(broken.says).toContain('until the parts table is put right');
    expect(broken.problems).toHaveLength(1);
  });

  it('says how a table is placed, and a maker who does so has one that stands', () => {
    const head = ['Part', 'Count', 'Thickness', 'Width', 'Length', 'Place'];
    const draw = (leg: Fake, top: Fake) =>
      drawViews(fakeBook([head, ['Top', 1, 1, 12, 40, top], ['Leg', 4, 2, 2, 16, leg]]), {
        ...BOTH,
        clashes: true,
      });
    const hint = draw(null, null).says ?? '';
    const [, leg = '', top = ''] =
      /write "([^"]+)" as the place of Leg and "([^"]+)" as the place of Top/.exec(hint) ?? [];
    const stands = draw(leg, top);
    expect(stands.problems).toEqual([]);
    expect(stands.clashes).toEqual({ overlaps: [], floating: [] });
    expect(stands.extents?.to.z).toBeCloseTo(17 * 25.4, 6);
  });

  it('draws the rest when a row is wrong', () => {
    const rows = tableRows(SAMPLE).map((cells) => [...cells]);
    const leg = rows[1] ?? [];
    leg[4] = 'tall';
    const result = drawViews(fakeBook([HEADER, ...rows]), BOTH);
    expect(result.problems.map(({ at }) => at)).toEqual([{ sheet: 's1', row: 2, column: 4 }]);
    expect(measure(result.svg.front ?? '').rects).toHaveLength(10);
  });
});
