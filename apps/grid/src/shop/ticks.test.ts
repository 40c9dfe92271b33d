import { describe, expect, it } from 'vitest';
import {
  type BenchLine,
  cutAs,
  cutOf,
  isCut,
  keepTicks,
  readTicks,
  type Ticks,
  ticked,
  tickKey,
  withPieces,
} from './ticks.ts';

const leg: BenchLine = {
  name: 'Leg',
  at: { sheet: 's1', row: 1, column: 0 },
  count: 4,
  thickness: 50,
  width: 50,
  length: 400,
  material: 'pine',
  rows: ['s1 r2'],
};

function store(kept?: unknown) {
  let value = kept;
  return {
    get: async () => value,
    set: async (_key: string, next: unknown) => {
      value = next;
    },
  };
}

describe('what is ticked off', () => {
  it('is each piece by itself, and is kept', async () => {
    const device = store();
    const two = ticked(ticked({}, leg, 2, true), leg, 0, true);
    await keepTicks(device, 'b1', two);
    const read = await readTicks(device, 'b1');
    expect([0, 1, 2, 3].map((piece) => isCut(read, leg, piece))).toEqual([
      true,
      false,
      true,
      false,
    ]);
    expect(cutOf(read, leg)).toBe(2);
    expect(ticked(ticked(read, leg, 0, false), leg, 2, false)).toEqual({});
  });

  it('is as many as an earlier app counted, from the first one on', async () => {
    const key = Object.keys(ticked({}, leg, 0, true))[0] as string;
    const read = await readTicks(store({ [key]: 3, damaged: 'x', other: [1, 'y', -1, 1] }), 'b1');
    expect(read).toEqual({
      [key]: { pieces: [0, 1, 2], rows: [] },
      other: { pieces: [1], rows: [] },
    });
  });

  it('keeps what pieces were cut as that are good at another size, of those that are cut', async () => {
    const longer = { ...leg, length: 410 };
    const cut = { [tickKey(leg)]: [0, 2] };
    const good = withPieces({}, longer, [0, 2, 3], cut);
    const device = store();
    await keepTicks(device, 'b1', good);
    expect(await readTicks(device, 'b1')).toEqual(good);
    expect(good[tickKey(longer)]).toEqual({ pieces: [0, 2, 3], rows: leg.rows, cutAs: cut });
    const damaged = { pieces: [2], rows: leg.rows, cutAs: { ...cut, other: 'x', more: [9] } };
    expect(await readTicks(store({ [tickKey(longer)]: damaged }), 'b1')).toEqual({
      [tickKey(longer)]: { pieces: [2], rows: leg.rows, cutAs: { [tickKey(leg)]: [2] } },
    });
  });

  it('counts no more pieces than are wanted', () => {
    const all: Ticks = [0, 1, 2, 3].reduce<Ticks>((ticks, i) => ticked(ticks, leg, i, true), {});
    expect(cutOf(all, { ...leg, count: 2 })).toBe(2);
    expect(ticked(all, leg, 4, true)).toBe(all);
  });

  it('is known by its name and size, whatever the name holds', () => {
    const name = 'Leg | left';
    expect(cutAs(tickKey({ ...leg, name }))).toEqual({
      name,
      thickness: 50,
      width: 50,
      length: 400,
    });
  });
});
