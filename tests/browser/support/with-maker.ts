import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect } from 'vitest';
import { type App, complaintsOf, startApp } from './app.ts';
import { beginAnew } from './begin-anew.ts';
import { Maker } from './maker.ts';

/** What a test has at hand; made anew for each. */
export interface AtHand {
  page: Page;
  maker: Maker;
  /** What the page complained of; a test that expects a complaint takes it out. */
  complaints: string[];
}

const SCREEN = { width: 1440, height: 900 };

/**
 * Opens the app on the dining table before each test of a file, in a profile of its own, and holds at
 * its end that the page has complained of nothing.
 * @param shared for files whose tests mind the page and not how it is opened: it stays open from test to test, and
 *   each has the dining table anew in it, which costs less than opening the app. After a test that failed it is opened anew.
 */
export function withMaker({ shared = false } = {}): AtHand {
  let app: App;
  const atHand = {} as AtHand;
  let isOpen = false;

  async function open(): Promise<void> {
    atHand.page = await app.open();
    atHand.complaints = complaintsOf(atHand.page);
    atHand.maker = new Maker(atHand.page);
    await atHand.maker.ready();
  }

  beforeAll(async () => {
    app = await startApp();
  });
  afterAll(() => app.close());
  beforeEach(async () => {
    if (!isOpen) return open();
    isOpen = false;
    await atHand.page.setViewportSize(SCREEN);
    await beginAnew(atHand.maker);
  });
  afterEach(async ({ task }) => {
    const { complaints, page } = atHand;
    expect(complaints).toEqual([]);
    isOpen = shared && task.result?.state !== 'fail';
    if (!isOpen) await page.context().close();
  });
  return atHand;
}
