import type { Locator } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type App, startApp } from './support/app.ts';
import { Maker } from './support/maker.ts';
import { SCREENS } from './support/screens.ts';

/** Who hears a control without seeing its row knows what it is about: no two in one region sound alike. */

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

/** Choices within a list are told apart by the list they are in. */
const ROLES =
  'button|link|textbox|searchbox|combobox|checkbox|radio|spinbutton|slider|menuitem|listbox|switch|tab';

/** The enabled controls of a region as a screen reader is told of them, each `role "name"`. */
async function controls(region: Locator): Promise<readonly string[]> {
  const tree = await region.ariaSnapshot();
  const line = new RegExp(`^\\s*- '?((?:${ROLES})\\b(?: "(?:[^"\\\\]|\\\\.)*")?)(.*)$`);
  return tree.split('\n').flatMap((one) => {
    const [, control, more = ''] = line.exec(one) ?? [];
    return control === undefined || more.includes('[disabled]') ? [] : [control];
  });
}

describe('the controls of', () => {
  it.each(SCREENS)('$name have a name each, and no two the same', async ({ open }) => {
    const page = await app.open();
    const maker = new Maker(page);
    await maker.ready();
    const found = await controls(await open(maker));
    expect(found.length).toBeGreaterThan(0);
    expect(found.filter((one) => !one.includes('"'))).toEqual([]);
    expect(found.filter((one, i) => found.indexOf(one) !== i)).toEqual([]);
    await page.context().close();
  });
});
