import { describe, expect, it } from 'vitest';
import { words } from './support/maker.ts';
import { withMaker } from './support/with-maker.ts';

/** The list of all workbooks as cards with pictures: found by words and sizes, and what is done with one's own. */

const atHand = withMaker({ shared: true });

/** How far below the top of its card something stands, px. */
const offsetIn = (one: Element): number =>
  one.getBoundingClientRect().top - (one.closest('.book-row')?.getBoundingClientRect().top ?? 0);

describe('the workbooks', () => {
  it('are found by words and sizes, opened, saved as my own, duplicated, tagged, thrown away and brought back', async () => {
    const { page, maker } = atHand;
    // Once the list is loaded, what is built in stands there with its words in the frame in which it opens.
    await maker.workbooks();
    await maker.closeDialog();
    await page.locator('.top-menu').click();
    const built = await page.locator('.rare-menu').evaluate(async (menu) => {
      const buttons = [...menu.querySelectorAll('button')];
      buttons.find(({ textContent }) => textContent === 'Workbooks')?.click();
      for (;;) {
        await new Promise(requestAnimationFrame);
        const list = document.querySelector('dialog.gallery');
        if (list !== null)
          return [...list.querySelectorAll('.book-row')].map((card) => ({
            hasAbout: /solid|wood|what any work|sheets|legs/i.test(
              card.querySelector('.card-title + .quiet')?.textContent ?? '',
            ),
            hasPicture: card.querySelector('svg') !== null,
          }));
      }
    });
    expect(built.length).toBeGreaterThan(10);
    expect(built.every(({ hasAbout }) => hasAbout)).toBe(true);
    expect(built.filter(({ hasPicture }) => hasPicture).length).toBeGreaterThan(10);
    await maker.closeDialog();

    let dialog = await maker.workbooks();
    const find = () => dialog.getByRole('searchbox', { name: 'Find' });
    const cards = () => dialog.locator('.book-row');
    const card = (title: string) =>
      cards().filter({
        has: page.getByRole('heading', { name: new RegExp(`^${title}( open now)?$`) }),
      });
    const titles = async () =>
      (await cards().locator('.card-title').allInnerTexts()).map((title) =>
        title.replace('open now', '').trim(),
      );

    // Built-in ones have a picture that says what it is.
    await dialog.getByRole('img', { name: 'Bench, 48 × 14 × 18 in' }).waitFor();
    expect(await words(card('Bench'))).toContain('mortise and tenon');
    const all = await cards().count();

    // A letter typed anywhere is the first of what is looked for.
    await page.keyboard.type('white oak mortise');
    expect(await find().inputValue()).toBe('white oak mortise');
    await expect.poll(titles).not.toContain('Coffee table');
    expect(await titles()).toContain('Bench');
    await find().fill('table 7 ft');
    await dialog.getByText('The nearest to 7 ft come first').waitFor();
    expect((await titles())[0]).toBe('Dining table');
    await find().fill('canoe');
    await dialog.getByText('No workbook is found by "canoe".').waitFor();
    await dialog.getByRole('button', { name: 'Show all workbooks' }).click();
    await expect.poll(() => cards().count()).toBe(all);

    // Arrows go from card to card, Enter opens.
    const inKeys = () => page.evaluate(() => document.activeElement?.getAttribute('aria-label'));
    await dialog.getByRole('button', { name: 'Open: Bench' }).focus();
    await page.keyboard.press('ArrowRight');
    expect(await inKeys()).toBe('Open: Bookcase');
    await page.keyboard.press('ArrowLeft');
    expect(await inKeys()).toBe('Open: Bench');
    await page.keyboard.press('Enter');
    await page.locator('.top-title', { hasText: 'Bench' }).waitFor();
    const undo = page.locator('.back-and-forth').getByRole('button', { name: 'Undo' });
    expect(await undo.getAttribute('title')).toBe('Nothing to undo since this workbook was opened');

    for (let i = 0; i < 3; i += 1) await page.keyboard.press('ArrowDown');
    const wasAt = await page.locator('.go-to input').inputValue();
    dialog = await maker.workbooks();
    await dialog.getByRole('button', { name: 'Save as my template' }).click();
    await page.getByLabel('Template name').fill('Hall bench');
    await page.keyboard.press('Enter');
    // One stays in the bench, where one was.
    await page.locator('.offer', { hasText: 'Saved as your template "Hall bench".' }).waitFor();
    expect(await words(page.locator('.top-title-words'))).toBe('Bench');
    expect(await page.locator('.go-to input').inputValue()).toBe(wasAt);
    dialog = await maker.workbooks();
    // Its card is made in a worker, with all that opening a workbook takes.
    await dialog
      .getByRole('img', { name: 'Hall bench, 48 × 14 × 18 in' })
      .waitFor({ timeout: 120_000 });

    await maker.more(card('Hall bench'));
    await card('Hall bench').getByRole('button', { name: 'Duplicate: ' }).click();
    await page.keyboard.type('Porch bench');
    await page.keyboard.press('Enter');
    await maker.more(card('Porch bench'));
    // What is known of it only when it was drawn moves no button, and each of them is there before.
    const tags = card('Porch bench').getByRole('button', { name: 'Tags: ' });
    const before = await tags.evaluate(offsetIn);
    await dialog
      .getByRole('img', { name: 'Porch bench, 48 × 14 × 18 in' })
      .waitFor({ timeout: 120_000 });
    await card('Porch bench').locator('dd').first().waitFor();
    expect(await tags.evaluate(offsetIn)).toBe(before);
    await card('Porch bench').getByRole('button', { name: 'Tags: ' }).click();
    await page.keyboard.type('outside, lake house');
    await page.keyboard.press('Enter');
    await expect
      .poll(() => words(card('Porch bench')), { timeout: 120_000 })
      .toContain('outside, lake house');
    await find().fill('lake');
    await expect.poll(titles).toEqual(['Porch bench']);

    await card('Porch bench').getByRole('button', { name: 'Delete: ' }).click();
    await card('Porch bench').getByRole('button', { name: 'Delete', exact: true }).click();
    const trashed = dialog.getByText('"Porch bench" is in the trash.');
    await trashed.waitFor();
    await dialog.getByRole('button', { name: 'Put back: Porch bench' }).waitFor();
    await dialog.getByRole('button', { name: 'Undo', exact: true }).click();
    await dialog
      .getByRole('button', { name: 'Open: Porch bench' })
      .or(dialog.getByRole('button', { name: 'Start a new job from it: Porch bench' }))
      .first()
      .waitFor();
    expect(await trashed.count()).toBe(0);
    await maker.more(card('Porch bench'));
    await card('Porch bench').getByRole('button', { name: 'Delete: ' }).click();
    await card('Porch bench').getByRole('button', { name: 'Delete', exact: true }).click();
    await trashed.waitFor();
    await dialog.getByRole('button', { name: 'Put back: Porch bench' }).click();
    await expect.poll(() => dialog.getByRole('button', { name: /^Put back/ }).count()).toBe(0);
    expect(await trashed.count()).toBe(0);
    await maker.closeDialog();
  });
});
