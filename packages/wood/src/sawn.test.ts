import { describe, expect, it } from 'vitest';
import { sawnFor } from './sawn.ts';
import { expectFault } from './testdata/faults.ts';

const mm = (value: number): number => value / 25.4;

describe('SAWN_FOR', () => {
  // EN 1313-2 (from memory): hardwood of 20, 27, 32, 40, 50 … mm; BS EN 336 (read): softwood 50, 63, 75
  it.each([
    [22, undefined, undefined, 27],
    [27, undefined, undefined, 32],
    [35, 5, 'hardwood', 40],
    [40, undefined, 'softwood', 50],
    [50, 3, 'Softwood', 63],
  ])('%d mm with %s mm off, %s: %d mm', (finished, off, kind, sawn) => {
    const allowance = off === undefined ? undefined : mm(off);
    expect(sawnFor(mm(finished), allowance, kind) * 25.4).toBeCloseTo(sawn, 9);
  });

  it('refuses what no yard saws, and other kinds', () => {
    expectFault(() => sawnFor(mm(98)), 'unknown', 'finished_thickness');
    expectFault(() => sawnFor(mm(22), mm(5), 'bamboo'), 'unknown', 'kind');
  });
});
