import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { LEFT_OUT } from '@kerfbook/grid/scripts/leave-out.mjs';
import { modulesOfBuild } from '@kerfbook/grid/scripts/modules.mjs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { BUILT } from '../scripts/chromium.mjs';
import { type App, complaintsOf, startApp } from './support/app.ts';
import { violations } from './support/axe.ts';
import { command, Maker, words } from './support/maker.ts';

/** The page of licences: what it names, where it is reached, and that it is there without a network. */

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

describe('the page of licences', () => {
  it('names every package that went into the app, and none besides', async () => {
    const contained = new Set(
      (await modulesOfBuild()).flatMap((id) => {
        const [name] =
          id
            .split('node_modules/')
            .at(-1)
            ?.match(/^(?:@[^/]+\/)?[^/]+/) ?? [];
        return id.includes('node_modules/') && name !== undefined ? [name] : [];
      }),
    );
    expect(contained.size).toBeGreaterThan(10);
    const page = readFileSync(join(BUILT, 'licences.html'), 'utf8');
    const named = [...page.matchAll(/<th scope="row">([^<]+)<\/th>/g)].map(([, name]) => name);
    // The tools of the build write some lines of their own into it, which come from no module.
    expect(named.sort()).toEqual([...contained, 'rolldown', 'vite'].sort());
  });

  it('says under what the app as a whole is handed on, and holds that text', async () => {
    const page = await app.open();
    await page.goto(`${app.address}licences.html`);
    const text = await words(page.locator('main'));
    expect(text).toContain(
      'as a whole the app is handed on under the GNU General Public License, version 3',
    );
    expect(text).toContain('TERMS AND CONDITIONS');
    const rows = await page.locator('tbody tr').allInnerTexts();
    expect(rows.find((row) => row.startsWith('hyperformula'))).toContain('GPL-3.0-only');
    // Whoever changes a part says so.
    for (const { of, what } of LEFT_OUT) {
      expect(
        rows.some((row) => row.startsWith(`${of}\t`)),
        of,
      ).toBe(true);
      expect(await words(page.locator('li').filter({ hasText: of }))).toContain(what);
    }
    // Every link leads to a text.
    const links = await page
      .locator('tbody a')
      .evaluateAll((all) =>
        all.map((link) => document.querySelector(link.getAttribute('href') ?? '')?.textContent),
      );
    expect(links.length).toBeGreaterThanOrEqual(rows.length);
    expect(links).not.toContain(undefined);
    await page.context().close();
  });

  it.each([
    ['light', 1440, 900],
    ['dark', 768, 1024],
  ] as const)('can be read in %s at %i by %i', async (colorScheme, width, height) => {
    const page = await app.open({
      colorScheme,
      viewport: { width, height },
      bypassCSP: true,
    });
    const complaints = complaintsOf(page);
    await page.goto(`${app.address}licences.html`);
    expect(await violations(page)).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(
      width,
    );
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('is reached from the workbooks, also with the network off', async () => {
    const page = await app.open({ serviceWorkers: 'allow' });
    await new Maker(page).ready();
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
    await page.reload();
    await new Maker(page).ready();
    await page.context().setOffline(true);
    await command(page, 'Workbooks');
    const opened = page.context().waitForEvent('page');
    await page.getByRole('link', { name: 'Licenses' }).click();
    const licences = await opened;
    expect(await words(licences.getByRole('heading', { level: 1 }))).toBe('Licenses');
    expect(await licences.locator('tbody tr').count()).toBeGreaterThan(10);
    await page.context().close();
  });
});
