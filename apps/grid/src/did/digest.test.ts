import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { joinBooks } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { announced } from './announced.ts';
import type { DidLine, Digest } from './digest.ts';
import { bookOf, didNow, listOf, sessionOf, typed } from './testing.ts';

/** The dining table as it ships. */
const diningTable = () =>
  bookOf(
    readFileSync(join(import.meta.dirname, '../../../../templates/dining-table.json'), 'utf8'),
  );

const inWords = ({ label, was, is, by }: DidLine): string =>
  `${label} ${was} → ${is}${by === undefined ? '' : ` ${by}`}`;

const told = (digest: Digest): readonly string[] => digest.lines.map(inWords);

const turned = ({ turned: all }: Digest): readonly string[] =>
  all.map(({ was, is }) => `${is.name}: ${was.state} → ${is.state}`);

describe('a change of the dining table', () => {
  it('tells what moved on all sheets: what matters most, checks that turned, then the others', () => {
    const session = sessionOf(diningTable());
    const digest = typed(session, 'top_length', '96');
    expect(digest.says).toBe('Length of the top 84 → 96');
    expect(digest.named).toEqual({ name: 'top_length', after: 'Length of the top'.length });
    expect(told(digest)).toEqual([
      'Price $3,952.48 → $4,374.35 +$421.87',
      'Weight of the top 115.8 → 132.3 +16.5 lb',
      'Total hours 26 → 26.4 +0.4 h',
      'Seats 8 → 10 +2',
      'Length of each board 85 → 97 +12 in',
      'Board feet in the top 49 → 56 +7 bd ft',
      'Board feet to buy 73.5 → 84 +10.5 bd ft',
      'Clamps for one joint, by spacing 8 → 9 +1',
    ]);
    expect(digest.first).toBe(4);
    expect(turned(digest)).toEqual(['The aprons are stiff enough: pass → care']);
    const others = digest.others();
    expect(others).toHaveLength(digest.more);
    // By sheet, those with a name before those of which only the place is known.
    expect(others[0]?.sheet).toBe('Top');
    expect(others.map(({ label }) => label)).toContain('Long apron, length');
    const price = digest.lines[0];
    expect(price).toMatchObject({ label: 'Price', title: 'Price, Cost B38' });
    expect(digest.lines[1]).toMatchObject({ label: 'Weight of the top', name: 'top_weight' });
    expect(session.book.placeOf(price?.ids as NonNullable<typeof price>['ids'])).toEqual(
      session.book.find('price'),
    );
  });

  it('says of a price what it is without, and counts wood that is missing as no saving', () => {
    const session = sessionOf(diningTable());
    const priceNow = ({ lines: [first] }: Digest) => first;
    const short = typed(session, 'rough_quarters', '6/4');
    expect(turned(short)).toContain('Every piece comes out of a board: pass → stop');
    expect(priceNow(short)).toMatchObject({ label: 'Price', without: 'without 10 pieces' });
    expect(priceNow(short)?.by).toBeUndefined();
    expect(announced(short, session.book)).toMatch(
      /Price \$[\d,.]+ to \$[\d,.]+, without 10 pieces\./,
    );
    // What does not rest on the plan moves as it did.
    expect(told(short)).toContain('Rough thickness 2 → 1 1/2 −1/2 in');
    const other = typed(session, 'profit_percent', '30');
    expect(priceNow(other)).toMatchObject({ label: 'Price', without: 'without 10 pieces' });
    const whole = typed(session, 'rough_quarters', '8/4');
    expect(priceNow(whole)).toMatchObject({ without: 'before, without 10 pieces' });
    expect(priceNow(whole)?.by).toBeUndefined();
    const after = typed(session, 'profit_percent', '20');
    expect(priceNow(after)?.without).toBeUndefined();
    expect(priceNow(after)?.by).toMatch(/^−\$/);
  });

  it('asks a plan for its pieces where no cell counts them', () => {
    const ids = [1, 2, 3, 4, 5].map((column) => `c${column}`);
    const row = (id: number, ...values: readonly (string | number)[]) => ({
      id: `r${id}`,
      cells: Object.fromEntries(values.map((value, i) => [`c${i + 1}`, { value }])),
    });
    const boards = '=PLAN_COST([c1.r1]:[c5.r2],[c1.r3]:[c5.r4],1/8)';
    const rows = [
      row(1, 'part', 'count', 'thickness', 'width', 'length'),
      row(2, 'Shelf', 2, 0.75, 5, 30),
      row(3, 'stock', 'thickness', 'width', 'length', 'price'),
      row(4, '8 ft', 0.75, 5.5, 96, 9),
      { id: 'r5', cells: { c1: { value: 'Boards' }, c2: { formula: boards, name: 'boards' } } },
      { id: 'r6', cells: { c1: { value: 'Price' }, c2: { formula: '=boards*2', name: 'price' } } },
    ];
    const columns = ids.map((id) => ({ id }));
    const book = listOf({}, { sheets: [{ id: 's1', name: 'Shelf', columns, rows }] });
    const digest = typed(sessionOf(book), 'E2', '100');
    expect(digest.lines).toMatchObject([
      { label: 'Boards', was: '9', is: '0', without: 'without 2 pieces' },
      { label: 'Price', was: '18', is: '0', without: 'without 2 pieces' },
    ]);
  });

  it('says that formulas were typed over, and not when they are restored', () => {
    const session = sessionOf(diningTable());
    const over = typed(session, 'rough_thickness', '6/4');
    expect(over.overridden).toHaveLength(1);
    expect(announced(over, session.book)).toMatch(
      /^Rough thickness 2 to 1 1\/2\. Typed over a formula\. /,
    );
    expect(typed(session, 'rough_thickness', '5/4').overridden).toEqual([]);
    session.undo();
    session.undo();
    expect(didNow(session).overridden).toEqual([]);
    session.redo();
    expect(didNow(session).overridden).toHaveLength(1);
    expect(typed(session, 'top_length', '90').overridden).toEqual([]);
  });

  it('says of a number that its cell does not take which ones it takes', () => {
    const session = sessionOf(diningTable());
    expect(typed(session, 'top_length', '9').says).toBe(
      'Length of the top 84 → 9. 9 in is outside what this cell takes: 24 to 168 in.',
    );
  });

  it('is told the other way round when it is taken back, and again when it is done again', () => {
    const session = sessionOf(diningTable());
    const there = typed(session, 'top_length', '96');
    session.undo();
    const back = didNow(session);
    expect(back.says).toBe('Undone: Length of the top 96 → 84');
    expect(told(back)[0]).toBe('Price $4,374.35 → $3,952.48 −$421.87');
    expect(turned(back)).toEqual(['The aprons are stiff enough: care → pass']);
    expect(back.lines.length + back.more).toBe(there.lines.length + there.more);
    session.redo();
    const again = didNow(session);
    expect(again.says).toBe('Redone: Length of the top 84 → 96');
    expect(told(again)).toEqual(told(there));
  });

  it('is said to the ear in a sentence, a few results and a count', () => {
    const session = sessionOf(diningTable());
    const digest = typed(session, 'top_length', '96');
    expect(announced(digest, session.book)).toMatch(
      /^Length of the top 84 to 96\. Price \$3,952\.48 to \$4,374\.35\. Weight of the top 115\.8 to 132\.3\. Total hours 26 to 26\.4\. 1 check changed\. Warning: A long apron sags 0\.207 in .+ \d+ more results\.$/,
    );
  });

  it('of its units moves nothing: all is as large as before', () => {
    const session = sessionOf(diningTable());
    session.apply({ do: 'changeUnits', to: 'metric' });
    const digest = didNow(session);
    expect(digest.says).toBe('Units: millimeters');
    expect(told(digest)).toEqual([]);
    expect(typed(session, 'top_length', '2400').says).toMatch(/^Length of the top 2133\.6 → 2400$/);
  });
});

describe('a difference', () => {
  it('is written as its cell writes numbers, with sign and unit', () => {
    const session = sessionOf(
      listOf({
        Base: { value: 10, name: 'base', role: 'input' },
        Length: { formula: '=base*3.3', quantity: 'length', name: 'long' },
        Money: { formula: '=-base*2.25', quantity: 'money', name: 'cost' },
        Share: { formula: '=base', quantity: 'percent', name: 'share' },
        Damp: { formula: '=base/10', quantity: 'moisture', name: 'damp' },
        Time: { formula: '=base/4', quantity: 'duration', name: 'time' },
        Day: { formula: '=base+46000', quantity: 'date', name: 'day' },
        Words: { formula: '=IF(base>10,"more","less")', quantity: 'text', name: 'says' },
        Yes: { formula: '=base>10', name: 'yes' },
        Error: { formula: '=1/(base-12)', name: 'wrong' },
        Feet: {
          formula: '=base*2',
          quantity: 'length',
          show: { as: 'feet-inches' },
          name: 'feet',
        },
      }),
    );
    const digest = typed(session, 'base', '12');
    expect(digest.says).toBe('Base 10 → 12');
    expect(told(digest)).toEqual([
      'Length 33 → 39 5/8 +6 5/8 in',
      'Money -$22.50 → -$27.00 −$4.50',
      'Share 10 → 12 +2 points',
      'Damp 1 → 1.2 +0.2 points',
      'Time 2.5 → 3 +0.5 h',
      expect.stringMatching(/^Day .* → .* \+2 days$/),
      'Words less → more',
      'Yes FALSE → TRUE',
    ]);
    expect(digest.others().map(inWords)).toEqual([
      'Error -0.5 → #DIV/0!',
      'Feet 1\' 8" → 2\' 0" +4"',
    ]);
  });

  it('of what moved by less than it shows is told exactly, and last', () => {
    const session = sessionOf(
      listOf({
        Base: { value: 1, name: 'base' },
        Fine: { formula: '=base/1000', quantity: 'money', name: 'fine' },
        Coarse: { formula: '=base*2', name: 'coarse' },
      }),
    );
    const digest = typed(session, 'base', '2');
    expect(told(digest)).toEqual(['Coarse 2 → 4 +2', 'Fine $0.001 → $0.002 +$0.001']);
  });
});

describe('what moved by less than it shows', () => {
  it('is told with no more decimals than say by how much', () => {
    const session = sessionOf(diningTable());
    const digest = typed(session, 'dry_humidity', '26');
    const lines = [...digest.lines, ...digest.others()].map(inWords);
    // 57.57212699 to 57.52246904 d, and 0.6346341581 to 0.6155412211 in: all those digits were told.
    expect(lines).toContain('Lag behind the room 57.57 → 57.52 −0.05 d');
    expect(lines).toContain('Dry to humid season, whole width 0.635 → 0.616 −0.019 in');
    for (const line of lines) expect(line).not.toMatch(/\.\d{5,}/);
  });
});

describe('what was changed', () => {
  it('is told in words of one cell by what it came to, or by what else is another', () => {
    const session = sessionOf(
      listOf({ Base: { value: 1, name: 'base' }, Twice: { formula: '=base*2', name: 'twice' } }),
    );
    expect(typed(session, 'twice', '=base+base').says).toBe('Twice: another formula');
    expect(typed(session, 'twice', '=base*3').says).toBe('Twice 2 → 3');
    expect(typed(session, 'B3', '7').says).toBe('List B3 empty → 7');
    const { sheet, row, column } = session.book.find('base') ?? session.at;
    const cells = [{ row, column }];
    session.apply({
      do: 'describeCells',
      sheet,
      cells: [{ row, column, traits: { remark: 'measured' } }],
    });
    expect(didNow(session).says).toBe('Base: another remark');
    session.apply({ do: 'clear', sheet, cells });
    expect(didNow(session).says).toBe('Base 1 → empty');
    session.apply({ do: 'insertRows', sheet, at: 0, rows: [{ id: 'rx' }] });
    const inserted = didNow(session);
    expect(inserted.says).toMatch(/row/);
    expect(inserted.lines).toEqual([]);
  });

  it('is told of many cells by what was done with them, also when that is undone', () => {
    const session = sessionOf(
      listOf({
        A: { value: 1, name: 'a' },
        B: { value: 2 },
        Sum: { formula: '=SUM(B1:B2)', name: 'sum' },
      }),
    );
    const { sheet } = session.at;
    const cells = [0, 1].map((row) => ({ row, column: 1, text: '5' }));
    session.apply({ do: 'enter', sheet, cells }, 'Pasted 2 cells.');
    const digest = didNow(session);
    expect(digest.says).toBe('Pasted 2 cells');
    session.undo();
    expect(didNow(session).says).toBe('Undone: pasted 2 cells');
    session.apply({ do: 'enter', sheet, cells });
    expect(didNow(session).says).toBe('2 cells changed');
    typed(session, 'a', '9');
    session.undo(2);
    expect(didNow(session).says).toBe('2 changes undone');
    expect(session.book.canUndo).toBe(false);
  });

  it('says what reads a cell on which no other cell rests', () => {
    const session = sessionOf(diningTable());
    // A longer board in Stock that no plan takes leaves every number as it was.
    const at = session.book.find(
      'B10',
      session.book.sheets().find(({ name }) => name === 'Stock')?.id,
    );
    if (at === undefined) throw new Error('there is no free row in Stock');
    const { sheet, row } = at;
    const done = session.apply({ do: 'enter', sheet, cells: [{ row, column: 1, text: 'oak' }] });
    expect(done.ok).toBe(true);
    const digest = didNow(session);
    expect(told(digest)).toEqual([]);
    expect(digest.nothing).toBe(
      'No number on the sheets changed. What reads this besides: the buying list, the cutting plan.',
    );
    expect(announced(digest, session.book)).toContain('What reads this besides');
    expect(typed(session, 'finish', 'Oil').nothing).toMatch(
      /besides: the buying list, the finish sheet, the quote for the customer\.$/,
    );
    const list = sessionOf(listOf({ Alone: { value: 1 } }));
    expect(typed(list, 'B1', '2').nothing).toBe('No results changed.');
  });

  it('is told of sheets that came by what they are, also when they are taken back', () => {
    const session = sessionOf(diningTable());
    const cabinet = bookOf(
      readFileSync(join(import.meta.dirname, '../../../../templates/cabinet-door.json'), 'utf8'),
    ).document();
    const joined = joinBooks(session.book.document(), cabinet);
    if (!joined.ok) throw new Error(joined.says);
    // As a log is carried out, without the words of the command.
    expect(session.apply({ do: 'become', book: joined.document }).ok).toBe(true);
    const came = didNow(session).says;
    expect(came).toMatch(/^\d+ sheets \(.*Frame.*\) inserted after sheet /);
    session.undo();
    const gone = didNow(session).says;
    expect(gone).toBe(`Undone: ${came}`);
    expect(gone).not.toMatch(/no longer there/);
  });

  it('is found where rows moved meanwhile, and said to be gone where it is', () => {
    const session = sessionOf(
      listOf({ A: { value: 1, name: 'a' }, Twice: { formula: '=a*2', name: 'twice' } }),
    );
    const [line] = typed(session, 'a', '4').lines;
    session.apply({ do: 'insertRows', sheet: 's1', at: 0, rows: [{ id: 'rx' }] });
    expect(session.book.placeOf(line?.ids as DidLine['ids'])?.row).toBe(2);
  });
});
