import { MemoryStore } from '@kerfbook/keeping';
import { describe, expect, it } from 'vitest';
import { hoursRun, isDoubtful, keepClock, readClock, runSaid, startSaid } from './clock.ts';

const at = (text: string): number => new Date(text).getTime();
const started = (text: string) => ({ operation: 'r2', name: 'Mill', started: at(text) });

describe('a clock', () => {
  it('is the moment at which it was started, kept beside its workbook', async () => {
    const store = new MemoryStore();
    expect(await readClock(store, 'b1')).toBeUndefined();
    const clock = started('2027-03-01T09:00:00');
    await keepClock(store, 'b1', clock);
    expect(await readClock(store, 'b1')).toEqual(clock);
    expect(await readClock(store, 'b2')).toBeUndefined();
    expect(hoursRun(clock, at('2027-03-01T10:15:00'))).toBe(1.25);
    await keepClock(store, 'b1', undefined);
    expect(await readClock(store, 'b1')).toBeUndefined();
  });

  it('is none where something else is kept under its key', async () => {
    for (const kept of [
      7,
      { operation: 'r2' },
      { operation: 'r2', name: 'Mill', started: 'now' },
    ]) {
      const store = new MemoryStore();
      await store.set('clock:b1', kept);
      expect(await readClock(store, 'b1')).toBeUndefined();
    }
  });

  it.each([
    ['2027-03-01T23:50:00', '2027-03-02T00:10:00', true],
    ['2027-03-01T08:00:00', '2027-03-01T18:00:00', false],
    ['2027-03-01T08:00:00', '2027-03-01T18:01:00', true],
    ['2027-03-01T08:00:00', '2027-03-01T07:59:00', true],
  ])('started at %s is doubted at %s: %s', (from, now, doubted) => {
    expect(isDoubtful(started(from), at(now))).toBe(doubted);
  });

  it('is told as one would say it', () => {
    const clock = started('2027-03-01T16:10:00');
    expect(startSaid(clock, at('2027-03-01T17:00:00'))).toBe('today at 16:10');
    expect(startSaid(clock, at('2027-03-02T07:00:00'))).toBe('yesterday at 16:10');
    expect(startSaid(clock, at('2027-03-04T07:00:00'))).toBe('on Mon 1 Mar 2027 at 16:10');
    expect([runSaid(0.99), runSaid(1), runSaid(10.5), runSaid(-1)]).toEqual([
      '59 min',
      '1 h',
      '10 h 30 min',
      '0 min',
    ]);
  });
});
