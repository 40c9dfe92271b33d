import { leave } from './leave.ts';
import type { Maker } from './maker.ts';

/**
 * Leaves what a test left open, and has the dining table as it ships, as a maker has it again without opening the
 * app anew: where something was changed or another workbook is open, the list of workbooks begins it.
 */
export async function beginAnew(maker: Maker): Promise<void> {
  const { page } = maker;
  await page.mouse.move(0, 0);
  await leave(page);
  // An area that was copied or cut is let go of.
  await page.keyboard.press('Escape');
  if (!(await isUntouched(maker))) {
    const dialog = await maker.workbooks();
    await dialog
      .locator('.book-section', { hasText: 'Built-in templates' })
      .getByRole('button', { name: /^(Start a new one|Open): Dining table$/ })
      .click();
    await dialog.waitFor({ state: 'hidden' });
    await maker.ready();
    await page.locator('.saved-state[data-kind="untouched"]').waitFor();
  }
  // Wherever it was scrolled to, on whatever sheet: the box goes there and selects that cell alone.
  const box = page.locator('.go-to input');
  await box.fill('Brief!A1');
  await box.press('Enter');
  // The keys are the grid's again only then: what is typed sooner goes to the box, and is lost with it.
  await page.locator('.ag-row[row-id="0"] .ag-cell:focus').waitFor();
}

/** Whether the dining table is open and nothing was changed in it, as the page says. */
async function isUntouched({ page, saved }: Maker): Promise<boolean> {
  const [title, says] = await Promise.all([
    page.locator('.top-title-words').textContent(),
    saved.first().textContent(),
  ]);
  return title?.trim() === 'Dining table' && says?.trim() === 'Nothing to save yet';
}
