import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  arcLength,
  arcRadius,
  ovalArea,
  ovalBoard,
  ovalEdge,
  ovalPins,
  ovalWaste,
} from './curves.ts';
import { expectFault } from './testdata/faults.ts';

const size = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** Numbers from 0 to 1 that repeat. */
function* numbers(seed: number): Generator<number, never> {
  let last = seed;
  for (;;) {
    last = (last * 48_271) % 2_147_483_647;
    yield last / 2_147_483_647;
  }
}

describe('ovals', () => {
  it('have the area that points thrown at them say', () => {
    const next = numbers(7);
    const thrown = 200_000;
    let hits = 0;
    for (let i = 0; i < thrown; i += 1) {
      const [x, y] = [next.next().value - 0.5, next.next().value - 0.5];
      if (x ** 2 + y ** 2 <= 0.25) hits += 1;
    }
    expect(Math.abs(ovalArea(72, 42) / ((hits / thrown) * 72 * 42) - 1)).toBeLessThan(0.01);
    expect(Math.abs(1 - hits / thrown - ovalWaste())).toBeLessThan(0.005);
  });

  it('have the edge that thousands of straight pieces have', () => {
    fc.assert(
      fc.property(size(5, 100), size(5, 100), (length, width) => {
        let around = 0;
        let [x, y] = [length / 2, 0];
        for (let i = 1; i <= 4000; i += 1) {
          const angle = (2 * Math.PI * i) / 4000;
          const to = [(length / 2) * Math.cos(angle), (width / 2) * Math.sin(angle)] as const;
          around += Math.hypot(to[0] - x, to[1] - y);
          [x, y] = to;
        }
        expect(ovalEdge(length, width) / around).toBeCloseTo(1, 5);
      }),
      { numRuns: 20 },
    );
    expect(ovalEdge(48, 48)).toBeCloseTo(Math.PI * 48, 10);
    // flat as a line: there and back
    expect(ovalEdge(48, 1e-9)).toBeCloseTo(96, 6);
  });

  it('are drawn by a string around two pins', () => {
    const [length, width] = [72, 42];
    const pins = ovalPins(length, width) / 2;
    for (const angle of [0, 0.4, 1, 1.5, 2.8]) {
      const [x, y] = [(length / 2) * Math.cos(angle), (width / 2) * Math.sin(angle)];
      expect(Math.hypot(x - pins, y) + Math.hypot(x + pins, y)).toBeCloseTo(length, 9);
    }
    expect(ovalPins(48, 48)).toBe(0);
    expectFault(() => ovalPins(42, 72), 'range', 'width');
  });

  it('fit on their boards, and on no shorter ones', () => {
    for (const boards of [1, 2, 5, 9]) {
      for (let board = 1; board <= boards; board += 1) {
        let longest = 0;
        for (let i = 0; i <= 2000; i += 1) {
          const y = -1 + (2 * (board - 1 + i / 2000)) / boards;
          longest = Math.max(longest, 48 * Math.sqrt(Math.max(0, 1 - y ** 2)));
        }
        expect(ovalBoard(48, boards, board)).toBeCloseTo(longest, 2);
      }
    }
    expectFault(() => ovalBoard(48, 5, 6), 'range', 'board');
  });

  it('waste less from more boards', () => {
    expect(ovalWaste(9)).toBeLessThan(ovalWaste(5));
    expect(ovalWaste(1)).toBeCloseTo(1 - Math.PI / 4, 12);
    expect(ovalWaste(1000)).toBeLessThan(0.002);
  });
});

describe('arcs', () => {
  it('go through their ends and their highest point', () => {
    fc.assert(
      fc.property(size(10, 60), size(0.1, 5), (chord, rise) => {
        const radius = arcRadius(chord, rise);
        const middle = rise - radius;
        expect(Math.hypot(chord / 2, middle)).toBeCloseTo(radius, 6);
        // the textbook's half angle
        expect(arcLength(chord, rise)).toBeCloseTo(2 * radius * Math.asin(chord / 2 / radius), 6);
      }),
    );
    expect(arcRadius(48, 24)).toBe(24);
    expect(arcLength(48, 24)).toBeCloseTo(Math.PI * 24, 10);
  });
});
