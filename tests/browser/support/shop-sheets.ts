import type { Page } from 'playwright-core';
import { activity } from './maker.ts';

/** Turns to the shop sheets, and has these on paper and no others. */
export async function onlySheets(
  page: Page,
  ...names: readonly (string | RegExp)[]
): Promise<void> {
  await activity(page, 'Shop sheets');
  const shop = page.locator('.paper-view');
  await shop.locator('.page').first().waitFor();
  for (const tick of await shop.locator('fieldset').last().getByRole('checkbox').all()) {
    await tick.uncheck();
  }
  for (const name of names) await shop.getByLabel(name, { exact: true }).check();
}
