import { describe, expect, it } from 'vitest';
import { checkOf, enterAll, numberIn, tableWith } from './dining-table-book.ts';

/**
 * Tipping over every edge, from statics alone: the table tips about the line through two neighbouring
 * feet where a load beyond it has more of a lever than the weight in the middle. Every edge and corner
 * is tried; feet end at the outer faces of the legs.
 */
interface Spot {
  readonly x: number;
  readonly y: number;
}

/** Moment about each side of the rectangle of feet, taken as positive where it tips. */
function tips(of: (name: string) => number, load: number, at: Spot): boolean {
  const [halfX, halfY] = [
    of('top_length') / 2 - of('overhang_end'),
    of('top_width') / 2 - of('overhang_side'),
  ];
  const weight = of('top_weight') + of('base_weight');
  return [
    load * (at.x - halfX) - weight * halfX,
    load * (-at.x - halfX) - weight * halfX,
    load * (at.y - halfY) - weight * halfY,
    load * (-at.y - halfY) - weight * halfY,
  ].some((moment) => moment > 0);
}

/** Places all round the edge of the top, and so far past it. */
function around(of: (name: string) => number, past: number): readonly Spot[] {
  const [x, y] = [of('top_length') / 2 + past, of('top_width') / 2 + past];
  return [-1, -0.5, 0, 0.5, 1].flatMap((share) => [
    { x: share * x, y },
    { x: share * x, y: -y },
    { x, y: share * y },
    { x: -x, y: share * y },
  ]);
}

/** The least load that tips, found by halving; undefined where none up to 100,000 lbf does. */
function leastLoad(of: (name: string) => number): number | undefined {
  const any = (load: number) => around(of, 0).some((spot) => tips(of, load, spot));
  let [low, high] = [0, 100_000];
  if (!any(high)) return undefined;
  for (let step = 0; step < 60; step += 1) {
    const middle = (low + high) / 2;
    if (any(middle)) high = middle;
    else low = middle;
  }
  return high;
}

const OVERHANGS = [
  { overhang_end: '9', overhang_side: '3' },
  { overhang_end: '9', overhang_side: '10' },
  { overhang_end: '28', overhang_side: '3' },
  { overhang_end: '9', overhang_side: '12' },
  { overhang_end: '0', overhang_side: '8' },
  { overhang_end: '20', overhang_side: '6' },
];

describe('the dining table tips', () => {
  it.each(OVERHANGS)('under the least load at any edge: %o', (entries) => {
    const book = tableWith(entries);
    const of = (name: string) => numberIn(book, name);
    expect(of('tip_load')).toBeCloseTo(leastLoad(of) ?? Number.NaN, 3);
    const leans = around(of, 0).some((spot) => tips(of, of('lean_load'), spot));
    expect(checkOf(book, 'tip')?.state).toBe(leans ? 'care' : 'pass');
    const climbs = around(of, of('climb_out')).some((spot) => tips(of, of('climb_load'), spot));
    expect(checkOf(book, 'climb')?.state).toBe(climbs ? 'care' : 'pass');
  });

  it('sideways where a side stands out far: it passed, and 73 lbf tipped it', () => {
    const book = tableWith({ overhang_side: '14.5', leg_size: '2.5' });
    expect(numberIn(book, 'tip_load')).toBeLessThan(80);
    expect(checkOf(book, 'tip')?.state).toBe('care');
    expect(checkOf(book, 'tip')?.says).toContain('on a side lifts the far legs');
    expect(checkOf(book, 'climb')?.state).toBe('care');
    enterAll(book, { overhang_side: '3', leg_size: '3 1/2' });
    expect(checkOf(book, 'tip')?.state).toBe('pass');
    expect(checkOf(book, 'climb')?.state).toBe('pass');
  });
});
