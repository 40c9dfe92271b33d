import { describe, expect, it } from 'vitest';
import { arrange, sizesFor } from './arrange.ts';
import { unturned, withExploded, withSeasons } from './shown.ts';
import { FIT, moved, STEP, viewBoxOf, zoomed } from './zoom.ts';

describe('where the pictures stand', () => {
  it('is one picture in all of the room, where one view is chosen', () => {
    const { pictures, solid, flat } = arrange('front', { width: 352, height: 290 }, false);
    expect(pictures).toEqual(['front']);
    expect([solid, flat]).toEqual([
      { width: 352, height: 290 },
      { width: 352, height: 290 },
    ]);
  });

  it('is 3D over two flat views in a narrow room, and beside them in a wide one', () => {
    const tall = arrange('all', { width: 352, height: 290 }, false);
    expect([tall.name, tall.pictures]).toEqual(['tall', ['3d', 'plan', 'front']]);
    expect(tall.solid.height + tall.flat.height).toBeLessThanOrEqual(290);
    expect(2 * tall.flat.width).toBeLessThanOrEqual(352);
    const wide = arrange('all', { width: 760, height: 290 }, false);
    expect(wide.name).toBe('wide');
    expect(wide.solid.width + wide.flat.width).toBeLessThanOrEqual(760);
    expect(2 * wide.flat.height).toBeLessThanOrEqual(290);
  });

  it('is 3D alone where flat views would be too small to be read', () => {
    const low = arrange('all', { width: 358, height: 110 }, false);
    expect([low.name, low.pictures]).toEqual(['one', ['3d']]);
    expect(low.solid).toEqual({ width: 358, height: 110 });
    expect(arrange('front', { width: 358, height: 110 }, false).pictures).toEqual(['front']);
  });

  it('is the top over the front and the end beside the front where there is room for four', () => {
    expect(arrange('all', { width: 1000, height: 700 }, true).pictures).toEqual([
      'plan',
      '3d',
      'front',
      'end',
    ]);
  });

  it('is one under the other, each as wide as the page, where there is room for one', () => {
    const { name, pictures, flat, solid } = arrange('all', { width: 358, height: 390 }, true);
    expect([name, pictures]).toEqual(['stack', ['3d', 'plan', 'front', 'end']]);
    expect([flat.width, solid.width]).toEqual([358, 358]);
    // As large as they are, they have room for every size.
    expect(sizesFor(arrange('all', { width: 358, height: 390 }, true))).toBe('all');
  });

  it('leaves small views the sizes over all', () => {
    expect(sizesFor(arrange('all', { width: 352, height: 290 }, false))).toBe('overall');
    expect(sizesFor(arrange('plan', { width: 352, height: 290 }, false))).toBe('all');
    expect(sizesFor(arrange('all', { width: 1000, height: 700 }, true))).toBe('all');
  });
});

describe('what is shown', () => {
  const shown = { choice: 'front', exploded: false, seasons: false } as const;

  it('turns to the view that has what was asked for', () => {
    expect(withExploded(shown, true)).toEqual({ ...shown, choice: '3d', exploded: true });
    expect(withExploded({ ...shown, choice: 'all' }, true).choice).toBe('all');
    expect(withSeasons(shown, true, true).choice).toBe('plan');
    expect(withSeasons({ ...shown, choice: 'all' }, true, true).choice).toBe('all');
    expect(withSeasons({ ...shown, choice: 'all' }, true, false).choice).toBe('plan');
    expect(withSeasons(shown, false, true).choice).toBe('front');
  });

  it('goes back to where it was looked at from', () => {
    expect(unturned({ ...shown, eye: { azimuth: 1, elevation: 2 } })).toEqual(shown);
  });
});

describe('zooming', () => {
  it('keeps the spot under the pointer where it is', () => {
    const at = { x: 0.25, y: 0.75 };
    const near = zoomed(zoomed(FIT, STEP, at), STEP, at);
    expect(near.x + at.x / near.times).toBeCloseTo(at.x, 12);
    expect(near.y + at.y / near.times).toBeCloseTo(at.y, 12);
  });

  it('never leaves the picture, and fits again when all of it is in sight', () => {
    const far = moved(zoomed(FIT, 4), -10, 10);
    expect([far.x, far.y]).toEqual([0.75, 0]);
    expect(zoomed(far, 1 / 8)).toEqual(FIT);
    expect(zoomed(FIT, 1000).times).toBe(12);
  });

  it('is written as a viewBox', () => {
    expect(viewBoxOf('<svg viewBox="-10 -20 100 40">', { times: 2, x: 0.5, y: 0.25 })).toBe(
      '40 -10 50 20',
    );
  });
});
