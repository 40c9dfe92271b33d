import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boardSteps } from './cut-steps.ts';
import { type Board, type CutStep, type Piece, planPieces } from './plan-pieces.ts';

interface Named extends Piece {
  readonly name: string;
}

/** Sizes in mm, all invented. */
const piece = (name: string, count: number, width: number, length: number): Named => ({
  name,
  count,
  thickness: 19,
  width,
  length,
  material: 'oak',
});
const board = (width: number, length: number, price = 20): Board => ({
  material: 'oak',
  thickness: 19,
  width,
  length,
  price,
});

const NEAR = 0.01;

interface Rectangle {
  readonly x: number;
  readonly y: number;
  readonly length: number;
  readonly width: number;
}

/**
 * Carries cuts out on a board and knows nothing of how they were found: each has to go from edge to edge of
 * something that is there, takes a kerf of wood, and what it says it gives has to have that size. Answers
 * with what is wrong, and the pieces that came of it.
 */
function carriedOut(
  whole: { readonly length: number; readonly width: number },
  steps: readonly CutStep<Named>[],
  kerf: number,
): { readonly faults: readonly string[]; readonly pieces: readonly Rectangle[] } {
  const faults: string[] = [];
  const there: Rectangle[] = [{ x: 0, y: 0, ...whole }];
  const alike = (a: Rectangle, b: Rectangle): boolean =>
    Math.abs(a.x - b.x) + Math.abs(a.y - b.y) < NEAR &&
    Math.abs(a.length - b.length) + Math.abs(a.width - b.width) < 2 * NEAR;
  const isA = (item: Named, { length, width }: Rectangle): boolean =>
    (Math.abs(item.length - length) < NEAR && Math.abs(item.width - width) < NEAR) ||
    (Math.abs(item.length - width) < NEAR && Math.abs(item.width - length) < NEAR);
  for (const { kind, from, at, gives, leaves } of steps) {
    const found = there.findIndex((one) => alike(one, from));
    if (found < 0) {
      faults.push(`${kind} at ${at}: nothing of that size lies there`);
      continue;
    }
    const [cut] = there.splice(found, 1) as [Rectangle];
    const size = kind === 'rip' ? cut.width : cut.length;
    if (!(at > 0 && at < size)) faults.push(`${kind} at ${at} misses a piece of ${size}`);
    const rest = Math.max(0, size - at - kerf);
    const near = kind === 'rip' ? { ...cut, width: at } : { ...cut, length: at };
    const far =
      kind === 'rip'
        ? { ...cut, y: cut.y + at + kerf, width: rest }
        : { ...cut, x: cut.x + at + kerf, length: rest };
    if (gives !== undefined && !isA(gives, near)) faults.push(`no ${gives.name} comes off`);
    if (leaves !== undefined && !isA(leaves, far)) faults.push(`no ${leaves.name} is left`);
    there.push(near, ...(rest > 0 ? [far] : []));
  }
  return { faults, pieces: there };
}

/** Takes a piece of each wanted size out of those that came of the cuts; what is missing, by name. */
function missingFrom(pieces: readonly Rectangle[], wanted: readonly Named[]): readonly string[] {
  const left = [...pieces];
  return wanted.flatMap(({ name, length, width }) => {
    const found = left.findIndex(
      (one) =>
        (Math.abs(one.length - length) < NEAR && Math.abs(one.width - width) < NEAR) ||
        (Math.abs(one.length - width) < NEAR && Math.abs(one.width - length) < NEAR),
    );
    if (found < 0) return [name];
    left.splice(found, 1);
    return [];
  });
}

describe('the cuts of a board in order', () => {
  // Worked out by hand: a board of 140 by 2400 with a kerf of 3 gives a shelf of 140 by 900, then two
  // rails of 60 by 700 (60 + 3 + 60 = 123 of 140) and a slat of 45 by 500.
  it('crosscut a length off, then rip it, the fence set once for each width', () => {
    const at = [0, 903, 1606];
    const steps = boardSteps(
      {
        stock: board(140, 2400),
        pieces: [
          { item: piece('shelf', 1, 140, 900), length: 900, at: at[0] as number, strips: 1 },
          { item: piece('rail', 2, 60, 700), length: 700, at: at[1] as number, strips: 2 },
          { item: piece('slat', 1, 45, 500), length: 500, at: at[2] as number, strips: 1 },
        ],
      },
      3,
    );
    expect(
      steps.map(({ kind, at, from, gives }) => [kind, at, from.width, from.length, gives?.name]),
    ).toEqual([
      ['crosscut', 900, 140, 2400, 'shelf'],
      ['crosscut', 700, 140, 1497, undefined],
      ['rip', 60, 140, 700, 'rail'],
      ['rip', 60, 77, 700, 'rail'],
      ['crosscut', 500, 140, 794, undefined],
      ['rip', 45, 140, 500, 'slat'],
    ]);
    expect(carriedOut(board(140, 2400), steps, 3).faults).toEqual([]);
  });

  // By hand: 123 of width are two strips of 60 and a kerf of 3, so one rip makes both; a board as long as
  // its piece is not crosscut.
  it('make the last strip with the cut before it where nothing remains', () => {
    const steps = boardSteps(
      {
        stock: board(123, 700),
        pieces: [{ item: piece('rail', 2, 60, 700), length: 700, at: 0, strips: 2 }],
      },
      3,
    );
    expect(steps).toMatchObject([{ kind: 'rip', at: 60, leaves: { name: 'rail' } }]);
  });

  it('cut a board free of its end first where that is trimmed', () => {
    const steps = boardSteps(
      {
        stock: board(90, 1000),
        pieces: [{ item: piece('rail', 1, 90, 400), length: 400, at: 20, strips: 1 }],
      },
      3,
    );
    expect(steps.map(({ kind, at }) => [kind, at])).toEqual([
      ['crosscut', 17],
      ['crosscut', 400],
    ]);
    expect(carriedOut(board(90, 1000), steps, 3).faults).toEqual([]);
  });
});

const sizes = (least: number, most: number) =>
  fc.integer({ min: least * 2, max: most * 2 }).map((halves) => halves / 2);
const pieces = (widest: number, longest: number) =>
  fc.array(fc.tuple(fc.integer({ min: 1, max: 6 }), sizes(20, widest), sizes(60, longest)), {
    minLength: 1,
    maxLength: 5,
  });

describe('the cuts of a plan, carried out by a saw that knows nothing of it', () => {
  const held = (
    drawn: readonly (readonly [number, number, number])[],
    stock: readonly Board[],
    kerf: number,
  ): void => {
    const items = drawn.map(([count, width, length], i) => piece(`p${i}`, count, width, length));
    const { groups } = planPieces(items, stock, { kerf, effort: 'cell' });
    for (const { boards, panels } of groups) {
      for (const one of boards) {
        const { faults, pieces } = carriedOut(one.stock, boardSteps(one, kerf), kerf);
        const wanted = one.pieces.flatMap(({ item, strips }) => Array<Named>(strips).fill(item));
        expect([...faults, ...missingFrom(pieces, wanted)]).toEqual([]);
      }
      for (const panel of panels) {
        const { faults, pieces } = carriedOut(panel.stock, panel.steps, kerf);
        const wanted = panel.pieces.map(({ item }) => item);
        expect([...faults, ...missingFrom(pieces, wanted)]).toEqual([]);
      }
    }
  };

  it('give every piece of every board, each cut from edge to edge and kerfs counted', () => {
    fc.assert(
      fc.property(pieces(190, 2000), fc.constantFrom(0, 2, 3.2), (drawn, kerf) =>
        held(drawn, [board(90, 2400), board(190, 2400), board(190, 3000)], kerf),
      ),
      { numRuns: 60, seed: 20 },
    );
  });

  it('and of every sheet', () => {
    fc.assert(
      fc.property(pieces(600, 1200), fc.constantFrom(0, 3.2), (drawn, kerf) =>
        held(drawn, [board(1220, 2440, 60)], kerf),
      ),
      { numRuns: 25, seed: 20 },
    );
  });

  it('would be found wrong: a cut of something else, a piece too wide, a kerf forgotten', () => {
    const [first, ...others] = boardSteps(
      {
        stock: board(140, 2400),
        pieces: [{ item: piece('rail', 2, 60, 700), length: 700, at: 0, strips: 2 }],
      },
      3,
    );
    const steps = [first as CutStep<Named>, ...others];
    expect(carriedOut(board(150, 2400), steps, 3).faults).not.toEqual([]);
    expect(carriedOut(board(140, 2400), steps, 5).faults).not.toEqual([]);
    const wide = steps.map((step) => ({ ...step, at: step.at + 1 }));
    expect(carriedOut(board(140, 2400), wide, 3).faults).not.toEqual([]);
  });
});
