import { BookState, readTyped } from '@kerfbook/document';
import { ourFunction } from '@kerfbook/functions';
import { type CellValue, loadValue, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { sameValue } from './flatten.ts';
import { outcomeOf } from './kept-formula.ts';
import { WRITTEN_OUT } from './standard-forms.ts';
import { writeFormula } from './write-formula.ts';

/** A bench for formulas alone. */
function bookIn(units: 'us' | 'metric'): Workbook {
  const loaded = loadValue({
    kerfbook: 8,
    title: 'A bench for formulas',
    units,
    sheets: [{ id: 's1', name: 'Sheet', columns: [{ id: 'c1' }], rows: [{ id: 'r1' }] }],
    checks: [],
    tables: [],
  });
  if (!loaded.ok) throw new Error(loaded.says);
  return Workbook.open(loaded.document);
}

/** Numbers from a seed, the same each time (a linear congruence; constants of Numerical Recipes). */
function numbers(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

/** Sizes as makers have them, by what an argument is; some in whole sixteenths, so that ends of steps are met. */
function argument(
  quantity: string,
  name: string,
  units: 'us' | 'metric',
  random: () => number,
): number {
  const sixteenths = (least: number, most: number): number =>
    Math.round((least + random() * (most - least)) * 16) / 16;
  const length = sixteenths(0.5, 96) * (units === 'metric' ? 25.4 : 1);
  switch (quantity) {
    case 'length':
      // A table is larger than what is taken off it.
      return name === 'table_size' ? length * 8 : length;
    case 'count':
      return Math.floor(2 + random() * 20);
    case 'humidity':
      return Math.round(random() * 100);
    case 'temperature':
      // Frost too, for who asks of the air outdoors.
      return units === 'metric' ? Math.round(random() * 80) - 20 : Math.round(random() * 150) - 10;
    case 'percent':
      return Math.round(random() * 900) / 10;
    case 'coverage':
      return 50 + random() * 500;
    default:
      return name === 'clamp_rating' ? 100 + Math.round(random() * 900) : 1 + random() * 500;
  }
}

const GRITS = [40, 50, 60, 80, 100, 120, 150, 180, 220, 240, 280, 320, 360, 400, 500, 600];

/** An area, two grits of which the second is no coarser, and a pace. */
function sanding(random: () => number): readonly number[] {
  const first = Math.floor(random() * GRITS.length);
  const last = first + Math.floor(random() * (GRITS.length - first));
  return [1 + random() * 5000, GRITS[first] ?? 0, GRITS[last] ?? 0, 1000 + random() * 9000];
}

/** Two grits of which the second is no coarser. */
const grits = (random: () => number): readonly number[] => sanding(random).slice(1, 3);

/** A button or clip that is fitted with room both ways, its groove as deep as its tongue or deeper. */
function button(random: () => number): readonly number[] {
  const tongue = 0.5 + random();
  const gap = tongue * random() * 0.6;
  const groove = tongue - gap + random();
  return random() < 0.5 ? [tongue, gap] : [tongue, gap, tongue * random() * 0.4, groove];
}

/** An oval no more than twelve times as long as wide: its series has terms for that. */
function oval(random: () => number): readonly number[] {
  const length = 1 + random() * 100;
  return [length, length / (1 + random() * 11)];
}

/** One board of the boards of an oval. */
function board(random: () => number): readonly number[] {
  const boards = 1 + Math.floor(random() * 20);
  return [1 + random() * 100, boards, 1 + Math.floor(random() * boards)];
}

/** A fastener with two holes, how far it swings and which way it points. */
const swivel = (random: () => number): readonly number[] => [
  random() * 40,
  Math.round(random() * 90),
  Math.round(random() * 90),
];

/** A slot and a screw that goes into it. */
function slot(random: () => number): readonly number[] {
  const length = 0.1 + random() * 50;
  return [length, length * random()];
}

type Units = 'us' | 'metric';

/** A door that the charts of hinges have, on their edges too; without its weight every second time. */
function door(random: () => number, units: Units): readonly number[] {
  const height = Math.ceil(random() * 17) * 5 * (units === 'metric' ? 25.4 : 1);
  const weight = Math.ceil(random() * 70) / 2 / (units === 'metric' ? 2.2046226218 : 1);
  return random() < 0.5 ? [height] : [height, weight];
}

/** What a pocket screw goes into, in steps of 1/64 in. */
const pocketed = (random: () => number, units: Units): readonly number[] => [
  Math.round((0.46 + random() * 1.08) * 64) / (units === 'metric' ? 64 / 25.4 : 64),
];

/** The end of a board with dovetails; its edges by half a pin and a bit, or as they are given. */
function dovetailed(random: () => number, units: Units): readonly number[] {
  const own = units === 'metric' ? 25.4 : 1;
  const [wide, pin, third] = [4 + random() * 10, 0.1 + random() / 4, 1 + Math.ceil(random() * 5)];
  const edge = random() < 0.5 ? [] : [random() * own];
  return [wide * own, pin * own, third * own, ...edge];
}

/** The same with a number of tails. */
function tailed(random: () => number, units: Units): readonly number[] {
  const [wide = 0, pin = 0, , ...edge] = dovetailed(random, units);
  return [wide, 1 + Math.floor(random() * 5), pin, ...edge];
}

/** Functions of which some arguments decide what the others may be. */
const OF_ITS_OWN: Readonly<
  Record<string, (random: () => number, units: Units) => readonly number[]>
> = {
  HINGE_COUNT: door,
  POCKET_SCREW: pocketed,
  DOVETAIL_COUNT: dovetailed,
  DOVETAIL_TAIL: tailed,
  SANDING_HOURS: sanding,
  GRIT_STEPS: grits,
  BUTTON_TRAVEL: button,
  OVAL_EDGE: oval,
  OVAL_BOARD: board,
  SLOT_TRAVEL: slot,
  SWIVEL_REACH: swivel,
};

function written(text: string, book: Workbook): string | undefined {
  const root = readTyped(text).root;
  if (root === undefined) return undefined;
  const outcome = outcomeOf(root, book.units);
  if (!outcome.kept) return undefined;
  return `=${writeFormula(outcome.root, {
    state: BookState.of(book.document()),
    sheet: 's1',
    functionName: (name) => name,
    nameOf: (name) => name,
  })}`;
}

describe('functions of ours, written out in standard ones', () => {
  for (const units of ['us', 'metric'] as const) {
    it(`come to the same wherever ours answers, in ${units === 'us' ? 'inches' : 'millimetres'}`, () => {
      const book = bookIn(units);
      const random = numbers(20_261_130);
      const answered = new Map<string, number>();
      for (const name of WRITTEN_OUT) {
        const about = ourFunction(name);
        expect(about, name).toBeDefined();
        for (let round = 0; round < 60; round += 1) {
          const needed = about?.args.filter((one) => !('optional' in one && one.optional)) ?? [];
          const all = about?.args ?? [];
          const some = round % 2 === 0 ? all : all.slice(0, needed.length);
          const args =
            OF_ITS_OWN[name]?.(random, units) ??
            some.map(({ quantity, name: of }) => argument(quantity, of, units, random));
          const call = `=${name}(${args.join(',')})`;
          const ours: CellValue = book.evaluate(call);
          if (ours.kind === 'error') continue;
          const text = written(call, book);
          expect(text, call).toBeDefined();
          const comes = book.evaluate(text ?? '');
          expect(
            sameValue(comes, ours),
            `${call} ${JSON.stringify(ours)} ${text} ${JSON.stringify(comes)}`,
          ).toBe(true);
          answered.set(name, (answered.get(name) ?? 0) + 1);
        }
      }
      // Most were really held against each other.
      expect([...answered.keys()].sort()).toEqual([...WRITTEN_OUT].sort());
      expect(Math.min(...answered.values())).toBeGreaterThan(5);
    });
  }

  it('name the grits of every pair there is, and refuse what ends coarser than it begins', () => {
    const book = bookIn('us');
    for (const first of GRITS) {
      for (const last of GRITS) {
        const call = `=GRIT_STEPS(${first},${last})`;
        const comes = book.evaluate(written(call, book) ?? '');
        expect(sameValue(comes, book.evaluate(call)), `${call} ${JSON.stringify(comes)}`).toBe(
          true,
        );
      }
    }
    // By hand: one left out between neighbours, and the last one step from the one before it.
    expect(book.evaluate(written('=GRIT_STEPS(80,240)', book) ?? '')).toEqual({
      kind: 'text',
      text: '80 → 120 → 180 → 240',
    });
    expect(book.evaluate(written('=GRIT_STEPS(80,220)', book) ?? '')).toEqual({
      kind: 'text',
      text: '80 → 120 → 180 → 220',
    });
  });

  it('refuse a button whose tongue holds too little, or goes deeper than its groove, as ours does', () => {
    const book = bookIn('us');
    for (const args of ['0.5,0.45', '0.5,0.2,0.4,0.5', '1,0.1,0.2,0.5']) {
      const call = `=BUTTON_TRAVEL(${args})`;
      const ours = book.evaluate(call);
      expect(ours).toMatchObject({ kind: 'error', error: { word: '#NUM!' } });
      expect(sameValue(book.evaluate(written(call, book) ?? ''), ours), call).toBe(true);
    }
  });

  it('leave a call alone that is given too much or too little', () => {
    const book = bookIn('us');
    expect(written('=IN(1,2)', book)).toBeUndefined();
    expect(written('=KNEE_ROOM(30,1)', book)).toBeUndefined();
    expect(written('=CLAMP_COUNT(60,8,2,500)', book)).toBeUndefined();
  });

  it('keep what stands around them, and brackets where an argument is a sum', () => {
    const book = bookIn('us');
    expect(written('=2*APRON_LENGTH(60+12,2,3)^2', book)).toBe('=2*((60+12)-2*2-2*3+2*0)^2');
  });
});
