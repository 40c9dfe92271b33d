import { describe, expect, it } from 'vitest';
import { HIGH } from './support/app.ts';
import { handsOf } from './support/hands.ts';
import { withMaker } from './support/with-maker.ts';

/** Cells taken by the edge of what is selected, and the fill handle pressed twice. */

const atHand = withMaker({ shared: true, viewport: HIGH });
const { at, shows, press, type, entry } = handsOf(atHand);
const FREE = 33;

/** Takes hold of the upper edge of a cell and goes to the middle of another. */
async function drag(from: readonly [number, number], to: readonly [number, number]): Promise<void> {
  const { page } = atHand;
  const start = await at(...from).boundingBox();
  const end = await at(...to).boundingBox();
  if (start === null || end === null) throw new Error('the cells are not on the screen');
  await page.mouse.move(start.x + start.width / 3, start.y + 1);
  await page.mouse.down();
  await page.mouse.move(start.x + start.width / 3, start.y + start.height * 1.5, { steps: 3 });
  await page.mouse.move(end.x + end.width / 2, end.y + end.height / 2, { steps: 5 });
}

async function selected(from: readonly [number, number], to: readonly [number, number]) {
  await at(...from).click();
  await at(...to).click({ modifiers: ['Shift'] });
}

describe('what is selected', () => {
  it('G41 Y11 is moved by its edge, formulas that use it following, in one step', async () => {
    const { page } = atHand;
    await type(FREE, 0, '5');
    await type(FREE + 1, 0, '6');
    await type(FREE + 2, 0, `=A${FREE + 1}*2`);
    await selected([FREE, 0], [FREE + 1, 0]);
    await drag([FREE, 0], [FREE + 1, 2]);
    expect(await page.locator('.is-dropping').count()).toBe(2);
    await page.mouse.up();
    await expect.poll(() => shows(FREE + 1, 2)).toContain('5');
    expect(await page.locator('.is-dropping').count()).toBe(0);
    expect(await page.locator('.ag-cell[aria-selected="true"]').count()).toBe(2);
    expect(await entry(FREE + 2, 0)).toBe(`=C${FREE + 2}*2`);
    expect(await shows(FREE + 2, 0)).toContain('10');
    await press('ControlOrMeta+z');
    await expect.poll(() => shows(FREE, 0)).toContain('5');
    expect(await entry(FREE + 2, 0)).toBe(`=A${FREE + 1}*2`);
  });

  it('G41 Y12 stays and is copied with Ctrl held, and Escape lets it be', async () => {
    const { page } = atHand;
    await type(FREE, 0, '5');
    await type(FREE, 1, `=A${FREE + 1}*2`);
    await at(FREE, 1).click();
    await drag([FREE, 1], [FREE + 3, 1]);
    await press('Escape');
    expect(await page.locator('.is-dropping').count()).toBe(0);
    await page.mouse.up();
    expect(await entry(FREE, 1)).toBe(`=A${FREE + 1}*2`);
    expect(await shows(FREE + 3, 1)).toBe('');
    await at(FREE, 1).click();
    await page.keyboard.down('Control');
    await drag([FREE, 1], [FREE + 3, 1]);
    await page.mouse.up();
    await page.keyboard.up('Control');
    await expect.poll(() => entry(FREE + 3, 1)).toBe(`=A${FREE + 4}*2`);
    expect(await entry(FREE, 1)).toBe(`=A${FREE + 1}*2`);
    // A press on the edge that goes nowhere is a press on the cell.
    await selected([FREE, 0], [FREE, 1]);
    await at(FREE, 1).click({ position: { x: 30, y: 1 } });
    await expect.poll(() => page.locator('.go-to input').inputValue()).toBe(`B${FREE + 1}`);
  });
});

describe('the fill handle', () => {
  it('G42 Y09 pressed twice fills down as far as the column beside it goes', async () => {
    const { page } = atHand;
    for (const [i, text] of ['5', '6', '7', '8'].entries()) await type(FREE + i, 0, text);
    await type(FREE, 1, `=A${FREE + 1}*2`);
    await at(FREE, 1).click();
    await page.locator('.fill-handle').dblclick();
    await expect.poll(() => shows(FREE + 3, 1)).toContain('16');
    expect(await shows(FREE + 4, 1)).toBe('');
    expect(await page.locator('.ag-cell.is-selected').count()).toBe(4);
    await at(FREE, 1).click();
    await press('ControlOrMeta+z');
    await expect.poll(() => shows(FREE + 3, 1)).toBe('');
    expect(await shows(FREE, 1)).toContain('10');
  });
});
