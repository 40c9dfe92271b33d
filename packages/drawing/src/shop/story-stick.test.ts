import { describe, expect, it } from 'vitest';
import { wideIn } from './board-letters.ts';
import { type OverStick, storyStick } from './story-stick.ts';

const inch = 25.4;
const format = (mm: number): string => {
  const sixteenths = Math.round((mm / inch) * 16);
  const [whole, over] = [Math.floor(sixteenths / 16), sixteenths % 16];
  return over === 0 ? String(whole) : `${whole} ${over}/16`;
};
const over = (longest: number, long: number): OverStick => ({
  scale: 1000 / longest,
  long: (long * 1000) / longest,
  high: 60,
  wide: 1000,
  letters: 18,
  depth: { across: 8, up: 5 },
});

interface Written {
  readonly says: string;
  readonly from: number;
  readonly to: number;
  readonly y: number;
  readonly beside: number;
}

function written(svg: string): readonly Written[] {
  const texts = /<text x="([\d.]+)" y="([\d.]+)" font-size="18" text-anchor="(\w+)">([^<]+)</g;
  return [...svg.matchAll(texts)].map(([, x, y, anchor, says = '']) => {
    const [at, wide] = [Number(x), wideIn(says, 18)];
    const from = anchor === 'end' ? at - wide : at;
    return { says, from, to: from + wide, y: Number(y), beside: at };
  });
}

/** Lines that lead down from a mark past the stick: where, and how deep. */
const leading = (svg: string, high: number): readonly (readonly [number, number])[] =>
  [...svg.matchAll(/M([\d.]+) [\d.]+V([\d.]+)/g)].flatMap(([, x, y]) =>
    Number(y) > high ? [[Number(x), Number(y)] as const] : [],
  );

function expectReadable(marks: readonly number[], { scale, high, ...about }: OverStick): void {
  const { svg } = storyStick(marks, { scale, high, ...about }, format);
  const all = written(svg);
  expect(all.map(({ says }) => says).filter((says) => says !== '0')).toHaveLength(marks.length);
  for (const [i, one] of all.entries()) {
    expect(one.from).toBeGreaterThanOrEqual(0);
    expect(one.to).toBeLessThanOrEqual(1000);
    // No two of a line touch, and no line that leads to another number runs through one.
    for (const other of all.slice(i + 1).filter(({ y }) => y === one.y)) {
      expect(Math.min(one.to, other.to)).toBeLessThan(Math.max(one.from, other.from));
    }
    const through = leading(svg, high + 30).filter(
      ([x, y]) => y > one.y + 1 && x > one.from && x < one.to,
    );
    expect(through).toEqual([]);
  }
  // Each stands beside its own mark.
  for (const mark of marks) {
    const own = all.filter(({ says }) => says === format(mark));
    expect(own.some(({ beside }) => Math.abs(beside - mark * scale) < 12)).toBe(true);
  }
}

describe('the stick below a board', () => {
  // Four legs from a blank of 40 in, beside boards of 120 in: 2 trimmed, 8 1/4 each, cuts of 1/8.
  const legs = [2, 10.25, 18.625, 27, 35.375].map((mark) => mark * inch);

  it('says each mark, those that are close below it at the end of a line', () => {
    const { svg, high } = storyStick(legs, over(120 * inch, 40 * inch), format);
    expect(written(svg).map(({ says }) => says)).toEqual([
      '2',
      '10 4/16',
      '18 10/16',
      '27',
      '35 6/16',
    ]);
    expect(high).toBeGreaterThan(storyStick(legs, over(40 * inch, 40 * inch), format).high);
    expectReadable(legs, over(120 * inch, 40 * inch));
  });

  it('leaves out what has no room on one line where it may have no more', () => {
    const one = storyStick(legs, over(120 * inch, 40 * inch), format, 1);
    expect(written(one.svg).map(({ says }) => says)).toEqual(['27']);
    expect(one.high).toBe(storyStick(legs, over(40 * inch, 40 * inch), format).high);
  });

  it('is readable however its marks lie', () => {
    let seed = 7;
    const next = (): number => {
      seed = (seed * 48271) % 2147483647;
      return seed / 2147483647;
    };
    for (let round = 0; round < 300; round += 1) {
      const long = (36 + next() * 108) * inch;
      const marks = [2 * inch];
      for (;;) {
        const mark = (marks.at(-1) ?? 0) + (4 + next() * next() * 60) * inch;
        if (mark > long - 2 * inch) break;
        marks.push(Math.round(mark / inch / 0.0625) * 0.0625 * inch);
      }
      expectReadable(marks, over(144 * inch, long));
    }
  });
});
