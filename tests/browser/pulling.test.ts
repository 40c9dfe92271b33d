import type { CDPSession, Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { complaintsOf } from './support/app.ts';
import { Maker, words } from './support/maker.ts';
import { withMaker } from './support/with-maker.ts';

/** A number pulled with the pointer, with keys and with a finger: all follows, and nothing is left behind. */

const atHand = withMaker({ shared: true });

const shows = (name: string, maker = atHand.maker) => words(maker.cellAt(maker.place(name)));
const press = (keys: string) => atHand.page.keyboard.press(keys);

/** Where the sign in a named cell is taken. */
async function signOf(name: string, maker = atHand.maker) {
  const sign = maker.cellAt(maker.place(name)).locator('.pull-sign');
  await sign.waitFor();
  const box = await sign.boundingBox();
  if (box === null) throw new Error('the sign is not seen');
  return { x: box.x + box.width / 2, y: box.y + box.height / 2, width: box.width };
}

/** Takes the sign and pulls it to the right by so many px, still holding it. */
async function pull(by: number): Promise<{ readonly x: number; readonly y: number }> {
  const { mouse } = atHand.page;
  const { x, y } = await signOf('top_length');
  await mouse.move(x, y);
  await mouse.down();
  await mouse.move(x + by, y, { steps: 6 });
  await expect.poll(() => shows('top_length')).not.toMatch(/^(was 84 )?84$/);
  return { x: x + by, y };
}

const length = async (): Promise<string> => (await shows('top_length')).replace(/^was \S+ /, '');
const said = () => words(atHand.page.locator('p[role="status"].visually-hidden'));

describe('pulling a number with the pointer', () => {
  it('G65 Y38 has all of the workbook follow while it is held, and is one step to undo', async () => {
    const { maker, page } = atHand;
    const weight = await shows('top_weight');
    const { x, y } = await pull(40);
    const now = Number(await length());
    expect(now).toBeGreaterThan(90);
    await maker.drawn('plan', now);
    expect(Number((await shows('top_weight')).split(' ').at(-1))).toBeGreaterThan(Number(weight));
    // What it does is listed meanwhile, with the newest value, and nothing of that is a step yet.
    const did = page.locator('.fold-did');
    await expect.poll(() => words(did)).toContain(`Length of the top top_length 84 → ${now}`);
    expect(await words(did)).toMatch(/Price \$3,952\.48 → \$\d,\d{3}\.\d\d \+\$/);
    expect(await did.getByRole('button', { name: /^Undo/ }).count()).toBe(0);
    expect(await words(page.locator('.cell-kind'))).toBe('24 to 168 in, by 1 in');
    expect(await words(maker.saved)).not.toContain('Saved');

    // Far from the cell it goes in fine steps.
    await page.mouse.move(x, y + 260);
    await page.mouse.move(x + 9, y + 260, { steps: 3 });
    await expect.poll(() => words(page.locator('.cell-kind'))).toMatch(/by 1\/8 in$/);
    // Beyond the end of its range it stays there, and says so.
    await page.mouse.move(x, y);
    await page.mouse.move(x + 500, y, { steps: 4 });
    await expect.poll(length).toBe('168');
    expect(await said()).toBe('Length of the top 168 in, the most it takes.');
    await page.mouse.move(x + 420, y, { steps: 4 });
    await expect.poll(length).not.toBe('168');
    const last = await length();
    await expect.poll(() => words(did)).toContain(`Length of the top top_length 84 → ${last}`);
    await page.mouse.up();
    await did.getByRole('button', { name: 'Undo this' }).waitFor();
    expect(await words(did)).toContain(`Length of the top top_length 84 → ${last}`);
    await maker.untilSaved();
    await press('Control+z');
    expect(await length()).toBe('84');
    expect(await page.evaluate(() => document.documentElement.className)).toBe('');
    await press('Control+z');
    expect(await length()).toBe('84');
    await maker.drawn('plan', 84);
  });

  it('G65 Y39 leaves all as it was at Escape, and where the window is lost', async () => {
    const { maker, page } = atHand;
    const weight = await shows('top_weight');
    const leave = [
      () => press('Escape'),
      () => page.evaluate(() => window.dispatchEvent(new Event('blur'))),
    ];
    for (const one of leave) {
      await pull(40);
      await one();
      await expect.poll(length).toBe('84');
      expect(await said()).toBe('Length of the top as it was: 84.');
      await page.mouse.move(400, 300);
      await page.mouse.up();
      expect(await length()).toBe('84');
      expect(await shows('top_weight')).toBe(weight);
      await maker.drawn('plan', 84);
    }
    await press('Control+z');
    expect(await words(maker.saved)).not.toContain('Saved');
    expect(await page.locator('.is-changed, .is-pulled').count()).toBe(0);
  });

  it('G65 leaves pressing, selecting and writing as they are, also on the sign', async () => {
    const { maker, page } = atHand;
    const { x, y, width } = await signOf('top_length');
    expect(width).toBeGreaterThanOrEqual(24);
    await page.mouse.click(x, y);
    await page.keyboard.type('90');
    await press('Enter');
    expect(await length()).toBe('90');
    const { y: from } = await signOf('top_length');
    await page.mouse.move(x, from);
    await page.mouse.down();
    await page.mouse.move(x + 1, from + 60, { steps: 5 });
    await page.mouse.up();
    const { row, column } = maker.place('top_length');
    expect(await page.locator('.ag-cell[aria-selected="true"]').count()).toBe(3);
    expect(
      await maker.cellAt({ sheet: '', row: row + 2, column }).getAttribute('aria-selected'),
    ).toBe('true');
    expect(await length()).toBe('90');
    // Nothing to pull where there is no range, or where it is calculated.
    for (const name of ['species', 'top_weight'])
      expect(await maker.cellAt(maker.place(name)).locator('.pull-sign').count()).toBe(0);
  });
});

describe('pulling a number with keys', () => {
  it('G65 Y40 goes by steps while it is held, and all of them are one step to undo', async () => {
    const { keyboard } = atHand.page;
    await atHand.maker.go('top_length');
    await keyboard.down('Alt');
    for (let i = 0; i < 3; i += 1) await keyboard.down('ArrowUp');
    await expect.poll(length).toBe('84 3/8');
    await keyboard.down('Shift');
    await keyboard.down('ArrowUp');
    await expect.poll(length).toBe('85');
    expect(await said()).toBe('Length of the top 85 in.');
    for (const key of ['ArrowUp', 'Shift', 'Alt']) await keyboard.up(key);
    // A pause keeps it.
    await atHand.maker.untilSaved();
    await keyboard.down('Alt');
    await keyboard.down('ArrowDown');
    await expect.poll(length).toBe('84 7/8');
    for (const key of ['ArrowDown', 'Alt']) await keyboard.up(key);
    // So does any other key.
    await press('Control+z');
    await expect.poll(length).toBe('85');
    await press('Control+z');
    expect(await length()).toBe('84');
  });

  it('G65 leaves all as it was at Escape while it goes on, and where the window is lost', async () => {
    const { page, maker } = atHand;
    const leave = [
      () => page.keyboard.down('Escape'),
      () => page.evaluate(() => window.dispatchEvent(new Event('blur'))),
    ];
    for (const one of leave) {
      await maker.go('top_length');
      await page.keyboard.down('Alt');
      await page.keyboard.down('ArrowUp');
      await expect.poll(length).toBe('84 1/8');
      await one();
      await expect.poll(length).toBe('84');
      for (const key of ['Escape', 'ArrowUp', 'Alt']) await page.keyboard.up(key);
    }
    await press('Control+z');
    expect(await length()).toBe('84');
    expect(await words(maker.saved)).not.toContain('Saved');
  });
});

describe('pulling a number with a finger', () => {
  const TABLET = {
    viewport: { width: 768, height: 1024 },
    hasTouch: true,
    isMobile: true,
  } as const;
  const touch = (
    cdp: CDPSession,
    type: 'touchStart' | 'touchMove' | 'touchEnd' | 'touchCancel',
    x = 0,
    y = 0,
  ) =>
    cdp.send('Input.dispatchTouchEvent', {
      type,
      touchPoints: type === 'touchEnd' || type === 'touchCancel' ? [] : [{ x, y }],
    });
  const scrolled = (page: Page) =>
    page.evaluate(() => [
      window.scrollY,
      ...[...document.querySelectorAll('.sheet-grid *')]
        .flatMap((one) => [one.scrollLeft, one.scrollTop])
        .filter((far) => far !== 0),
    ]);

  it('G65 Y41 goes sideways without anything being scrolled, and is left where the finger is taken away', async () => {
    const page = await atHand.page.context().browser()?.newPage(TABLET);
    if (page === undefined) throw new Error('no browser');
    await page.goto(atHand.page.url());
    const complaints = complaintsOf(page);
    const maker = new Maker(page);
    await maker.ready();
    const cdp = await page.context().newCDPSession(page);
    const now = async () => (await shows('top_length', maker)).replace(/^was \S+ /, '');
    // A cell that is pressed comes into sight first.
    await maker.cellAt(maker.place('top_length')).tap();
    await page.getByRole('button', { name: 'Done' }).tap();
    const { x, y, width } = await signOf('top_length', maker);
    expect(width).toBeGreaterThanOrEqual(44);
    const drag = async (end: 'touchEnd' | 'touchCancel') => {
      await touch(cdp, 'touchStart', x, y);
      const before = await scrolled(page);
      for (let i = 1; i <= 8; i += 1) await touch(cdp, 'touchMove', x + 5 * i, y);
      await expect.poll(now).not.toBe('84');
      expect(await scrolled(page)).toEqual(before);
      await touch(cdp, end);
    };
    await drag('touchCancel');
    await expect.poll(now).toBe('84');
    await drag('touchEnd');
    await expect.poll(now).toMatch(/^(9|10)\d$/);
    await maker.untilSaved();
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});
