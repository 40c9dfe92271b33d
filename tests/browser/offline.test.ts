import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type App, HIGH, startApp } from './support/app.ts';
import { activity, command, Maker, words } from './support/maker.ts';

/** Without a network, on a touch screen, and by the keyboard's own help. */

let app: App;

beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

describe('the app', () => {
  it('G54 starts, is edited and keeps the edit with the network off', async () => {
    const page = await app.open({ serviceWorkers: 'allow', viewport: HIGH });
    const maker = new Maker(page);
    await maker.ready();
    await expect
      .poll(
        () =>
          page.evaluate(async () => {
            const registration = await navigator.serviceWorker.getRegistration();
            return registration?.active?.state;
          }),
        { timeout: 20_000 },
      )
      .toBe('activated');
    await page.context().setOffline(true);
    await page.reload();
    await maker.ready();
    await maker.type('top_length', '96');
    await maker.untilSaved();
    // What formulas may need and comes late is kept on the device too.
    const free = maker.cellAt({ sheet: '', row: 33, column: 1 });
    await free.click();
    await page.keyboard.type('=IMABS("3+4i")+ROUND(top_length,0)');
    await page.keyboard.press('Enter');
    await expect.poll(() => words(free)).toBe('101');
    await maker.untilSaved();
    await command(page, 'Functions');
    await page.getByRole('dialog', { name: 'Functions' }).waitFor();
    await page.reload();
    await maker.ready();
    await activity(page, 'Bench list');
    await page.getByLabel(/^Leg 1 of 4/).check();
    await page.getByText(/1 of 18/).waitFor();
    await activity(page, 'Workbook');
    expect(await maker.shows('top_length')).toContain('96');
    await page.context().close();
  });

  it('G64 writes fractions and inches with the signs of a touch screen', async () => {
    const page = await app.open({
      hasTouch: true,
      isMobile: true,
      viewport: { width: 768, height: 1024 },
    });
    const maker = new Maker(page);
    await maker.ready();
    const cell = maker.cellAt(maker.place('top_length'));
    await cell.tap();
    const signs = page.getByRole('toolbar', { name: 'Signs' });
    await page.getByRole('button', { name: 'Keyboard' }).tap();
    const field = page.getByLabel('Entry or formula');
    await field.fill('66');
    await signs.getByRole('button', { name: '⅛' }).tap();
    await expect.poll(() => field.inputValue()).toBe('66 1/8');
    await field.press('Enter');
    await expect.poll(() => words(cell)).toMatch(/66 ?1\/8/);
    await page.context().close();
  });

  it('G64 opens the menu of a cell with a long press', async () => {
    const page = await app.open({
      hasTouch: true,
      isMobile: true,
      viewport: { width: 768, height: 1024 },
    });
    const maker = new Maker(page);
    await maker.ready();
    // Nothing reaches beyond the screen: a finger would push the page about.
    expect(await page.evaluate(() => window.innerWidth)).toBe(768);
    const box = await maker.cellAt(maker.place('top_width')).boundingBox();
    const touch = await page.context().newCDPSession(page);
    const at = { x: (box?.x ?? 0) + 20, y: (box?.y ?? 0) + 10 };
    await touch.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: [at] });
    await page.getByRole('menuitem', { name: 'Name …' }).waitFor();
    await touch.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
    await page.getByRole('menuitem', { name: 'Name …' }).tap();
    expect(await page.getByLabel('Name in formulas').inputValue()).toBe('top_width');
    await page.context().close();
  });

  it('G18 keeps the first letter that an input method puts together', async () => {
    const page = await app.open({ viewport: HIGH });
    const maker = new Maker(page);
    await maker.ready();
    const cell = maker.cellAt({ sheet: '', row: 33, column: 0 });
    await cell.click();
    const keys = await page.context().newCDPSession(page);
    // What a keyboard with an input method sends: a key of no letter, then a composition.
    await keys.send('Input.dispatchKeyEvent', {
      type: 'rawKeyDown',
      key: 'Process',
      code: 'KeyK',
      windowsVirtualKeyCode: 229,
    });
    for (const text of ['k', 'か']) {
      await keys.send('Input.imeSetComposition', { text, selectionStart: 1, selectionEnd: 1 });
    }
    await keys.send('Input.insertText', { text: 'か' });
    await keys.send('Input.dispatchKeyEvent', { type: 'keyUp', key: 'k', code: 'KeyK' });
    expect(await maker.editorText()).toBe('か');
    await page.keyboard.press('Enter');
    await expect.poll(() => words(cell)).toBe('か');
    await page.context().close();
  });

  it('lists its keys', async () => {
    const page = await app.open();
    await new Maker(page).ready();
    await command(page, 'Keys');
    expect(await words(page.getByRole('dialog', { name: 'Keys' }))).toContain(
      'changes a reference',
    );
    await page.context().close();
  });
});
