import type { Allow } from '@kerfbook/document';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { allowProblem } from './allow.ts';
import { coarser, type Pull, pullOf, snapped, stepped } from './pull.ts';
import { readEntry } from './read.ts';
import type { ShowContext } from './style.ts';

const us = (more: Partial<ShowContext> = {}): ShowContext => ({
  system: 'us',
  currency: 'USD',
  quantity: 'length',
  ...more,
});
const pull = (number: number, allow: Allow, context: ShowContext = us()): Pull => {
  const found = pullOf({ value: { kind: 'number', number }, allow }, context);
  if (found === undefined) throw new Error('it cannot be pulled');
  return found;
};

describe('the step by which a number is pulled', () => {
  it.each<[string, number, Allow, ShowContext, number]>([
    ['a table to eighths', 84, { min: 24, max: 168 }, us(), 1 / 8],
    ['a leg to sixteenths', 3, { min: 1, max: 8 }, us(), 1 / 16],
    ['a thin part to thirty-seconds', 0.125, { min: 0.03125, max: 1 }, us(), 1 / 32],
    ['a kerf to sixty-fourths', 0.125, { min: 0.03, max: 0.5 }, us(), 1 / 64],
    ['as its format says', 84, { min: 24, max: 168 }, us({ show: { denominator: 4 } }), 1 / 4],
    ['feet and inches', 84, { min: 24, max: 168 }, us({ show: { as: 'feet-inches' } }), 1 / 8],
    ['millimetres', 2100, { min: 600, max: 4000 }, us({ system: 'metric' }), 1],
    ['counts', 3, { min: 1, max: 12, whole: true }, us({ quantity: 'count' }), 1],
    ['humidity', 25, { min: 1, max: 95 }, us({ quantity: 'humidity' }), 0.5],
    ['board-foot price', 8.5, { min: 0, max: 200 }, us({ quantity: 'money_per_boardfoot' }), 0.5],
    ['an hour in quarters', 9, { min: 0, max: 80 }, us({ quantity: 'duration' }), 0.25],
    ['a bare number by its range', 3, { min: 0, max: 10 }, us({ quantity: 'number' }), 0.1],
    [
      'whole where only that is allowed',
      3,
      { min: 0, max: 5, whole: true },
      us({ quantity: 'number' }),
      1,
    ],
    ['a narrow range finer', 1, { min: 1, max: 1.25 }, us(), 1 / 32],
    ['money without a most', 800, { min: 0 }, us({ quantity: 'money' }), 1],
  ])('%s', (_, value, allow, context, step) => {
    expect(pull(value, allow, context).step).toBe(step);
  });

  it('is none where there is no range, no number, or a list', () => {
    const value = { kind: 'number', number: 3 } as const;
    expect(pullOf({ value }, us())).toBeUndefined();
    expect(pullOf({ value, allow: { whole: true } }, us())).toBeUndefined();
    expect(pullOf({ value, allow: { min: 1, max: 9, list: ['3'] } }, us())).toBeUndefined();
    expect(pullOf({ value, allow: { min: 4, max: 4 } }, us())).toBeUndefined();
    // Found at random: whole numbers of another unit than the shown one.
    const coverage = us({ quantity: 'coverage' });
    expect(pullOf({ value, allow: { min: 0, max: 9, whole: true } }, coverage)).toBeUndefined();
    // Found at random: a number next to nothing without a least, whose step came to none.
    expect(pull(4.4e-323, { max: 0.055 }, us({ quantity: 'number' })).step).toBe(0.001);
    expect(pullOf({ value: { kind: 'empty' }, allow: { min: 1 } }, us())).toBeUndefined();
  });
});

describe('pulled values', () => {
  const table = pull(84.3, { min: 24, max: 168 });

  it('land on the grid of steps, also from a value between two of them', () => {
    expect(stepped(table, 84.3, 1)).toBe(84.375);
    expect(stepped(table, 84.3, -1)).toBe(84.25);
    expect(stepped(table, 84, 1, 1)).toBe(85);
    expect(snapped(table, 84.29)).toBe(84.25);
    expect(snapped(table, 84.4, 1)).toBe(84);
  });

  it('stop at the ends of the range, also where these lie between two steps', () => {
    const kerf = pull(0.125, { min: 0.03, max: 0.5 });
    expect(stepped(kerf, 0.046875, -3)).toBe(0.03);
    expect(stepped(kerf, 0.03, 1)).toBe(2 / 64);
    expect(stepped(kerf, 0.5, 1)).toBe(0.5);
    expect(snapped(kerf, 7)).toBe(0.5);
    expect(stepped(pull(3, { min: 0 }), 0, -1)).toBe(0);
    expect(stepped(pull(3, { min: 0 }), 400, 1)).toBe(400.0625);
  });

  it('are typed as a maker would type them', () => {
    expect(table.entry(84.375)).toBe('84 3/8');
    expect(table.entry(96)).toBe('96');
    expect(pull(84, { min: 24 }, us({ show: { as: 'feet-inches' } })).entry(84.125)).toBe(
      `7' 1/8"`,
    );
    expect(pull(20, { min: 0, max: 50 }, us({ quantity: 'percent' })).entry(0.5)).toBe('0.5%');
    expect(pull(8.5, { min: 0, max: 90 }, us({ quantity: 'money' })).entry(9.25)).toBe('9.25');
    expect(pull(0.125, { min: 0.03, max: 0.5 }).entry(0.03)).toBe('0.03');
  });

  it('go in wider steps of the same kind', () => {
    expect([1 / 8, 0.3, 0.9, 1.2, 3, 7].map((least) => coarser(table, least))).toEqual([
      1 / 8,
      0.5,
      1,
      2,
      5,
      10,
    ]);
    const price = pull(8.5, { min: 0, max: 15 }, us({ quantity: 'money' }));
    expect([0.25, 0.3, 0.8, 3].map((least) => coarser(price, least))).toEqual([0.25, 0.5, 1, 5]);
  });

  const QUANTITIES = [
    'length',
    'percent',
    'humidity',
    'count',
    'money',
    'temperature',
    'coverage',
  ] as const;

  it('read back as themselves and are allowed, whatever the range, unit and way', () => {
    fc.assert(
      fc.property(
        fc.record({
          quantity: fc.constantFrom(...QUANTITIES, 'duration', 'mass', 'force', 'ratio', 'number'),
          system: fc.constantFrom('us' as const, 'metric' as const),
          ends: fc.tuple(
            fc.double({ min: -50, max: 900, noNaN: true }),
            fc.double({ min: 0.01, max: 900, noNaN: true }),
          ),
          open: fc.constantFrom('low', 'high', 'none'),
          whole: fc.boolean(),
          part: fc.double({ min: 0, max: 1, noNaN: true }),
          steps: fc.array(fc.integer({ min: -40, max: 40 }), { maxLength: 6 }),
        }),
        ({ quantity, system, ends: [from, span], open, whole, part, steps }) => {
          const [min, max] = [round(from), round(from + span)];
          const allow = {
            ...(open === 'low' ? {} : { min: whole ? Math.floor(min) : min }),
            ...(open === 'high' ? {} : { max: whole ? Math.ceil(max) : max }),
            ...(whole ? { whole } : {}),
          };
          const context = us({ quantity, system });
          const value = min + part * (max - min);
          const at = pullOf({ value: { kind: 'number', number: value }, allow }, context);
          if (at === undefined) return;
          let now = at.value;
          for (const by of steps) {
            const next =
              by % 2 === 0
                ? stepped(at, now, by / 2)
                : snapped(at, now + by * at.step, coarser(at, 3 * at.step));
            if (by % 2 === 0 && by !== 0 && next !== at.low && next !== at.high)
              expect(Math.sign(next - now)).toBe(Math.sign(by));
            now = next;
            const read = readEntry(at.entry(now), context);
            if (read.kind !== 'value' || typeof read.value !== 'number')
              throw new Error(`${at.entry(now)} is not read`);
            expect(allowProblem(read.value, allow, context)).toBeUndefined();
          }
        },
      ),
      { numRuns: 2000, seed: 20261127 },
    );
  });
});

const round = (value: number): number => Math.round(value * 100) / 100;
