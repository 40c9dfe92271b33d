import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CuttingFault } from './fault.ts';
import { planSheets } from './plan-sheets.ts';
import type { CutTree, Place, SheetPart, SheetsJob, SheetsPlan } from './sheets-types.ts';

const NEAR = 1e-5;

/** Everything wrong with a plan, from the job alone: places, clearances, counts, cuts, cost. */
function faultsOf(job: SheetsJob, plan: SheetsPlan): string[] {
  const faults: string[] = [];
  const [kerf, trim] = [job.kerf ?? 0, job.edgeTrim ?? 0];
  const wanted = new Map(job.parts.map(({ key, count }) => [key, count]));
  let cost = 0;
  const counts = job.sheets.map(() => 0);
  for (const sheet of plan.sheets) {
    cost += job.sheets[sheet.index]?.price ?? Number.NaN;
    counts[sheet.index] = (counts[sheet.index] ?? 0) + 1;
    sheet.parts.forEach((part, i) => {
      wanted.set(part.key, (wanted.get(part.key) ?? 0) - 1);
      const { length, width, mayTurn } = job.parts.find(({ key }) => key === part.key) as SheetPart;
      const own = part.turned ? [width, length] : [length, width];
      if (own[0] !== part.length || own[1] !== part.width) faults.push(`${part.key}: size`);
      if (part.turned && mayTurn !== true) faults.push(`${part.key}: turned`);
      const inside =
        part.x > trim - NEAR &&
        part.y > trim - NEAR &&
        part.x + part.length < sheet.length - trim + NEAR &&
        part.y + part.width < sheet.width - trim + NEAR;
      if (!inside) faults.push(`${part.key}: off the sheet`);
      for (const other of sheet.parts.slice(0, i)) {
        const along = Math.max(other.x - part.x - part.length, part.x - other.x - other.length);
        const across = Math.max(other.y - part.y - part.width, part.y - other.y - other.width);
        if (Math.max(along, across) < kerf - NEAR) faults.push(`${part.key} meets ${other.key}`);
      }
    });
    faults.push(...treeFaults(sheet.tree, sheet.parts, kerf));
  }
  for (const [key, left] of wanted) if (left !== 0) faults.push(`${key}: ${left} left`);
  counts.forEach((count, i) => {
    if (count !== plan.counts[i]) faults.push('counts');
    if (count > (job.sheets[i]?.supply ?? Number.POSITIVE_INFINITY)) faults.push('supply');
  });
  if (Math.abs(cost - plan.cost) > 1e-9 * (1 + cost)) faults.push('cost');
  if (plan.bound > plan.cost) faults.push('bound above cost');
  return faults;
}

/** Every cut runs across its whole piece, a kerf wide, and parts the piece into what follows. */
function treeFaults(tree: CutTree, parts: readonly Place[], kerf: number): string[] {
  const { piece, cut, near, far } = tree;
  if (tree.part !== undefined) {
    const part = parts[tree.part] as Place;
    const same =
      Math.abs(part.x - piece.x) < NEAR &&
      Math.abs(part.y - piece.y) < NEAR &&
      Math.abs(part.length - piece.length) < NEAR &&
      Math.abs(part.width - piece.width) < NEAR;
    return same ? [] : ['a part that is not its piece'];
  }
  if (cut === undefined || near === undefined || far === undefined) return [];
  const rip = cut.kind === 'rip';
  const [from, size] = rip ? [piece.y, piece.width] : [piece.x, piece.length];
  const farFrom = rip ? far.piece.y : far.piece.x;
  const farSize = rip ? far.piece.width : far.piece.length;
  const nearSize = rip ? near.piece.width : near.piece.length;
  const right =
    Math.abs(from + nearSize - cut.at) < NEAR &&
    Math.abs(cut.at + kerf - farFrom) < NEAR &&
    Math.abs(farSize - Math.max(0, from + size - farFrom)) < NEAR;
  const below = [...treeFaults(near, parts, kerf), ...treeFaults(far, parts, kerf)];
  return right ? below : ['a cut that does not divide its piece', ...below];
}

const whole = (min: number, max: number) => fc.integer({ min, max });
const jobs = fc
  .record({
    parts: fc.array(
      fc.record({
        length: whole(2, 40),
        width: whole(2, 24),
        count: whole(1, 4),
        mayTurn: fc.boolean(),
      }),
      { minLength: 1, maxLength: 6 },
    ),
    small: fc.record({ length: whole(20, 48), width: whole(20, 30), price: whole(5, 20) }),
    price: whole(10, 60),
    kerf: whole(0, 2),
    edgeTrim: whole(0, 1),
    first: fc.constantFrom('rip' as const, 'cross' as const, undefined),
  })
  .map(
    ({ parts, small, price, first, ...rest }): SheetsJob => ({
      ...rest,
      ...(first === undefined ? {} : { first }),
      parts: parts.map((part, i) => ({ key: `p${i}`, ...part })),
      sheets: [small, { length: 96, width: 48, price }],
    }),
  );

describe('sheets', () => {
  it('are cut edge to edge into every part, with a bound below the cost', () => {
    fc.assert(
      fc.property(jobs, (job) => {
        expect(faultsOf(job, planSheets(job))).toEqual([]);
      }),
      { numRuns: 150 },
    );
  });

  it('have a bound below a plan that is known: sheets cut up at random', () => {
    const cutting = fc.record({
      sheets: whole(1, 3),
      cuts: fc.array(
        fc.record({
          at: fc.double({ min: 0.2, max: 0.8, noNaN: true }),
          rip: fc.boolean(),
          pick: fc.nat(),
        }),
        { minLength: 2, maxLength: 12 },
      ),
      kerf: whole(0, 1),
      mayTurn: fc.boolean(),
    });
    fc.assert(
      fc.property(cutting, ({ sheets, cuts, kerf, mayTurn }) => {
        const pieces = Array.from({ length: sheets }, () => ({ length: 96, width: 48 }));
        for (const { at, rip, pick } of cuts) {
          const i = pick % pieces.length;
          const { length, width } = pieces[i] as { length: number; width: number };
          const size = rip ? width : length;
          const near = Math.round(at * size);
          const far = size - near - kerf;
          if (near < 1 || far < 1) continue;
          const part = (one: number) => (rip ? { length, width: one } : { length: one, width });
          pieces.splice(i, 1, part(near), part(far));
        }
        const job: SheetsJob = {
          parts: pieces.map((piece, i) => ({ key: `p${i}`, ...piece, count: 1, mayTurn })),
          sheets: [{ length: 96, width: 48, price: 7 }],
          kerf,
        };
        const plan = planSheets(job);
        expect(faultsOf(job, plan)).toEqual([]);
        expect(plan.bound).toBeLessThanOrEqual(sheets * 7);
        if (plan.proven) expect(plan.cost).toBeLessThanOrEqual(sheets * 7);
      }),
      { numRuns: 150 },
    );
  });

  it('costs the same whatever the order of the parts', () => {
    fc.assert(
      fc.property(jobs, (job) => {
        const turned = { ...job, parts: [...job.parts].reverse() };
        expect(planSheets(turned).cost).toBe(planSheets(job).cost);
      }),
      { numRuns: 60 },
    );
  });

  it('proves a cabinet of which two sides fill a sheet', () => {
    const job: SheetsJob = {
      parts: [{ key: 'side', length: 96, width: 23.9, count: 4 }],
      sheets: [{ length: 96, width: 48, price: 60 }],
      kerf: 0.125,
    };
    const plan = planSheets(job);
    expect(faultsOf(job, plan)).toEqual([]);
    expect(plan).toMatchObject({ cost: 120, bound: 120, proven: true });
  });

  it('needs a sheet more when the kerf no longer goes between', () => {
    const parts = [{ key: 'side', length: 96, width: 24, count: 2 }];
    const sheets = [{ length: 96, width: 48, price: 60 }];
    expect(planSheets({ parts, sheets })).toMatchObject({ cost: 60, proven: true });
    expect(planSheets({ parts, sheets, kerf: 0.125 })).toMatchObject({ cost: 120, proven: true });
  });

  it('keeps the grain: a part turns only where it may', () => {
    const sheets = [{ length: 96, width: 48, price: 60 }];
    const part = { key: 'door', length: 30, width: 60, count: 1 };
    expect(() => planSheets({ parts: [part], sheets })).toThrow(
      /"door" is 30 x 60, and may not be/,
    );
    const plan = planSheets({ parts: [{ ...part, mayTurn: true }], sheets });
    expect(plan.sheets[0]?.parts[0]?.turned).toBe(true);
  });

  it('takes a small sheet where it does', () => {
    const job: SheetsJob = {
      parts: [{ key: 'shelf', length: 40, width: 20, count: 2 }],
      sheets: [
        { length: 96, width: 48, price: 60 },
        { length: 48, width: 48, price: 35 },
      ],
      kerf: 0.125,
    };
    expect(planSheets(job)).toMatchObject({ cost: 35, counts: [0, 1], proven: true });
  });

  it.each<[Partial<SheetsJob>, string]>([
    [{ sheets: [] }, 'no-stock'],
    [{ kerf: -1 }, 'bad-kerf'],
    [{ edgeTrim: 30 }, 'bad-trim'],
    [{ parts: [{ key: 'a', length: 0, width: 2, count: 1 }] }, 'bad-size'],
    [{ parts: [{ key: 'a', length: 2, width: 2, count: 2_001 }] }, 'too-many'],
    [{ sheets: [{ length: 96, width: 48, price: 60, supply: 1 }] }, 'supply-short'],
  ])('refuses %j', (wrong, code) => {
    const good: SheetsJob = {
      parts: [{ key: 'top', length: 90, width: 40, count: 2 }],
      sheets: [{ length: 96, width: 48, price: 60 }],
    };
    expect(() => planSheets({ ...good, ...wrong })).toThrow(CuttingFault);
    expect(() => planSheets({ ...good, ...wrong })).toThrow(expect.objectContaining({ code }));
  });
});
