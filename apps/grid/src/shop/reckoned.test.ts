import { describe, expect, it } from 'vitest';
import { forgotten, reckon, stillGood, trimmed } from './reckoned.ts';
import { type BenchLine, cutOf, isCut, type Ticks, ticked, tickKey } from './ticks.ts';

/** An invented leg; sizes are written in whole millimetres. */
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
const write = (mm: number): string => mm.toFixed(0);
const cut = (line: BenchLine, ...pieces: readonly number[]): Ticks =>
  pieces.reduce<Ticks>((ticks, piece) => ticked(ticks, line, piece, true), {});

describe('what was ticked off', () => {
  it('is told with its size then and now where its part was changed, and waits for an answer', () => {
    const longer = { ...leg, length: 410 };
    const { ticks, wrong, gone } = reckon(cut(leg, 0, 2), [longer], write);
    expect(wrong).toMatchObject([
      { name: 'Leg', pieces: [0, 2], size: '400 long', now: '410', line: longer },
    ]);
    expect(gone).toEqual([]);
    expect(cutOf(ticks, longer)).toBe(0);
    const [one] = wrong;
    if (one === undefined) throw new Error('nothing is told');

    const good = reckon(stillGood(ticks, one), [longer], write);
    expect([0, 1, 2, 3].map((piece) => isCut(good.ticks, longer, piece))).toEqual([
      true,
      false,
      true,
      false,
    ]);
    expect(good.wrong).toEqual([]);
    expect(forgotten(ticks, one)).toEqual({});
    // The size is as it was again: so is what was cut.
    expect(cutOf(reckon(ticks, [leg], write).ticks, leg)).toBe(2);
  });

  it('is short where a side lacks more than a sixteenth of an inch: no wood can be put back', () => {
    const isShort = (now: Partial<BenchLine>) =>
      reckon(cut(leg, 0), [{ ...leg, ...now }], write).wrong.map((one) => one.isShort);
    expect(isShort({ length: 402 })).toEqual([true]);
    expect(isShort({ length: 401 })).toEqual([false]);
    expect(isShort({ length: 380 })).toEqual([false]);
    expect(isShort({ length: 380, width: 52 })).toEqual([true]);
  });

  it('is what it was cut as, however often the size it was good for changes again', () => {
    const longer = { ...leg, length: 410 };
    const longest = { ...leg, length: 420 };
    const [one] = reckon(cut(leg, 0, 2), [longer], write).wrong;
    if (one === undefined) throw new Error('nothing is told');
    // A third one is cut at 410.
    const good = ticked(stillGood(cut(leg, 0, 2), one), longer, 3, true);

    const back = reckon(good, [leg], write);
    expect([0, 1, 2, 3].map((piece) => isCut(back.ticks, leg, piece))).toEqual([
      true,
      false,
      true,
      false,
    ]);
    expect(back.wrong).toMatchObject([{ pieces: [3], size: '410 long', now: '400' }]);
    expect(reckon(good, [longest], write).wrong).toMatchObject([
      { pieces: [3], size: '410 long', now: '420' },
      { pieces: [0, 2], size: '400 long', now: '420' },
    ]);
    // Another name is no other size.
    const post = { ...longer, name: 'Post' };
    const renamed = reckon(good, [post], write);
    expect([renamed.wrong, cutOf(renamed.ticks, post)]).toEqual([[], 3]);
    const short = { ...leg, name: 'Post' };
    expect(cutOf(reckon(renamed.ticks, [short], write).ticks, short)).toBe(2);
  });

  it('is cut at its own size once it is cut again', () => {
    const longer = { ...leg, length: 410 };
    const [one] = reckon(cut(leg, 0), [longer], write).wrong;
    if (one === undefined) throw new Error('nothing is told');
    const good = stillGood({}, one);
    const again = ticked(ticked(good, longer, 0, false), longer, 0, true);
    expect(again).toEqual(cut(longer, 0));
    expect(cutOf(reckon(again, [leg], write).ticks, leg)).toBe(0);
  });

  it('is told with all of its size where more than one side differs', () => {
    const { wrong } = reckon(cut(leg, 0), [{ ...leg, width: 60, length: 410 }], write);
    expect(wrong).toMatchObject([{ size: '50 × 50 × 400', now: '50 × 60 × 410' }]);
  });

  it('stays ticked under another name, of another wood, and at a size that reads the same', () => {
    for (const now of [
      { ...leg, name: 'Post' },
      { ...leg, name: 'Leg (pine)', material: 'oak' },
      { ...leg, length: 400.2 },
    ]) {
      const { ticks, wrong, gone } = reckon(cut(leg, 1, 3), [now], write);
      expect([wrong, gone]).toEqual([[], []]);
      expect([1, 3].map((piece) => isCut(ticks, now, piece))).toEqual([true, true]);
      expect(Object.keys(ticks)).toEqual([tickKey(now)]);
    }
  });

  it('belongs to its row, and to its name where the row is another or was never kept', () => {
    const short = { ...leg, length: 300, rows: ['s1 r3'] };
    const long = { ...leg, length: 410 };
    const byRow = reckon(cut(leg, 0), [short, long], write);
    expect(byRow.wrong.map(({ line }) => line)).toEqual([long]);
    const old = { [tickKey(leg)]: { pieces: [0], rows: [] } };
    expect(reckon(old, [short], write).wrong.map(({ line }) => line)).toEqual([short]);
  });

  it('is told where the list has no such part any more', () => {
    const { gone, ticks } = reckon(cut(leg, 0), [{ ...leg, name: 'Rail', rows: ['s1 r9'] }], write);
    expect(gone).toMatchObject([{ name: 'Leg', pieces: [0], size: '50 × 50 × 400' }]);
    expect(ticks).toEqual(cut(leg, 0));
  });

  it('counts first where fewer are wanted, and is told where it is more than that', () => {
    const two = { ...leg, count: 2 };
    const fewer = reckon(cut(leg, 2, 3), [two], write);
    expect(cutOf(fewer.ticks, two)).toBe(2);
    expect(fewer.over).toEqual([]);
    const more = reckon(cut(leg, 0, 1, 3), [two], write);
    expect(more.over).toEqual([{ line: two, cut: 3 }]);
    const [over] = more.over;
    if (over === undefined) throw new Error('nothing is told');
    expect(trimmed(more.ticks, over)).toEqual(cut(two, 0, 1));
  });
});
