import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { activity, words } from './support/maker.ts';
import { withMaker } from './support/with-maker.ts';

/** The drawing beside the grid and large: views, exploded, seasons, pieces and their rows, by hand and by keys. */

const atHand = withMaker({ shared: true });

const solid = () => atHand.page.locator('.stage[data-turns="true"]');
const lines = () => solid().locator('.kb-outline').getAttribute('d');
const frame = () => solid().locator('svg').getAttribute('viewBox');

describe('the drawing beside the grid', () => {
  it('Y49 is turned by dragging, zoomed by its buttons, exploded, and leads from a piece to its row', async () => {
    const { page } = atHand;
    await solid().waitFor();
    const first = await lines();
    const box = await solid().boundingBox();
    const [x, y] = [(box?.x ?? 0) + 60, (box?.y ?? 0) + 60];
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x + 80, y + 10, { steps: 4 });
    await page.mouse.up();
    await expect.poll(lines).not.toBe(first);
    await page.getByRole('button', { name: 'Reset' }).click();
    await expect.poll(lines).toBe(first);
    const fit = await frame();
    await page.getByRole('button', { name: 'Zoom in' }).click();
    await expect.poll(frame).not.toBe(fit);
    await page.getByRole('button', { name: 'Fit', exact: true }).click();
    await expect.poll(frame).toBe(fit);
    expect(await solid().locator('.kb-trace').count()).toBe(0);
    await page.getByLabel('Exploded', { exact: true }).check();
    await expect.poll(() => solid().locator('.kb-trace').count()).toBeGreaterThan(0);
    // Every piece of the table can be pressed.
    expect(await solid().locator('.kb-piece').count()).toBe(11);
    await page.getByLabel('Exploded', { exact: true }).uncheck();
    // A press in the middle of the top goes to its row, and marks it in every view.
    await solid().locator('.kb-piece', { hasText: 'Top' }).locator('.kb-shade-6').click();
    await expect
      .poll(() => page.locator('.sheet-list [aria-current]').textContent())
      .toContain('Parts');
    await expect.poll(() => page.locator('.stage:has(.is-current)').count()).toBe(3);
    const list = page.getByLabel('Piece', { exact: true });
    await expect.poll(() => list.locator('option:checked').textContent()).toBe('Top');
  });

  it('writes no size in letters that run out of the picture', async () => {
    const { page } = atHand;
    const out = await page.locator('.stage').evaluateAll((stages) =>
      stages.flatMap((stage) => {
        const room = stage.getBoundingClientRect();
        return [...stage.querySelectorAll('text')]
          .filter((text) => {
            const box = text.getBoundingClientRect();
            return (
              box.left < room.left - 1 || box.right > room.right + 1 || box.bottom > room.bottom + 1
            );
          })
          .map((text) => text.textContent);
      }),
    );
    expect(out).toEqual([]);
  });
});

describe('the drawing, large', () => {
  it('has all its tools in one line on a tablet held upright, each saying what it does', async () => {
    const { page } = atHand;
    await page.setViewportSize({ width: 768, height: 1024 });
    await activity(page, 'Drawing');
    const bar = page.locator('.drawing-page > .view-bar');
    await bar.getByRole('button', { name: 'Save as DXF' }).waitFor();
    const boxes = await bar
      .getByRole('button')
      .evaluateAll((all) => all.map((one) => one.getBoundingClientRect()));
    expect(boxes.length).toBeGreaterThan(9);
    expect(new Set(boxes.map(({ top }) => Math.round(top))).size).toBe(1);
    expect(Math.max(...boxes.map(({ right }) => right))).toBeLessThanOrEqual(768);
  });

  it('names a piece and goes to its row, zooms and turns by keys, and is saved', async () => {
    const { page } = atHand;
    await activity(page, 'Drawing');
    const large = page.locator('.drawing-page');
    await large.locator('.stage svg').first().waitFor();
    expect(await large.locator('.stage').count()).toBe(4);
    const heads = await large
      .locator('.piece-table thead th')
      .evaluateAll((all) => all.map((head) => getComputedStyle(head).fontWeight));
    expect(new Set(heads).size).toBe(1);
    // By keys alone: the list of pieces, then the way to its row.
    await large.getByRole('button', { name: 'Long apron' }).focus();
    await page.keyboard.press('Enter');
    const chosen = large.locator('.chosen-piece');
    await expect.poll(() => words(chosen)).toContain('Long apron');
    expect(await words(chosen)).toMatch(/2 pieces, 1 1\/2 × 3 1\/2 × 59/);
    expect(await large.locator('.stage:has(.is-current)').count()).toBe(4);

    await large.getByRole('button', { name: '3D view' }).click();
    const stage = large.locator('.stage');
    const view = () => stage.locator('svg').getAttribute('viewBox');
    const edges = () => stage.locator('.kb-outline').getAttribute('d');
    const [fit, first] = [await view(), await edges()];
    await stage.focus();
    await page.keyboard.press('+');
    await expect.poll(view).not.toBe(fit);
    await page.keyboard.press('0');
    await expect.poll(view).toBe(fit);
    await page.keyboard.press('ArrowLeft');
    await expect.poll(edges).not.toBe(first);
    await large.getByLabel('Seasons').check();
    await expect.poll(() => words(stage)).toContain('movement shown 10 times as large');
    for (const [name, holds] of [
      ['Save as DXF', /SECTION\r?\n/],
      ['Save as SVG', /^<svg [^>]*xmlns=/],
    ] as const) {
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        large.getByRole('button', { name }).click(),
      ]);
      expect(download.suggestedFilename()).toBe(`dining-table.${name.slice(-3).toLowerCase()}`);
      expect(readFileSync(await download.path(), 'utf8')).toMatch(holds);
    }
    await large.getByRole('button', { name: /^Go to row \d+ on Parts$/ }).click();
    await expect
      .poll(() => page.locator('.sheet-list [aria-current]').textContent())
      .toContain('Parts');
    await expect.poll(() => page.locator('.go-to input').inputValue()).toMatch(/^[A-Z]\d+$/);
  });
});
