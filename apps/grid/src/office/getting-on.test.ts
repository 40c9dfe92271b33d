import { describe, expect, it } from 'vitest';
import { GettingOn } from './getting-on.ts';

/** When it is stopped, looked at four times a second; undefined where it is done before. */
function stoppedAt(
  shareAt: (ms: number) => number,
  handedOn = Number.POSITIVE_INFINITY,
): number | undefined {
  const on = new GettingOn(1_000);
  for (let ms = 0; ms <= 120_000; ms += 250) {
    const share = shareAt(ms);
    if (share >= 1) return undefined;
    on.hear({ share, isHandedOn: ms >= handedOn }, 1_000 + ms);
    if (on.isStuck(1_000 + ms)) return ms;
  }
  return 120_000;
}

describe('a file that is read', () => {
  it('is stopped after 5 s where it never gets on, and where it soon does no more', () => {
    expect(stoppedAt(() => 0)).toBe(5_000);
    expect(stoppedAt((ms) => Math.min(0.9, ms / 2_000))).toBe(5_000);
  });

  it('is stopped where it gets on so slowly that it would take far longer than a minute', () => {
    expect(stoppedAt((ms) => ms / 300_000)).toBe(5_000);
    expect(stoppedAt((ms) => ms / 70_000)).toBe(5_000);
  });

  it('goes on for as long as it gets on', () => {
    expect(stoppedAt((ms) => ms / 20_000)).toBeUndefined();
    expect(stoppedAt((ms) => ms / 50_000)).toBeUndefined();
    // In steps, with nothing to hear in between.
    expect(stoppedAt((ms) => (0.2 * Math.floor(ms / 2_000)) / 2)).toBeUndefined();
  });

  it('is stopped after 5 s where it was handed on, and at once where that is later', () => {
    const gettingOn = (ms: number): number => ms / 20_000;
    expect(stoppedAt(gettingOn, 1_000)).toBe(5_000);
    expect(stoppedAt(gettingOn, 8_000)).toBe(8_000);
  });

  it('is stopped some seconds after it stands still', () => {
    const until = 12_000;
    const stopped = stoppedAt((ms) => Math.min(ms, until) / 30_000) ?? 0;
    expect(stopped).toBeGreaterThan(until);
    expect(stopped).toBeLessThanOrEqual(until + 3_000);
  });
});
