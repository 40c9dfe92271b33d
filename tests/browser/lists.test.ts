import { describe, expect, it } from 'vitest';
import { startApp } from './support/app.ts';
import { Maker, words } from './support/maker.ts';
import { withMaker } from './support/with-maker.ts';

/** Cells with a list of choices: opened, found in, chosen from, and what they do not take. */

const atHand = withMaker({ shared: true });
const press = (key: string) => atHand.page.keyboard.press(key);
const list = () => atHand.page.getByRole('listbox');
const says = () => atHand.page.locator('.choice-list');
const options = () => list().getByRole('option').allInnerTexts();
const chosen = () => words(list().locator('[aria-selected="true"]'));
const address = () => atHand.page.locator('.go-to input').inputValue();

describe('a cell with choices', () => {
  it('G61 Y15 opens its list by keys and by the pointer, where arrows choose and Enter takes', async () => {
    const { maker } = atHand;
    for (const way of ['F2', 'Enter', 'Alt+ArrowDown', 'double click', 'a press on its arrow']) {
      const cell = await maker.go('cut');
      if (way === 'double click') await cell.dblclick();
      else if (way === 'a press on its arrow') {
        const { width = 0, height = 0 } = (await cell.boundingBox()) ?? {};
        await cell.click({ position: { x: width - 10, y: height / 2 } });
      } else await press(way);
      await list().waitFor();
      expect([way, await options()]).toEqual([way, ['flat', 'rift', 'quarter']]);
      expect(await chosen()).toBe('flat');
      await press('ArrowDown');
      await press('ArrowDown');
      await press('ArrowDown');
      expect(await chosen()).toBe('quarter');
      await press('Enter');
      expect(await list().count()).toBe(0);
      expect(await address()).toBe('rough_quarters');
      expect(await maker.shows('cut')).toContain('quarter');
      await press('ControlOrMeta+z');
      await expect.poll(() => maker.shows('cut')).toMatch(/^flat/);
    }
  });

  it('G61 Y16 leaves it as it was with Escape, and Tab takes and goes on', async () => {
    const { maker } = atHand;
    await maker.go('cut');
    await press('F2');
    await press('ArrowDown');
    await press('Escape');
    expect(await list().count()).toBe(0);
    expect(await words(await maker.go('cut'))).toBe('flat');
    await press('F2');
    await press('ArrowDown');
    await press('Tab');
    expect(await address()).toBe('C14');
    expect(await maker.shows('cut')).toBe('rift');
  });

  it('G61 Y17 finds in its list what is written, by any part and by other names', async () => {
    const { maker, page } = atHand;
    await maker.go('species');
    await page.keyboard.type('oak');
    expect((await options()).length).toBeGreaterThan(1);
    await page.keyboard.type(' eur');
    await expect.poll(options).toHaveLength(1);
    await press('Enter');
    expect(await maker.shows('species')).toMatch(/European|Oak, European/);
    await maker.go('species');
    await press('F2');
    await page.keyboard.type('juglans');
    await expect.poll(() => options().then(([first]) => first)).toMatch(/walnut.*Juglans/is);
    await press('Enter');
    expect(await maker.shows('species')).toMatch(/walnut/i);
  });

  it('G61 Y18 refuses what is not in the list with the nearest, which Enter takes', async () => {
    const { maker, page } = atHand;
    await maker.go('cut');
    await page.keyboard.type('quater');
    await press('Enter');
    await expect
      .poll(() => words(says()))
      .toContain('No choice called "quater"; the nearest is quarter. Take it?');
    // Said once, where the maker looks.
    expect(await page.locator('.offer').count()).toBe(0);
    expect(await chosen()).toBe('quarter');
    await press('Enter');
    expect(await page.locator('.offer').count()).toBe(0);
    expect(await maker.shows('cut')).toBe('quarter');
    // Escape leaves the cell as it was, and asks nothing more.
    await page.keyboard.type('rigt');
    await press('Enter');
    await says()
      .getByText(/^No choice called/)
      .waitFor();
    await press('Escape');
    expect(await list().count()).toBe(0);
    expect(await page.locator('.offer').count()).toBe(0);
    expect(await maker.shows('cut')).toBe('quarter');
    // Whoever goes elsewhere is asked on the line above, where a press takes the nearest.
    await page.keyboard.type('rigt');
    await page.locator('.ag-row[row-id="20"] [aria-colindex="2"]').click();
    await page.locator('.offer').getByRole('button', { name: 'rift' }).click();
    expect(await maker.shows('cut')).toBe('rift');
  });

  it('G61 tells a screen reader of a list, which choice it is at, and how many there are', async () => {
    await atHand.maker.go('species');
    await press('F2');
    const field = atHand.page.locator('input.cell-entry');
    expect(await field.getAttribute('role')).toBe('combobox');
    expect(await field.getAttribute('aria-expanded')).toBe('true');
    const id = (await field.getAttribute('aria-activedescendant')) ?? '';
    const option = atHand.page.locator(`#${id}`);
    expect(await option.getAttribute('aria-selected')).toBe('true');
    expect(Number(await option.getAttribute('aria-setsize'))).toBe((await options()).length);
    expect(await option.getAttribute('aria-posinset')).toBe('1');
    await press('Escape');
    await atHand.maker.go('top_length');
    await press('F2');
    expect(await list().count()).toBe(0);
  });
});

describe('on a phone', () => {
  it('G64 Y50 one tap opens the list, which fits the screen and is scrolled to what the cell holds', async () => {
    const app = await startApp();
    const page = await app.open({ viewport: { width: 390, height: 844 }, hasTouch: true });
    const maker = new Maker(page);
    await maker.ready();
    await maker.cellAt(maker.place('species')).tap();
    const box = page.locator('.choice-list');
    await box.waitFor();
    const { x = -1, y = -1, width = 0, height = 0 } = (await box.boundingBox()) ?? {};
    expect([x >= 0, y >= 0, x + width <= 390, y + height <= 844]).toEqual([true, true, true, true]);
    const option = box.getByRole('option').nth(2);
    expect((await option.boundingBox())?.height).toBeGreaterThanOrEqual(44);
    const text = ((await option.textContent()) ?? '').trim();
    await option.tap();
    await box.waitFor({ state: 'detached' });
    expect(await words(maker.cellAt(maker.place('species')))).toBe(text);
    await app.close();
  });
});
