import { activity, type Maker } from './maker.ts';

/** The charts as the menu calls them. */
export const CHARTS = 'Charts: the year, the price';

/** Starts the variants of the dining table with one of them, 96 in long, and comes back to where they stand side by side. */
export async function writeVariant({ page }: Maker): Promise<void> {
  const sideBySide = async (): Promise<void> => {
    await activity(page, 'What if');
    await page.getByRole('button', { name: 'Variants side by side' }).click();
  };
  await sideBySide();
  await page.getByRole('button', { name: 'Start a variants table' }).click();
  await page.getByRole('button', { name: 'To the variants' }).click();
  await page.locator('.ag-cell.ag-cell-focus, .ag-cell:focus').first().waitFor();
  await page.keyboard.type('Oak, 8 ft');
  await page.keyboard.press('Tab');
  await page.keyboard.type('96');
  await page.keyboard.press('Enter');
  await page.keyboard.press('ArrowUp');
  await page.keyboard.press('ArrowUp');
  await page.keyboard.press('ArrowRight');
  await page.keyboard.type('top_length');
  await page.keyboard.press('Enter');
  await sideBySide();
}
