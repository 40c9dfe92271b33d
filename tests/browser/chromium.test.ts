import { expect, it } from 'vitest';
import { launchChromium } from '../scripts/chromium.mjs';

it('Chromium is started without all that its driver leaves out, and more', async () => {
  const browser = await launchChromium();
  const page = await browser.newPage();
  await page.goto('chrome://version');
  const line = (await page.locator('#command_line').textContent()) ?? '';
  await browser.close();
  const lists = [...line.matchAll(/--disable-features=(\S+)/g)].map(([, list = '']) =>
    list.split(','),
  );
  // The driver's own, and ours, which is the one that counts.
  expect(lists).toHaveLength(2);
  expect(lists[1]).toEqual(expect.arrayContaining(lists[0] ?? []));
});
