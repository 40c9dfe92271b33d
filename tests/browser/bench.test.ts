import { describe, expect, it } from 'vitest';
import { withMaker } from './support/with-maker.ts';

/** The bench list as it looks: what is struck out is what nobody cuts any more. */

const atHand = withMaker();

const bench = () => atHand.page.getByRole('dialog', { name: 'At the bench' });

/** Of each line: what it is and whether its size is struck out, as the browser draws it. */
const struck = () =>
  bench()
    .locator('.bench-line')
    .evaluateAll((lines) =>
      lines.map((line) => {
        const size = line.querySelector('.bench-size');
        const drawn = size === null ? '' : getComputedStyle(size).textDecorationLine;
        return [line.querySelector('strong')?.textContent, drawn === 'line-through'] as const;
      }),
    );

describe('the bench list', () => {
  it('strikes out the sizes that are cut, all pieces of them, and no others', async () => {
    const { page } = atHand;
    await page.getByRole('button', { name: 'At the bench' }).click();
    await bench().locator('.bench-line').first().waitFor();
    const before = await struck();
    expect(before.length).toBeGreaterThan(3);
    expect(before.filter(([, is]) => is)).toEqual([]);

    const cut = bench().getByRole('button', { name: 'One more of Long apron cut' });
    await cut.click();
    // One of two: the saw is set to this size once more.
    expect((await struck()).filter(([, is]) => is)).toEqual([]);
    await cut.click();
    await expect
      .poll(async () => (await struck()).filter(([, is]) => is))
      .toEqual([['Long apron', true]]);
    expect((await struck()).filter(([, is]) => !is)).toHaveLength(before.length - 1);

    await bench().getByRole('button', { name: 'One less of Long apron' }).click();
    await expect.poll(async () => (await struck()).filter(([, is]) => is)).toEqual([]);
  });
});
