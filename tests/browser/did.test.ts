import { describe, expect, it } from 'vitest';
import { standing, words } from './support/maker.ts';
import { withMaker } from './support/with-maker.ts';

/** What the last change did: the list beside the grid, with real keys. */

const atHand = withMaker({ shared: true });

const fold = () => atHand.page.locator('.fold-did');
const says = () => fold().locator('.did-says');
const line = (label: string) =>
  fold()
    .locator('.did-lines tr', { has: atHand.page.getByText(label, { exact: true }) })
    .first();
const press = (key: string) => atHand.page.keyboard.press(key);
const here = () => atHand.page.locator('.go-to input').inputValue();
const told = () => words(atHand.page.locator('main > .visually-hidden[role="status"]'));

describe('what the last change did', () => {
  it('Y35 is listed with old, new and difference, leads to each cell on any sheet, and back from the change', async () => {
    await atHand.maker.go('top_length');
    await atHand.page.keyboard.type('96');
    await press('Enter');
    await expect.poll(() => words(says())).toBe('Length of the top top_length 84 → 96');
    expect(await words(line('Price'))).toBe('Price $3,952.48 → $4,374.35 +$421.87');
    expect(await words(line('Weight of the top'))).toBe(
      'Weight of the top top_weight 115.8 → 132.3 +16.5 lb',
    );
    const check = fold().locator('.did-check');
    // What the check is called says what should be: the sentence comes first.
    expect(await words(check)).toMatch(
      /^A long apron sags 0\.207 in .+ The aprons are stiff enough OK → Warning$/,
    );
    expect(await check.getAttribute('data-state')).toBe('care');
    await expect
      .poll(told)
      .toMatch(/^Length of the top 84 to 96\. Price \$3,952\.48 to \$4,374\.35\./);
    // Reached with keys alone, and on to the cell on its sheet, which says what it was.
    await line('Price').getByRole('button').focus();
    await press('Enter');
    await expect.poll(here).toBe('price');
    const price = atHand.maker.cellAt(atHand.maker.place('price'));
    await expect.poll(() => words(price)).toContain('$4,374.35');
    await expect
      .poll(() => price.evaluate((cell) => cell.classList.contains('is-changed')))
      .toBe(true);
    expect(await words(atHand.page.locator('.exact'))).toContain('was $3,952.48');
    await fold()
      .getByRole('button', { name: /^and \d+ more$/ })
      .click();
    await fold()
      .getByRole('button', { name: /^Length of the legs,/ })
      .waitFor({ state: 'detached' });
    expect(await words(line('Deposit'))).toMatch(/^Deposit \$/);
    await fold().getByRole('button', { name: 'Undo this' }).click();
    await expect.poll(() => words(says())).toBe('Undone: Length of the top top_length 96 → 84');
    expect(await words(line('Price'))).toBe('Price $4,374.35 → $3,952.48 −$421.87');
    await fold().getByRole('button', { name: 'Redo this' }).click();
    await expect.poll(() => words(says())).toBe('Redone: Length of the top top_length 84 → 96');
  });

  it('Y35 leaves the names room beside numbers of any length, at any width of the screen', async () => {
    const { page, maker } = atHand;
    await maker.type('top_length', '96');
    for (const width of [1440, 1024]) {
      await page.setViewportSize({ width, height: 900 });
      const raise = page.locator('.beside-handle[aria-expanded="false"]');
      if (await raise.isVisible()) await raise.click();
      const more = fold().getByRole('button', { name: /^and \d+ more$/ });
      if ((await more.count()) > 0) await more.click();
      const squeezed = () =>
        fold()
          .locator('tr:has(th > .did-go)')
          .evaluateAll((rows) =>
            rows.flatMap((row) => {
              const name = row.querySelector('.did-go');
              const head = row.querySelector('th');
              if (name === null || head === null) return ['a line without a name'];
              const lines = name.getBoundingClientRect().height / 18;
              const share = head.clientWidth / row.clientWidth;
              return share >= 0.5 && lines < 2.6 ? [] : [`${name.textContent}: ${share}, ${lines}`];
            }),
          );
      await expect.poll(async () => [width, await squeezed()]).toEqual([width, []]);
    }
  });

  it.each([
    [1440, 900],
    [1024, 768],
  ])(
    'Y35 is told in a line over what is read meanwhile, which stays where it is and leads to the list (%i × %i)',
    async (width, height) => {
      const { page, maker } = atHand;
      await maker.type('top_length', '96');
      await expect.poll(() => words(says())).toBe('Length of the top top_length 84 → 96');
      await page.setViewportSize({ width, height });
      const raise = page.locator('.beside-handle[aria-expanded="false"]');
      if (await raise.isVisible()) await raise.click();
      const over = page.locator('.did-over > .did-line');
      const panel = page.locator('.beside-body');
      await standing(says());
      // The list is in sight, and told once.
      expect(await over.count()).toBe(0);
      const read = panel.locator('.checks > li').nth(3);
      await read.evaluate((one) => one.scrollIntoView({ block: 'center' }));
      expect(await words(over)).toMatch(/^Length of the top 84 → 96 Price \+\$421\.87/);
      const before = await standing(read);
      const box = page.locator('.go-to input');
      await box.fill('top_width');
      await box.press('Enter');
      await page.keyboard.type('40');
      await press('Enter');
      await expect.poll(() => words(over)).toMatch(/^Width of the top 42 → 40 Price −/);
      const after = await standing(read);
      expect(Math.abs((after?.y ?? Number.NaN) - (before?.y ?? 0))).toBeLessThan(1);
      // It covers nothing that the keys lead to.
      const edit = panel.locator('.check-change').first();
      await edit.focus();
      await read.getByRole('button').last().focus();
      for (const key of ['Shift+Tab', 'Shift+Tab', 'Shift+Tab']) await press(key);
      const [line, focused] = [await over.boundingBox(), await standing(panel.locator(':focus'))];
      expect(focused?.y).toBeGreaterThanOrEqual((line?.y ?? 0) + (line?.height ?? Number.NaN) - 1);
      await over.click();
      await expect.poll(() => over.count()).toBe(0);
      const [head, all] = [await says().boundingBox(), await panel.boundingBox()];
      expect(head?.y).toBeGreaterThanOrEqual(all?.y ?? Number.NaN);
      expect(await page.evaluate(() => document.activeElement?.textContent)).toBe(
        'What the last change did',
      );
    },
  );

  it.each([
    [1440, 900],
    [1024, 768],
    [390, 844],
  ])(
    'Y35 is told in a line that begins with what cannot be built, and speaks of no price (%i × %i)',
    async (width, height) => {
      const { page, maker } = atHand;
      await maker.type('rough_quarters', '6/4');
      await expect.poll(() => maker.check('planwhole').getAttribute('data-state')).toBe('stop');
      // The list comes into sight by itself where a check turned: read on, and the line stands over it.
      await standing(says());
      await page
        .locator('.checks > li')
        .nth(3)
        .evaluate((one) => one.scrollIntoView({ block: 'center' }));
      await page.setViewportSize({ width, height });
      const line = page.locator('.did-line').filter({ visible: true });
      await expect.poll(() => words(line)).toMatch(/^Problem: 6\/4 boards plane to 1 5\/16 in; /);
      expect(await words(line)).not.toMatch(/Price/);
      // The sentence is seen and not wrapped away.
      const first = await line.locator(':scope > :first-child').boundingBox();
      const all = await line.boundingBox();
      expect(first?.width).toBeGreaterThan(150);
      expect((first?.y ?? 0) + (first?.height ?? 0)).toBeLessThanOrEqual(
        (all?.y ?? 0) + (all?.height ?? 0) + 1,
      );
    },
  );

  it('Y35 counts a price without the wood of some pieces as no saving', async () => {
    const { maker } = atHand;
    await maker.type('rough_quarters', '6/4');
    await expect
      .poll(() => words(line('Price')))
      .toMatch(/^Price \$[\d,.]+ → \$[\d,.]+ without \d+ pieces$/);
  });

  it('Y35 says that a formula was typed over, and restores it', async () => {
    const { page, maker } = atHand;
    await maker.type('rough_thickness', '6/4');
    const over = fold().locator('.did-over-formula');
    await expect
      .poll(() => words(over))
      .toBe('Typed over a formula: the cell stays as typed. Restore the formula');
    await expect.poll(told).toMatch(/^Rough thickness 2 to 1 1\/2\. Typed over a formula\. /);
    await over.getByRole('button').click();
    await expect.poll(() => words(says())).toMatch(/^Rough thickness .*1 1\/2 → 2$/);
    expect(await over.count()).toBe(0);
    expect(await page.locator('.override-line').count()).toBe(0);
    // On a smaller screen the line says so, before any price.
    await page.setViewportSize({ width: 1024, height: 768 });
    const line = page.locator('.did-line').filter({ visible: true });
    // A list that stands open after what came before has no need of the line.
    const handle = page.locator('.beside-handle');
    if ((await handle.getAttribute('aria-expanded')) === 'true') await handle.click();
    await line.waitFor();
    await maker.type('rough_thickness', '6/4');
    await expect
      .poll(() => words(line))
      .toMatch(/^Rough thickness 2 → 1 1\/2 Typed over a formula Price /);
  });

  it('Y36 stays beside the next one where it is kept, and is undone with what followed', async () => {
    await atHand.maker.type('top_length', '96');
    await expect.poll(() => words(says().first())).toBe('Length of the top top_length 84 → 96');
    await fold().getByRole('button', { name: 'Keep to compare' }).click();
    await atHand.maker.type('top_width', '40');
    await expect
      .poll(() => says().allTextContents())
      .toEqual(['Length of the top top_length 84 → 96', 'Width of the top top_width 42 → 40']);
    const kept = fold().locator('.did[data-kept="true"]');
    await kept.getByRole('button', { name: 'Undo this and 1 later change' }).click();
    await expect
      .poll(() => says().allTextContents())
      .toEqual(['Length of the top top_length 84 → 96', '2 changes undone']);
    expect(await kept.getByRole('button', { name: 'Undone already' }).isDisabled()).toBe(true);
    await kept.getByRole('button', { name: 'Dismiss' }).click();
    expect(await says().allTextContents()).toEqual(['2 changes undone']);
    expect(await atHand.maker.shows('top_length')).toBe('84');
  });
});
