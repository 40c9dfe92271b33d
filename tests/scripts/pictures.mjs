/**
 * The main screens as they are kept in pictures: the README shows the first, and a test holds all of them.
 *
 * @typedef {object} Picture
 * @property {string} name of its file, without the ending
 * @property {readonly [width: number, height: number]} size
 * @property {'light' | 'dark'} scheme
 * @property {(page: import('playwright-core').Page) => Promise<void>} show leads from the app as it opens to
 *   what is pictured
 */

/** @param {import('playwright-core').Page} page @param {string} what */
async function turnTo(page, what) {
  await page.locator('.activity', { hasText: what }).click();
}

/** Types a new length of the top, and waits for what it did. @param {import('playwright-core').Page} page */
async function lengthen(page) {
  await page.getByLabel('Name or address of the cell; type one to go there').fill('top_length');
  await page.keyboard.press('Enter');
  await page.keyboard.type("8'");
  await page.keyboard.press('Enter');
  // On a wide screen the line for small ones is there too, and hidden.
  await page.locator('.did-line:visible, .did-says:visible').first().waitFor();
}

/** @type {readonly Picture[]} */
export const PICTURES = [
  { name: 'dining-table', size: [1440, 900], scheme: 'light', show: lengthen },
  { name: 'workbook-dark', size: [1440, 900], scheme: 'dark', show: lengthen },
  { name: 'workbook-tablet', size: [1024, 768], scheme: 'light', show: lengthen },
  { name: 'workbook-upright', size: [768, 1024], scheme: 'dark', show: lengthen },
  {
    name: 'drawing',
    size: [1440, 900],
    scheme: 'light',
    show: async (page) => {
      await turnTo(page, 'Drawing');
      await page.locator('.app-page svg').first().waitFor();
    },
  },
  {
    name: 'cut-and-buy',
    size: [1440, 900],
    scheme: 'light',
    show: async (page) => {
      await turnTo(page, 'Cut and buy');
      await page.getByText('Cutting plan').first().waitFor();
    },
  },
  {
    name: 'shop-sheets',
    size: [1024, 768],
    scheme: 'light',
    show: async (page) => {
      await turnTo(page, 'Shop sheets');
      await page.locator('.app-page .page').first().waitFor();
    },
  },
  {
    name: 'bench-list-phone',
    size: [390, 844],
    scheme: 'light',
    show: async (page) => {
      await turnTo(page, 'Bench list');
      await page.getByText('pieces cut').first().waitFor();
    },
  },
];

/**
 * Opens the app in a profile of its own and takes one of its pictures, on a day that is always the same.
 * @param {import('playwright-core').Browser} browser
 * @param {string} address
 * @param {Picture} picture
 * @returns {Promise<Buffer>} as PNG
 */
export async function take(browser, address, { size: [width, height], scheme, show }) {
  const context = await browser.newContext({
    viewport: { width, height },
    colorScheme: scheme,
    reducedMotion: 'reduce',
    hasTouch: width < 1200,
  });
  try {
    const page = await context.newPage();
    page.setDefaultTimeout(60_000);
    // Where a browser keeps what it is told to keep, no notice of risk comes.
    await page.addInitScript(() => {
      navigator.storage.persist = async () => true;
      navigator.storage.persisted = async () => true;
    });
    await page.clock.setFixedTime(new Date('2026-11-27T10:00:00'));
    await page.goto(address);
    await page.locator('.ag-cell').first().waitFor();
    await page.locator('.drawing-pane svg').first().waitFor();
    await page.evaluate(() => document.fonts.ready);
    await show(page);
    // What comes in late is there when nothing is asked for any more, and nothing is still being proven.
    await page.waitForLoadState('networkidle');
    await page.locator('.proving-line').waitFor({ state: 'detached' });
    await page.waitForTimeout(500);
    return await page.screenshot();
  } finally {
    await context.close();
  }
}
