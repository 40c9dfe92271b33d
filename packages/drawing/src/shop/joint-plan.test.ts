import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { loadText, Workbook } from '@kerfbook/workbook';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type JointItem,
  type JointJob,
  type JointPlan,
  jointPlan,
  markOf,
  savedSentence,
} from './joint-plan.ts';
import { shopPlan } from './shop-plan.ts';

type Row = readonly (string | number | null)[];

interface Made {
  readonly parts: readonly Row[];
  readonly stock: readonly Row[];
  readonly kerf?: number | null;
  readonly endTrim?: number;
  readonly units?: 'us' | 'metric';
  readonly currency?: string;
}

/** An invented workbook with a parts table (part, count, thickness, width, length, material) and a stock table. */
function bookOf({ parts, stock, kerf = 0.125, endTrim, units = 'us', currency }: Made): Workbook {
  const rowsOf = (rows: readonly Row[]) =>
    rows.map((row, r) => ({
      id: `r${r + 1}`,
      cells: Object.fromEntries(
        row.flatMap((value, c) => (value === null ? [] : [[`c${c + 1}`, { value }]])),
      ),
    }));
  const columns = Array.from({ length: 8 }, (_, i) => ({ id: `c${i + 1}` }));
  const heads = ['part', 'count', 'thickness', 'width', 'length', 'material'];
  const stockHeads = ['stock', 'material', 'thickness', 'width', 'length', 'price', 'at hand'];
  const named = (id: string, name: string, value: number) => ({
    id,
    cells: { c1: { value, name, quantity: 'length' } },
  });
  const document = {
    kerfbook: 8,
    title: 'Invented',
    units,
    ...(currency === undefined ? {} : { currency }),
    sheets: [
      { id: 's1', name: 'Parts', columns, rows: rowsOf([heads, ...parts]) },
      { id: 's2', name: 'Stock', columns, rows: rowsOf([stockHeads, ...stock]) },
      {
        id: 's3',
        name: 'Saw',
        columns,
        rows: [
          ...(kerf === null ? [] : [named('r1', 'kerf', kerf)]),
          ...(endTrim === undefined ? [] : [named('r2', 'end_trim', endTrim)]),
        ],
      },
    ],
    checks: [],
    tables: [
      { id: 't1', kind: 'parts', sheet: 's1', header: 'r1', last: `r${parts.length + 1}` },
      { id: 't2', kind: 'stock', sheet: 's2', header: 'r1', last: `r${stock.length + 1}` },
    ],
  };
  const loaded = loadText(JSON.stringify(document));
  if (!loaded.ok) throw new Error(loaded.says);
  return Workbook.open(loaded.document);
}

const jobsOf = (books: readonly Workbook[]): readonly JointJob[] =>
  books.map((source, i) => ({ mark: markOf(i), title: `Job ${i + 1}`, source }));

function planned(jobs: readonly JointJob[], effort: 'cell' | 'proof' = 'cell'): JointPlan {
  const plan = jointPlan(jobs, effort);
  if (!plan.ok) throw new Error(plan.says);
  return plan;
}

/** Adds up every board anew, knowing nothing of how the plan was made: what is wrong with it. */
function faultsOf(
  jobs: readonly JointJob[],
  { plan, kerf, endTrim, leftOut }: JointPlan,
): string[] {
  const faults: string[] = [];
  const wanted = new Map<string, number>();
  for (const [job, { source }] of jobs.entries()) {
    for (const { name, count, length, width } of shopPlan(source, 'cell').list.items) {
      wanted.set(`${job} ${name} ${length} ${width}`, count);
    }
  }
  const given = (item: JointItem, count: number): void => {
    const name = item.name.replace(`${jobs[item.job]?.mark} `, '');
    const key = `${item.job} ${name} ${item.length} ${item.width}`;
    wanted.set(key, (wanted.get(key) ?? Number.NaN) - count);
  };
  let cost = 0;
  const used = new Map<unknown, number>();
  for (const { boards, panels, buy } of plan.groups) {
    const counts = new Map<unknown, number>();
    for (const { stock, pieces } of boards) {
      cost += stock.price;
      counts.set(stock, (counts.get(stock) ?? 0) + 1);
      const isRack = stock.price === 0 && stock.atHand !== undefined;
      const trim = isRack ? 0 : endTrim.mm;
      let end = trim - kerf.mm;
      for (const { item, at, length, strips } of pieces) {
        if (at < end + kerf.mm - 1e-4) faults.push(`${item.name} begins within another`);
        end = at + length;
        const across = strips * item.width + (strips - 1) * kerf.mm;
        if (across > stock.width + 1e-2) faults.push(`${item.name} wider than its board`);
        if (item.thickness > stock.thickness + 1e-2) faults.push(`${item.name} too thick`);
        given(item as JointItem, strips);
      }
      if (end > stock.length - trim + 1e-4) faults.push('beyond the end of a board');
    }
    for (const { stock, pieces } of panels) {
      cost += stock.price;
      counts.set(stock, (counts.get(stock) ?? 0) + 1);
      for (const [i, one] of pieces.entries()) {
        given(one.item as JointItem, 1);
        if (one.x + one.length > stock.length + 1e-4 || one.y + one.width > stock.width + 1e-4) {
          faults.push('beyond the edge of a sheet');
        }
        for (const other of pieces.slice(i + 1)) {
          const apart =
            one.x + one.length + kerf.mm <= other.x + 1e-3 ||
            other.x + other.length + kerf.mm <= one.x + 1e-3 ||
            one.y + one.width + kerf.mm <= other.y + 1e-3 ||
            other.y + other.width + kerf.mm <= one.y + 1e-3;
          if (!apart) faults.push('one piece of a sheet over another');
        }
      }
    }
    for (const { stock, count } of buy) {
      if (counts.get(stock) !== count) faults.push('bought is not what is cut up');
      used.set(stock, (used.get(stock) ?? 0) + count);
      counts.delete(stock);
    }
    if (counts.size > 0) faults.push('cut up and not bought');
  }
  for (const { stock } of plan.groups.flatMap(({ buy }) => buy)) {
    if ((used.get(stock) ?? 0) > (stock.atHand ?? Number.POSITIVE_INFINITY)) {
      faults.push('more than is at hand');
    }
  }
  if (Math.abs(cost - plan.cost) > 1e-6) faults.push('the cost');
  if (plan.bound > plan.cost + 1e-6) faults.push('a bound above the cost');
  const out = new Set(leftOut.map(({ what }) => what.replace(/, \d+ pieces$/, '')));
  for (const [key, left] of wanted) {
    const [job = '', ...words] = key.split(' ');
    const name = words.slice(0, -2).join(' ');
    const isOut = out.has(`${jobs[Number(job)]?.mark} ${name}`);
    if (left !== 0 && !isOut) faults.push(`${key}: ${left} left`);
  }
  return faults;
}

const PINE: Row = ['2x6 8 ft', 'pine', 1.5, 5.5, 96, 10];

describe('one plan over several jobs', () => {
  it('cuts the parts of two jobs from one board, and says what that saves', () => {
    const half = (name: string) =>
      bookOf({ parts: [[name, 1, 1.5, 5.5, 40, 'pine']], stock: [PINE] });
    const jobs = jobsOf([half('Rail'), half('Rail')]);
    const plan = planned(jobs);
    expect(faultsOf(jobs, plan)).toEqual([]);
    expect([plan.plan.cost, plan.boards, plan.apart.cost, plan.apart.boards]).toEqual([
      10, 1, 20, 2,
    ]);
    expect(plan.plan.groups[0]?.boards[0]?.pieces.map(({ item }) => item.name)).toEqual([
      'A Rail',
      'B Rail',
    ]);
    expect(savedSentence(plan, (amount) => `$${amount}`)).toBe(
      'Bought one by one these jobs cost $20: buying together saves $10 and 1 board.',
    );
    expect(plan.notes).toEqual([]);
  });

  it('says where the workbooks differ, and what it reckons with', () => {
    const one = bookOf({
      parts: [['Rail', 1, 1.5, 5.5, 47.9, 'pine']],
      stock: [PINE, ['offcut', 'pine', 1.5, 5.5, 30, 0, 2]],
      endTrim: 0.5,
    });
    const other = bookOf({
      parts: [
        ['Rail', 1, 1.5, 5.5, 46, 'pine'],
        ['Block', 4, 1.5, 5.5, 29, 'pine'],
      ],
      stock: [
        ['2x6', 'pine', 1.5, 5.5, 96, 9],
        ['offcut', 'pine', 1.5, 5.5, 30, 0, 3],
      ],
      kerf: 0.25,
    });
    const jobs = jobsOf([one, other, bookOf({ parts: [], stock: [PINE], kerf: null })]);
    const plan = planned(jobs);
    expect(faultsOf(jobs, plan)).toEqual([]);
    expect(plan.kerf.mm).toBeCloseTo(0.25 * 25.4, 9);
    expect(plan.endTrim.mm).toBeCloseTo(0.5 * 25.4, 9);
    expect(plan.notes).toEqual([
      'The kerfs differ: A 1/8, B 1/4. All is planned with the widest, 1/4.',
      'C is without a kerf: planned with 1/4, as the others.',
      'What is trimmed off the ends of boards differs: A 1/2, B 0, C 0. All is planned with the most, 1/2.',
      'offcut, 1 1/2 × 5 1/2 × 30, is at hand in several workbooks: A 2, B 3. It is taken to lie on one rack and counted once, 3 in all.',
    ]);
    expect(plan.priceNotes).toEqual([
      '2x6 8 ft, 1 1/2 × 5 1/2 × 96, has several prices: A $10.00, B $9.00, C $10.00. The lowest is reckoned with.',
    ]);
    // Three of the four blocks come off the rack, whoever lists it.
    const rack = plan.plan.groups.flatMap(({ buy }) => buy).find(({ stock }) => stock.price === 0);
    expect(rack?.count).toBe(3);
    expect(plan.plan.cost % 9).toBeCloseTo(0, 9);
  });

  it('takes the jobs one by one where together is dearer, and never asks more than they do', () => {
    // The second job lists a section that fits the first one's part closer, at a price that no one would pay.
    const cheap = bookOf({
      parts: [['Slat', 4, 0.75, 3.5, 40, 'pine']],
      stock: [['1x6', 'pine', 0.75, 5.5, 96, 5]],
    });
    const dear = bookOf({
      parts: [['Trim', 1, 0.75, 3.5, 20, 'pine']],
      stock: [['1x4', 'pine', 0.75, 3.5, 96, 50]],
    });
    const jobs = jobsOf([cheap, dear]);
    const plan = planned(jobs);
    expect(faultsOf(jobs, plan)).toEqual([]);
    expect(plan.isApart).toBe(true);
    expect(plan.plan.cost).toBe(60);
    expect(plan.apart).toEqual({ cost: 60, boards: 3, costs: [10, 50] });
    expect(savedSentence(plan, String)).toContain('saves nothing here');
  });

  it('refuses jobs of several currencies, and jobs without parts, in a sentence', () => {
    const dollars = bookOf({ parts: [['Rail', 1, 1.5, 5.5, 40, 'pine']], stock: [PINE] });
    const euros = bookOf({ parts: [], stock: [], units: 'metric', currency: 'EUR' });
    expect(jointPlan(jobsOf([dollars, euros]))).toMatchObject({
      ok: false,
      says: expect.stringContaining('USD and EUR'),
    });
    expect(jointPlan([])).toMatchObject({ ok: false });
    const none = bookOf({ parts: [], stock: [PINE] });
    expect(jointPlan(jobsOf([none]))).toMatchObject({
      ok: false,
      says: 'None of these jobs has a parts table with parts to cut.',
    });
  });

  it('tells what fits no board with the job it is of, and plans the rest', () => {
    const long = bookOf({ parts: [['Beam', 2, 1.5, 5.5, 200, 'pine']], stock: [PINE] });
    const good = bookOf({ parts: [['Rail', 2, 1.5, 5.5, 40, 'pine']], stock: [PINE] });
    const jobs = jobsOf([good, long]);
    const plan = planned(jobs);
    expect(faultsOf(jobs, plan)).toEqual([]);
    expect(plan.leftOut).toMatchObject([{ job: 1, what: 'B Beam, 2 pieces' }]);
    expect(plan.plan.proven).toBe(false);
  });

  it('cuts every piece of every job once, at no more than the sum, whatever the jobs are', () => {
    const part = fc.record({
      count: fc.integer({ min: 1, max: 6 }),
      width: fc.constantFrom(2, 3.5, 5.5),
      length: fc.integer({ min: 6, max: 90 }),
    });
    // A price by what is in a board and by chance, and always a board that is wide and long enough.
    const board = fc.record({
      width: fc.constantFrom(3.5, 5.5, 7.25),
      length: fc.constantFrom(72, 96, 120),
      dearer: fc.integer({ min: 0, max: 3 }),
      atHand: fc.option(fc.integer({ min: 0, max: 3 }), { nil: undefined, freq: 1 }),
    });
    const whole = { width: 5.5, length: 96, dearer: 0, atHand: undefined };
    const job = fc.record({
      parts: fc.array(part, { minLength: 1, maxLength: 4 }),
      stock: fc.array(board, { maxLength: 3 }),
    });
    let saved = 0;
    fc.assert(
      fc.property(fc.array(job, { minLength: 2, maxLength: 4 }), (drawn) => {
        const jobs = jobsOf(
          drawn.map(({ parts, stock }) =>
            bookOf({
              parts: parts.map((one, i) => [
                `P${i}`,
                one.count,
                0.75,
                one.width,
                one.length,
                'oak',
              ]),
              stock: [whole, ...stock].map((one, i) => [
                `S${i}`,
                'oak',
                0.75,
                one.width,
                one.length,
                // What is there already costs nothing.
                one.atHand === undefined ? (one.width * one.length) / 50 + one.dearer : 0,
                one.atHand ?? null,
              ]),
            }),
          ),
        );
        const plan = planned(jobs);
        expect(faultsOf(jobs, plan)).toEqual([]);
        const out = plan.leftOut.length;
        // Boards at hand that only one lists: then no workbook by itself asks less than it does here.
        const alone = jobs.map(({ source }) => shopPlan(source, 'cell'));
        const isWhole = out === 0 && alone.every(({ unplanned }) => unplanned.length === 0);
        if (isWhole) expect(plan.plan.cost).toBeLessThanOrEqual(plan.apart.cost + 1e-6);
        const hasRack = drawn.some(({ stock }) => stock.some((one) => one.atHand !== undefined));
        if (isWhole && !hasRack) {
          const sum = alone.reduce((all, one) => all + (one.plan?.cost ?? 0), 0);
          expect(plan.plan.cost).toBeLessThanOrEqual(sum + 1e-6);
          if (plan.plan.cost < sum - 1e-6) saved += 1;
        }
      }),
      { seed: 20, numRuns: 150 },
    );
    expect(saved).toBeGreaterThan(10);
  });

  it('cuts the parts of templates that ship together, boards and sheets', () => {
    const open = (name: string): Workbook => {
      const file = join(import.meta.dirname, `../../../../templates/${name}.json`);
      const loaded = loadText(readFileSync(file, 'utf8'));
      if (!loaded.ok) throw new Error(loaded.says);
      return Workbook.open(loaded.document);
    };
    const jobs = jobsOf(['bench', 'coffee-table', 'plywood-cabinet'].map(open));
    const plan = planned(jobs);
    expect(faultsOf(jobs, plan)).toEqual([]);
    expect(plan.leftOut).toEqual([]);
    expect(plan.plan.groups.some(({ panels }) => panels.length > 0)).toBe(true);
    expect(plan.plan.cost).toBeLessThanOrEqual(plan.apart.cost + 1e-6);
  });
});
