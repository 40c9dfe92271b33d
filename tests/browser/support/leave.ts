import type { Page } from 'playwright-core';
import { activity } from './maker.ts';

/** Leaves whatever is open, an entry too: the page stands on the workbook, as it was. */
export async function leave(page: Page): Promise<void> {
  const open = page.locator('dialog[open], [role="menu"], .choice-list, .cell-entry');
  while ((await open.count()) > 0) {
    await page.keyboard.press('Escape');
    await page.waitForTimeout(50);
  }
  const raised = page.locator('.beside-handle[aria-expanded="true"]');
  if (await raised.isVisible()) await raised.click();
  await activity(page, 'Workbook');
}
