import { readFileSync } from 'node:fs';
import { loadText, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { readPlan } from '../plan.ts';
import { type Row, withSteps } from '../testing/step-book.ts';
import type { Figure } from './figure.ts';
import { figureProblems, figuresOf } from './figures.ts';
import { asItIsThen } from './not-yet.ts';
import { Stage } from './stage.ts';

/** A template with some steps, and with inputs as they are typed. */
function bookWith(
  name: string,
  steps: readonly Row[],
  inputs: Readonly<Record<string, string>> = {},
): Workbook {
  const file = new URL(`../../../../templates/${name}.json`, import.meta.url);
  const loaded = loadText(readFileSync(file, 'utf8'));
  if (!loaded.ok) throw new Error(loaded.says);
  const book = Workbook.open(withSteps(loaded.document, steps));
  for (const [input, text] of Object.entries(inputs)) {
    const at = book.find(input);
    if (at === undefined) throw new Error(`no cell ${input}`);
    book.apply({ do: 'enter', sheet: at.sheet, cells: [{ row: at.row, column: at.column, text }] });
  }
  return book;
}

/** The only figure of a template, at a size. */
function drawn(
  name: string,
  figure: string,
  inputs: Readonly<Record<string, string>> = {},
  more: Row = {},
): Figure {
  const book = bookWith(name, [{ step: 'Do it', figure, ...more }], inputs);
  const plan = readPlan(book);
  expect(figureProblems(book, plan)).toEqual([]);
  const [found] = figuresOf(book, plan).values();
  if (found === undefined) throw new Error(`no figure ${figure}`);
  return found;
}

const writtenIn = ({ svg }: Figure): string =>
  [...svg.matchAll(/<text[^>]*>([^<]*)</g)].map(([, text = '']) => text).join(' ');

describe('what is marked out on a face', () => {
  it('has each dado of a side with its distance from the foot', () => {
    // Of 71 1/4 in, the bottom begins 3 in up, the first shelf 13 5/8 in further.
    const written = writtenIn(drawn('bookcase', 'marking: dado in Side from the bottom'));
    expect(written).toContain('Dado for bottom: 3 to 3 3/4 in');
    expect(written).toContain('Dado for shelf: 16 5/8 to 17 3/8 in');
    expect(written).toContain('Dado for shelf: 30 5/16 to 31 1/16 in');
    expect(written).not.toContain('abbet');
    const two = writtenIn(
      drawn('bookcase', 'marking: dado in Side from the bottom', { shelf_count: '2' }),
    );
    expect(two.match(/Dado for shelf: \d+ \d/g)).toHaveLength(2);
  });

  it('has each hole with the middle of it, and how far it is from the edge', () => {
    const figure = drawn('plywood-cabinet', 'marking: hole in Side from the bottom');
    const written = writtenIn(figure);
    expect(written).toContain('Hole: 9 1/4 in');
    expect(written).toContain('Hole: 21 1/4 in');
    expect(figure.svg.match(/<ellipse/g)).toHaveLength(14);
    expect(written).toContain('1/4 in across, 3/8 in deep; middle 2 and 21 7/32 in from the front');
  });

  it('measures from the same end whichever is asked for', () => {
    const written = (figure: string): string => writtenIn(drawn('trestle-table', figure));
    // The post is 26 in long; its lower mortise begins 7 5/16 in up and is 1 7/16 in high.
    expect(written('marking: Post from the bottom')).toContain('7 5/16 to 8 3/4 in');
    expect(written('marking: Post')).toContain('17 1/4 to 18 11/16 in');
  });

  it('says that the other piece is its mirror image only where it is', () => {
    const hinge = drawn('cabinet-door', 'marking: hole in Hinge stile', { doors: '1' });
    expect(hinge.caption).not.toContain('mirror');
    expect(drawn('cabinet-door', 'marking: rabbet in Panel').caption).not.toContain('mirror');
    expect(drawn('bookcase', 'marking: rabbet in Side').caption).toContain('mirror');
  });
});

/** Rectangles that are filled with wood, as wide and high as they are drawn. */
const woodsIn = ({ svg }: Figure): readonly (readonly [number, number])[] =>
  [...svg.matchAll(/<path class="kb-face [^>]* d="M(\S+) (\S+)L\S+ \S+L(\S+) ([^L]+)L/g)].map(
    ([, x0, y0, x1, y1]) => [Number(x1) - Number(x0), Number(y1) - Number(y0)],
  );

describe('the figures of cases, doors and bases', () => {
  it('show parts to one scale, however wide they are', () => {
    // A nailer 4 by 24 13/16, a shelf 17 11/16 by 24 11/16 and a back 25 9/16 by 34 1/2 in.
    const inputs = { cabinet: 'wall', case_width: '26 3/16', case_depth: '18 3/8' };
    const figure = drawn('plywood-cabinet', 'sizes: Nailer, Shelf, Back', inputs);
    expect(figure.caption).toBe('To one scale.');
    const book = bookWith('plywood-cabinet', [], inputs);
    const own = (name: string): number => {
      const value = book.named(name)?.value;
      return value?.kind === 'number' ? value.number : Number.NaN;
    };
    const expected = [
      own('clear_width') / own('nailer_width'),
      own('shelf_length') / own('shelf_depth'),
      own('box_height') / own('back_width'),
    ];
    const shapes = woodsIn(figure).map(([wide, high]) => wide / high);
    expect(shapes).toHaveLength(3);
    for (const [i, shape] of shapes.entries()) {
      expect(Math.abs(shape / (expected[i] ?? 0) - 1)).toBeLessThan(0.02);
    }
    // A strip too thin to be seen is drawn thicker, and then it is not said.
    const thin = drawn('base', 'sizes: Long apron', { top_length: '120', apron_width: '1 1/2' });
    expect(thin.caption).toMatch(/^Lengths to one scale\./);
  });

  it('show a slot where the screw travels, and a round hole where it does not', () => {
    const figure = (screw: string): Figure =>
      drawn(
        'movement',
        'slots',
        { screw_from_fixed: screw },
        {
          measure: 'screw_travel, slot_length',
        },
      );
    expect(writtenIn(figure('10'))).toMatch(/Slot 7\/16 in.* 3\/32 in each way/);
    expect(writtenIn(figure('0'))).toContain('Round hole');
    expect(writtenIn(figure('0'))).not.toMatch(/Slot|each way|\b0 in/);
  });

  it('say of a panel that hardly moves that it does not', () => {
    const still = writtenIn(drawn('movement', 'seasons', { panel_width: '1' }));
    expect(still).toContain('hardly moves');
    expect(still).not.toMatch(/narrower|wider|\b0 in/);
    expect(writtenIn(drawn('movement', 'seasons'))).toMatch(/narrower.*wider/);
  });

  it('show the growth rings of quartersawn boards upright, with no bark side', () => {
    const flat = drawn('top', 'glue-up: Top');
    expect(writtenIn(flat)).toMatch(/Bark side up.*Bark side down/);
    const quarter = drawn('top', 'glue-up: Top', { cut: 'quarter' });
    expect(writtenIn(quarter)).not.toContain('Bark');
    expect(quarter.says).toContain('growth rings upright');
    expect(quarter.caption).toContain('whichever face');
  });

  it('count the last of many coats, and say when all of them are dry', () => {
    // 12 coats, each left for 12 h: dry after 144 h.
    const many = writtenIn(drawn('plywood-cabinet', 'coats', { coats: '12' }));
    expect(many).toMatch(/ 7 72 h 12 132 h Dry 144 h/);
    expect(many).toContain('12 coats in all');
    const eight = writtenIn(drawn('plywood-cabinet', 'coats', { coats: '8' }));
    expect(eight).toMatch(/ 7 72 h 8 84 h Dry 96 h/);
  });

  it('show the screws of a head, the middle one in a round hole', () => {
    const figure = drawn('trestle-table', 'screws');
    expect(figure.says).toContain('5 screws, 4 of them in slots');
    expect(writtenIn(figure)).toContain('To the end 2 in');
    expect(writtenIn(figure)).toContain('Apart 7 in');
  });

  it('show slots in the bearer across and round holes in the one along', () => {
    const figure = drawn('round-table', 'screws', { screws_across: '6' });
    expect(figure.says).toContain('Bearer across from below: 6 screws, 6 of them in slots');
    expect(figure.says).toContain('Bearer along from below: 4 screws, 0 of them in slots');
  });

  it('show what a door covers, or the gap that it keeps', () => {
    const over = writtenIn(drawn('cabinet-door', 'gaps'));
    expect(over).toContain('Covers 1/2 in');
    expect(over).toContain('Right door');
    const inset = writtenIn(drawn('cabinet-door', 'gaps', { fit: 'inset', doors: '1' }));
    expect(inset).not.toMatch(/Covers|Right door/);
    expect(inset).toContain('Gap 1/8 in');
    expect(writtenIn(drawn('cabinet-door', 'opening'))).toContain('30 in');
  });

  it('show the panel in its groove today and through the seasons', () => {
    expect(writtenIn(drawn('cabinet-door', 'panel gap'))).toContain('Gap today 1/8 in');
    const seasons = writtenIn(drawn('cabinet-door', 'seasons'));
    expect([...seasons.matchAll(/Gap (\S+) in/g)].map(([, gap]) => gap)).toEqual([
      '3/16',
      '1/8',
      '1/16',
    ]);
  });

  it('show butt hinges along a door', () => {
    const figure = drawn('cabinet-door', 'hinges', { hinge_kind: 'butt' });
    expect(writtenIn(figure)).toContain('Middle of a hinge: 3 in');
    expect(writtenIn(figure)).toContain('Middle of a hinge: 26 in');
  });

  it('show the edges that are banded, and how long they are', () => {
    const figure = drawn('plywood-cabinet', 'banding: Side, Bottom, Stretcher, Shelf');
    expect(writtenIn(figure)).toContain('Side × 2: 30 1/2 in');
    // The rear stretcher is out of sight.
    expect(writtenIn(figure)).toContain('Stretcher: 29 5/16 in');
    expect(writtenIn(figure)).not.toContain('Nailer');
  });

  it('show as many layers as there are', () => {
    const figure = drawn('trestle-table', 'layers: Foot', { layers: '3' });
    expect(writtenIn(figure)).toContain('Each layer 1 in');
    expect(writtenIn(figure)).toContain('Foot: 3 layers, 3 in together');
    expect(figure.says).toContain('3 layers');
    // A third of 2 1/2 in is on no rule: three of 27/32 in would be 2 17/32.
    const thirds = drawn('trestle-table', 'layers: Post', { layers: '3' });
    expect(writtenIn(thirds)).toContain('Each layer about 27/32 in');
    expect(writtenIn(thirds)).toContain('Post: 3 layers, 2 1/2 in together');
  });

  it('show the rod through all it holds together', () => {
    expect(writtenIn(drawn('round-table', 'rod'))).toContain('28 3/4 in');
  });

  it('show the sizes of a step as bars to one scale', () => {
    const measure = 'price_material, price_labour, job_cost, slack_percent';
    const figure = drawn('cost', 'bars', {}, { measure });
    const bars = [...figure.svg.matchAll(/<path class="kb-face[^>]* d="M8 [\d.]+L([\d.]+) /g)].map(
      ([, right]) => Number(right) - 8,
    );
    expect(bars).toHaveLength(3);
    const [material = 0, labour = 0, cost = 0] = bars;
    expect(cost).toBeCloseTo(344, 1);
    expect(material / cost).toBeCloseTo(809.13 / 2644.46, 2);
    expect(labour / cost).toBeCloseTo(1490.4 / 2644.46, 2);
  });

  it('show what to look for in boards, and how deep a cup planes out', () => {
    // Rough 1 1/2 in, planed 1 5/16 in.
    expect(writtenIn(drawn('bench', 'boards'))).toContain('less than 3/16 in planes out');
    expect(writtenIn(drawn('plywood-cabinet', 'boards'))).toContain('Grain of the face');
  });

  it('show parts that stand already', () => {
    const figure = drawn('trestle-table', 'assembly: Post');
    expect(writtenIn(figure)).toContain('Post × 2');
    expect(figure.svg).toContain('kb-new');
  });
});

describe('what a step makes', () => {
  const inputs = { tenon_length: '1 1/4', leg_shape: 'tapered on four faces' };
  const make: Row = { step: 'Make the legs', builds: 'Leg' };
  const cut: Row = { step: 'Cut the joints', figure: 'joint: Long apron into Leg' };
  const taper: Row = { step: 'Taper the legs', figure: 'taper: Leg' };

  const legsThen = (steps: readonly Row[]) => {
    const book = bookWith('dining-table', steps, inputs);
    const plan = readPlan(book);
    const step = plan.steps.find(({ parts }) => parts.length > 0);
    if (step === undefined) throw new Error('no step builds the legs');
    const then = asItIsThen(new Stage(book, plan, {}), step);
    const { now } = then.stage.piecesAt(then.step);
    expect(now).toHaveLength(4);
    return now.map(({ part, solid }) => ({
      isCut: part.cuts !== undefined,
      isTapered: part.form?.taper !== undefined,
      isBox: solid === undefined,
    }));
  };

  it.each([
    ['no joint and no taper of later steps', [make, cut, taper], [false, false, true]],
    ['the joints of earlier ones', [cut, make, taper], [true, false, false]],
    ['all that is cut before, or by no step', [cut, taper, make], [true, true, false]],
  ] as const)('has %s', (_what, steps, [isCut, isTapered, isBox]) => {
    expect(legsThen(steps)).toEqual(Array(4).fill({ isCut, isTapered, isBox }));
  });
});
